// Keeps what listens on the shop network as the workshop wants it: on or off, under its name, with a valid certificate.
#pragma once

#include <cstdint>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "desk/people.hpp"
#include "edge/http/server.hpp"
#include "edge/tls/authority.hpp"

namespace hw::cli {

class NetworkKeeper : public desk::Network {
public:
    NetworkKeeper(std::string folder, int port, int first_port, desk::People& people, desk::Clock& clock) : folder_(std::move(folder)), port_(port), first_port_(first_port), people_(people), clock_(clock) {}

    desk::NetworkState state() override;
    /// To be called about twice a second: follows the wish at once, the addresses of the machine and the life of the
    /// certificate every ten seconds. Needs no restart.
    void tend(http::Server& server);

private:
    Result<Done> listen(http::Server& server, const std::string& name);
    void close(http::Server& server);
    void show(const desk::NetworkState& state);

    std::string folder_;
    int port_, first_port_;
    desk::People& people_;
    desk::Clock& clock_;
    std::optional<tls::Authority> authority_;
    std::string name_;                            ///< of the authority
    std::int64_t looked_s_ = 0;
    std::mutex guard_;
    desk::NetworkState shown_;
};

/// "unlock NAME", "network on NAME", "network off".
Result<Done> carry_out(const std::string& order, desk::People& people);

}  // namespace hw::cli
