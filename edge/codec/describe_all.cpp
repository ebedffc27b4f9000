// Schema, OpenAPI, TypeScript and the examples.
#include <nlohmann/json.hpp>

#include <map>
#include <string>
#include <vector>

#include "desk/advise.hpp"
#include "desk/compare.hpp"
#include "desk/demo.hpp"
#include "desk/diagnose.hpp"
#include "desk/digest.hpp"
#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "desk/looks.hpp"
#include "desk/meet.hpp"
#include "desk/meters.hpp"
#include "desk/person.hpp"
#include "desk/rebalance.hpp"
#include "desk/refine.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "desk/triage.hpp"
#include "desk/words.hpp"
#include "edge/codec/codec.hpp"
#include "edge/codec/visitors.hpp"

namespace hw::codec {

namespace {

using Json = nlohmann::ordered_json;

template <class T>
Json schema_of(bool request) { return Schema<Json>::of<T>(request); }

/// TypeScript interfaces, one per described struct, in the order in which they are first needed.
class Script {
public:
    template <class T>
    std::string type(const std::string& name_hint) {
        if constexpr (std::is_same_v<T, bool>) return "boolean";
        else if constexpr (std::is_arithmetic_v<T>) return std::is_same_v<T, double> && nullable_ ? "number | null" : "number";
        else if constexpr (std::is_same_v<T, std::string>) return "string";
        else if constexpr (std::is_enum_v<T>) {
            std::string out;
            for (const auto& [e, word] : EnumNames<T>::names) out += (out.empty() ? "" : " | ") + ("'" + std::string(word) + "'");
            return out;
        } else if constexpr (is_optional<T>::value) return type<typename T::value_type>(name_hint) + " | null";
        else if constexpr (is_vector<T>::value) {
            using V = typename T::value_type;
            nullable_ = std::is_same_v<V, double>;
            const std::string inner = type<V>(name_hint);
            nullable_ = false;
            return inner.find(' ') == std::string::npos ? inner + "[]" : "(" + inner + ")[]";
        } else {
            const std::string name = name_of<T>();
            if (!done_.count(name)) {
                done_[name] = true;
                Script inner;
                inner.done_ = done_;
                inner.members_ = "";
                T fresh{};
                describe(inner, fresh);
                done_ = inner.done_;
                text_ += inner.text_ + "export interface " + name + " {\n" + inner.members_ + "}\n\n";
            }
            return name;
        }
    }
    template <class T>
    void operator()(std::string_view name, T&, const About& about) {
        if (!about.doc.empty()) members_ += "  /** " + std::string(about.doc) + " */\n";
        members_ += "  " + std::string(name) + ": " + type<T>(std::string(name)) + ";\n";
    }
    [[nodiscard]] const std::string& text() const { return text_; }

private:
    template <class T>
    static std::string name_of() {
        if constexpr (std::is_same_v<T, Basis>) return "Basis";
#define HW_NAME(X) else if constexpr (std::is_same_v<T, desk::X>) return #X;
        HW_NAME(Number) HW_NAME(Ingredient) HW_NAME(Liquid) HW_NAME(Leather) HW_NAME(Dose) HW_NAME(Rinse) HW_NAME(Use) HW_NAME(Reason)
        HW_NAME(Stop) HW_NAME(AnalyseRequest) HW_NAME(AnalyseAnswer) HW_NAME(CurvePoint) HW_NAME(DryingPoint) HW_NAME(Volatile)
        HW_NAME(Solid) HW_NAME(JudgeRequest) HW_NAME(JudgeAnswer) HW_NAME(LimitCheck) HW_NAME(Balance) HW_NAME(Layer) HW_NAME(Event)
        HW_NAME(Band) HW_NAME(Fan) HW_NAME(Chance) HW_NAME(Influence) HW_NAME(Sure) HW_NAME(Harm)
        HW_NAME(Profile) HW_NAME(NextTest) HW_NAME(NamedUse) HW_NAME(CompareRequest) HW_NAME(CompareRow) HW_NAME(CompareAnswer) HW_NAME(ExtractCheck) HW_NAME(JudgementRow) HW_NAME(KeptJudgement)
        HW_NAME(SheetPlace) HW_NAME(SheetFact) HW_NAME(SheetIngredient) HW_NAME(SheetGroup) HW_NAME(SheetContradiction) HW_NAME(SheetSection) HW_NAME(SheetPage) HW_NAME(SheetXml) HW_NAME(SheetCorrection)
        HW_NAME(SheetRow) HW_NAME(DigestRequest) HW_NAME(DigestAnswer) HW_NAME(ShelveRequest)
        HW_NAME(TouchColumn) HW_NAME(TouchRow) HW_NAME(TouchCell) HW_NAME(TouchRequest) HW_NAME(TouchLegend) HW_NAME(TouchAnswer)
        HW_NAME(MeetThing) HW_NAME(MeetRequest) HW_NAME(Meeting) HW_NAME(StillThere) HW_NAME(MeetAnswer) HW_NAME(ShelfRule) HW_NAME(StorageAdvice) HW_NAME(ShelfMeetings)
        HW_NAME(TitrateRequest) HW_NAME(TitrateShare) HW_NAME(TitrateAnswer)
        HW_NAME(ShelfEntry) HW_NAME(ShelfRequest) HW_NAME(ShelfName) HW_NAME(ShelfFact) HW_NAME(LotNow) HW_NAME(ToSee) HW_NAME(ShelfRow) HW_NAME(ShelfAnswer) HW_NAME(Reorder) HW_NAME(Mixed)
        HW_NAME(ShelfLine) HW_NAME(SheetOnShelf) HW_NAME(ToldPerson) HW_NAME(ProductAnswer) HW_NAME(SheetChange) HW_NAME(SheetChanges) HW_NAME(ImportRequest) HW_NAME(ImportLine) HW_NAME(ImportAnswer)
        HW_NAME(Photo) HW_NAME(UploadRequest) HW_NAME(Upload)
        HW_NAME(Measure) HW_NAME(FreePiece) HW_NAME(MakeUp) HW_NAME(PanelFacts) HW_NAME(Condition) HW_NAME(Mark) HW_NAME(Reading) HW_NAME(PhotoShown) HW_NAME(Said) HW_NAME(Agreed)
        HW_NAME(Laid) HW_NAME(Entry) HW_NAME(PieceRow) HW_NAME(InspectRequest) HW_NAME(DrawnShape) HW_NAME(DrawnView) HW_NAME(TrendPoint) HW_NAME(PanelNow) HW_NAME(Zone) HW_NAME(EntryNow)
        HW_NAME(SpotAir) HW_NAME(SpotMade) HW_NAME(LabRead) HW_NAME(SpotSigns) HW_NAME(SpotRead) HW_NAME(SpotSign) HW_NAME(SpotVerdict) HW_NAME(SpotWait) HW_NAME(SpotReadNow) HW_NAME(SpotNow) HW_NAME(SignWords) HW_NAME(Bound) HW_NAME(RateRow)
        HW_NAME(SpotTry) HW_NAME(SpotRequest) HW_NAME(SpotPlace) HW_NAME(SpotProduct) HW_NAME(SpotClass) HW_NAME(SpotAnswer) HW_NAME(SpotDue)
        HW_NAME(ReadingNow) HW_NAME(Clash) HW_NAME(InspectAnswer) HW_NAME(Word) HW_NAME(FamilyMeasure) HW_NAME(PieceFamily) HW_NAME(InspectionWords)
        HW_NAME(CoverSaw) HW_NAME(Identified) HW_NAME(Proven) HW_NAME(IdentifyRequest) HW_NAME(CoverShare) HW_NAME(CoverMoved) HW_NAME(CoverNext) HW_NAME(CoverConflict) HW_NAME(IdentifyAnswer) HW_NAME(CoverAnswerWord) HW_NAME(CoverTestWord) HW_NAME(IdentifyWords)
        HW_NAME(DropCount) HW_NAME(LookKind) HW_NAME(Look) HW_NAME(Pass) HW_NAME(ShopTest) HW_NAME(RefineRequest) HW_NAME(Change) HW_NAME(ReadingFit) HW_NAME(Misfit) HW_NAME(TestWorth) HW_NAME(Weighing) HW_NAME(RefineAnswer)
        HW_NAME(Window) HW_NAME(RebalanceRequest) HW_NAME(RinsePlan) HW_NAME(WayAnswer) HW_NAME(BenchStep) HW_NAME(Expected) HW_NAME(LedgerRow) HW_NAME(RemedyAnswer) HW_NAME(RebalanceAnswer)
        HW_NAME(TriageGiven) HW_NAME(TriageTold) HW_NAME(TriageRequest) HW_NAME(TriageSentence) HW_NAME(TriageMayI) HW_NAME(TriageNext) HW_NAME(TriageHeard) HW_NAME(TriageDefault)
        HW_NAME(TriageUrgency) HW_NAME(TriageDecision) HW_NAME(TriageDose) HW_NAME(TriageAnswer) HW_NAME(TriageChoice) HW_NAME(TriageUnit) HW_NAME(TriageQuestion) HW_NAME(TriageQuestions)
        HW_NAME(ProductFact) HW_NAME(ProductIngredient) HW_NAME(ProductLimit) HW_NAME(GloveSaid) HW_NAME(ProductFacts) HW_NAME(OwnLimit) HW_NAME(PlannedItem) HW_NAME(Household) HW_NAME(SafetyTechnician) HW_NAME(SafetyPlace) HW_NAME(MouldJob)
        HW_NAME(ProtectRequest) HW_NAME(SafetyLine) HW_NAME(SafetyPart) HW_NAME(CountingLimit) HW_NAME(Vapour) HW_NAME(AirPoint) HW_NAME(SafetyAir) HW_NAME(SafetyPlaceNow) HW_NAME(SafetyItem) HW_NAME(HouseholdNote) HW_NAME(ProtectAnswer)
        HW_NAME(CoveringChance) HW_NAME(SignSeen) HW_NAME(DamageReading) HW_NAME(DiagnoseRequest) HW_NAME(Speaks) HW_NAME(CauseAnswer) HW_NAME(SeparatingTest) HW_NAME(DiagnoseAnswer) HW_NAME(DamageSign)
        HW_NAME(AdvisePanel) HW_NAME(OwnResults) HW_NAME(AdviseRequest) HW_NAME(AdviseOption) HW_NAME(PanelAdvice) HW_NAME(AdviseAnswer)
        HW_NAME(Instrument) HW_NAME(Buffer) HW_NAME(Calibration) HW_NAME(MeterCheck) HW_NAME(MeterNow)
        HW_NAME(SessionState) HW_NAME(SignInRequest) HW_NAME(PersonRequest) HW_NAME(RoleRequest) HW_NAME(PasswordRequest) HW_NAME(PersonRow) HW_NAME(SessionRow)
        HW_NAME(NetworkRequest) HW_NAME(NetworkState) HW_NAME(PairingRequest) HW_NAME(PairingAnswer) HW_NAME(PairRequest)
#undef HW_NAME
        else return "unknown";
    }
    bool nullable_ = false;
    std::map<std::string, bool> done_;
    std::string text_, members_;
};

/// {"request": schema, "answer": schema}: each is a whole JSON Schema by itself.
Json pair_of(std::string_view verb) {
    Json out;
    if (verb == "analyse") {
        out["request"] = schema_of<desk::AnalyseRequest>(true);
        out["answer"] = schema_of<desk::AnalyseAnswer>(false);
    } else if (verb == "digest") {
        out["request"] = schema_of<desk::DigestRequest>(true);
        out["answer"] = schema_of<desk::DigestAnswer>(false);
    } else if (verb == "touch") {
        out["request"] = schema_of<desk::TouchRequest>(true);
        out["answer"] = schema_of<desk::TouchAnswer>(false);
    } else if (verb == "meet") {
        out["request"] = schema_of<desk::MeetRequest>(true);
        out["answer"] = schema_of<desk::MeetAnswer>(false);
    } else if (verb == "titrate") {
        out["request"] = schema_of<desk::TitrateRequest>(true);
        out["answer"] = schema_of<desk::TitrateAnswer>(false);
    } else if (verb == "inspect") {
        out["request"] = schema_of<desk::InspectRequest>(true);
        out["answer"] = schema_of<desk::InspectAnswer>(false);
    } else if (verb == "identify") {
        out["request"] = schema_of<desk::IdentifyRequest>(true);
        out["answer"] = schema_of<desk::IdentifyAnswer>(false);
    } else if (verb == "triage") {
        out["request"] = schema_of<desk::TriageRequest>(true);
        out["answer"] = schema_of<desk::TriageAnswer>(false);
    } else if (verb == "protect") {
        out["request"] = schema_of<desk::ProtectRequest>(true);
        out["answer"] = schema_of<desk::ProtectAnswer>(false);
    } else if (verb == "spot") {
        out["request"] = schema_of<desk::SpotRequest>(true);
        out["answer"] = schema_of<desk::SpotAnswer>(false);
    } else if (verb == "calibrate") {
        out["request"] = schema_of<desk::Calibration>(true);
        out["answer"] = schema_of<desk::MeterCheck>(false);
    } else if (verb == "refine") {
        out["request"] = schema_of<desk::RefineRequest>(true);
        out["answer"] = schema_of<desk::RefineAnswer>(false);
    } else if (verb == "rebalance") {
        out["request"] = schema_of<desk::RebalanceRequest>(true);
        out["answer"] = schema_of<desk::RebalanceAnswer>(false);
    } else if (verb == "diagnose") {
        out["request"] = schema_of<desk::DiagnoseRequest>(true);
        out["answer"] = schema_of<desk::DiagnoseAnswer>(false);
    } else if (verb == "advise") {
        out["request"] = schema_of<desk::AdviseRequest>(true);
        out["answer"] = schema_of<desk::AdviseAnswer>(false);
    } else if (verb == "compare") {
        out["request"] = schema_of<desk::CompareRequest>(true);
        out["answer"] = schema_of<desk::CompareAnswer>(false);
    } else {
        out["request"] = schema_of<desk::JudgeRequest>(true);
        out["answer"] = schema_of<desk::JudgeAnswer>(false);
    }
    return out;
}

bool is_verb(std::string_view verb) { return verb == "analyse" || verb == "judge" || verb == "compare" || verb == "inspect" || verb == "identify" || verb == "spot" || verb == "calibrate" || verb == "triage" || verb == "refine" || verb == "rebalance" || verb == "diagnose" || verb == "advise" || verb == "digest" || verb == "touch" || verb == "meet" || verb == "titrate" || verb == "protect"; }

/// The demo's cleaners on one armchair, as they stand on the shelf.
desk::CompareRequest compare_example() {
    desk::CompareRequest out;
    out.leathers.push_back(desk::demo_requests().front().leather);
    out.leathers.front().id.clear();
    for (auto& liquid : desk::demo_liquids()) {
        constexpr std::size_t few = 4;
        if (out.liquids.size() == few) break;
        if (!liquid.label_known) continue;
        liquid.id.clear();
        out.liquids.push_back(liquid);
    }
    out.uses.push_back({"as usual", {}});
    return out;
}

/// Without what says nothing: an example shows what has to be typed.
Json filled(const Json& given) {
    if (given.is_array()) {
        Json out = Json::array();
        for (const auto& item : given) out.push_back(filled(item));
        return out;
    }
    if (!given.is_object()) return given;
    Json out = Json::object();
    for (const auto& [key, value] : given.items()) {
        const Json inner = filled(value);
        if (!inner.is_null() && inner != "" && !(inner.is_structured() && inner.empty()) && inner != 0 && inner != false) out[key] = inner;
    }
    return out;
}

/// A piece begun, one mark noted, one reading.
desk::InspectRequest inspect_example() {
    desk::InspectRequest out;
    desk::Entry piece, mark, reading;
    piece.did = desk::Did::MakeUp;
    piece.make_up = desk::MakeUp{"Armchair by the window", "armchair", {}, {}, ""};
    mark.did = desk::Did::Condition;
    mark.condition = desk::Condition{{"SC1-top"}, "body_oil", 2, 40.0, std::nullopt, {}, ""};
    reading.did = desk::Did::Reading;
    reading.reading = desk::Reading{"surface_ph", "SC1-top", "front edge", {4.1, 4.3, 4.2}, 4.6, "", ""};
    out.entries = {piece, mark, reading};
    return out;
}

/// A caller with a degreaser on a sofa, still wet.
desk::TriageRequest triage_example() {
    desk::TriageRequest out;
    out.caller = "A caller";
    out.name = "Sofa of the morning call";
    const auto said = [&](const char* question, std::vector<std::string> choices) { out.answers.push_back({question, std::move(choices), std::nullopt, "", ""}); };
    said("people", {"none"});
    said("piece", {"sofa"});
    said("product", {"degreaser"});
    said("wet", {"wet"});
    said("surface", {"even_shine"});
    said("bead", {"stays"});
    said("since", {"nothing"});
    out.answers.push_back({"dose", {}, 30.0, "ml", ""});
    out.answers.push_back({"area", {}, 40.0, "hands", ""});
    out.may_i = {"vinegar"};
    return out;
}

/// A car bolster cleaned with a flammable swab, doors shut.
desk::ProtectRequest protect_example() {
    desk::ProtectRequest out;
    out.title = "Driver's seat of the estate car";
    out.place.key = "closed_car";
    desk::PlannedItem item;
    item.liquid.name = "Degreasing alcohol";
    item.liquid.family = "solvent";
    item.liquid.ingredients = {{"2-propanol", "67-63-0", 99, std::nullopt, std::nullopt}};
    item.ml = 10;
    item.over_min = 15;
    item.goes_on = desk::GoesOn::Swab;
    out.items = {item};
    return out;
}

desk::SpotRequest spot_example() {
    desk::SpotRequest out;
    out.piece = "de300000-0001-7000-8000-000000000000";  // the club chair of the demo
    out.panel = "SC1-top";
    for (const char* id : {"demo_mild", "demo_dish"}) {
        desk::SpotTry t;
        t.liquid.id = id;
        out.products.push_back(t);
    }
    return out;
}

desk::Calibration calibrate_example() {
    desk::Calibration out;
    out.instrument = "bench-meter";
    out.at = "2026-01-02T08:00:00Z";
    out.buffers = {{4.00, 4.03, "", ""}, {7.02, 7.01, "", ""}};
    return out;
}

/// A mishap on the demo's club chair, three days old, with the readings of the place and of one beside it.
desk::IdentifyRequest identify_example() {
    desk::IdentifyRequest r;
    r.place = "furniture";
    r.exposure = desk::Exposure::Hands;
    r.saw = {{"look", {"open"}, ""}, {"nap", {"no"}, ""}, {"drop", {"under_10_s"}, ""}};
    return r;
}

desk::RefineRequest refine_example() {
    desk::RefineRequest out;
    desk::JudgeRequest& told = out.happened;
    told.liquid.name = "Grain & Counter Spray";
    told.liquid.family = "all-purpose spray";
    told.liquid.ingredients = {{"sodium carbonate", "497-19-8", 0.5, std::nullopt, std::nullopt}};
    told.leather.leather_class = "aniline";
    told.leather.tannage = "chrome";
    told.use.dose = {desk::Amount::Grams, 40, 1800};
    told.use.dwell_s = 480;
    told.use.wiped_off_pct = 20;
    out.now_h = 72;
    desk::Look place, beside;
    place.kind = "surface_ph";
    place.value_1 = 7.6;
    place.at_h = 72;
    beside.kind = "control_ph";
    beside.value_1 = 4.6;
    out.readings = {place, beside};
    out.members = 256;
    return out;
}

/// A sofa that turned sticky after a degreaser.
desk::DiagnoseRequest diagnose_example() {
    desk::DiagnoseRequest out;
    out.covering = {{"pigmented_furniture", 1}};
    out.tannage = "chrome";
    out.exposure = desk::Exposure::Seat;
    for (const char* sign : {"told_cleaner", "wiped_shape", "tacky"}) out.saw.push_back({sign, desk::Saw::There});
    out.saw.push_back({"at_unused", desk::Saw::NotThere});
    out.readings = {{"surface_ph", 8.9, 5.1}, {"gloss_60", 4.1, 9.8}, {"rub_grade", 2.5, 4.5}};
    return out;
}
/// An arm whose fibre is weak, deepest at the seam.
desk::AdviseRequest advise_example() {
    desk::AdviseRequest out;
    out.known = diagnose_example();
    out.known.exposure = desk::Exposure::Hands;
    out.known.readings = {{"surface_ph", 3.3, 4.7}, {"blotter_oil", 3, std::nullopt}, {"water_drop", 3, 120}};
    out.known.saw.clear();
    for (const char* sign : {"at_skin", "darker", "finish_lifts", "pills"}) out.known.saw.push_back({sign, desk::Saw::There});
    desk::AdvisePanel arm;
    arm.name = "Arm tops";
    arm.thickness_mm = 1.2;
    arm.weak_mm = 0.5;
    arm.weak_seam_mm = 0.9;
    arm.repair_h = 8.0;
    arm.panel_h = 9.7;
    out.panels = {arm};
    return out;
}

/// Concentrate left on both arms of a chair, three days ago, with two readings.
desk::RebalanceRequest rebalance_example() {
    desk::RebalanceRequest out;
    desk::JudgeRequest& told = out.known.happened;
    for (const auto& l : desk::demo_liquids())
        if (l.id == "demo_concentrate") told.liquid = l;
    told.liquid.id.clear();
    for (const auto& l : desk::demo_leathers())
        if (l.id == "demo_club") told.leather = l;
    told.leather.id.clear();
    told.leather.water_drop = desk::WaterDrop::Seconds10;
    told.use.dose = {desk::Amount::Grams, 40, 1800};
    told.use.dwell_s = 480;
    told.use.wiped_off_pct = 20;
    out.known.now_h = 72;
    desk::Look place, sheltered;
    place.kind = "surface_ph";
    place.value_1 = 7.6;
    place.at_h = 72;
    sheltered.kind = "control_ph";
    sheltered.value_1 = 4.6;
    out.known.readings = {place, sheltered};
    out.area_cm2 = 1800;
    out.asked = {"vinegar", "hair_dryer"};
    return out;
}

/// The demo's bleach and vinegar, by hand: nothing stored is needed.
desk::MeetRequest meet_example() {
    desk::MeetRequest out;
    for (const char* id : {"demo_bleach", "demo_vinegar"})
        for (auto liquid : desk::demo_liquids())
            if (liquid.id == id) {
                liquid.id.clear();
                out.things.push_back({liquid, 50, 1, 60, 2});
            }
    return out;
}

desk::TitrateRequest titrate_example() {
    desk::TitrateRequest out;
    for (auto liquid : desk::demo_liquids())
        if (liquid.id == "demo_degreaser") {
            liquid.id.clear();
            out.liquid = liquid;
        }
    out.count_1 = 12;
    return out;
}

/// Two liquids of the demo on two classes.
desk::TouchRequest touch_example() {
    desk::TouchRequest out;
    out.liquids = {"demo_mild", "demo_all_purpose"};
    out.classes = {"aniline", "pigmented_furniture"};
    return out;
}

Error no_verb(std::string_view verb) { return {ErrorCode::NotFound, "There is no verb \"" + std::string(verb) + "\". Use triage, digest, touch, meet, analyse, titrate, judge, refine, compare, inspect, diagnose, advise, identify, spot, calibrate, rebalance or protect.", "verb"}; }

Json body(const Json& schema) { return {{"content", {{"application/json", {{"schema", schema}}}}}}; }

/// An object of text fields, all of them there.
Json texts(const std::vector<std::string>& names) {
    Json out = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array()}};
    for (const auto& name : names) {
        out["properties"][name] = {{"type", "string"}};
        out["required"].push_back(name);
    }
    return out;
}

