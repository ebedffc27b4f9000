#include "desk/inspect.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "desk/entries.hpp"
#include "desk/meters.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

const std::string piece_id = "0190aaaa-0000-7000-8000-000000000001";

std::string uuid(int n) {
    char text[40];
    std::snprintf(text, sizeof text, "0190bbbb-0000-7000-8000-%012d", n);
    return text;
}

class Inspecting : public ::testing::Test {
protected:
    Inspecting() { ports_.journal = &journal_; }

    Entry entry(Did did) {
        Entry e;
        e.id = uuid(++count_);
        e.at = "2026-01-02T03:04:05Z";
        e.device = "bench";
        e.seen = 1000;
        e.did = did;
        return e;
    }
    Entry armchair(const std::string& name = "Armchair") {
        Entry e = entry(Did::MakeUp);
        e.make_up = MakeUp{name, "armchair", {}, {}, ""};
        return e;
    }
    Entry condition(const std::string& panel, const std::string& term, int severity, double pct) {
        Entry e = entry(Did::Condition);
        e.condition = Condition{{panel}, term, severity, pct, std::nullopt, {}, ""};
        return e;
    }
    Entry facts(const std::vector<std::string>& panels, const std::string& material, Wear wear) {
        Entry e = entry(Did::Panels);
        e.facts = PanelFacts{panels, material, "", wear, Exposure::NotSaid};
        return e;
    }
    Entry reading(const std::string& kind, const std::string& panel, std::vector<double> values, const std::string& instrument = "") {
        Entry e = entry(Did::Reading);
        e.reading = Reading{kind, panel, "front edge", std::move(values), std::nullopt, instrument, ""};
        return e;
    }
    Entry take_back(const std::string& id) {
        Entry e = entry(Did::TakeBack);
        e.takes_back = id;
        return e;
    }
    InspectAnswer told(std::vector<Entry> entries) {
        auto answer = inspect({piece_id, std::move(entries)}, ports_);
        EXPECT_TRUE(answer.ok()) << (answer.ok() ? "" : answer.error().where + ": " + answer.error().message);
        return answer.ok() ? *answer : InspectAnswer{};
    }
    Error refused(Entry e) {
        const auto answer = inspect({piece_id, {std::move(e)}}, ports_);
        EXPECT_FALSE(answer.ok());
        return answer.ok() ? Error{ErrorCode::Bug, "", ""} : answer.error();
    }
    static const PanelNow& panel(const InspectAnswer& a, const std::string& code) {
        const auto it = std::find_if(a.panels.begin(), a.panels.end(), [&](const PanelNow& p) { return p.code == code; });
        if (it == a.panels.end()) throw Bug("no panel " + code);
        return *it;
    }

    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    Ports ports_{store_, clock_};
    int count_ = 0;
};
class InspectJourney : public Inspecting {};
class InspectProperty : public Inspecting {};
class InspectRefusal : public Inspecting {};

TEST_F(InspectJourney, APieceIsBegunMarkedAndReadAgain) {
    const auto first = told({armchair(), facts({"SC1-top", "OB"}, "aniline", Wear::Worn), condition("SC1-top", "body_oil", 2, 25)});
    EXPECT_EQ(first.name, "Armchair");
    EXPECT_FALSE(first.views.empty());
    const auto again = told({});
    EXPECT_EQ(codec::written(again), codec::written(first)) << "looking changes nothing";
    const auto& top = panel(again, "SC1-top");
    EXPECT_EQ(top.material, "aniline");
    EXPECT_EQ(top.conditions.size(), 1u);
    // Weight 15, severity 2, a quarter of the panel: 15 x 2 x 0.5.
    EXPECT_NEAR(top.index.value, 85, 1e-9);
    EXPECT_EQ(journal_.pieces({})->front().name, "Armchair");
}

TEST_F(InspectProperty, WhatIsSentTwiceIsKeptOnce) {
    const Entry a = armchair(), c = condition("SC1-top", "fade", 1, 100);
    const auto once = told({a, c});
    const auto twice = told({a, c});
    EXPECT_EQ(twice.entries.size(), 2u);
    EXPECT_EQ(codec::written(twice), codec::written(once));
}

TEST_F(InspectProperty, TakingBackAndTakingThatBackLeadsWhereItBegan) {
    const Entry c = condition("SC1-top", "tear", 4, 4);
    const auto before = told({armchair(), c});
    const Entry undo = take_back(c.id);
    EXPECT_EQ(panel(told({undo}), "SC1-top").index.value, 100);
    const auto redo = told({take_back(undo.id)});
    EXPECT_EQ(panel(redo, "SC1-top").index.value, panel(before, "SC1-top").index.value);
    EXPECT_EQ(redo.entries.size(), 4u) << "nothing is lost from the history";
}

