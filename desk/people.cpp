#include "desk/people.hpp"

#include <algorithm>
#include <utility>

#include "desk/moment.hpp"

namespace hw::desk {

namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

bool one_line(std::string_view text) {
    return std::none_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < ' ' || c == 127; });
}

Result<Done> good_password(std::string_view password) {
    if (password.size() >= password_least && password.size() <= password_most) return Done{};
    return Error{ErrorCode::InvalidInput, "Choose a password of " + std::to_string(password_least) + " to " + std::to_string(password_most) + " characters; a short sentence is easy to remember.", "password"};
}

Result<Done> account_role(Role role) {
    if (role != Role::None) return Done{};
    return Error{ErrorCode::InvalidInput, "Choose one of: reader, technician, owner.", "role"};
}

Error nobody(std::string_view what, const char* where) {
    return {ErrorCode::NotFound, "There is nobody called \"" + std::string(what) + "\". See the list of people.", where};
}

/// What a person calls a device; anything that is no text on one line becomes a plain word.
std::string device_name(std::string_view typed, std::string_view otherwise) {
    const std::string_view text = trimmed(typed).substr(0, name_most);
    return text.empty() || !one_line(text) ? std::string(otherwise) : std::string(text);
}

bool alive(const Session& s, std::int64_t now) { return now < s.seen_s + session_idle_s && now < s.made_s + session_most_s; }

bool label_ok(std::string_view label) {
    constexpr std::size_t longest = 63;  // RFC 1035, 2.3.4
    if (label.empty() || label.size() > longest || label.front() == '-' || label.back() == '-') return false;
    return std::all_of(label.begin(), label.end(), [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; });
}

}  // namespace

int wait_after(int failures, int free) {
    if (failures <= free) return 0;
    constexpr int doublings = 10;  // 2^10 s is more than the longest wait
    return std::min(longest_wait_s, 1 << std::min(failures - free - 1, doublings));
}

Result<std::string> person_name(std::string_view typed) {
    const std::string_view name = trimmed(typed);
    if (name.empty() || name.size() > name_most || !one_line(name))
        return Error{ErrorCode::InvalidInput, "Give a name of 1 to " + std::to_string(name_most) + " characters on one line.", "name"};
    return std::string(name);
}

Result<std::string> network_name(std::string_view typed) {
    std::string name = lower(trimmed(typed));
    if (!name.empty() && name.find('.') == std::string::npos && name != "localhost") name += ".local";
    bool good = name.size() <= 200;
    std::size_t from = 0;
    for (std::size_t dot = 0; dot != std::string::npos && good; from = dot + 1) {
        dot = name.find('.', from);
        good = label_ok(std::string_view(name).substr(from, dot == std::string::npos ? dot : dot - from));
    }
    const auto under = [&](std::string_view end) { return name.size() > end.size() && name.compare(name.size() - end.size(), end.size(), end) == 0; };
    if (!good || !(under(".local") || under(".localhost") || under(".home.arpa") || under(".internal")))
        return Error{ErrorCode::InvalidInput, "Give one word of letters, digits and hyphens, such as workshop. A name with dots must end in .local, .localhost, .home.arpa or .internal, which nobody can own.", "name"};
    return name;
}

People::People(PeopleStore& store, Secrets& secrets, Clock& clock) : store_(store), secrets_(secrets), clock_(clock) {}

// ---- accounts ----------------------------------------------------------------------------------------------------------

Result<std::string> People::add(std::string_view typed, Role role, std::string_view password) {
    HW_TRY(name, person_name(typed));
    HW_TRY(role_good, account_role(role));
    HW_TRY(password_good, good_password(password));
    static_cast<void>(role_good), static_cast<void>(password_good);
    HW_TRY(hash, secrets_.hash(password));
    return store_.keep_person({"", name, role, hash, clock_.now_s()});
}

Result<std::vector<PersonRow>> People::rows() {
    HW_TRY(people, store_.people());
    std::vector<PersonRow> out;
    for (const auto& p : people) {
        HW_TRY(tries, store_.attempts("account:" + secrets_.digest(lower(p.name))));
        const bool waiting = clock_.now_s() < tries.last_s + wait_after(tries.failures, free_by_account);
        out.push_back({p.id, p.name, p.role, moment(p.made_s), waiting});
    }
    return out;
}

Result<Person> People::by_name(std::string_view name) {
    HW_TRY(people, store_.people());
    const std::string wanted = lower(trimmed(name));
    for (const auto& p : people)
        if (lower(p.name) == wanted) return p;
    return nobody(name, "name");
}

Result<std::optional<Person>> People::person(const std::string& id) {
    HW_TRY(people, store_.people());
    for (const auto& p : people)
        if (p.id == id) return std::optional<Person>(p);
    return std::optional<Person>{};
}

