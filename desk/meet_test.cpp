// What must never meet: together, in sequence, on the shelf, on the record of a piece.
#include "desk/meet.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "atlas/incompatible.hpp"
#include "desk/demo.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

Liquid of(const std::string& ingredient, double pct = 2) {
    Liquid l;
    l.name = ingredient;
    l.ingredients = {{ingredient, "", pct, std::nullopt, std::nullopt}};
    return l;
}
Liquid water() {
    Liquid l;
    l.name = "Clean water";
    l.family = "water";
    return l;
}
Liquid unlabelled() {
    Liquid l;
    l.label_known = false;
    return l;
}

class Meet : public ::testing::Test {
protected:
    MeetAnswer together(const std::vector<Liquid>& all) {
        MeetRequest r;
        for (const auto& l : all) r.things.push_back({l, 0, 0, 60, 0});
        return meet(r, ports_).value();
    }
    MeetAnswer after(const Liquid& first, double wiped_pct, int rinses, double hours, const Liquid& second) {
        MeetRequest r;
        r.things = {{first, wiped_pct, rinses, 60, hours}, {second, 0, 0, 60, 0}};
        return meet(r, ports_).value();
    }
    /// The rules that stop, whatever order and names.
    static std::set<std::string> stops(const MeetAnswer& a) {
        std::set<std::string> out;
        for (const auto& m : a.meetings)
            if (m.severity == "stop") out.insert(m.basis.inputs);
        return out;
    }

    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    Ports ports_{store_, clock_};
};

using MeetProperty = Meet;
using MeetRefusal = Meet;

TEST_F(MeetProperty, TwoOfTheDemoStopInBothOrdersOrInNeither) {
    const auto shelf = demo_liquids();
    int stopped = 0;
    for (const auto& a : shelf)
        for (const auto& b : shelf) {
            const auto one = together({a, b}), other = together({b, a});
            EXPECT_EQ(stops(one), stops(other)) << a.name << ", " << b.name;
            EXPECT_EQ(one.stop.has_value(), !stops(one).empty());
            stopped += one.stop ? 1 : 0;
        }
    EXPECT_GT(stopped, 20);
    EXPECT_LT(stopped, static_cast<int>(shelf.size() * shelf.size()));
}

TEST_F(MeetProperty, OneMoreNeverTakesAStopAwayAndOrderOfWhatIsTogetherDoesNotMatter) {
    auto shelf = demo_liquids();
    shelf.resize(18);
    std::vector<Liquid> grown;
    std::set<std::string> before;
    for (const auto& l : shelf) {
        grown.push_back(l);
        const auto now = stops(together(grown));
        EXPECT_TRUE(std::includes(now.begin(), now.end(), before.begin(), before.end())) << l.name;
        before = now;
    }
    EXPECT_FALSE(before.empty());
    std::reverse(grown.begin(), grown.end());
    EXPECT_EQ(stops(together(grown)), before);
}

TEST_F(MeetProperty, AnUnknownBottleStopsWithEveryAcidAndAmmoniaAndWithAnotherUnknownButNotWithWater) {
    for (const char* other : {"acetic acid", "citric acid", "lactic acid", "ammonia", "monoethanolamine", "urea", "ethanol", "acetone", "hydrogen peroxide", "sodium sulfite", "sodium sulfide", "sodium hypochlorite"}) {
        const auto a = together({unlabelled(), of(other)});
        ASSERT_TRUE(a.stop) << other;
        EXPECT_TRUE(a.meetings.front().from_unknown) << other;
    }
    EXPECT_TRUE(together({unlabelled(), unlabelled()}).stop);
    EXPECT_FALSE(together({unlabelled(), water()}).stop);
}

TEST_F(MeetProperty, WaterStopsNothing) {
    for (const auto& l : demo_liquids()) {
        EXPECT_EQ(stops(together({l, water()})), stops(together({l}))) << l.name;
        EXPECT_EQ(stops(together({water(), l})), stops(together({l}))) << l.name;
    }
}

