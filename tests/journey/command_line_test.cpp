// Whole jobs on the command line, and the same job over HTTP: the program is run as a person or a script would run it.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>
#include <vector>

#include "base/result.hpp"
#include "tests/support/http_client.hpp"
#include "tests/support/pdfs.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw {
namespace {

using Json = nlohmann::json;
using test::ScratchFolder;

std::string text_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

struct Ran {
    int code = -1;
    std::string out, err;
};

/// The program in a home of its own, so that no records of the machine are met.
class CommandLineJourney : public ::testing::Test {
protected:
    pid_t start(std::vector<std::string> arguments, const std::string& input, const std::string& name) {
        std::ofstream(home_.path() / "in", std::ios::binary) << input;
        const pid_t child = ::fork();
        if (child != 0) return child;
        ::setenv("XDG_DATA_HOME", home_.path().c_str(), 1);
        const auto redirect = [&](const std::string& file, int flags, int to) { ::dup2(::open((home_.path() / file).c_str(), flags, 0600), to); };
        redirect("in", O_RDONLY, 0);
        redirect(name + ".out", O_WRONLY | O_CREAT | O_TRUNC, 1);
        redirect(name + ".err", O_WRONLY | O_CREAT | O_TRUNC, 2);
        std::vector<char*> argv{const_cast<char*>(HW_PROGRAM)};
        for (auto& a : arguments) argv.push_back(a.data());
        argv.push_back(nullptr);
        ::execv(HW_PROGRAM, argv.data());
        ::_exit(127);
    }
    Ran run(const std::vector<std::string>& arguments, const std::string& input = {}) {
        Ran r;
        int status = 0;
        ::waitpid(start(arguments, input, "run"), &status, 0);
        r.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        r.out = text_of(home_.path() / "run.out");
        r.err = text_of(home_.path() / "run.err");
        return r;
    }
    [[nodiscard]] std::string folder() const { return (home_.path() / "records").string(); }

    ScratchFolder home_;
};

/// `hidewright serve` on a free port, stopped at the end.
class ServedJourney : public CommandLineJourney {
protected:
    void serve() {
        std::filesystem::remove(home_.path() / "serve.out");
        server_ = start({"serve", "--port", "0", "--data", folder()}, "", "serve");
        const std::string mark = "Open http://127.0.0.1:";
        for (int i = 0; i < 600 && port_ == 0; ++i) {
            const std::string said = text_of(home_.path() / "serve.out");
            if (const auto at = said.find(mark); at != std::string::npos && said.find('/', at + mark.size()) != std::string::npos) port_ = std::atoi(said.c_str() + at + mark.size());
            else std::this_thread::sleep_for(std::chrono::milliseconds(100));
        }
        ASSERT_NE(port_, 0) << text_of(home_.path() / "serve.err");
    }
    int stop(int signal) {
        int status = 0;
        ::kill(server_, signal);
        ::waitpid(server_, &status, 0);
        server_ = 0;
        port_ = 0;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }
    void TearDown() override {
        if (server_ > 0) stop(SIGKILL);
    }
    pid_t server_ = 0;
    int port_ = 0;
};

std::size_t columns(const std::string& line) {
    std::size_t n = 0;
    for (char c : line) n += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return n;
}

void expect_narrow(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), 80u) << line;
}

TEST_F(CommandLineJourney, AnExampleIsJudgedForPeople) {
    const Ran example = run({"examples", "judge"});
    ASSERT_EQ(example.code, 0);
    const Ran answer = run({"judge", "-"}, example.out);
    ASSERT_EQ(answer.code, 0) << answer.err;
    expect_narrow(answer.out);
    // The answer first, then because, then all of it, then who says so.
    std::size_t at = 0;
    for (const char* part : {"\nBecause\n", "\nAll of it\n", "\nLimits\n", "\npH inside", "\nWho says so\n"}) {
        const auto found = answer.out.find(part, at);
        ASSERT_NE(found, std::string::npos) << part;
        at = found;
    }
    const Json whole = Json::parse(run({"judge", "-", "--json"}, example.out).out);
    // Above the reasons stand the first line, what to do now, the sentence and how sure, in this order and whole.
    std::string head;
    std::istringstream words(answer.out.substr(0, answer.out.find("\nBecause")));
    for (std::string word; words >> word;) head += (head.empty() ? "" : " ") + word;
    std::string expected = whole["advice"].get<std::string>() + ".";
    for (const auto& line : whole["do_now"]) expected += " now " + line.get<std::string>();
    EXPECT_EQ(head, expected + " " + whole["sentence"].get<std::string>() + " " + whole["how_sure"].get<std::string>());
}