Json problem_schema() {
    Json out = texts({"type", "title", "detail"});
    out["properties"]["status"] = {{"type", "integer"}};
    out["properties"]["where"] = {{"type", "string"}, {"description", "the field, as liquid.ingredients[0].cas"}};
    out["properties"]["id"] = {{"type", "string"}, {"description", "under which the log has it"}};
    out["required"].push_back("status");
    return out;
}

Json list_of(const Json& item) {
    Json out = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array({"items"})}};
    out["properties"]["items"] = {{"type", "array"}, {"items", item}};
    return out;
}

Json operation(const std::string& id, const char* summary, const Json& answer) {
    Json ok = {{"description", "The answer"}};
    ok["content"] = body(answer)["content"];
    Json problem = {{"description", "A problem, RFC 9457"}};
    problem["content"]["application/problem+json"]["schema"]["$ref"] = "#/components/schemas/Problem";
    Json out = {{"operationId", id}, {"summary", summary}};
    out["responses"]["200"] = ok;
    out["responses"]["default"] = problem;
    return out;
}

Json parameter(const char* name, const char* in, const char* what) {
    Json out = {{"name", name}, {"in", in}, {"required", std::string_view(in) == "path"}, {"description", what}};
    out["schema"] = {{"type", "string"}};
    return out;
}

