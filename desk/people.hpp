// Who may come in: accounts, sessions, pairing of phones, and the wait after failed sign-ins. Rules only; keeping, hashing
// and the clock are ports.
#pragma once

#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/person.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

// A browser that is not used for a fortnight, or was signed in a quarter of a year ago, signs in anew.
inline constexpr std::int64_t session_idle_s = 14 * 86400, session_most_s = 90 * 86400, seen_step_s = 300;
inline constexpr std::int64_t pairing_s = 600;
/// Failures are forgotten after a day without one.
inline constexpr std::int64_t attempts_kept_s = 86400;
inline constexpr int free_by_account = 4, free_by_address = 20, longest_wait_s = 900;
inline constexpr std::size_t password_least = 10, password_most = 200, name_most = 60;

/// Seconds to wait after the last of so many failures: none for the first `free`, then 1, 2, 4 … up to 15 minutes.
int wait_after(int failures, int free);

/// A name on one line, without spaces at its ends. @error InvalidInput
Result<std::string> person_name(std::string_view typed);
/// A host name that no public server can have: one word becomes word.local; else under local, localhost, home.arpa or
/// internal (RFC 6762, 6761, 8375; reserved by ICANN in 2024). @error InvalidInput
Result<std::string> network_name(std::string_view typed);

/// Somebody who is signed in.
struct Visitor {
    Person person;
    Session session;
};

/// The token stands here and nowhere else.
struct SignedIn {
    Person person;
    Session session;
    std::string token;
};

/// Refused says the same whether the name exists or not; wait_s > 0 says that nothing was tried.
struct SignInAnswer {
    std::optional<SignedIn> in;
    int wait_s = 0;
};

class People {
public:
    People(PeopleStore& store, Secrets& secrets, Clock& clock);

    // Accounts. @error NotFound  @error Conflict  the name is taken, or nobody would be left who may let others in
    Result<std::string> add(std::string_view name, Role role, std::string_view password);
    Result<std::vector<PersonRow>> rows();
    Result<std::vector<Person>> all() { return store_.people(); }
    Result<Person> by_name(std::string_view name);
    Result<Done> set_role(const std::string& id, Role role);
    /// Ends every session of that person but `except`.
    Result<Done> set_password(const std::string& id, std::string_view password, const std::string& except = {});
    Result<Done> remove(const std::string& id);
    /// The next try of that account need not wait, from whichever address.
    Result<Done> unlock(const std::string& id);
    /// True when the password is that person's; takes the same time otherwise.
    Result<SignInAnswer> sign_in(const SignInRequest& request, const std::string& address);
    /// One's own password, with the present one; counts like a sign-in.
    Result<SignInAnswer> change_password(const Visitor& visitor, const PasswordRequest& request, const std::string& address);

    // Sessions.
    Result<std::optional<Visitor>> visitor(const std::string& token);
    /// One's own, or everybody's for an owner.
    Result<std::vector<SessionRow>> sessions(const std::string& person_id, Role role, const std::string& here);
    /// @error NotFound  also when it is somebody else's and the role is not an owner's
    Result<Done> end_session(const std::string& id, const std::string& person_id, Role role);

    // Phones.
    /// A code of 128 bits for ten minutes.
    Result<std::pair<std::string, std::int64_t>> new_pairing(const std::string& person_id);
    Result<SignInAnswer> pair(const PairRequest& request, const std::string& address);

    // Network.
    Result<NetworkWish> network() { return store_.network(); }
    /// @error Conflict  no owner has an account yet
    Result<Done> network_on(std::string_view name);
    Result<Done> network_off();

private:
    Result<Done> keeps_an_owner(const std::string& without);
    Result<int> begin_attempt(const std::string& account, const std::string& address);
    Result<Done> end_attempt(const std::string& account, const std::string& address);
    Result<SignedIn> let_in(const Person& person, const std::string& device);
    Result<std::optional<Person>> person(const std::string& id);

    PeopleStore& store_;
    Secrets& secrets_;
    Clock& clock_;
    std::mutex counting_;                         ///< a try is counted before it is made, so that many at once do not slip through
};

}  // namespace hw::desk
