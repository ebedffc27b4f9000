// Data sheets read by a program of its own that can do nothing else.
#include <gtest/gtest.h>
#include <signal.h>

#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <random>
#include <thread>

#include "edge/sheet/answer.hpp"
#include "edge/sheet/reader.hpp"
#include "edge/sheet/sdscom.hpp"
#include "edge/sheet/xml.hpp"
#include "tests/support/pdfs.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::sheet_reader {
namespace {

constexpr int not_allowed = SIGSYS;

ChildReader reader(Limits limits = {}) { return ChildReader(limits, HW_SHEET_WORKER); }
ChildReader probe(Limits limits = {}) { return ChildReader(limits, HW_SHEET_PROBE); }

Error refused(const std::string& bytes) {
    auto r = reader().read(bytes);
    return r.ok() ? Error{ErrorCode::Bug, "it was read", ""} : r.error();
}
Error tried(const std::string& what, Limits limits = {}) {
    auto r = probe(limits).read("%PDF-TEST:" + what);
    return r.ok() ? Error{ErrorCode::Bug, "it got in", ""} : r.error();
}

std::string words_of(const sheet::Page& page) {
    std::string out;
    for (const auto& w : page.words) out += (out.empty() ? "" : " ") + w.text;
    return out;
}
const sheet::Word* find(const sheet::Page& page, const std::string& text) {
    for (const auto& w : page.words)
        if (w.text == text) return &w;
    return nullptr;
}
std::uint32_t side(const std::string& png, std::size_t at) {
    std::uint32_t out = 0;
    for (std::size_t k = 0; k < 4; ++k) out = out << 8 | static_cast<unsigned char>(png[at + k]);
    return out;
}

// ---- words and pages -------------------------------------------------------------------------------------------------

TEST(SheetWordsConsistency, WordsComeWithBoxSizeAndWeight) {
    const auto c = reader().read(test::pdf_of(test::sheet_lines())).value();
    ASSERT_EQ(c.document.pages.size(), 2U);
    const auto& page = c.document.pages[0];
    EXPECT_DOUBLE_EQ(page.width, 595);
    EXPECT_DOUBLE_EQ(page.height, 842);
    const auto* title = find(page, "SAFETY");
    ASSERT_NE(title, nullptr);
    // Written 50 from the left and 800 from the lower edge, which is 42 from the upper one; 14 points high.
    EXPECT_NEAR(title->x0, 50, 0.5);
    EXPECT_GT(title->y1, 42);
    EXPECT_LT(title->y0, 42);
    EXPECT_DOUBLE_EQ(title->size_pt, 14);
    EXPECT_TRUE(title->bold);
    EXPECT_EQ(title->turned_deg, 0);
    const auto* cas = find(page, "141-43-5");
    ASSERT_NE(cas, nullptr);
    EXPECT_NEAR(cas->x0, 190, 0.5);
    EXPECT_DOUBLE_EQ(cas->size_pt, 10);
    EXPECT_FALSE(cas->bold);
    const auto* degree = find(c.document.pages[1], "\u00b0C)");
    EXPECT_NE(degree, nullptr) << words_of(c.document.pages[1]);
    for (const auto& p : c.document.pages)
        for (const auto& w : p.words) EXPECT_EQ(w.page, &p - c.document.pages.data() + 1);
}

TEST(SheetWordsConsistency, TurnedPagesComeUpright) {
    // The page's own entry turns a text that was written sideways for it; or only one of the two is there.
    struct Case { int rotate; double turned; double width, height; };
    for (const auto& [rotate, turned, width, height] : {Case{90, 90, 842, 595}, Case{0, 90, 842, 595}, Case{180, 0, 595, 842}, Case{270, 0, 595, 842}}) {
        test::PdfOptions o;
        o.rotate = rotate;
        o.turned_deg = turned;
        const std::string pdf = test::pdf_of({{"SAFETY DATA SHEET", "Second line of it"}}, o);
        const auto c = reader().read(pdf).value();
        const auto& page = c.document.pages[0];
        const auto *first = find(page, "SAFETY"), *second = find(page, "DATA"), *below = find(page, "Second");
        ASSERT_NE(first, nullptr) << rotate;
        ASSERT_NE(below, nullptr) << rotate;
        EXPECT_EQ(first->turned_deg, 0) << rotate;
        EXPECT_LT(first->x1, second->x0) << rotate << ": words run to the right";
        EXPECT_LT(first->y1, below->y1) << rotate << ": lines run down";
        EXPECT_NEAR(page.width, width, 0.01) << rotate;
        EXPECT_NEAR(page.height, height, 0.01) << rotate;
        for (const auto& w : page.words) EXPECT_TRUE(w.x0 >= 0 && w.x1 <= page.width && w.y0 >= 0 && w.y1 <= page.height) << rotate;
        const std::string png = reader().page(pdf, 1, 72).value();
        EXPECT_NEAR(side(png, 16), width, 1) << rotate;
        EXPECT_NEAR(side(png, 20), height, 1) << rotate;
    }
}

TEST(SheetPageConsistency, APageIsDrawnAtTheResolutionThatIsAsked) {
    const std::string pdf = test::pdf_of(test::sheet_lines());
    for (const int dpi : {72, 110, 144}) {
        const std::string png = reader().page(pdf, 2, dpi).value();
        EXPECT_NEAR(side(png, 16), 595.0 * dpi / 72, 1) << dpi;
        EXPECT_NEAR(side(png, 20), 842.0 * dpi / 72, 1) << dpi;
    }
    // Typefaces that the file does not bring are drawn too: a page with text is not an empty page.
    EXPECT_GT(reader().page(pdf, 1, 72)->size(), 3 * reader().page(test::pdf_of({{}}), 1, 72)->size());
    EXPECT_EQ(reader().page(pdf, 3, 72).error().code, ErrorCode::NotFound);
    EXPECT_EQ(reader().page(pdf, 0, 72).error().code, ErrorCode::NotFound);
    EXPECT_EQ(reader().page(pdf, -1, 72).error().code, ErrorCode::NotFound);
}

TEST(SheetWordsConsistency, AttachedXmlComesAlongAndNothingElse) {
    test::PdfOptions o;
    o.files = {{"picture.bin", "xx"}, {"sheet.xml", "<a/>"}};
    const auto c = reader().read(test::pdf_of(test::sheet_lines(), o)).value();
    ASSERT_EQ(c.attachments.size(), 1U);
    EXPECT_EQ(c.attachments[0].name, "sheet.xml");
    EXPECT_EQ(c.attachments[0].bytes, "<a/>");
    EXPECT_FALSE(c.attachments[0].facts.has_value());
    o.files.assign(9, {"many.xml", "<a/>"});
    EXPECT_EQ(reader().read(test::pdf_of(test::sheet_lines(), o))->attachments.size(), attachments_limit);
}

// ---- refusals --------------------------------------------------------------------------------------------------------

TEST(SheetRefusal, WhatIsNoPdfIsNamed) {
    const std::vector<std::pair<std::string, std::string>> cases{{"\xff\xd8\xff xxx", "picture"}, {"PK\x03\x04 xxx", "word processor"}, {"<!doctype html>", "web page"}, {"hello", "no PDF"}, {"", "no PDF"}};
    for (const auto& [bytes, what] : cases) {
        const Error e = refused(bytes);
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << what;
        EXPECT_EQ(e.where, "sheet.not_a_pdf");
        EXPECT_NE(e.message.find(what), std::string::npos) << e.message;
        EXPECT_NE(e.message.find("print it into one"), std::string::npos) << "what to do";
    }
}

TEST(SheetRefusal, EachKindSaysWhatToDo) {
    test::PdfOptions locked;
    locked.locked = true;
    const std::string whole = test::pdf_of(test::sheet_lines());
    EXPECT_EQ(refused(test::pdf_of(test::sheet_lines(), locked)).where, "sheet.locked");
    EXPECT_EQ(refused("%PDF-1.7\n" + std::string(2000, 'x')).where, "sheet.damaged");
    EXPECT_EQ(refused(whole.substr(0, 60)).where, "sheet.damaged");
    const Error many = refused(test::pdf_of(std::vector<std::vector<std::string>>(61, {"page"})));
    EXPECT_EQ(many.where, "sheet.too_many_pages");
    EXPECT_NE(many.message.find("61 pages"), std::string::npos) << many.message;
    EXPECT_TRUE(reader().read(test::pdf_of(std::vector<std::vector<std::string>>(60, {"page"}))).ok());
    const Error large = refused("%PDF-1.7\n" + std::string(20'000'000, 'x'));
    EXPECT_EQ(large.where, "sheet.too_large");
    for (const Error& e : {many, large}) EXPECT_EQ(e.code, ErrorCode::OutOfRange);
}

TEST(SheetRefusal, WithoutItsWorkerItSaysWhatIsMissing) {
    const auto r = ChildReader({}, "/nowhere/hidewright-sheet").read(test::pdf_of(test::sheet_lines()));
    ASSERT_FALSE(r.ok());
    EXPECT_EQ(r.error().code, ErrorCode::Unavailable);
    EXPECT_NE(r.error().message.find("hidewright-sheet"), std::string::npos);
}

// ---- the worker cannot do anything else --------------------------------------------------------------------------------

TEST(SheetWorkerRefusal, WhateverIsNotReadingASheetIsRefusedOrEndsTheWorkerAlone) {
    for (const char* what : {"open", "write elsewhere", "connect", "connect to a neighbour", "exec", "fork", "kill", "run memory", "make runnable"}) {
        const Error e = tried(what);
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << what << ": " << e.message;
        const bool ended = e.message.find("signal " + std::to_string(not_allowed)) != std::string::npos;
        // Opening and speaking to a descriptor that is not there get a plain no, since libraries do both out of habit.
        const bool plain_no = std::string(what) == "open" || std::string(what) == "write elsewhere";
        EXPECT_EQ(ended, !plain_no) << what << ": " << e.message;
        EXPECT_EQ(e.where, "sheet.damaged") << what;
    }
    EXPECT_TRUE(probe().read(test::pdf_of(test::sheet_lines())).ok()) << "the probe reads as the worker does";
}

TEST(SheetWorkerRefusal, AlsoWhereAPageIsDrawn) {
    for (const char* what : {"open", "connect", "exec", "fork", "kill", "run memory", "make runnable", "write elsewhere"}) {
        const auto r = probe().page(std::string("%PDF-TEST:") + what, 1, 72);
        ASSERT_FALSE(r.ok()) << what;
        EXPECT_EQ(r.error().code, ErrorCode::InvalidInput) << what;
    }
    const test::ScratchFolder folder;
    EXPECT_FALSE(probe().page("%PDF-TEST:create " + (folder.path() / "made").string(), 1, 72).ok());
    EXPECT_FALSE(std::filesystem::exists(folder.path() / "made"));
}

TEST(SheetWorkerRefusal, NoFileIsMade) {
    const test::ScratchFolder folder;
    EXPECT_EQ(tried("create " + (folder.path() / "made").string()).code, ErrorCode::InvalidInput);
    EXPECT_FALSE(std::filesystem::exists(folder.path() / "made"));
}

TEST(SheetWorkerRefusal, FourGigabytesAreNotGiven) {
#if defined(__SANITIZE_ADDRESS__)
    GTEST_SKIP() << "the sanitizer reserves terabytes, so addresses are not limited";
#endif
    const Error e = tried("allocate");
    EXPECT_EQ(e.where, "sheet.too_large");
    EXPECT_NE(e.message.find("more memory"), std::string::npos) << e.message;
}

TEST(SheetWorkerRefusal, AnEndlessLoopEnds) {
    const auto begun = std::chrono::steady_clock::now();
    EXPECT_EQ(tried("loop", {1, 60000}).where, "sheet.too_slow") << "by the processor";
    EXPECT_EQ(tried("loop", {60, 300}).where, "sheet.too_slow") << "by the clock on the wall";
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(50));
}

