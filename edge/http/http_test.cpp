// The web door over a real loopback socket.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <condition_variable>
#include <mutex>
#include <nlohmann/json.hpp>
#include <set>
#include <thread>

#include "desk/words.hpp"
#include "edge/codec/codec.hpp"
#include "edge/http/app.hpp"
#include "edge/http/pages.hpp"
#include "edge/http/server.hpp"
#include "edge/http/work_pool.hpp"
#include "embedded/web.hpp"
#include "tests/support/http_client.hpp"
#include "tests/support/judgement_sample.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_people.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::http {
namespace {

using Json = nlohmann::json;
using test::ask;
using test::get_text;
using test::HttpReply;
using test::post_text;

/// A store whose liquid "slow" is not found until the gate opens, and whose liquid "bug" breaks a promise.
class GatedStore : public test::MemoryStore {
public:
    Result<desk::Liquid> liquid(const std::string& id) override {
        if (id == "bug") throw Bug("a secret of the inside");
        if (id == "slow") {
            std::unique_lock lock(guard_);
            ++inside_;
            changed_.notify_all();
            changed_.wait(lock, [this] { return open_; });
        }
        return MemoryStore::liquid(id);
    }
    void wait_for(int inside) {
        std::unique_lock lock(guard_);
        changed_.wait(lock, [&] { return inside_ >= inside; });
    }
    void open_gate() {
        const std::scoped_lock lock(guard_);
        open_ = true;
        changed_.notify_all();
    }

private:
    std::mutex guard_;
    std::condition_variable changed_;
    int inside_ = 0;
    bool open_ = false;
};

class Door : public ::testing::Test {
protected:
    Door() : server_(Server::start({0, [this](const std::string& line) {
                                 const std::scoped_lock lock(log_guard_);
                                 log_.push_back(line);
                             }}, ports_).value()) {}
    [[nodiscard]] int port() const { return server_->port(); }
    HttpReply get(const std::string& path) { return test::get(port(), path); }
    HttpReply post(const std::string& path, const std::string& body) { return test::post(port(), path, body); }
    HttpReply raw(const std::string& bytes) { return ask(port(), bytes); }
    std::string log() {
        const std::scoped_lock lock(log_guard_);
        std::string all;
        for (const auto& line : log_) all += line + "\n";
        return all;
    }

    GatedStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    desk::Ports ports_ = [this] {
        desk::Ports p{store_, clock_};
        p.journal = &journal_;
        return p;
    }();
    std::mutex log_guard_;
    std::vector<std::string> log_;
    std::unique_ptr<Server> server_;
};
class HttpContract : public Door {};
class HttpRefusal : public Door {};
class HttpConsistency : public Door {};

const char* const slow_request = R"({"liquid": {"id": "slow"}})";

void expect_problem(const HttpReply& r, int status, const std::string& where, const std::string& says) {
    EXPECT_EQ(r.status, status) << r.body;
    EXPECT_EQ(r.headers.at("content-type"), "application/problem+json");
    const Json p = Json::parse(r.body);
    EXPECT_EQ(p["status"], status);
    EXPECT_EQ(p.value("where", ""), where);
    EXPECT_NE(p["detail"].get<std::string>().find(says), std::string::npos) << r.body;
    EXPECT_FALSE(p["id"].get<std::string>().empty());
}

TEST_F(HttpContract, AVerbAnswersAsItIsWritten) {
    const std::string request = *codec::example("analyse");
    const auto r = post("/api/analyse", request);
    EXPECT_EQ(r.status, 200);
    EXPECT_EQ(r.headers.at("content-type"), "application/json");
    EXPECT_EQ(r.body, codec::written(*desk::analyse(*codec::parse_analyse_request(request), ports_)));
}

TEST_F(HttpContract, APieceIsEnteredListedShownAndRefusedByTheField) {
    const auto made = post("/api/inspect", *codec::example("inspect"));
    ASSERT_EQ(made.status, 200) << made.body;
    const std::string id = Json::parse(made.body)["piece"];
    EXPECT_EQ(Json::parse(get("/api/pieces").body)["items"][0]["id"], id);
    EXPECT_EQ(get("/api/pieces/" + id).body, made.body);
    expect_problem(get("/api/pieces/none"), 404, "piece", "no piece");
    expect_problem(post("/api/inspect", R"({"piece": ")" + id + R"(", "entries": [{"did": "condition", "condition": {"panels": ["XX"], "term": "fade"}}]})"), 404, "entries[0].condition.panels[0]", "no panel");
    const auto meter = post("/api/meters", R"({"id": "bench-meter", "name": "Bench meter"})");
    ASSERT_EQ(meter.status, 200) << meter.body;
    const auto told = post("/api/calibrate", *codec::example("calibrate"));
    ASSERT_EQ(told.status, 200) << told.body;
    EXPECT_EQ(Json::parse(told.body)["good"], true);
    EXPECT_EQ(Json::parse(get("/api/meters").body)["items"][0]["instrument"]["name"], "Bench meter");
    EXPECT_EQ(get("/api/inspection_words").status, 200);
}

TEST_F(HttpContract, WhatIsKeptIsListedPagedBinnedAndRestored) {
    const auto kept = post("/api/liquids", R"({"id": "a \"quoted\" one", "name": "Water"})");
    ASSERT_EQ(kept.status, 200) << kept.body;
    EXPECT_EQ(Json::parse(kept.body)["id"], "a \"quoted\" one");
    EXPECT_EQ(post("/api/leathers", codec::written(test::sample_leather())).status, 200);
    EXPECT_EQ(Json::parse(get("/api/leathers").body)["items"].size(), 1u);
    std::vector<std::string> ids;
    for (int i = 0; i < 3; ++i) ids.push_back(*store_.keep_judgement(test::sample_request(), test::sample_answer(), clock_.now_utc()));
    EXPECT_EQ(Json::parse(get("/api/look_kinds").body)["items"][0]["key"], "surface_ph");
    EXPECT_EQ(post("/api/bench", R"({"name": "Thickness", "have": false, "minutes": 7})").status, 200);
    const Json tests = Json::parse(get("/api/bench").body)["items"];
    const auto shown = std::find_if(tests.begin(), tests.end(), [](const Json& t) { return t["name"] == "Thickness"; });
    ASSERT_NE(shown, tests.end());
    EXPECT_EQ((*shown)["minutes"], 7);
    EXPECT_EQ((*shown)["have"], false);
    const Json first = Json::parse(get("/api/judgements?limit=2").body)["items"];
    ASSERT_EQ(first.size(), 2u);
    EXPECT_EQ(first[0]["id"], ids[2]);
    const Json rest = Json::parse(get("/api/judgements?limit=2&after=" + ids[1]).body)["items"];
    ASSERT_EQ(rest.size(), 1u);
    EXPECT_EQ(rest[0]["id"], ids[0]);
    EXPECT_EQ(Json::parse(get("/api/judgements/" + ids[0]).body)["row"]["title"], "Sample");
    EXPECT_EQ(post("/api/judgements/" + ids[0] + "/bin", "{}").status, 200);
    EXPECT_EQ(Json::parse(get("/api/judgements").body)["items"].size(), 2u);
    EXPECT_EQ(post("/api/judgements/" + ids[0] + "/restore", "{}").status, 200);
    EXPECT_EQ(Json::parse(get("/api/judgements").body)["items"].size(), 3u);
}

TEST_F(HttpContract, FactsForThePickersAreThere) {
    EXPECT_EQ(Json::parse(get("/api/about").body)["version"], std::string(desk::version_number));
    for (const char* path : {"/api/leather_classes", "/api/tannages"}) {
        const Json items = Json::parse(get(path).body)["items"];
        ASSERT_FALSE(items.empty()) << path;
        EXPECT_FALSE(items[0]["key"].get<std::string>().empty());
        EXPECT_FALSE(items[0]["name"].get<std::string>().empty());
    }
    EXPECT_FALSE(Json::parse(get("/api/sources").body)["items"][0]["citation"].get<std::string>().empty());
    EXPECT_EQ(Json::parse(get("/api/schema/judge").body)["request"]["type"], "object");
}

TEST_F(HttpContract, EveryReplyIsGuardedAndTheApiIsNeverCached) {
    for (const auto& r : {get("/api/about"), get("/api/nothing"), get("/")}) {
        EXPECT_EQ(r.headers.at("x-content-type-options"), "nosniff");
        const std::string& policy = r.headers.at("content-security-policy");
        EXPECT_NE(policy.find("default-src 'self'"), std::string::npos);
        EXPECT_EQ(policy.find("unsafe"), std::string::npos);
    }
    EXPECT_EQ(get("/api/about").headers.at("cache-control"), "no-store");
}

