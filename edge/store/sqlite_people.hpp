// People, sessions and the waits after failed sign-ins, in the same file as the other records.
#pragma once

#include "desk/ports.hpp"

namespace hw::store {

struct Database;

class SqlitePeople : public desk::PeopleStore {
public:
    explicit SqlitePeople(Database& database) : database_(database) {}
    Result<std::vector<desk::Person>> people() override;
    Result<std::string> keep_person(const desk::Person& person) override;
    Result<Done> remove_person(const std::string& id) override;
    Result<std::string> keep_session(const desk::Session& session) override;
    Result<std::optional<desk::Session>> session_of(const std::string& token_digest) override;
    Result<std::vector<desk::Session>> sessions() override;
    Result<Done> seen(const std::string& id, std::int64_t at_s) override;
    Result<Done> end_session(const std::string& id) override;
    Result<Done> keep_pairing(const desk::Pairing& pairing) override;
    Result<std::optional<desk::Pairing>> take_pairing(const std::string& code_digest) override;
    Result<desk::Attempts> attempts(const std::string& key) override;
    Result<Done> keep_attempts(const std::string& key, const desk::Attempts& attempts) override;
    Result<Done> forget_attempts(const std::string& key) override;
    Result<desk::NetworkWish> network() override;
    Result<Done> keep_network(const desk::NetworkWish& wish) override;

private:
    Database& database_;
};

}  // namespace hw::store
