#include "core/diffusion/evaporation.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "tests/support/reference.hpp"

namespace {

using namespace hw;
using namespace hw::diffusion;
using hw::test::check;

TEST(SaturationPressureReference, AgreesWithSteamTablesWithinTheFit) {
    // Buck states at most 0.05 % between -20 and 50 degC against the formulation that the steam tables share.
    struct Row { double celsius, pascal; };
    for (const Row& row : {Row{0.01, 611.66}, Row{10, 1228.2}, Row{20, 2339.3}, Row{25, 3169.9}, Row{30, 4247.0}, Row{40, 7384.9}, Row{50, 12352.0}})
        check("saturation pressure at " + std::to_string(row.celsius).substr(0, 5) + " degC, Pa", "wagner2002", "Table 13.1, recalled from print", row.pascal,
              saturation_pressure_pa(Temperature::celsius(row.celsius)), 0.0005 * row.pascal, "0.05 % stated by Buck 1981 for the fit");
}

struct Air {
    double celsius, humidity, ratio_full, ratio, wet_bulb, rate_still, rate_slow, rate_fast;
};
// x_s, x, wet bulb and the rate at 0.1, 0.5 and 2 m/s, worked out once by hand from the equations of docs/theory/drying.md.
constexpr Air airs[] = {
    {20, 0.50, .01469, .00726, 13.78, .069, .089, .162}, {23, 0.50, .01774, .00875, 16.25, .075, .097, .177},
    {20, 0.65, .01469, .00947, 15.8, .047, .060, .109},  {25, 0.40, .02008, .00788, 16.2, .098, .126, .229},
    {35, 0.20, .03657, .00699, 18.9, .180, .231, .421},  {15, 0.70, .01065, .00741, 11.9, .034, .044, .080}};

TEST(EvaporationConsistency, GivesTheHandWorkedTable) {
    for (const Air& a : airs) {
        const Temperature t = Temperature::celsius(a.celsius);
        EXPECT_NEAR(humidity_ratio(t, 1), a.ratio_full, 2e-5) << a.celsius;
        EXPECT_NEAR(humidity_ratio(t, a.humidity), a.ratio, 1e-5) << a.celsius;
        EXPECT_NEAR(wet_bulb(t, a.humidity).celsius(), a.wet_bulb, 0.1) << a.celsius;
        // Half a unit of the third decimal plus what 0.1 K of the wet bulb makes: up to 2 % of the rate.
        EXPECT_NEAR(3600 * evaporation_kg_m2_s(t, a.humidity, 0.1), a.rate_still, 0.0005 + 0.02 * a.rate_still) << a.celsius;
        EXPECT_NEAR(3600 * evaporation_kg_m2_s(t, a.humidity, 0.5), a.rate_slow, 0.0005 + 0.02 * a.rate_slow) << a.celsius;
        EXPECT_NEAR(3600 * evaporation_kg_m2_s(t, a.humidity, 2.0), a.rate_fast, 0.0005 + 0.02 * a.rate_fast) << a.celsius;
    }
}

TEST(EvaporationProperty, DryAirDrawsMoreAndSaturatedAirNothing) {
    const Temperature t = Temperature::celsius(20);
    double last = 1;
    for (double humidity = 0.05; humidity <= 1.0; humidity += 0.05) {
        const double rate = evaporation_kg_m2_s(t, humidity, 0.1);
        EXPECT_LT(rate, last);
        EXPECT_GE(rate, -1e-12);
        EXPECT_LE(wet_bulb(t, humidity).celsius(), 20 + 1e-9);
        last = rate;
    }
    EXPECT_NEAR(evaporation_kg_m2_s(t, 1, 0.1), 0, 1e-12);
    EXPECT_GT(evaporation_kg_m2_s(t, 0.5, 2), evaporation_kg_m2_s(t, 0.5, 0.1));
}

}  // namespace