TEST_F(HttpContract, AJudgementBeingComputedHoldsUpNobody) {
    std::vector<std::thread> waiting;
    for (int i = 0; i < 2; ++i) waiting.emplace_back([this] { expect_problem(post("/api/analyse", slow_request), 404, "liquid.id", "slow"); });
    store_.wait_for(2);  // both threads of the pool are busy
    for (int i = 0; i < 8; ++i) EXPECT_EQ(get("/api/about").status, 200);
    store_.open_gate();
    for (auto& t : waiting) t.join();
}

TEST_F(HttpContract, ClosingAnswersWhatIsWaiting) {
    std::vector<std::thread> waiting;
    for (int i = 0; i < 5; ++i) waiting.emplace_back([this, port = port()] { EXPECT_EQ(test::post(port, "/api/analyse", slow_request).status, 404); });
    store_.wait_for(2);
    store_.open_gate();
    for (auto& t : waiting) t.join();
    const int at = port();
    server_.reset();
    EXPECT_EQ(test::get(at, "/api/about").status, 0);
}

TEST_F(HttpContract, HeadSendsTheHeadersOnly) {
    const auto r = ask(port(), "HEAD /api/about HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", true);
    EXPECT_EQ(r.status, 200);
    EXPECT_EQ(r.body, "");
}

TEST_F(HttpRefusal, ANameThatIsNotThisMachineIsTurnedAway) {
    for (const std::string host : {"evil.example", "localhost.evil.example", "127.0.0.1.evil.example:80", "localhost:80@evil", "[::2]"})
        expect_problem(raw(get_text("/api/about", "", host)), 403, "Host", "localhost");
    for (const std::string host : {"localhost", "localhost:8080", "127.0.0.1:1", "[::1]:8080"}) EXPECT_EQ(raw(get_text("/api/about", "", host)).status, 200) << host;
}

TEST_F(HttpRefusal, AnotherPageMayNotPost) {
    const std::string body = *codec::example("analyse");
    expect_problem(raw(post_text("/api/analyse", body, "Origin: http://evil.example\r\n")), 403, "Origin", "another page");
    expect_problem(raw(post_text("/api/analyse", body, "Origin: null\r\n")), 403, "Origin", "another page");
    expect_problem(raw(post_text("/api/analyse", body, "Origin: http://localhost:3000\r\n")), 403, "Origin", "another page");
    expect_problem(raw(post_text("/api/analyse", body, "Sec-Fetch-Site: cross-site\r\n")), 403, "Sec-Fetch-Site", "another page");
    EXPECT_EQ(raw(post_text("/api/analyse", body, "Origin: http://localhost\r\nSec-Fetch-Site: same-origin\r\n")).status, 200);
}

TEST_F(HttpRefusal, OnlyJsonIsTaken) {
    expect_problem(raw(post_text("/api/analyse", "{}", "", "text/plain")), 415, "Content-Type", "application/json");
    expect_problem(raw(post_text("/api/analyse", "a=1", "", "application/x-www-form-urlencoded")), 415, "Content-Type", "application/json");
    EXPECT_EQ(raw(post_text("/api/analyse", *codec::example("analyse"), "", "application/json; charset=utf-8")).status, 200);
}

TEST_F(HttpRefusal, ALargeBodyIsRefusedBeforeItIsSent) {
    // Only the headers are sent: the refusal does not wait for the body.
    const std::string head = "POST /api/judge HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 2000000\r\n\r\n";
    expect_problem(raw(head), 413, "Content-Length", "1 MiB");
    // A length that is no number of bytes is refused by the network library in its own words.
    EXPECT_EQ(raw("POST /api/judge HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 99999999999999999999\r\n\r\n").status, 413);
}

TEST_F(HttpRefusal, ABodyOfNoStatedLengthIsCutAtTheLimit) {
    const int fd = test::connected(port());
    ASSERT_TRUE(test::send_all(fd, "POST /api/judge HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"));
    const std::string chunk = "10000\r\n" + std::string(0x10000, ' ') + "\r\n";
    int sent = 0;
    while (sent < 1000 && test::send_all(fd, chunk)) ++sent;
    EXPECT_LT(sent, 1000) << "65 MB were taken";
    EXPECT_NE(test::received(fd).status, 200);
    EXPECT_EQ(get("/api/about").status, 200);
}