TEST_F(CommandLineJourney, AnExampleIsAnalysedForPeople) {
    const Ran answer = run({"analyse", "-"}, run({"examples", "analyse"}).out);
    ASSERT_EQ(answer.code, 0) << answer.err;
    expect_narrow(answer.out);
    EXPECT_NE(answer.out.find("\n  pH "), std::string::npos);
    EXPECT_NE(answer.out.find("derived"), std::string::npos);
}

TEST_F(CommandLineJourney, ARefusalNamesFieldAndRemedyAndHasItsExitCode) {
    const struct {
        const char* request;
        ErrorCode code;
        const char* where;
        const char* says;
    } cases[] = {
        {"{\"liquid\": ", ErrorCode::InvalidInput, "", "not valid JSON"},
        {R"({"liquid": {"nam": "x"}})", ErrorCode::InvalidInput, "liquid.nam", "Did you mean \"name\"?"},
        {R"({"liquid": {"ingredients": [{"name": "acid", "cas": "64-19-8", "content_pct": 5}]}})", ErrorCode::InvalidInput, "liquid.ingredients[0].cas", "digit"},
        {R"({"liquid": {"ingredients": [{"name": "sodium hydroxide", "content_pct": -5}]}})", ErrorCode::OutOfRange, "liquid.ingredients[0].content_pct", "0 to 100"},
        {R"({"liquid": {"name": "Water"}, "liquid_c": 95})", ErrorCode::OutOfRange, "liquid_c", "0 to 60"},
        {R"({"liquid": {"id": "nobody_has_this"}})", ErrorCode::NotFound, "liquid.id", "nobody_has_this"},
    };
    for (const auto& c : cases) {
        const Ran text = run({"analyse", "-"}, c.request);
        EXPECT_EQ(text.code, error_row(c.code).exit_code) << c.request << text.err;
        EXPECT_EQ(text.out, "") << c.request;
        EXPECT_EQ(text.err.find(c.where), 0u) << text.err;
        EXPECT_NE(text.err.find(c.says), std::string::npos) << text.err;
        const Ran program = run({"analyse", "-", "--json"}, c.request);
        EXPECT_EQ(program.code, text.code);
        const Json problem = Json::parse(program.out);
        EXPECT_EQ(problem["status"], error_row(c.code).http_status);
        EXPECT_EQ(problem.value("where", ""), c.where);
    }
    EXPECT_EQ(run({"judge", "no-such-file.json"}).code, 3);
    EXPECT_EQ(run({"schema", "guess"}).code, 3);
    EXPECT_EQ(run({"guess"}).code, 2);
    EXPECT_EQ(run({}).code, 2);
    EXPECT_EQ(run({"serve", "--port", "70000"}).code, 2);
}

TEST_F(CommandLineJourney, EveryVerbHelpsWithAnExample) {
    EXPECT_EQ(run({"--version"}).out, "hidewright " HW_VERSION "\n");
    const std::string help = run({"--help"}).out;
    std::istringstream lines(help.substr(help.find("Subcommands:")));
    int verbs = 0;
    std::string line;
    std::getline(lines, line);
    while (std::getline(lines, line) && line.substr(0, 2) == "  ") {
        std::istringstream words(line);
        std::string verb;
        words >> verb;
        const Ran own = run({verb, "--help"});
        EXPECT_EQ(own.code, 0) << verb;
        EXPECT_NE(own.out.find("Example: hidewright"), std::string::npos) << verb;
        ++verbs;
    }
    EXPECT_EQ(verbs, 38);
}

