#include "edge/codec/codec.hpp"

#include <nlohmann/json.hpp>

#include <set>

#include "atlas/sources.hpp"
#include "edge/codec/visitors.hpp"

namespace hw::codec {

namespace {

using Json = nlohmann::ordered_json;
constexpr int depth_limit = 24;

bool too_deep(std::string_view text) {
    int depth = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            if (c == '\\') ++i;
            else if (c == '"') quoted = false;
        } else if (c == '"') quoted = true;
        else if (c == '{' || c == '[') { if (++depth > depth_limit) return true; }
        else if (c == '}' || c == ']') --depth;
    }
    return false;
}

/// JSON, with a field that stands twice in one object refused: two readers could take different ones.
Result<Json> parsed(std::string_view text, std::size_t limit = body_limit) {
    if (text.size() > limit) return Error{ErrorCode::InvalidInput, "The request is larger than 1 MiB. Send less.", ""};
    if (too_deep(text)) return Error{ErrorCode::InvalidInput, "The request is nested more than " + std::to_string(depth_limit) + " deep. Compare it with the example of the verb.", ""};
    std::vector<std::set<std::string>> open;
    std::string twice;
    const auto watch = [&](int, Json::parse_event_t event, Json& value) {
        if (event == Json::parse_event_t::object_start) open.emplace_back();
        else if (event == Json::parse_event_t::object_end) open.pop_back();
        else if (event == Json::parse_event_t::key && !open.back().insert(value.get<std::string>()).second && twice.empty()) twice = value.get<std::string>();
        return true;
    };
    try {
        Json json = Json::parse(text, watch);
        if (!twice.empty()) return Error{ErrorCode::InvalidInput, "The field \"" + twice + "\" stands twice in one object. Remove one.", twice};
        return json;
    } catch (const Json::parse_error& e) {
        return Error{ErrorCode::InvalidInput, "This is not valid JSON near byte " + std::to_string(e.byte) + ". Compare it with the example of the verb.", ""};
    } catch (const Json::exception&) {  // a number beyond a double
        return Error{ErrorCode::InvalidInput, "A number is too large to be read. Check its exponent.", ""};
    }
}