TEST_F(HttpRefusal, MalformedRequestsNameWhatIsWrong) {
    expect_problem(post("/api/refine", R"({"happened": {"liquid": {"name": "x"}, "leather": {}}, "readings": [{"kind": "guess", "value_1": 1}]})"), 404, "happened.leather.leather_class", "Use one of");
    expect_problem(post("/api/bench", R"({"name": "Guess"})"), 404, "name", "Use one of");
    expect_problem(post("/api/judge", "{\"liquid\": "), 400, "", "not valid JSON");
    expect_problem(post("/api/judge", R"({"leather": {}})"), 400, "liquid", "needed");
    expect_problem(post("/api/judge", R"({"liquid": {"nam": "x"}, "leather": {}})"), 400, "liquid.nam", "Did you mean");
    expect_problem(post("/api/analyse", R"({"liquid": {"ingredients": [{"name": "x", "content_pct": 120}]}})"), 422, "liquid.ingredients[0].content_pct", "0 to 100");
    expect_problem(post("/api/leathers", R"({"leather_class": "cardboard"})"), 404, "leather_class", "cardboard");
    expect_problem(post("/api/leathers", R"({"leather_class": "aniline", "thickness_mm": 99})"), 422, "thickness_mm", "0.3 to 6");
    expect_problem(get("/api/judgements?limit=0"), 400, "limit", "1 to 200");
    expect_problem(get("/api/judgements?limit=1e3"), 400, "limit", "1 to 200");
    expect_problem(get("/api/judgements/nothing"), 404, "id", "nothing");
}

TEST_F(HttpRefusal, UnknownAddressesAndMethodsAreNamed) {
    expect_problem(get("/api/nothing"), 404, "path", "no such address");
    expect_problem(get("/api"), 404, "path", "no such address");
    expect_problem(get("/api/judgements/a/b"), 404, "path", "no such address");
    expect_problem(get("/missing.js"), 404, "path", "no such page");
    expect_problem(get("/../../etc/passwd.txt"), 404, "path", "no such page");
    const auto r = get("/api/judge");  // no change of state on GET
    expect_problem(r, 405, "method", "POST");
    EXPECT_EQ(r.headers.at("allow"), "POST");
    EXPECT_EQ(raw("DELETE /api/judgements/x HTTP/1.1\r\nHost: localhost\r\n\r\n").status, 405);
    EXPECT_EQ(post("/", "{}").status, 405);
}

TEST_F(HttpRefusal, AFaultOfOurOwnHasAnIdAndTellsNothingElse) {
    const auto r = post("/api/analyse", R"({"liquid": {"id": "bug"}})");
    expect_problem(r, 500, "", "Nothing was lost");
    EXPECT_EQ(r.body.find("secret"), std::string::npos);
    const std::string id = Json::parse(r.body)["id"];
    EXPECT_NE(log().find(id + " POST /api/analyse 500 bug: a secret of the inside\n"), std::string::npos) << log();
    EXPECT_EQ(get("/api/about").status, 200);
}

TEST_F(HttpRefusal, ALineFeedInAPathStaysOnOneLineOfTheLog) {
    get("/x%0Ar99%20GET%20/forged%20200");
    EXPECT_EQ(log().find("\nr99"), std::string::npos);
    EXPECT_EQ(std::count(log_.begin(), log_.end(), log_.front()), 1);
    EXPECT_NE(log().find("/x?r99?GET"), std::string::npos) << log();
}

TEST_F(HttpRefusal, MoreThanCanWaitIsToldSo) {
    WorkPool pool(1, 2);
    std::mutex gate;
    std::condition_variable changed;
    bool begun = false, open = false;
    ASSERT_TRUE(pool.offer([&] {
        std::unique_lock lock(gate);
        begun = true;
        changed.notify_all();
        changed.wait(lock, [&] { return open; });
    }));
    {
        std::unique_lock lock(gate);
        changed.wait(lock, [&] { return begun; });
    }
    int done = 0;
    EXPECT_TRUE(pool.offer([&] { ++done; }));
    EXPECT_TRUE(pool.offer([&] { ++done; }));
    EXPECT_FALSE(pool.offer([&] { ++done; }));
    {
        const std::scoped_lock lock(gate);
        open = true;
        changed.notify_all();
    }
    pool.stop();
    EXPECT_EQ(done, 2) << "what was taken is finished";
    EXPECT_FALSE(pool.offer([] {}));
}

TEST_F(HttpRefusal, ATakenPortSaysWhatToDo) {
    const auto second = Server::start({port(), {}}, ports_);
    ASSERT_FALSE(second.ok());
    EXPECT_EQ(second.error().code, ErrorCode::Unavailable);
    EXPECT_EQ(second.error().where, "port");
    EXPECT_NE(second.error().message.find("taken"), std::string::npos) << second.error().message;
}