TEST_F(InspectProperty, ACorrectionLeavesNoTraceInTheTrendAndSeeingAgainDoes) {
    Entry slip = condition("SC1-top", "fade", 4, 100);
    slip.at = "2026-01-01T00:00:00Z";
    Entry right = condition("SC1-top", "fade", 1, 100);
    right.at = "2026-01-01T00:01:00Z";
    right.corrects = slip.id;
    Entry later = condition("SC1-top", "fade", 3, 100);
    later.at = "2026-06-01T00:00:00Z";
    later.follows = right.id;
    const auto a = told({armchair(), slip, right, later});
    const auto& p = panel(a, "SC1-top");
    ASSERT_EQ(p.trend.size(), 2u);
    EXPECT_NEAR(p.trend[0].index_1, 90, 1e-9);   // weight 10, severity 1
    EXPECT_NEAR(p.trend[1].index_1, 70, 1e-9);   // seen again at severity 3; the slip of 4 never counted
    EXPECT_NEAR(p.index.value, 70, 1e-9);
}

TEST_F(InspectProperty, TwoDevicesThatDidNotKnowOfEachOtherAreBothShown) {
    told({armchair()});
    Entry phone = facts({"SC1-top"}, "aniline", Wear::NotSaid), desk = facts({"SC1-top"}, "pigmented_furniture", Wear::NotSaid);
    phone.device = "phone";
    phone.seen = 1;
    desk.seen = 1;
    told({desk});
    const auto a = told({phone});
    ASSERT_EQ(a.clashes.size(), 1u);
    EXPECT_EQ(a.clashes[0].entries, (std::vector<std::string>{desk.id, phone.id}));
    EXPECT_TRUE(panel(a, "SC1-top").in_conflict);
    // Somebody who saw both chooses.
    Entry choice = facts({"SC1-top"}, "aniline", Wear::NotSaid);
    choice.seen = a.last;
    EXPECT_TRUE(told({choice}).clashes.empty());
}

TEST_F(InspectProperty, OneDeviceThatTypesAheadOfTheServerDoesNotClashWithItself) {
    Entry a = facts({"SC1-top"}, "aniline", Wear::NotSaid), b = facts({"SC1-top"}, "nubuck", Wear::NotSaid);
    a.seen = b.seen = 0;
    EXPECT_TRUE(told({armchair(), a, b}).clashes.empty());
}

TEST_F(InspectProperty, APartThatCanHurtCountsAsThereUntilTwoAccountsAgree) {
    told({armchair()});
    Entry yes = entry(Did::Mark), no = entry(Did::Mark);
    yes.mark = Mark{{"SC1-top"}, "heater", true, ""};
    no.mark = Mark{{"SC1-top"}, "heater", false, ""};
    yes.seen = no.seen = 1;
    no.device = "phone";
    const auto a = told({yes, no});
    EXPECT_TRUE(what_stops(a, "SC1-top", "soak").has_value());
    ASSERT_EQ(a.clashes.size(), 1u);
    Entry settled = entry(Did::Mark);
    settled.mark = Mark{{"SC1-top"}, "heater", false, "lifted the cushion"};
    EXPECT_FALSE(what_stops(told({settled}), "SC1-top", "soak").has_value());
}

TEST_F(InspectJourney, AnAirbagSeamStopsTheNeedleAndNotTheCloth) {
    Entry seat = entry(Did::MakeUp);
    seat.make_up = MakeUp{"Driver's seat", "front_seat", {}, {}, ""};
    const auto before = told({seat});
    const auto asked = std::find_if(before.panels.begin(), before.panels.end(), [](const PanelNow& p) { return std::any_of(p.questions.begin(), p.questions.end(), [](const Reason& q) { return q.kind == "airbag"; }); });
    ASSERT_NE(asked, before.panels.end()) << "an outer bolster asks for an airbag";
    Entry mark = entry(Did::Mark);
    mark.mark = Mark{{asked->code}, "airbag_seam", true, "label"};
    const auto a = told({mark});
    for (const char* step : {"stitch", "glue", "fill", "cut"}) EXPECT_TRUE(what_stops(a, asked->code, step).has_value()) << step;
    EXPECT_FALSE(what_stops(a, asked->code, "wipe").has_value());
    EXPECT_TRUE(std::none_of(panel(a, asked->code).questions.begin(), panel(a, asked->code).questions.end(), [](const Reason& q) { return q.kind == "airbag"; }));
    EXPECT_EQ(a.stops.front().kind, "airbag_seam");
}

