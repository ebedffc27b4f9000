// A data sheet's way over HTTP: real files, the real worker, records on disk, a program that ends in between.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>

#include "edge/codec/codec.hpp"
#include "edge/http/server.hpp"
#include "edge/sheet/reader.hpp"
#include "edge/store/sha256.hpp"
#include "edge/store/sqlite_sheets.hpp"
#include "tests/support/http_client.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/pdfs.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

using Json = nlohmann::json;

std::string corpus(const std::string& name) {
    std::ifstream in(std::string(HW_SHEETS) + "/" + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// One run of the program.
struct Program {
    explicit Program(const std::string& folder)
        : store(store::SqliteStore::open(folder, records_as_json()).value()), sheets(*store, {[](const desk::DigestAnswer& v) { return codec::written(v); }, codec::parse_digest_answer}), ports{*store, clock} {
        ports.sheets = &sheets;
        ports.sheet_reader = &reader;
        ports.journal = store.get();
        server = http::Server::start({0, {}}, ports).value();
    }
    FixedClock clock;
    sheet_reader::ChildReader reader{{}, HW_SHEET_WORKER};
    std::unique_ptr<store::SqliteStore> store;
    store::SqliteSheets sheets;
    desk::Ports ports;
    std::unique_ptr<http::Server> server;
};

class SheetsAtTheDoor : public ::testing::Test {
protected:
    SheetsAtTheDoor() { start(); }
    void start() {
        program_.reset();
        program_ = std::make_unique<Program>(folder_.name());
    }
    [[nodiscard]] int port() const { return program_->server->port(); }
    HttpReply get(const std::string& path) { return test::get(port(), path); }
    HttpReply send(const std::string& bytes, const std::string& query = "?name=sheet.pdf", const std::string& type = "application/octet-stream") { return ask(port(), post_text("/api/digest" + query, bytes, {}, type)); }
    HttpReply say(const std::string& id, const std::string& key, const std::string& value, const std::string& how = "typed") {
        return post(port(), "/api/sheets/" + id + "/corrections", Json{{"key", key}, {"value", value}, {"how", how}}.dump());
    }
    static Json fact(const Json& sheet, const std::string& key) {
        for (const auto& g : sheet["groups"])
            for (const auto& f : g["facts"])
                if (f["key"] == key) return f;
        return nullptr;
    }
    ScratchFolder folder_;
    std::unique_ptr<Program> program_;
};
class SheetsJourney : public SheetsAtTheDoor {};
class SheetsHttpRefusal : public SheetsAtTheDoor {};

TEST_F(SheetsJourney, FromTheFileToTheJudgement) {
    const std::string bytes = pdf_of(sheet_lines());
    const auto sent = send(bytes);
    ASSERT_EQ(sent.status, 200) << sent.body;
    const Json sheet = Json::parse(sent.body);
    const std::string id = sheet["id"];
    EXPECT_EQ(id, store::sha256(bytes));
    EXPECT_EQ(sheet["name"], "sheet.pdf");
    EXPECT_EQ(fact(sheet, "product")["value"], "Workshop degreaser 40");
    EXPECT_EQ(fact(sheet, "ph")["place"]["page"], 2);
    ASSERT_EQ(sheet["ingredients"].size(), 2U);
    // The page that shows where: a picture, kept by whoever may see it.
    const auto page = get("/api/sheets/" + id + "/page.png?number=2");
    EXPECT_EQ(page.status, 200);
    EXPECT_EQ(page.headers.at("content-type"), "image/png");
    EXPECT_EQ(page.headers.at("content-security-policy"), "sandbox; default-src 'none'");
    EXPECT_EQ(page.headers.at("cache-control"), "private, max-age=31536000, immutable");
    EXPECT_EQ(page.body.substr(1, 3), "PNG");
    // Corrected, ended, started again: it stands as it was.
    EXPECT_EQ(say(id, "ph", "12.3", "measured").status, 200);
    start();
    const Json again = Json::parse(get("/api/sheets/" + id).body);
    EXPECT_EQ(fact(again, "ph")["from"], "measured");
    EXPECT_EQ(again["corrections"].size(), 1U);
    const Json list = Json::parse(get("/api/sheets").body)["items"];
    ASSERT_EQ(list.size(), 1U);
    EXPECT_EQ(list[0]["product"], "Workshop degreaser 40");
    // On the shelf by a word of somebody, and judged.
    EXPECT_TRUE(Json::parse(get("/api/liquids").body)["items"].empty());
    const auto shelved = post(port(), "/api/sheets/" + id + "/shelf", "{}");
    ASSERT_EQ(shelved.status, 200) << shelved.body;
    const std::string liquid = Json::parse(shelved.body)["id"];
    EXPECT_EQ(Json::parse(get("/api/sheets/" + id).body)["liquid"], liquid);
    const auto judged = post(port(), "/api/judge", Json{{"liquid", {{"id", liquid}}}, {"leather", {{"leather_class", "aniline"}, {"tannage", "chrome"}}}}.dump());
    ASSERT_EQ(judged.status, 200) << judged.body;
    EXPECT_FALSE(Json::parse(judged.body)["sentence"].get<std::string>().empty());
    // The bytes that came, to save.
    const auto file = get("/api/sheets/" + id + "/file.pdf");
    EXPECT_EQ(file.body, bytes);
    EXPECT_EQ(file.headers.at("content-disposition"), "attachment; filename=\"" + id.substr(0, 16) + ".pdf\"");
}

TEST_F(SheetsJourney, EverySheetOfTheOpenCorpusIsReadOrRefusedAsItsTruthSays) {
    int read = 0, refused = 0;
    for (const auto& entry : std::filesystem::directory_iterator(HW_SHEETS)) {
        if (entry.path().extension() != ".json") continue;
        const Json truth = Json::parse(corpus(entry.path().filename().string()));
        const std::string name = entry.path().stem().string(), expected = truth["expected"];
        const auto r = send(corpus(name + ".pdf"));
        if (expected == "facts") {
            EXPECT_EQ(r.status, 200) << name << ": " << r.body;
            ++read;
        } else {
            const std::map<std::string, std::string> where{{"no_text", "sheet.no_text"}, {"not_a_sheet", "sheet.not_a_sheet"}, {"encrypted", "sheet.locked"}, {"damaged", "sheet.damaged"}};
            EXPECT_EQ(r.status, 400) << name;
            EXPECT_EQ(Json::parse(r.body)["where"], where.at(expected)) << name;
            ++refused;
        }
    }
    EXPECT_GE(read, 30);
    EXPECT_GE(refused, 3);
}

TEST_F(SheetsJourney, TheSameFileTwiceIsOneSheetAndTheBinGivesBack) {
    const std::string bytes = pdf_of(sheet_lines());
    const std::string id = Json::parse(send(bytes).body)["id"];
    EXPECT_EQ(Json::parse(send(bytes, "?name=other.pdf").body)["id"], id);
    EXPECT_EQ(Json::parse(get("/api/sheets").body)["items"].size(), 1U);
    EXPECT_EQ(post(port(), "/api/sheets/" + id + "/bin", "{}").status, 200);
    EXPECT_TRUE(Json::parse(get("/api/sheets").body)["items"].empty());
    EXPECT_EQ(get("/api/sheets/" + id).status, 404);
    EXPECT_EQ(post(port(), "/api/sheets/" + id + "/restore", "{}").status, 200);
    EXPECT_EQ(get("/api/sheets/" + id).status, 200);
}

TEST_F(SheetsJourney, XmlInsideComesFirst) {
    PdfOptions o;
    o.files = {{"sheet.xml", "<DatasheetFeed xmlns=\"http://www.esdscom.eu/SDScom\"><Datasheet><PhysicalChemicalProperties><SafetyRelevantInformation><PhValue><Value><Value><ExactValue>13.1</ExactValue></Value></Value></PhValue>"
                              "</SafetyRelevantInformation></PhysicalChemicalProperties></Datasheet></DatasheetFeed>"}};
    const Json sheet = Json::parse(send(pdf_of(sheet_lines(), o)).body);
    EXPECT_EQ(fact(sheet, "ph")["from"], "xml");
    EXPECT_EQ(fact(sheet, "ph")["low"], 13.1);
    EXPECT_EQ(sheet["contradictions"][0]["key"], "xml_against_text");
    o.files[0].second = "<other/>";
    const Json other = Json::parse(send(pdf_of(sheet_lines(), o)).body);
    EXPECT_EQ(other["xml"][0]["read"], false);
    EXPECT_EQ(fact(other, "ph")["from"], "sheet");
}

TEST_F(SheetsHttpRefusal, EachKindWithItsReasonAndNothingIsKept) {
    PdfOptions locked, bare;
    locked.locked = bare.bare = true;
    const std::vector<std::array<std::string, 3>> cases{{"hello", "400", "sheet.not_a_pdf"}, {pdf_of(sheet_lines(), locked), "400", "sheet.locked"}, {pdf_of({{}, {}}, bare), "400", "sheet.no_text"}, {"%PDF-1.7\n", "400", "sheet.damaged"},
                                                        {pdf_of(std::vector<std::vector<std::string>>(61, {"a page"})), "422", "sheet.too_many_pages"}, {"", "400", "sheet.damaged"}};
    for (const auto& [bytes, status, where] : cases) {
        const auto r = send(bytes);
        EXPECT_EQ(std::to_string(r.status), status) << where << r.body;
        EXPECT_EQ(Json::parse(r.body)["where"], where) << r.body;
    }
    EXPECT_TRUE(Json::parse(get("/api/sheets").body)["items"].empty());
    const auto by_hand = send(pdf_of({{}, {}}, bare), "?name=scan.pdf&by_hand=true");
    EXPECT_EQ(by_hand.status, 200) << by_hand.body;
    EXPECT_EQ(Json::parse(by_hand.body)["by_hand"], true);
}

TEST_F(SheetsHttpRefusal, TooLargeIsRefusedBeforeItIsSentAndJsonIsNoSheet) {
    const auto large = ask(port(), "POST /api/digest HTTP/1.1\r\nHost: localhost:" + std::to_string(port()) + "\r\nContent-Type: application/octet-stream\r\nContent-Length: 20000001\r\n\r\n");
    EXPECT_EQ(large.status, 413);
    EXPECT_NE(large.body.find("20 MB"), std::string::npos) << large.body;
    EXPECT_EQ(send("{}", "", "application/json").status, 415);
    // More than a mebibyte is taken here, and nowhere else.
    EXPECT_EQ(Json::parse(send("%PDF-1.7\n" + std::string(3 << 20, 'x')).body)["where"], "sheet.damaged");
    EXPECT_EQ(ask(port(), post_text("/api/liquids", std::string(3 << 20, ' '))).status, 413);
}

TEST_F(SheetsHttpRefusal, PagesAndNamesThatAreNotThere) {
    const std::string id = Json::parse(send(pdf_of(sheet_lines())).body)["id"];
    for (const char* number : {"3", "0", "-1"}) EXPECT_EQ(get("/api/sheets/" + id + "/page.png?number=" + number).status, 404) << number;
    for (const char* number : {"", "x", "1x", "99999999999"}) EXPECT_EQ(get("/api/sheets/" + id + "/page.png?number=" + number).status, 400) << number;
    for (const char* path : {"/api/sheets/..%2f..%2fworkshop.db", "/api/sheets/x/file.pdf", "/api/sheets/%00/page.png?number=1", "/api/sheets/x"}) EXPECT_EQ(get(path).status, 404) << path;
    EXPECT_EQ(say(id, "ph", "strong").status, 400);
    EXPECT_EQ(say("x", "ph", "12").status, 404);
    EXPECT_EQ(post(port(), "/api/sheets/" + id + "/shelf", R"({"liquid": "nobody"})").status, 404);
}

}  // namespace
}  // namespace hw::test