TEST_F(MeetProperty, ARinseTakesOnlyWhatItCan) {
    const Liquid bleach = of("sodium hypochlorite"), vinegar = of("acetic acid", 5);
    // Bleach counts until it is rinsed away and has been dry for a day; either alone is not enough.
    EXPECT_TRUE(after(bleach, 0, 0, 0, vinegar).stop);
    EXPECT_TRUE(after(bleach, 50, 3, 0, vinegar).stop);
    EXPECT_TRUE(after(bleach, 50, 10, 0, vinegar).stop);
    EXPECT_TRUE(after(bleach, 0, 0, 72, vinegar).stop);
    EXPECT_FALSE(after(bleach, 50, 10, 72, vinegar).stop);
    // An acid rinsed to less than a hundredth no longer counts, dry or not.
    EXPECT_TRUE(after(vinegar, 50, 1, 0, bleach).stop);
    EXPECT_FALSE(after(vinegar, 50, 8, 0, bleach).stop);
    double before = 101;
    for (int rinses = 0; rinses < 8; ++rinses) {
        const double left = after(vinegar, 0, rinses, 1, water()).there.front().left_pct;
        EXPECT_LT(left, before);
        before = left;
    }
}

TEST_F(MeetProperty, WhatMetStaysMetWhateverIsRinsedLater) {
    MeetRequest r;
    r.things = {{of("sodium hypochlorite"), 0, 0, 60, 0}, {of("acetic acid", 5), 99, 20, 60, 1000}, {water(), 0, 0, 60, 0}};
    const auto a = meet(r, ports_).value();
    EXPECT_TRUE(a.stop);
    ASSERT_EQ(a.there.size(), 3u);
    for (std::size_t i = 0; i < 2; ++i) EXPECT_LT(a.there[i].left_pct, 1e-3) << a.there[i].name;
}

TEST_F(Meet, StopsArePeopleFirstAndSayWhoSaysSo) {
    const auto a = together({of("sodium hypochlorite"), of("citric acid")});
    ASSERT_TRUE(a.stop);
    EXPECT_EQ(a.sentence.rfind("Stop. ", 0), 0u);
    EXPECT_NE(a.stop->do_now.front().find("People first"), std::string::npos);
    EXPECT_FALSE(a.stop->basis.source.empty());
    EXPECT_EQ(a.meetings.front().gives, "chlorine gas");
    for (const auto& m : a.meetings) EXPECT_FALSE(m.basis.locator.empty());
}

TEST_F(Meet, AcidAndAlkaliInOneBottleHaveMetAlready) {
    Liquid both = of("sodium hydroxide");
    both.ingredients.push_back({"citric acid", "", 1.0, std::nullopt, std::nullopt});
    EXPECT_TRUE(together({both}).meetings.empty());
    EXPECT_FALSE(together({of("sodium hydroxide"), of("citric acid")}).meetings.empty());
}

TEST_F(Meet, TheLeatherHasItsOwnCautions) {
    MeetRequest r;
    r.things = {{of("hydrogen peroxide", 6), 0, 0, 60, 0}};
    r.tannage = "vegetable";
    EXPECT_EQ(meet(r, ports_).value().leather.size(), 1u);
    r.tannage = "chrome";
    EXPECT_TRUE(meet(r, ports_).value().leather.empty());
    EXPECT_FALSE(together({of("hydrogen peroxide", 6), of("linseed oil", 50)}).meetings.empty());
}

TEST_F(Meet, TheRecordOfAPanelCameBefore) {
    ports_.journal = &journal_;
    PieceRow row;
    row.id = "p1";
    row.name = "Armchair";
    Entry made;
    made.id = "e0";
    made.did = Did::MakeUp;
    made.at = clock_.now_utc();
    made.make_up = MakeUp{"Armchair", "armchair", {}, {}, ""};
    Entry e;
    e.id = "e1";
    e.did = Did::Laid;
    e.at = clock_.now_utc();
    e.laid = Laid{{"seat"}, of("sodium hypochlorite"), 30, 60, 0, ""};
    ASSERT_TRUE(journal_.append(row, {{1, "", made}, {2, "", e}}).ok());
    MeetRequest r;
    r.piece = "p1";
    r.panel = "seat";
    r.things = {{of("acetic acid", 5), 0, 0, 60, 0}};
    EXPECT_TRUE(meet(r, ports_).value().stop);
    r.panel = "back";
    EXPECT_FALSE(meet(r, ports_).value().stop);
    r.panel.clear();
    EXPECT_EQ(meet(r, ports_).error().where, "panel");
    r.panel = "seat";
    r.piece = "nowhere";
    EXPECT_EQ(meet(r, ports_).error().where, "piece");
}