TEST_F(InspectJourney, AReadingWithoutACalibrationSaysSoAndIsNotHandedOn) {
    told({armchair(), facts({"SC1-top"}, "aniline", Wear::NotSaid), reading("surface_ph", "SC1-top", {4.2, 4.4, 4.3})});
    const auto a = told({});
    ASSERT_EQ(a.readings.size(), 1u);
    EXPECT_FALSE(a.readings[0].trusted);
    EXPECT_NEAR(a.readings[0].value.value, 4.3, 1e-12);
    EXPECT_FALSE(panel(a, "SC1-top").leather.surface_ph.has_value());

    const std::string meter = *journal_.keep_instrument({"", "Bench meter", "", ""});
    Calibration c;
    c.instrument = meter;
    c.at = "2026-01-02T02:00:00Z";
    c.buffers = {{4.00, 4.02, "", ""}, {7.02, 6.98, "", ""}};
    ASSERT_TRUE(calibrate(c, ports_)->good);
    const auto b = told({reading("surface_ph", "SC1-top", {4.2, 4.4, 4.3}, meter)});
    EXPECT_TRUE(b.readings[0].trusted || b.readings[1].trusted);
    EXPECT_NEAR(panel(b, "SC1-top").leather.surface_ph.value_or(0), 4.3, 1e-12);
}

TEST_F(InspectProperty, APanelIsMeasuredOnlyOnceSomethingWasReadOnIt) {
    const auto before = told({armchair(), facts({"SC1-top", "OB"}, "aniline", Wear::Worn)});
    EXPECT_EQ(panel(before, "SC1-top").leather.standing, Standing::Estimate) << "the figures are those of the class";
    const auto after = told({reading("water_drop", "SC1-top", {6, 8, 5})});
    EXPECT_EQ(panel(after, "SC1-top").leather.standing, Standing::Measured);
    EXPECT_EQ(panel(after, "OB").leather.standing, Standing::Estimate);
}

TEST_F(InspectProperty, TheHistorySpeaksInTheWordsOfThePage) {
    Entry e = facts({"SC1-top"}, "aniline", Wear::None);
    e.facts->exposure = Exposure::Seat;
    const auto a = told({armchair(), e});
    EXPECT_EQ(a.entries.front().sentence, "SC1-top: " + material_name("aniline") + ", as new, sat on.");
}

TEST_F(InspectJourney, WhatWasSignedSaysWhenMoreHasTurnedUpSince) {
    const auto before = told({armchair()});
    EXPECT_TRUE(before.agreed.empty());
    Entry agreed = entry(Did::Agreed);
    agreed.agreed = Agreed{"A. Owner", before.disclosure, before.consents, {{10, 10, 500, 400}}};
    EXPECT_NE(told({agreed}).agreed.find("Signed by A. Owner"), std::string::npos);
    EXPECT_NE(told({condition("SC1-top", "scuff", 1, 5)}).agreed.find("1 entry was made"), std::string::npos);
    EXPECT_NE(told({condition("SC1-top", "through_crack", 3, 5)}).agreed.find("show it again"), std::string::npos) << "weak fibre is a risk that must be told";
}

TEST_F(InspectJourney, WhatIsLaidOnAPanelIsKeptWholeAndTold) {
    Liquid shelf;
    shelf.id = "rinse-one";
    shelf.name = "Rinse one";
    shelf.family = "rinse";
    shelf.ingredients = {{"acetic acid", "", 0.3, std::nullopt, std::nullopt}};
    ASSERT_TRUE(store_.keep_liquid(shelf).ok());
    told({armchair()});
    const auto laid = [&](std::vector<std::string> panels, const std::string& id) {
        Entry e = entry(Did::Laid);
        e.laid = Laid{std::move(panels), {}, 30, 60, 40, ""};
        e.laid->liquid.id = id;
        return e;
    };
    const auto a = told({laid({"SC1-top"}, "rinse-one")});
    const auto& kept = a.entries.front();
    ASSERT_TRUE(kept.entry.laid.has_value());
    EXPECT_EQ(kept.entry.laid->liquid.ingredients.size(), 1u) << "as it was: the shelf may change";
    EXPECT_NE(kept.sentence.find("30 g/m² of Rinse one, left 60 s, 40 % blotted off"), std::string::npos) << kept.sentence;
    EXPECT_EQ(refused(laid({"SC1-top"}, "nobody")).where, "entries[0].laid.liquid.id");
    EXPECT_EQ(refused(laid({}, "rinse-one")).where, "entries[0].laid.panels");
    EXPECT_EQ(refused(laid({"no-panel"}, "rinse-one")).where, "entries[0].laid.panels[0]");
    Entry wrong = laid({"SC1-top"}, "rinse-one");
    wrong.did = Did::Condition;
    EXPECT_EQ(refused(wrong).where, "entries[0].condition") << "the part that was named is not there";
}

