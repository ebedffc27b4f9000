#include "core/belief/net.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <random>

namespace hw::belief {
namespace {

struct RandomNet {
    NetShape shape;
    NetPrior prior;
    std::vector<Seen> seen;
    std::vector<std::vector<double>> answers;
};

RandomNet random_net(std::mt19937_64& r, std::size_t places) {
    std::uniform_real_distribution<double> u(0.001, 1);
    const auto upto = [&](std::size_t least, std::size_t most) { return least + r() % (most - least + 1); };
    RandomNet n;
    n.shape = {upto(2, 12), upto(1, 4), upto(0, 4)};
    for (std::size_t i = 0; i < n.shape.classes * n.shape.sorts; ++i) n.prior.class_sort_1.push_back(r() % 8 == 0 && i > 0 ? 0 : u(r));
    for (std::size_t p = 0; p < places; ++p) {
        std::vector<double> veils;
        for (std::size_t v = 0; v < n.shape.veils; ++v) veils.push_back(u(r));
        n.prior.veil_1.push_back(veils);
    }
    for (std::size_t k = upto(0, 8); k > 0; --k) {
        Seen s;
        s.place = r() % places;
        for (std::size_t i = 0; i < n.shape.states(); ++i) s.chance_1.push_back(u(r));
        n.seen.push_back(s);
    }
    n.answers.assign(upto(2, 5), std::vector<double>(n.shape.states()));
    for (std::size_t i = 0; i < n.shape.states(); ++i) {
        double sum = 0;
        for (auto& a : n.answers) sum += a[i] = u(r);
        for (auto& a : n.answers) a[i] /= sum;
    }
    return n;
}

/// Every state of the whole thing, one after the other: class, sort and the veils of all places at once, in plain products.
struct ByHand {
    std::vector<double> class_sort;
    std::vector<std::vector<double>> veil;
    std::vector<double> joint_first;   ///< states at place 0
    double evidence = 0;
};
ByHand by_hand(const RandomNet& n) {
    const auto& s = n.shape;
    const std::size_t places = n.prior.veil_1.size();
    ByHand out{std::vector<double>(s.classes * s.sorts, 0), std::vector<std::vector<double>>(places, std::vector<double>(s.veils, 0)), std::vector<double>(s.states(), 0), 0};
    double prior_sum = 0;
    for (const double p : n.prior.class_sort_1) prior_sum += p;
    const std::size_t veilings = std::size_t{1} << (s.veils * places);
    for (std::size_t as = 0; as < s.classes * s.sorts; ++as)
        for (std::size_t all = 0; all < veilings; ++all) {
            double p = n.prior.class_sort_1[as] / prior_sum;
            for (std::size_t b = 0; b < s.veils * places; ++b) {
                const double there = n.prior.veil_1[b / s.veils][b % s.veils];
                p *= (all >> b & 1) != 0 ? there : 1 - there;
            }
            const auto mask_of = [&](std::size_t place) { return all >> (place * s.veils) & (s.masks() - 1); };
            for (const auto& e : n.seen) p *= e.chance_1[as * s.masks() + mask_of(e.place)];
            out.evidence += p;
            out.class_sort[as] += p;
            out.joint_first[as * s.masks() + mask_of(0)] += p;
            for (std::size_t b = 0; b < s.veils * places; ++b)
                if ((all >> b & 1) != 0) out.veil[b / s.veils][b % s.veils] += p;
        }
    for (double& x : out.class_sort) x /= out.evidence;
    for (double& x : out.joint_first) x /= out.evidence;
    for (auto& v : out.veil)
        for (double& x : v) x /= out.evidence;
    return out;
}

constexpr double exact = 1e-12;

TEST(NetConsistency, AThousandRandomNetsAgreeWithEveryStateAddedUpByHand) {
    std::mt19937_64 r(20260101);
    for (int run = 0; run < 1000; ++run) {
        const RandomNet n = random_net(r, 1 + r() % 2);
        const ByHand want = by_hand(n);
        const auto got = inferred(n.shape, n.prior, n.seen).value();
        for (std::size_t i = 0; i < want.class_sort.size(); ++i) ASSERT_NEAR(got.class_sort_1[i], want.class_sort[i], exact) << run;
        for (std::size_t p = 0; p < want.veil.size(); ++p)
            for (std::size_t v = 0; v < want.veil[p].size(); ++v) ASSERT_NEAR(got.veil_1[p][v], want.veil[p][v], exact) << run;
        ASSERT_NEAR(std::exp(got.log_evidence) / want.evidence, 1, exact) << run;
        const auto joint = joint_at(n.shape, n.prior, n.seen, 0).value();
        for (std::size_t i = 0; i < joint.size(); ++i) ASSERT_NEAR(joint[i], want.joint_first[i], exact) << run;
    }
}

TEST(NetConsistency, TheGainIsWhatAskingEveryAnswerGives) {
    std::mt19937_64 r(7);
    for (int run = 0; run < 1000; ++run) {
        RandomNet n = random_net(r, 1 + r() % 2);
        const auto now = inferred(n.shape, n.prior, n.seen).value();
        const NetGain got = gain(n.shape, joint_at(n.shape, n.prior, n.seen, 0).value(), n.answers);
        double expected = entropy_bits(now.class_sort_1);
        for (std::size_t a = 0; a < n.answers.size(); ++a) {
            auto with = n.seen;
            with.push_back({0, n.answers[a]});
            const auto after = inferred(n.shape, n.prior, with).value();
            const double chance = std::exp(after.log_evidence - now.log_evidence);
            EXPECT_NEAR(got.outcome_1[a], chance, exact);
            for (std::size_t i = 0; i < after.class_sort_1.size(); ++i) ASSERT_NEAR(got.after_1[a][i], after.class_sort_1[i], exact);
            expected -= chance * entropy_bits(after.class_sort_1);
        }
        EXPECT_NEAR(got.bits, std::max(0.0, expected), exact * 10) << run;
    }
}

TEST(NetProperty, OrderAndWhatSaysNothingDoNotMatter) {
    std::mt19937_64 r(11);
    for (int run = 0; run < 200; ++run) {
        RandomNet n = random_net(r, 2);
        const auto before = inferred(n.shape, n.prior, n.seen).value();
        std::shuffle(n.seen.begin(), n.seen.end(), r);
        n.seen.push_back({1, std::vector<double>(n.shape.states(), 0.37)});
        const auto after = inferred(n.shape, n.prior, n.seen).value();
        for (std::size_t i = 0; i < before.class_sort_1.size(); ++i) EXPECT_NEAR(before.class_sort_1[i], after.class_sort_1[i], exact);
        std::vector<std::vector<double>> flat(3, std::vector<double>(n.shape.states(), 1.0 / 3));
        EXPECT_NEAR(gain(n.shape, joint_at(n.shape, n.prior, n.seen, 0).value(), flat).bits, 0, exact);
    }
}

TEST(NetProperty, ManySmallChancesDoNotVanish) {
    const NetShape shape{2, 1, 0};
    std::vector<Seen> seen(400, {0, {1e-3, 1e-3 * 1.01}});
    const auto got = inferred(shape, {{1, 1}, {{}}}, seen).value();
    EXPECT_NEAR(got.class_sort_1[1] / got.class_sort_1[0] / std::pow(1.01, 400), 1, 1e-9);
}

TEST(NetRefusal, WhatCannotBeIsSaid) {
    const auto got = inferred({2, 1, 0}, {{1, 0}, {{}}}, {{0, {0, 1}}});
    ASSERT_FALSE(got.ok());
    EXPECT_EQ(got.error().where, "saw");
}

TEST(BetaQuantileConsistency, AgreesWithClosedForms) {
    for (const double u : {0.001, 0.05, 0.5, 0.95}) {
        EXPECT_NEAR(beta_quantile(1, 1, u), u, 1e-14);
        for (const double a : {0.3, 2.0, 9.5}) {
            EXPECT_NEAR(beta_quantile(a, 1, u), std::pow(u, 1 / a), 1e-12);                 // F = x^a
            EXPECT_NEAR(beta_quantile(1, a, u), -std::expm1(std::log1p(-u) / a), 1e-12);    // F = 1 - (1 - x)^b
        }
        EXPECT_NEAR(boost::math::ibeta(2.5, 7.5, beta_quantile(2.5, 7.5, u)), u, 1e-12);
    }
}

}  // namespace
}  // namespace hw::belief
