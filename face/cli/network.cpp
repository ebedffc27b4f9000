#include "face/cli/network.hpp"

#include <algorithm>

#include "desk/moment.hpp"
#include "edge/tls/host.hpp"

namespace hw::cli {

namespace {

constexpr std::int64_t look_every_s = 10;

/// What this computer is called: as chosen, by itself, and to itself. The first word under localhost is for trying it out here.
std::vector<std::string> names_of(const std::string& chosen) {
    std::vector<std::string> out{chosen};
    for (const std::string& name : {tls::machine_name(), std::string("localhost"), chosen.substr(0, chosen.find('.')) + ".localhost"})
        if (!name.empty() && std::find(out.begin(), out.end(), name) == out.end()) out.push_back(name);
    return out;
}

}  // namespace

desk::NetworkState NetworkKeeper::state() {
    const auto wish = people_.network();
    const std::scoped_lock lock(guard_);
    desk::NetworkState out = shown_;
    // What was wished a moment ago is on its way.
    if (wish.ok() && (wish->on != out.on || wish->name != out.name)) {
        out = {};
        out.on = wish->on;
        out.name = wish->name;
    }
    return out;
}

void NetworkKeeper::show(const desk::NetworkState& state) {
    const std::scoped_lock lock(guard_);
    shown_ = state;
}

void NetworkKeeper::close(http::Server& server) {
    if (server.tls_port() != 0) server.close_network();
    authority_.reset();
    name_.clear();
}

void NetworkKeeper::tend(http::Server& server) {
    const auto wish = people_.network();
    if (!wish.ok()) return;
    if (!wish->on) {
        close(server);
        desk::NetworkState off;
        off.name = wish->name;
        show(off);
        looked_s_ = 0;
        return;
    }
    const std::int64_t now = clock_.now_s();
    if (name_ == wish->name && now < looked_s_ + look_every_s && now >= looked_s_) return;
    looked_s_ = now;
    const auto done = listen(server, wish->name);
    if (done.ok()) return;
    close(server);
    name_ = wish->name;  // tried; again in a while
    desk::NetworkState failed;
    failed.on = true;
    failed.name = wish->name;
    failed.trouble = done.error().message;
    show(failed);
}

Result<Done> NetworkKeeper::listen(http::Server& server, const std::string& name) {
    const std::int64_t now = clock_.now_s();
    const auto names = names_of(name);
    const auto addresses = tls::private_addresses();
    if (!authority_ || name_ != name) {
        HW_TRY(opened, tls::Authority::open(folder_, name, tls::machine_name(), now));
        authority_ = std::move(opened);
        name_ = name;
    }
    HW_TRY(renewed, authority_->tend(names, addresses, now));
    if (renewed || server.tls_port() == 0) {
        http::NetworkDoor door;
        door.port = port_;
        door.first_port = first_port_;
        door.hosts = names;
        door.hosts.insert(door.hosts.end(), addresses.begin(), addresses.end());
        door.chain_pem = authority_->server().chain_pem;
        door.key_pem = authority_->server().key_pem;
        door.authority_der = authority_->certificate_der();
        door.fingerprint = authority_->fingerprint();
        HW_TRY(open, server.open_network(door));
        static_cast<void>(open);
    }
    show({true, true, name, names, addresses, server.tls_port(), server.first_port(), authority_->fingerprint(), desk::moment(authority_->server().until_s), ""});
    return Done{};
}

Result<Done> carry_out(const std::string& order, desk::People& people) {
    const auto after = [&](const std::string& word) { return order.rfind(word, 0) == 0 ? std::optional(order.substr(word.size())) : std::nullopt; };
    if (const auto name = after("unlock ")) {
        HW_TRY(person, people.by_name(*name));
        return people.unlock(person.id);
    }
    if (const auto name = after("network on ")) return people.network_on(*name);
    if (order == "network off") return people.network_off();
    return Error{ErrorCode::InvalidInput, "There is no such order.", ""};
}

}  // namespace hw::cli
