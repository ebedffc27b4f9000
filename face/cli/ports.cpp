#include "face/cli/ports.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <string_view>

#include "desk/demo.hpp"
#include "edge/codec/codec.hpp"

namespace hw::cli {

namespace {

Error absent(const std::string& id) {
    return {ErrorCode::NotFound, "There is nothing stored under \"" + id + "\" here. Give the records with --data FOLDER, or write it out in the request.", "id"};
}

Error cannot_keep() { return {ErrorCode::Unavailable, "Nothing can be kept without records. Give them with --data FOLDER.", "keep"}; }

template <class T>
Result<T> found(const std::vector<T>& all, const std::string& id) {
    const auto it = std::find_if(all.begin(), all.end(), [&](const T& x) { return x.id == id; });
    return it == all.end() ? Result<T>(absent(id)) : Result<T>(*it);
}

template <class T>
std::vector<T> page_of(std::vector<T> all, const desk::Page& page) {
    std::sort(all.begin(), all.end(), [](const T& a, const T& b) { return a.id < b.id; });
    std::vector<T> out;
    for (const auto& x : all)
        if (x.id > page.after && static_cast<int>(out.size()) < page.limit) out.push_back(x);
    return out;
}

}  // namespace

std::string SystemClock::now_utc() {
    const std::time_t now = std::time(nullptr);
    std::tm parts{};
    gmtime_r(&now, &parts);
    char text[32];
    std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return text;
}

std::int64_t SystemClock::now_s() { return static_cast<std::int64_t>(std::time(nullptr)); }

Result<desk::Liquid> DemoShelf::liquid(const std::string& id) { return found(desk::demo_liquids(), id); }
Result<desk::Leather> DemoShelf::leather(const std::string& id) { return found(desk::demo_leathers(), id); }
Result<std::vector<desk::Liquid>> DemoShelf::liquids(const desk::Page& page) { return page_of(desk::demo_liquids(), page); }
Result<std::vector<desk::Leather>> DemoShelf::leathers(const desk::Page& page) { return page_of(desk::demo_leathers(), page); }
Result<std::string> DemoShelf::keep_liquid(const desk::Liquid&) { return cannot_keep(); }
Result<std::string> DemoShelf::keep_leather(const desk::Leather&) { return cannot_keep(); }
Result<std::string> DemoShelf::keep_judgement(const desk::JudgeRequest&, const desk::JudgeAnswer&, const std::string&) { return cannot_keep(); }
Result<std::vector<desk::JudgementRow>> DemoShelf::judgements(const desk::Page&) { return std::vector<desk::JudgementRow>{}; }
Result<desk::KeptJudgement> DemoShelf::judgement(const std::string& id) { return absent(id); }
Result<Done> DemoShelf::bin(const std::string& id) { return absent(id); }
Result<Done> DemoShelf::restore(const std::string& id) { return absent(id); }
Result<std::vector<desk::ShopTest>> DemoShelf::bench() { return std::vector<desk::ShopTest>{}; }
Result<Done> DemoShelf::keep_bench(const desk::ShopTest&) { return cannot_keep(); }
Result<std::vector<desk::OwnLimit>> DemoShelf::own_limits() { return std::vector<desk::OwnLimit>{}; }
Result<std::string> DemoShelf::keep_own_limit(const desk::OwnLimit&) { return cannot_keep(); }

store::Serialiser records_as_json() {
    store::Serialiser s;
    s.liquid = [](const desk::Liquid& v) { return codec::written(v); };
    s.leather = [](const desk::Leather& v) { return codec::written(v); };
    s.request = [](const desk::JudgeRequest& v) { return codec::written(v); };
    s.answer = [](const desk::JudgeAnswer& v) { return codec::written(v); };
    s.to_liquid = codec::parse_liquid;
    s.to_leather = codec::parse_leather;
    s.to_request = codec::parse_kept_request;
    s.to_answer = codec::parse_judge_answer;
    s.entry = [](const desk::Entry& v) { return codec::written(v); };
    s.instrument = [](const desk::Instrument& v) { return codec::written(v); };
    s.calibration = [](const desk::Calibration& v) { return codec::written(v); };
    s.to_entry = codec::parse_entry;
    s.to_instrument = codec::parse_instrument;
    s.to_calibration = codec::parse_calibration;
    s.shop_test = [](const desk::ShopTest& v) { return codec::written(v); };
    s.to_shop_test = codec::parse_shop_test;
    s.own_limit = [](const desk::OwnLimit& v) { return codec::written(v); };
    s.to_own_limit = codec::parse_own_limit;
    return s;
}

std::string liquid_as_json(const desk::Liquid& liquid) { return codec::written(liquid); }

std::string default_folder() {
    const auto from = [](const char* name) {
        const char* value = std::getenv(name);
        return std::string(value == nullptr ? "" : value);
    };
    if (const std::string data = from("XDG_DATA_HOME"); !data.empty()) return data + "/hidewright";
    if (const std::string home = from("HOME"); !home.empty()) return home + "/.local/share/hidewright";
    return "hidewright-data";
}

}  // namespace hw::cli
