// The safety card: over records in memory.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/protect_sentences.hpp"
#include "atlas/protect_stops.hpp"
#include "atlas/work_places.hpp"
#include "desk/protect.hpp"
#include "desk/digest.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_sheets.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/pdfs.hpp"

namespace hw::desk {
namespace {

class Protect : public ::testing::Test {
protected:
    Protect() {
        ports_.journal = &journal_;
        ports_.sheets = &sheets_;
        ports_.sheet_reader = &reader_;
        reader_.content.document = test::document_of(test::sheet_lines());
    }
    static PlannedItem item(const std::string& name, const std::string& substance, double pct, double ml, GoesOn way = GoesOn::Swab) {
        PlannedItem i;
        i.liquid.name = name;
        i.liquid.ingredients = {{substance, "", pct, std::nullopt, std::nullopt}};
        i.ml = ml;
        i.over_min = 15;
        i.goes_on = way;
        return i;
    }
    static ProtectRequest in(const std::string& place, std::vector<PlannedItem> items) {
        ProtectRequest r;
        r.place.key = place;
        r.items = std::move(items);
        return r;
    }
    ProtectAnswer card(const ProtectRequest& r) { return protect(r, ports_).value(); }
    static bool stops(const ProtectAnswer& a, const std::string& kind) {
        return std::any_of(a.stops.begin(), a.stops.end(), [&](const Stop& s) { return s.kind == kind; });
    }
    static bool says(const ProtectAnswer& a, const std::string& key) {
        return std::any_of(a.parts.begin(), a.parts.end(), [&](const SafetyPart& p) { return std::any_of(p.lines.begin(), p.lines.end(), [&](const SafetyLine& l) { return l.key == key; }); });
    }
    std::string refused(const ProtectRequest& r) {
        const auto a = protect(r, ports_);
        return a.ok() ? "not refused" : a.error().where;
    }

    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    test::MemorySheets sheets_;
    test::PlainSheetReader reader_;
    Ports ports_{store_, clock_};
};

class ProtectConsistency : public Protect {};
class ProtectProperty : public Protect {};
class ProtectRefusal : public Protect {};

TEST_F(ProtectConsistency, TenMillilitresOfAlcoholInAShutCarPassTheLimit) {
    const auto a = card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 10)}));
    ASSERT_EQ(a.air.vapours.size(), 1U);
    const auto& v = a.air.vapours[0];
    EXPECT_EQ(v.limit->ppm.value, 400);
    EXPECT_TRUE(a.air.over_limit);
    EXPECT_TRUE(a.air.over_closed);
    // 10 ml against the 3.8 ml of the budget; 3 m3 at 20 degC.
    EXPECT_NEAR(a.air.closed_of_limit.value, 10 / v.ml_to_limit->value, 1e-9);
    EXPECT_NEAR(v.ml_to_limit->value, 3.8, 0.1);
    EXPECT_LT(a.air.peak_of_limit.value, a.air.closed_of_limit.value);
    EXPECT_TRUE(a.stops.empty());
    for (const char* key : {"car_open", "car_swabs", "defer_srs", "waste_tin", "fire_car", "breath_over", "gloves_nobody"}) EXPECT_TRUE(says(a, key)) << key;
    EXPECT_NE(a.sentence.find("All doors open"), std::string::npos);
    // With the doors open the same swabs stay under it.
    EXPECT_FALSE(card(in("open_car", {item("Degreasing alcohol", "2-propanol", 100, 3)})).air.over_limit);
}

TEST_F(ProtectConsistency, AQuarterOfTheExplosiveLimitStopsInAShutCar) {
    EXPECT_TRUE(stops(card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 60)})), "could_ignite"));
    EXPECT_FALSE(stops(card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 40)})), "could_ignite"));
}

TEST_F(ProtectConsistency, AMixtureAddsUp) {
    const auto a = card(in("closed_car", {item("One", "2-propanol", 100, 2.5), item("Two", "n-butyl acetate", 100, 1.5)}));
    EXPECT_TRUE(a.air.over_closed);
    for (const auto& v : a.air.vapours) EXPECT_LT(v.closed_ppm.value, v.limit->ppm.value);
    ASSERT_TRUE(a.air.mixture_lel.has_value());
    EXPECT_GT(a.air.mixture_lel->value, 1.7);
    EXPECT_LT(a.air.mixture_lel->value, 2.0);
}

