#include "edge/codec/codec.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "desk/words.hpp"
#include "tests/support/judgement_sample.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::codec {
namespace {

using Json = nlohmann::json;

/// The first place where a value breaks a JSON Schema of the kind we write; empty when it keeps it.
std::string breach(const Json& schema, const Json& value, const std::string& at = "") {
    if (schema.contains("anyOf")) {
        for (const auto& choice : schema["anyOf"])
            if (breach(choice, value, at).empty()) return {};
        return at + ": no alternative fits";
    }
    if (schema.contains("type")) {
        const Json names = schema["type"].is_array() ? schema["type"] : Json::array({schema["type"]});
        const auto is = [&](const std::string& t) {
            return (t == "object" && value.is_object()) || (t == "array" && value.is_array()) || (t == "string" && value.is_string()) || (t == "boolean" && value.is_boolean()) ||
                   (t == "null" && value.is_null()) || (t == "number" && value.is_number()) || (t == "integer" && value.is_number() && std::floor(value.get<double>()) == value.get<double>());
        };
        if (std::none_of(names.begin(), names.end(), [&](const Json& n) { return is(n.get<std::string>()); })) return at + ": wrong type";
    }
    if (schema.contains("enum") && std::find(schema["enum"].begin(), schema["enum"].end(), value) == schema["enum"].end()) return at + ": not in the list";
    if (value.is_number() && ((schema.contains("minimum") && value < schema["minimum"]) || (schema.contains("maximum") && value > schema["maximum"]))) return at + ": out of bounds";
    if (value.is_array())
        for (std::size_t i = 0; i < value.size(); ++i)
            if (const auto b = breach(schema["items"], value[i], at + "[" + std::to_string(i) + "]"); !b.empty()) return b;
    if (value.is_object()) {
        for (const auto& name : schema["required"])
            if (!value.contains(name.get<std::string>())) return at + "." + name.get<std::string>() + ": missing";
        for (const auto& [name, inner] : value.items()) {
            if (!schema["properties"].contains(name)) return at + "." + name + ": not in the schema";
            if (const auto b = breach(schema["properties"][name], inner, at + "." + name); !b.empty()) return b;
        }
    }
    return {};
}

TEST(CodecContract, WrittenAndReadAgainIsTheSameText) {
    const auto request = test::sample_request();
    EXPECT_EQ(written(*parse_kept_request(written(request))), written(request));
    desk::AnalyseRequest analyse;
    analyse.liquid = test::sample_liquid();
    analyse.meets = {"a", "b"};
    EXPECT_EQ(written(*parse_analyse_request(written(analyse))), written(analyse));
    EXPECT_EQ(written(*parse_liquid(written(request.liquid))), written(request.liquid));
    EXPECT_EQ(written(*parse_leather(written(request.leather))), written(request.leather));
    const auto answer = test::sample_answer();
    EXPECT_EQ(written(*parse_judge_answer(written(answer))), written(answer));
}

TEST(CodecContract, EveryBitOfADoubleComesBack) {
    desk::Liquid l;
    for (double x : {0.1, 1.0 / 3, 5e-324, 1.7976931348623157e308, 99.999999999999986, 0.0}) {
        l.stated_ph = x;
        EXPECT_EQ(*parse_liquid(written(l))->stated_ph, x);
    }
}

TEST(CodecContract, ANumberThatDoesNotExistIsNullInAnAnswerAndComesBackAsSuch) {
    const std::string text = written(test::sample_answer());
    EXPECT_NE(text.find("\"film_ph\":[9.5,null]"), std::string::npos);
    EXPECT_TRUE(std::isnan(parse_judge_answer(text)->profile.film_ph[1]));
}

TEST(CodecContract, AMemberLeftOutKeepsItsDefault) {
    const auto r = parse_judge_request(R"({"liquid": {}, "leather": {}})");
    ASSERT_TRUE(r.ok());
    EXPECT_EQ(r->use.dwell_s, desk::Use{}.dwell_s);
    EXPECT_FALSE(r->liquid.stated_ph.has_value());
}

struct Refused {
    const char* json;
    const char* where;
    const char* says;
};

TEST(CodecRefusal, NamesTheFieldAndTheRemedy) {
    const Refused cases[] = {
        {R"({"leather": {}})", "liquid", "needed"},
        {R"({"liquid": {"nam": "x"}, "leather": {}})", "liquid.nam", "Did you mean \"name\""},
        {R"({"liquid": {}, "leather": {}, "use": {"dwell_min": 2}})", "use.dwell_min", "Did you mean \"dwell_s\""},
        {R"({"liquid": {}, "leather": {}, "utterly_other": 1})", "utterly_other", "Remove it"},
        {R"({"liquid": {"ingredients": [{}, {"content_pct": "5,0"}]}, "leather": {}})", "liquid.ingredients[1].content_pct", "Give a number"},
        {R"({"liquid": {"ingredients": {}}, "leather": {}})", "liquid.ingredients", "list"},
        {R"({"liquid": [], "leather": {}})", "liquid", "object"},
        {R"({"liquid": {}, "leather": {}, "keep": 1})", "keep", "true or false"},
        {R"({"liquid": {}, "leather": {}, "title": 7})", "title", "text"},
        {R"({"liquid": {}, "leather": {}, "use": {"repeats": 1.5}})", "use.repeats", "whole number"},
        {R"({"liquid": {}, "leather": {}, "use": {"dwell_s": null}})", "use.dwell_s", "Give a number"},
        {R"({"liquid": {}, "leather": {}, "use": {"dose": {"amount": "buckets"}}})", "use.dose.amount", "grams, sprays, cloth_wipes"},
        {R"({"liquid": {"name": "a", "name": "b"}, "leather": {}})", "name", "twice"},
        {"[]", "", "object"},
        {"", "", "not valid JSON"},
        {"{\"liquid\": {}, \"leather\": {}} {}", "", "not valid JSON"},
        {"{\"liquid\": {\"stated_ph\": 1e999}}", "", "too large"},
        {"{\"liquid\": {\"stated_ph\": NaN}}", "", "not valid JSON"},
        {"{\"liquid\": {\"name\": \"\xff\"}}", "", "not valid JSON"},
    };
    for (const auto& c : cases) {
        const auto r = parse_judge_request(c.json);
        ASSERT_FALSE(r.ok()) << c.json;
        EXPECT_EQ(r.error().code, ErrorCode::InvalidInput) << c.json;
        EXPECT_EQ(r.error().where, c.where) << c.json;
        EXPECT_NE(r.error().message.find(c.says), std::string::npos) << c.json << ": " << r.error().message;
    }
}

TEST(CodecRefusal, DepthAndSizeAreLimited) {
    const std::string deep = std::string(100000, '[') + std::string(100000, ']');
    EXPECT_NE(parse_liquid(deep).error().message.find("nested"), std::string::npos);
    const std::string large = "{\"name\": \"" + std::string(body_limit, 'x') + "\"}";
    EXPECT_NE(parse_liquid(large).error().message.find("1 MiB"), std::string::npos);
}

TEST(CodecConsistency, ExamplesKeepTheirSchemaAndAreRead) {
    for (const std::string verb : {"analyse", "judge", "refine"}) {
        const Json example = Json::parse(*codec::example(verb));
        const Json schema = Json::parse(*codec::schema(verb));
        EXPECT_EQ(schema["request"]["$schema"], "https://json-schema.org/draft/2020-12/schema");
        EXPECT_EQ(breach(schema["request"], example), "") << verb;
    }
    EXPECT_TRUE(parse_judge_request(*example("judge")).ok());
    EXPECT_TRUE(parse_analyse_request(*example("analyse")).ok());
    const auto refine = parse_refine_request(*example("refine"));
    ASSERT_TRUE(refine.ok());
    const auto& said = refine->happened.said;
    EXPECT_TRUE(std::find(said.begin(), said.end(), "use.dwell_s") != said.end());
    EXPECT_EQ(example("guess").error().code, ErrorCode::NotFound);
    EXPECT_EQ(schema("guess").error().code, ErrorCode::NotFound);
}

TEST(CodecConsistency, TheSchemaRefusesWhatTheReaderRefuses) {
    const Json schema = Json::parse(*codec::schema("judge"))["request"];
    EXPECT_NE(breach(schema, Json::parse(R"({"leather": {}})")), "");
    EXPECT_NE(breach(schema, Json::parse(R"({"liquid": {"nam": "x"}, "leather": {}})")), "");
    EXPECT_NE(breach(schema, Json::parse(R"({"liquid": {}, "leather": {}, "use": {"dwell_s": null}})")), "");
    EXPECT_NE(breach(schema, Json::parse(R"({"liquid": {}, "leather": {}, "use": {"humidity_pct": 95}})")), "");
}

TEST(CodecConsistency, AComputedJudgementKeepsItsSchema) {
    test::MemoryStore store;
    test::FixedClock clock;
    desk::Ports ports{store, clock};
    const auto answer = desk::judge(*parse_judge_request(*example("judge")), ports);
    ASSERT_TRUE(answer.ok());
    EXPECT_EQ(breach(Json::parse(*schema("judge"))["answer"], Json::parse(written(*answer))), "");
    EXPECT_EQ(breach(Json::parse(*schema("analyse"))["answer"], Json::parse(written(answer->liquid))), "");
}

TEST(CodecConsistency, OpenApiDeclaresEveryPathParameterAndResolvesEveryReference) {
    const std::string text = openapi();
    const Json doc = Json::parse(text);
    EXPECT_EQ(doc["openapi"], "3.1.0");
    EXPECT_EQ(doc["info"]["version"], std::string(desk::version_number));
    for (const auto& [path, methods] : doc["paths"].items())
        for (const auto& [method, operation] : methods.items()) {
            EXPECT_TRUE(operation.contains("operationId")) << method << " " << path;
            EXPECT_TRUE(operation["responses"].contains("200")) << method << " " << path;
            const auto open = path.find('{');
            if (open == std::string::npos) continue;
            const std::string name = path.substr(open + 1, path.find('}') - open - 1);
            EXPECT_TRUE(std::any_of(operation["parameters"].begin(), operation["parameters"].end(), [&](const Json& p) { return p["name"] == name && p["in"] == "path" && p["required"] == true; })) << path;
        }
    const std::string mark = "\"$ref\": \"#";
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + 1)) {
        const auto begin = at + mark.size();
        EXPECT_TRUE(doc.contains(Json::json_pointer(text.substr(begin, text.find('"', begin) - begin))));
    }
}

