#include "core/leather/covering.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <random>

namespace hw::leather {
namespace {

std::vector<std::size_t> all_of(std::size_t n) {
    std::vector<std::size_t> out(n);
    std::iota(out.begin(), out.end(), std::size_t{0});
    return out;
}

TEST(CoveringProperty, EveryRowOfTheAtlasAddsUpAndLeavesNothingImpossible) {
    const CoverTables t = cover_tables();
    for (std::size_t i = 0; i < t.tests.size(); ++i) {
        const auto whole = chance_of(t, i, all_of(t.tests[i].answers.size()));
        for (const double c : whole) ASSERT_NEAR(c, 1, 1e-12) << t.tests[i].key;
        for (std::size_t a = 0; a < t.tests[i].answers.size(); ++a)
            for (const double c : chance_of(t, i, {a})) ASSERT_GT(c, 0) << t.tests[i].key;
    }
}

TEST(CoveringProperty, WhatIsNoLeatherHasNoTannage) {
    const CoverTables t = cover_tables();
    const auto prior = prior_of(t, {"furniture", "not_known", "not_known", {{}}}).value();
    for (std::size_t k = 0; k < t.kinds.size(); ++k)
        for (std::size_t n = 0; n < t.tannages.size(); ++n) EXPECT_EQ(prior.class_sort_1[k * t.tannages.size() + n] > 0, t.tanned[k] == (t.tannages[n] != "none"));
}

TEST(CoveringConsistency, CountsMoveARowAsADirichletSays) {
    CoverTables t = cover_tables();
    const auto drop = test_of(t, "drop").value();
    const double before = t.tests[drop].rows[0].chance_1({0}), start = 10 * before;
    for (int n = 1; n <= 30; ++n) {
        count(t, drop, 0, 0, 0, 0);
        EXPECT_NEAR(t.tests[drop].rows[0].chance_1({0}), (start + n) / (10 + n), 1e-12);
    }
    // Under wax the answer is wax's, not the kind's.
    const double wax_before = t.tests[drop].hidden.back().row.counted();
    count(t, drop, 3, 0, 0, std::size_t{1} << 3);
    EXPECT_EQ(t.tests[drop].rows[0].counted(), 30);
    EXPECT_EQ(t.tests[drop].hidden.back().row.counted(), wax_before + 1);
}

TEST(CoveringConsistency, DrawsHaveTheMeanAndTheSpreadOfTheirDirichlet) {
    const CoverTables t = cover_tables();
    const auto drop = test_of(t, "drop").value();
    constexpr std::size_t members = 1024;
    CoverDraws draws(t, {"furniture", "not_known", "not_known", {{}}}, {{drop, {0}}}, members);
    const auto all = draws.all().value();
    for (const std::size_t k : {0U, 5U, 7U}) {
        const double alpha = t.tests[drop].rows[k].alpha(0), total = 10;
        double mean = 0, square = 0;
        for (const auto& d : all) {
            const double x = d.tests[drop].rows[k].chance_1({0});
            mean += x / double(members);
            square += x * x / double(members);
        }
        const double m = alpha / total, variance = m * (1 - m) / (total + 1);
        // Even points: the mean of a smooth function is off by far less than a random mean would be.
        EXPECT_NEAR(mean, m, std::sqrt(variance / members));
        EXPECT_NEAR(square - mean * mean, variance, 3 * variance * std::sqrt(2.0 / members));
    }
    EXPECT_EQ(draws.all().value()[7].tests[drop].rows[3].start_1, all[7].tests[drop].rows[3].start_1);
}

/// A test of the code, not of the tables: pieces are drawn from the tables themselves.
TEST(CoveringConsistency, OfTenThousandDrawnPiecesSoManyAreWhatWasSaidAsWasSaid) {
    const CoverTables t = cover_tables();
    const CoverContext context{"furniture", "not_known", "not_known", {{"not_said", "not_said"}}};
    const auto shape = shape_of(t);
    const auto prior = prior_of(t, context).value();
    const auto states = joint_at(shape, prior, {}, 0).value();
    std::vector<std::vector<std::vector<double>>> chance;
    for (std::size_t i = 0; i < t.tests.size(); ++i) {
        chance.emplace_back();
        for (std::size_t a = 0; a < t.tests[i].answers.size(); ++a) chance.back().push_back(chance_of(t, i, {a}));
    }
    std::mt19937_64 r(4045);
    std::discrete_distribution<std::size_t> piece(states.begin(), states.end());
    std::array<double, 10> said{}, right{}, spread{};
    std::array<int, 10> counts{};
    for (int n = 0; n < 10000; ++n) {
        const std::size_t state = piece(r);
        std::vector<belief::Seen> seen;
        for (std::size_t i = 0; i < t.tests.size(); ++i) {
            if (r() % 4 != 0) continue;
            std::vector<double> w;
            for (const auto& a : chance[i]) w.push_back(a[state]);
            seen.push_back({0, chance[i][std::discrete_distribution<std::size_t>(w.begin(), w.end())(r)]});
        }
        const auto post = inferred(shape, prior, seen).value();
        // One kind by chance on each piece: so pieces stay independent, and small chances are tried as well as large ones.
        std::vector<double> kinds(shape.classes, 0);
        for (std::size_t i = 0; i < post.class_sort_1.size(); ++i) kinds[i / shape.sorts] += post.class_sort_1[i];
        const std::size_t asked = n % 2 == 0 ? static_cast<std::size_t>(std::max_element(kinds.begin(), kinds.end()) - kinds.begin()) : r() % shape.classes;
        const auto decile = std::min<std::size_t>(9, static_cast<std::size_t>(kinds[asked] * 10));
        said[decile] += kinds[asked];
        spread[decile] += kinds[asked] * (1 - kinds[asked]);
        right[decile] += asked == state / (shape.sorts * shape.masks()) ? 1 : 0;
        ++counts[decile];
    }
    for (std::size_t d = 0; d < 10; ++d) {
        std::printf("said %3zu to %3zu %%: %5d pieces, expected %8.1f, were %5.0f (3 sd %.1f)\n", d * 10, d * 10 + 10, counts[d], said[d], right[d], 3 * std::sqrt(spread[d]));
        EXPECT_LE(std::abs(right[d] - said[d]), 3 * std::sqrt(spread[d])) << d;
    }
}

TEST(CoveringRefusal, UnknownWordsAreNamed) {
    const CoverTables t = cover_tables();
    EXPECT_EQ(prior_of(t, {"boat", "not_known", "not_known", {{}}}).error().where, "place");
    EXPECT_EQ(prior_of(t, {"car", "ancient", "not_known", {{}}}).error().where, "age");
    EXPECT_EQ(prior_of(t, {"car", "not_known", "not_known", {{"odd", "not_said"}}}).error().where, "wear");
    EXPECT_EQ(test_of(t, "burn").error().where, "test");
    EXPECT_EQ(answer_of(t.tests[0], "odd").error().where, "answers");
}

}  // namespace
}  // namespace hw::leather