TEST(SheetWorkerRefusal, ACrashOrALieIsAnOrdinaryRefusal) {
    for (const char* what : {"crash", "lie", "nothing", "pour"}) EXPECT_EQ(tried(what).code, ErrorCode::InvalidInput) << what;
}

TEST(SheetWorkerContract, SeveralAtOnceKeepApart) {
    std::vector<std::thread> threads;
    for (int t = 0; t < 4; ++t)
        threads.emplace_back([t] {
            for (int i = 0; i < 3; ++i) {
                const std::string word = "word" + std::to_string(t);
                EXPECT_EQ(words_of(reader().read(test::pdf_of({{word}}))->document.pages[0]), word);
                EXPECT_FALSE(probe().read("%PDF-TEST:connect").ok());
            }
        });
    for (auto& t : threads) t.join();
}

// ---- what the worker answers is not believed ---------------------------------------------------------------------------

TEST(SheetAnswerProperty, CutAndFlippedAnswersAreTakenOrLeftWhole) {
    std::string body;
    const auto put = [&](auto value) { body.append(reinterpret_cast<const char*>(&value), sizeof value); };
    put(595.0), put(842.0), put(std::uint32_t{1});
    for (const float v : {1.0F, 2.0F, 3.0F, 4.0F, 10.0F}) put(v);
    put(std::uint8_t{1}), put(std::uint8_t{3}), put(std::uint16_t{4});
    body += "pH\u00b2";
    AnswerHead head{{'H', 'W', 'S', '1'}, 0, 1, 0, static_cast<std::uint32_t>(body.size())};
    const auto whole = parse_words(head, body);
    ASSERT_TRUE(whole.has_value());
    EXPECT_EQ(whole->document.pages[0].words[0].text, "pH\u00b2");
    EXPECT_EQ(whole->document.pages[0].words[0].turned_deg, 270);
    for (std::size_t cut = 0; cut < body.size(); ++cut) EXPECT_FALSE(parse_words(head, body.substr(0, cut)).has_value()) << cut;
    EXPECT_FALSE(parse_words(head, body + "x").has_value());
    std::mt19937 random(3);
    for (int i = 0; i < 20000; ++i) {
        std::string changed = body;
        for (auto n = 1 + random() % 3; n > 0; --n) changed[random() % changed.size()] = static_cast<char>(random() % 256);
        const auto r = parse_words(head, changed);
        if (!r) continue;
        for (const auto& w : r->document.pages[0].words) EXPECT_TRUE(std::abs(w.x0) <= 1e6 && std::abs(w.size_pt) <= 1e6);
    }
    for (const auto& bad : {std::string("\xc3"), std::string("\xc0\x80"), std::string("\xed\xa0\x80"), std::string("\xf5\x80\x80\x80"), std::string("a\x01")}) {
        std::string with = body.substr(0, body.size() - 4 - 2);
        const auto size = static_cast<std::uint16_t>(bad.size());
        with.append(reinterpret_cast<const char*>(&size), 2);
        with += bad;
        EXPECT_FALSE(parse_words(head, with).has_value());
    }
}

