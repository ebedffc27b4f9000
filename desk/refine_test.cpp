#include "desk/refine.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "desk/happening.hpp"
#include "desk/known.hpp"
#include "desk/next_best.hpp"
#include "desk/inspect.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

struct Desk {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
};

Ingredient part(const char* name, double pct) { return {name, "", pct, std::nullopt, std::nullopt}; }

Look look(const char* kind, double value, double at_h = 0) {
    Look l;
    l.kind = kind;
    l.value_1 = value;
    l.at_h = at_h;
    return l;
}

/// The club chair: 40 g of an alkaline concentrate on both arm tops, wiped once, read three days later.
RefineRequest club_chair(double grams = 40) {
    RefineRequest r;
    r.happened.liquid.name = "counter concentrate";
    r.happened.liquid.ingredients = {part("sodium carbonate", 0.5)};  // 0.1 mol/kg of alkali, some 0.4 g NaOH in 100 g
    r.happened.leather.leather_class = "aniline";
    r.happened.leather.tannage = "chrome";
    r.happened.use.dose = {Amount::Grams, grams, 1800};
    r.happened.use.dwell_s = 480;
    r.happened.use.wiped_off_pct = 20;
    r.now_h = 72;
    r.readings = {look("surface_ph", 7.6, 72), look("control_ph", 4.6)};
    r.members = 64;
    return r;
}

RefineAnswer refined(const RefineRequest& r) {
    Desk d;
    auto a = refine(r, d.ports);
    if (!a.ok()) throw Bug(a.error().where + ": " + a.error().message);
    return *a;
}

Error refusal(const RefineRequest& r) {
    Desk d;
    auto a = refine(r, d.ports);
    if (a.ok()) throw Bug("it was answered: " + a->sentence);
    return a.error();
}

const Change& change(const RefineAnswer& a, std::string_view key) {
    for (const auto& c : a.changes)
        if (c.key == key) return c;
    throw Bug("no change " + std::string(key));
}

double width(const Band& b) { return b.high_90 - b.low_90; }

TEST(RefineProperty, TheClubChairFitsWhatWasToldAndItsReadingsNarrowIt) {
    const auto a = refined(club_chair());
    EXPECT_TRUE(a.misfits.empty()) << a.misfits.front().sentence;
    for (const auto& r : a.readings) EXPECT_TRUE(r.fits) << r.sentence;
    EXPECT_LT(width(change(a, "left").after), width(change(a, "left").before));
    EXPECT_LT(width(change(a, "start_ph").after), width(change(a, "start_ph").before));
    // Without a buffer to speak of the amount is quoted, not digits of pH.
    EXPECT_NE(change(a, "surface_now").sentence.find("mmol/m²"), std::string::npos) << change(a, "surface_now").sentence;
    ASSERT_EQ(a.readings.size(), 2u);
    EXPECT_EQ(a.readings[0].kind, "surface_ph");
    EXPECT_FALSE(a.next_sentence.empty());
    EXPECT_FALSE(a.fans.empty());
    double sum = 0;
    for (const auto& c : a.chances_after) sum += c.share_1;
    EXPECT_NEAR(sum, 1, 1e-9);
}

TEST(RefineProperty, ATenthOfTheDoseToldDoesNotFitTheReadingAndSaysThatMoreWasUsed) {
    const auto a = refined(club_chair(4));
    ASSERT_FALSE(a.misfits.empty());
    const Misfit& m = a.misfits.front();
    EXPECT_NE(m.sentence.find("do not fit"), std::string::npos);
    EXPECT_NE(m.sentence.find("amount that was told"), std::string::npos) << m.sentence << " " << m.basis.inputs;
    ASSERT_FALSE(m.may_mean.empty());
    EXPECT_NE(m.may_mean.front().find("more was used"), std::string::npos);
    EXPECT_NE(a.how_sure.find("Not to be relied on"), std::string::npos);
    EXPECT_TRUE(a.weighing.rejuvenated) << "it is named although tempering found cases that fit";
}