TEST_F(CommandLineJourney, PeopleAreAddedByPasswordFromStandardInputAndTheNetworkWaitsForAnOwner) {
    ASSERT_EQ(run({"people", "add", "Ben"}, "another sentence\n").code, 0);
    EXPECT_EQ(run({"network", "on", "--name", "workshop"}).code, 5) << "nobody could let others in";
    EXPECT_EQ(run({"people", "add", "Ada", "--role", "owner"}, "short\n").code, 2);
    EXPECT_EQ(run({"people", "add", "Ada", "--role", "owner", "--password", "a long sentence"}).code, 2) << "a password on the command line";
    ASSERT_EQ(run({"people", "add", "Ada", "--role", "owner"}, "a long sentence\n").code, 0);
    EXPECT_EQ(run({"people", "add", "ADA"}, "a long sentence\n").code, 5);
    const Json rows = Json::parse(run({"people", "list", "--json"}).out)["items"];
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0]["name"], "Ada");
    EXPECT_EQ(rows[1]["role"], "technician");
    EXPECT_EQ(run({"network", "on", "--name", "example.com"}).code, 2);
    ASSERT_EQ(run({"network", "on", "--name", "workshop"}).code, 0);
    EXPECT_NE(run({"network", "status"}).out.find("workshop.local"), std::string::npos);
    EXPECT_EQ(run({"people", "remove", "Ada"}).code, 5);
    EXPECT_EQ(run({"people", "role", "Ben", "--role", "owner"}).code, 0);
    EXPECT_EQ(run({"people", "remove", "Ada"}).code, 0);
    EXPECT_EQ(run({"people", "unlock", "Ada"}).code, 3);
    EXPECT_EQ(run({"people", "unlock", "ben"}).code, 0);
    EXPECT_EQ(run({"network", "off"}).code, 0);
}

TEST_F(CommandLineJourney, WhatOtherProgramsReadIsThere) {
    EXPECT_EQ(Json::parse(run({"openapi"}).out)["openapi"], "3.1.0");
    EXPECT_EQ(Json::parse(run({"schema", "judge"}).out)["request"]["type"], "object");
    EXPECT_NE(run({"typescript"}).out.find("export interface JudgeAnswer"), std::string::npos);
    EXPECT_EQ(run({"prove"}).out.substr(0, 1), "#");
}

TEST_F(CommandLineJourney, ThePageOfTheWebDoorNamesEveryRoute) {
    const std::string page = text_of(std::filesystem::path(HW_SOURCE) / "docs/reference/http.md");
    const Json doc = Json::parse(run({"openapi"}).out);
    for (const auto& [path, methods] : doc["paths"].items())
        for (const auto& [method, operation] : methods.items())
            EXPECT_NE(page.find(std::string("`") + (method == "get" ? "GET " : "POST ") + path + "`"), std::string::npos) << method << " " << path;
}

TEST_F(CommandLineJourney, ACallIsAnsweredPrintedAndBecomesAPieceOnce) {
    const std::string questions = run({"triage"}).out;
    expect_narrow(questions);
    EXPECT_NE(questions.find("anybody coughing"), std::string::npos);
    Json request = Json::parse(run({"examples", "triage"}).out);
    const std::string page = (home_.path() / "call.pdf").string();
    const Ran people = run({"triage", "-", "--pdf", page, "--paper", "letter"}, request.dump());
    ASSERT_EQ(people.code, 0) << people.err;
    expect_narrow(people.out);
    std::size_t at = 0;
    for (const char* part : {"How soon: now, on the phone", "\nSay now\n", "\nNever\n", "\nMay I", "\nAsk next (", "\nWho says so\n"}) {
        const auto found = people.out.find(part, at);
        ASSERT_NE(found, std::string::npos) << part;
        at = found;
    }
    EXPECT_EQ(text_of(page).substr(0, 5), "%PDF-");
    EXPECT_EQ(run({"triage", "-", "--pdf", page, "--paper", "a7"}, request.dump()).code, 2);

    request["keep"] = true;
    request["piece"] = "00000000-0000-7000-8000-0000000000aa";
    std::string entries;
    for (int i = 0; i < 2; ++i) {
        const Ran kept = run({"triage", "-", "--json", "--data", folder()}, request.dump());
        ASSERT_EQ(kept.code, 0) << kept.out << kept.err;
        EXPECT_EQ(Json::parse(kept.out)["piece"], request["piece"]);
        const Json piece = Json::parse(run({"pieces", "--show", request["piece"], "--json", "--data", folder()}).out);
        EXPECT_EQ(piece["make_up"]["family"], "sofa");
        if (i == 1) { EXPECT_EQ(piece["entries"].dump(), entries) << "sent twice, kept once"; }
        entries = piece["entries"].dump();
    }
    // From the answer to the next verb: the liquid of the class on the leather as it looks.
    const Json answer = Json::parse(run({"triage", "-", "--json"}, Json::parse(run({"examples", "triage"}).out).dump()).out);
    Json judge = answer["judge"];
    judge["members"] = 32;
    const Ran judged = run({"judge", "-", "--json"}, judge.dump());
    EXPECT_EQ(judged.code, 0) << judged.out << judged.err;
    // Bleach and vinegar: people first, whatever else was said.
    const Ran stop = run({"triage", "-"}, R"({"answers": [{"question": "product", "choices": ["bleach", "vinegar"]}]})");
    EXPECT_EQ(stop.out.find("STOP"), 0u) << stop.out;
}