/// A workshop with an owner and a reader, whose network is on.
class GuardedDoor : public ::testing::Test {
protected:
    GuardedDoor() {
        EXPECT_TRUE(people_.add("Ada", desk::Role::Owner, "a long sentence").ok());
        EXPECT_TRUE(people_.add("Ben", desk::Role::Reader, "another sentence").ok());
        EXPECT_TRUE(people_.network_on("workshop").ok());
        server_ = Server::start({0, {}}, ports_).value();
    }
    HttpReply get(const std::string& path, const std::string& cookie = {}) { return ask(server_->port(), get_text(path, cookie.empty() ? "" : "Cookie: " + cookie + "\r\n")); }
    HttpReply post(const std::string& path, const std::string& body, const std::string& cookie = {}) { return ask(server_->port(), post_text(path, body, cookie.empty() ? "" : "Cookie: " + cookie + "\r\n")); }
    std::string signed_in(const std::string& name, const std::string& password) {
        const auto r = post("/api/session", R"({"name": ")" + name + R"(", "password": ")" + password + "\"}");
        EXPECT_EQ(r.status, 200) << r.body;
        const std::string cookie = r.headers.count("set-cookie") != 0 ? r.headers.at("set-cookie") : "";
        EXPECT_NE(cookie.find("; HttpOnly; SameSite=Strict"), std::string::npos) << cookie;
        return cookie.substr(0, cookie.find(';'));
    }

    test::MemoryStore store_;
    test::MemoryPeople kept_;
    test::WeakSecrets secrets_;
    test::HandClock clock_;
    desk::People people_{kept_, secrets_, clock_};
    desk::Ports ports_{store_, clock_, nullptr, &people_};
    std::unique_ptr<Server> server_;
};
class HttpPeopleContract : public GuardedDoor {};

TEST_F(HttpPeopleContract, WithTheNetworkOnEveryRouteAsksForItsRole) {
    const std::string ada = signed_in("ada", "a long sentence"), ben = signed_in("Ben", "another sentence");
    for (const auto& r : App::routes()) {
        std::string path(r.path);
        if (const auto open = path.find('{'); open != std::string::npos) path = path.substr(0, open) + "nothing" + path.substr(path.find('}') + 1);
        if (r.method != "GET" || r.least == desk::Role::None) continue;
        EXPECT_EQ(get(path).status, 401) << path;
        EXPECT_EQ(get(path, "hidewright=guess").status, 401) << path;
        EXPECT_EQ(get(path, ben).status == 403, r.least > desk::Role::Reader) << path;
        EXPECT_NE(get(path, ada).status, 403) << path;
    }
    EXPECT_EQ(post("/api/liquids", R"({"name": "Water"})", ben).status, 403);
    EXPECT_EQ(post("/api/liquids", R"({"name": "Water"})", ada).status, 200);
    EXPECT_EQ(get("/").status, embedded::web.empty() ? 404 : 200) << "the page itself holds no secret";
}

TEST_F(HttpPeopleContract, LongWorkIsOnesOwn) {
    EXPECT_TRUE(people_.add("Carla", desk::Role::Reader, "one more sentence").ok());
    const std::string ada = signed_in("Ada", "a long sentence"), ben = signed_in("Ben", "another sentence"), carla = signed_in("Carla", "one more sentence");
    const std::string request = codec::example("rebalance").value();
    const auto begun = post("/api/rebalance/begin", request, ben);
    ASSERT_EQ(begun.status, 200) << begun.body;
    const std::string at = "/api/running/" + Json::parse(begun.body)["id"].get<std::string>();
    const auto looked = get(at, ben);
    EXPECT_EQ(looked.status, 200);
    EXPECT_TRUE(Json::parse(looked.body).contains("done_1"));
    EXPECT_EQ(get(at, carla).status, 404) << "somebody else's";
    EXPECT_EQ(post(at + "/cancel", "{}", carla).status, 404);
    EXPECT_EQ(get(at, ada).status, 200) << "an owner may";
    EXPECT_EQ(post(at + "/cancel", "{}", ben).status, 200);
    Json state;
    for (int i = 0; i < 3000 && !(state = Json::parse(get(at, ben).body))["finished"].get<bool>(); ++i) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    ASSERT_TRUE(state["finished"].get<bool>());
    EXPECT_TRUE(state.contains("problem"));
    EXPECT_FALSE(state.contains("answer"));
}