Json paged(Json list) {
    Json limit = parameter("limit", "query", "rows, at most");
    limit["schema"] = {{"type", "integer"}, {"minimum", 1}, {"maximum", 200}, {"default", 50}};
    list["parameters"] = Json::array({parameter("after", "query", "id of the last row already seen"), limit});
    return list;
}

Json bytes_of(const char* type) {
    Json out;
    out[type]["schema"] = {{"type", "string"}, {"format", "binary"}};
    return out;
}

/// The uploads that resume, and the photographs.
void add_photos(Json& paths) {
    const Json id = parameter("id", "path", "id of the photograph: SHA-256 of its bytes, in hex");
    paths["/api/photos"]["get"] = paged(operation("list_photos", "Photographs by arrival, newest first", list_of(schema_of<desk::Photo>(false))));
    Json& begin = paths["/api/photos"]["post"] = operation("begin_photo", "Announce a photograph, or ask where its upload stands", schema_of<desk::Upload>(false));
    begin["requestBody"] = body(schema_of<desk::UploadRequest>(true));
    begin["requestBody"]["required"] = true;
    Json& append = paths["/api/photos/{id}/bytes"]["post"] = operation("append_photo", "Add bytes, at most 1 MiB; the answer says where the upload stands", schema_of<desk::Upload>(false));
    Json offset = parameter("offset", "query", "of the first byte sent");
    offset["required"] = true;
    offset["schema"] = {{"type", "integer"}, {"minimum", 0}};
    append["parameters"] = Json::array({id, offset});
    append["requestBody"]["content"] = bytes_of("application/octet-stream");
    append["requestBody"]["required"] = true;
    Json& show = paths["/api/photos/{id}"]["get"] = operation("show_photo", "What is known of a photograph", schema_of<desk::Photo>(false));
    show["parameters"] = Json::array({id});
    for (const auto& [size, word] : EnumNames<desk::PhotoSize>::names) {
        const std::string name(word);
        Json file = operation("photo_" + name, size == desk::PhotoSize::Original ? "The bytes that came, to save" : "A copy, upright and without EXIF", Json::object());
        file["parameters"] = Json::array({id});
        file["responses"]["200"]["content"] = bytes_of("image/jpeg");
        if (size == desk::PhotoSize::Original) file["responses"]["200"]["content"].update(bytes_of("image/png"));
        paths["/api/photos/{id}/" + name]["get"] = std::move(file);
    }
}

