// The store and the clock in memory: for tests, and for the command line when it needs no records.
#pragma once

#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "desk/kept.hpp"
#include "desk/own_limits.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"

namespace hw::test {

class MemoryStore : public desk::Store {
public:
    Result<desk::Liquid> liquid(const std::string& id) override { return find(liquids_, id, "liquid"); }
    Result<desk::Leather> leather(const std::string& id) override { return find(leathers_, id, "leather"); }
    Result<std::vector<desk::Liquid>> liquids(const desk::Page& page) override { return list(liquids_, page); }
    Result<std::vector<desk::Leather>> leathers(const desk::Page& page) override { return list(leathers_, page); }
    Result<std::string> keep_liquid(const desk::Liquid& liquid) override { return keep(liquids_, liquid); }
    Result<std::string> keep_leather(const desk::Leather& leather) override { return keep(leathers_, leather); }
    Result<std::string> keep_judgement(const desk::JudgeRequest& request, const desk::JudgeAnswer& answer, const std::string& at) override {
        const std::string id = fresh();
        desk::KeptJudgement k;
        k.request = request;
        k.answer = answer;
        k.answer.id = id;
        k.row = {id, request.title.empty() ? request.liquid.name + " on " + request.leather.name : request.title, request.liquid.name, request.leather.name, std::string(desk_grade(answer.grade)), at, answer.version, false};
        judgements_[id] = k;
        return id;
    }
    Result<std::vector<desk::JudgementRow>> judgements(const desk::Page& page) override {
        std::vector<desk::JudgementRow> rows;
        for (auto it = judgements_.rbegin(); it != judgements_.rend(); ++it)  // newest first
            if (!binned_.count(it->first) && (page.after.empty() || it->first < page.after) && rows.size() < rows_of(page)) rows.push_back(it->second.row);
        return rows;
    }
    Result<desk::KeptJudgement> judgement(const std::string& id) override {
        const auto it = judgements_.find(id);
        if (it == judgements_.end()) return Error{ErrorCode::NotFound, "There is no judgement " + id + ".", "id"};
        return it->second;
    }
    Result<Done> bin(const std::string& id) override { return mark(id, true); }
    Result<Done> restore(const std::string& id) override { return mark(id, false); }
    Result<std::vector<desk::ShopTest>> bench() override {
        std::vector<desk::ShopTest> out;
        for (const auto& [name, test] : bench_) out.push_back(test);
        return out;
    }
    Result<Done> keep_bench(const desk::ShopTest& test) override {
        bench_[test.name] = test;
        return Done{};
    }
    Result<std::vector<desk::OwnLimit>> own_limits() override {
        std::vector<desk::OwnLimit> out;
        for (const auto& [id, limit] : own_limits_)
            if (limit.limit_ppm || limit.limit_mg_m3) out.push_back(limit);
        return out;
    }
    Result<std::string> keep_own_limit(const desk::OwnLimit& limit) override {
        desk::OwnLimit kept = limit;
        if (kept.id.empty()) kept.id = "limit-" + std::to_string(own_limits_.size() + 1);
        own_limits_[kept.id] = kept;
        return kept.id;
    }

private:
    static std::string_view desk_grade(desk::Grade g) {
        for (const auto& [grade, name] : EnumNames<desk::Grade>::names)
            if (grade == g) return name;
        return {};
    }
    static std::size_t rows_of(const desk::Page& page) { return static_cast<std::size_t>(std::clamp(page.limit, 1, 200)); }
    std::string fresh() { return "id-" + std::to_string(1000000 + ++count_); }
    template <class T>
    Result<T> find(const std::map<std::string, T>& map, const std::string& id, const char* what) {
        const auto it = map.find(id);
        if (it == map.end() || binned_.count(id)) return Error{ErrorCode::NotFound, std::string("There is no ") + what + " \"" + id + "\".", "id"};
        return it->second;
    }
    template <class T>
    Result<std::vector<T>> list(const std::map<std::string, T>& map, const desk::Page& page) {
        std::vector<T> out;
        for (const auto& [id, value] : map)
            if (!binned_.count(id) && (page.after.empty() || id > page.after) && out.size() < rows_of(page)) out.push_back(value);
        return out;
    }
    template <class T>
    Result<std::string> keep(std::map<std::string, T>& map, T value) {
        if (value.id.empty()) value.id = fresh();
        map[value.id] = value;
        binned_.erase(value.id);
        return value.id;
    }
    Result<Done> mark(const std::string& id, bool binned) {
        if (!judgements_.count(id) && !liquids_.count(id) && !leathers_.count(id)) return Error{ErrorCode::NotFound, "There is nothing under " + id + ".", "id"};
        if (binned) binned_[id] = true;
        else binned_.erase(id);
        return Done{};
    }
    std::map<std::string, desk::Liquid> liquids_;
    std::map<std::string, desk::Leather> leathers_;
    std::map<std::string, desk::KeptJudgement> judgements_;
    std::map<std::string, bool> binned_;
    std::map<std::string, desk::ShopTest> bench_;
    std::map<std::string, desk::OwnLimit> own_limits_;
    int count_ = 0;
};

class FixedClock : public desk::Clock {
public:
    std::string now_utc() override { return "2026-01-02T03:04:05Z"; }
    std::int64_t now_s() override { return 1767323045; }
};

}  // namespace hw::test
