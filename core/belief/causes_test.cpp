#include "core/belief/causes.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/belief/successes.hpp"

namespace hw::belief {
namespace {

struct Case {
    CauseNet net;
    std::vector<SeenSign> seen;
};

double draw(std::mt19937_64& from, double low, double high) { return std::uniform_real_distribution<double>(low, high)(from); }

Case random_case(std::mt19937_64& from) {
    Case c;
    const std::size_t causes = 1 + from() % 8, signs = 1 + from() % 10;
    for (std::size_t j = 0; j < causes; ++j) c.net.prior_1.push_back(draw(from, 0.001, 0.6));
    for (std::size_t i = 0; i < signs; ++i) {
        c.net.leak_1.push_back(draw(from, 0.001, 0.3));
        c.net.chance_1.emplace_back();
        for (std::size_t j = 0; j < causes; ++j) c.net.chance_1.back().push_back(from() % 3 == 0 ? 0 : draw(from, 0.01, 0.99));
        switch (from() % 4) {
            case 0: c.seen.push_back({i, 1, 0}); break;
            case 1: c.seen.push_back({i, 0, 1}); break;
            case 2: c.seen.push_back({i, draw(from, 0.02, 1), draw(from, 0.02, 1)}); break;
            default: break;
        }
    }
    return c;
}

/// Chance of what was seen given a subset of the causes, straight from the definition.
double likelihood(const Case& c, std::size_t subset) {
    double out = 1;
    for (const auto& s : c.seen) {
        double none = 1 - c.net.leak_1[s.sign];
        for (std::size_t j = 0; j < c.net.prior_1.size(); ++j)
            if ((subset >> j & 1U) != 0) none *= 1 - c.net.chance_1[s.sign][j];
        out *= s.if_there * (1 - none) + s.if_not * none;
    }
    return out;
}
double prior(const Case& c, std::size_t subset) {
    double out = 1;
    for (std::size_t j = 0; j < c.net.prior_1.size(); ++j) out *= (subset >> j & 1U) != 0 ? c.net.prior_1[j] : 1 - c.net.prior_1[j];
    return out;
}

TEST(CausesConsistency, AThousandRandomNetsAgreeWithTheListOfAllSubsets) {
    std::mt19937_64 from(20261201);
    double worst = 0, worst_log = 0;
    for (int n = 0; n < 1000; ++n) {
        const Case c = random_case(from);
        const std::size_t causes = c.net.prior_1.size();
        double evidence = 0;
        std::vector<double> with(causes, 0.0);
        for (std::size_t s = 0; s < (std::size_t{1} << causes); ++s) {
            const double w = prior(c, s) * likelihood(c, s);
            evidence += w;
            for (std::size_t j = 0; j < causes; ++j)
                if ((s >> j & 1U) != 0) with[j] += w;
        }
        const auto got = posterior_of(c.net, c.seen);
        ASSERT_TRUE(got.ok()) << got.error().message;
        for (std::size_t j = 0; j < causes; ++j) worst = std::max(worst, std::abs(got->there_1[j] - with[j] / evidence));
        worst_log = std::max(worst_log, std::abs(got->log_evidence - std::log(evidence)));
    }
    std::cout << "largest difference of a posterior " << worst << ", of the log evidence " << worst_log << "\n";
    EXPECT_LE(worst, 1e-12);
    EXPECT_LE(worst_log, 1e-12);
}

TEST(CausesConsistency, WhatATestTellsAgreesWithTheListOfItsOutcomes) {
    std::mt19937_64 from(7);
    double worst = 0;
    for (int n = 0; n < 300; ++n) {
        Case c = random_case(from);
        const std::size_t causes = c.net.prior_1.size();
        std::vector<std::size_t> chosen{0};
        if (causes > 1) chosen.push_back(causes - 1);
        std::vector<std::size_t> chain;
        for (std::size_t i = 0; i < c.net.leak_1.size() && chain.size() < 2; ++i)
            if (std::none_of(c.seen.begin(), c.seen.end(), [&](const SeenSign& s) { return s.sign == i; })) chain.push_back(i);
        const std::size_t states = std::size_t{1} << chosen.size();
        std::vector<std::vector<double>> table(chain.size() + 1, std::vector<double>(states, 0.0));
        double sum = 0;
        for (std::size_t s = 0; s < (std::size_t{1} << causes); ++s) {
            std::size_t state = 0;
            for (std::size_t k = 0; k < chosen.size(); ++k) state |= (s >> chosen[k] & 1U) << k;
            double rest = prior(c, s) * likelihood(c, s);
            sum += rest;
            for (std::size_t t = 0; t < chain.size(); ++t) {
                double none = 1 - c.net.leak_1[chain[t]];
                for (std::size_t j = 0; j < causes; ++j)
                    if ((s >> j & 1U) != 0) none *= 1 - c.net.chance_1[chain[t]][j];
                table[t][state] += rest * (1 - none);
                rest *= none;
            }
            table[chain.size()][state] += rest;
        }
        double expected = 0;
        for (const auto& row : table) {
            double p = 0;
            for (double x : row) p += x / sum;
            for (std::size_t state = 0; state < states; ++state) {
                double h = 0;
                for (const auto& other : table) h += other[state] / sum;
                if (row[state] > 0) expected += row[state] / sum * std::log2(row[state] / sum / (p * h));
            }
        }
        const auto got = worth_of(c.net, c.seen, chosen, chain);
        ASSERT_TRUE(got.ok()) << got.error().message;
        worst = std::max(worst, std::abs(*got - expected));
    }
    std::cout << "largest difference " << worst << " bit\n";
    EXPECT_LE(worst, 1e-11);
}

TEST(CausesProperty, OrderDoesNotMatterAndWhatTouchesNoCauseMovesNothing) {
    std::mt19937_64 from(11);
    for (int n = 0; n < 200; ++n) {
        Case c = random_case(from);
        const auto one = posterior_of(c.net, c.seen);
        std::shuffle(c.seen.begin(), c.seen.end(), from);
        const auto two = posterior_of(c.net, c.seen);
        c.net.leak_1.push_back(0.2);
        c.net.chance_1.emplace_back(c.net.prior_1.size(), 0.0);
        c.seen.push_back({c.net.leak_1.size() - 1, 1, 0});
        const auto three = posterior_of(c.net, c.seen);
        ASSERT_TRUE(one.ok() && two.ok() && three.ok());
        for (std::size_t j = 0; j < c.net.prior_1.size(); ++j) {
            EXPECT_NEAR(one->there_1[j], two->there_1[j], 1e-13);
            EXPECT_NEAR(one->there_1[j], three->there_1[j], 1e-13);
        }
    }
}

TEST(CausesConsistency, TheJointOfTwoAddsUpToTheSingleOnes) {
    std::mt19937_64 from(5);
    for (int n = 0; n < 200; ++n) {
        const Case c = random_case(from);
        if (c.net.prior_1.size() < 2) continue;
        const auto all = posterior_of(c.net, c.seen);
        const auto two = joint_of(c.net, c.seen, {0, 1});
        ASSERT_TRUE(all.ok() && two.ok());
        EXPECT_NEAR((*two)[1] + (*two)[3], all->there_1[0], 1e-12);
        EXPECT_NEAR((*two)[2] + (*two)[3], all->there_1[1], 1e-12);
    }
}

TEST(CausesRefusal, SaysWhatDoesNotFit) {
    CauseNet net{{0.5}, {0.1}, {{0.5}}};
    EXPECT_EQ(posterior_of(net, {{0, 1, 0}, {0, 1, 0}}).error().where, "seen");
    EXPECT_EQ(posterior_of(net, {{3, 1, 0}}).error().code, ErrorCode::InvalidInput);
    net.prior_1[0] = 1.5;
    EXPECT_EQ(posterior_of(net, {}).error().where, "net");
    CauseNet wide{{0.5}, std::vector<double>(19, 0.1), std::vector<std::vector<double>>(19, {0.5})};
    std::vector<SeenSign> all;
    for (std::size_t i = 0; i < 19; ++i) all.push_back({i, 1, 0});
    EXPECT_EQ(posterior_of(wide, all).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(posterior_of({{0.0}, {0.0}, {{0.5}}}, {{0, 1, 0}}).error().code, ErrorCode::NotConverged);
}

TEST(SuccessesConsistency, ClosedFormsOfTheBetaBinomial) {
    // Beta(1, 1): every number of good results is as likely; the interval of the share is 5 to 95 %.
    for (int k = 0; k <= 4; ++k) EXPECT_NEAR(*success_chance({1, 1}, k, 4), 0.2, 1e-13);
    const auto flat = success_band({1, 1});
    EXPECT_NEAR(flat->low_1, 0.05, 1e-12);
    EXPECT_NEAR(flat->high_1, 0.95, 1e-12);
    // Beta(n, 1): distribution function x^n.
    EXPECT_NEAR(success_band({3, 1})->low_1, std::cbrt(0.05), 1e-12);
    EXPECT_NEAR(success_band({7, 3})->mean_1, 0.7, 1e-15);
    double sum = 0;
    for (int k = 0; k <= 10; ++k) sum += *success_chance({7, 3}, k, 10);
    EXPECT_NEAR(sum, 1, 1e-12);
    EXPECT_EQ(success_band({0, 1}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(success_chance({1, 1}, 3, 2).error().where, "k");
}

}  // namespace
}  // namespace hw::belief
