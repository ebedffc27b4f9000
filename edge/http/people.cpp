// Who may come in, over HTTP: sessions, people, the network, phones.
#include <iterator>

#include "desk/moment.hpp"
#include "desk/people.hpp"
#include "edge/http/handler.hpp"

namespace hw::http {

namespace {

using desk::Role;

Reply without_accounts(const Asked& asked) { return failed({ErrorCode::Unavailable, "There are no accounts here.", ""}, asked.id); }

/// Lasts as long as the session may; over TLS bound to this host alone.
std::string cookie(const Asked& asked, const std::string& token) {
    return std::string(cookie_name(asked.door)) + "=" + token + "; Path=/; Max-Age=" + std::to_string(token.empty() ? 0 : desk::session_most_s) + "; HttpOnly; SameSite=Strict" + (asked.door == Door::Tls ? "; Secure" : "");
}

desk::SessionState state_of(const Asked& asked) { return {asked.sign_in_needed, !asked.person_id.empty(), false, asked.person_id, asked.person_name, asked.role}; }

/// In, or why not: the same words whether the name, the password or the code was wrong.
Reply let_in(const Asked& asked, const Result<desk::SignInAnswer>& answer, const char* wrong) {
    if (!answer.ok()) return failed(answer.error(), asked.id);
    if (answer->wait_s > 0) {
        Reply r = door_refusal(429, "Too Many Requests", "Too many tries. Wait " + std::to_string(answer->wait_s) + " s, or let an owner unlock the account on the workshop computer.", "session", asked.id);
        r.retry_after_s = answer->wait_s;
        return r;
    }
    if (!answer->in) return door_refusal(401, "Unauthorized", wrong, "session", asked.id);
    const auto& in = *answer->in;
    Reply r = json(codec::written(desk::SessionState{asked.sign_in_needed, true, true, in.person.id, in.person.name, in.person.role}));
    if (!in.token.empty()) r.cookie = cookie(asked, in.token);
    return r;
}

Reply session(const Asked& asked, desk::Ports& ports) {
    auto state = state_of(asked);
    if (ports.people != nullptr && asked.role == Role::Owner) {
        const auto people = ports.people->all();
        if (!people.ok()) return failed(people.error(), asked.id);
        for (const auto& p : *people) state.owner_exists = state.owner_exists || p.role == Role::Owner;
    }
    return json(codec::written(state));
}

Reply sign_in(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_sign_in(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (ports.people == nullptr) return without_accounts(asked);
    return let_in(asked, ports.people->sign_in(*request, asked.address), "The name or the password is not right.");
}

Reply sign_out(const Asked& asked, desk::Ports& ports) {
    if (ports.people == nullptr || asked.session_id.empty()) return json("{}");
    Reply r = moved(ports.people->end_session(asked.session_id, asked.person_id, asked.role), asked.id);
    r.cookie = cookie(asked, "");
    return r;
}

Reply own_password(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_password(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (ports.people == nullptr) return without_accounts(asked);
    const auto visitor = ports.people->visitor(asked.token);
    if (!visitor.ok()) return failed(visitor.error(), asked.id);
    if (!*visitor) return door_refusal(401, "Unauthorized", "Sign in first.", "session", asked.id);
    return let_in(asked, ports.people->change_password(**visitor, *request, asked.address), "The present password is not right.");
}

Reply people(const Asked& asked, desk::Ports& ports) { return ports.people == nullptr ? without_accounts(asked) : told(ports.people->rows(), asked.id); }

Reply add_person(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_person(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (ports.people == nullptr) return without_accounts(asked);
    return told_id(ports.people->add(request->name, request->role, request->password), asked.id);
}

Reply set_role(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_role(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->set_role(asked.argument, request->role), asked.id);
}

Reply set_password(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_password(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->set_password(asked.argument, request->password), asked.id);
}

Reply remove_person(const Asked& asked, desk::Ports& ports) { return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->remove(asked.argument), asked.id); }
Reply unlock(const Asked& asked, desk::Ports& ports) { return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->unlock(asked.argument), asked.id); }

Reply sessions(const Asked& asked, desk::Ports& ports) {
    return ports.people == nullptr ? without_accounts(asked) : told(ports.people->sessions(asked.person_id, asked.role, asked.session_id), asked.id);
}

Reply end_session(const Asked& asked, desk::Ports& ports) {
    return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->end_session(asked.argument, asked.person_id, asked.role), asked.id);
}

Reply network(const Asked& asked, desk::Ports& ports) { return ports.network == nullptr ? without_accounts(asked) : json(codec::written(ports.network->state())); }

Reply network_on(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_network(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->network_on(request->name), asked.id);
}

Reply network_off(const Asked& asked, desk::Ports& ports) { return ports.people == nullptr ? without_accounts(asked) : moved(ports.people->network_off(), asked.id); }

std::string authority_of(const std::string& host, int port) {
    return (host.find(':') == std::string::npos ? host : "[" + host + "]") + ":" + std::to_string(port);
}

/// The name that phones shall use, or another of those they may.
Result<std::string> host_for(const desk::NetworkState& state, const std::string& wanted) {
    if (wanted.empty() || wanted == state.name) return state.name;
    for (const auto* list : {&state.names, &state.addresses})
        for (const auto& host : *list)
            if (host == wanted) return wanted;
    return Error{ErrorCode::InvalidInput, "Give one of the names or addresses of this computer.", "host"};
}

Result<desk::PairingAnswer> paired(const Asked& asked, const desk::PairingRequest& request, desk::Ports& ports) {
    const auto state = ports.network->state();
    if (!state.listening) return Error{ErrorCode::Conflict, "Switch the network on first; then pair the phone.", "network"};
    HW_TRY(host, host_for(state, request.host));
    HW_TRY(code, ports.people->new_pairing(asked.person_id));
    desk::PairingAnswer out;
    // The code stands behind the hash, which a browser sends to nobody and writes into no log.
    out.address = "https://" + authority_of(host, state.port) + "/pair#" + code.first;
    // By address, when there is one: a name may be unknown to a phone, or known to it as one to be opened over TLS only.
    out.first_address = "http://" + authority_of(!request.host.empty() || state.addresses.empty() ? host : state.addresses.front(), state.first_port) + "/";
    HW_TRY(picture, ports.qr->svg(out.address));
    HW_TRY(first, ports.qr->svg(out.first_address));
    out.qr_svg = picture;
    out.first_qr_svg = first;
    out.fingerprint = state.fingerprint;
    out.until = desk::moment(code.second);
    return out;
}

Reply new_pairing(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_pairing(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (ports.people == nullptr || ports.network == nullptr || ports.qr == nullptr) return without_accounts(asked);
    const auto answer = paired(asked, *request, ports);
    return answer.ok() ? json(codec::written(*answer)) : failed(answer.error(), asked.id);
}

Reply pair(const Asked& asked, desk::Ports& ports) {
    const auto request = codec::parse_pair(asked.body);
    if (!request.ok()) return failed(request.error(), asked.id);
    if (ports.people == nullptr) return without_accounts(asked);
    return let_in(asked, ports.people->pair(*request, asked.address), "This code was used already or has run out. Make a new one on the workshop computer.");
}

constexpr Handler handlers[] = {
    {{"GET", "/api/session", Role::None}, session},
    {{"POST", "/api/session", Role::None}, sign_in},
    {{"POST", "/api/session/end", Role::Reader}, sign_out},
    {{"POST", "/api/session/password", Role::Reader}, own_password},
    {{"GET", "/api/sessions", Role::Reader}, sessions},
    {{"POST", "/api/sessions/{id}/end", Role::Reader}, end_session},
    {{"GET", "/api/people", Role::Owner}, people},
    {{"POST", "/api/people", Role::Owner}, add_person},
    {{"POST", "/api/people/{id}/role", Role::Owner}, set_role},
    {{"POST", "/api/people/{id}/password", Role::Owner}, set_password},
    {{"POST", "/api/people/{id}/remove", Role::Owner}, remove_person},
    {{"POST", "/api/people/{id}/unlock", Role::Owner}, unlock},
    {{"GET", "/api/network", Role::Reader}, network},
    {{"POST", "/api/network/on", Role::Owner}, network_on},
    {{"POST", "/api/network/off", Role::Owner}, network_off},
    {{"POST", "/api/pairings", Role::Reader}, new_pairing},
    {{"POST", "/api/pairings/use", Role::None}, pair},
};

}  // namespace

Handlers people_handlers() { return {handlers, std::size(handlers)}; }

}  // namespace hw::http
