#include "edge/http/handler.hpp"

#include <charconv>

namespace hw::http {

namespace {

constexpr int page_default = 50, page_most = 200;

}  // namespace

Reply failed(const Error& error, const std::string& id) {
    Reply r;
    r.status = error_row(error.code).http_status;
    r.type = "application/problem+json";
    r.body = codec::problem(error, id);
    return r;
}

Reply json(std::string body) {
    Reply r;
    r.body = std::move(body);
    return r;
}

Reply not_for_this_role(const Asked& asked) { return door_refusal(403, "Forbidden", "This is not for your role. Ask an owner of the workshop.", "role", asked.id); }

Reply moved(const Result<Done>& done, const std::string& id) { return done.ok() ? json("{}") : failed(done.error(), id); }

Reply told_id(const Result<std::string>& kept, const std::string& id) {
    return kept.ok() ? json(codec::id_written(*kept)) : failed(kept.error(), id);
}

Result<desk::Page> page_of(const Asked& asked) {
    desk::Page page;
    page.after = asked.after;
    page.limit = page_default;
    if (asked.limit.empty()) return page;
    const char* end = asked.limit.data() + asked.limit.size();
    const auto [stopped, fault] = std::from_chars(asked.limit.data(), end, page.limit);
    if (fault != std::errc{} || stopped != end || page.limit < 1 || page.limit > page_most)
        return Error{ErrorCode::InvalidInput, "Give a whole number from 1 to " + std::to_string(page_most) + ".", "limit"};
    return page;
}

}  // namespace hw::http