// ---- XML ---------------------------------------------------------------------------------------------------------------

TEST(XmlConsistency, ElementsTextAndReferences) {
    const auto root = parse_xml("\xEF\xBB\xBF<?xml version=\"1.0\" encoding=\"UTF-8\"?><!-- c --><p:a xmlns:p='urn:x' k=\"1 &lt; 2\"> x &amp; &#176;&#x43; <b/><![CDATA[<raw>]]><b><c>deep</c></b></p:a>\n").value();
    EXPECT_EQ(root.name, "a");
    EXPECT_EQ(root.space, "urn:x");
    EXPECT_EQ(root.attribute("k"), "1 < 2");
    EXPECT_EQ(root.text, "x & \u00b0C <raw>");
    ASSERT_EQ(root.children.size(), 2U);
    EXPECT_EQ(root.children[1].at({"c"})->text, "deep");
    EXPECT_EQ(root.at({"b", "nothing", "there"}), nullptr);
}

TEST(XmlRefusal, NoDocumentTypeNoEntitiesNoDepth) {
    std::string deep, closed;
    for (int i = 0; i < 70; ++i) deep += "<a>", closed += "</a>";
    for (const auto& bytes : {std::string("<!DOCTYPE a [<!ENTITY e 'x'>]><a>&e;</a>"), std::string("<a>&e;</a>"), std::string("<a>&#0;</a>"), std::string("<a>&#x110000;</a>"), std::string("<a><b></a></b>"), std::string("<a"), std::string("<a>"),
                              std::string("<a/><b/>"), std::string("<p:a/>"), std::string("<?xml version='1.0' encoding='UTF-16'?><a/>"), std::string("<a k=1/>"), std::string("<a k='<'/>"), std::string(""), std::string("<1/>"), deep + closed})
        EXPECT_FALSE(parse_xml(bytes).ok()) << bytes.substr(0, 60);
}