template <class T>
Result<T> read(std::string_view text, bool null_numbers = false, std::vector<std::string>* given = nullptr, std::size_t limit = body_limit) {
    HW_TRY(json, parsed(text, limit));
    T out{};
    Reader<Json> reader(json, {}, null_numbers);
    if (!reader.error()) {
        describe(reader, out);
        reader.finish();
    }
    if (reader.error()) return *reader.error();
    if (given != nullptr) *given = reader.given();
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
Result<desk::JudgeRequest> parse_kept_request(std::string_view json) { return read<desk::JudgeRequest>(json); }

Result<desk::JudgeRequest> parse_judge_request(std::string_view json) {
    std::vector<std::string> given;
    HW_TRY(request, read<desk::JudgeRequest>(json, false, &given));
    // What stands in the request was said by somebody, also where it equals the usual.
    if (request.said.empty())
        for (const auto& field : given)
            if (field.starts_with("use.") || field.starts_with("leather.")) request.said.push_back(field);
    return request;
}

Result<desk::RefineRequest> parse_refine_request(std::string_view json) {
    std::vector<std::string> given;
    HW_TRY(request, read<desk::RefineRequest>(json, false, &given));
    const std::string of = "happened.";
    if (request.happened.said.empty())
        for (const auto& field : given)
            if (field.starts_with(of + "use.") || field.starts_with(of + "leather.")) request.happened.said.push_back(field.substr(of.size()));
    return request;
}
Result<desk::DiagnoseRequest> parse_diagnose_request(std::string_view json) { return read<desk::DiagnoseRequest>(json); }
Result<desk::AdviseRequest> parse_advise_request(std::string_view json) { return read<desk::AdviseRequest>(json); }
Result<desk::ShopTest> parse_shop_test(std::string_view json) { return read<desk::ShopTest>(json); }
Result<desk::RebalanceRequest> parse_rebalance_request(std::string_view json) { return read<desk::RebalanceRequest>(json); }
Result<desk::UploadRequest> parse_upload_request(std::string_view json) { return read<desk::UploadRequest>(json); }
Result<desk::Liquid> parse_liquid(std::string_view json) { return read<desk::Liquid>(json); }
Result<desk::Leather> parse_leather(std::string_view json) { return read<desk::Leather>(json); }
Result<desk::CompareRequest> parse_compare_request(std::string_view json) { return read<desk::CompareRequest>(json); }
Result<desk::JudgeAnswer> parse_judge_answer(std::string_view json) { return read<desk::JudgeAnswer>(json, true); }

Result<desk::InspectRequest> parse_inspect_request(std::string_view json) { return read<desk::InspectRequest>(json); }
Result<desk::IdentifyRequest> parse_identify_request(std::string_view json) { return read<desk::IdentifyRequest>(json); }
Result<desk::Proven> parse_proven(std::string_view json) { return read<desk::Proven>(json); }
Result<desk::TriageRequest> parse_triage_request(std::string_view json) { return read<desk::TriageRequest>(json); }
Result<desk::ProtectRequest> parse_protect_request(std::string_view json) { return read<desk::ProtectRequest>(json); }
Result<desk::OwnLimit> parse_own_limit(std::string_view json) { return read<desk::OwnLimit>(json); }
Result<desk::SpotRequest> parse_spot_request(std::string_view json) { return read<desk::SpotRequest>(json); }
Result<desk::Entry> parse_entry(std::string_view json) { return read<desk::Entry>(json); }
Result<desk::Instrument> parse_instrument(std::string_view json) { return read<desk::Instrument>(json); }
Result<desk::Calibration> parse_calibration(std::string_view json) { return read<desk::Calibration>(json); }

Result<desk::DigestAnswer> parse_digest_answer(std::string_view json) {
    // As the program itself has written it: the text of sixty pages stands in it.
    constexpr std::size_t kept_limit = std::size_t{64} << 20;
    return read<desk::DigestAnswer>(json, true, nullptr, kept_limit);
}
Result<desk::SheetCorrection> parse_sheet_correction(std::string_view json) { return read<desk::SheetCorrection>(json); }
Result<desk::ShelveRequest> parse_shelve_request(std::string_view json) { return read<desk::ShelveRequest>(json); }
std::string written(const desk::DigestAnswer& v) { return write(v); }
Result<desk::TouchRequest> parse_touch_request(std::string_view json) { return read<desk::TouchRequest>(json); }
Result<desk::TouchCell> parse_touch_cell(std::string_view json) { return read<desk::TouchCell>(json); }
Result<desk::Use> parse_use(std::string_view json) { return read<desk::Use>(json); }
Result<desk::MeetRequest> parse_meet_request(std::string_view json) { return read<desk::MeetRequest>(json); }
Result<desk::TitrateRequest> parse_titrate_request(std::string_view json) { return read<desk::TitrateRequest>(json); }
std::string written(const desk::TouchRequest& v) { return write(v); }
std::string written(const desk::TouchAnswer& v) { return write(v); }
std::string written(const desk::TouchCell& v) { return write(v); }
std::string written(const desk::Use& v) { return write(v); }
std::string written(const desk::MeetRequest& v) { return write(v); }
std::string written(const desk::MeetAnswer& v) { return write(v); }
std::string written(const desk::ShelfMeetings& v) { return write(v); }
std::string written(const desk::TitrateRequest& v) { return write(v); }
std::string written(const desk::TitrateAnswer& v) { return write(v); }
std::string written(const std::vector<desk::SheetRow>& v) { return write_list(v); }
Result<desk::ShelfRequest> parse_shelf_request(std::string_view json) { return read<desk::ShelfRequest>(json); }
Result<desk::ImportRequest> parse_import_request(std::string_view json) { return read<desk::ImportRequest>(json); }
std::string written(const desk::ShelfAnswer& v) { return write(v); }
std::string written(const desk::ProductAnswer& v) { return write(v); }
std::string written(const desk::ShelfName& v) { return write(v); }
std::string written(const desk::ImportAnswer& v) { return write(v); }

std::string written(const desk::InspectRequest& v) { return write(v); }
std::string written(const desk::SpotRequest& v) { return write(v); }
std::string written(const desk::SpotAnswer& v) { return write(v); }
std::string written(const std::vector<desk::SpotDue>& v) { return write_list(v); }
std::string written(const std::vector<desk::RateRow>& v) { return write_list(v); }
std::string written(const desk::TriageRequest& v) { return write(v); }
std::string written(const desk::TriageAnswer& v) { return write(v); }
std::string written(const desk::ProtectRequest& v) { return write(v); }
std::string written(const desk::ProtectAnswer& v) { return write(v); }
std::string written(const desk::OwnLimit& v) { return write(v); }
std::string written(const std::vector<desk::OwnLimit>& v) { return write_list(v); }
std::string written(const std::vector<desk::SafetyPlaceNow>& v) { return write_list(v); }
std::string written(const desk::TriageQuestions& v) { return write(v); }
std::string written(const desk::IdentifyRequest& v) { return write(v); }
std::string written(const desk::IdentifyAnswer& v) { return write(v); }
std::string written(const desk::IdentifyWords& v) { return write(v); }
std::string written(const desk::Proven& v) { return write(v); }
std::string written(const desk::InspectAnswer& v) { return write(v); }
std::string written(const desk::InspectionWords& v) { return write(v); }
std::string written(const desk::Entry& v) { return write(v); }
std::string written(const desk::Instrument& v) { return write(v); }
std::string written(const desk::Calibration& v) { return write(v); }
std::string written(const desk::MeterCheck& v) { return write(v); }
std::string written(const std::vector<desk::MeterNow>& v) { return write_list(v); }
std::string written(const std::vector<desk::PieceRow>& v) { return write_list(v); }
Result<desk::SignInRequest> parse_sign_in(std::string_view json) { return read<desk::SignInRequest>(json); }
Result<desk::PersonRequest> parse_person(std::string_view json) { return read<desk::PersonRequest>(json); }
Result<desk::RoleRequest> parse_role(std::string_view json) { return read<desk::RoleRequest>(json); }
Result<desk::PasswordRequest> parse_password(std::string_view json) { return read<desk::PasswordRequest>(json); }
Result<desk::NetworkRequest> parse_network(std::string_view json) { return read<desk::NetworkRequest>(json); }
Result<desk::PairingRequest> parse_pairing(std::string_view json) { return read<desk::PairingRequest>(json); }
Result<desk::PairRequest> parse_pair(std::string_view json) { return read<desk::PairRequest>(json); }

std::string written(const desk::SessionState& v) { return write(v); }
std::string written(const desk::NetworkState& v) { return write(v); }
std::string written(const desk::PairingAnswer& v) { return write(v); }
std::string written(const std::vector<desk::PersonRow>& v) { return write_list(v); }
std::string written(const std::vector<desk::SessionRow>& v) { return write_list(v); }
std::string written(const desk::AnalyseAnswer& v) { return write(v); }
std::string written(const desk::JudgeAnswer& v) { return write(v); }
std::string written(const desk::RefineRequest& v) { return write(v); }
std::string written(const desk::RefineAnswer& v) { return write(v); }
std::string written(const desk::DiagnoseRequest& v) { return write(v); }
std::string written(const desk::DiagnoseAnswer& v) { return write(v); }
std::string written(const std::vector<desk::DamageSign>& v) { return write_list(v); }
std::string written(const desk::AdviseRequest& v) { return write(v); }
std::string written(const desk::AdviseAnswer& v) { return write(v); }
std::string written(const desk::ShopTest& v) { return write(v); }
std::string written(const std::vector<desk::ShopTest>& v) { return write_list(v); }
std::string written(const std::vector<desk::LookKind>& v) { return write_list(v); }
std::string written(const desk::RebalanceRequest& v) { return write(v); }
std::string written(const desk::RebalanceAnswer& v) { return write(v); }
std::string written(const std::vector<desk::RemedyAnswer>& v) { return write_list(v); }
std::string written(const desk::CompareAnswer& v) { return write(v); }
std::string written(const desk::CompareRequest& v) { return write(v); }
std::string written(const desk::JudgeRequest& v) { return write(v); }
std::string written(const desk::AnalyseRequest& v) { return write(v); }
std::string written(const desk::Liquid& v) { return write(v); }
std::string written(const desk::Leather& v) { return write(v); }
std::string written(const desk::KeptJudgement& v) { return write(v); }
std::string written(const desk::Photo& v) { return write(v); }
std::string written(const desk::Upload& v) { return write(v); }
std::string written(const desk::UploadRequest& v) { return write(v); }
std::string written(const std::vector<desk::Photo>& v) { return write_list(v); }
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

std::string id_written(std::string_view id) { return dump(Json{{"id", std::string(id)}}); }

namespace {

std::string problem_written(const std::string& type, std::string_view title, int status, std::string_view detail, std::string_view where, std::string_view id) {
    Json out;
    out["type"] = type;
    out["title"] = std::string(title);
    out["status"] = status;
    out["detail"] = std::string(detail);
    if (!where.empty()) out["where"] = std::string(where);
    if (!id.empty()) out["id"] = std::string(id);
    return dump(out);
}

}  // namespace

std::string problem(const Error& error, std::string_view id) {
    const ErrorRow& row = error_row(error.code);
    return problem_written("urn:hidewright:problem:" + std::string(row.name), row.title, row.http_status, error.message, error.where, id);
}

std::string work_written(double done_1, std::string_view doing, bool finished, std::string_view answer, const std::optional<Error>& error) {
    std::string out = dump(Json{{"done_1", done_1}, {"doing", std::string(doing)}, {"finished", finished}});
    out.pop_back();
    if (finished && !answer.empty()) out += ",\"answer\":" + std::string(answer);
    if (finished && error) out += ",\"problem\":" + problem(*error);
    return out + "}";
}

std::string door_problem(int status, std::string_view title, const Error& error, std::string_view id) {
    return problem_written("about:blank", title, status, error.message, error.where, id);
}

}  // namespace hw::codec