Json taking(Json what, const Json& given) {
    what["requestBody"] = body(given);
    what["requestBody"]["required"] = true;
    return what;
}

/// What may touch what, what must never meet, what a product holds by drops.
void add_touching(Json& paths) {
    const Json nothing = {{"type", "object"}}, chart = schema_of<desk::TouchAnswer>(false), titration = schema_of<desk::TitrateAnswer>(false);
    const auto pdf = [](Json what, const char* papers) {
        what["responses"]["200"]["content"] = bytes_of("application/pdf");
        what["parameters"] = Json::array({parameter("paper", "query", papers)});
        return what;
    };
    paths["/api/touch"]["post"] = taking(operation("touch_chart", "The chart of the shelf as it stands; nothing is computed", chart), schema_of<desk::TouchRequest>(true));
    paths["/api/touch/begin"]["post"] = taking(operation("begin_touch", "Work out what is missing or stale, and keep it; gives the id to look after it", texts({"id"})), schema_of<desk::TouchRequest>(true));
    paths["/api/touch.pdf"]["post"] = pdf(taking(operation("print_touch", "The chart as it stands, for the wall", nothing), schema_of<desk::TouchRequest>(true)), "a3, a4, tabloid or letter; else a3");
    paths["/api/meet"]["post"] = taking(operation("meet", "Which of these must never meet, together or in this order", schema_of<desk::MeetAnswer>(false)), schema_of<desk::MeetRequest>(true));
    paths["/api/meet/shelf"]["get"] = operation("shelf_meetings", "What on the shelf must never stand or be used together, and where to keep it", schema_of<desk::ShelfMeetings>(false));
    paths["/api/titrate"]["post"] = taking(operation("titrate", "How drops are counted into a product, and what they say it holds", titration), schema_of<desk::TitrateRequest>(true));
    paths["/api/titrate.pdf"]["post"] = pdf(taking(operation("print_titrate", "How drops are counted, on one page", nothing), schema_of<desk::TitrateRequest>(true)), "a4 or letter; else a4");
}