TEST(RefineProperty, TheOrderOfReadingsCannotMatter) {
    RefineRequest r = club_chair();
    r.members = 32;
    r.readings.push_back(look("thickness", 1.3));
    r.readings.push_back(look("weight_used", 44));
    r.readings.push_back(look("surface_ph", 7.4, 71));
    const auto a = refined(r);
    std::reverse(r.readings.begin(), r.readings.end());
    const auto b = refined(r);
    ASSERT_EQ(a.changes.size(), b.changes.size());
    for (std::size_t i = 0; i < a.changes.size(); ++i) {
        EXPECT_EQ(a.changes[i].sentence, b.changes[i].sentence);
        EXPECT_EQ(a.changes[i].after.median, b.changes[i].after.median);  // to the bit
        EXPECT_EQ(a.changes[i].after.low_90, b.changes[i].after.low_90);
    }
    for (std::size_t i = 0; i < a.readings.size(); ++i) {
        const auto& same = b.readings[a.readings.size() - 1 - i];
        EXPECT_EQ(a.readings[i].kind, same.kind) << "told in the order given";
        EXPECT_EQ(a.readings[i].surprise_1, same.surprise_1);
    }
    EXPECT_EQ(a.weighing.effective, b.weighing.effective);
    EXPECT_EQ(a.how_sure, b.how_sure);
    ASSERT_EQ(a.next.size(), b.next.size());
    for (std::size_t i = 0; i < a.next.size(); ++i) EXPECT_EQ(a.next[i].saved_min, b.next[i].saved_min);
}

TEST(RefineProperty, WhatIsToldAloneIsSaidSo) {
    RefineRequest r = club_chair();
    r.readings.clear();
    const auto a = refined(r);
    EXPECT_TRUE(a.readings.empty());
    EXPECT_NE(a.how_sure.find("Nothing was read"), std::string::npos);
    for (const auto& c : a.changes) EXPECT_DOUBLE_EQ(c.before.median, c.after.median) << c.key;
}

TEST(RefineProperty, AWeightNarrowsTheAmountAndIsHeldAgainstTheStory) {
    RefineRequest r = club_chair();
    r.readings = {look("weight_used", 42)};
    const auto a = refined(r);
    EXPECT_TRUE(a.readings[0].fits);
    EXPECT_LT(width(change(a, "dose").after), 0.6 * width(change(a, "dose").before));
    r.readings = {look("weight_used", 500)};
    const auto b = refined(r);
    EXPECT_FALSE(b.readings[0].fits);
    ASSERT_FALSE(b.misfits.empty());
    EXPECT_NE(b.misfits.front().sentence.find("amount that was told"), std::string::npos);
}

TEST(RefineProperty, AProductReadsAgainstItsSheet) {
    RefineRequest r = club_chair();
    r.readings = {look("product_ph", 11.3)};
    const auto fits = refined(r);
    EXPECT_TRUE(fits.readings[0].fits) << fits.readings[0].sentence;
    r.readings = {look("product_ph", 7.5)};
    const auto other = refined(r);
    EXPECT_FALSE(other.readings[0].fits) << other.readings[0].sentence;
    ASSERT_FALSE(other.misfits.empty());
    EXPECT_NE(other.misfits.front().sentence.find("label"), std::string::npos) << other.misfits.front().sentence;
}

TEST(RefineProperty, DropsCountTheAlkaliThatTheProductHolds) {
    // 1 mL of 0.1 mol/kg alkali takes 0.1 mmol of acid and a little over: 5 % acetic acid is 0.83 mol/L, so some 0.12 to 0.14 mL.
    RefineRequest r = club_chair();
    Look drops = look("product_drops", 3);
    drops.drops = DropCount{};
    r.readings = {drops};
    const auto a = refined(r);
    EXPECT_TRUE(a.readings[0].fits) << a.readings[0].sentence;
    EXPECT_GT(a.readings[0].expected_before.median, 2);
    EXPECT_LT(a.readings[0].expected_before.median, 4);
    r.readings[0].value_1 = 30;
    EXPECT_FALSE(refined(r).readings[0].fits);
}

TEST(RefineProperty, WhereNothingWasLaidThePlaceIsReadAgainstTheRest) {
    RefineRequest r = club_chair();
    r.nothing_laid = true;
    r.happened.liquid = Liquid{};
    r.happened.leather.leather_class = "pigmented_furniture";
    r.readings = {look("surface_ph", 3.3, 72), look("control_ph", 4.7)};
    const auto a = refined(r);
    EXPECT_TRUE(a.misfits.empty()) << a.misfits.front().sentence;
    EXPECT_TRUE(std::none_of(a.changes.begin(), a.changes.end(), [](const Change& c) { return c.key == "dose" || c.key == "left"; }));
    EXPECT_LT(change(a, "surface_now").after.median, change(a, "start_ph").after.median - 0.5);
    EXPECT_TRUE(std::any_of(a.cautions.begin(), a.cautions.end(), [](const std::string& c) { return c.find("not published") != std::string::npos; }));
    EXPECT_TRUE(a.chances_after.empty()) << "no rate law: nothing is computed from use";
}

