#include "edge/codec/codec.hpp"

#include <nlohmann/json.hpp>

#include "atlas/sources.hpp"
#include "edge/codec/visitors.hpp"

namespace hw::codec {

namespace {

using Json = nlohmann::ordered_json;
constexpr int depth_limit = 24;

Result<Json> parsed(std::string_view text) {
    if (text.size() > body_limit) return Error{ErrorCode::InvalidInput, "The request is larger than 1 MiB. Send less.", ""};
    int depth = 0, deepest = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) { if (c == '\\') ++i; else if (c == '"') quoted = false; }
        else if (c == '"') quoted = true;
        else if (c == '{' || c == '[') deepest = std::max(deepest, ++depth);
        else if (c == '}' || c == ']') --depth;
    }
    if (deepest > depth_limit) return Error{ErrorCode::InvalidInput, "The request is nested too deeply.", ""};
    try {
        return Json::parse(text);
    } catch (const Json::parse_error& e) {
        return Error{ErrorCode::InvalidInput, "This is not valid JSON near byte " + std::to_string(e.byte) + ". Compare it with the example of the verb.", ""};
    }
}

template <class T>
Result<T> read(std::string_view text, std::string prefix = {}) {
    HW_TRY(json, parsed(text));
    T out{};
    try {
        Reader<Json> reader(json, std::move(prefix));
        if (!reader.error()) {
            describe(reader, out);
            reader.finish();
        }
        if (reader.error()) return *reader.error();
    } catch (const Json::exception&) {
        return Error{ErrorCode::InvalidInput, "A value has the wrong type.", ""};
    }
    return out;
}

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

template <class T>
std::string write(T value) {
    return dump(Writer<Json>::value(value));
}

template <class T>
std::string write_list(std::vector<T> items) {
    Json out = Json::object();
    out["items"] = Writer<Json>::value(items);
    return dump(out);
}

}  // namespace

Result<desk::AnalyseRequest> parse_analyse_request(std::string_view json) { return read<desk::AnalyseRequest>(json); }
Result<desk::JudgeRequest> parse_judge_request(std::string_view json) { return read<desk::JudgeRequest>(json); }
Result<desk::Liquid> parse_liquid(std::string_view json) { return read<desk::Liquid>(json); }
Result<desk::Leather> parse_leather(std::string_view json) { return read<desk::Leather>(json); }
Result<desk::JudgeAnswer> parse_judge_answer(std::string_view json) { return read<desk::JudgeAnswer>(json); }

std::string written(const desk::AnalyseAnswer& v) { return write(v); }
std::string written(const desk::JudgeAnswer& v) { return write(v); }
std::string written(const desk::JudgeRequest& v) { return write(v); }
std::string written(const desk::AnalyseRequest& v) { return write(v); }
std::string written(const desk::Liquid& v) { return write(v); }
std::string written(const desk::Leather& v) { return write(v); }
std::string written(const desk::KeptJudgement& v) { return write(v); }
std::string written(const std::vector<desk::Liquid>& v) { return write_list(v); }
std::string written(const std::vector<desk::Leather>& v) { return write_list(v); }
std::string written(const std::vector<desk::JudgementRow>& v) { return write_list(v); }

std::string written(const std::vector<Choice>& items) {
    Json out = {{"items", Json::array()}};
    for (const auto& c : items) out["items"].push_back({{"key", c.key}, {"name", c.name}});
    return dump(out);
}

std::string sources_written() {
    Json out = {{"items", Json::array()}};
    for (const auto& row : atlas::sources) out["items"].push_back({{"key", std::string(row.key)}, {"citation", std::string(row.citation)}});
    return dump(out);
}

std::string about_written(std::string_view version) { return dump(Json{{"version", std::string(version)}}); }

std::string problem(const Error& error, std::string_view id) {
    const ErrorRow& row = error_row(error.code);
    Json out;
    out["type"] = "urn:hidewright:problem:" + std::string(row.name);
    out["title"] = std::string(row.title);
    out["status"] = row.http_status;
    out["detail"] = error.message;
    if (!error.where.empty()) out["where"] = error.where;
    if (!id.empty()) out["id"] = std::string(id);
    return dump(out);
}

}  // namespace hw::codec