std::string feed(const std::string& inside) { return "<?xml version=\"1.0\" encoding=\"UTF-8\"?><s:DatasheetFeed xmlns:s=\"http://www.esdscom.eu/SDScom\"><Datasheet>" + inside + "</Datasheet></s:DatasheetFeed>"; }

TEST(SdscomConsistency, NamesSharesAndPropertiesAreRead) {
    const auto facts = sdscom_facts(*parse_xml(feed(
        "<IdentificationSubstPrep><IssueDate>2020-01-01</IssueDate><RevisionDate>2024-03-05+01:00</RevisionDate><VersionNo>3.1</VersionNo><ProductIdentity><TradeName>Workshop degreaser 40</TradeName><Ufi>ABCD-0000-0000-0000</Ufi></ProductIdentity></IdentificationSubstPrep>"
        "<Composition><CompositionType>Mixture</CompositionType>"
        "<Component><Substance><SubstanceName>2-aminoethanol</SubstanceName><CasNo>141-43-5</CasNo><EcNo>205-483-3</EcNo></Substance><Concentration><UpperValueSymbol>&lt;</UpperValueSymbol><UpperValue>5</UpperValue><LowerValueSymbol>&gt;=</LowerValueSymbol><LowerValue>1</LowerValue><Unit>%</Unit></Concentration></Component>"
        "<Component><Substance><GenericName>glycol ether</GenericName><CasNo>141-43-6</CasNo></Substance><Concentration><ExactValueSymbol>about</ExactValueSymbol><ExactValue>7</ExactValue><Unit>%</Unit></Concentration></Component></Composition>"
        "<PhysicalChemicalProperties><SafetyRelevantInformation><PhValue><Value><Value><ExactValue>10.5</ExactValue></Value></Value><Concentration><ExactValue>10</ExactValue><Unit>g/L</Unit></Concentration></PhValue>"
        "<PhValue><Value><Value><UpperValue>12.6</UpperValue><LowerValue>12</LowerValue></Value><Temperature><ExactValue>20</ExactValue><Unit>\u00b0C</Unit></Temperature></Value></PhValue>"
        "<FlashPoint><Value><UnitValue><ExactValueSymbol>&gt;</ExactValueSymbol><ExactValue>62</ExactValue><Unit>\u00b0C</Unit></UnitValue></Value></FlashPoint>"
        "<VapourPressure><UnitValue><ExactValue>2.3</ExactValue><Unit>kPa</Unit></UnitValue></VapourPressure>"
        "<Densities><Density><UnitValue><ExactValue>1020</ExactValue><Unit>kg/m3</Unit></UnitValue></Density></Densities></SafetyRelevantInformation></PhysicalChemicalProperties>")).operator->());
    ASSERT_TRUE(facts.has_value());
    EXPECT_EQ(facts->product->value, "Workshop degreaser 40");
    EXPECT_EQ(facts->revision_date->value, "2024-03-05");
    EXPECT_EQ(facts->revision->value, "3.1");
    ASSERT_EQ(facts->ingredients.size(), 2U);
    EXPECT_EQ(facts->ingredients[0].cas->value, "141-43-5");
    EXPECT_EQ(facts->ingredients[0].range->value.low_pct, 1.0);
    EXPECT_EQ(facts->ingredients[0].range->value.high_pct, 5.0);
    EXPECT_TRUE(facts->ingredients[0].range->value.high_open);
    EXPECT_FALSE(facts->ingredients[0].range->value.low_open);
    EXPECT_FALSE(facts->ingredients[1].range.has_value()) << "a symbol that is not understood leaves the number out";
    EXPECT_EQ(facts->ph->value.low_ph, 12.0);
    EXPECT_EQ(facts->ph->value.high_ph, 12.6);
    EXPECT_EQ(facts->ph->value.celsius, 20.0);
    EXPECT_FALSE(facts->ph->value.concentration_pct.has_value()) << "the product itself before its dilution";
    EXPECT_EQ(facts->flash_point->value.sign, '>');
    EXPECT_DOUBLE_EQ(*facts->vapour_pressure_hpa->value.low, 23);
    EXPECT_DOUBLE_EQ(*facts->density->value.g_ml.low, 1.02);
}

