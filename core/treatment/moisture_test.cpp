#include "core/treatment/moisture.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "atlas/leather_classes.hpp"
#include "core/treatment/harm.hpp"

namespace {

using namespace hw;
using namespace hw::treatment;

leather::Hide hide(std::string_view leather_class) { return leather::hide(leather_class, "chrome", {}).value(); }

/// Passes of clean water, blotted, one a minute or so apart.
Course passes(int n, double kg_m2, double blotted, double then_s) {
    Course c;
    c.liquids = {chem::tap_water(0)};
    for (int i = 0; i < n; ++i) c.layings.push_back({0, kg_m2, 60, blotted, "rinsed", "blotted", then_s});
    return c;
}

TEST(MoistureConsistency, TheDaysBudgetFillsTheGrainAndNoMore) {
    for (const auto& row : atlas::leather_classes) {
        const auto budget = moisture_budget(row.key);
        const double holds = grain_holds_g_m2(hide(row.key));
        EXPECT_LE(budget.net_24h_g_m2, holds) << row.key;
        EXPECT_GT(budget.net_24h_g_m2, holds - 10) << row.key;
        EXPECT_LE(budget.pass_g_m2, budget.net_24h_g_m2) << row.key;
        EXPECT_EQ(budget.day.standing, "estimate") << row.key;
        EXPECT_FALSE(budget.pass.source.empty() || budget.pass.locator.empty() || budget.day.source.empty() || budget.day.locator.empty()) << row.key;
    }
}

TEST(MoistureConsistency, AnEvenReWetAndThreeRinseBlotsFitADayOnAniline) {
    // 35 g/m2 to re-wet, three passes of 30 g/m2 of which 0.4 is blotted: 89 g/m2 stay.
    Course c = passes(3, 0.03, 0.4, 0);
    c.layings.insert(c.layings.begin(), {0, 0.035, 600, 0, "wetted", "", 0});
    const double laid = 35 + 90;
    const auto e = exposure(c, hide("aniline")).value();
    const auto m = moisture(c, e);
    EXPECT_LT(m.net_24h_g_m2, moisture_budget("aniline").net_24h_g_m2);
    EXPECT_NEAR(m.pass_g_m2, 35, 1e-9);
    // Blotting takes a share of the film only, and an open leather has drunk most of it by then: more stays than (1-e) says.
    EXPECT_GE(m.net_24h_g_m2, 89);
    EXPECT_LE(m.net_24h_g_m2, laid);
}

TEST(MoistureProperty, WhatStaysIsWhatWasLaidOnLessWhatWasTakenOff) {
    for (const char* c : {"aniline", "pigmented_furniture", "nubuck"}) {
        const Course course = passes(4, 0.02, 0.6, 300);
        const auto e = exposure(course, hide(c)).value();
        const auto m = moisture(course, e);
        // The most along the way, by hand: each pass adds 20, each blot takes what the ledger of that blot says.
        double now = 0, most = 0;
        for (const auto& off : e.section.wiped_off) {
            most = std::max(most, now += 20);
            now -= 1000 * off.water_kg_m2;
        }
        EXPECT_NEAR(m.net_24h_g_m2, most, 1e-9) << c;
        EXPECT_LE(m.most_water_g_m2, m.net_24h_g_m2 + 1e-6) << c;  // some has evaporated
        EXPECT_GT(m.most_water_g_m2, 0) << c;
        EXPECT_GT(m.surface_wet_s, 0) << c;
    }
}

TEST(MoistureProperty, ADayIsADayAndTheAccidentDoesNotCount) {
    // Two passes 25 hours apart do not add up; 5 minutes apart they do. Nothing is blotted.
    const auto far = passes(2, 0.02, 0, 25 * 3600.0), near = passes(2, 0.02, 0, 300);
    EXPECT_NEAR(moisture(far, exposure(far, hide("aniline")).value()).net_24h_g_m2, 20, 1e-9);
    EXPECT_NEAR(moisture(near, exposure(near, hide("aniline")).value()).net_24h_g_m2, 40, 1e-9);
    EXPECT_NEAR(moisture(near, exposure(near, hide("aniline")).value(), 1).net_24h_g_m2, 20, 1e-9);
    // A soaking two days before the treatment is not the treatment's.
    Course soaked = passes(2, 0.02, 0, 86400);
    soaked.layings[0].kg_m2 = 0.3;
    soaked.layings[0].then_s = 2 * 86400;
    const auto e = exposure(soaked, hide("aniline")).value();
    const auto all = moisture(soaked, e), treatment = moisture(soaked, e, 1);
    EXPECT_LT(treatment.wetted_um, all.wetted_um);
    EXPECT_LT(treatment.surface_wet_s, all.surface_wet_s);
    EXPECT_LT(treatment.most_water_g_m2, all.most_water_g_m2);
    EXPECT_NEAR(treatment.pass_g_m2, 20, 1e-9);
}

TEST(MoistureProperty, MoreWaterWetsDeeperAndLonger) {
    double deep = -1, wet = -1, most = -1;
    for (double kg : {0.02, 0.06, 0.15, 0.3}) {
        Course c = passes(1, kg, 0, 86400);
        const auto m = moisture(c, exposure(c, hide("aniline")).value());
        EXPECT_GE(m.wetted_um, deep);
        EXPECT_GE(m.surface_wet_s, wet);
        EXPECT_GT(m.most_water_g_m2, most);
        deep = m.wetted_um;
        wet = m.surface_wet_s;
        most = m.most_water_g_m2;
    }
    EXPECT_GT(deep, 300);
}

TEST(MoistureProperty, WaterAloneIsHeldAgainstTheLimitsOfWater) {
    // The same limits as a judgement of that water: the pass of custom, half of it on open vegetable-tanned leather.
    const auto aniline = hide("aniline"), vegetable = leather::hide("aniline", "vegetable", {}).value();
    EXPECT_EQ(water_harm(aniline, 10, 0).level, HarmLevel::Within);
    EXPECT_EQ(water_harm(aniline, 40, 100).level, HarmLevel::ComesBack);
    EXPECT_EQ(water_harm(aniline, 70, 100).level, HarmLevel::Lasting);
    EXPECT_EQ(water_harm(vegetable, 40, 100).level, HarmLevel::Lasting);
    EXPECT_EQ(water_harm(hide("pigmented_furniture"), 70, 0).level, HarmLevel::Caution);
    EXPECT_EQ(water_harm(aniline, 40, 900).level, HarmLevel::Lasting);  // through three quarters
    Story story;
    story.dose_kg_m2 = 0.07;
    const chem::Totals water = chem::tap_water(0);
    const HarmInput in{.liquid = water, .hide = aniline, .story = story, .film_kind = {}, .wetted_to_um = 100};
    const auto judged = harms(in)[static_cast<std::size_t>(HarmKind::Water)], alone = water_harm(aniline, 70, 100);
    EXPECT_EQ(judged.limit, alone.limit);
    EXPECT_DOUBLE_EQ(judged.measure, alone.measure);
}

}  // namespace
