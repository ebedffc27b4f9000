#include <gtest/gtest.h>

#include <cmath>

#include "atlas/grey_change.hpp"
#include "atlas/grey_stain.hpp"
#include "core/colour/ciede2000.hpp"
#include "core/colour/grey_scale.hpp"
#include "tests/support/reference.hpp"

namespace {

using namespace hw::colour;

struct Pair {
    Lab one, other;
    double difference;
};

/// Every printed pair, the hard ones included: hues that wrap round, greys, the turn of blue.
constexpr Pair pairs[] = {
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},     {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},     {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},        {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},       {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},       {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},       {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},       {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},     {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},     {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},         {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},         {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},   {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},       {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},   {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},       {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},       {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

TEST(Ciede2000Reference, GivesAllPairsOfTable1) {
    int row = 0;
    for (const auto& p : pairs) {
        ++row;
        const std::string claim = "CIEDE2000, pair " + std::to_string(row);
        hw::test::check(claim, "sharma2005", "Table 1, row " + std::to_string(row), p.difference, ciede2000(p.one, p.other), 0.5e-4, "half a unit of the last printed digit");
    }
    EXPECT_EQ(row, 34);
}

TEST(Ciede2000Property, IsTheSameBothWaysAndNothingForTheSameColour) {
    for (const auto& p : pairs) {
        EXPECT_NEAR(ciede2000(p.one, p.other), ciede2000(p.other, p.one), 1e-12);
        EXPECT_EQ(ciede2000(p.one, p.one), 0);
    }
}

// Half a unit of the last digit of a step moves its grade by 0.05 / 1.7 at most: the scale and the formula agree within that.
TEST(GreyScaleConsistency, TheFormulasGiveBackEveryStepOfTheScales) {
    for (const auto& step : hw::atlas::grey_change) EXPECT_EQ(half_step(change_grade(step.difference_1)), step.grade_1) << step.difference_1;
    for (const auto& step : hw::atlas::grey_stain) EXPECT_EQ(half_step(stain_grade({95, 0, 0}, {95 - step.difference_1, 0, 0})), step.grade_1) << step.difference_1;
}

TEST(GreyScaleProperty, AGreaterDifferenceNeverHasABetterGrade) {
    double change = 5, stain = 5;
    for (double d = 0; d < 60; d += 0.05) {
        const double c = change_grade(d), s = stain_grade({95, 0, 0}, {95 - d, 0, 0});
        EXPECT_LE(c, change) << d;
        EXPECT_LE(s, stain + 0.02) << d;  // the two branches of the staining formula do not meet exactly at grade 4
        change = c, stain = s;
    }
    EXPECT_EQ(change, 1);
    EXPECT_EQ(stain, 1);
}

TEST(GreyScaleProperty, GradesAreReadInHalfSteps) {
    EXPECT_TRUE(is_grade(3.5) && is_grade(5) && is_grade(1));
    EXPECT_FALSE(is_grade(3.7) || is_grade(0.5) || is_grade(5.5) || is_grade(NAN));
    EXPECT_EQ(grade_words(4.5), "4/5");
    EXPECT_EQ(grade_words(3), "3");
}

}  // namespace
