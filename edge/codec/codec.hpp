// JSON in and out, JSON Schema, OpenAPI and TypeScript: all from the one description of each struct.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "desk/advise.hpp"
#include "desk/compare.hpp"
#include "desk/diagnose.hpp"
#include "desk/digest.hpp"
#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/kept.hpp"
#include "desk/person.hpp"
#include "desk/own_limits.hpp"
#include "desk/photo.hpp"
#include "desk/protect.hpp"
#include "desk/looks.hpp"
#include "desk/meet.hpp"
#include "desk/meters.hpp"
#include "desk/rebalance.hpp"
#include "desk/refine.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "desk/shelf.hpp"
#include "desk/shelf_tables.hpp"
#include "desk/spot.hpp"
#include "desk/triage.hpp"

namespace hw::codec {

/// Largest request body that is read, in bytes.
inline constexpr std::size_t body_limit = 1 << 20;

/// Requests. @error InvalidInput  not JSON, an unknown member, a wrong type, a missing required member; `where` names it
Result<desk::AnalyseRequest> parse_analyse_request(std::string_view json);
/// Fields of leather and use that stand in it are noted as said.
Result<desk::JudgeRequest> parse_judge_request(std::string_view json);
/// As it was kept: nothing is noted.
Result<desk::JudgeRequest> parse_kept_request(std::string_view json);
Result<desk::CompareRequest> parse_compare_request(std::string_view json);
Result<desk::RefineRequest> parse_refine_request(std::string_view json);
Result<desk::RebalanceRequest> parse_rebalance_request(std::string_view json);
Result<desk::DiagnoseRequest> parse_diagnose_request(std::string_view json);
Result<desk::AdviseRequest> parse_advise_request(std::string_view json);
Result<desk::ShopTest> parse_shop_test(std::string_view json);
Result<desk::UploadRequest> parse_upload_request(std::string_view json);
Result<desk::Liquid> parse_liquid(std::string_view json);
Result<desk::Leather> parse_leather(std::string_view json);
Result<desk::JudgeAnswer> parse_judge_answer(std::string_view json);

Result<desk::InspectRequest> parse_inspect_request(std::string_view json);
Result<desk::IdentifyRequest> parse_identify_request(std::string_view json);
Result<desk::Proven> parse_proven(std::string_view json);
Result<desk::SpotRequest> parse_spot_request(std::string_view json);
Result<desk::TriageRequest> parse_triage_request(std::string_view json);
Result<desk::ProtectRequest> parse_protect_request(std::string_view json);
Result<desk::OwnLimit> parse_own_limit(std::string_view json);
Result<desk::Entry> parse_entry(std::string_view json);
Result<desk::Instrument> parse_instrument(std::string_view json);
Result<desk::Calibration> parse_calibration(std::string_view json);

Result<desk::DigestAnswer> parse_digest_answer(std::string_view json);
Result<desk::SheetCorrection> parse_sheet_correction(std::string_view json);
Result<desk::ShelveRequest> parse_shelve_request(std::string_view json);
std::string written(const desk::DigestAnswer& answer);
Result<desk::TouchRequest> parse_touch_request(std::string_view json);
Result<desk::TouchCell> parse_touch_cell(std::string_view json);
Result<desk::Use> parse_use(std::string_view json);
Result<desk::MeetRequest> parse_meet_request(std::string_view json);
Result<desk::TitrateRequest> parse_titrate_request(std::string_view json);
std::string written(const desk::TouchRequest& request);
std::string written(const desk::TouchAnswer& answer);
std::string written(const desk::TouchCell& cell);
std::string written(const desk::Use& use);
std::string written(const desk::MeetRequest& request);
std::string written(const desk::MeetAnswer& answer);
std::string written(const desk::ShelfMeetings& answer);
std::string written(const desk::TitrateRequest& request);
std::string written(const desk::TitrateAnswer& answer);
std::string written(const std::vector<desk::SheetRow>& items);

Result<desk::ShelfRequest> parse_shelf_request(std::string_view json);
Result<desk::ImportRequest> parse_import_request(std::string_view json);
std::string written(const desk::ShelfAnswer& answer);
std::string written(const desk::ProductAnswer& answer);
std::string written(const desk::ShelfName& name);
std::string written(const desk::ImportAnswer& answer);

std::string written(const desk::InspectRequest& request);
std::string written(const desk::SpotRequest& request);
std::string written(const desk::SpotAnswer& answer);
std::string written(const std::vector<desk::SpotDue>& items);
std::string written(const std::vector<desk::RateRow>& items);
std::string written(const desk::TriageRequest& request);
std::string written(const desk::TriageAnswer& answer);
std::string written(const desk::ProtectRequest& request);
std::string written(const desk::ProtectAnswer& answer);
std::string written(const desk::OwnLimit& limit);
std::string written(const std::vector<desk::OwnLimit>& limits);
std::string written(const std::vector<desk::SafetyPlaceNow>& places);
std::string written(const desk::TriageQuestions& questions);
std::string written(const desk::IdentifyRequest& request);
std::string written(const desk::IdentifyAnswer& answer);
std::string written(const desk::IdentifyWords& words);
std::string written(const desk::Proven& proven);
std::string written(const desk::InspectAnswer& answer);
std::string written(const desk::InspectionWords& words);
std::string written(const desk::Entry& entry);
std::string written(const desk::Instrument& instrument);
std::string written(const desk::Calibration& calibration);
std::string written(const desk::MeterCheck& check);
std::string written(const std::vector<desk::MeterNow>& items);
std::string written(const std::vector<desk::PieceRow>& items);
Result<desk::SignInRequest> parse_sign_in(std::string_view json);
Result<desk::PersonRequest> parse_person(std::string_view json);
Result<desk::RoleRequest> parse_role(std::string_view json);
Result<desk::PasswordRequest> parse_password(std::string_view json);
Result<desk::NetworkRequest> parse_network(std::string_view json);
Result<desk::PairingRequest> parse_pairing(std::string_view json);
Result<desk::PairRequest> parse_pair(std::string_view json);

std::string written(const desk::AnalyseAnswer& answer);
std::string written(const desk::JudgeAnswer& answer);
std::string written(const desk::RefineRequest& request);
std::string written(const desk::RefineAnswer& answer);
std::string written(const desk::DiagnoseRequest& request);
std::string written(const desk::DiagnoseAnswer& answer);
std::string written(const std::vector<desk::DamageSign>& items);
std::string written(const desk::AdviseRequest& request);
std::string written(const desk::AdviseAnswer& answer);
std::string written(const desk::ShopTest& test);
std::string written(const std::vector<desk::ShopTest>& tests);
std::string written(const std::vector<desk::LookKind>& kinds);
std::string written(const desk::RebalanceRequest& request);
std::string written(const desk::RebalanceAnswer& answer);
std::string written(const std::vector<desk::RemedyAnswer>& items);
std::string written(const desk::CompareAnswer& answer);
std::string written(const desk::CompareRequest& request);
std::string written(const desk::JudgeRequest& request);
std::string written(const desk::AnalyseRequest& request);
std::string written(const desk::Liquid& liquid);
std::string written(const desk::Leather& leather);
std::string written(const desk::KeptJudgement& kept);
std::string written(const desk::Photo& photo);
std::string written(const desk::Upload& upload);
std::string written(const desk::UploadRequest& request);
std::string written(const desk::SessionState& state);
std::string written(const desk::NetworkState& state);
std::string written(const desk::PairingAnswer& answer);
/// Lists, as {"items": […]}.
std::string written(const std::vector<desk::Photo>& items);
std::string written(const std::vector<desk::PersonRow>& items);
std::string written(const std::vector<desk::SessionRow>& items);
std::string written(const std::vector<desk::Liquid>& items);
std::string written(const std::vector<desk::Leather>& items);
std::string written(const std::vector<desk::JudgementRow>& items);
/// {"items": [{"key", "name"}]}.
struct Choice {
    std::string key, name;
};
std::string written(const std::vector<Choice>& items);
/// {"items": [{"key", "citation"}]}: every source of the atlas.
std::string sources_written();
std::string about_written(std::string_view version);
/// {"done_1", "doing", "finished"} and, once it is finished, "answer" (JSON as given) or "problem".
std::string work_written(double done_1, std::string_view doing, bool finished, std::string_view answer, const std::optional<Error>& error);

/// {"id": …}: where something was kept.
std::string id_written(std::string_view id);

/// RFC 9457 problem body. `id` is that of the log line; empty for none.
std::string problem(const Error& error, std::string_view id = {});
/// Problem body for what HTTP itself refuses (405, 413 …): the type is about:blank and the title that of the status.
std::string door_problem(int status, std::string_view title, const Error& error, std::string_view id = {});

/// JSON Schema (2020-12) of request and answer of a verb. @error NotFound
Result<std::string> schema(std::string_view verb);
/// A request that works. @error NotFound
Result<std::string> example(std::string_view verb);
std::string openapi();
std::string typescript();

}  // namespace hw::codec
