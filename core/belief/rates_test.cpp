#include "core/belief/rates.hpp"

#include <gtest/gtest.h>

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <cstdio>
#include <random>

#include "base/result.hpp"

namespace {

using namespace hw::belief;

// Our own figures, worked out by hand before: one good spot rules out next to nothing.
TEST(RatesConsistency, GoodSpotsRuleOutLessThanTheySeemTo) {
    constexpr struct {
        int n;
        double most_pct;
    } rows[] = {{1, 95}, {3, 63}, {6, 39}, {10, 26}, {20, 14}};
    for (const auto& r : rows) {
        EXPECT_NEAR(100 * failing_at_most_1(r.n, 0, 0.95), r.most_pct, 0.5) << r.n;
        EXPECT_EQ(failing_at_most_1(r.n, 0, 0.95), 1 - std::pow(1 - 0.95, 1.0 / r.n)) << r.n;
    }
    EXPECT_EQ(failing_at_most_1(0, 0, 0.95), 1);
    EXPECT_EQ(failing_at_most_1(4, 4, 0.95), 1);
}

// What defines the limit: at it, so few failures or fewer have just the chance that was left open.
TEST(RatesProperty, AtTheLimitTheCountsHaveTheChanceThatWasLeftOpen) {
    for (int n = 1; n <= 40; ++n)
        for (int k = 0; k < n; ++k)
            for (double confidence : {0.8, 0.9, 0.95, 0.99}) {
                const double p = failing_at_most_1(n, k, confidence);
                EXPECT_NEAR(boost::math::cdf(boost::math::binomial_distribution<>(n, p), k), 1 - confidence, 1e-9) << n << " " << k;
            }
}

TEST(RatesProperty, TriesForAClaimAreEnoughAndOneLessIsNot) {
    for (double share = 0.02; share < 0.99; share += 0.01) {
        const int n = tries_for(share, 0.95);
        EXPECT_LE(failing_at_most_1(n, 0, 0.95), share);
        if (n > 1) {
            EXPECT_GT(failing_at_most_1(n - 1, 0, 0.95), share);
        }
    }
    EXPECT_EQ(tries_for(1 - std::pow(1 - 0.95, 1.0 / 7), 0.95), 7);
}

// Worked out by hand, 95 % and a uniform prior.
TEST(RatesConsistency, CountsOfThreeShopsHaveTheIntervalsWorkedOutByHand) {
    constexpr struct {
        Counts c;
        double low, high;
    } rows[] = {{{6, 5}, 0.42, 0.96}, {{6, 6}, 0.59, 1.00}, {{30, 26}, 0.70, 0.95}};
    for (const auto& r : rows) {
        const Interval i = interval_of(rate_of(r.c), 0.95);
        EXPECT_NEAR(i.low_1, r.low, 0.005) << r.c.succeeded;
        EXPECT_NEAR(i.high_1, r.high, 0.005) << r.c.succeeded;
    }
}

TEST(RatesProperty, IntervalsHoldTheirShareOfTheBeta) {
    for (int n = 0; n <= 30; n += 3)
        for (int s = 0; s <= n; s += 2)
            for (int kn = 0; kn <= 20; kn += 5) {
                const Rate r = shrunk({n, s}, {kn, kn / 2}, 4);
                const Interval i = interval_of(r, 0.9);
                EXPECT_NEAR(boost::math::ibeta(r.a_1, r.b_1, i.high_1) - boost::math::ibeta(r.a_1, r.b_1, i.low_1), 0.9, 1e-9);
                EXPECT_NEAR(boost::math::ibeta(r.a_1, r.b_1, i.low_1), 0.05, 1e-9);
            }
}

TEST(RatesProperty, WithoutTriesOfItsOwnItIsItsKindAndWithManyItIsItself) {
    const Counts kind{40, 30};
    EXPECT_NEAR(shrunk({0, 0}, kind, 4).mean_1(), rate_of(kind).mean_1(), 1e-12);
    EXPECT_NEAR(shrunk({100000, 20000}, kind, 4).mean_1(), 0.2, 1e-4);
    // Nothing of its kind either: the uniform prior.
    const Rate alone = shrunk({6, 5}, {0, 0}, 4);
    EXPECT_EQ(alone.a_1, 6);
    EXPECT_EQ(alone.b_1, 2);
    // In between it lies in between, and nearer to itself the more it was tried.
    double before = rate_of(kind).mean_1();
    for (int n = 5; n <= 50; n += 5) {
        const double mean = shrunk({n, n / 5}, kind, 4).mean_1();
        EXPECT_LT(mean, before);
        EXPECT_GT(mean, 0.2);
        before = mean;
    }
}

// Rates drawn from what the prior says: then 90 % of the intervals hold the true one. A test of the code, not of any shop.
TEST(RatesConsistency, NineOfTenIntervalsHoldTheTrueRateWhereThePriorIsTrue) {
    std::mt19937_64 luck(7);
    constexpr int runs = 20000;
    constexpr double m = 4;
    const Counts kind{38, 27};  // mean (27 + 1) / (38 + 2) = 0.7
    int held = 0;
    for (int run = 0; run < runs; ++run) {
        std::gamma_distribution<> x(m * 0.7, 1), y(m * 0.3, 1);
        const double gx = x(luck), gy = y(luck), p = gx / (gx + gy);
        const int n = static_cast<int>(luck() % 25);
        const int s = std::binomial_distribution<>(n, p)(luck);
        const Interval i = interval_of(shrunk({n, s}, kind, m), 0.9);
        held += i.low_1 <= p && p <= i.high_1;
    }
    std::printf("held the true rate: %d of %d\n", held, runs);
    EXPECT_NEAR(held, 0.9 * runs, 3 * std::sqrt(runs * 0.9 * 0.1));
}

TEST(RatesRefusal, CountsThatCannotBeAreABug) {
    EXPECT_THROW(failing_at_most_1(2, 3, 0.95), hw::Bug);
    EXPECT_THROW(rate_of({2, 3}), hw::Bug);
    EXPECT_THROW(tries_for(0, 0.95), hw::Bug);
}

}  // namespace