TEST(XmlIssue, ManyNamespacesAroundManyElementsCostNothing) {
    // What was declared around an element was copied for each below it: hundreds of millions of copies for one megabyte.
    const auto declared = [](int from, int count) {
        std::string out;
        for (int i = from; i < from + count; ++i) out += " xmlns:n" + std::to_string(i) + "='u'";
        return out;
    };
    const auto nested = [&](int levels, int each, int inside) {
        std::string open, close;
        for (int d = 0; d < levels; ++d) open += "<a" + declared(d * each, each) + ">", close += "</a>";
        for (int i = 0; i < inside; ++i) open += "<b/>";
        return open + close;
    };
    const auto timed = [](const std::string& bytes, bool read) {
        const auto begun = std::chrono::steady_clock::now();
        EXPECT_EQ(parse_xml(bytes).ok(), read);
        EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(1));
    };
    timed(nested(60, 64, 199'000), false);
    timed(nested(15, 32, 199'000), true);
    timed("<a xmlns='" + std::string(500'000, 'u') + "'>" + nested(1, 1, 199'000) + "</a>", false);
    EXPECT_TRUE(parse_xml("<a" + declared(0, 32) + "/>").ok());
    EXPECT_FALSE(parse_xml("<a" + declared(0, 33) + "/>").ok());
    const auto root = parse_xml("<p:a xmlns:p='x' xmlns='y'><b/><c xmlns='z'><d/><p:e/></c><b/></p:a>").value();
    EXPECT_EQ(root.children[0].space, "y");
    EXPECT_EQ(root.children[1].children[0].space, "z") << "the nearest one holds";
    EXPECT_EQ(root.children[1].children[1].space, "x");
    EXPECT_EQ(root.children[2].space, "y") << "and no further than its element";
}

TEST(SdscomIssue, WhatAComponentLeavesOutIsNoReasonToDropIt) {
    const auto facts = sdscom_facts(*parse_xml(feed("<Composition><Component><Substance><CasNo>7681-52-9</CasNo></Substance><Concentration><ExactValue>50</ExactValue><Unit>g/L</Unit></Concentration></Component>"
                                                    "<Component><GenericName>perfume</GenericName></Component><Component/></Composition>"
                                                    "<PhysicalChemicalProperties><SafetyRelevantInformation><PhValue><Value><Value><ExactValue>10.5</ExactValue></Value></Value><Concentration><ExactValue>10</ExactValue><Unit>drops</Unit></Concentration></PhValue>"
                                                    "<VapourPressure><UnitValue><ExactValueSymbol>&lt;</ExactValueSymbol><ExactValue>0.1</ExactValue><Unit>kPa</Unit></UnitValue></VapourPressure>"
                                                    "<Densities><Density><UnitValue><ExactValueSymbol>&gt;</ExactValueSymbol><ExactValue>1.2</ExactValue><Unit>g/ml</Unit></UnitValue></Density></Densities></SafetyRelevantInformation></PhysicalChemicalProperties>")).operator->());
    ASSERT_TRUE(facts.has_value());
    ASSERT_EQ(facts->ingredients.size(), 3U);
    EXPECT_EQ(facts->ingredients[0].cas->value, "7681-52-9");
    EXPECT_FALSE(facts->ingredients[0].range.has_value()) << "grams in a litre are no share by weight";
    EXPECT_EQ(facts->ingredients[1].name.value, "perfume");
    EXPECT_TRUE(facts->ph->value.diluted) << "a concentration that cannot be read is still one";
    EXPECT_FALSE(facts->ph->value.concentration_pct.has_value());
    EXPECT_FALSE(facts->vapour_pressure_hpa->value.low.has_value());
    EXPECT_DOUBLE_EQ(*facts->vapour_pressure_hpa->value.high, 1);
    EXPECT_EQ(facts->density->value.g_ml.low, 1.2);
    EXPECT_FALSE(facts->density->value.g_ml.high.has_value());
}

TEST(SdscomRefusal, AnotherRootIsNotRead) {
    EXPECT_FALSE(sdscom_facts(*parse_xml("<DatasheetFeed><Datasheet/></DatasheetFeed>").operator->()).has_value()) << "without its namespace";
    EXPECT_FALSE(sdscom_facts(*parse_xml("<sds xmlns='http://www.esdscom.eu/SDScom'/>").operator->()).has_value());
}

}  // namespace
}  // namespace hw::sheet_reader
