#include "core/treatment/dry.hpp"

#include <gtest/gtest.h>

#include <cstdio>

namespace {

using namespace hw;
using namespace hw::treatment;

/// What a tenth more of humidity keeps in leather in ordinary air.
double above_kg_kg() { return leather::ambient_water_kg_kg(0.6) - leather::ambient_water_kg_kg(0.5); }

Story swab(double kg_m2, double humidity) {
    Story s;
    s.dose_kg_m2 = kg_m2;
    s.dwell_s = 60;
    s.wiped_1 = 0;
    s.rest_s = 72 * 3600.0;
    s.humidity_1 = humidity;
    return s;
}

Dry dried(const char* leather_class, double kg_m2, double humidity) {
    return dry(leather::hide(leather_class, "chrome", {}).value(), swab(kg_m2, humidity), above_kg_kg()).value();
}

TEST(DryProperty, MoreWaterAndDamperAirTakeLonger) {
    for (const char* c : {"aniline", "pigmented_furniture", "nubuck"}) {
        double before = 0;
        for (double kg : {0.01, 0.03, 0.06}) {
            const Dry d = dried(c, kg, 0.5);
            std::printf("%s, %.0f g/m2 at 50 %%: dry to the touch %.2f h, through %.2f h\n", c, 1000 * kg, d.touch_s / 3600, d.through_s / 3600);
            EXPECT_TRUE(d.in_time) << c;
            EXPECT_GT(d.through_s, before) << c;
            EXPECT_GE(d.through_s, d.touch_s) << c;
            before = d.through_s;
        }
        EXPECT_GT(dried(c, 0.03, 0.75).through_s, dried(c, 0.03, 0.5).through_s) << c;
        EXPECT_LT(dried(c, 0.03, 0.25).through_s, dried(c, 0.03, 0.5).through_s) << c;
    }
}

// A balance by hand: what is no longer there cannot have left sooner than a wet surface lets it go.
TEST(DryConsistency, NothingDriesFasterThanAWetSurface) {
    constexpr double wet_bulb_kg_m2_s = 0.069 / 3600, rounding = 0.95;  // 20 degC, 50 %, 0.1 m/s
    for (const char* c : {"aniline", "pigmented_furniture", "nubuck"}) {
        const auto hide = leather::hide(c, "chrome", {}).value();
        const double may_stay_kg_m2 = hide.dry_density_kg_m3 * hide.thickness_mm * 1e-3 * above_kg_kg();
        EXPECT_GT(dried(c, 0.06, 0.5).through_s, rounding * (0.06 - may_stay_kg_m2) / wet_bulb_kg_m2_s) << c;
    }
}

TEST(DryProperty, WhatIsNotDryInTimeSaysSo) {
    Story s = swab(0.3, 0.85);
    s.rest_s = 1800;
    const Dry d = dry(leather::hide("aniline", "chrome", {}).value(), s, above_kg_kg()).value();
    EXPECT_FALSE(d.in_time);
    EXPECT_NEAR(d.through_s, 1860, 1e-6);
}

}  // namespace