// Three calls as they come in, each taken to the card for the bench: what the call told is what the plan goes on with.
TEST_F(CommandLineJourney, ACallIsTakenToTheBenchCard) {
    struct Case {
        const char *name, *call, *readings;
        double now_h;
        const char *way, *first_step;
    };
    const auto answers = [](const char* more) { return std::string(R"({"members": 64, "answers": [{"question": "people", "choices": ["none"]}, {"question": "wet", "choices": ["dry"]}, )") + more + "]}"; };
    for (const Case& c : {Case{"darkened arms", R"({"question": "piece", "choices": ["armchair"]}, {"question": "product", "choices": ["all_purpose"]}, {"question": "when", "choices": ["days"]}, {"question": "surface", "choices": ["varied"]},
                                {"question": "neat", "choices": ["neat"]}, {"question": "dose", "number_1": 40, "unit": "ml"}, {"question": "area", "number_1": 1800, "unit": "cm2"}, {"question": "left_on", "number_1": 8, "unit": "min"}, {"question": "wiped", "choices": ["dry_cloth"]})",
                                R"([{"kind": "surface_ph", "value_1": 7.6, "at_h": 72}, {"kind": "control_ph", "value_1": 4.6}])", 72, "", "Set out"},
                          Case{"sticky sofa", R"({"question": "piece", "choices": ["sofa"]}, {"question": "product", "choices": ["degreaser"]}, {"question": "when", "choices": ["yesterday"]}, {"question": "seen", "choices": ["sticky", "dull"]}, {"question": "surface", "choices": ["even_shine"]},
                                {"question": "dose", "number_1": 30, "unit": "ml"}, {"question": "area", "number_1": 7500, "unit": "cm2"}, {"question": "left_on", "number_1": 10, "unit": "min"}, {"question": "wiped", "choices": ["damp_cloth"]})",
                                R"([{"kind": "surface_ph", "value_1": 8.9, "at_h": 24}])", 24, "vent_solvent", ""}}) {
        SCOPED_TRACE(c.name);
        Json call = Json::parse(answers(c.call));
        call.erase("members");
        const Ran told = run({"triage", "-", "--json"}, call.dump());
        ASSERT_EQ(told.code, 0) << told.out << told.err;
        const Json triage = Json::parse(told.out);
        ASSERT_FALSE(triage["judge_sentence"].get<std::string>().empty());
        Json plan;
        plan["known"] = {{"happened", triage["judge"]}, {"readings", Json::parse(c.readings)}, {"now_h", c.now_h}};
        plan["area_cm2"] = triage["judge"]["use"]["dose"]["area_cm2"];
        plan["tacky"] = c.now_h == 24;
        plan["members"] = 64;
        plan["asked"] = {"vinegar", "hair_dryer", "bicarbonate", "more_soap"};
        const Ran planned = run({"rebalance", "-", "--json"}, plan.dump());
        ASSERT_EQ(planned.code, 0) << planned.out << planned.err;
        const Json a = Json::parse(planned.out);
        const auto best = std::find_if(a["ways"].begin(), a["ways"].end(), [](const Json& w) { return w["recommended"] == true; });
        ASSERT_NE(best, a["ways"].end());
        if (*c.way != 0) { EXPECT_EQ((*best)["way"], c.way); }
        ASSERT_FALSE(a["card"].empty());
        if (*c.first_step != 0 && (*best)["rinse"].is_object()) { EXPECT_EQ(a["card"][0]["title"], c.first_step); }
        EXPECT_EQ(a["card"].back()["reading"], true) << "a card ends with a reading";
        EXPECT_EQ(a["remedies"].size(), 4U);
        for (const auto& r : a["remedies"]) EXPECT_EQ(r["refused"], true) << r["key"];
        const std::string page = (home_.path() / "card.pdf").string(), again = (home_.path() / "again.pdf").string();
        ASSERT_EQ(run({"rebalance", "-", "--pdf", page}, plan.dump()).code, 0);
        const Ran people = run({"rebalance", "-"}, plan.dump());
        ASSERT_EQ(people.code, 0) << people.err;
        expect_narrow(people.out);
        for (const auto& step : a["card"]) EXPECT_NE(people.out.find(step["title"].get<std::string>().substr(0, 24)), std::string::npos) << step["title"];
        EXPECT_EQ(text_of(page).substr(0, 5), "%PDF-");
        ASSERT_EQ(run({"rebalance", "-", "--pdf", again}, plan.dump()).code, 0);
        const auto undated = [](std::string bytes) {
            const auto at = bytes.find("/CreationDate (");
            EXPECT_NE(at, std::string::npos);
            return bytes.replace(at, bytes.find(')', at) - at, "");
        };
        EXPECT_EQ(undated(text_of(page)), undated(text_of(again))) << "but for the date the same plan prints the same bytes";
    }
    // Skin oil: nothing was laid on, and no name is given to a decay.
    const Ran told = run({"triage", "-", "--json"}, answers(R"({"question": "piece", "choices": ["wing_chair"]}, {"question": "product", "choices": ["none"]}, {"question": "cleaned", "choices": ["body_oil"]}, {"question": "seen", "choices": ["darker", "cracks"]}, {"question": "surface", "choices": ["varied"]})").replace(1, 15, ""));
    ASSERT_EQ(told.code, 0) << told.out << told.err;
    EXPECT_TRUE(Json::parse(told.out)["judge_sentence"].get<std::string>().empty());
    const Ran planned = run({"rebalance", "-", "--json"}, R"({"known": {"nothing_laid": true, "happened": {"liquid": {"name": "nothing laid on"}, "leather": {"leather_class": "semi_aniline", "tannage": "chrome"}}, "readings": [{"kind": "surface_ph", "value_1": 3.3, "at_h": 24}, {"kind": "control_ph", "value_1": 4.7}]}, "area_cm2": 1800, "fibre_weak_pct": 42, "members": 64, "asked": ["bicarbonate"]})");
    ASSERT_EQ(planned.code, 0) << planned.out << planned.err;
    const Json a = Json::parse(planned.out);
    for (const auto& w : a["ways"])
        if (w["way"] == "rinse_blot" || w["way"] == "raise_gently" || w["way"] == "buffered_acid") { EXPECT_EQ(w["possible"], false) << w["way"]; }
    EXPECT_EQ(a["remedies"][0]["refused"], true);
    EXPECT_EQ(planned.out.find("red rot"), std::string::npos);
    ASSERT_FALSE(a["card"].empty());
}