TEST(RefineProperty, APassOfWaterTakesResidueOffAFinish) {
    RefineRequest r = club_chair();
    r.happened.leather.leather_class = "coated";
    r.readings.clear();
    r.now_h = 30;
    const double before = change(refined(r), "left").after.median;
    Pass pass;
    pass.liquid.name = "water";
    pass.liquid.family = "water";
    pass.g_m2 = 30;
    pass.blotted_pct = 60;
    pass.at_h = 24;
    r.passes = {pass, pass};
    r.passes[1].at_h = 26;
    const auto rinsed = refined(r);
    EXPECT_LT(change(rinsed, "left").after.median, 0.8 * before);
    // What the first blotter holds conducts more than what the second does.
    r.readings = {look("rinse_conductivity", 900), look("rinse_conductivity", 300)};
    r.readings[0].pass = 1;
    r.readings[1].pass = 2;
    const auto a = refined(r);
    EXPECT_GT(a.readings[0].expected_before.median, a.readings[1].expected_before.median);
}

TEST(RefineProperty, ReadingsOfThePanelAreTakenAsTheyWereTimedAndOnlyWithACalibration) {
    Desk d;
    test::MemoryJournal journal;
    d.ports.journal = &journal;
    auto entry = [n = 0](Did did) mutable {
        Entry e;
        e.id = "0190bbbb-0000-7000-8000-00000000000" + std::to_string(++n);
        e.at = "2026-01-02T01:04:05Z";  // two hours before the clock of these tests
        e.device = "bench";
        e.did = did;
        return e;
    };
    Entry made = entry(Did::MakeUp), facts = entry(Did::Panels), thickness = entry(Did::Reading), ph = entry(Did::Reading);
    made.make_up = MakeUp{"Armchair", "armchair", {}, {}, ""};
    facts.facts = PanelFacts{{"SC1-top"}, "aniline", "chrome", Wear::Light, Exposure::Seat};
    thickness.reading = Reading{"thickness", "SC1-top", "edge", {1.4, 1.4, 1.4}, std::nullopt, "", ""};
    ph.reading = Reading{"surface_ph", "SC1-top", "front edge", {7.6}, 4.6, "", ""};
    const std::string piece = "0190aaaa-0000-7000-8000-000000000001";
    ASSERT_TRUE(inspect({piece, {made, facts, thickness, ph}}, d.ports).ok());
    RefineRequest r = club_chair();
    r.readings.clear();
    r.happened.leather = Leather{};
    r.piece = piece;
    r.panel = "SC1-top";
    const auto a = refine(r, d.ports);
    ASSERT_TRUE(a.ok()) << a.error().message;
    ASSERT_EQ(a->readings.size(), 1u) << "the pH has no calibration behind it";
    EXPECT_EQ(a->readings[0].kind, "thickness");
    EXPECT_TRUE(std::any_of(a->reasons.begin(), a->reasons.end(), [](const Reason& x) { return x.kind == "not_trusted"; }));
    r.panel = "SC9-top";
    EXPECT_EQ(refine(r, d.ports).error().where, "panel");
}

TEST(KnownConsistency, MembersAreEqualAndCoursesEndNow) {
    Desk d;
    const auto k = known_by(club_chair(), d.ports);
    ASSERT_TRUE(k.ok());
    EXPECT_EQ(k->members.size(), 64u);
    EXPECT_EQ(k->courses.size(), k->members.size());
    EXPECT_EQ(k->u.size(), k->members.size());
    for (std::size_t i = 0; i < k->members.size(); ++i) {
        EXPECT_LT(k->members[i].liquid, k->liquids.size());
        double t = k->courses[i].first_wait_s;
        for (const auto& l : k->courses[i].layings) t += l.dwell_s + l.then_s;
        EXPECT_DOUBLE_EQ(t, 72 * 3600.0);
    }
    EXPECT_FALSE(k->foreseen.empty());
}

// ---- refusals