TEST_F(HttpPeopleContract, SigningOutEndsTheSessionAndTheCookie) {
    const std::string ada = signed_in("Ada", "a long sentence");
    EXPECT_EQ(Json::parse(get("/api/session", ada).body)["name"], "Ada");
    const auto out = post("/api/session/end", "{}", ada);
    EXPECT_NE(out.headers.at("set-cookie").find("hidewright=; Path=/; Max-Age=0"), std::string::npos);
    EXPECT_EQ(get("/api/liquids", ada).status, 401);
    EXPECT_EQ(Json::parse(get("/api/session", ada).body)["signed_in"], false);
}

TEST_F(HttpPeopleContract, TooManyTriesAreToldHowLongToWait) {
    HttpReply r;
    for (int i = 0; i < 6; ++i) r = post("/api/session", R"({"name": "Ada", "password": "wrong"})");
    EXPECT_EQ(r.status, 429) << r.body;
    EXPECT_EQ(r.headers.at("retry-after"), "1");
}

TEST_F(HttpPeopleContract, WithTheNetworkOffNobodyIsAsked) {
    ASSERT_TRUE(people_.network_off().ok());
    const auto r = get("/api/session");
    EXPECT_EQ(Json::parse(r.body)["needed"], false);
    EXPECT_EQ(Json::parse(r.body)["role"], "owner");
    EXPECT_EQ(get("/api/people").status, 200);
}

TEST(HttpNamesProperty, AuthoritiesAreReadWhole) {
    const std::vector<std::string> hosts{"workshop.local", "fd00::2", "192.168.1.20"};
    for (const char* good : {"workshop.local", "WORKSHOP.local:8443", "[fd00::2]:8443", "[fd00::2]", "192.168.1.20:1"}) EXPECT_TRUE(is_one_of(good, hosts)) << good;
    for (const char* bad : {"", ":", "workshop.local.evil.example", "evil.workshop.local", "fd00::2", "workshop.local:x", "[workshop.local", "192.168.1.2"}) EXPECT_FALSE(is_one_of(bad, hosts)) << bad;
    for (const char* own : {"localhost", "a.localhost:8443", "127.0.0.1:1", "[::1]:8443"}) EXPECT_TRUE(is_loopback_name(own)) << own;
    for (const char* other : {"workshop.local", "localhost.example", "alocalhost", "192.168.1.20"}) EXPECT_FALSE(is_loopback_name(other)) << other;
}

TEST_F(HttpConsistency, OpenApiHasExactlyTheRoutesThatAreServed) {
    std::set<std::string> served, described;
    for (const auto& r : App::routes()) served.insert(std::string(r.method) + " " + std::string(r.path));
    const Json doc = Json::parse(get("/api/openapi.json").body);
    for (const auto& [path, methods] : doc["paths"].items())
        for (const auto& [method, operation] : methods.items()) {
            std::string name = method;
            std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
            described.insert(name + " " + path);
        }
    EXPECT_EQ(served, described);
}

TEST_F(HttpConsistency, ThePageIsTaggedPackedAndAnswersDeepLinks) {
    if (embedded::web.empty()) GTEST_SKIP() << "no page is built in";
    const auto plain = get("/");
    ASSERT_EQ(plain.status, 200);
    EXPECT_EQ(plain.headers.at("content-type"), "text/html; charset=utf-8");
    EXPECT_EQ(plain.headers.at("cache-control"), "no-cache");
    EXPECT_EQ(get("/judge/some/deep/link").body, plain.body);
    EXPECT_EQ(plain.headers.count("content-encoding"), 0u);
    const std::string tag = plain.headers.at("etag");
    const auto again = raw(get_text("/", "If-None-Match: " + tag + "\r\n"));
    EXPECT_EQ(again.status, 304);
    EXPECT_EQ(again.body, "");
    const auto packed = raw(get_text("/", "Accept-Encoding: gzip, br\r\n"));
    EXPECT_EQ(packed.headers.at("content-encoding"), "gzip");
    EXPECT_EQ(packed.body.substr(0, 2), "\x1f\x8b");
    EXPECT_LT(packed.body.size(), plain.body.size());
    EXPECT_NE(packed.headers.at("etag"), tag);
    for (const auto& f : embedded::web) {
        const auto r = get("/" + std::string(f.path));
        EXPECT_EQ(r.body, f.text) << f.path;
        EXPECT_EQ(r.headers.at("cache-control") == "no-cache", f.path.substr(0, 7) != "assets/") << f.path;
    }
}

}  // namespace
}  // namespace hw::http