/// Data sheets: read, corrected, put on the shelf.
void add_sheets(Json& paths) {
    const Json sheet = schema_of<desk::DigestAnswer>(false), nothing = {{"type", "object"}};
    const Json id = parameter("id", "path", "id of the sheet: SHA-256 of its file, in hex");
    Json& digest = paths["/api/digest"]["post"] = operation("digest", "Read a data sheet, at most 20 MB, and keep it", sheet);
    digest["parameters"] = Json::array({parameter("name", "query", "of the file; shown, never used as a path"), parameter("by_hand", "query", "true: keep a file without readable text, for somebody who types what it says")});
    digest["requestBody"]["content"] = bytes_of("application/octet-stream");
    digest["requestBody"]["required"] = true;
    paths["/api/sheets"]["get"] = paged(operation("list_sheets", "Data sheets, newest first", list_of(schema_of<desk::SheetRow>(false))));
    const auto of_sheet = [&](const std::string& path, const char* method, Json what) {
        what["parameters"] = Json::array({id});
        paths["/api/sheets/{id}" + path][method] = std::move(what);
    };
    of_sheet("", "get", operation("show_sheet", "A sheet as it stands: read, typed, measured", sheet));
    of_sheet("/corrections", "post", taking(operation("correct_sheet", "Say what a fact is, typed or measured; gives the sheet as it stands then", sheet), schema_of<desk::SheetCorrection>(true)));
    of_sheet("/shelf", "post", taking(operation("shelve_sheet", "Put the product on the shelf, or bring it up to date there; gives the liquid", schema_of<desk::Liquid>(false)), schema_of<desk::ShelveRequest>(true)));
    of_sheet("/bin", "post", operation("bin_sheet", "Move to the bin", nothing));
    of_sheet("/restore", "post", operation("restore_sheet", "Take back out of the bin", nothing));
    Json page = operation("sheet_page", "A page of the sheet, upright, 110 dots per inch", nothing);
    page["responses"]["200"]["content"] = bytes_of("image/png");
    of_sheet("/page.png", "get", std::move(page));
    Json number = parameter("number", "query", "of the page, from 1");
    number["required"] = true;
    number["schema"] = {{"type", "integer"}, {"minimum", 1}, {"maximum", desk::sheet_pages_limit}};
    paths["/api/sheets/{id}/page.png"]["get"]["parameters"] = Json::array({id, number});
    Json file = operation("sheet_file", "The bytes that came, to save", nothing);
    file["responses"]["200"]["content"] = bytes_of("application/pdf");
    of_sheet("/file.pdf", "get", std::move(file));
}

/// The shelf.
void add_shelf(Json& paths) {
    const Json product = schema_of<desk::ProductAnswer>(false);
    paths["/api/shelf"]["get"] = paged(operation("shelf", "What has to be seen to, and a page of products", schema_of<desk::ShelfAnswer>(false)));
    Json one = operation("shelf_product", "A product, whole: facts, lots, sheets, what changed", product);
    one["parameters"] = Json::array({parameter("id", "path", "id of the product, which is that of its liquid")});
    paths["/api/shelf/{id}"]["get"] = std::move(one);
    paths["/api/shelf/entries"]["post"] = taking(operation("shelf_enter", "Append entries, all or none; gives the product of the last one", product), schema_of<desk::ShelfRequest>(true));
    Json find = operation("shelf_find", "The product of a code, a name, or the address on a label", schema_of<desk::ShelfName>(false));
    find["parameters"] = Json::array({parameter("name", "query", "the code")});
    paths["/api/shelf/find"]["get"] = std::move(find);
    for (const std::string table : {"products", "lots"}) {
        Json csv = operation("shelf_" + table, table == "lots" ? "The lots in hand as a table, RFC 4180" : "The products as a table, RFC 4180", Json::object());
        csv["responses"]["200"]["content"] = {{"text/csv", {{"schema", {{"type", "string"}}}}}};
        paths["/api/shelf/" + table + ".csv"]["get"] = std::move(csv);
    }
    paths["/api/shelf/import"]["post"] = taking(operation("shelf_import", "Say what a table would change, or take all of it", schema_of<desk::ImportAnswer>(false)), schema_of<desk::ImportRequest>(true));
    Json labels = operation("shelf_labels", "Labels with lines to cut along, PDF", Json::object());
    labels["responses"]["200"]["content"] = bytes_of("application/pdf");
    labels["parameters"] = Json::array({parameter("name", "query", "id of the product; else all"), parameter("paper", "query", "a4 or letter; else a4")});
    paths["/api/shelf/labels.pdf"]["get"] = std::move(labels);
}

