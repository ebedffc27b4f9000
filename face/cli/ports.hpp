// The ports of the desk, joined for the command line.
#pragma once

#include <memory>
#include <string>

#include "desk/ports.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::cli {

class SystemClock : public desk::Clock {
public:
    std::string now_utc() override;
    std::int64_t now_s() override;
};

/// Where there are no records yet: the demo workshop that is built in, to read; nothing can be kept.
class DemoShelf : public desk::Store {
public:
    Result<desk::Liquid> liquid(const std::string& id) override;
    Result<desk::Leather> leather(const std::string& id) override;
    Result<std::vector<desk::Liquid>> liquids(const desk::Page& page) override;
    Result<std::vector<desk::Leather>> leathers(const desk::Page& page) override;
    Result<std::string> keep_liquid(const desk::Liquid& liquid) override;
    Result<std::string> keep_leather(const desk::Leather& leather) override;
    Result<std::string> keep_judgement(const desk::JudgeRequest& request, const desk::JudgeAnswer& answer, const std::string& kept_at) override;
    Result<std::vector<desk::JudgementRow>> judgements(const desk::Page& page) override;
    Result<desk::KeptJudgement> judgement(const std::string& id) override;
    Result<Done> bin(const std::string& id) override;
    Result<Done> restore(const std::string& id) override;
    Result<std::vector<desk::ShopTest>> bench() override;
    Result<Done> keep_bench(const desk::ShopTest& test) override;
    Result<std::vector<desk::OwnLimit>> own_limits() override;
    Result<std::string> keep_own_limit(const desk::OwnLimit& limit) override;
};

/// The store's records written by the codec: doors do not include each other, so they meet here.
store::Serialiser records_as_json();

std::string liquid_as_json(const desk::Liquid& liquid);

/// $XDG_DATA_HOME/hidewright, else ~/.local/share/hidewright.
std::string default_folder();

}  // namespace hw::cli