TEST_F(ProtectConsistency, TheShopsOwnLimitOutranksEveryTable) {
    OwnLimit own{"", "2-propanol", "67-63-0", "Here", "shift", std::nullopt, 500.0, "List of our authority", "2026-01-31"};
    ASSERT_TRUE(keep_own_limit(own, ports_).ok());
    auto a = card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 1)}));
    EXPECT_EQ(a.air.vapours[0].limit->where, "Here");
    EXPECT_NEAR(a.air.vapours[0].limit->ppm.value, 500 * 24.055 / 60.1, 0.1);  // R T / p at 20 degC by hand
    own.limit_mg_m3 = std::nullopt;
    own.id = store_.own_limits()->front().id;
    EXPECT_TRUE(keep_own_limit(own, ports_)->empty());
    a = card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 1)}));
    EXPECT_EQ(a.air.vapours[0].limit->ppm.value, 400);
}

TEST_F(ProtectConsistency, IsocyanateIsNeverSprayedInAHomeOrACar) {
    PlannedItem hardener = item("Hardener", "hexamethylene diisocyanate", 70, 20, GoesOn::Airbrush);
    for (const char* place : {"home_room", "closed_car", "open_car", "outdoors"}) EXPECT_TRUE(stops(card(in(place, {hardener})), "never_sprayed_here")) << place;
    EXPECT_TRUE(stops(card(in("workshop", {hardener})), "no_extraction"));
    ProtectRequest booth = in("workshop_extract", {hardener});
    auto a = card(booth);
    EXPECT_TRUE(stops(a, "ask_fire_authority"));
    EXPECT_TRUE(stops(a, "not_trained"));
    booth.place.sprinklers = Asked::Yes;
    booth.technician = {"Ada", "2025-05-01", clock_.now_utc().substr(0, 10), Asked::No};
    a = card(booth);
    EXPECT_TRUE(a.stops.empty());
    EXPECT_TRUE(says(a, "breath_air"));
    EXPECT_TRUE(says(a, "reentry"));
    // Laid on with a brush it is no stop, but the licence is named.
    hardener.goes_on = GoesOn::Brush;
    a = card(in("home_room", {hardener}));
    EXPECT_TRUE(a.stops.empty());
    EXPECT_TRUE(says(a, "defer_licence"));
}

TEST_F(ProtectConsistency, MethyleneChlorideAndUnlabelledBottlesStop) {
    EXPECT_TRUE(stops(card(in("outdoors", {item("Old stripper", "methylene chloride", 60, 5)})), "methylene_chloride"));
    PlannedItem unknown = item("?", "water", 1, 5);
    unknown.liquid.label_known = false;
    EXPECT_TRUE(stops(card(in("workshop", {unknown})), "no_label"));
}

TEST_F(ProtectConsistency, WhatMustNotMeetStopsAmongThePlannedOnes) {
    const auto a = card(in("workshop_extract", {item("Bleach", "sodium hypochlorite", 4, 50), item("Sour rinse", "citric acid", 2, 100)}));
    ASSERT_FALSE(a.stops.empty());
    EXPECT_EQ(a.stops.front().kind, "hypochlorite_with_acid");
}

TEST_F(ProtectConsistency, MouldAsksForHealthFirstAndKeepsTheSensitiveOut) {
    ProtectRequest r;
    r.job = SafetyJob::Mould;
    r.place.key = "home_room";
    r.mould = {0.3, Asked::No, Asked::No, Asked::No, 82.0};
    auto a = card(r);
    EXPECT_FALSE(a.ask_first.empty());
    EXPECT_EQ(a.sentence, a.ask_first);
    r.household.asthma = Asked::Yes;
    a = card(r);
    EXPECT_TRUE(a.stops.empty());
    EXPECT_TRUE(a.ask_first.empty());
    for (const char* key : {"people_sensitive_out", "breath_mould", "gloves_mould", "eyes_mould", "mould_dry", "mould_never_bleach", "mould_never_claim", "mould_air", "defer_biocide"}) EXPECT_TRUE(says(a, key)) << key;
    EXPECT_NE(a.mould_sentence.find("about 7 days"), std::string::npos) << a.mould_sentence;
    r.mould.area_m2 = 1.5;
    EXPECT_TRUE(stops(card(r), "refer_mould"));
    r.mould.area_m2 = 0.3;
    for (auto* bad : {&r.mould.hidden, &r.mould.sewage, &r.mould.air_ducts}) {
        *bad = Asked::Yes;
        EXPECT_TRUE(stops(card(r), "refer_mould"));
        *bad = Asked::No;
    }
    r.items = {item("Bleach", "sodium hypochlorite", 4, 50)};
    EXPECT_TRUE(stops(card(r), "bleach_on_mould"));
}