TEST_F(Meet, TheShelfTellsEveryRuleWithBothSidesAndWhereToKeepThem) {
    const auto shelf = demo_liquids();
    const auto m = meetings_of(shelf);
    ASSERT_FALSE(m.rules.empty());
    EXPECT_EQ(m.rules.front().severity, "stop");
    // Every stop between two of the shelf is one of its rules, and the other way round.
    std::set<std::string> pairs, told;
    for (const auto& a : shelf)
        for (const auto& b : shelf)
            for (const auto& s : stops(together({a, b}))) pairs.insert(s);
    for (const auto& r : m.rules)
        if (r.severity == "stop") told.insert(r.basis.inputs);
    EXPECT_EQ(pairs, told);
    EXPECT_TRUE(std::any_of(m.storage.begin(), m.storage.end(), [](const StorageAdvice& s) { return s.name == "without a label"; }));
    EXPECT_TRUE(meetings_of({}).rules.empty());
    EXPECT_TRUE(meetings_of({water(), of("sodium chloride")}).rules.empty());
}

TEST(MeetConsistency, EveryPairOfTheTableOfRulesStandsInTheAtlasWithItsWeight) {
    struct Rule {
        const char *a, *b, *severity;
    };
    const std::vector<Rule> wanted{{"hypochlorite", "acid", "stop"}, {"hypochlorite", "ammonia", "stop"}, {"hypochlorite", "amine", "stop"}, {"hypochlorite", "urea", "stop"}, {"hypochlorite", "quaternary", "caution"},
                                   {"hypochlorite", "alcohol", "stop"}, {"hypochlorite", "solvent", "stop"}, {"hypochlorite", "fragrance", "caution"}, {"hypochlorite", "peroxide", "stop"}, {"hypochlorite", "sulfite", "stop"},
                                   {"peroxide", "acid", "caution"}, {"sulfite", "acid", "stop"}, {"sulfide", "acid", "stop"}, {"strong alkali", "acid", "caution"}, {"strong alkali", "ammonia", "caution"}, {"carbonate", "acid", "note"},
                                   {"quaternary", "anionic surfactant", "note"}, {"soap", "quaternary", "note"}, {"soap", "water hardness", "note"}, {"soap", "acid", "note"}, {"peroxide", "drying oil", "caution"}};
    for (const auto& w : wanted) {
        const auto row = std::find_if(atlas::incompatible.begin(), atlas::incompatible.end(), [&](const auto& r) { return (r.class_a == w.a && r.class_b == w.b) || (r.class_a == w.b && r.class_b == w.a); });
        ASSERT_NE(row, atlas::incompatible.end()) << w.a << " with " << w.b;
        EXPECT_EQ(row->severity, w.severity) << w.a << " with " << w.b;
        EXPECT_FALSE(row->source.empty());
    }
}

TEST_F(MeetRefusal, NamesTheField) {
    MeetRequest r;
    EXPECT_EQ(meet(r, ports_).error().where, "things");
    r.things.resize(1);
    r.things[0].liquid.id = "nowhere";
    EXPECT_EQ(meet(r, ports_).error().where, "things[0].liquid.id");
    r.things[0] = {water(), 0, 99, 60, 0};
    EXPECT_EQ(meet(r, ports_).error().where, "things[0].rinses");
    r.things[0] = {water(), 0, 0, 60, 0};
    r.tannage = "stone";
    EXPECT_EQ(meet(r, ports_).error().where, "tannage");
    r.things.assign(21, {water(), 0, 0, 60, 0});
    EXPECT_EQ(meet(r, ports_).error().where, "things");
}

}  // namespace
}  // namespace hw::desk
