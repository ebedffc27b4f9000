// The web door: JSON verbs, the records, and the embedded page; on loopback, and on the shop network over TLS once that is on.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "desk/ports.hpp"

namespace hw::http {

struct Settings {
    int port = 8080;                             ///< 0 = any free one
    std::function<void(const std::string&)> log; ///< one line per event; no bodies, no personal data
};

/// What the shop network sees.
struct NetworkDoor {
    int port = 8443, first_port = 8081;          ///< 0 = any free one
    std::vector<std::string> hosts;              ///< names and addresses that are answered to
    std::string chain_pem, key_pem;              ///< the server's certificate and its key
    std::string authority_der, fingerprint;      ///< what phones are given to trust
};

class Server {
public:
    /// Starts to listen on 127.0.0.1. @error Unavailable  the port is taken
    static Result<std::unique_ptr<Server>> start(const Settings& settings, desk::Ports& ports);
    ~Server();
    [[nodiscard]] int port() const;

    /// Listens on every interface: with TLS, and beside it for the certificate alone. When it listens already it shows the
    /// new certificate and answers to the new names from the next connection on. One server of a program may do so.
    /// @error Unavailable  a port is taken
    Result<Done> open_network(const NetworkDoor& door);
    void close_network();
    /// 0 while it does not listen.
    [[nodiscard]] int tls_port() const;
    [[nodiscard]] int first_port() const;

private:
    struct Hidden;
    explicit Server(std::unique_ptr<Hidden> hidden);
    std::unique_ptr<Hidden> hidden_;
};

}  // namespace hw::http
