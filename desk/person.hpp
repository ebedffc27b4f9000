// The people of the workshop, their sessions and the shop network: what is kept and what goes over the wire.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"

namespace hw::desk {

/// In order of what they may do. None is somebody who has not signed in.
enum class Role { None, Reader, Technician, Owner };

// ---- kept --------------------------------------------------------------------------------------------------------------

struct Person {
    std::string id;
    std::string name;                             ///< one line, as typed; told apart without regard to a–z or A–Z
    Role role = Role::Reader;
    std::string password_hash;                    ///< with its method and cost, as `Secrets::hash` writes it
    std::int64_t made_s = 0;                      ///< Unix time
};

/// A browser in which somebody is signed in. Only the digest of its token is kept.
struct Session {
    std::string id;
    std::string person_id;
    std::string device;                           ///< what its person calls it
    std::string token_digest;
    std::int64_t made_s = 0, seen_s = 0;
};

/// A code that signs one more browser in, once.
struct Pairing {
    std::string code_digest;
    std::string person_id;
    std::int64_t until_s = 0;
};

/// Failed sign-ins under one key since they were last forgotten.
struct Attempts {
    int failures = 0;
    std::int64_t last_s = 0;
};

/// Whether the workshop wants to be reached from its network, and under which name.
struct NetworkWish {
    bool on = false;
    std::string name;
};

// ---- over the wire -----------------------------------------------------------------------------------------------------

/// What the page asks first.
struct SessionState {
    bool needed = false, signed_in = false, owner_exists = false;
    std::string person_id, name;
    Role role = Role::None;
};
template <class Visitor>
void describe(Visitor& visit, SessionState& s) {
    visit("needed", s.needed, About{.doc = "the network is on: nothing without signing in"});
    visit("signed_in", s.signed_in, About{});
    visit("owner_exists", s.owner_exists, About{.doc = "false: the network cannot be switched on yet"});
    visit("person_id", s.person_id, About{.doc = "empty while no account is needed"});
    visit("name", s.name, About{});
    visit("role", s.role, About{.doc = "what may be done here"});
}

struct SignInRequest {
    std::string name, password, device;
};
template <class Visitor>
void describe(Visitor& visit, SignInRequest& r) {
    visit("name", r.name, About{.required = true});
    visit("password", r.password, About{.required = true});
    visit("device", r.device, About{.doc = "what to call this browser in the list"});
}

struct PersonRequest {
    std::string name, password;
    Role role = Role::Technician;
};
template <class Visitor>
void describe(Visitor& visit, PersonRequest& r) {
    visit("name", r.name, About{.required = true});
    visit("role", r.role, About{.doc = "owner, technician or reader", .required = true});
    visit("password", r.password, About{.doc = "10 to 200 characters", .required = true});
}

struct RoleRequest {
    Role role = Role::Reader;
};
template <class Visitor>
void describe(Visitor& visit, RoleRequest& r) { visit("role", r.role, About{.doc = "owner, technician or reader", .required = true}); }

struct PasswordRequest {
    std::string password, present;
};
template <class Visitor>
void describe(Visitor& visit, PasswordRequest& r) {
    visit("password", r.password, About{.doc = "the new one, 10 to 200 characters", .required = true});
    visit("present", r.present, About{.doc = "the present one, for one's own"});
}

struct PersonRow {
    std::string id, name;
    Role role = Role::Reader;
    std::string made_at;
    bool waiting = false;
};
template <class Visitor>
void describe(Visitor& visit, PersonRow& r) {
    visit("id", r.id, About{});
    visit("name", r.name, About{});
    visit("role", r.role, About{});
    visit("made_at", r.made_at, About{.doc = "ISO 8601, UTC"});
    visit("waiting", r.waiting, About{.doc = "after failed sign-ins the next try has to wait"});
}

struct SessionRow {
    std::string id, person_id, person, device, made_at, seen_at;
    bool here = false;
};
template <class Visitor>
void describe(Visitor& visit, SessionRow& r) {
    visit("id", r.id, About{});
    visit("person_id", r.person_id, About{});
    visit("person", r.person, About{});
    visit("device", r.device, About{});
    visit("made_at", r.made_at, About{.doc = "ISO 8601, UTC"});
    visit("seen_at", r.seen_at, About{.doc = "ISO 8601, UTC; to five minutes"});
    visit("here", r.here, About{.doc = "the browser that asks"});
}

struct NetworkRequest {
    std::string name;
};
template <class Visitor>
void describe(Visitor& visit, NetworkRequest& r) { visit("name", r.name, About{.doc = "what phones call this computer; one word becomes word.local", .required = true}); }

struct NetworkState {
    bool on = false, listening = false;
    std::string name;
    std::vector<std::string> names, addresses;
    int port = 0, first_port = 0;
    std::string fingerprint, leaf_until, trouble;
};
template <class Visitor>
void describe(Visitor& visit, NetworkState& s) {
    visit("on", s.on, About{.doc = "wanted"});
    visit("listening", s.listening, About{.doc = "phones can reach it now"});
    visit("name", s.name, About{.doc = "what phones call this computer"});
    visit("names", s.names, About{});
    visit("addresses", s.addresses, About{.doc = "private addresses of this computer"});
    visit("port", s.port, About{.doc = "TLS"});
    visit("first_port", s.first_port, About{.doc = "the certificate and the first page, nothing else"});
    visit("fingerprint", s.fingerprint, About{.doc = "SHA-256 of the workshop's certificate"});
    visit("leaf_until", s.leaf_until, About{.doc = "the server's own certificate is renewed before; ISO 8601, UTC"});
    visit("trouble", s.trouble, About{.doc = "why it does not listen, with the remedy"});
}

struct PairingRequest {
    std::string host;
};
template <class Visitor>
void describe(Visitor& visit, PairingRequest& r) { visit("host", r.host, About{.doc = "one of the names or addresses of the network; else its name"}); }

struct PairingAnswer {
    std::string address, qr_svg, first_address, first_qr_svg, fingerprint, until;
};
template <class Visitor>
void describe(Visitor& visit, PairingAnswer& a) {
    visit("address", a.address, About{.doc = "opens once, on a phone that trusts the workshop's certificate"});
    visit("qr_svg", a.qr_svg, About{.doc = "the same as a picture"});
    visit("first_address", a.first_address, About{.doc = "where a phone gets the certificate"});
    visit("first_qr_svg", a.first_qr_svg, About{});
    visit("fingerprint", a.fingerprint, About{.doc = "SHA-256 of the workshop's certificate"});
    visit("until", a.until, About{.doc = "ISO 8601, UTC"});
}

struct PairRequest {
    std::string code, device;
};
template <class Visitor>
void describe(Visitor& visit, PairRequest& r) {
    visit("code", r.code, About{.required = true});
    visit("device", r.device, About{.doc = "what to call this phone in the list"});
}

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Role> {
    static constexpr std::array<std::pair<desk::Role, std::string_view>, 4> names{
        {{desk::Role::None, "none"}, {desk::Role::Reader, "reader"}, {desk::Role::Technician, "technician"}, {desk::Role::Owner, "owner"}}};
};
