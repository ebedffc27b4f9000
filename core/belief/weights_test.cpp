#include "core/belief/weights.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <random>

#include "core/belief/summary.hpp"

namespace hw::belief {
namespace {

constexpr double none = -std::numeric_limits<double>::infinity();

TEST(WeightsConsistency, ThreeMembersByHand) {
    const auto w = weights_of({std::log(1.0), std::log(3.0), none});
    ASSERT_TRUE(w.ok());
    EXPECT_NEAR(w->weight_1[0], 0.25, 1e-15);
    EXPECT_NEAR(w->weight_1[1], 0.75, 1e-15);
    EXPECT_EQ(w->weight_1[2], 0);
    EXPECT_NEAR(w->effective, 1 / (0.0625 + 0.5625), 1e-14);
    EXPECT_NEAR(w->log_mean, std::log(4.0 / 3), 1e-15);
}

TEST(WeightsProperty, OnlyDifferencesOfLogarithmsMatterHoweverLarge) {
    const auto small = weights_of({0, -1, -2}), shifted = weights_of({-100000, -100001, -100002});
    for (std::size_t i = 0; i < 3; ++i) EXPECT_DOUBLE_EQ(small->weight_1[i], shifted->weight_1[i]);
    EXPECT_NEAR(shifted->log_mean, small->log_mean - 100000, 1e-9);
}

TEST(WeightsProperty, EqualMembersAreWorthTheirNumberAndOneIsWorthOne) {
    EXPECT_NEAR(effective_number(std::vector<double>(64, 0.3)), 64, 1e-12);
    EXPECT_DOUBLE_EQ(effective_number({0, 5, 0}), 1);
}

TEST(WeightsRefusal, ReadingsThatNoMemberCanGiveNameTheReadings) {
    const auto w = weights_of({none, none});
    ASSERT_FALSE(w.ok());
    EXPECT_EQ(w.error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(w.error().where, "readings");
}

TEST(WeightsRefusal, ALikelihoodThatIsNoNumberIsABug) {
    EXPECT_THROW((void)weights_of({0, std::nan("")}), Bug);
    EXPECT_THROW((void)weights_of({0, -none}), Bug);
}

TEST(WeightsProperty, QuantilesOfEqualWeightsAreThoseOfDefinitionSeven) {
    std::mt19937_64 random(3);
    const std::vector<double> shares{0, 0.01, 0.05, 0.25, 0.5, 0.777, 0.95, 1};
    for (std::size_t n : {1U, 2U, 3U, 7U, 64U, 1000U}) {
        std::vector<double> values(n);
        for (double& v : values) v = static_cast<double>(random() % 1000) / 7;
        const auto plain = quantiles(values, shares), weighted = weighted_quantiles(values, std::vector<double>(n, 0.1), shares);
        for (std::size_t k = 0; k < shares.size(); ++k) EXPECT_NEAR(weighted[k], plain[k], 1e-9) << n << " members, share " << shares[k];
    }
}

TEST(WeightsProperty, AMemberWithoutWeightIsNotThereAndOneWithAllOfItIsTheOnlyOne) {
    const std::vector<double> shares{0, 0.3, 0.5, 1};
    EXPECT_EQ(weighted_quantiles({1, 99, 2, 3}, {1, 0, 1, 1}, shares), weighted_quantiles({1, 2, 3}, {1, 1, 1}, shares));
    EXPECT_EQ(weighted_quantiles({1, 7, 9}, {0, 2, 0}, shares), (std::vector<double>{7, 7, 7, 7}));
}

TEST(WeightsProperty, QuantilesRiseWithTheShareAndStayInside) {
    std::mt19937_64 random(4);
    std::vector<double> values(50), weights(50);
    for (double& v : values) v = static_cast<double>(random() % 1000);
    for (double& w : weights) w = std::exp(static_cast<double>(random() % 1000) / 100);
    double before = -1;
    for (double share = 0; share <= 1; share += 0.01) {
        const double q = weighted_quantiles(values, weights, {share})[0];
        EXPECT_GE(q, before - 1e-9);  // round-off
        EXPECT_LE(q, 1000);
        before = q;
    }
}

// Weights that turn an even spread into an exponential one: quantiles of that are known.
TEST(WeightsConsistency, QuantilesOfManyMembersAreThoseOfTheWeightedDistribution) {
    constexpr std::size_t n = 100000;
    std::vector<double> values(n), weights(n);
    for (std::size_t i = 0; i < n; ++i) {
        values[i] = 20 * (static_cast<double>(i) + 0.5) / n;
        weights[i] = std::exp(-values[i]);
    }
    // The window is one in the effective number long: 2 in 20, so one in ten thousand of the weight.
    for (double share : {0.05, 0.5, 0.95}) EXPECT_NEAR(weighted_quantiles(values, weights, {share})[0], -std::log(1 - share), 1e-4 / (1 - share));
}

TEST(WeightsProperty, TheErrorOfAShareIsThatOfPlainMembersWhereWeightsAreEqual) {
    for (std::size_t inside : {0U, 1U, 32U, 64U}) {
        std::vector<bool> in(64);
        for (std::size_t i = 0; i < inside; ++i) in[i] = true;
        const auto s = weighted_share(in, std::vector<double>(64, 3.0));
        EXPECT_NEAR(s.share_1, static_cast<double>(inside) / 64, 1e-14);
        EXPECT_NEAR(s.plus_minus_1, share_error(s.share_1, 64), 1e-14);
        EXPECT_NEAR(weighted_share(in, std::vector<double>(64, 3.0), 16).plus_minus_1, 2 * s.plus_minus_1, 1e-14);
    }
}

// Members from a normal, weighted into one half a deviation to the right: the share above 0 is known.
TEST(WeightsProperty, TwoStatedErrorsHoldTheShareInNineteenOfTwenty) {
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal;
    constexpr int trials = 2000;
    constexpr std::size_t n = 200;
    const double truth = std::erfc(-0.5 / std::sqrt(2.0)) / 2;
    int held = 0;
    for (int t = 0; t < trials; ++t) {
        std::vector<double> weights(n);
        std::vector<bool> inside(n);
        for (std::size_t i = 0; i < n; ++i) {
            const double z = normal(random);
            weights[i] = std::exp(0.5 * z);
            inside[i] = z > 0;
        }
        const auto s = weighted_share(inside, weights);
        held += std::abs(s.share_1 - truth) <= 2 * s.plus_minus_1;
    }
    // 95.45 % of a normal error; three binomial deviations of 2,000 trials.
    EXPECT_NEAR(held / static_cast<double>(trials), 0.9545, 3 * std::sqrt(0.9545 * 0.0455 / trials));
}

TEST(WeightsProperty, SystematicDrawingRoundsEveryExpectedNumberUpOrDown) {
    std::mt19937_64 random(5);
    for (int t = 0; t < 200; ++t) {
        std::vector<double> weights(37);
        for (double& w : weights) w = random() % 4 == 0 ? 0 : std::exp(static_cast<double>(random() % 1000) / 200);
        const double u = (static_cast<double>(random() >> 11) + 0.5) * 0x1p-53, sum = std::accumulate(weights.begin(), weights.end(), 0.0);
        const auto drawn = systematic(weights, 100, u);
        ASSERT_EQ(drawn.size(), 100U);
        std::vector<int> times(weights.size());
        for (std::size_t i : drawn) ++times[i];
        for (std::size_t i = 0; i < weights.size(); ++i) EXPECT_LT(std::abs(times[i] - 100 * weights[i] / sum), 1 + 1e-9);
        EXPECT_EQ(drawn, systematic(weights, 100, u));
    }
}

// Over all positions of the comb every member is drawn as often as its weight says.
TEST(WeightsProperty, SystematicDrawingIsUnbiased) {
    const std::vector<double> weights{0.11, 0.53, 0, 0.02, 0.34};
    constexpr int combs = 10000;
    std::vector<double> times(weights.size());
    for (int k = 0; k < combs; ++k)
        for (std::size_t i : systematic(weights, 3, (k + 0.5) / combs)) times[i] += 1.0 / combs / 3;
    for (std::size_t i = 0; i < weights.size(); ++i) EXPECT_NEAR(times[i], weights[i], 1.0 / combs);
}

}  // namespace
}  // namespace hw::belief
