// What every file of handlers shares: the row of the table of routes, and the usual replies. Not for other rooms.
#pragma once

#include <cstddef>
#include <string>
#include <utility>

#include "base/result.hpp"
#include "desk/ports.hpp"
#include "edge/codec/codec.hpp"
#include "edge/http/app.hpp"

namespace hw::http {

/// A row of the table: the route with the least role that may call it, and what answers it.
struct Handler {
    Route route;
    Reply (*answer)(const Asked&, desk::Ports&);
};

/// A table of one file; `all_handlers()` in app.cpp puts them together.
struct Handlers {
    const Handler* rows;
    std::size_t count;
};

Handlers people_handlers();

Reply failed(const Error& error, const std::string& id);
Reply json(std::string body);
/// 403: the person is known, and this is not for the role.
Reply not_for_this_role(const Asked& asked);
/// The page of a list that `after` and `limit` ask for. @error InvalidInput
Result<desk::Page> page_of(const Asked& asked);

/// The value written as JSON, or the problem.
template <class T>
Reply told(const Result<T>& result, const std::string& id) {
    return result.ok() ? json(codec::written(*result)) : failed(result.error(), id);
}

/// Nothing to tell but that it was done, or the problem.
Reply moved(const Result<Done>& done, const std::string& id);
Reply told_id(const Result<std::string>& kept, const std::string& id);

template <class List>
Reply listed(const Asked& asked, const List& list) {
    const auto page = page_of(asked);
    return page.ok() ? told(list(*page), asked.id) : failed(page.error(), asked.id);
}

}  // namespace hw::http