TEST_F(InspectProperty, PanelsWithEqualFactsFormOneClass) {
    const auto a = told({armchair(), facts({"SC1-top", "IA-L"}, "aniline", Wear::Worn), facts({"OB"}, "aniline", Wear::None)});
    ASSERT_EQ(a.zones.size(), 2u);
    double sum = 0;
    for (const auto& z : a.zones) sum += z.area_m2;
    EXPECT_NEAR(sum, (panel(a, "SC1-top").area.value + panel(a, "IA-L").area.value + panel(a, "OB").area.value) / 1e4, 1e-12);
}

TEST_F(InspectProperty, AreasCarryTheWidthOfTheTape) {
    Entry e = entry(Did::MakeUp);
    e.make_up = MakeUp{"Square", "free", {}, {{"Seat", FreeShape::Rectangle, 50, 40, 0, {}}}, ""};
    const auto a = told({e});
    // One centimetre on either side: 40 and 50 cm², by themselves.
    EXPECT_NEAR(a.panels[0].area.value, 2000, 1e-9);
    EXPECT_NEAR(a.panels[0].area.plus_minus, std::hypot(40.0, 50.0), 1e-9);
}

TEST_F(InspectRefusal, NamesTheFieldAndKeepsNothing) {
    EXPECT_EQ(refused(condition("SC1-top", "fade", 1, 5)).where, "piece") << "a piece begins with what it is";
    told({armchair()});
    EXPECT_EQ(refused(condition("SC9-top", "fade", 1, 5)).where, "entries[0].condition.panels[0]");
    EXPECT_EQ(refused(condition("SC1-top", "fayde", 1, 5)).where, "entries[0].condition.term");
    EXPECT_EQ(refused(condition("SC1-top", "fade", 7, 5)).where, "entries[0].condition.severity");
    EXPECT_EQ(refused(reading("surface_ph", "SC1-top", {44})).where, "entries[0].reading.values[0]");
    EXPECT_EQ(refused(reading("surface_ph", "SC1-top", {})).where, "entries[0].reading.values");
    EXPECT_EQ(refused(reading("surface_ph", "", {4.4})).where, "entries[0].reading.panel") << "only the air of the room belongs to no panel";
    EXPECT_EQ(refused(reading("air_humidity", "SC1-top", {45})).where, "entries[0].reading.panel");
    EXPECT_EQ(refused(facts({"SC1-top"}, "unobtainium", Wear::Worn)).where, "entries[0].facts.material");
    EXPECT_EQ(refused(take_back(uuid(999))).where, "entries[0].takes_back");
    Entry two = condition("SC1-top", "fade", 1, 5);
    two.mark = Mark{};
    EXPECT_EQ(refused(two).where, "entries[0].mark");
    Entry none = entry(Did::Mark);
    EXPECT_EQ(refused(none).where, "entries[0].mark");
    Entry when = condition("SC1-top", "fade", 1, 5);
    when.at = "yesterday";
    EXPECT_EQ(refused(when).where, "entries[0].at");
    EXPECT_EQ(told({}).entries.size(), 1u);
    EXPECT_EQ(told({reading("air_humidity", "", {45})}).readings.size(), 1u);
    ports_.journal = nullptr;
    EXPECT_EQ(inspect({piece_id, {}}, ports_).error().code, ErrorCode::Unavailable);
}

TEST_F(InspectRefusal, WhatSomebodyElseEnteredIsNotTakenBack) {
    ports_.who = {"anna", "Anna", false};
    const Entry c = condition("SC1-top", "fade", 1, 5);
    told({armchair(), c});
    ports_.who = {"ben", "Ben", false};
    EXPECT_EQ(refused(take_back(c.id)).code, ErrorCode::Conflict);
    ports_.who = {"olga", "Olga", true};
    EXPECT_EQ(told({take_back(c.id)}).entries.front().entry.by, "Olga");
}

TEST_F(InspectRefusal, AnIdOfAnotherEntryIsAConflict) {
    Entry c = condition("SC1-top", "fade", 1, 5);
    told({armchair(), c});
    c.condition->severity = 4;
    EXPECT_EQ(refused(c).code, ErrorCode::Conflict);
    EXPECT_EQ(panel(told({}), "SC1-top").conditions.size(), 1u);
}