TEST_F(ProtectConsistency, AMeasuredClearingTimeOutranksTheAirChanges) {
    ProtectRequest r = in("workshop_extract", {item("Degreasing alcohol", "2-propanol", 100, 20)});
    r.place.clears_min = 5;
    r.place.air_changes_per_h = 1;
    const auto a = card(r);
    EXPECT_NEAR(a.air.clears_min->value, 5, 1e-9);
    EXPECT_EQ(a.place.air_changes.standing, Standing::Measured);
    EXPECT_NEAR(a.place.air_changes.value, 60 * std::log(100) / 5, 1e-9);
}

TEST_F(ProtectConsistency, UnknownMixingGivesTwoTimesAndTheLongerCounts) {
    ProtectRequest r = in("home_open", {item("Degreasing alcohol", "2-propanol", 100, 30)});
    const auto a = card(r);
    ASSERT_TRUE(a.air.back_home_min && a.air.back_home_least_min && a.air.clears_least_min);
    EXPECT_LT(a.air.back_home_least_min->value, a.air.back_home_min->value);
    EXPECT_NEAR(a.air.clears_min->value / a.air.clears_least_min->value, a.place.mixing.value, 1e-9);
    EXPECT_FALSE(a.note.stay_out.empty());
    // Whoever says how it mixes gets one time, and for whole mixing it is the shorter one.
    r.place.mixing_1 = 1;
    const auto told = card(r);
    EXPECT_FALSE(told.air.back_home_least_min || told.air.clears_least_min);
    EXPECT_NEAR(told.air.back_home_min->value, a.air.back_home_least_min->value, 1e-6);
    r.place.mixing_1 = std::nullopt;
    r.place.clears_min = 30;
    EXPECT_FALSE(card(r).air.back_home_least_min.has_value());
    // An open window is never slower than a shut one.
    EXPECT_LT(a.air.back_home_min->value, card(in("home_room", r.items)).air.back_home_min->value);
}

TEST_F(ProtectConsistency, TheSkinColumnOfTheLimitsReachesTheGloves) {
    EXPECT_TRUE(says(card(in("workshop", {item("Cleaner", "2-butoxyethanol", 10, 5)})), "gloves_skin"));
    EXPECT_FALSE(says(card(in("workshop", {item("Degreasing alcohol", "2-propanol", 100, 5)})), "gloves_skin"));
}

TEST_F(ProtectConsistency, WhatIsNotKnownIsSaidAndBounded) {
    const auto a = card(in("home_room", {item("Finish", "polymer of the house", 40, 100)}));
    EXPECT_FALSE(a.air.unknown.empty());
    EXPECT_NEAR(a.air.unknown_g->value, 40, 0.5);
    EXPECT_TRUE(says(a, "breath_unknown"));
    EXPECT_FALSE(says(a, "breath_none"));
}

TEST_F(ProtectConsistency, TheNewestSheetOfALiquidAndWhatWasTypedCount) {
    DigestRequest d;
    d.bytes = "SHEET";
    d.name = "sheet.pdf";
    d.keep = true;
    const auto sheet = digest(d, ports_).value();
    ASSERT_TRUE(correct_sheet({"c1", sheet.id, "ph", "12.3", CorrectedBy::Measured, "", ""}, ports_).ok());
    const auto liquid = shelve_sheet({sheet.id, ""}, ports_);
    ASSERT_TRUE(liquid.ok()) << liquid.error().message;
    Liquid by_id;
    by_id.id = liquid->id;
    const auto facts = product_facts(by_id, ports_).value();
    EXPECT_EQ(facts.sheet, sheet.id);
    EXPECT_EQ(fact_of(facts, "ph").said_by, SaidBy::Measured);
    EXPECT_EQ(fact_of(facts, "ph").value.substr(0, 4), "12.3");
    EXPECT_EQ(facts.ingredients.size(), 2U);
    EXPECT_FALSE(facts.nobody_says.empty());
    const auto& signal = fact_of(facts, "signal_word");
    EXPECT_EQ(signal.said_by, SaidBy::Sheet);
    EXPECT_GT(signal.page, 0);
    const Liquid bare{"", "Bare", "", {}, std::nullopt, true, Standing::Estimate, "", std::nullopt, std::nullopt, std::nullopt};
    const auto nothing = product_facts(bare, ports_).value();
    EXPECT_EQ(fact_of(nothing, "flash_point").said_by, SaidBy::Nobody);
    EXPECT_NE(nothing.sheet_sentence.find("No data sheet"), std::string::npos);
}