/// Who may come in.
void add_people(Json& paths) {
    const Json nothing = {{"type", "object"}};
    const auto with_id = [](Json what, const char* of) {
        what["parameters"] = Json::array({parameter("id", "path", of)});
        return what;
    };
    const Json state = schema_of<desk::SessionState>(false);
    paths["/api/session"]["get"] = operation("session", "Who asks, and whether signing in is needed", state);
    paths["/api/session"]["post"] = taking(operation("sign_in", "Sign in; sets a cookie", state), schema_of<desk::SignInRequest>(true));
    paths["/api/session/end"]["post"] = operation("sign_out", "Sign out of this browser", nothing);
    paths["/api/session/password"]["post"] = taking(operation("change_password", "One's own password; ends one's other sessions", state), schema_of<desk::PasswordRequest>(true));
    paths["/api/sessions"]["get"] = operation("list_sessions", "One's own sessions, newest first; everybody's for an owner", list_of(schema_of<desk::SessionRow>(false)));
    paths["/api/sessions/{id}/end"]["post"] = with_id(operation("end_session", "End one of them", nothing), "id of the session");
    paths["/api/people"]["get"] = operation("list_people", "Everybody with an account, by name", list_of(schema_of<desk::PersonRow>(false)));
    paths["/api/people"]["post"] = taking(operation("add_person", "Add somebody", texts({"id"})), schema_of<desk::PersonRequest>(true));
    const char* person = "id of the person";
    paths["/api/people/{id}/role"]["post"] = with_id(taking(operation("set_role", "What that person may do", nothing), schema_of<desk::RoleRequest>(true)), person);
    paths["/api/people/{id}/password"]["post"] = with_id(taking(operation("set_password", "A new password; ends that person's sessions", nothing), schema_of<desk::PasswordRequest>(true)), person);
    paths["/api/people/{id}/remove"]["post"] = with_id(operation("remove_person", "Take the account away; ends that person's sessions", nothing), person);
    paths["/api/people/{id}/unlock"]["post"] = with_id(operation("unlock_person", "End the wait after failed sign-ins", nothing), person);
    paths["/api/network"]["get"] = operation("network", "How phones reach this computer", schema_of<desk::NetworkState>(false));
    paths["/api/network/on"]["post"] = taking(operation("network_on", "Let the shop network in, over TLS and with signing in", nothing), schema_of<desk::NetworkRequest>(true));
    paths["/api/network/off"]["post"] = operation("network_off", "This machine only", nothing);
    paths["/api/pairings"]["post"] = taking(operation("new_pairing", "A code that signs one phone in, for ten minutes", schema_of<desk::PairingAnswer>(false)), schema_of<desk::PairingRequest>(true));
    paths["/api/pairings/use"]["post"] = taking(operation("pair", "Sign a phone in by its code; sets a cookie", state), schema_of<desk::PairRequest>(true));
}

}  // namespace