// ---- meters

Calibration two_buffers(double low, double high) {
    Calibration c;
    c.id = "c";
    c.instrument = "m";
    c.at = "2026-01-02T08:00:00Z";
    c.buffers = {{4.00, low, "A1", "2026-12-31"}, {7.00, high, "B1", "2026-12-31"}};
    return c;
}

TEST(InspectConsistency, NoWordIsOfferedTwice) {
    const InspectionWords words = inspection_words();
    for (const auto* list : {&words.terms, &words.readings, &words.marks, &words.materials, &words.tannages, &words.wishes}) {
        ASSERT_FALSE(list->empty());
        std::set<std::string> keys;
        for (const auto& w : *list) EXPECT_TRUE(keys.insert(w.key).second) << w.key;
    }
}

TEST(CalibrateConsistency, SlopeAndZeroComeFromTheTwoBuffers) {
    // Shows 4.15 in 4.00 and 6.99 in 7.00: 2.84 of 3 units, 94.7 %.
    const auto m = check_of(two_buffers(4.15, 6.99));
    ASSERT_TRUE(m.ok());
    EXPECT_TRUE(m->good);
    EXPECT_NEAR(m->slope->value, 100 * 2.84 / 3, 1e-9);
    EXPECT_NEAR(m->zero->value, -0.01, 1e-9);
    EXPECT_EQ(m->valid_until, "2026-01-03T08:00:00Z");
    EXPECT_NE(m->sentence.find("wants cleaning"), std::string::npos);
}

TEST(CalibrateRefusal, ATiredElectrodeAnOldBufferAndOneFarOffDoNotPass) {
    EXPECT_FALSE(check_of(two_buffers(4.6, 7.0))->good);   // 80 %
    EXPECT_FALSE(check_of(two_buffers(4.7, 7.7))->good);   // zero 0.7 off
    EXPECT_FALSE(check_of(two_buffers(3.6, 7.0))->good);   // 113 %
    auto old = two_buffers(4.0, 7.0);
    old.buffers[1].expires = "2026-01-01";
    EXPECT_FALSE(check_of(old)->good);
    EXPECT_TRUE(check_of(old)->valid_until.empty());
    auto near = two_buffers(4.0, 4.6);
    near.buffers[1].printed_ph = 4.6;
    EXPECT_EQ(check_of(near).error().where, "buffers");
    near.buffers.clear();
    EXPECT_EQ(check_of(near).error().where, "buffers");
}

TEST(CalibrateProperty, AReadingIsTrustedFromItsCalibrationUntilADayLater) {
    const std::vector<MeterCheck> checks{*check_of(two_buffers(4.02, 7.0))};
    EXPECT_FALSE(trust_of_ph(4.2, "2026-01-02T07:59:59Z", checks).good);
    EXPECT_TRUE(trust_of_ph(4.2, "2026-01-02T08:00:00Z", checks).good);
    EXPECT_TRUE(trust_of_ph(4.2, "2026-01-03T08:00:00Z", checks).good);
    EXPECT_FALSE(trust_of_ph(4.2, "2026-01-03T08:00:01Z", checks).good);
    EXPECT_FALSE(trust_of_ph(9.5, "2026-01-02T09:00:00Z", checks).good) << "outside its buffers";
    EXPECT_FALSE(trust_of_ph(4.2, "2026-01-02T09:00:00Z", {}).good);
}

TEST(CalibrateProperty, DriftFoundAfterwardsTakesTheTrustBack) {
    Calibration check = two_buffers(0, 0);
    check.at = "2026-01-02T16:00:00Z";
    check.buffers = {{4.00, 4.25, "", ""}};
    std::vector<MeterCheck> checks{*check_of(two_buffers(4.0, 7.0)), *check_of(check)};
    EXPECT_FALSE(checks[1].good);
    EXPECT_FALSE(trust_of_ph(4.2, "2026-01-02T12:00:00Z", checks).good);
    EXPECT_FALSE(trust_of_ph(4.2, "2026-01-02T17:00:00Z", checks).good) << "and none until it is calibrated again";
    check.buffers[0].read = 4.05;
    checks[1] = *check_of(check);
    EXPECT_TRUE(trust_of_ph(4.2, "2026-01-02T12:00:00Z", checks).good);
    EXPECT_TRUE(trust_of_ph(4.2, "2026-01-02T17:00:00Z", checks).good);
}

}  // namespace
}  // namespace hw::desk