TEST(GlovesConsistency, AreReadInFourLanguagesWithTheirMinutes) {
    const auto en = gloves_in("Hands: nitrile gloves, thickness 0.4 mm, breakthrough time above 480 min (EN 374).\nEyes: goggles.", 3);
    ASSERT_EQ(en.size(), 1U);
    EXPECT_EQ(en[0].material, "nitrile");
    EXPECT_EQ(en[0].thickness_mm, 0.4);
    EXPECT_EQ(en[0].breakthrough_min, 480);
    EXPECT_TRUE(en[0].at_least);
    EXPECT_EQ(en[0].page, 3);
    const auto de = gloves_in("Handschutz: Schutzhandschuhe aus Butylkautschuk, 0,7 mm, Durchbruchzeit 120 min.", 2);
    ASSERT_EQ(de.size(), 1U);
    EXPECT_EQ(de[0].material, "butyl rubber");
    EXPECT_EQ(de[0].thickness_mm, 0.7);
    EXPECT_FALSE(de[0].at_least);
    EXPECT_EQ(gloves_in("Protection des mains : gants en caoutchouc naturel.", 1).at(0).material, "natural rubber");
    EXPECT_EQ(gloves_in("Guantes de nitrilo.", 1).at(0).material, "nitrile");
    EXPECT_TRUE(gloves_in("Hands: suitable protection. Eyes: goggles.", 1).empty());
    EXPECT_EQ(breathing_in("Eyes: goggles.\nBreathing: with poor ventilation a filter of type A-P2."), "Breathing: with poor ventilation a filter of type A-P2.");
}

TEST(GlovesConsistency, EachMaterialHasItsOwnNumbersAndWhatDoesNotSuitIsNotNamed) {
    const auto two = gloves_in("Gloves: butyl 0.7 mm, > 480 min; nitrile > 0.4 mm, 30 min.", 1);
    ASSERT_EQ(two.size(), 2U);
    EXPECT_EQ(two[0].thickness_mm, 0.7);
    EXPECT_EQ(two[0].breakthrough_min, 480);
    EXPECT_TRUE(two[0].at_least);
    EXPECT_EQ(two[1].material, "nitrile");
    EXPECT_EQ(two[1].thickness_mm, 0.4);
    EXPECT_EQ(two[1].breakthrough_min, 30);
    EXPECT_FALSE(two[1].at_least) << "the sign stands before the thickness";
    EXPECT_EQ(gloves_in("Nitrile gloves, 10–30 min.", 1).at(0).breakthrough_min, 10) << "the lower end";
    EXPECT_FALSE(gloves_in("Nitrile gloves, < 10 min.", 1).at(0).breakthrough_min.has_value());
    EXPECT_TRUE(gloves_in("Gloves of natural rubber are not suitable.", 1).empty());
    EXPECT_TRUE(gloves_in("Schutzhandschuhe aus Naturkautschuk sind ungeeignet.", 1).empty());
    const auto one = gloves_in("Butyl gloves, 120 min; natural rubber is not recommended.", 1);
    ASSERT_EQ(one.size(), 1U);
    EXPECT_EQ(one[0].material, "butyl rubber");
}

TEST_F(ProtectProperty, EveryStopOfALiquidHoldsInEveryJob) {
    PlannedItem nameless = item("?", "water", 1, 5);
    nameless.liquid.label_known = false;
    const std::vector<std::pair<std::string, PlannedItem>> all{{"could_ignite", item("Degreasing alcohol", "2-propanol", 100, 60)},
                                                               {"methylene_chloride", item("Old stripper", "methylene chloride", 60, 5)},
                                                               {"never_sprayed_here", item("Hardener", "hexamethylene diisocyanate", 70, 20, GoesOn::Airbrush)},
                                                               {"no_label", nameless}};
    for (const auto job : {SafetyJob::Liquids, SafetyJob::Mould, SafetyJob::Dust})
        for (const auto& [kind, planned] : all) {
            ProtectRequest r = in("closed_car", {planned});
            r.job = job;
            const auto a = card(r);
            EXPECT_TRUE(stops(a, kind)) << kind << " in job " << static_cast<int>(job);
            EXPECT_TRUE(says(a, "gloves_standard")) << kind;
            EXPECT_FALSE(says(a, "breath_none")) << kind;
        }
}

