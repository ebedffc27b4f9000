#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <set>

#include "core/belief/points.hpp"
#include "core/belief/spread.hpp"
#include "core/belief/summary.hpp"
#include "tests/support/reference.hpp"

namespace {

using namespace hw;
using belief::Spread;
using Shape = Spread::Shape;

std::vector<std::vector<double>> points(std::size_t n, std::size_t d, std::uint64_t seed = 0) {
    auto p = belief::even_points(n, d, seed);
    EXPECT_TRUE(p.ok());
    return *p;
}

TEST(PointsProperty, EveryStripOfEveryCoordinateHoldsOnePoint) {
    for (std::size_t n : {2U, 64U, 1024U}) {
        const auto p = points(n, 24);
        for (std::size_t d = 0; d < 24; ++d) {
            std::set<std::size_t> strips;
            for (const auto& x : p) {
                ASSERT_TRUE(x[d] > 0 && x[d] < 1);
                strips.insert(static_cast<std::size_t>(x[d] * static_cast<double>(n)));
            }
            EXPECT_EQ(strips.size(), n) << "coordinate " << d;
        }
    }
}

// A (t, m, s)-net also fills rectangles: of the first two coordinates (t = 0) every box of 32 by 32 holds one of 1,024.
TEST(PointsProperty, TheFirstTwoCoordinatesFillEveryBox) {
    std::set<std::pair<int, int>> boxes;
    for (const auto& x : points(1024, 2)) boxes.insert({static_cast<int>(x[0] * 32), static_cast<int>(x[1] * 32)});
    EXPECT_EQ(boxes.size(), 1024U);
}

TEST(PointsProperty, TheSameSeedGivesTheSamePointsAndAnotherSeedOthers) {
    EXPECT_EQ(points(256, 5, 7), points(256, 5, 7));
    EXPECT_NE(points(256, 5, 7), points(256, 5, 8));
}

TEST(PointsRefusal, ACountThatIsNoPowerOfTwoNamesTheField) {
    for (std::size_t n : {0U, 1U, 3U, 1000U, 1U << 21}) {
        const auto p = belief::even_points(n, 2);
        ASSERT_FALSE(p.ok()) << n;
        EXPECT_EQ(p.error().where, "members");
    }
}

const std::vector<Spread> shapes{
    {Shape::Even, -1, 0, 4, -1e9, 1e9},      {Shape::Tent, 0.7, 0.95, 1.2, -1e9, 1e9}, {Shape::Tent, 0, 0, 1, -1e9, 1e9},
    {Shape::Bell, 3.4, 3.9, 4.2, 2, 12},     {Shape::Bell, 3.4, 3.9, 4.2, 3.5, 4.0},   {Shape::RatioBell, 0.333, 1, 3, 0, 1e9},
    {Shape::RatioBell, 0.333, 1, 3, 2, 1e9}, {Shape::RatioBell, 0.5, 1, 3, 0, 0.9},
};

TEST(SpreadProperty, QuantileAndShareBelowAreEachOthersInverse) {
    for (const auto& s : shapes) {
        double before = -1e300;
        for (double u = 0.001; u < 1; u += 0.0499) {
            const double x = belief::quantile(s, u);
            EXPECT_GT(x, before);
            EXPECT_NEAR(belief::below(s, x), u, 1e-9);
            EXPECT_GE(x, s.least);
            EXPECT_LE(x, s.most);
            before = x;
        }
    }
}

TEST(SpreadProperty, TheStatedEndsOfABellHoldNineTenths) {
    for (const Spread& s : {shapes[3], shapes[5]}) {
        Spread whole = s;
        whole.least = -1e9, whole.most = 1e9;
        EXPECT_NEAR(belief::quantile(whole, 0.05), s.low, 1e-9);
        EXPECT_NEAR(belief::quantile(whole, 0.5), s.middle, 1e-9);
        EXPECT_NEAR(belief::quantile(whole, 0.95), s.high, 1e-9);
    }
}

TEST(SpreadProperty, ACutFarFromTheBeliefStaysAtItsNearerEnd) {
    EXPECT_EQ(belief::quantile({Shape::Bell, 3, 4, 5, 30, 40}, 0.3), 30);
    EXPECT_EQ(belief::quantile({Shape::Known, 0, 5, 0, -1e9, 1e9}, 0.3), 5);
}

TEST(SpreadProperty, PickingFollowsTheWeights) {
    const std::vector<double> weights{0.2, 0, 0.5, 0.1};
    std::vector<int> n(4);
    for (int i = 0; i < 800; ++i) ++n[belief::pick(weights, (i + 0.5) / 800)];
    EXPECT_EQ(n, (std::vector<int>{200, 0, 500, 100}));
}

TEST(SummaryProperty, QuantilesOfASmallSampleAreThoseOfDefinitionSeven) {
    const auto q = belief::quantiles({4, 1, 3, 2}, {0, 0.25, 0.5, 0.9, 1});
    EXPECT_EQ(q[0], 1);
    EXPECT_DOUBLE_EQ(q[1], 1.75);
    EXPECT_DOUBLE_EQ(q[2], 2.5);
    EXPECT_DOUBLE_EQ(q[3], 3.7);
    EXPECT_EQ(q[4], 4);
    EXPECT_EQ(belief::five({5}).low_90, 5);
}

TEST(SummaryProperty, NoneOfSixtyFourIsNotCertainty) {
    EXPECT_GT(belief::share_error(0, 64), 0.01);
    EXPECT_NEAR(belief::share_error(0.5, 1024), 0.0156, 1e-3);
}

/// Indices against printed ones. The tolerance is three of the standard errors that the method states for itself.
void expect_indices(const char* what, const char* source, const std::vector<std::vector<double>>& u, const std::vector<double>& y, const std::vector<double>& printed) {
    const auto s = belief::first_order(u, y);
    for (std::size_t d = 0; d < printed.size(); ++d)
        test::check(std::string(what) + ", S" + std::to_string(d + 1), source, "first-order indices", printed[d], s[d].share_1, std::max(5e-5, 3 * s[d].plus_minus_1),
                    "half a unit of the last digit, or three standard errors that the method states");
}

double ishigami(const std::vector<double>& u) {
    const auto x = [&](std::size_t i) { return std::numbers::pi * (2 * u[i] - 1); };
    const double s2 = std::sin(x(1));
    return std::sin(x(0)) + 7 * s2 * s2 + 0.1 * std::pow(x(2), 4) * std::sin(x(0));
}

double g_function(const std::vector<double>& u, const std::vector<double>& a) {
    double y = 1;
    for (std::size_t i = 0; i < a.size(); ++i) y *= (std::abs(4 * u[i] - 2) + a[i]) / (1 + a[i]);
    return y;
}

TEST(SensitivityReference, IndicesOfTheIshigamiFunction) {
    const auto u = points(4096, 3);
    std::vector<double> y;
    for (const auto& p : u) y.push_back(ishigami(p));
    expect_indices("Ishigami function, a 7, b 0.1", "ishigami1990", u, y, {0.3139, 0.4424, 0});
}

TEST(SensitivityReference, IndicesOfTheGFunction) {
    const std::vector<double> a{0, 1, 4.5, 9, 99, 99, 99, 99};
    const auto u = points(4096, a.size());
    std::vector<double> y;
    for (const auto& p : u) y.push_back(g_function(p, a));
    expect_indices("g-function of Sobol, a 0 1 4.5 9 99 99 99 99", "saltelli1995", u, y, {0.7162, 0.1790, 0.0237, 0.0072, 0.0001});
}

// Leaving out every eighth member left whole strips of the first coordinates out: y = x0 was 0.99 ± 0.26, y = x2 alone ± 0.007.
TEST(SensitivityIssue, EqualPartsGetEqualErrors) {
    constexpr std::size_t coordinates = 8;
    const auto u = points(1024, coordinates);
    std::vector<double> errors;
    for (std::size_t d = 0; d < coordinates; ++d) {
        std::vector<double> y;
        for (const auto& p : u) y.push_back(p[d]);
        errors.push_back(belief::first_order(u, y)[d].plus_minus_1);
    }
    for (double e : errors) EXPECT_NEAR(e, errors.front(), errors.front() / 10);
}

// A normal error holds 95 % within two of it: a hundred ensembles, each with points of their own.
TEST(SensitivityProperty, TwoStatedErrorsHoldTheTruthInNineteenOfTwenty) {
    constexpr int ensembles = 100;
    const std::vector<double> a{0, 1, 4.5, 9, 99, 99, 99, 99};
    const auto share_held = [&](std::size_t members, std::size_t dimensions, const auto& model, const std::vector<double>& truth) {
        std::vector<int> held(truth.size());
        for (int seed = 1; seed <= ensembles; ++seed) {
            const auto u = points(members, dimensions, static_cast<std::uint64_t>(seed));
            std::vector<double> y;
            for (const auto& p : u) y.push_back(model(p));
            const auto s = belief::first_order(u, y);
            for (std::size_t d = 0; d < truth.size(); ++d) held[d] += std::abs(s[d].share_1 - truth[d]) <= 2 * s[d].plus_minus_1;
        }
        return *std::min_element(held.begin(), held.end());
    };
    for (const std::size_t members : {1024U, 4096U}) {
        EXPECT_GE(share_held(members, 3, ishigami, {0.3139, 0.4424, 0}), 95) << members;
        EXPECT_GE(share_held(members, a.size(), [&](const auto& u) { return g_function(u, a); }, {0.7162, 0.1790, 0.0237, 0.0072}), 95) << members;
        EXPECT_GE(share_held(members, 6, [](const auto& u) { return u[0] + u[1] + u[2] + u[3] + u[4] + u[5]; }, std::vector<double>(6, 1.0 / 6)), 95) << members;
    }
}

TEST(SensitivityProperty, TheStatedErrorShrinksWithMembers) {
    double before = 1;
    for (std::size_t n : {256U, 1024U, 4096U}) {
        const auto u = points(n, 3, 3);
        std::vector<double> y;
        for (const auto& p : u) y.push_back(ishigami(p));
        const auto s = belief::first_order(u, y);
        EXPECT_LT(s[1].plus_minus_1, before);
        before = s[1].plus_minus_1;
    }
}

TEST(SensitivityProperty, ASumOfUnequalPartsIsSharedByTheirVariances) {
    const auto u = points(1024, 4);
    std::vector<double> y;
    for (const auto& p : u) y.push_back(3 * p[0] + p[1] - 2 * p[2]);
    const auto s = belief::first_order(u, y);
    EXPECT_NEAR(s[0].share_1, 9.0 / 14, 3 * s[0].plus_minus_1 + 1e-3);
    EXPECT_NEAR(s[1].share_1, 1.0 / 14, 3 * s[1].plus_minus_1 + 1e-3);
    EXPECT_NEAR(s[2].share_1, 4.0 / 14, 3 * s[2].plus_minus_1 + 1e-3);
    EXPECT_LE(s[3].share_1, 3 * s[3].plus_minus_1 + 1e-3);
    for (const auto& none : belief::first_order(u, std::vector<double>(1024, 7.0))) EXPECT_EQ(none.share_1, 0);
}

// Calibration by simulation: truths drawn at random from the same beliefs fall evenly among the members of the ensemble.
TEST(BeliefProperty, RanksOfSimulatedTruthsAreEven) {
    constexpr std::size_t truths = 4000, bins = 20, members = 1024;
    const auto model = [](double a, double b, double c) { return std::log(belief::quantile(shapes[5], a)) * belief::quantile(shapes[3], b) + belief::quantile(shapes[1], c); };
    std::vector<double> y;
    for (const auto& p : points(members, 3)) y.push_back(model(p[0], p[1], p[2]));
    std::sort(y.begin(), y.end());
    const auto band = belief::five(y);
    std::mt19937_64 random(20261125);
    std::uniform_real_distribution<double> even(1e-12, 1 - 1e-12);
    std::vector<int> hits(bins);
    int in_50 = 0, in_90 = 0;
    for (std::size_t t = 0; t < truths; ++t) {
        const double truth = model(even(random), even(random), even(random));
        const auto rank = static_cast<std::size_t>(std::lower_bound(y.begin(), y.end(), truth) - y.begin());
        ++hits[std::min(bins - 1, rank * bins / (members + 1))];
        in_50 += truth >= band.low_50 && truth <= band.high_50;
        in_90 += truth >= band.low_90 && truth <= band.high_90;
    }
    const auto near_share = [](int n, double share) {
        const double mean = truths * share, deviation = std::sqrt(truths * share * (1 - share));
        EXPECT_NEAR(n, mean, 3 * deviation);
    };
    for (int n : hits) near_share(n, 1.0 / bins);
    near_share(in_50, 0.5);
    near_share(in_90, 0.9);
}

}  // namespace
