// What is answered to a request, free of the network: who may ask, which route, which reply.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "desk/people.hpp"
#include "desk/ports.hpp"

namespace hw::http {

/// Loopback is for this machine, Tls for the shop network. (What a phone gets before it trusts us is in first_door.hpp.)
enum class Door { Loopback, Tls };

class Works;

/// A request as it came in.
struct Asked {
    std::string method;
    std::string path;
    std::string body;
    std::string host, origin, fetch_site, content_type;  ///< headers; empty when not sent
    std::string after, limit;                            ///< query arguments of lists
    std::string paper;                                   ///< query argument of a print
    std::string offset;                                  ///< query argument of an upload
    std::string name, by_hand;                           ///< query arguments of a data sheet that comes
    std::string number;                                  ///< query argument of a page of it
    bool gzip = false;                                   ///< the client unpacks gzip
    std::string id;                                      ///< ours, for the log and the problem body
    std::string argument;                                ///< what stands for {…} in the route
    Door door = Door::Loopback;                          ///< where it came in
    std::string address;                                 ///< of the client; the network part only for IPv6
    std::string token;                                   ///< of the cookie of that door
    bool sign_in_needed = false;                         ///< at that door, just now
    std::string person_id, person_name, session_id;      ///< who asks; empty when no accounts are needed
    desk::Role role = desk::Role::None;                  ///< what they may do; the owner's when no accounts are needed
    Works* works = nullptr;                              ///< the long work of this program
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
    std::string cookie;                                  ///< Set-Cookie
    int retry_after_s = 0;                               ///< with a 429
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
/// Whether an authority is one of these hosts, whatever its port. IPv6 addresses stand without brackets in `hosts`.
bool is_one_of(std::string_view authority, const std::vector<std::string>& hosts);
/// localhost and what lies under it, 127.0.0.0/8, ::1.
bool is_loopback_name(std::string_view authority);
/// `__Host-hidewright` over TLS, `hidewright` on loopback, where a browser takes no cookie that must be secure.
const char* cookie_name(Door door);

class App {
public:
    App(desk::Ports& ports, std::function<void(const std::string&)> log);
    ~App();

    /// A new id for a request.
    std::string next_id();
    /// Fills in who asks. The refusal of a request that must not come through the door, if it is one: decided without its body.
    std::optional<Reply> turned_away(Asked& asked) const;
    /// The hosts by which the network reaches us, from now on.
    void answer_to(std::vector<std::string> hosts);
    /// The reply; what is thrown inside becomes a problem with an id. Writes one line into the log.
    Reply answer(Asked asked);
    /// Writes the line of a request that was answered elsewhere.
    void note(const Asked& asked, int status, std::string_view more = {}) const;

    static std::vector<Route> routes();

private:
    Reply dispatch(Asked& asked);
    /// Fills in who asks.
    std::optional<Reply> identify(Asked& asked) const;
    [[nodiscard]] bool is_ours(const Asked& asked) const;

    desk::Ports& ports_;
    std::function<void(const std::string&)> log_;
    std::atomic<std::uint64_t> count_{0};
    mutable std::mutex guard_;                           ///< of hosts_
    std::vector<std::string> hosts_;
    std::unique_ptr<Works> works_;
};

/// Largest body that is read there, in bytes.
std::size_t body_limit_of(std::string_view path);

/// A refusal by HTTP itself: the status and its title, a sentence, the field.
Reply door_refusal(int status, std::string_view title, std::string sentence, std::string where, const std::string& id);

}  // namespace hw::http