TEST(RefineRefusal, EachNamesTheFieldAndTheRemedy) {
    struct Case {
        std::string where, says;
        ErrorCode code;
        std::function<void(RefineRequest&)> change;
    };
    Pass water;
    water.liquid.name = water.liquid.family = "water";
    const std::vector<Case> cases{
        {"readings[0].kind", "Say what was read", ErrorCode::InvalidInput, [](RefineRequest& r) { r.readings[0].kind.clear(); }},
        {"readings[1].kind", "Use one of", ErrorCode::NotFound, [](RefineRequest& r) { r.readings[1].kind = "guess"; }},
        {"readings[0].value_1", "check the figure", ErrorCode::OutOfRange, [](RefineRequest& r) { r.readings[0].value_1 = 15; }},
        {"readings[0].at_h", "now_h", ErrorCode::InvalidInput, [](RefineRequest& r) { r.readings[0].at_h = 80; }},
        {"readings[0].drops", "Say how", ErrorCode::InvalidInput, [](RefineRequest& r) { r.readings[0] = look("product_drops", 3); }},
        {"readings[0].pass", "0 were told", ErrorCode::InvalidInput, [](RefineRequest& r) { r.readings[0] = look("rinse_conductivity", 300); }},
        {"readings[0].kind", "Nothing was laid on", ErrorCode::InvalidInput, [](RefineRequest& r) { r.nothing_laid = true; r.readings[0] = look("product_ph", 9); }},
        {"readings[0].kind", "without a finish", ErrorCode::InvalidInput, [](RefineRequest& r) { r.happened.leather.leather_class = "nubuck"; r.readings[0] = look("water_drop", 9); }},
        {"readings[0].kind", "wiped off", ErrorCode::InvalidInput, [](RefineRequest& r) { r.happened.use.wiped_off_pct = 0; r.readings[0] = look("cloth_weight", 9); }},
        {"members", "power of two", ErrorCode::InvalidInput, [](RefineRequest& r) { r.members = 100; }},
        {"now_h", "not over", ErrorCode::InvalidInput, [](RefineRequest& r) { r.now_h = 0.1; r.readings.clear(); }},
        {"passes[0].at_h", "begins before", ErrorCode::InvalidInput, [water](RefineRequest& r) { r.passes = {water}; r.passes[0].at_h = 0.05; }},
        {"passes[0].at_h", "later than now", ErrorCode::InvalidInput, [water](RefineRequest& r) { r.passes = {water}; r.passes[0].at_h = 90; }},
        {"happened.leather.leather_class", "Use one of", ErrorCode::NotFound, [](RefineRequest& r) { r.happened.leather.leather_class = "velvet"; }},
        {"bench[0].name", "no test", ErrorCode::NotFound, [](RefineRequest& r) { r.bench = {{"Guess", true, std::nullopt}}; }},
    };
    for (const auto& c : cases) {
        RefineRequest r = club_chair();
        c.change(r);
        const Error e = refusal(r);
        EXPECT_EQ(e.where, c.where) << e.message;
        EXPECT_EQ(e.code, c.code) << e.message;
        EXPECT_NE(e.message.find(c.says), std::string::npos) << e.message;
    }
}

TEST(RefineRefusal, NoAcidGoesIntoBleachSulfiteSulfideOrAnUnlabelledProduct) {
    for (const char* name : {"sodium hypochlorite", "sodium sulfite", "sodium metabisulfite", "sodium sulfide", "bleach"}) {
        RefineRequest r = club_chair();
        r.happened.liquid.ingredients = {part(name, 2), part("sodium carbonate", 1)};
        Look drops = look("product_drops", 3);
        drops.drops = DropCount{};
        r.readings = {drops};
        const Error e = refusal(r);
        EXPECT_EQ(e.code, ErrorCode::InvalidInput) << name;
        EXPECT_EQ(e.where, "readings[0].kind") << name;
        EXPECT_NE(e.message.find("Read its pH instead"), std::string::npos) << name;
    }
    RefineRequest r = club_chair();
    r.happened.liquid.label_known = false;
    Look drops = look("product_drops", 3);
    drops.drops = DropCount{};
    r.readings = {drops};
    EXPECT_NE(refusal(r).message.find("may hold chlorine bleach"), std::string::npos);
    r = club_chair();
    drops.drops->acid = "sulfuric acid";
    r.readings = {drops};
    EXPECT_NE(refusal(r).message.find("weak acid"), std::string::npos);
}

TEST(RefineRefusal, ProductsThatMetAndMustNotStopBeforeAnythingIsComputed) {
    RefineRequest r = club_chair();
    r.happened.liquid.ingredients = {part("sodium hypochlorite", 3)};
    Pass vinegar;
    vinegar.liquid.name = "vinegar";
    vinegar.liquid.ingredients = {part("acetic acid", 5)};
    vinegar.at_h = 1;
    r.passes = {vinegar};
    const auto a = refined(r);
    ASSERT_TRUE(a.stop.has_value());
    EXPECT_FALSE(a.stop->do_now.empty());
    EXPECT_TRUE(a.changes.empty());
    EXPECT_TRUE(a.next.empty());
}

// ---- next best test