TEST_F(CommandLineJourney, APhotographIsAddedOnceShownAndSaved) {
    // A PNG of two pixels, red and blue.
    const std::string png(
        "\x89\x50\x4e\x47\x0d\x0a\x1a\x0a\x00\x00\x00\x0d\x49\x48\x44\x52\x00\x00\x00\x02\x00\x00\x00\x01\x08\x02\x00\x00\x00\x7b\x40\xe8\xdd\x00\x00\x00\x0d"
        "\x49\x44\x41\x54\x78\x9c\x63\xf8\xcf\x00\x04\xff\x01\x07\x00\x01\xff\xe2\x23\x9e\x59\x00\x00\x00\x00\x49\x45\x4e\x44\xae\x42\x60\x82",
        70);
    const std::string file = (home_.path() / "arm.png").string(), letter = (home_.path() / "letter.txt").string(), saved = (home_.path() / "saved").string();
    std::ofstream(file, std::ios::binary) << png;
    std::ofstream(letter) << "a letter";
    for (int i = 0; i < 2; ++i) EXPECT_EQ(run({"photos", "add", file, "--data", folder()}).code, 0);
    const Json items = Json::parse(run({"photos", "--json", "--data", folder()}).out)["items"];
    ASSERT_EQ(items.size(), 1u);
    EXPECT_EQ(items[0]["width_px"], 2);
    EXPECT_EQ(items[0]["name"], "arm.png");
    EXPECT_EQ(items[0]["arrival"], "import");
    const std::string id = items[0]["id"];
    EXPECT_NE(run({"photos", id, "--data", folder()}).out.find("2 × 1 px"), std::string::npos);
    EXPECT_EQ(run({"photos", id, "--size", "original", "-o", saved, "--data", folder()}).code, 0);
    EXPECT_EQ(text_of(saved), png);
    EXPECT_EQ(run({"photos", id, "--size", "small", "--data", folder()}).out.substr(0, 3), "\xff\xd8\xff");
    const Ran refused = run({"photos", "add", letter, "--data", folder()});
    EXPECT_EQ(refused.code, 2);
    EXPECT_NE(refused.err.find("letter.txt: This is no picture"), std::string::npos) << refused.err;
    EXPECT_EQ(run({"photos", std::string(64, '0'), "--data", folder()}).code, 3);
    EXPECT_EQ(run({"photos", "--help"}).out.find("read-photo"), std::string::npos);
}

