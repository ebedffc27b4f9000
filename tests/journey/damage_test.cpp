// Eleven pieces on the command line, from what was seen to the advice, with all that must and must not be said of each.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/damage_cases.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw {
namespace {

using Json = nlohmann::json;

struct Ran {
    int code = -1;
    std::string out;
};

class DamageJourney : public ::testing::Test {
protected:
    Ran run(const std::string& verb, const std::string& request, const std::string& more = "--json") {
        const auto file = home_.path() / "request.json";
        std::ofstream(file, std::ios::binary) << request;
        const std::string command = "XDG_DATA_HOME='" + home_.path().string() + "' '" HW_PROGRAM "' " + verb + " '" + file.string() + "' " + more + " 2>&1";
        Ran r;
        FILE* pipe = ::popen(command.c_str(), "r");
        char buffer[4096];
        for (std::size_t n = 0; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) r.out.append(buffer, n);
        r.code = ::pclose(pipe);
        return r;
    }
    Json advised(const char* name, const std::string& panels, const std::string& more = {}) {
        const auto& all = test::damage_cases();
        const auto c = std::find_if(all.begin(), all.end(), [&](const test::DamageCase& x) { return std::string(x.name).starts_with(std::string(name) + " "); });
        Json request = {{"known", Json::parse(c->request)}, {"panels", Json::parse(panels)}};
        if (!more.empty()) request.update(Json::parse(more));
        const Ran told = run("diagnose", c->request);
        EXPECT_EQ(told.code, 0) << told.out;
        diagnosis_ = Json::parse(told.out);
        EXPECT_NE(std::find(c->causes.begin(), c->causes.end(), diagnosis_["causes"][0]["key"].get<std::string>()), c->causes.end());
        const Ran r = run("advise", request.dump());
        EXPECT_EQ(r.code, 0) << r.out;
        Json a = Json::parse(r.out);
        never_says(a);
        never_says(diagnosis_);
        return a;
    }
    static std::string small(std::string text) {
        std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
        return text;
    }
    /// What no sentence may say or advise: everywhere but among what is never done, word for word.
    static void never_says(Json a) {
        const Json never = a["never"];
        a.erase("never");
        const std::string all = small(a.dump());
        for (const char* bad : {"like new", "it will be fine", "your fault", "liable", "dried out", "conditioner", "lifetime", "non-toxic", "guaranteed", "red rot", "vinegar", "neutralise", "steam", "heat gun", "acetone", "kill"})
            EXPECT_EQ(all.find(bad), std::string::npos) << bad;
        EXPECT_FALSE(never.empty());
        for (const auto& line : never) forbids(small(line.get<std::string>()));
    }
    /// Among what is never done a thing may be named only to forbid it: a word of refusal stands before it in its own clause, and
    /// no clause of the list may begin by telling to do something that the list names.
    static void forbids(const std::string& line) {
        static const std::vector<std::string> named{"promise", "vinegar", "acid", "oil", "heat", "conditioner", "alcohol", "hair lacquer", "wipes", "acetone", "bleach", "biocide", "ammonia", "warm air", "filler", "recolouring", "bonding down",
                                                    "coating", "alkaline cleaner", "alkaline degreaser", "soaking", "water", "stitch", "glue", "strip"};
        static const std::vector<std::string> allowed{"acid only as a spot-tested trim within the moisture budget", "skin-oil decay is not acid decay", "sheltered strip"};
        std::string rest = line;
        for (const auto& a : allowed)
            if (const auto at = rest.find(a); at != std::string::npos) rest.erase(at, a.size());
        std::size_t from = 0;                     // a refusal holds from its word to the end of the clause: ; : or .
        while (from < rest.size()) {
            const auto end = std::min(rest.find_first_of(";:.", from), rest.size());
            const std::string clause = " " + rest.substr(from, end - from) + " ";
            std::size_t word = std::string::npos;
            for (const char* no : {" no ", " not ", " never ", " nobody ", " nothing "}) word = std::min(word, clause.find(no));
            for (const auto& n : named)
                if (const auto at = clause.find(n); at != std::string::npos) {
                    EXPECT_LT(word, at) << "\"" << n << "\" is named and not forbidden: " << line;
                }
            from = end + 1;
        }
    }
    static bool says(const Json& a, const std::string& part, const std::string& words) { return small(a[part].dump()).find(small(words)) != std::string::npos; }
    /// A chance is told by its interval and counts, and never as certainty.
    static void chances_are_bands(const Json& a) {
        for (const auto& p : a["panels"])
            for (const auto& o : p["options"]) {
                EXPECT_NE(o["chance"].get<std::string>().find("90 % interval"), std::string::npos) << o["chance"];
                EXPECT_NE(o["chance"].get<std::string>().find("starting counts"), std::string::npos);
                EXPECT_EQ(o["chance"].get<std::string>().find("to 100 of 100"), std::string::npos);
            }
    }
    static std::string panel(std::string name, const std::string& more = {}) { return "[{\"name\": \"" + std::move(name) + "\"" + (more.empty() ? "" : ", " + more) + "}]"; }