/// Half of the members read `low`, half `high`; acting is right for the second half only.
Known two_halves(double low, double high, double sd) {
    Known k;
    constexpr std::size_t members = 128;
    Foreseen f{"Thickness", {}, {}};
    for (std::size_t i = 0; i < members; ++i) {
        f.members.push_back(i);
        f.sights.push_back({i % 2 == 0 ? low : high, sd});
    }
    k.foreseen = {f};
    return k;
}
std::vector<std::vector<double>> losses(double wrong, double act) {
    std::vector<std::vector<double>> out(2);
    for (std::size_t i = 0; i < 128; ++i) {
        out[0].push_back(i % 2 == 0 ? 0 : wrong);
        out[1].push_back(act);
    }
    return out;
}
const std::vector<std::string> actions{"leave it alone", "act"};

double density(double x, double mean, double sd) { return std::exp(-(x - mean) * (x - mean) / (2 * sd * sd)) / (sd * std::sqrt(2 * std::acos(-1.0))); }

TEST(NextBestConsistency, APerfectTestSavesWhatEnumerationSays) {
    // Now: the better of 0.5 × 100 and 60. After: half the time nothing, half the time 60.
    const auto tests = best_tests(two_halves(1, 2, 1e-3), losses(100, 60), actions, {});
    ASSERT_EQ(tests.size(), 1u);
    EXPECT_NEAR(tests[0].saved_min, 50 - 30, 1e-9);
    EXPECT_NEAR(tests[0].changes_1, 0.5, 1e-9);
    EXPECT_TRUE(tests[0].worth_it);
    EXPECT_NE(tests[0].sentence.find("\"act\""), std::string::npos);
    EXPECT_NE(next_sentence(tests, actions[0]).find("Next: Thickness"), std::string::npos);
}

TEST(NextBestConsistency, AnImperfectTestSavesWhatTheIntegralOverItsReadingsSays) {
    const double low = 1, high = 2, sd = 0.7, wrong = 100, act = 60;
    double after = 0;
    constexpr int steps = 40000;
    constexpr double from = -5, to = 8;
    for (int s = 0; s < steps; ++s) {
        const double x = from + (to - from) * (s + 0.5) / steps, a = density(x, low, sd) / 2, b = density(x, high, sd) / 2;
        after += std::min(b * wrong, (a + b) * act) * (to - from) / steps;
    }
    const double exact = std::min(wrong / 2, act) - after;
    const auto tests = best_tests(two_halves(low, high, sd), losses(wrong, act), actions, {});
    // A reading told in sixteen parts knows a little less than the reading itself: only the part that holds the turning point
    // can be decided wrongly, and what that costs is less than its share times what is at stake.
    EXPECT_LE(tests[0].saved_min, exact + 1e-6);
    EXPECT_GE(tests[0].saved_min, exact - std::max(act, wrong - act) / 16);
    EXPECT_GT(tests[0].saved_min, 0);
}

TEST(NextBestConsistency, NoTestChangesADecisionThatIsSettled) {
    const auto tests = best_tests(two_halves(1, 2, 0.1), losses(10, 60), actions, {});
    EXPECT_EQ(tests[0].changes_1, 0);
    EXPECT_EQ(tests[0].saved_min, 0);
    EXPECT_FALSE(tests[0].worth_it);
    EXPECT_EQ(next_sentence(tests, actions[0]), "No test would change what is best: leave it alone.");
}

TEST(NextBestProperty, TheShopsMinutesAndEquipmentDecideTheOrder) {
    Known k = two_halves(1, 2, 0.1);
    k.foreseen.push_back(k.foreseen[0]);
    k.foreseen[1].test = "Small extract";
    EXPECT_EQ(best_tests(k, losses(100, 60), actions, {})[0].name, "Thickness");
    EXPECT_EQ(best_tests(k, losses(100, 60), actions, {{"Thickness", true, 200}})[0].name, "Small extract");
    const auto without = best_tests(k, losses(100, 60), actions, {{"Thickness", false, std::nullopt}});
    EXPECT_EQ(without[0].name, "Small extract");
    EXPECT_FALSE(without[1].have);
    Desk d;
    ASSERT_TRUE(keep_bench({"Small extract", false, 30}, d.ports).ok());
    const auto bench = *bench_of({}, d.ports);
    const auto kept = std::find_if(bench.begin(), bench.end(), [](const ShopTest& t) { return t.name == "Small extract"; });
    EXPECT_FALSE(kept->have);
    EXPECT_EQ(kept->minutes, 30);
    const auto asked = *bench_of({{"Small extract", true, std::nullopt}}, d.ports);
    EXPECT_TRUE(std::find_if(asked.begin(), asked.end(), [](const ShopTest& t) { return t.name == "Small extract"; })->have);
    EXPECT_EQ(keep_bench({"Guess", true, std::nullopt}, d.ports).error().where, "name");
}

}  // namespace
}  // namespace hw::desk