TEST_F(CommandLineJourney, WithoutRecordsTheDemoWorkshopIsShownAndNothingIsMade) {
    const Ran liquids = run({"liquids"});
    EXPECT_EQ(liquids.code, 0);
    EXPECT_NE(liquids.err.find("No records"), std::string::npos);
    EXPECT_NE(liquids.out.find("demo_"), std::string::npos);
    const Json page = Json::parse(run({"leathers", "--json", "--limit", "2"}).out)["items"];
    ASSERT_EQ(page.size(), 2u);
    const Json next = Json::parse(run({"leathers", "--json", "--limit", "2", "--after", page[1]["id"]}).out)["items"];
    EXPECT_GT(next[0]["id"].get<std::string>(), page[1]["id"].get<std::string>());
    EXPECT_FALSE(std::filesystem::exists(home_.path() / "hidewright"));
}

TEST_F(ServedJourney, TheCommandLineAndThePageGiveTheSameNumbers) {
    serve();
    for (const std::string verb : {"analyse", "judge"}) {
        const std::string request = run({"examples", verb}).out;
        const auto served = test::post(port_, "/api/" + verb, request);
        EXPECT_EQ(served.status, 200);
        EXPECT_EQ(run({verb, "-", "--json"}, request).out, served.body + "\n");
        EXPECT_EQ(Json::parse(run({"schema", verb}).out), Json::parse(test::get(port_, "/api/schema/" + verb).body));
    }
    EXPECT_EQ(stop(SIGTERM), 0);
}

TEST_F(ServedJourney, AKeptJudgementPrintsTheSameBytesOnBothDoors) {
    serve();
    const std::string id = Json::parse(test::get(port_, "/api/judgements?limit=1").body)["items"][0]["id"];
    for (const std::string page : {"owner", "technical"})
        for (const std::string paper : {"a4", "letter"}) {
            const auto served = test::get(port_, "/api/judgements/" + id + "/" + page + ".pdf?paper=" + paper);
            ASSERT_EQ(served.status, 200);
            EXPECT_EQ(served.headers.at("content-type"), "application/pdf");
            EXPECT_EQ(served.headers.at("content-disposition"), "inline; filename=\"judgement-" + id + "-" + page + ".pdf\"");
            const std::string file = (home_.path() / "out.pdf").string();
            const Ran printed = run({"print", id, "--page", page, "--paper", paper, "-o", file, "--data", folder()});
            EXPECT_EQ(printed.code, 0) << printed.err;
            EXPECT_EQ(printed.out, "");
            EXPECT_EQ(text_of(file), served.body);
        }
    EXPECT_EQ(test::get(port_, "/api/judgements/" + id + "/owner.pdf").body, test::get(port_, "/api/judgements/" + id + "/owner.pdf?paper=a4").body);
    const auto refused = test::get(port_, "/api/judgements/" + id + "/owner.pdf?paper=a5");
    EXPECT_EQ(refused.status, 400);
    EXPECT_EQ(Json::parse(refused.body)["where"], "paper");
    EXPECT_EQ(test::get(port_, "/api/judgements/none/owner.pdf").status, 404);
    EXPECT_EQ(run({"print", "none", "--data", folder()}).code, 3);
}

TEST_F(CommandLineJourney, ARequestIsJudgedAndPrintedWithoutBeingKept) {
    const std::string request = run({"examples", "judge"}).out;
    const Ran printed = run({"print", "-"}, request);
    EXPECT_EQ(printed.code, 0) << printed.err;
    EXPECT_EQ(printed.out.substr(0, 5), "%PDF-");
    EXPECT_FALSE(std::filesystem::exists(home_.path() / "hidewright"));
    const Ran paper = run({"print", "-", "--paper", "a5"}, request);
    EXPECT_EQ(paper.code, 2);
    EXPECT_NE(paper.err.find("paper: "), std::string::npos);
    EXPECT_NE(run({"print", "-", "--page", "all"}, request).err.find("page: "), std::string::npos);
    EXPECT_EQ(run({"print", "-", "-o", "/no/such/folder/x.pdf"}, request).code, 7);
}