    /// A piece that is made up, identified on its seat by tests at the bench, and asked about under its id.
    std::string identified(const std::string& name, const std::string& seen, std::string& code) {
        const Ran made = run("inspect", R"({"entries": [{"did": "make_up", "make_up": {"name": ")" + name + R"(", "family": "armchair"}}]})");
        EXPECT_EQ(made.code, 0) << made.out;
        const Json piece = Json::parse(made.out);
        code = piece["panels"][0]["code"].get<std::string>();
        const std::string id = piece["piece"].get<std::string>();
        const Ran told = run("identify", R"({"piece": ")" + id + R"(", "panel": ")" + code + R"(", "write": true, "saw": )" + seen + "}");
        EXPECT_EQ(told.code, 0) << told.out;
        EXPECT_EQ(Json::parse(told.out)["kept"], true) << told.out;
        kinds_ = Json::parse(told.out)["kinds"];
        return id;
    }

    test::ScratchFolder home_;
    Json kinds_;
    Json diagnosis_;
};

TEST_F(DamageJourney, C1DarkenedArmsAreRinsedAndNothingIsPromised) {
    const Json a = advised("C1", panel("Arm tops"), R"({"wishes": ["patina"]})");
    EXPECT_EQ(a["verdict"], "repair_with_limits");
    EXPECT_EQ(a["panels"][0]["options"][0]["key"], "rinse");
    chances_are_bands(a);
    EXPECT_TRUE(says(a, "panels", "an edge can appear")) << a["panels"];
    EXPECT_TRUE(says(a, "panels", "24 h"));
    EXPECT_TRUE(says(a, "never", "moisture budget"));
    EXPECT_TRUE(says(a, "never", "No vinegar or other home acid, no oil, no heat"));
    EXPECT_TRUE(says(a, "out_of_reach", "patina"));
    for (const auto& c : diagnosis_["causes"]) {
        EXPECT_LT(c["chance"]["value"], 100);
        if (c["key"] == "body_oil") { EXPECT_LT(c["chance"]["value"], 40) << "the blotter rejects it"; }
    }
}

TEST_F(DamageJourney, C2StickySofaWaitsBeforeAnythingIsStripped) {
    const Json a = advised("C2", panel("Seat fronts", R"("hours_since": 24)"));
    EXPECT_EQ(a["verdict"], "wait_and_test");
    EXPECT_TRUE(says(a, "sentence", "72 h"));
    EXPECT_TRUE(says(diagnosis_, "together", "solvent"));
    EXPECT_TRUE(says(a, "never", "acid reverses"));
    EXPECT_TRUE(says(a, "never", "no conditioner as a cure"));
    // After 72 h it is work with limits.
    EXPECT_EQ(advised("C2", panel("Seat fronts", R"("hours_since": 80)"))["verdict"], "repair_with_limits");
}

TEST_F(DamageJourney, C3DepthAtTheSeamDrivesTheChoice) {
    const Json a = advised("C3", R"([{"name": "Arm tops", "thickness_mm": 1.2, "weak_mm": 0.5, "weak_seam_mm": 0.9, "repair_h": 8.0, "repair_80_h": 8.6, "panel_h": 9.7, "panel_80_h": 10.6}, {"name": "Headrest"}])");
    EXPECT_EQ(a["panels"][0]["verdict"], "replace_panel");
    EXPECT_EQ(a["panels"][0]["reasons"][0]["kind"], "weak_seam");
    EXPECT_TRUE(says(a["panels"][0], "sentence", "depth at the seam drives the choice"));
    EXPECT_TRUE(says(a["panels"][0], "reasons", "0.82")) << a["panels"][0]["reasons"];
    const auto& options = a["panels"][0]["options"];
    ASSERT_EQ(options.size(), 2U) << "repair is offered beside the new panel";
    EXPECT_EQ(options[0]["key"], "panel");
    EXPECT_EQ(options[0]["recommended"], true);
    EXPECT_EQ(options[1]["key"], "degrease");
    EXPECT_EQ(options[1]["months_low"], 6);
    EXPECT_EQ(options[1]["months_high"], 12);
    EXPECT_TRUE(says(options[1], "promise", "washable caps"));
    EXPECT_EQ(a["panels"][1]["verdict"], "repair_with_limits");
    EXPECT_TRUE(says(a, "never", "Do not raise the pH to 7"));
    EXPECT_TRUE(says(a, "never", "do not use one name for both"));
    for (const auto& c : diagnosis_["causes"])
        if (c["key"] == "red_rot") { EXPECT_LT(c["chance"]["value"], 5); }
}

TEST_F(DamageJourney, HoursThatNobodyTypesComeFromUsualRangesAndDoNotDecide) {
    const Json a = advised("C3", panel("Headrest"));
    const auto& p = a["panels"][0];
    EXPECT_EQ(p["verdict"], "repair_with_limits") << "usual ranges stand beside the rule";
    const auto& o = p["options"][0];
    EXPECT_EQ(o["key"], "degrease");
    EXPECT_GT(o["hours_80"].get<double>(), o["hours"].get<double>());
    EXPECT_TRUE(says(o, "hours_from", "estimate"));
    EXPECT_TRUE(says(p, "reasons", "From 0.70 (common practice) a new panel is advised")) << p["reasons"];
    EXPECT_TRUE(says(p, "reasons", "do not decide"));
    EXPECT_EQ(p["reasons"].back()["basis"]["standing"], "estimate");
    // Typed hours count, and decide.
    const Json typed = advised("C3", panel("Headrest", R"("repair_h": 4, "panel_h": 5)"));
    EXPECT_EQ(typed["panels"][0]["verdict"], "replace_panel");
    EXPECT_EQ(typed["panels"][0]["options"][0]["hours_from"], "as typed");
    // A larger panel takes longer to clean and to coat.
    EXPECT_GT(advised("C3", panel("Headrest", R"("area_m2": 2)"))["panels"][0]["options"][0]["hours"].get<double>(), o["hours"].get<double>());
}

TEST_F(DamageJourney, AFoldIsPromisedLessThanAStillPlace) {
    EXPECT_EQ(advised("C4", panel("Bolster", R"("flex": "still")"))["verdict"], "repairable");
    const Json fold = advised("C4", panel("Bolster", R"("flex": "fold")"));
    EXPECT_EQ(fold["verdict"], "repair_with_limits");
    EXPECT_TRUE(says(fold["panels"][0], "reasons", "folds in use"));
    EXPECT_NE(run("advise", R"({"known": {}, "panels": [{"name": "x", "flex": "wobbly"}]})").out.find("still, bend or fold"), std::string::npos);
}

TEST_F(DamageJourney, C4AnAirbagSeamIsReferredAndTheOtherBolsterRepaired) {
    const Json a = advised("C4", R"([{"name": "Cushion bolster"}, {"name": "Back bolster", "airbag": true}])");
    EXPECT_EQ(a["panels"][0]["verdict"], "repairable");
    EXPECT_EQ(a["panels"][0]["options"][0]["key"], "recolour");
    EXPECT_EQ(a["panels"][1]["verdict"], "refer");
    EXPECT_TRUE(a["panels"][1]["options"].empty());
    EXPECT_TRUE(says(a, "never", "Never stitch, glue, fill or stiffen at an airbag seam"));
    EXPECT_TRUE(says(a, "never", "name the light and the gloss"));
}

TEST_F(DamageJourney, C5PenOnNubuckMayBecomeWorse) {
    const Json a = advised("C5", panel("Top"));
    EXPECT_EQ(a["verdict"], "repair_with_limits");
    EXPECT_TRUE(says(a, "panels", "no guarantee, and it can become worse"));
    EXPECT_TRUE(says(a, "never", "stop after two passes"));
    EXPECT_TRUE(says(a, "never", "No alcohol, hair lacquer or wipes"));
    chances_are_bands(a);
}

TEST_F(DamageJourney, C6DyeTransferStopsWhenAPassBringsLittle) {
    const Json a = advised("C6", panel("Seats"));
    EXPECT_EQ(a["verdict"], "repair_with_limits");
    EXPECT_TRUE(says(a, "never", "Stop when a pass brings less than 0.3; no acetone"));
    EXPECT_TRUE(says(a, "never", "stain-proof for good"));
    EXPECT_TRUE(says(a, "panels", "isolate and recolour"));
}

TEST_F(DamageJourney, C7AWaterRingIsTreatedSeamToSeam) {
    const Json a = advised("C7", panel("Seat"), R"({"wishes": ["one_stain"]})");
    EXPECT_EQ(a["verdict"], "repair_with_limits");
    EXPECT_TRUE(says(a, "panels", "whole panel, seam to seam"));
    EXPECT_TRUE(says(a, "never", "Never wet the ring alone, never dry it with warm air"));
    EXPECT_TRUE(says(a, "out_of_reach", "never alone"));
}

TEST_F(DamageJourney, C8PeopleComeBeforeMould) {
    const Json a = advised("C8", panel("Backs"), R"({"mould_m2": 0.3})");
    EXPECT_EQ(a["verdict"], "repair_with_limits");
    ASSERT_FALSE(a["first"].empty());
    EXPECT_TRUE(says(a, "first", "asthma"));
    EXPECT_TRUE(says(a, "first", "stay out"));
    EXPECT_TRUE(says(a, "never", "No bleach and no biocide"));
    EXPECT_TRUE(says(diagnosis_, "findings", "plausible")) << diagnosis_["findings"];
    for (const char* more : {R"({"mould_m2": 1.5})", R"({"mould_m2": 0.3, "sewage": true})", R"({"mould_m2": 0.3, "hidden_mould": true})"}) EXPECT_EQ(advised("C8", panel("Backs"), more)["verdict"], "refer") << more;
}

TEST_F(DamageJourney, C9AFadedCushionNamesItsTarget) {
    const Json a = advised("C9", panel("Back cushion"), R"({"wishes": ["set"]})");
    EXPECT_EQ(a["verdict"], "repairable");
    EXPECT_TRUE(says(a, "panels", "say which target is matched"));
    EXPECT_TRUE(says(a, "panels", "offer the whole set"));
    EXPECT_TRUE(says(a, "never", "fading is not cured by rubbing something in"));
    EXPECT_TRUE(says(diagnosis_, "findings", "blue scale"));
    EXPECT_TRUE(says(a, "out_of_reach", "aged body"));
}

TEST_F(DamageJourney, C10AFailingFilmIsNotRestorable) {
    const Json a = advised("C10", panel("Seats and arms"));
    EXPECT_EQ(a["verdict"], "not_restorable");
    EXPECT_TRUE(says(a, "sentence", "re-cover or replace"));
    for (const auto& o : a["panels"][0]["options"]) {
        EXPECT_EQ(o["key"], "patch_paint");
        EXPECT_EQ(o["recommended"], false);
        EXPECT_LE(o["months_high"], 6);
        EXPECT_TRUE(says(o, "promise", "no warranty"));
    }
    EXPECT_TRUE(says(a, "never", "No filler, no recolouring"));
    EXPECT_TRUE(says(a, "owner", "coming apart by age"));
}

TEST_F(DamageJourney, C11SoundSeatsAreToldFromFailedArms) {
    const auto signs = [](const char* saw) { return std::string(R"([{"sign": "tacky", "saw": ")") + saw + R"("}, {"sign": "cracks", "saw": ")" + saw + R"("}, {"sign": "finish_lifts", "saw": ")" + saw + R"("}, {"sign": "at_skin", "saw": ")" + saw + R"("}])"; };
    const Json a = advised("C11", R"([{"name": "Arms", "film_lifts": true, "repair_h": 3.2, "panel_h": 5.6}, {"name": "Seats", "saw": )" + signs("not_there") + R"(, "readings": [{"kind": "blotter_oil", "value_1": 0}]}])");
    EXPECT_EQ(a["panels"][0]["verdict"], "replace_panel");
    EXPECT_TRUE(says(a["panels"][0], "sentence", "cannot be bonded down again"));
    EXPECT_TRUE(a["panels"][0]["options"][0]["months_for_hour"].is_number()) << "life against cost";
    EXPECT_EQ(a["panels"][1]["verdict"], "repair_with_limits");
    EXPECT_EQ(a["panels"][1]["options"][0]["key"], "film_top");
    EXPECT_TRUE(says(a["panels"][1]["options"][0], "promise", "no life is promised"));
}

TEST_F(DamageJourney, AnIdentifiedPanelBringsItsChancesIntoCauseAndAdvice) {
    struct Walk { const char *name, *tests, *saw, *readings, *lead, *cause, *verdict; };
    for (const Walk& w : {Walk{"C1", R"([{"test": "drop", "answers": ["under_10_s"]}, {"test": "blotter", "answers": ["clean"]}, {"test": "look", "answers": ["open"]}, {"test": "sheen", "answers": ["matt_varied"]}, {"test": "edge", "answers": ["grain_fibre"]}])",
                               R"([{"sign": "told_cleaner"}, {"sign": "weak_fibre", "saw": "not_there"}])",
                               R"([{"kind": "surface_ph", "value_1": 7.6, "control_1": 4.6}, {"kind": "colour_l", "value_1": 36.5, "control_1": 46.0}, {"kind": "colour_b", "value_1": 15.0, "control_1": 22.5}, {"kind": "blotter_oil", "value_1": 0}])", "aniline", "alkaline", "repair_with_limits"},
                          Walk{"C10", R"([{"test": "damage", "answers": ["sheets"]}, {"test": "edge", "answers": ["board"]}, {"test": "label", "answers": ["not_leather"]}])",
                               R"([{"sign": "in_sheets"}, {"sign": "at_unused"}, {"sign": "cracks"}, {"sign": "film_on_board"}])", "[]", "bonded", "film_hydrolysis", "not_restorable"}}) {
        SCOPED_TRACE(w.name);
        std::string code;
        const std::string id = identified(w.name, w.tests, code);
        const std::string known = R"({"piece": ")" + id + R"(", "panels": [")" + code + R"("], "saw": )" + w.saw + R"(, "readings": )" + w.readings;
        const Ran told = run("diagnose", known + "}");
        ASSERT_EQ(told.code, 0) << told.out;
        const Json d = Json::parse(told.out);
        EXPECT_EQ(d["causes"][0]["key"], std::string(w.cause));
        // Every kind that identify gives one in a hundred or more comes in, and no other.
        std::vector<std::string> given, taken;
        for (const auto& k : kinds_)
            if (k["chance"]["value"].get<double>() >= 1) given.push_back(k["key"].get<std::string>());
        for (const auto& c : d["covering"]) taken.push_back(c["key"].get<std::string>());
        std::sort(given.begin(), given.end());
        std::sort(taken.begin(), taken.end());
        EXPECT_EQ(given, taken);
        EXPECT_GT(given.size(), 1U) << "a chance, not one class";
        const auto lead = std::max_element(d["covering"].begin(), d["covering"].end(), [](const Json& x, const Json& y) { return x["chance_1"] < y["chance_1"]; });
        EXPECT_EQ((*lead)["key"], std::string(w.lead));
        const Ran advice = run("advise", R"({"known": )" + known + "}}");
        ASSERT_EQ(advice.code, 0) << advice.out;
        EXPECT_EQ(Json::parse(advice.out)["verdict"], std::string(w.verdict));
        never_says(Json::parse(advice.out));
        // What somebody says of the material afterwards counts instead.
        const Ran said = run("inspect", R"({"piece": ")" + id + R"(", "entries": [{"did": "panels", "facts": {"panels": [")" + code + R"("], "material": "nubuck"}}]})");
        ASSERT_EQ(said.code, 0) << said.out;
        const Json after = Json::parse(run("diagnose", known + "}").out);
        ASSERT_EQ(after["covering"].size(), 1U);
        EXPECT_EQ(after["covering"][0]["key"], "nubuck");
    }
}

TEST_F(DamageJourney, SignsCanBeTypedAndAnUnclearStoryIsSaidToBeUnclear) {
    const Ran typed = run("diagnose", "{}", "--covering aniline --saw told_cleaner --saw oil=no --read surface_ph=7.6/4.6 --read colour_l=36.5/46");
    ASSERT_EQ(typed.code, 0) << typed.out;
    EXPECT_NE(typed.out.find("alkali"), std::string::npos) << typed.out;
    const Ran thin = run("advise", R"({"known": {"saw": [{"sign": "darker"}]}})");
    ASSERT_EQ(thin.code, 0) << thin.out;
    EXPECT_EQ(Json::parse(thin.out)["verdict"], "wait_and_test");
    EXPECT_NE(run("diagnose", "{}", "--saw sparkles").code, 0);
    EXPECT_NE(run("diagnose", "{}", "--read surface_ph=high").code, 0);
}

}  // namespace
}  // namespace hw