TEST_F(ProtectConsistency, ADayToComeProvesNoTrainingAndABoothWithoutAirIsNone) {
    ProtectRequest booth = in("workshop_extract", {item("Hardener", "hexamethylene diisocyanate", 70, 20, GoesOn::Airbrush)});
    booth.place.sprinklers = Asked::Yes;
    const std::string today = clock_.now_utc().substr(0, 10);
    booth.technician = {"Ada", today, "2099-01-01", Asked::No};
    EXPECT_TRUE(stops(card(booth), "not_trained"));
    booth.technician = {"Ada", "2099-01-01", today, Asked::No};
    EXPECT_TRUE(stops(card(booth), "not_trained"));
    booth.technician = {"Ada", today, today, Asked::No};
    EXPECT_TRUE(card(booth).stops.empty());
    booth.place.air_changes_per_h = 0;
    EXPECT_TRUE(stops(card(booth), "no_extraction"));
}

TEST_F(ProtectConsistency, AnUpperEndIsNotThinnedByTheRangesBesideIt) {
    // 80 ml in 3 m3: alone it is over a quarter of the explosive limit; water that may be anything takes nothing from that.
    PlannedItem wide = item("Spirit", "ethanol", 60, 80);
    wide.liquid.ingredients[0].content_to_pct = 100;
    EXPECT_TRUE(stops(card(in("closed_car", {wide})), "could_ignite"));
    wide.liquid.ingredients.push_back({"water", "", 0.1, std::nullopt, std::nullopt});
    wide.liquid.ingredients[1].content_to_pct = 100;
    const auto a = card(in("closed_car", {wide}));
    EXPECT_TRUE(stops(a, "could_ignite"));
    EXPECT_EQ(a.air.vapours.size(), 1U);
}

TEST_F(ProtectConsistency, PastTenTimesTheLimitNoHalfMaskIsOffered) {
    const auto much = card(in("closed_car", {item("Ammonia", "ammonia", 10, 500)}));
    EXPECT_TRUE(stops(much, "beyond_mask"));
    EXPECT_FALSE(says(much, "breath_vapour"));
    EXPECT_FALSE(stops(card(in("closed_car", {item("Degreasing alcohol", "2-propanol", 100, 10)})), "beyond_mask"));
}

TEST_F(ProtectConsistency, WhatHasNoLimitIsNotSaidToNeedNoMask) {
    const auto a = card(in("closed_car", {item("Orange oil", "d-limonene", 95, 10)}));
    ASSERT_EQ(a.air.vapours.size(), 1U);
    EXPECT_FALSE(a.air.vapours[0].limit || a.air.vapours[0].short_limit);
    EXPECT_TRUE(says(a, "breath_not_judged"));
    EXPECT_FALSE(says(a, "breath_none"));
    EXPECT_FALSE(says(card(in("outdoors", {item("Degreasing alcohol", "2-propanol", 100, 10)})), "breath_none")) << "nothing is computed outdoors";
    EXPECT_TRUE(says(card(in("home_open", {item("Degreasing alcohol", "2-propanol", 100, 1)})), "breath_none"));
    // A ceiling alone is a limit.
    ASSERT_TRUE(keep_own_limit({"", "d-limonene", "5989-27-5", "Here", "ceiling", 5.0, std::nullopt, "List of our authority", "2026-01-31"}, ports_).ok());
    const auto held = card(in("closed_car", {item("Orange oil", "d-limonene", 95, 10)}));
    EXPECT_TRUE(held.air.over_limit);
    EXPECT_EQ(held.air.sentence.find("No limit was found"), std::string::npos) << held.air.sentence;
    EXPECT_NE(held.air.sentence.find("worst 15 minutes"), std::string::npos) << held.air.sentence;
}

TEST_F(ProtectConsistency, WhatNobodyKnowsCountsAsFlammable) {
    const auto a = card(in("closed_car", {item("Thinner", "xylene of some kind", 95, 300)}));
    EXPECT_TRUE(says(a, "fire_unknown"));
    EXPECT_FALSE(says(a, "fire_none"));
}

