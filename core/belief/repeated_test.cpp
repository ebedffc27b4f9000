#include "core/belief/repeated.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace hw::belief {
namespace {

TEST(RepeatedConsistency, OneReadingHasTheWidthOfTheExpectedScatter) {
    const auto r = repeated({4.2}, 0.2);
    EXPECT_DOUBLE_EQ(r.mean, 4.2);
    EXPECT_NEAR(r.half_width, 2.353363 * 0.2, 1e-6);  // t(0.95, 3) of every table
}

TEST(RepeatedConsistency, WithoutWeightOfTheExpectationItIsTheTextbookInterval) {
    // Readings 10, 12, 14: mean 12, s = 2, t(0.95, 2) = 2.919986; a prior worth almost nothing leaves that.
    const auto r = repeated({10, 12, 14}, 1, 1e-9);
    EXPECT_NEAR(r.half_width, 2.919986 * 2 / std::sqrt(3.0), 1e-5);
}

TEST(RepeatedProperty, MoreReadingsNarrowIt) {
    EXPECT_LT(repeated({4.1, 4.3, 4.2}, 0.2).half_width, repeated({4.1, 4.3}, 0.2).half_width);
    EXPECT_LT(repeated({4.1, 4.3}, 0.2).half_width, repeated({4.2}, 0.2).half_width);
}

TEST(RepeatedProperty, AgreementByChanceIsNotExactness) { EXPECT_GT(repeated({4.2, 4.2}, 0.2).half_width, 0.1); }

TEST(RepeatedProperty, NineInTenIntervalsHoldTheTruthWhenTheVarianceIsDrawnFromThePrior) {
    // The interval is exact for variances of the prior and true means anywhere: 3 s0^2 / chi-squared(3).
    std::mt19937_64 random(7);
    std::chi_squared_distribution<double> chi(3);
    std::normal_distribution<double> normal;
    constexpr int trials = 20000;
    int held = 0;
    for (int k = 0; k < trials; ++k) {
        const double s = std::sqrt(3 * 0.2 * 0.2 / chi(random)), truth = 4 + normal(random);
        const auto r = repeated({truth + s * normal(random), truth + s * normal(random), truth + s * normal(random)}, 0.2);
        held += std::abs(r.mean - truth) <= r.half_width ? 1 : 0;
    }
    const double share = held / static_cast<double>(trials), error = std::sqrt(0.9 * 0.1 / trials);
    EXPECT_NEAR(share, 0.9, 3 * error);
}

}  // namespace
}  // namespace hw::belief
