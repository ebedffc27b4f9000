#include "face/cli/people.hpp"

#include <termios.h>
#include <unistd.h>

#include <functional>
#include <iostream>
#include <memory>

#include "edge/codec/codec.hpp"
#include "edge/secret/secret.hpp"
#include "edge/store/sqlite_people.hpp"
#include "edge/store/sqlite_store.hpp"
#include "face/cli/orders.hpp"
#include "face/cli/ports.hpp"

namespace hw::cli {

namespace {

std::string_view role_word(desk::Role role) {
    for (const auto& [r, word] : EnumNames<desk::Role>::names)
        if (r == role) return word;
    return {};
}

Result<desk::Role> parse_role(const std::string& word) {
    for (const auto& [r, name] : EnumNames<desk::Role>::names)
        if (name == word && r != desk::Role::None) return r;
    return Error{ErrorCode::InvalidInput, "Choose one of: reader, technician, owner.", "role"};
}

/// Everything that the rules need, for as long as the records are open.
class Opened {
public:
    static Result<std::unique_ptr<Opened>> open(const std::string& folder, store::Access access, desk::Clock& clock) {
        HW_TRY(kept, store::SqliteStore::open(folder, records_as_json(), access));
        HW_TRY(secrets, secret::SodiumSecrets::make());
        return std::unique_ptr<Opened>(new Opened(std::move(kept), secrets, clock));
    }
    desk::People& people() { return people_; }

private:
    Opened(std::unique_ptr<store::SqliteStore> kept, secret::SodiumSecrets secrets, desk::Clock& clock) : kept_(std::move(kept)), store_(kept_->database()), secrets_(std::move(secrets)), people_(store_, secrets_, clock) {}
    std::unique_ptr<store::SqliteStore> kept_;
    store::SqlitePeople store_;
    secret::SodiumSecrets secrets_;
    desk::People people_;
};

/// Does it here, or lets the program do it that has the records open.
Result<Done> here_or_there(const PeopleTyped& typed, desk::Clock& clock, const std::string& order, const std::function<Result<Done>(desk::People&)>& here) {
    auto opened = Opened::open(typed.folder, store::Access::Write, clock);
    if (opened.ok()) return here((*opened)->people());
    if (opened.error().code != ErrorCode::Unavailable) return opened.error();
    HW_TRY(beside, Opened::open(typed.folder, store::Access::Read, clock));
    static_cast<void>(beside);
    return place_order(typed.folder, order);
}

Result<Done> list(const PeopleTyped& typed, desk::Clock& clock) {
    HW_TRY(opened, Opened::open(typed.folder, store::Access::Read, clock));
    HW_TRY(rows, opened->people().rows());
    if (typed.json) std::cout << codec::written(rows) << "\n";
    else for (const auto& r : rows) std::cout << r.name << "  " << role_word(r.role) << "  since " << r.made_at.substr(0, 10) << (r.waiting ? "  waits after failed sign-ins" : "") << "\n";
    return Done{};
}

Result<Done> change(const PeopleTyped& typed, desk::Clock& clock) {
    HW_TRY(opened, Opened::open(typed.folder, store::Access::Write, clock));
    desk::People& people = opened->people();
    if (typed.what == "add") {
        HW_TRY(role, parse_role(typed.role.empty() ? "technician" : typed.role));
        HW_TRY(password, typed_password());
        HW_TRY(id, people.add(typed.name, role, password));
        static_cast<void>(id);
        std::cout << typed.name << " is added, as " << role_word(role) << ".\n";
        return Done{};
    }
    HW_TRY(person, people.by_name(typed.name));
    if (typed.what == "remove") {
        HW_TRY(removed, people.remove(person.id));
        static_cast<void>(removed);
        std::cout << person.name << " is removed.\n";
        return Done{};
    }
    if (typed.what == "role") {
        HW_TRY(role, parse_role(typed.role));
        HW_TRY(set, people.set_role(person.id, role));
        static_cast<void>(set);
        std::cout << person.name << " is " << role_word(role) << " now.\n";
        return Done{};
    }
    HW_TRY(password, typed_password());
    HW_TRY(set, people.set_password(person.id, password));
    static_cast<void>(set);
    std::cout << "The password of " << person.name << " is set, and the sessions are ended.\n";
    return Done{};
}

}  // namespace

Result<std::string> typed_password() {
    termios before{};
    const bool terminal = ::isatty(STDIN_FILENO) != 0 && ::tcgetattr(STDIN_FILENO, &before) == 0;
    if (terminal) {
        std::cerr << "Password: " << std::flush;
        termios silent = before;
        silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &silent);
    }
    std::string line;
    std::getline(std::cin, line);
    if (terminal) {
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
        std::cerr << "\n";
    }
    if (line.empty()) return Error{ErrorCode::InvalidInput, "Type a password, or give it on standard input.", "password"};
    return line;
}

Result<Done> people(const PeopleTyped& typed, desk::Clock& clock) {
    if (typed.what == "list") return list(typed, clock);
    if (typed.name.empty()) return Error{ErrorCode::InvalidInput, "Say whom: hidewright people " + typed.what + " NAME", "name"};
    if (typed.what != "unlock") return change(typed, clock);
    HW_TRY(name, desk::person_name(typed.name));
    HW_TRY(done, here_or_there(typed, clock, "unlock " + name, [&](desk::People& p) -> Result<Done> {
        HW_TRY(person, p.by_name(name));
        return p.unlock(person.id);
    }));
    static_cast<void>(done);
    std::cout << name << " may try again at once.\n";
    return Done{};
}

Result<Done> network(const PeopleTyped& typed, desk::Clock& clock) {
    if (typed.what == "status") {
        HW_TRY(opened, Opened::open(typed.folder, store::Access::Read, clock));
        HW_TRY(wish, opened->people().network());
        std::cout << (wish.on ? "On, as " + wish.name + ". Everybody signs in.\n" : "Off: this machine only, without signing in.\n");
        return Done{};
    }
    if (typed.what == "off") {
        HW_TRY(done, here_or_there(typed, clock, "network off", [](desk::People& p) { return p.network_off(); }));
        static_cast<void>(done);
        std::cout << "The network is off.\n";
        return Done{};
    }
    HW_TRY(name, desk::network_name(typed.name));
    HW_TRY(done, here_or_there(typed, clock, "network on " + name, [&](desk::People& p) { return p.network_on(name); }));
    static_cast<void>(done);
    std::cout << "The network is on, as " << name << ". hidewright serve listens there.\n";
    return Done{};
}

}  // namespace hw::cli