TEST_F(ServedJourney, AJudgementIsKeptListedAndSurvivesAKill) {
    serve();
    Json request = Json::parse(run({"examples", "judge"}).out);
    request["keep"] = true;
    request["title"] = "Kept before the power went";
    const auto kept = test::post(port_, "/api/judge", request.dump());
    ASSERT_EQ(kept.status, 200);
    const std::string id = Json::parse(kept.body)["id"];
    ASSERT_FALSE(id.empty());
    // Beside the running server the command line may look, not change.
    EXPECT_NE(run({"judgements", "--data", folder()}).out.find(id), std::string::npos);
    EXPECT_EQ(run({"demo", "remove", "--data", folder()}).code, 7);
    stop(SIGKILL);
    const Json again = Json::parse(run({"judgements", "--show", id, "--json", "--data", folder()}).out);
    EXPECT_EQ(again["row"]["title"], "Kept before the power went");
    EXPECT_EQ(again["row"]["version"], "hidewright " HW_VERSION);
    EXPECT_EQ(again["request"]["title"], "Kept before the power went");
    EXPECT_EQ(again["answer"], Json::parse(kept.body));
    EXPECT_EQ(run({"demo", "remove", "--data", folder()}).code, 0);
    EXPECT_EQ(run({"liquids", "--data", folder()}).out, "");
    const Json left = Json::parse(run({"judgements", "--json", "--data", folder()}).out)["items"];
    ASSERT_EQ(left.size(), 1u) << "the judgement that was made stays, those of the demo are gone";
    EXPECT_EQ(left[0]["id"], id);
}

TEST_F(ServedJourney, TheFirstStartLoadsTheDemoTheSecondDoesNotLoadItAgain) {
    serve();
    const std::string first = test::get(port_, "/api/judgements").body;
    EXPECT_GE(Json::parse(first)["items"].size(), 6u);
    EXPECT_TRUE(Json::parse(first)["items"][0]["demo"].get<bool>());
    EXPECT_EQ(stop(SIGINT), 0);
    const auto began = std::chrono::steady_clock::now();
    serve();
    EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(2));
    EXPECT_EQ(test::get(port_, "/api/judgements").body, first);
    EXPECT_EQ(run({"serve", "--port", "0", "--data", folder()}).code, 7) << "a second server must not open the same records";
}

/// Runs inside of a home of its own, as the others do.
TEST_F(CommandLineJourney, WhatMayTouchWhatMustNeverMeetAndWhatDropsSay) {
    const Ran chart = run({"touch", "--liquid", "demo_mild", "--class", "aniline", "--quick", "--json"});
    ASSERT_EQ(chart.code, 0) << chart.err;
    const Json cells = Json::parse(chart.out)["cells"];
    ASSERT_EQ(cells.size(), 1u);
    EXPECT_EQ(cells[0]["state"], "preliminary");
    const Ran paper = run({"touch", "--liquid", "demo_mild", "--class", "aniline", "--quick", "--pdf", "-", "--paper", "a4"});
    EXPECT_EQ(paper.out.rfind("%PDF-", 0), 0u);
    EXPECT_EQ(run({"touch", "--class", "stone"}).code, 3);

    const Ran met = run({"meet", "demo_bleach", "wiped", "rinsed:3", "demo_vinegar"});
    EXPECT_EQ(met.code, 0);
    EXPECT_EQ(met.out.rfind("Stop. Chlorine bleach and an acid", 0), 0u) << met.out;
    EXPECT_EQ(run({"meet", "demo_water", "demo_mild"}).out.rfind("No meeting", 0), 0u);
    EXPECT_NE(run({"meet", "--shelf"}).out.find("Where to keep them"), std::string::npos);
    EXPECT_EQ(run({"meet", "rinsed:3", "demo_bleach"}).code, 2);
    EXPECT_EQ(run({"meet", "nowhere"}).code, 3);

    const Ran drops = run({"titrate", "demo_degreaser", "--drops", "12", "--json"});
    ASSERT_EQ(drops.code, 0) << drops.err;
    EXPECT_TRUE(Json::parse(drops.out)["counted"]);
    EXPECT_NE(run({"titrate", "demo_degreaser"}).out.find("Eye protection"), std::string::npos);
    EXPECT_EQ(run({"titrate", "demo_bleach"}).out.find("Eye protection"), std::string::npos);
    EXPECT_EQ(run({"titrate", "demo_degreaser", "--pdf", "-"}).out.rfind("%PDF-", 0), 0u);
}

