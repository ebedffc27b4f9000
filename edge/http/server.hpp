// The web door: JSON verbs, the records, and the embedded page, on loopback only.
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/result.hpp"
#include "desk/ports.hpp"

namespace hw::http {

struct Settings {
    int port = 8080;                             ///< 0 = any free one
    std::function<void(const std::string&)> log; ///< one line per event; no bodies, no personal data
};

class Server {
public:
    /// Starts to listen on 127.0.0.1. @error Unavailable  the port is taken
    static Result<std::unique_ptr<Server>> start(const Settings& settings, desk::Ports& ports);
    ~Server();
    [[nodiscard]] int port() const;

private:
    struct Hidden;
    explicit Server(std::unique_ptr<Hidden> hidden);
    std::unique_ptr<Hidden> hidden_;
};

}  // namespace hw::http
