// What is answered to a request, free of the network: who may ask, which route, which reply.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "desk/people.hpp"
#include "desk/ports.hpp"

namespace hw::http {

/// A request as it came in.
struct Asked {
    std::string method;
    std::string path;
    std::string body;
    std::string host, origin, fetch_site, content_type;  ///< headers; empty when not sent
    std::string after, limit;                            ///< query arguments of lists
    std::string paper;                                   ///< query argument of a print
    std::string offset;                                  ///< query argument of an upload
    bool gzip = false;                                   ///< the client unpacks gzip
    std::string id;                                      ///< ours, for the log and the problem body
    std::string argument;                                ///< what stands for {…} in the route
    std::string person_id, person_name;                  ///< who asks; empty when no accounts are needed
    desk::Role role = desk::Role::None;                  ///< what they may do; the owner's when no accounts are needed
};

struct Reply {
    int status = 200;
    std::string type = "application/json";
    std::string body;
    std::string_view still;                              ///< bytes inside the program, sent instead of body
    std::string tag;                                     ///< ETag of the still bytes
    std::string_view encoding;                           ///< "gzip" or empty
    bool lasting = false;                                ///< its name changes with its content: never asked for again
    bool inert = false;                                  ///< bytes that somebody sent: nothing in them may run
    bool attached = false;                               ///< to save, not to show
    std::string allow;                                   ///< methods of the route, with a 405
    std::string file_name;                               ///< to save it under; ASCII, nothing that a user typed
};

/// A route: `{…}` stands for one part of the path.
struct Route {
    std::string_view method;
    std::string_view path;
    desk::Role least = desk::Role::Owner;                ///< the least role that may call it
};

/// Whether an authority (`localhost:8080`) names this machine.
bool is_local(std::string_view authority);

class App {
public:
    App(desk::Ports& ports, std::function<void(const std::string&)> log);

    /// A new id for a request.
    std::string next_id();
    /// The refusal of a request that must not come through the door, if it is one: decided without its body.
    std::optional<Reply> turned_away(const Asked& asked) const;
    /// The reply; what is thrown inside becomes a problem with an id. Writes one line into the log.
    Reply answer(Asked asked);
    /// Writes the line of a request that was answered elsewhere.
    void note(const Asked& asked, int status, std::string_view more = {}) const;

    static std::vector<Route> routes();

private:
    Reply dispatch(Asked& asked);
    /// Fills in who asks.
    void identify(Asked& asked) const;

    desk::Ports& ports_;
    std::function<void(const std::string&)> log_;
    std::atomic<std::uint64_t> count_{0};
};

/// A refusal by HTTP itself: the status and its title, a sentence, the field.
Reply door_refusal(int status, std::string_view title, std::string sentence, std::string where, const std::string& id);

}  // namespace hw::http
