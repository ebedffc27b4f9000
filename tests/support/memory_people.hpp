// People in memory, secrets that are quick and weak, and a clock that is set by hand: for tests.
#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "desk/moment.hpp"
#include "desk/people.hpp"

namespace hw::test {

class MemoryPeople : public desk::PeopleStore {
public:
    Result<std::vector<desk::Person>> people() override {
        auto out = people_;
        std::sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return lower(a.name) < lower(b.name); });
        return out;
    }
    Result<std::string> keep_person(const desk::Person& given) override {
        desk::Person p = given;
        if (p.id.empty()) p.id = fresh();
        for (const auto& other : people_)
            if (lower(other.name) == lower(p.name) && other.id != p.id) return Error{ErrorCode::Conflict, "The name is taken.", "name"};
        std::erase_if(people_, [&](const auto& other) { return other.id == p.id; });
        people_.push_back(p);
        return p.id;
    }
    Result<Done> remove_person(const std::string& id) override {
        if (std::erase_if(people_, [&](const auto& p) { return p.id == id; }) == 0) return Error{ErrorCode::NotFound, "There is nobody under that id.", "id"};
        std::erase_if(sessions_, [&](const auto& s) { return s.person_id == id; });
        std::erase_if(pairings_, [&](const auto& p) { return p.person_id == id; });
        return Done{};
    }
    Result<std::string> keep_session(const desk::Session& given) override {
        sessions_.push_back(given);
        return sessions_.back().id = fresh();
    }
    Result<std::optional<desk::Session>> session_of(const std::string& digest) override {
        for (const auto& s : sessions_)
            if (s.token_digest == digest) return std::optional(s);
        return std::optional<desk::Session>{};
    }
    Result<std::vector<desk::Session>> sessions() override { return std::vector(sessions_.rbegin(), sessions_.rend()); }
    Result<Done> seen(const std::string& id, std::int64_t at) override {
        for (auto& s : sessions_)
            if (s.id == id) { s.seen_s = at; return Done{}; }
        return Error{ErrorCode::NotFound, "There is no such session.", "id"};
    }
    Result<Done> end_session(const std::string& id) override {
        if (std::erase_if(sessions_, [&](const auto& s) { return s.id == id; }) == 0) return Error{ErrorCode::NotFound, "There is no such session.", "id"};
        return Done{};
    }
    Result<Done> keep_pairing(const desk::Pairing& pairing) override {
        pairings_.push_back(pairing);
        return Done{};
    }
    Result<std::optional<desk::Pairing>> take_pairing(const std::string& digest) override {
        for (const auto& p : pairings_)
            if (p.code_digest == digest) {
                std::optional<desk::Pairing> out(p);
                std::erase_if(pairings_, [&](const auto& other) { return other.code_digest == digest; });
                return out;
            }
        return std::optional<desk::Pairing>{};
    }
    Result<desk::Attempts> attempts(const std::string& key) override { return attempts_.count(key) != 0 ? attempts_[key] : desk::Attempts{}; }
    Result<Done> keep_attempts(const std::string& key, const desk::Attempts& a) override {
        attempts_[key] = a;
        return Done{};
    }
    Result<Done> forget_attempts(const std::string& key) override {
        std::erase_if(attempts_, [&](const auto& row) { return row.first.rfind(key, 0) == 0; });
        return Done{};
    }
    Result<desk::NetworkWish> network() override { return wish_; }
    Result<Done> keep_network(const desk::NetworkWish& wish) override {
        wish_ = wish;
        return Done{};
    }

private:
    static std::string lower(std::string text) {
        for (char& c : text)
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        return text;
    }
    std::string fresh() { return "id-" + std::to_string(1000000 + ++count_); }
    std::vector<desk::Person> people_;
    std::vector<desk::Session> sessions_;
    std::vector<desk::Pairing> pairings_;
    std::map<std::string, desk::Attempts> attempts_;
    desk::NetworkWish wish_;
    int count_ = 0;
};

/// Counts what it is asked, so that a test sees that an unknown name costs as much as a known one.
class WeakSecrets : public desk::Secrets {
public:
    Result<std::string> hash(std::string_view password) override { return "weak:" + std::string(password); }
    bool fits(const std::string& hash, std::string_view password) override {
        ++checks;
        return hash == "weak:" + std::string(password);
    }
    const std::string& nobodys_hash() override { return nobody_; }
    std::string token() override { return "token-" + std::to_string(++count_); }
    std::string code() override { return "code-" + std::to_string(++count_); }
    std::string digest(std::string_view text) override { return "digest of " + std::string(text); }
    int checks = 0;

private:
    std::string nobody_ = "none";
    int count_ = 0;
};

class HandClock : public desk::Clock {
public:
    std::string now_utc() override { return desk::moment(at_s); }
    std::int64_t now_s() override { return at_s; }
    std::int64_t at_s = 1767323045;
};

}  // namespace hw::test
