#include "edge/store/sqlite_people.hpp"

#include <sqlite3.h>

#include "edge/store/database.hpp"

namespace hw::store {

namespace {

std::string_view role_name(desk::Role role) {
    for (const auto& [r, name] : EnumNames<desk::Role>::names)
        if (r == role) return name;
    return {};
}

desk::Role role_of(const std::string& name) {
    for (const auto& [r, word] : EnumNames<desk::Role>::names)
        if (word == name) return r;
    return desk::Role::None;
}

desk::Session session_in(const Stmt& s) { return {s.text(0), s.text(1), s.text(2), s.text(3), s.integer(4), s.integer(5)}; }

Error no_such(const char* what) { return {ErrorCode::NotFound, std::string("There is no such ") + what + ". See the list.", "id"}; }

/// One change, all or nothing. An account's is also appended to the changes; what comes and goes by itself is not.
/// @return  rows that were changed
template <class Bind>
Result<int> change(Database& d, const char* sql, const char* kind, const std::string& row, const Bind& bind) {
    const std::scoped_lock one_user(d.guard);
    Tx tx(d.db);
    if (!tx.ok()) return broken(d.db, "written");
    Stmt s(d.db, sql);
    bind(s);
    s.step();
    if (!s.ok()) return broken(d.db, "written");
    const int changed = sqlite3_changes(d.db);
    if (kind != nullptr && changed > 0) {
        HW_TRY(logged, d.log(kind, row));
        static_cast<void>(logged);
    }
    if (!tx.commit()) return broken(d.db, "written");
    return changed;
}

Result<Done> only_done(const Result<int>& changed) { return changed.ok() ? Result<Done>(Done{}) : changed.error(); }

}  // namespace

Result<std::vector<desk::Person>> SqlitePeople::people() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select id, name, role, password_hash, made_s from person order by name collate nocase");
    std::vector<desk::Person> out;
    while (s.step()) out.push_back({s.text(0), s.text(1), role_of(s.text(2)), s.text(3), s.integer(4)});
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<std::string> SqlitePeople::keep_person(const desk::Person& person) {
    const std::string id = person.id.empty() ? uuid7() : person.id;
    {
        const std::scoped_lock one_user(database_.guard);
        Stmt taken(database_.db, "select 1 from person where name = ? collate nocase and id <> ?");
        taken.bind(person.name).bind(id);
        if (taken.step()) return Error{ErrorCode::Conflict, "There is already somebody called " + person.name + ". Give another name.", "name"};
        if (!taken.ok()) return broken(database_.db, "read");
    }
    HW_TRY(changed, change(database_, "insert into person (id, name, role, password_hash, made_s) values (?, ?, ?, ?, ?) on conflict (id) do update set name = excluded.name, role = excluded.role, password_hash = excluded.password_hash",
                           "keep_person", id, [&](Stmt& s) { s.bind(id).bind(person.name).bind(std::string(role_name(person.role))).bind(person.password_hash).bind(person.made_s); }));
    static_cast<void>(changed);
    return id;
}

Result<Done> SqlitePeople::remove_person(const std::string& id) {
    HW_TRY(changed, change(database_, "delete from person where id = ?", "remove_person", id, [&](Stmt& s) { s.bind(id); }));
    if (changed == 0) return no_such("person");
    return Done{};
}

Result<std::string> SqlitePeople::keep_session(const desk::Session& session) {
    const std::string id = uuid7();
    HW_TRY(changed, change(database_, "insert into session (id, person_id, device, token_digest, made_s, seen_s) values (?, ?, ?, ?, ?, ?)", nullptr, id,
                           [&](Stmt& s) { s.bind(id).bind(session.person_id).bind(session.device).bind(session.token_digest).bind(session.made_s).bind(session.seen_s); }));
    static_cast<void>(changed);
    return id;
}

Result<std::optional<desk::Session>> SqlitePeople::session_of(const std::string& token_digest) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select id, person_id, device, token_digest, made_s, seen_s from session where token_digest = ?");
    s.bind(token_digest);
    std::optional<desk::Session> out;
    if (s.step()) out = session_in(s);
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<std::vector<desk::Session>> SqlitePeople::sessions() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select id, person_id, device, token_digest, made_s, seen_s from session order by id desc limit 500");
    std::vector<desk::Session> out;
    while (s.step()) out.push_back(session_in(s));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqlitePeople::seen(const std::string& id, std::int64_t at_s) {
    HW_TRY(changed, change(database_, "update session set seen_s = ? where id = ?", nullptr, id, [&](Stmt& s) { s.bind(at_s).bind(id); }));
    if (changed == 0) return no_such("session");
    return Done{};
}

Result<Done> SqlitePeople::end_session(const std::string& id) {
    HW_TRY(changed, change(database_, "delete from session where id = ?", nullptr, id, [&](Stmt& s) { s.bind(id); }));
    if (changed == 0) return no_such("session");
    return Done{};
}

Result<Done> SqlitePeople::keep_pairing(const desk::Pairing& pairing) {
    constexpr std::int64_t day_s = 86400;
    HW_TRY(old, change(database_, "delete from pairing where until_s < ?", nullptr, "", [&](Stmt& s) { s.bind(pairing.until_s - day_s); }));
    static_cast<void>(old);
    return only_done(change(database_, "insert into pairing (code_digest, person_id, until_s) values (?, ?, ?)", nullptr, "",
                            [&](Stmt& s) { s.bind(pairing.code_digest).bind(pairing.person_id).bind(pairing.until_s); }));
}

Result<std::optional<desk::Pairing>> SqlitePeople::take_pairing(const std::string& code_digest) {
    const std::scoped_lock one_user(database_.guard);
    std::optional<desk::Pairing> out;
    Tx tx(database_.db);
    Stmt s(database_.db, "delete from pairing where code_digest = ? returning code_digest, person_id, until_s");
    s.bind(code_digest);
    if (s.step()) {
        out = desk::Pairing{s.text(0), s.text(1), s.integer(2)};
        s.step();
    }
    if (!tx.ok() || !s.ok() || !tx.commit()) return broken(database_.db, "written");
    return out;
}

Result<desk::Attempts> SqlitePeople::attempts(const std::string& key) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select failures, last_s from attempt where key = ?");
    s.bind(key);
    desk::Attempts out;
    if (s.step()) out = {static_cast<int>(s.integer(0)), s.integer(1)};
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqlitePeople::keep_attempts(const std::string& key, const desk::Attempts& a) {
    constexpr std::int64_t day_s = 86400;
    HW_TRY(old, change(database_, "delete from attempt where last_s < ?", nullptr, "", [&](Stmt& s) { s.bind(a.last_s - day_s); }));
    static_cast<void>(old);
    return only_done(change(database_, "insert into attempt (key, failures, last_s) values (?, ?, ?) on conflict (key) do update set failures = excluded.failures, last_s = excluded.last_s", nullptr, "",
                            [&](Stmt& s) { s.bind(key).bind(std::int64_t{a.failures}).bind(a.last_s); }));
}

Result<Done> SqlitePeople::forget_attempts(const std::string& key) {
    return only_done(change(database_, "delete from attempt where substr(key, 1, length(?1)) = ?1", nullptr, "", [&](Stmt& s) { s.bind(key); }));
}

Result<desk::NetworkWish> SqlitePeople::network() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select wanted, name from network");
    desk::NetworkWish out;
    if (s.step()) out = {s.integer(0) == 1, s.text(1)};
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqlitePeople::keep_network(const desk::NetworkWish& wish) {
    return only_done(change(database_, "insert into network (only_row, wanted, name) values (1, ?, ?) on conflict (only_row) do update set wanted = excluded.wanted, name = excluded.name", wish.on ? "network_on" : "network_off", "network",
                            [&](Stmt& s) { s.bind(std::int64_t{wish.on}).bind(wish.name); }));
}

}  // namespace hw::store