Result<Done> People::keeps_an_owner(const std::string& without) {
    HW_TRY(wish, store_.network());
    if (!wish.on) return Done{};
    HW_TRY(people, store_.people());
    for (const auto& p : people)
        if (p.role == Role::Owner && p.id != without) return Done{};
    return Error{ErrorCode::Conflict, "Nobody would be left who may let others in. Make somebody else an owner first, or switch the network off.", "role"};
}

Result<Done> People::set_role(const std::string& id, Role role) {
    HW_TRY(role_good, account_role(role));
    static_cast<void>(role_good);
    HW_TRY(found, person(id));
    if (!found) return nobody(id, "id");
    if (role != Role::Owner && found->role == Role::Owner) {
        HW_TRY(left, keeps_an_owner(id));
        static_cast<void>(left);
    }
    found->role = role;
    HW_TRY(kept, store_.keep_person(*found));
    static_cast<void>(kept);
    return Done{};
}

Result<Done> People::set_password(const std::string& id, std::string_view password, const std::string& except) {
    HW_TRY(good, good_password(password));
    static_cast<void>(good);
    HW_TRY(found, person(id));
    if (!found) return nobody(id, "id");
    HW_TRY(hash, secrets_.hash(password));
    found->password_hash = hash;
    HW_TRY(kept, store_.keep_person(*found));
    static_cast<void>(kept);
    HW_TRY(sessions, store_.sessions());
    for (const auto& s : sessions)
        if (s.person_id == id && s.id != except) {
            HW_TRY(ended, store_.end_session(s.id));
            static_cast<void>(ended);
        }
    return Done{};
}

Result<Done> People::remove(const std::string& id) {
    HW_TRY(found, person(id));
    if (!found) return nobody(id, "id");
    if (found->role == Role::Owner) {
        HW_TRY(left, keeps_an_owner(id));
        static_cast<void>(left);
    }
    return store_.remove_person(id);
}

Result<Done> People::unlock(const std::string& id) {
    HW_TRY(found, person(id));
    if (!found) return nobody(id, "id");
    HW_TRY(account, store_.forget_attempts("account:" + secrets_.digest(lower(found->name))));
    static_cast<void>(account);
    return store_.forget_attempts("address:");
}

// ---- signing in --------------------------------------------------------------------------------------------------------

/// Counts a try as failed before it is made. Gives the seconds to wait; 0 lets the try be made.
Result<int> People::begin_attempt(const std::string& account, const std::string& address) {
    const std::scoped_lock one_at_a_time(counting_);
    const std::int64_t now = clock_.now_s();
    const auto fresh = [now](Attempts a) { return now < a.last_s + attempts_kept_s ? a : Attempts{}; };
    HW_TRY(of_account, store_.attempts(account));
    HW_TRY(of_address, store_.attempts(address));
    of_account = fresh(of_account);
    of_address = fresh(of_address);
    const std::int64_t until = std::max(of_account.last_s + wait_after(of_account.failures, free_by_account), of_address.last_s + wait_after(of_address.failures, free_by_address));
    if (until > now) return static_cast<int>(until - now);
    HW_TRY(kept, store_.keep_attempts(account, {of_account.failures + 1, now}));
    HW_TRY(also, store_.keep_attempts(address, {of_address.failures + 1, now}));
    static_cast<void>(kept), static_cast<void>(also);
    return 0;
}

/// The try succeeded: the account starts afresh. The address only takes this one try back; else whoever has an account
/// could wipe out its guesses at another.
Result<Done> People::end_attempt(const std::string& account, const std::string& address) {
    const std::scoped_lock one_at_a_time(counting_);
    HW_TRY(of_address, store_.attempts(address));
    HW_TRY(kept, store_.keep_attempts(address, {std::max(0, of_address.failures - 1), of_address.last_s}));
    static_cast<void>(kept);
    return store_.forget_attempts(account);
}

Result<SignedIn> People::let_in(const Person& person, const std::string& device) {
    const std::int64_t now = clock_.now_s();
    SignedIn in{person, {"", person.id, device, "", now, now}, secrets_.token()};
    in.session.token_digest = secrets_.digest(in.token);
    HW_TRY(id, store_.keep_session(in.session));
    in.session.id = id;
    return in;
}

Result<SignInAnswer> People::sign_in(const SignInRequest& request, const std::string& address) {
    // The name is kept as a digest: people type passwords into the field of the name.
    const std::string account = "account:" + secrets_.digest(lower(trimmed(request.name))), from = "address:" + address;
    HW_TRY(wait, begin_attempt(account, from));
    if (wait > 0) return SignInAnswer{std::nullopt, wait};
    const auto found = by_name(request.name);
    if (!found.ok() && found.error().code != ErrorCode::NotFound) return found.error();
    // Where there is no such account the password is checked all the same, against one that nobody has.
    const bool fits = secrets_.fits(found.ok() ? found->password_hash : secrets_.nobodys_hash(), request.password);
    if (!found.ok() || !fits) return SignInAnswer{};
    HW_TRY(ended, end_attempt(account, from));
    static_cast<void>(ended);
    HW_TRY(in, let_in(*found, device_name(request.device, "browser")));
    return SignInAnswer{in, 0};
}

