// Schema, OpenAPI, TypeScript and the examples.
#include <nlohmann/json.hpp>

#include "desk/demo.hpp"
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
        HW_NAME(Profile) HW_NAME(CaseResult) HW_NAME(NextTest) HW_NAME(ExtractCheck) HW_NAME(JudgementRow) HW_NAME(KeptJudgement)
#undef HW_NAME
        else return "unknown";
    }
    bool nullable_ = false;
    std::map<std::string, bool> done_;
    std::string text_, members_;
};

Json pair_of(std::string_view verb) {
    Json out;
    out["$schema"] = "https://json-schema.org/draft/2020-12/schema";
    out["title"] = std::string(verb);
    if (verb == "analyse") {
        out["request"] = schema_of<desk::AnalyseRequest>(true);
        out["answer"] = schema_of<desk::AnalyseAnswer>(false);
    } else {
        out["request"] = schema_of<desk::JudgeRequest>(true);
        out["answer"] = schema_of<desk::JudgeAnswer>(false);
    }
    return out;
}

Error no_verb(std::string_view verb) { return {ErrorCode::NotFound, "There is no verb \"" + std::string(verb) + "\". Use analyse or judge.", "verb"}; }

Json body(const Json& schema) { return {{"content", {{"application/json", {{"schema", schema}}}}}}; }

Json operation(const char* summary, const Json& answer) {
    Json problem = {{"description", "A problem, RFC 9457"}, {"content", {{"application/problem+json", {{"schema", {{"type", "object"}}}}}}}};
    Json ok = body(answer);
    ok["description"] = "The answer";
    return {{"summary", summary}, {"responses", {{"200", ok}, {"default", problem}}}};
}

template <class T>
Json items_of() { return {{"type", "object"}, {"properties", {{"items", {{"type", "array"}, {"items", schema_of<T>(false)}}}}}}; }

}  // namespace

Result<std::string> schema(std::string_view verb) {
    if (verb != "analyse" && verb != "judge") return no_verb(verb);
    return pair_of(verb).dump(2) + "\n";
}

Result<std::string> example(std::string_view verb) {
    if (verb != "analyse" && verb != "judge") return no_verb(verb);
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
    out["info"] = {{"title", "hidewright"}, {"version", "0.1.0"}, {"license", {{"name", "Apache-2.0"}}}};
    Json& paths = out["paths"] = Json::object();
    for (const char* verb : {"analyse", "judge"}) {
        const Json both = pair_of(verb);
        Json post = operation(verb, both["answer"]);
        post["requestBody"] = body(both["request"]);
        paths[std::string("/api/") + verb]["post"] = post;
    }
    paths["/api/liquids"]["get"] = operation("Liquids on the shelf", items_of<desk::Liquid>());
    paths["/api/leathers"]["get"] = operation("Leathers of the workshop", items_of<desk::Leather>());
    paths["/api/judgements"]["get"] = operation("Kept judgements, newest first", items_of<desk::JudgementRow>());
    paths["/api/judgements/{id}"]["get"] = operation("A kept judgement", schema_of<desk::KeptJudgement>(false));
    const Json any = {{"type", "object"}};
    paths["/api/judgements/{id}/bin"]["post"] = operation("Move to the bin", any);
    paths["/api/judgements/{id}/restore"]["post"] = operation("Take back out of the bin", any);
    for (const char* path : {"/api/liquids", "/api/leathers"}) {
        Json post = operation("Keep", any);
        post["requestBody"] = body(std::string(path) == "/api/liquids" ? schema_of<desk::Liquid>(true) : schema_of<desk::Leather>(true));
        paths[path]["post"] = post;
    }
    for (const char* path : {"/api/sources", "/api/leather_classes", "/api/tannages", "/api/about", "/api/openapi.json"}) paths[path]["get"] = operation("Facts", any);
    paths["/api/schema/{verb}"]["get"] = operation("JSON Schema of a verb", any);
    return out.dump(2) + "\n";
}

std::string typescript() {
    Script s;
    s.type<desk::AnalyseRequest>("");
    s.type<desk::KeptJudgement>("");
    return "// Generated by `hidewright typescript`. Change the description in desk/, not this file.\n\n" + s.text();
}

}  // namespace hw::codec
