// A sheet read, corrected, put on the shelf: over records in memory and a reader that takes lines for a sheet.
#include <gtest/gtest.h>

#include "desk/digest.hpp"
#include "desk/judge.hpp"
#include "desk/demo.hpp"
#include "desk/liquids.hpp"
#include "desk/sheet_facts.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_sheets.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/pdfs.hpp"

namespace hw::desk {
namespace {

class Digest : public ::testing::Test {
protected:
    Digest() {
        ports_.journal = &journal_;
        ports_.sheets = &sheets_;
        ports_.sheet_reader = &reader_;
        ports_.who.name = "Ada";
        reader_.content.document = test::document_of(test::sheet_lines());
    }
    DigestAnswer kept(const std::string& bytes = "SHEET") {
        DigestRequest r;
        r.bytes = bytes;
        r.name = "sheet.pdf";
        r.keep = true;
        return digest(r, ports_).value();
    }
    Result<DigestAnswer> say(const DigestAnswer& a, const std::string& key, const std::string& value, CorrectedBy how = CorrectedBy::Typed) {
        return correct_sheet({"c" + std::to_string(++said_), a.id, key, value, how, "", ""}, ports_);
    }
    /// The sheet with some of its lines written otherwise: what a line begins with, and what stands there instead.
    static sheet::Document with(const std::vector<std::pair<std::string, std::string>>& changes) {
        auto lines = test::sheet_lines();
        for (auto& page : lines)
            for (auto& line : page)
                for (const auto& [begins, instead] : changes)
                    if (line.rfind(begins, 0) == 0) line = instead;
        return test::document_of(lines);
    }
    static int said(const DigestAnswer& a, const std::string& contradiction, const std::string& words = "") {
        int n = 0;
        for (const auto& c : a.contradictions) n += c.key == contradiction && c.sentence.find(words) != std::string::npos ? 1 : 0;
        return n;
    }
    static SheetFact fact(const DigestAnswer& a, const std::string& key) {
        for (const auto& g : a.groups)
            for (const auto& f : g.facts)
                if (f.key == key) return f;
        for (const auto& i : a.ingredients)
            for (const auto& f : {i.name, i.cas, i.share})
                if (f.key == key) return f;
        ADD_FAILURE() << "no fact " << key;
        return {};
    }

    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    test::MemorySheets sheets_;
    test::PlainSheetReader reader_;
    Ports ports_{store_, clock_};
    int said_ = 0;
};

class DigestConsistency : public Digest {};
class DigestRefusal : public Digest {};

TEST_F(DigestConsistency, FactsComeWithTheirPlaces) {
    const DigestAnswer a = kept();
    EXPECT_TRUE(a.kept);
    EXPECT_EQ(fact(a, "product").value, "Workshop degreaser 40");
    const SheetFact ph = fact(a, "ph");
    EXPECT_EQ(ph.low, 12.0);
    EXPECT_EQ(ph.high, 12.6);
    EXPECT_EQ(ph.place.page, 2);
    EXPECT_NE(ph.place.words.find("12"), std::string::npos);
    EXPECT_LT(ph.place.x0_pt, ph.place.x1_pt);
    ASSERT_EQ(a.ingredients.size(), 2U);
    EXPECT_EQ(a.ingredients[0].cas.value, "141-43-5");
    EXPECT_TRUE(a.ingredients[0].known);
    EXPECT_EQ(a.pages.size(), 2U);
    EXPECT_NE(a.never_a_recipe.find("not a recipe"), std::string::npos);
    EXPECT_EQ(a.sections.size(), 16U);
    EXPECT_EQ(sheet_page(a.id, 2, ports_).value(), "page 2 at 110");
}

TEST_F(DigestConsistency, WithoutKeepingNothingIsKept) {
    DigestRequest r;
    r.bytes = "SHEET";
    EXPECT_FALSE(digest(r, ports_)->kept);
    EXPECT_TRUE(sheets_.sheets({})->empty());
}

TEST_F(DigestConsistency, TheSameFileAgainIsTheSameSheetWithWhatWasSaidOfIt) {
    const DigestAnswer a = kept();
    ASSERT_TRUE(say(a, "supplier", "Another maker").ok());
    const DigestAnswer again = kept();
    EXPECT_EQ(again.id, a.id);
    EXPECT_EQ(fact(again, "supplier").value, "Another maker");
    EXPECT_EQ(reader_.read_count, 1) << "it is not read again";
    EXPECT_EQ(sheets_.sheets({})->size(), 1U);
}

TEST_F(DigestConsistency, MeasuredOutranksTypedAndTypedOutranksTheSheetInAnyOrder) {
    const DigestAnswer a = kept();
    ASSERT_TRUE(say(a, "ph", "11.2", CorrectedBy::Measured).ok());
    const SheetFact measured = fact(*say(a, "ph", "11,5 to 12"), "ph");
    EXPECT_EQ(measured.from, FactFrom::Measured);
    EXPECT_EQ(measured.low, 11.2);
    EXPECT_EQ(measured.sheet_value, fact(a, "ph").value) << "what the sheet says stays";
    const SheetFact typed = fact(*say(a, "ph", "", CorrectedBy::Measured), "ph");
    EXPECT_EQ(typed.from, FactFrom::Typed);
    EXPECT_EQ(typed.low, 11.5);
    EXPECT_EQ(typed.high, 12.0);
    const DigestAnswer back = say(a, "ph", "").value();
    EXPECT_EQ(fact(back, "ph").from, FactFrom::Sheet);
    EXPECT_EQ(fact(back, "ph").low, 12.0);
    ASSERT_EQ(back.corrections.size(), 4U) << "all of it is kept";
    EXPECT_EQ(back.corrections[0].by_name, "Ada");
    EXPECT_FALSE(back.corrections[0].at.empty());
}

TEST_F(DigestConsistency, IngredientsAreAddedAndTakenOut) {
    const DigestAnswer a = kept();
    ASSERT_TRUE(say(a, "ingredients[2].name", "sodium hydroxide").ok());
    ASSERT_TRUE(say(a, "ingredients[2].cas", "1310-73-2").ok());
    DigestAnswer now = say(a, "ingredients[2].share", "< 2").value();
    ASSERT_EQ(now.ingredients.size(), 3U);
    EXPECT_FALSE(now.ingredients[2].share.low.has_value());
    EXPECT_EQ(now.ingredients[2].share.high, 2.0);
    now = say(a, "ingredients[1]", "not there").value();
    EXPECT_TRUE(now.ingredients[1].removed);
    EXPECT_FALSE(say(a, "ingredients[1]", "")->ingredients[1].removed);
}

TEST_F(DigestConsistency, TheRowOfTheListFollows) {
    const DigestAnswer a = kept();
    ASSERT_TRUE(say(a, "product", "Another name").ok());
    EXPECT_EQ(sheets_.row(a.id)->product, "Another name");
}

TEST_F(DigestConsistency, OnTheShelfItCanBeJudged) {
    const DigestAnswer a = kept();
    EXPECT_EQ(a.not_for_the_shelf, "");
    EXPECT_TRUE(store_.liquids({})->empty()) << "not before somebody says so";
    const Liquid l = shelve_sheet({a.id, ""}, ports_).value();
    EXPECT_EQ(l.name, "Workshop degreaser 40");
    EXPECT_EQ(l.stated_ph, 12.0);
    EXPECT_EQ(l.stated_ph_to, 12.6);
    ASSERT_EQ(l.ingredients.size(), 2U);
    EXPECT_EQ(l.ingredients[0].content_pct, 1.0);
    EXPECT_EQ(l.ingredients[0].content_to_pct, 5.0);
    EXPECT_TRUE(l.label_known);
    EXPECT_NE(l.note.find("not a recipe"), std::string::npos);
    JudgeRequest judged;
    judged.liquid.id = l.id;
    judged.leather = demo_leathers().front();
    judged.leather.id.clear();
    const auto answer = judge(judged, ports_);
    ASSERT_TRUE(answer.ok()) << answer.error().message;
    EXPECT_FALSE(answer->sentence.empty());
}

TEST_F(DigestConsistency, OnTheShelfAgainItIsTheSameLiquidWithWhatWasReadInTheBottle) {
    const DigestAnswer a = kept();
    Liquid l = shelve_sheet({a.id, ""}, ports_).value();
    l.read_ph_tenfold = 11.3;
    l.family = "degreaser";
    ASSERT_TRUE(store_.keep_liquid(l).ok());
    ASSERT_TRUE(say(a, "ph", "12.4", CorrectedBy::Measured).ok());
    const Liquid again = shelve_sheet({a.id, ""}, ports_).value();
    EXPECT_EQ(again.id, l.id);
    EXPECT_EQ(again.read_ph, 12.4) << "measured: a reading, not a statement";
    EXPECT_FALSE(again.stated_ph.has_value());
    EXPECT_EQ(again.read_ph_tenfold, 11.3);
    EXPECT_EQ(again.family, "degreaser");
    EXPECT_EQ(store_.liquids({})->size(), 1U);
}

TEST_F(DigestConsistency, ThePhOfADilutionIsNotToldToTheShelf) {
    auto lines = test::sheet_lines();
    for (auto& page : lines)
        for (auto& line : page)
            if (line.rfind("pH:", 0) == 0) line = "pH: 10.5 (1 % in water, 20 \xb0" "C)";
    reader_.content.document = test::document_of(lines);
    const DigestAnswer a = kept("SHEET diluted");
    EXPECT_EQ(fact(a, "ph").of_pct, 1.0);
    ASSERT_FALSE(a.missing.empty());
    EXPECT_NE(a.missing[0].find("pH"), std::string::npos);
    const Liquid l = shelve_sheet({a.id, ""}, ports_).value();
    EXPECT_FALSE(l.stated_ph.has_value());
    EXPECT_NE(l.note.find("dilution"), std::string::npos);
}

TEST_F(DigestConsistency, WhereThereIsNoPhNobodyIsSentToReadOne) {
    const DigestAnswer a = say(kept(), "ph", "not applicable").value();
    for (const auto& m : a.missing) EXPECT_EQ(m.find("pH"), std::string::npos) << m;
    EXPECT_FALSE(shelve_sheet({a.id, ""}, ports_)->stated_ph.has_value());
}

TEST_F(DigestConsistency, XmlComesBeforeTheTextAndADifferenceIsSaid) {
    sheet::Facts xml;
    xml.ph = sheet::Fact<sheet::Ph>{{13.0, 13.0, std::nullopt, std::nullopt, false}, {}, 1};
    xml.product = sheet::Text{"Workshop degreaser 40", {}, 1};
    reader_.content.attachments = {{"sheet.xml", "", xml}, {"other.xml", "", std::nullopt}};
    const DigestAnswer a = kept();
    EXPECT_EQ(fact(a, "ph").from, FactFrom::Xml);
    EXPECT_EQ(fact(a, "ph").low, 13.0);
    EXPECT_EQ(fact(a, "ph").place.page, 2) << "the place is that of the text";
    EXPECT_FALSE(fact(a, "ph").sheet_value.empty());
    EXPECT_EQ(a.ingredients.size(), 2U) << "what the XML does not say is taken from the text";
    ASSERT_EQ(a.xml.size(), 2U);
    EXPECT_TRUE(a.xml[0].read);
    EXPECT_NE(a.xml[1].sentence.find("its schema is not read"), std::string::npos);
    int said = 0;
    for (const auto& c : a.contradictions)
        if (c.key == "xml_against_text") ++said;
    EXPECT_EQ(said, 1) << "of the pH; the product is the same in both";
}

class DigestIssue : public Digest {};

sheet::Ingredient in_xml(const std::string& name, const std::string& cas, std::optional<sheet::Range> range) {
    sheet::Ingredient i;
    if (!name.empty()) i.name = {name, {}, 1};
    if (!cas.empty()) i.cas = sheet::Text{cas, {}, 1};
    if (range) i.range = sheet::Fact<sheet::Range>{*range, {}, 1};
    return i;
}

TEST_F(DigestIssue, WhatIsPrintedAndNotInTheXmlStays) {
    // Bleach that only the print named was lost with its stop, since a list in the XML took the place of the whole printed list.
    DigestAnswer a = kept();
    ASSERT_EQ(a.ingredients.size(), 2U);
    const std::string first = a.ingredients[0].name.value, second = a.ingredients[1].name.value;
    sheet::Facts xml;
    xml.ingredients = {in_xml("a surfactant", "", sheet::Range{1.0, 5.0, false, false, false}), in_xml("", a.ingredients[1].cas.value, std::nullopt), in_xml("", "", std::nullopt)};
    reader_.content.attachments = {{"sheet.xml", "", xml}};
    a = kept("SHEET with XML");
    ASSERT_EQ(a.ingredients.size(), 3U);
    EXPECT_EQ(a.ingredients[0].name.value, "a surfactant");
    EXPECT_EQ(a.ingredients[0].name.from, FactFrom::Xml);
    EXPECT_EQ(a.ingredients[1].name.value, second) << "by its number; the name is that of the print";
    EXPECT_EQ(a.ingredients[1].share.from, FactFrom::Sheet);
    EXPECT_FALSE(a.ingredients[1].share.value.empty()) << "the share that is printed";
    EXPECT_EQ(a.ingredients[2].name.value, first);
    EXPECT_EQ(a.ingredients[2].name.from, FactFrom::Sheet);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(a.ingredients[k].share.key, "ingredients[" + std::to_string(k) + "].share");
    EXPECT_EQ(said(a, "xml_against_text", first), 1);
    EXPECT_EQ(said(a, "xml_against_text", "gives no share of " + second), 1);
    EXPECT_EQ(said(a, "xml_against_text", "without a name"), 1);
    EXPECT_EQ(shelve_sheet({a.id, ""}, ports_)->ingredients.size(), 3U);
}

TEST_F(DigestIssue, AConditionThatTheXmlLeavesOutIsKept) {
    reader_.content.document = with({{"pH:", "pH: 11 (1 % in water)"}});
    sheet::Facts xml;
    xml.ph = sheet::Fact<sheet::Ph>{{11.0, 11.0, std::nullopt, std::nullopt, false}, {}, 1};
    reader_.content.attachments = {{"sheet.xml", "", xml}};
    const DigestAnswer a = kept();
    EXPECT_EQ(fact(a, "ph").of_pct, 1.0);
    EXPECT_EQ(said(a, "xml_against_text"), 1);
    EXPECT_FALSE(shelve_sheet({a.id, ""}, ports_)->stated_ph.has_value());
}

TEST_F(DigestIssue, NoDilutionInAnyDressReachesTheShelf) {
    int n = 0;
    for (const char* line : {"pH: 11.0 (1:100 dilution)", "pH: 11.0 (1 : 10 in Wasser)", "pH: 11.0 (10 g / l)", "pH: 11.0 (diluido)", "pH: 11.0 (aqueous solution)", "pH: 11.0 (solution at 1 %)", "pH: 11.0 (after brewing)"}) {
        reader_.content.document = with({{"pH:", line}});
        const DigestAnswer a = kept("SHEET " + std::to_string(n++));
        const Liquid l = shelve_sheet({a.id, ""}, ports_).value();
        EXPECT_FALSE(l.stated_ph.has_value()) << line;
        EXPECT_FALSE(fact(a, "ph").note.empty()) << line;
        ASSERT_FALSE(a.missing.empty()) << line;
        EXPECT_NE(a.missing[0].find("pH"), std::string::npos) << line;
    }
    reader_.content.document = with({{"pH:", "pH: 11.0 (1:100)"}});
    const DigestAnswer ratio = kept("SHEET ratio");
    EXPECT_TRUE(fact(ratio, "ph").look) << "it can be meant in two ways";
    EXPECT_EQ(fact(*say(ratio, "ph", "12.5"), "ph").not_of_bottle, false) << "what is typed is of the bottle";
}

TEST_F(DigestIssue, AMeasuredPhIsOneFigure) {
    // "> 12" measured became 13, the middle of a range that nobody read.
    const DigestAnswer a = kept();
    for (const char* typed : {"> 12", "< 3", "2 to 13"}) {
        const auto r = say(a, "ph", typed, CorrectedBy::Measured);
        ASSERT_FALSE(r.ok()) << typed;
        EXPECT_EQ(r.error().code, ErrorCode::InvalidInput);
        EXPECT_EQ(r.error().where, "value");
        EXPECT_NE(r.error().message.find("as typed from paper"), std::string::npos);
        EXPECT_TRUE(say(a, "ph", typed).ok()) << "typed from paper it may be";
    }
    // One that was kept before is a statement, as wide as it is.
    ASSERT_TRUE(sheets_.append({"old", a.id, "ph", "> 12", CorrectedBy::Measured, "Ada", "2026-01-01T00:00:00Z"}).ok());
    const Liquid l = shelve_sheet({a.id, ""}, ports_).value();
    EXPECT_FALSE(l.read_ph.has_value());
    EXPECT_EQ(l.stated_ph, 12.0);
    EXPECT_EQ(l.stated_ph_to, 14.0);
}

TEST_F(DigestIssue, AStatementThatAcidsFreeGasStopsThem) {
    // EUH031 was read and shown, and the liquid met vinegar without a word.
    Liquid vinegar;
    vinegar.name = "vinegar";
    Ingredient acid;
    acid.name = "acetic acid";
    acid.content_pct = 5;
    vinegar.ingredients = {acid};
    const std::string vinegar_id = store_.keep_liquid(vinegar).value();
    const DigestAnswer plain = kept();
    EXPECT_FALSE(meeting_stop(shelve_sheet({plain.id, ""}, ports_).value(), {vinegar_id}, store_).has_value()) << "nothing without the statement";
    for (const char* code : {"EUH031", "EUH032", "EUH206"}) {
        const DigestAnswer a = kept(std::string("SHEET ") + code);
        ASSERT_TRUE(say(a, "codes", std::string("H314, ") + code).ok());
        for (const char* row : {"ingredients[0]", "ingredients[1]"}) ASSERT_TRUE(say(a, row, "not there").ok());
        const Liquid l = shelve_sheet({a.id, ""}, ports_).value();
        EXPECT_NE(l.note.find(code), std::string::npos) << "and it is said";
        EXPECT_TRUE(l.label_known) << "the rest of the label holds";
        JudgeRequest judged;
        judged.liquid.id = l.id;
        judged.meets = {vinegar_id};
        judged.leather = demo_leathers().front();
        judged.leather.id.clear();
        const auto answer = judge(judged, ports_);
        ASSERT_TRUE(answer.ok()) << answer.error().message;
        ASSERT_TRUE(answer->stop.has_value()) << code;
        EXPECT_NE(answer->stop->headline.find("acid"), std::string::npos);
        EXPECT_FALSE(meeting_stop(l, {}, store_).has_value()) << "alone there is nothing to stop";
    }
    // Beside an amine it is no bleach, and still not for acids.
    const DigestAnswer amine = kept("SHEET amine");
    ASSERT_TRUE(say(amine, "codes", "EUH031").ok());
    const Liquid l = shelve_sheet({amine.id, ""}, ports_).value();
    EXPECT_TRUE(meeting_stop(l, {vinegar_id}, store_).has_value());
    EXPECT_FALSE(meeting_stop(l, {}, store_).has_value());
    // A name that explains it stands for itself.
    const DigestAnswer bleach = kept("SHEET bleach");
    ASSERT_TRUE(say(bleach, "codes", "EUH031").ok());
    ASSERT_TRUE(say(bleach, "ingredients[0].name", "sodium hypochlorite").ok());
    ASSERT_TRUE(say(bleach, "ingredients[0].cas", "7681-52-9").ok());
    EXPECT_EQ(shelve_sheet({bleach.id, ""}, ports_)->ingredients.size(), 2U);
}

TEST_F(DigestIssue, SignsAreShown) {
    reader_.content.document = with({{"Flash point", "Vapour pressure: < 0.1 hPa"}});
    const SheetFact f = fact(kept(), "vapour_pressure");
    EXPECT_EQ(f.value, "under 0.1 hPa");
    EXPECT_FALSE(f.low.has_value());
    EXPECT_EQ(f.high, 0.1);
}

TEST_F(DigestConsistency, AScanIsKeptToBeTyped) {
    reader_.content.document = test::document_of({{}, {}});
    DigestRequest r;
    r.bytes = "SHEET scan";
    r.keep = r.by_hand = true;
    DigestAnswer a = digest(r, ports_).value();
    EXPECT_TRUE(a.by_hand);
    EXPECT_EQ(a.pages.size(), 2U);
    EXPECT_NE(a.not_for_the_shelf.find("name of the product"), std::string::npos);
    ASSERT_TRUE(say(a, "product", "Old tin").ok());
    a = say(a, "ph", "9.5", CorrectedBy::Measured).value();
    EXPECT_EQ(a.not_for_the_shelf, "");
    EXPECT_EQ(shelve_sheet({a.id, ""}, ports_)->read_ph, 9.5);
}

TEST_F(DigestRefusal, WhatCannotBeReadKeepsItsReason) {
    DigestRequest r;
    r.keep = true;
    r.bytes = "SHEET BAD";
    EXPECT_EQ(digest(r, ports_).error().where, "sheet.damaged");
    r.bytes = "SHEET BUSY";
    EXPECT_EQ(digest(r, ports_).error().code, ErrorCode::Unavailable);
    r.bytes = "";
    EXPECT_EQ(digest(r, ports_).error().where, "sheet.damaged");
    reader_.content.document = test::document_of({{}});
    r.bytes = "SHEET scan";
    EXPECT_EQ(digest(r, ports_).error().where, "sheet.no_text");
    reader_.content.document = test::document_of({{"A letter", "about something else, with several words on its page", "and no sections at all in it, so that nobody takes it for a sheet"}});
    r.by_hand = true;
    EXPECT_EQ(digest(r, ports_).error().where, "sheet.not_a_sheet") << "also by hand: what has text is not typed";
    EXPECT_TRUE(sheets_.sheets({})->empty());
}

TEST_F(DigestRefusal, ValuesThatCannotBe) {
    const DigestAnswer a = kept();
    const std::vector<std::pair<std::string, std::string>> bad{{"ph", "strong"}, {"ph", "17"}, {"ph", "12 to 11"}, {"ph", "12 bar"}, {"density", "9.9"}, {"density", "1 g/l"}, {"ingredients[0].cas", "141-43-6"}, {"ingredients[0].share", "120"},
                                                              {"ingredients[0].share", "5 to"}, {"revision_date", "5.3.2024"}, {"signal_word", "Achtung"}, {"codes", "H314, X99"}, {"codes[0]", "H314"}, {"ingredients[9].name", "x"},
                                                              {"ingredients[0]", "gone"}, {"nothing", "x"}, {"ingredients[0].weight", "x"}, {"ingredients[x].name", "x"}};
    for (const auto& [key, value] : bad) {
        const auto r = say(a, key, value);
        ASSERT_FALSE(r.ok()) << key << " = " << value;
        EXPECT_EQ(r.error().code, ErrorCode::InvalidInput) << key;
    }
    EXPECT_FALSE(say(a, "product", "x", CorrectedBy::Measured).ok()) << "a name is not measured";
    EXPECT_TRUE(sheets_.corrections(a.id)->empty());
    EXPECT_EQ(say({}, "ph", "7").error().code, ErrorCode::NotFound);
}

TEST_F(DigestConsistency, NumbersAreTypedInManyWays) {
    const DigestAnswer a = kept();
    struct Case { const char* typed; std::optional<double> low, high; };
    for (const auto& [typed, low, high] : {Case{"5-15 %", 5, 15}, Case{"5,5 \u2013 7,25", 5.5, 7.25}, Case{"< 3", {}, 3}, Case{"<=3 %", {}, 3}, Case{"\u2265 50", 50, {}}, Case{"up to 4", {}, 4}, Case{"over 60", 60, {}}, Case{">= 10 - <25 %", 10, 25}, Case{"7", 7, 7}}) {
        const SheetFact f = fact(*say(a, "ingredients[0].share", typed), "ingredients[0].share");
        EXPECT_EQ(f.low, low) << typed;
        EXPECT_EQ(f.high, high) << typed;
    }
    EXPECT_EQ(fact(*say(a, "flash_point", "144 F"), "flash_point").low, 62.2);
    EXPECT_EQ(fact(*say(a, "boiling", "-5 to 3"), "boiling").low, -5.0);
}

TEST_F(DigestRefusal, TheShelfWantsToKnowHowMuch) {
    const DigestAnswer a = kept();
    const DigestAnswer now = say(a, "ingredients[2].name", "an amine, trade secret").value();
    const auto r = shelve_sheet({a.id, ""}, ports_);
    ASSERT_FALSE(r.ok());
    EXPECT_EQ(r.error().where, "ingredients[2].share");
    EXPECT_EQ(now.not_for_the_shelf, r.error().message);
    ASSERT_TRUE(say(a, "ingredients[2].share", "0 to 10").ok());
    EXPECT_TRUE(shelve_sheet({a.id, ""}, ports_).ok());
    EXPECT_EQ(shelve_sheet({a.id, "nobody"}, ports_).error().code, ErrorCode::NotFound);
}

}  // namespace
}  // namespace hw::desk
