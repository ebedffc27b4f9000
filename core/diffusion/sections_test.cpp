#include "core/diffusion/sections.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string_view>

#include "tests/support/section_story.hpp"

namespace {

using namespace hw;
using namespace hw::diffusion;

/// Members of one story at random: amount, wiping, openness, buffering, start, drying.
std::vector<SectionCase> members(std::size_t count, double mesh = ensemble_mesh_1, double tolerance = ensemble_tolerance_1) {
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> even(-1, 1);
    std::vector<SectionCase> out;
    for (std::size_t i = 0; i < count; ++i) {
        const auto base = test::soda_story(60 + 50 * even(random), 60 + 30 * even(random), 5 + 4 * even(random));
        SectionCase c{base.components, base.layers, base.story, base.options};
        c.story[0].kg_m2 *= std::exp(0.7 * even(random));
        c.story[2].share_1 = 0.5 + 0.4 * even(random);
        const double open = std::exp(1.1 * even(random)), start = 4 + 0.6 * even(random), buffering = 1 + 0.2 * even(random);
        c.layers[0].water_conductivity_kg_m_s *= open;
        c.layers[0].solute_share_1 *= open;
        c.layers[2].thickness_m *= 1 + 0.2 * even(random);
        for (auto& layer : c.layers) {
            layer.start_x = start;
            layer.start_mol_m3 = {test::carbonate_of_air(c.components[0], start), 0.0};
            for (auto& site : layer.sites) site.amount_mol_kg *= buffering;
        }
        c.options.evaporation_kg_m2_s *= 1 + 0.3 * even(random);
        c.options.mesh_1 = mesh;
        c.options.tolerance_1 = tolerance;
        c.options.lean = true;
        out.push_back(std::move(c));
    }
    return out;
}

bool same_bits(const SectionResult& a, const SectionResult& b) {
    if (a.snapshots.size() != b.snapshots.size()) return false;
    for (std::size_t k = 0; k < a.snapshots.size(); ++k)
        if (a.snapshots[k].x != b.snapshots[k].x || a.snapshots[k].reading_x != b.snapshots[k].reading_x || a.snapshots[k].film_kg_m2 != b.snapshots[k].film_kg_m2) return false;
    return a.ledger.in_leather_strong_mol_m2 == b.ledger.in_leather_strong_mol_m2 && a.ledger.lost_to_air_mol_m2 == b.ledger.lost_to_air_mol_m2;
}

TEST(SectionsProperty, EveryInstructionSetAndAnyThreadsGiveTheSameBits) {
    const auto cases = members(19);  // two packs, and one that is filled up
    const auto right = run_sections(cases, 1, {}, chem::BatchTarget::Baseline);
    ASSERT_TRUE(right.ok()) << right.error().message;
    for (const auto target : {chem::BatchTarget::Baseline, chem::BatchTarget::Avx2, chem::BatchTarget::Avx512}) {
        if (target > chem::widest_batch_target()) continue;
        for (int threads : {1, 2, 3}) {
            const auto r = run_sections(cases, threads, {}, target);
            ASSERT_TRUE(r.ok());
            for (std::size_t i = 0; i < cases.size(); ++i) EXPECT_TRUE(same_bits((*r)[i], (*right)[i])) << "case " << i << ", set " << static_cast<int>(target) << ", threads " << threads;
        }
    }
}

// In lanes and alone a case takes other time steps; both must lie within what the tolerance allows of a fine run in time.
TEST(SectionsProperty, LanesAgreeWithTheSameCasesSolvedAlone) {
    const auto cases = members(16), patient = members(16, ensemble_mesh_1, 1e-5);
    const auto lanes = run_sections(cases, 2);
    ASSERT_TRUE(lanes.ok());
    for (std::size_t i = 0; i < cases.size(); ++i) {
        SectionCase c = patient[i];
        c.options.max_time_steps = 100000;
        const auto alone = run_section(c.components, c.layers, c.story, c.options);
        ASSERT_TRUE(alone.ok());
        const auto& a = alone->snapshots.back();
        const auto& b = (*lanes)[i].snapshots.back();
        for (std::size_t k = 0; k < a.x.size(); ++k) EXPECT_NEAR(a.x[k], b.x[k], ensemble_tolerance_1);
        EXPECT_NEAR(a.reading_x, b.reading_x, ensemble_tolerance_1);
        EXPECT_NEAR(alone->ledger.in_leather_strong_mol_m2, (*lanes)[i].ledger.in_leather_strong_mol_m2, 1e-3 * std::abs(alone->ledger.in_leather_strong_mol_m2));
    }
}

// The accuracy that was asked of a single story, for the typical member: uptake 0.1 %, a front 2 um, the reading 0.02 at any
// moment. Both fronts are held, a flat and a steep one.
TEST(SectionsProperty, TheEnsemblesMeshAndToleranceAreGoodEnough) {
    constexpr std::size_t n = 16;
    const auto cases = members(n);
    auto fine = members(n, 3, 1e-5);
    for (auto& c : fine) c.options.max_time_steps = 100000;
    const auto coarse = run_sections(cases, 2), right = run_sections(fine, 2);
    ASSERT_TRUE(coarse.ok() && right.ok());
    std::vector<double> uptake, reading, low_front, high_front, end;
    for (std::size_t i = 0; i < n; ++i) {
        const auto &is = (*coarse)[i], &ought = (*right)[i];
        const auto& layers = cases[i].layers;
        uptake.push_back(std::abs(is.ledger.in_leather_strong_mol_m2 / ought.ledger.in_leather_strong_mol_m2 - 1));
        low_front.push_back(std::abs(test::front_m(is, layers, 4.7) - test::front_m(ought, layers, 4.7)));
        high_front.push_back(std::abs(test::front_m(is, layers, 6) - test::front_m(ought, layers, 6)));
        double worst = 0;
        for (std::size_t k = 0; k < is.snapshots.size(); ++k) worst = std::max(worst, std::abs(is.snapshots[k].reading_x - ought.snapshots[k].reading_x));
        reading.push_back(worst);
        end.push_back(test::profile(is, layers, is.snapshots.back().x).miss(test::profile(ought, layers, ought.snapshots.back().x)));
    }
    const auto typical = [](std::vector<double> v) {
        std::sort(v.begin(), v.end());
        return v[v.size() / 2];
    };
    EXPECT_GT(typical([&] {
                  std::vector<double> deep;
                  for (std::size_t i = 0; i < n; ++i) deep.push_back(test::front_m((*right)[i], cases[i].layers, 4.7));
                  return deep;
              }()),
              0) << "no front to miss";
    EXPECT_LE(typical(uptake), 1e-3);
    EXPECT_LE(typical(low_front), 2e-6);
    EXPECT_LE(typical(high_front), 2e-6);
    EXPECT_LE(typical(reading), 0.02);
    EXPECT_LE(typical(end), 0.02);
}

TEST(SectionsProperty, NothingIsLostInAnyLane) {
    const auto r = run_sections(members(40), 2);
    ASSERT_TRUE(r.ok());
    for (const auto& s : *r) EXPECT_LT(s.ledger.worst_balance_1, 1e-11);
}

// Newton's remainder is carried on, not lost: also where it is far from round-off, at a coarse tolerance.
TEST(SectionsProperty, NothingIsLostAtACoarseTolerance) {
    const auto r = run_sections(members(16, 0.35, 0.1), 2);
    ASSERT_TRUE(r.ok());
    for (const auto& s : *r) EXPECT_LT(s.ledger.worst_balance_1, 1e-11);
}

TEST(SectionsProperty, CasesOfSeveralShapesComeBackInTheirOrder) {
    auto cases = members(5);
    auto bare = members(5);
    for (auto& c : bare) c.layers.erase(c.layers.begin());
    std::vector<SectionCase> mixed;
    for (std::size_t i = 0; i < 5; ++i) {
        mixed.push_back(cases[i]);
        mixed.push_back(bare[i]);
    }
    const auto r = run_sections(mixed, 2);
    ASSERT_TRUE(r.ok());
    for (std::size_t i = 0; i < mixed.size(); ++i) {
        const auto alone = run_section(mixed[i].components, mixed[i].layers, mixed[i].story, mixed[i].options);
        ASSERT_EQ(alone->snapshots.back().x.size(), (*r)[i].snapshots.back().x.size());
        EXPECT_NEAR(alone->snapshots.back().reading_x, (*r)[i].snapshots.back().reading_x, 2 * ensemble_tolerance_1);
    }
}

// Lanes that keep step need more steps than each of them alone. With a budget that suffices alone only, the pack fails, and
// each member comes out as if it had never been in one.
TEST(SectionsProperty, MembersOfAPackThatFailsAreSolvedAlone) {
    auto cases = members(8);
    const auto together = run_sections(cases, 1);
    ASSERT_TRUE(together.ok());
    int alone_steps = 0;
    for (const auto& c : cases) alone_steps = std::max(alone_steps, run_section(c.components, c.layers, c.story, c.options)->report.iterations);
    ASSERT_LT(alone_steps, together->front().report.iterations);
    for (auto& c : cases) c.options.max_time_steps = alone_steps;
    const auto r = run_sections(cases, 1);
    ASSERT_TRUE(r.ok()) << r.error().message;
    for (std::size_t i = 0; i < cases.size(); ++i) {
        const auto alone = run_section(cases[i].components, cases[i].layers, cases[i].story, cases[i].options);
        EXPECT_TRUE(same_bits(*alone, (*r)[i])) << "case " << i;
    }
}

TEST(SectionsProperty, OneCaseTooLongForTheStepBudgetIsNamedAnError) {
    auto cases = members(8);
    for (auto& c : cases) c.options.max_time_steps = 3;
    EXPECT_EQ(run_sections(cases, 1).error().code, ErrorCode::NotConverged);
}

TEST(SectionsProperty, CancellingEndsItAndProgressRises) {
    const auto cases = members(64);
    double last = 0;
    int told = 0;
    const auto r = run_sections(cases, 2, [&](double share, std::string_view) {
        EXPECT_GT(share, last);
        last = share;
        return ++told < 3;
    });
    ASSERT_FALSE(r.ok());
    EXPECT_EQ(told, 3);
    EXPECT_TRUE(run_sections({}, 2)->empty());
}

TEST(SectionsProperty, WhatTheProgressCallThrowsReachesTheCaller) {
    struct Gone {};
    EXPECT_THROW((void)run_sections(members(64), 2, [](double, std::string_view) -> bool { throw Gone{}; }), Gone);
}

TEST(SectionsRefusal, ANumberThatIsNoneIsAnErrorAndNeverAnAnswer) {
    for (const auto spoil : {+[](SectionCase& c) { c.layers[0].water_conductivity_kg_m_s = std::nan(""); }, +[](SectionCase& c) { c.options.evaporation_kg_m2_s = std::nan(""); },
                             +[](SectionCase& c) { c.layers[1].sites[0].amount_mol_kg = std::nan(""); }, +[](SectionCase& c) { c.layers[2].water_full_kg_m3 = std::nan(""); },
                             +[](SectionCase& c) { c.components[0].log_k[1] = std::nan(""); }, +[](SectionCase& c) { c.story[0].liquid.strong_mol_m3 = std::nan(""); }}) {
        auto cases = members(9);
        spoil(cases[4]);
        const auto r = run_sections(cases, 2);
        ASSERT_FALSE(r.ok());
        EXPECT_EQ(r.error().code, ErrorCode::NotConverged);
    }
}

TEST(SectionsRefusal, ABadCaseIsRefusedBeforeAnythingIsSolved) {
    auto cases = members(3);
    cases[1].layers[0].thickness_m = 0;
    EXPECT_EQ(run_sections(cases, 1).error().where, "layers");
}

}  // namespace