TEST_F(CommandLineJourney, ASheetIsReadKeptCorrectedShelvedAndJudged) {
    const std::filesystem::path file = home_.path() / "sheet.pdf";
    std::ofstream(file, std::ios::binary) << test::pdf_of(test::sheet_lines());
    const Ran text = run({"digest", file.string()});
    EXPECT_EQ(text.code, 0) << text.err;
    EXPECT_NE(text.out.find("Workshop degreaser 40"), std::string::npos);
    EXPECT_NE(text.out.find("page 2"), std::string::npos) << "the place of a fact";
    EXPECT_NE(text.out.find("not a recipe"), std::string::npos);
    EXPECT_FALSE(std::filesystem::exists(home_.path() / "hidewright")) << "without --keep nothing is written";
    const Ran kept = run({"digest", file.string(), "--keep", "--json"});
    ASSERT_EQ(kept.code, 0) << kept.err;
    const std::string id = Json::parse(kept.out)["id"];
    EXPECT_EQ(run({"sheets"}).out.substr(0, 12), id.substr(0, 12));
    const Ran corrected = run({"sheets", "correct", id.substr(0, 8), "ph", "12.4", "--measured", "--json"});
    ASSERT_EQ(corrected.code, 0) << corrected.err;
    const Ran page = run({"sheets", "page", id, "2"});
    EXPECT_EQ(page.out.substr(1, 3), "PNG");
    const Ran shelved = run({"sheets", "shelve", id, "--json"});
    ASSERT_EQ(shelved.code, 0) << shelved.err;
    const Json liquid = Json::parse(shelved.out);
    EXPECT_EQ(liquid["read_ph"], 12.4);
    const Ran judged = run({"judge", "-", "--json", "--data", (home_.path() / "hidewright").string()}, Json{{"liquid", {{"id", liquid["id"]}}}, {"leather", {{"leather_class", "aniline"}, {"tannage", "chrome"}}}}.dump());
    ASSERT_EQ(judged.code, 0) << judged.err;
    EXPECT_FALSE(Json::parse(judged.out)["sentence"].get<std::string>().empty());
}

TEST_F(CommandLineJourney, ASheetThatIsNotTakenSaysWhatToDo) {
    const Ran nothing = run({"digest", "nowhere.pdf"});
    EXPECT_EQ(nothing.code, error_row(ErrorCode::NotFound).exit_code);
    const Ran text = run({"digest", "-"}, "hello");
    EXPECT_EQ(text.code, error_row(ErrorCode::InvalidInput).exit_code);
    EXPECT_NE(text.err.find("no PDF"), std::string::npos);
    test::PdfOptions bare;
    bare.bare = true;
    const Ran scan = run({"digest", "-", "--json"}, test::pdf_of({{}, {}}, bare));
    EXPECT_EQ(Json::parse(scan.out)["where"], "sheet.no_text");
    EXPECT_EQ(run({"digest", "-", "--by-hand"}, test::pdf_of({{}, {}}, bare)).code, 0);
    EXPECT_EQ(run({"sheets", "correct", "x"}).code, error_row(ErrorCode::InvalidInput).exit_code);
}

TEST_F(CommandLineJourney, AJobGetsItsSafetyCard) {
    const std::string car = run({"examples", "protect"}).out;
    const Json card = Json::parse(run({"protect", "-", "--json"}, car).out);
    EXPECT_TRUE(card["air"]["over_limit"].get<bool>());
    EXPECT_NE(card["sentence"].get<std::string>().find("All doors open"), std::string::npos);
    EXPECT_EQ(run({"protect", "-", "--pdf", "-", "--paper", "letter"}, car).out.substr(0, 5), "%PDF-");
    EXPECT_EQ(run({"protect", "-", "--note", "-"}, car).out.substr(0, 5), "%PDF-");
    const Json mould = Json::parse(run({"protect", "-", "--json"}, R"({"job": "mould", "place": {"key": "home_room"}, "household": {"asthma": "yes"}, "mould": {"area_m2": 1.5, "humidity_pct": 82}})").out);
    EXPECT_EQ(mould["stops"][0]["kind"], "refer_mould");
    EXPECT_NE(mould["mould_sentence"].get<std::string>().find("about 7 days"), std::string::npos);
    EXPECT_EQ(run({"protect"}).code, 2);
}

}  // namespace
}  // namespace hw
