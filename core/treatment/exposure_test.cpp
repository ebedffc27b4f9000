#include "core/treatment/exposure.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "core/chem/systems.hpp"

namespace {

using namespace hw;
using namespace hw::treatment;

chem::Totals liquid(std::vector<chem::Portion> portions) { return chem::totals(portions).value(); }
chem::Totals soda(double pct) { return liquid({{"sodium carbonate", "", pct, {}}}); }

Exposure solved(const chem::Totals& t, const char* leather_class, const Story& story, double tolerance = 1e-3, double mesh = 1) {
    return exposure(t, leather::hide(leather_class, "chrome", {}).value(), story, tolerance, mesh).value();
}

/// Top of the grain at the end.
double top_end(const Exposure& e) {
    for (std::size_t i = 0; i < e.ph.back().size(); ++i)
        if (!e.layers[static_cast<std::size_t>(e.section.layer_of[i])].finish) return e.ph.back()[i];
    return 0;
}

/// Deepest point that ever passed a pH, below the finish, µm.
double reached(const Exposure& e, double ph) {
    double deepest = 0;
    for (const auto& row : e.ph)
        for (std::size_t i = 0; i < row.size(); ++i)
            if (!e.layers[static_cast<std::size_t>(e.section.layer_of[i])].finish && row[i] > ph) deepest = std::max(deepest, e.section.bottom_m[i] * 1e6 - e.finish_um);
    return deepest;
}

TEST(ExposureProperty, KeepsAlkaliAcidsAndWater) {
    Story story;
    story.rinse_passes = 1;
    story.repeats = 2;
    for (const char* c : {"aniline", "semi_aniline", "pigmented_furniture", "nubuck"})
        for (const auto& t : {soda(0.3), liquid({{"ammonia", "", 1.0, {}}}), liquid({{"acetic acid", "", 5.0, {}}}), liquid({{"sodium metasilicate", "", 1.0, {}}, {"monoethanolamine", "", 2.0, {}}}), chem::tap_water(200)})
            EXPECT_LT(solved(t, c, story).section.ledger.worst_balance_1, 1e-9) << c;
}

TEST(ExposureProperty, TakesUpMoreTheMoreIsLaidOnTheLongerItStandsAndTheStrongerItIs) {
    Story story;
    double last = -1;
    for (double dose : {0.02, 0.05, 0.1, 0.2}) {
        story.dose_kg_m2 = dose;
        const double left = solved(soda(0.5), "semi_aniline", story).left_mol_m2;
        EXPECT_GT(left, last);
        last = left;
    }
    story = {};
    last = -1;
    for (double dwell : {10.0, 60.0, 300.0, 900.0}) {
        story.dwell_s = dwell;
        const double in = solved(soda(0.5), "semi_aniline", story).section.ledger.in_leather_strong_mol_m2;
        EXPECT_GT(in, last);
        last = in;
    }
    story = {};
    last = -1;
    for (double pct : {0.05, 0.2, 0.5, 1.0, 2.0}) {
        const double end = top_end(solved(soda(pct), "aniline", story));
        EXPECT_GT(end, last);
        last = end;
    }
}

TEST(ExposureProperty, HalvingMeshAndStepBarelyMovesTheAnswer) {
    Story story;
    story.dose_kg_m2 = 0.1;
    for (const char* c : {"aniline", "pigmented_furniture"}) {
        const auto coarse = solved(soda(0.5), c, story), fine = solved(soda(0.5), c, story, 1.25e-4, 2);
        EXPECT_NEAR(coarse.section.ledger.in_leather_strong_mol_m2, fine.section.ledger.in_leather_strong_mol_m2, 1e-3 * fine.section.ledger.in_leather_strong_mol_m2) << c;
        EXPECT_NEAR(coarse.surface_ph.back(), fine.surface_ph.back(), 0.02) << c;
    }
}

TEST(ExposureConsistency, PhAndReserveRankLyeAndBicarbonateDifferently) {
    Story story;
    story.dose_kg_m2 = 0.1;
    const auto lye = liquid({{"sodium hydroxide", "", 0.1, {}}}), bicarbonate = liquid({{"sodium bicarbonate", "", 1.0, {}}});
    EXPECT_GT(chem::equilibrium(lye)->ph, chem::equilibrium(bicarbonate)->ph + 3);
    const auto a = solved(lye, "aniline", story), b = solved(bicarbonate, "aniline", story);
    EXPECT_GT(top_end(b), top_end(a) + 0.5);
    EXPECT_GT(b.left_mol_m2, 3 * a.left_mol_m2);
}

TEST(ExposureConsistency, AmmoniaLeavesBeforeItPassesAFinishSodaDoesNot) {
    Story story;
    story.wiped_1 = 0;
    const auto ammonia = liquid({{"ammonia", "", 0.15, {}}});
    // The soda that has the same pH as the ammonia.
    double low = 0.001, high = 2;
    for (int i = 0; i < 40; ++i) {
        const double mid = std::sqrt(low * high);
        (chem::equilibrium(soda(mid))->ph < chem::equilibrium(ammonia)->ph ? low : high) = mid;
    }
    const auto same = soda(low);
    ASSERT_NEAR(chem::equilibrium(same)->ph, chem::equilibrium(ammonia)->ph, 1e-6);
    const auto a = solved(ammonia, "pigmented_furniture", story), s = solved(same, "pigmented_furniture", story);
    EXPECT_LT(a.left_mol_m2 / a.applied_mol_m2, 0.3);
    EXPECT_GT(s.left_mol_m2 / s.applied_mol_m2, 0.8);
}

TEST(ExposureConsistency, TheHideGivesWayAtOnceWhenItsCarboxylsAreUsedUp) {
    // The buffer cliff: equal steps of alkali move the grain little, then by pH units.
    Story story;
    story.wiped_1 = 0;
    std::vector<double> end;
    for (int i = 1; i <= 8; ++i) {
        story.dose_kg_m2 = 0.05 * i;
        end.push_back(reached(solved(liquid({{"sodium hydroxide", "", 0.6, {}}}), "aniline", story), 8));
    }
    EXPECT_GT(end.back(), 3 * end.front());
    const leather::Hide h = leather::hide("aniline", "chrome", {}).value();
    EXPECT_LT(leather::alkali_between(h, 6.5, 8.5), 0.25 * leather::alkali_between(h, 4.0, 6.0));
}

TEST(ExposureProperty, CleanWaterLeavesTheHideWhereItIs) {
    const auto e = solved(chem::tap_water(0), "aniline", {});
    for (double ph : e.ph.back()) EXPECT_NEAR(ph, 3.8, 0.1);
}

TEST(ExposureProperty, ARinseLeavesLessAlkali) {
    Story plain, rinsed;
    rinsed.rinse_passes = 3;
    EXPECT_LT(solved(soda(1), "pigmented_furniture", rinsed).left_mol_m2, solved(soda(1), "pigmented_furniture", plain).left_mol_m2);
}

TEST(ExposureProperty, NoMoreStaysThanWasLaidOn) {
    // Also on a hide that lies alkaline already, where carbonate leaves as carbon dioxide instead of being neutralised.
    for (double ph : {3.6, 4.6, 6.0, 7.5})
        for (const auto& t : {soda(0.3), liquid({{"sodium bicarbonate", "", 1.0, {}}}), liquid({{"sodium hydroxide", "", 0.1, {}}}), liquid({{"ammonia", "", 0.5, {}}})}) {
            leather::Readings read;
            read.extract_ph = ph;
            const auto e = exposure(t, leather::hide("aniline", "chrome", read).value(), {}).value();
            EXPECT_GT(e.applied_mol_m2, 0) << ph;
            // What the hide itself breathes in or out over a day is not part of the dose: carbonate of its pores, some 0.1 mmol/m2.
            EXPECT_LT(e.left_mol_m2, e.applied_mol_m2 + 1e-4) << ph;
        }
}

TEST(ExposureProperty, SameInputGivesTheSameAnswer) {
    const auto a = solved(soda(0.3), "aniline", {}), b = solved(soda(0.3), "aniline", {});
    EXPECT_EQ(a.ph, b.ph);
}

// A micrometre of finish more is no other leather.
TEST(ExposureProperty, MovesSmoothlyWithTheFinish) {
    const chem::Totals soda = chem::totals({{"sodium bicarbonate", "", 1.0, {}}}).value();
    double last = 0;
    for (double finish = 24; finish <= 40; ++finish) {
        leather::Readings read;
        read.finish_um = finish;
        read.extract_ph = 4.6;
        Story story;
        const double now = exposure(soda, leather::hide("semi_aniline", "chrome", read).value(), story).value().surface_ph.back();
        if (last > 0) { EXPECT_NEAR(now, last, 0.05) << finish; }
        last = now;
    }
}

}  // namespace