Result<std::string> schema(std::string_view verb) {
    if (!is_verb(verb)) return no_verb(verb);
    Json out;
    const Json both = pair_of(verb);
    for (const char* side : {"request", "answer"}) {
        Json& whole = out[side] = {{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", std::string(verb) + " " + side}};
        whole.update(both[side]);
    }
    return out.dump(2) + "\n";
}

Result<std::string> example(std::string_view verb) {
    if (!is_verb(verb)) return no_verb(verb);
    if (verb == "digest") return Error{ErrorCode::NotFound, "digest takes a file: hidewright digest FILE.pdf", "verb"};
    if (verb == "touch") return filled(Json::parse(written(touch_example()))).dump(2) + "\n";
    if (verb == "meet") return filled(Json::parse(written(meet_example()))).dump(2) + "\n";
    if (verb == "titrate") return filled(Json::parse(written(titrate_example()))).dump(2) + "\n";
    if (verb == "compare") return Json::parse(written(compare_example())).dump(2) + "\n";
    if (verb == "triage") return filled(Json::parse(written(triage_example()))).dump(2) + "\n";
    if (verb == "protect") return filled(Json::parse(written(protect_example()))).dump(2) + "\n";
    if (verb == "inspect") return filled(Json::parse(written(inspect_example()))).dump(2) + "\n";
    if (verb == "spot") return filled(Json::parse(written(spot_example()))).dump(2) + "\n";
    if (verb == "calibrate") return filled(Json::parse(written(calibrate_example()))).dump(2) + "\n";
    if (verb == "rebalance") return filled(Json::parse(written(rebalance_example()))).dump(2) + "\n";
    if (verb == "diagnose") return filled(Json::parse(written(diagnose_example()))).dump(2) + "\n";
    if (verb == "advise") return filled(Json::parse(written(advise_example()))).dump(2) + "\n";
    if (verb == "identify") return filled(Json::parse(written(identify_example()))).dump(2) + "\n";
    if (verb == "refine") return filled(Json::parse(written(refine_example()))).dump(2) + "\n";
    desk::JudgeRequest judge = desk::demo_requests().front();
    // The example stands alone: no stored ids, nothing kept.
    judge.keep = false;
    judge.liquid.id.clear();
    judge.leather.id.clear();
    if (verb == "judge") return Json::parse(written(judge)).dump(2) + "\n";
    desk::AnalyseRequest analyse;
    analyse.liquid = judge.liquid;
    return Json::parse(written(analyse)).dump(2) + "\n";
}

std::string openapi() {
    Json out;
    out["openapi"] = "3.1.0";
    out["info"] = {{"title", "hidewright"}, {"version", std::string(desk::version_number)}, {"license", {{"name", "Apache-2.0"}, {"identifier", "Apache-2.0"}}}};
    Json& paths = out["paths"] = Json::object();
    const std::map<std::string, const char*> summaries{{"analyse", "What a liquid is"}, {"judge", "Will this liquid hurt this leather, used this way?"}, {"compare", "Every liquid on every leather in every way of use, side by side"},
                                                 {"inspect", "Append entries to a piece, if any, and say what stands now"}, {"identify", "What a covering is, from simple tests, and which test to do next"}, {"spot", "Plan test spots on a piece, enter them, and tell how they stand"}, {"triage", "What to tell a worried caller, by what was said so far"}, {"calibrate", "Keep what two buffers told of a meter, and say what it is worth"},
                                                 {"refine", "What readings change about what happened, whether they fit, and which to take next"},
                                                 {"rebalance", "How to bring a leather back, or whether to leave it alone: the ways side by side, a bench card"},
                                                 {"protect", "The safety card of a job: air, gear, people, waste, fire, what is refused; and a note for the household"},
                                                 {"diagnose", "What made the damage, what speaks for and against, and which test tells the rivals apart"},
                                                 {"advise", "Repair, replace, refer, wait or leave alone, panel by panel, with reasons"}};
    for (const std::string verb : {"triage", "analyse", "judge", "refine", "rebalance", "protect", "compare", "inspect", "diagnose", "advise", "identify", "spot", "calibrate"}) {
        const Json both = pair_of(verb);
        Json& post = paths["/api/" + verb]["post"] = operation(verb, summaries.at(verb), both["answer"]);
        post["requestBody"] = body(both["request"]);
        post["requestBody"]["required"] = true;
    }
    Json& csv = paths["/api/compare.csv"]["post"] = operation("compare_csv", "The same as a table, RFC 4180", Json::object());
    csv["responses"]["200"]["content"] = {{"text/csv", {{"schema", {{"type", "string"}}}}}};
    csv["requestBody"] = body(pair_of("compare")["request"]);
    csv["requestBody"]["required"] = true;
    const auto shelf = [&](const char* path, const char* name, const Json& record, const Json& given) {
        paths[path]["get"] = paged(operation(std::string("list_") + name, "What is kept, by id", list_of(record)));
        Json& post = paths[path]["post"] = operation(std::string("keep_") + name, "Keep one; with a known id it replaces that one", texts({"id"}));
        post["requestBody"] = body(given);
        post["requestBody"]["required"] = true;
    };
    shelf("/api/liquids", "liquids", schema_of<desk::Liquid>(false), schema_of<desk::Liquid>(true));
    shelf("/api/leathers", "leathers", schema_of<desk::Leather>(false), schema_of<desk::Leather>(true));
    paths["/api/judgements"]["get"] = paged(operation("list_judgements", "Kept judgements, newest first", list_of(schema_of<desk::JudgementRow>(false))));
    const Json id = Json::array({parameter("id", "path", "id of the judgement")});
    const Json nothing = {{"type", "object"}};
    const auto one = [&](const char* path, const char* method, Json what) {
        what["parameters"] = id;
        paths[path][method] = std::move(what);
    };
    one("/api/judgements/{id}", "get", operation("show_judgement", "A kept judgement, whole", schema_of<desk::KeptJudgement>(false)));
    for (const std::string kind : {"owner", "technical"}) {
        Json print = operation("print_" + kind, kind == "owner" ? "A kept judgement as one page in plain words, PDF" : "A kept judgement whole, PDF", nothing);
        print["responses"]["200"]["content"] = {{"application/pdf", {{"schema", {{"type", "string"}, {"format", "binary"}}}}}};
        Json paper = parameter("paper", "query", "a4, else letter");
        paper["schema"] = {{"type", "string"}, {"enum", {"a4", "letter"}}, {"default", "a4"}};
        print["parameters"] = Json::array({id[0], paper});
        paths["/api/judgements/{id}/" + kind + ".pdf"]["get"] = std::move(print);
    }
    one("/api/judgements/{id}/bin", "post", operation("bin_judgement", "Move to the bin", nothing));
    one("/api/judgements/{id}/restore", "post", operation("restore_judgement", "Take back out of the bin", nothing));
    paths["/api/rebalance.pdf"]["post"] = taking(operation("print_rebalance", "The plan and its bench card on paper", nothing), schema_of<desk::RebalanceRequest>(true));
    paths["/api/rebalance.pdf"]["post"]["responses"]["200"]["content"] = bytes_of("application/pdf");
    {
        Json paper = parameter("paper", "query", "sheet; else a4");
        paper["schema"] = {{"type", "string"}, {"enum", {"a4", "letter"}}, {"default", "a4"}};
        paths["/api/rebalance.pdf"]["post"]["parameters"] = Json::array({paper});
    }
    paths["/api/damage_signs"]["get"] = operation("list_damage_signs", "Signs that can be looked for, with their questions", list_of(schema_of<desk::DamageSign>(false)));
    paths["/api/remedies"]["get"] = operation("list_remedies", "What people ask for, each refused with its reason", list_of(schema_of<desk::RemedyAnswer>(false)));
    paths["/api/rebalance/begin"]["post"] = taking(operation("begin_rebalance", "Begin a plan that takes long; look at it under its id", texts({"id"})), schema_of<desk::RebalanceRequest>(true));
    paths["/api/refine/begin"]["post"] = taking(operation("begin_refine", "The same for refine", texts({"id"})), schema_of<desk::RefineRequest>(true));
    Json work = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array({"done_1", "doing", "finished"})}};
    work["properties"]["done_1"] = {{"type", "number"}, {"minimum", 0}, {"maximum", 1}};
    work["properties"]["doing"] = {{"type", "string"}};
    work["properties"]["finished"] = {{"type", "boolean"}};
    work["properties"]["answer"] = {{"type", "object"}, {"description", "of the verb, once it is finished"}};
    work["properties"]["problem"] = {{"type", "object"}, {"description", "instead of the answer, RFC 9457"}};
    const Json work_id = Json::array({parameter("id", "path", "id of the work")});
    one("/api/running/{id}", "get", operation("show_work", "How far it is, and its answer; forgotten a quarter of an hour after it ended", work));
    one("/api/running/{id}/cancel", "post", operation("cancel_work", "End it", nothing));
    paths["/api/running/{id}"]["get"]["parameters"] = work_id;
    paths["/api/running/{id}/cancel"]["post"]["parameters"] = work_id;
    add_photos(paths);
    paths["/api/pieces"]["get"] = paged(operation("list_pieces", "Pieces, newest first", list_of(schema_of<desk::PieceRow>(false))));
    Json& card = paths["/api/protect.pdf"]["post"] = taking(operation("print_protect", "The safety card on one page", Json::object()), schema_of<desk::ProtectRequest>(true));
    card["responses"]["200"]["content"] = bytes_of("application/pdf");
    paths["/api/protect_note.pdf"]["post"] = taking(operation("print_protect_note", "The note for the household on one page", Json::object()), schema_of<desk::ProtectRequest>(true));
    paths["/api/protect_note.pdf"]["post"]["responses"]["200"]["content"] = bytes_of("application/pdf");
    paths["/api/safety_places"]["get"] = operation("safety_places", "Places to choose from, with what is taken for want of an answer", list_of(schema_of<desk::SafetyPlaceNow>(false)));
    paths["/api/own_limits"]["get"] = operation("own_limits", "The shop's own limits for the air", list_of(schema_of<desk::OwnLimit>(false)));
    paths["/api/own_limits"]["post"] = taking(operation("keep_own_limit", "Keep a limit, or take one back; gives all of them", list_of(schema_of<desk::OwnLimit>(false))), schema_of<desk::OwnLimit>(true));
    paths["/api/triage_questions"]["get"] = operation("triage_questions", "The questions and words that triage takes", schema_of<desk::TriageQuestions>(false));
    Json& page = paths["/api/triage.pdf"]["post"] = operation("print_triage", "The call on one page", Json::object());
    page["requestBody"] = body(schema_of<desk::TriageRequest>(true));
    page["requestBody"]["required"] = true;
    page["parameters"] = Json::array({parameter("paper", "query", "a4 or letter; else a4")});
    page["responses"]["200"]["content"] = bytes_of("application/pdf");
    paths["/api/inspection_words"]["get"] = operation("inspection_words", "The words and ranges that inspect takes", schema_of<desk::InspectionWords>(false));
    paths["/api/identify_words"]["get"] = operation("identify_words", "The tests of identify with their answers, and its words", schema_of<desk::IdentifyWords>(false));
    const Json piece = Json::array({parameter("id", "path", "id of the piece")});
    const auto of_piece = [&](const char* path, const char* method, Json what_it_does) {
        what_it_does["parameters"] = piece;
        paths[path][method] = std::move(what_it_does);
    };
    of_piece("/api/pieces/{id}", "get", operation("show_piece", "What stands of a piece, whole", schema_of<desk::InspectAnswer>(false)));
    of_piece("/api/pieces/{id}/bin", "post", operation("bin_piece", "Move to the bin", nothing));
    of_piece("/api/pieces/{id}/restore", "post", operation("restore_piece", "Take back out of the bin", nothing));
    paths["/api/spots"]["get"] = operation("spots_due", "Test spots that wait to be read, over all pieces", list_of(schema_of<desk::SpotDue>(false)));
    paths["/api/spots/rates"]["get"] = operation("spot_rates", "How often products passed on a class of leather: counts and intervals", list_of(schema_of<desk::RateRow>(false)));
    paths["/api/spots/calendar"]["get"] = operation("spots_calendar", "Test spots that wait, as iCalendar (RFC 5545)", nothing);
    paths["/api/spots/calendar"]["get"]["responses"]["200"]["content"] = bytes_of("text/calendar");
    paths["/api/meters"]["get"] = operation("list_meters", "Meters with their state now", list_of(schema_of<desk::MeterNow>(false)));
    paths["/api/meters"]["post"] = operation("keep_meter", "Keep a meter; with a known id it replaces that one", texts({"id"}));
    paths["/api/meters"]["post"]["requestBody"] = body(schema_of<desk::Instrument>(true));
    paths["/api/meters"]["post"]["requestBody"]["required"] = true;
    paths["/api/look_kinds"]["get"] = operation("list_look_kinds", "Kinds of reading that refine takes", list_of(schema_of<desk::LookKind>(false)));
    paths["/api/bench"]["get"] = operation("bench", "Every test of the bench as the shop has it", list_of(schema_of<desk::ShopTest>(false)));
    paths["/api/bench"]["post"] = operation("keep_bench", "Keep whether the shop has a test, and the minutes that it takes; gives all of them", list_of(schema_of<desk::ShopTest>(false)));
    paths["/api/bench"]["post"]["requestBody"] = body(schema_of<desk::ShopTest>(true));
    paths["/api/bench"]["post"]["requestBody"]["required"] = true;
    paths["/api/sources"]["get"] = operation("list_sources", "Every source of the tables", list_of(texts({"key", "citation"})));
    paths["/api/leather_classes"]["get"] = operation("list_leather_classes", "Finish classes to choose from", list_of(texts({"key", "name"})));
    paths["/api/tannages"]["get"] = operation("list_tannages", "Tannages to choose from", list_of(texts({"key", "name"})));
    paths["/api/about"]["get"] = operation("about", "The version that answers", texts({"version"}));
    paths["/api/openapi.json"]["get"] = operation("openapi", "This document", nothing);
    Json& schema_get = paths["/api/schema/{verb}"]["get"] = operation("schema", "JSON Schema of a verb's request and answer", nothing);
    schema_get["parameters"] = Json::array({parameter("verb", "path", "triage, digest, touch, meet, analyse, titrate, judge, refine, rebalance, protect, compare, inspect, diagnose, advise, identify, spot or calibrate")});
    add_sheets(paths);
    add_touching(paths);
    add_shelf(paths);
    add_people(paths);
    out["components"]["schemas"]["Problem"] = problem_schema();
    return out.dump(2) + "\n";
}