Result<SignInAnswer> People::change_password(const Visitor& visitor, const PasswordRequest& request, const std::string& address) {
    const std::string account = "account:" + secrets_.digest(lower(visitor.person.name)), from = "address:" + address;
    HW_TRY(good, good_password(request.password));
    static_cast<void>(good);
    HW_TRY(wait, begin_attempt(account, from));
    if (wait > 0) return SignInAnswer{std::nullopt, wait};
    if (!secrets_.fits(visitor.person.password_hash, request.present)) return SignInAnswer{};
    HW_TRY(ended, end_attempt(account, from));
    HW_TRY(set, set_password(visitor.person.id, request.password, visitor.session.id));
    static_cast<void>(ended), static_cast<void>(set);
    return SignInAnswer{SignedIn{visitor.person, visitor.session, ""}, 0};
}

// ---- sessions ----------------------------------------------------------------------------------------------------------

Result<std::optional<Visitor>> People::visitor(const std::string& token) {
    if (token.empty()) return std::optional<Visitor>{};
    HW_TRY(session, store_.session_of(secrets_.digest(token)));
    if (!session) return std::optional<Visitor>{};
    const std::int64_t now = clock_.now_s();
    HW_TRY(found, person(session->person_id));
    if (!alive(*session, now) || !found) {
        HW_TRY(ended, store_.end_session(session->id));
        static_cast<void>(ended);
        return std::optional<Visitor>{};
    }
    if (now >= session->seen_s + seen_step_s) {
        HW_TRY(seen, store_.seen(session->id, now));
        static_cast<void>(seen);
        session->seen_s = now;
    }
    return std::optional<Visitor>(Visitor{*found, *session});
}

Result<std::vector<SessionRow>> People::sessions(const std::string& person_id, Role role, const std::string& here) {
    HW_TRY(sessions, store_.sessions());
    HW_TRY(people, store_.people());
    std::vector<SessionRow> out;
    for (const auto& s : sessions) {
        if ((role != Role::Owner && s.person_id != person_id) || !alive(s, clock_.now_s())) continue;
        const auto who = std::find_if(people.begin(), people.end(), [&](const Person& p) { return p.id == s.person_id; });
        if (who != people.end()) out.push_back({s.id, s.person_id, who->name, s.device, moment(s.made_s), moment(s.seen_s), s.id == here});
    }
    return out;
}

Result<Done> People::end_session(const std::string& id, const std::string& person_id, Role role) {
    HW_TRY(sessions, store_.sessions());
    for (const auto& s : sessions)
        if (s.id == id && (role == Role::Owner || s.person_id == person_id)) return store_.end_session(id);
    return Error{ErrorCode::NotFound, "There is no such session. See the list.", "id"};
}

// ---- phones ------------------------------------------------------------------------------------------------------------

Result<std::pair<std::string, std::int64_t>> People::new_pairing(const std::string& person_id) {
    HW_TRY(found, person(person_id));
    if (!found) return Error{ErrorCode::Conflict, "A phone belongs to somebody: switch the network on and sign in first.", "person"};
    const std::string code = secrets_.code();
    const std::int64_t until = clock_.now_s() + pairing_s;
    HW_TRY(kept, store_.keep_pairing({secrets_.digest(code), person_id, until}));
    static_cast<void>(kept);
    return std::pair(code, until);
}

Result<SignInAnswer> People::pair(const PairRequest& request, const std::string& address) {
    const std::string from = "address:" + address, code = "pairing:" + address;
    HW_TRY(wait, begin_attempt(code, from));
    if (wait > 0) return SignInAnswer{std::nullopt, wait};
    HW_TRY(pairing, store_.take_pairing(secrets_.digest(request.code)));
    if (!pairing || clock_.now_s() >= pairing->until_s) return SignInAnswer{};
    HW_TRY(found, person(pairing->person_id));
    if (!found) return SignInAnswer{};
    HW_TRY(ended, end_attempt(code, from));
    static_cast<void>(ended);
    HW_TRY(in, let_in(*found, device_name(request.device, "phone")));
    return SignInAnswer{in, 0};
}

// ---- network -----------------------------------------------------------------------------------------------------------

Result<Done> People::network_on(std::string_view typed) {
    HW_TRY(name, network_name(typed));
    HW_TRY(people, store_.people());
    if (std::none_of(people.begin(), people.end(), [](const Person& p) { return p.role == Role::Owner; }))
        return Error{ErrorCode::Conflict, "With the network on everybody signs in. Add an owner first, else nobody could.", "people"};
    return store_.keep_network({true, name});
}

Result<Done> People::network_off() {
    HW_TRY(wish, store_.network());
    return store_.keep_network({false, wish.name});
}

}  // namespace hw::desk
