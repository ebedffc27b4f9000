#include "core/chem/drop_titration.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <vector>

namespace hw::chem {
namespace {

/// By hand, on paper: 24 drops of 0.05 g, 0.8 mol/kg, into 1 g.
///   r = 24 x 0.05 x 0.8 / 1 = 0.960 mol/kg
///   one drop 0.040; u_count = 0.040/sqrt 3 = 0.02309; u_drop = 0.96 x 0.10/1.645 = 0.05836; u_c = u_m = 0.96 x 0.05/1.645 = 0.02918
///   u^2 = 0.000533 + 0.003406 + 2 x 0.000851 = 0.005642; u = 0.0751; half = 1.645 x 0.0751 = 0.1236
TEST(DropTitrationConsistency, GivesTheExampleWorkedByHand) {
    const auto r = reserve_from_drops({24, 0.05, 0.8, 1, 1, 0.10, 0.05, 0.05, 0});
    EXPECT_NEAR(r.mol_kg, 0.960, 5e-4);
    EXPECT_NEAR(r.standard_mol_kg, 0.0751, 5e-5);
    EXPECT_NEAR(r.half_mol_kg, 0.1236, 1e-4);
    EXPECT_NEAR(r.share_1[0], 0.0945, 5e-4);
    EXPECT_NEAR(std::accumulate(r.share_1.begin(), r.share_1.end(), 0.0), 1.0, 1e-12);
}

TEST(DropTitrationConsistency, AgreesWithAMonteCarloOfTheSameModel) {
    constexpr int draws = 200000;
    std::mt19937_64 random(20261201);
    std::normal_distribution<double> bell(0, 1 / bell_90);
    std::uniform_real_distribution<double> even(-1, 1);
    for (const DropTitration& t : {DropTitration{24, 0.05, 0.8, 1, 1, 0.10, 0.05, 0.05, 0}, {6, 0.05, 0.8, 1, 1, 0.10, 0.05, 0.05, 0}, {200, 0.04, 0.1, 2, 1, 0.10, 0.02, 0.01, 0.05}, {3, 0.05, 0.1, 1, 1, 0, 0, 0, 0}}) {
        const auto r = reserve_from_drops(t);
        std::vector<double> all;
        double sum = 0, square = 0, inside = 0;
        for (int i = 0; i < draws; ++i) {
            const double n = t.drops_1 + t.count_half_1 * even(random), g = t.drop_g * (1 + t.drop_half_1 * bell(random)), c = t.titrant_mol_kg * (1 + t.titrant_half_1 * bell(random)), m = t.sample_g * (1 + t.sample_half_1 * bell(random));
            const double x = n * g * c / m + t.end_half_mol_kg * bell(random);
            sum += x;
            square += x * x;
            inside += std::abs(x - r.mol_kg) <= r.half_mol_kg;
        }
        const double mean = sum / draws, deviation = std::sqrt(square / draws - mean * mean);
        // First order leaves out terms of the size of the squared relative uncertainty; the draws themselves scatter by 1/sqrt(2 n).
        const double relative = r.standard_mol_kg / r.mol_kg, slack = relative * relative + 4 / std::sqrt(2.0 * draws);
        EXPECT_NEAR(deviation / r.standard_mol_kg, 1, slack) << t.drops_1;
        EXPECT_NEAR(mean / r.mol_kg, 1, relative * relative + 4 * relative / std::sqrt(draws)) << t.drops_1;
        // Nine in ten of a bell; where the count alone is unsure 1.645/sqrt 3 of its width: 95 in 100. A mixture lies between.
        const double scatter = 4 * std::sqrt(0.09 / draws);
        EXPECT_GT(inside / draws, 0.90 - scatter - relative * relative) << t.drops_1;
        EXPECT_LT(inside / draws, 0.95 + scatter) << t.drops_1;
    }
}

TEST(DropTitrationProperty, GrowsWithDropsAndStrengthAndShrinksWithTheSample) {
    const DropTitration t{24, 0.05, 0.8, 1, 1, 0.1, 0.05, 0.05, 0.01};
    const double r = reserve_from_drops(t).mol_kg;
    DropTitration other = t;
    other.drops_1 *= 2;
    EXPECT_DOUBLE_EQ(reserve_from_drops(other).mol_kg, 2 * r);
    EXPECT_LT(reserve_from_drops(other).half_mol_kg / (2 * r), reserve_from_drops(t).half_mol_kg / r) << "more drops are surer";
    other = t;
    other.sample_g *= 2;
    EXPECT_DOUBLE_EQ(reserve_from_drops(other).mol_kg, r / 2);
    other = t;
    other.drops_1 = 0;
    EXPECT_EQ(reserve_from_drops(other).mol_kg, 0);
    EXPECT_GT(reserve_from_drops(other).half_mol_kg, 0) << "no drop is not nothing";
}

}  // namespace
}  // namespace hw::chem