std::string typescript() {
    Script s;
    s.type<desk::AnalyseRequest>("");
    s.type<desk::KeptJudgement>("");
    s.type<desk::CompareRequest>("");
    s.type<desk::CompareAnswer>("");
    s.type<desk::RefineRequest>("");
    s.type<desk::RefineAnswer>("");
    s.type<desk::LookKind>("");
    s.type<desk::RebalanceRequest>("");
    s.type<desk::RebalanceAnswer>("");
    s.type<desk::DiagnoseRequest>("");
    s.type<desk::DiagnoseAnswer>("");
    s.type<desk::DamageSign>("");
    s.type<desk::AdviseRequest>("");
    s.type<desk::AdviseAnswer>("");
    s.type<desk::DigestAnswer>("");
    s.type<desk::SheetRow>("");
    s.type<desk::ShelveRequest>("");
    s.type<desk::TouchRequest>("");
    s.type<desk::TouchAnswer>("");
    s.type<desk::MeetRequest>("");
    s.type<desk::MeetAnswer>("");
    s.type<desk::ShelfMeetings>("");
    s.type<desk::TitrateRequest>("");
    s.type<desk::TitrateAnswer>("");
    s.type<desk::ShelfRequest>("");
    s.type<desk::ShelfAnswer>("");
    s.type<desk::ProductAnswer>("");
    s.type<desk::ShelfName>("");
    s.type<desk::ImportRequest>("");
    s.type<desk::ImportAnswer>("");
    s.type<desk::UploadRequest>("");
    s.type<desk::Upload>("");
    s.type<desk::Photo>("");
    s.type<desk::TriageRequest>("");
    s.type<desk::TriageAnswer>("");
    s.type<desk::TriageQuestions>("");
    s.type<desk::ProtectRequest>("");
    s.type<desk::ProtectAnswer>("");
    s.type<desk::OwnLimit>("");
    s.type<desk::SpotRequest>("");
    s.type<desk::SpotAnswer>("");
    s.type<desk::SpotDue>("");
    s.type<desk::RateRow>("");
    s.type<desk::InspectRequest>("");
    s.type<desk::InspectAnswer>("");
    s.type<desk::InspectionWords>("");
    s.type<desk::IdentifyRequest>("");
    s.type<desk::IdentifyAnswer>("");
    s.type<desk::IdentifyWords>("");
    s.type<desk::PieceRow>("");
    s.type<desk::Calibration>("");
    s.type<desk::MeterNow>("");
    s.type<desk::SessionState>("");
    s.type<desk::SignInRequest>("");
    s.type<desk::PersonRequest>("");
    s.type<desk::RoleRequest>("");
    s.type<desk::PasswordRequest>("");
    s.type<desk::PersonRow>("");
    s.type<desk::SessionRow>("");
    s.type<desk::NetworkRequest>("");
    s.type<desk::NetworkState>("");
    s.type<desk::PairingRequest>("");
    s.type<desk::PairingAnswer>("");
    s.type<desk::PairRequest>("");
    return "// Generated by `hidewright typescript`. Change the description in desk/, not this file.\n\n" + s.text();
}

}  // namespace hw::codec