TEST_F(ProtectProperty, EveryAskedPersonIsOnTheCardAndOnTheNote) {
    ProtectRequest r = in("home_room", {item("Degreasing alcohol", "2-propanol", 70, 20)});
    EXPECT_FALSE(card(r).ask_first.empty());
    auto& h = r.household;
    h.asthma = h.pregnancy = h.children = h.pets = h.birds = h.allergies = h.sleeps_there = Asked::Yes;
    const auto a = card(r);
    EXPECT_TRUE(a.ask_first.empty());
    for (const char* key : {"people_asthma", "people_pregnant", "people_children", "people_pets", "people_birds", "people_allergy", "people_sleep"}) EXPECT_TRUE(says(a, key)) << key;
    EXPECT_GE(a.note.stay_out.size(), 7U);
}

TEST_F(ProtectProperty, NothingOnTheCardPromisesOrNamesAHomeRemedy) {
    const auto small = [](std::string s) {
        std::transform(s.begin(), s.end(), s.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
        return s;
    };
    const auto harmless = [&](const std::string& text) {
        for (const char* never : {"non-toxic", "perfectly safe", "will be fine", "like new", "100 %", "guarantee", "harmless"}) EXPECT_EQ(small(text).find(never), std::string::npos) << text;
    };
    for (const auto& row : atlas::protect_sentences) harmless(std::string(row.sentence));
    for (const auto& row : atlas::protect_stops) harmless(std::string(row.headline) + std::string(row.do_now) + std::string(row.never));
}

TEST_F(ProtectProperty, MoreLiquidIsNeverBetterAndMoreAirNeverWorse) {
    double last = 0;
    for (const double ml : {1.0, 3.0, 10.0, 30.0}) {
        const auto a = card(in("home_room", {item("Degreasing alcohol", "2-propanol", 100, ml)}));
        EXPECT_GT(a.air.peak_of_limit.value, last);
        last = a.air.peak_of_limit.value;
    }
    last = std::numeric_limits<double>::infinity();
    for (const double changes : {0.0, 0.5, 2.0, 20.0}) {
        ProtectRequest r = in("home_room", {item("Degreasing alcohol", "2-propanol", 100, 30)});
        r.place.air_changes_per_h = changes;
        const auto a = card(r);
        EXPECT_LT(a.air.peak_of_limit.value, last);
        last = a.air.peak_of_limit.value;
        EXPECT_EQ(a.air.clears_min.has_value(), changes > 0);
    }
}

TEST_F(ProtectRefusal, NamesTheField) {
    EXPECT_EQ(refused(in("cellar", {item("A", "2-propanol", 10, 1)})), "place.key");
    EXPECT_EQ(refused(in("workshop", {})), "items");
    auto both = item("A", "2-propanol", 10, 1);
    both.grams = 2;
    EXPECT_EQ(refused(in("workshop", {both})), "items[0].ml");
    auto neither = item("A", "2-propanol", 10, 1);
    neither.ml = std::nullopt;
    EXPECT_EQ(refused(in("workshop", {neither})), "items[0].ml");
    auto box = in("workshop", {item("A", "2-propanol", 10, 1)});
    box.place.length_m = 3;
    EXPECT_EQ(refused(box), "place.length_m");
    box.place.length_m = std::nullopt;
    box.place.air_c = 90;
    EXPECT_EQ(refused(box), "place.air_c");
    PlannedItem gone;
    gone.liquid.id = "not-there";
    gone.ml = 1;
    EXPECT_EQ(refused(in("workshop", {gone})), "items[0].liquid.id");
}

TEST_F(ProtectRefusal, AnOwnLimitNeedsItsSource) {
    const OwnLimit good{"", "2-propanol", "67-63-0", "Here", "shift", 200.0, std::nullopt, "List", "2026-01-31"};
    const auto refused_limit = [&](const OwnLimit& l) { const auto r = keep_own_limit(l, ports_); return r.ok() ? std::string("kept") : r.error().where; };
    OwnLimit l = good;
    l.cas = "67-63-1";
    EXPECT_EQ(refused_limit(l), "cas");
    l = good;
    l.limit_mg_m3 = 1;
    EXPECT_EQ(refused_limit(l), "limit_mg_m3");
    l = good;
    l.span = "week";
    EXPECT_EQ(refused_limit(l), "span");
    l = good;
    l.jurisdiction.clear();
    EXPECT_EQ(refused_limit(l), "jurisdiction");
    l = good;
    l.source.clear();
    EXPECT_EQ(refused_limit(l), "source");
    l = good;
    l.dated = "last year";
    EXPECT_EQ(refused_limit(l), "dated");
    l = good;
    l.limit_ppm = std::nullopt;
    EXPECT_EQ(refused_limit(l), "limit_ppm");
    EXPECT_EQ(refused_limit(good), "kept");
}

}  // namespace
}  // namespace hw::desk