TEST(CodecContract, AProblemHasTheMembersOfRfc9457) {
    for (const auto& row : error_table) {
        const Json p = Json::parse(problem({row.code, "Say \"this\".", "liquid.name"}, "r7"));
        EXPECT_EQ(p["type"], "urn:hidewright:problem:" + std::string(row.name));
        EXPECT_EQ(p["title"], std::string(row.title));
        EXPECT_EQ(p["status"], row.http_status);
        EXPECT_EQ(p["detail"], "Say \"this\".");
        EXPECT_EQ(p["where"], "liquid.name");
        EXPECT_EQ(p["id"], "r7");
    }
    EXPECT_FALSE(Json::parse(problem({ErrorCode::NotFound, "x", ""})).contains("where"));
    EXPECT_EQ(Json::parse(door_problem(405, "Method Not Allowed", {ErrorCode::InvalidInput, "x", ""}))["type"], "about:blank");
}

}  // namespace
TEST(CodecContract, NotesWhatARequestSaysAlsoWhereItEqualsTheUsual) {
    const auto r = parse_judge_request(R"({"liquid":{"id":"x"},"leather":{"id":"y"},"use":{"dwell_s":120,"dose":{"count":5}}})").value();
    EXPECT_EQ(r.said, (std::vector<std::string>{"leather.id", "use.dose.count", "use.dwell_s"}));
}

}  // namespace hw::codec
