#include "core/chem/batch.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <limits>
#include <numeric>
#include <random>

#include "core/chem/batch_kernel.hpp"
#include "core/chem/systems.hpp"
#include "tests/support/reference.hpp"

namespace hw::chem {
namespace {

Totals empty_liquid() {
    Totals t;
    t.system_mol_kg.assign(acid_systems().size(), 0.0);
    return t;
}

double amount(std::mt19937_64& random) { return std::pow(10.0, std::uniform_real_distribution<double>(-6, std::log10(3.0))(random)); }

/// Eight systems of the atlas, strong acid, base and salts, 1e-6 to 3 mol/kg, each there or not.
std::vector<Totals> random_liquids(std::mt19937_64& random, std::size_t n) {
    std::vector<std::size_t> all(acid_systems().size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    std::shuffle(all.begin(), all.end(), random);
    std::bernoulli_distribution half(0.5);
    std::vector<Totals> out;
    for (std::size_t i = 0; i < n; ++i) {
        Totals t = empty_liquid();
        for (std::size_t s = 0; s < 8; ++s)
            if (half(random)) t.system_mol_kg[all[s]] = amount(random);
        for (double* ion : {&t.sodium_mol_kg, &t.potassium_mol_kg, &t.chloride_mol_kg, &t.other_anion_mol_kg, &t.other_cation_mol_kg})
            if (half(random)) *ion = amount(random);
        out.push_back(t);
    }
    return out;
}

/// 1e-9, plus rounding of the charge sum (half a unit in the last place of each of its terms) over the buffer capacity.
/// Twice, because both paths round.
double allowed_ph(const Totals& t, const Equilibrium& e) {
    double gross = std::abs(t.strong_charge_mol_kg()) + e.hydrogen_mol_kg + e.hydroxide_mol_kg, terms = 3;
    for (std::size_t s = 0; s < t.system_mol_kg.size(); ++s)
        if (t.system_mol_kg[s] > 0) {
            gross += t.system_mol_kg[s] * acid_systems()[s].steps;
            terms += acid_systems()[s].steps;
        }
    return 1e-9 + 2 * terms * 0.5 * std::numeric_limits<double>::epsilon() * gross / e.buffer_mol_kg_ph;
}

void agrees(const std::vector<Totals>& liquids, double celsius) {
    Conditions c;
    c.water = Temperature::celsius(celsius);
    c.complexes = false;
    const auto batch = equilibria(liquids, c);
    ASSERT_TRUE(batch.ok());
    for (std::size_t i = 0; i < liquids.size(); ++i) {
        const auto e = equilibrium(liquids[i], c);
        ASSERT_TRUE(e.ok()) << "lane " << i;
        EXPECT_NEAR(batch->ph[i], e->ph, allowed_ph(liquids[i], *e)) << "lane " << i << " at " << celsius << " degC, buffer " << e->buffer_mol_kg_ph;
        EXPECT_NEAR(batch->ionic_strength_mol_kg[i], e->ionic_strength_mol_kg, 1e-8 * e->ionic_strength_mol_kg) << "lane " << i;
    }
}

TEST(BatchConsistency, AgreesWithTheScalarPathOnSixteenThousandRandomMixtures) {
    std::mt19937_64 random(41);
    for (double celsius : {0.0, 7.5, 15.0, 25.0, 37.0, 44.0, 50.0, 60.0}) agrees(random_liquids(random, 2000), celsius);
}

TEST(BatchConsistency, AgreesWithTheScalarPathOnEdgeCases) {
    std::vector<Totals> edges{empty_liquid()};  // pure water
    auto with = [&](auto&& change) { Totals t = empty_liquid(); change(t); edges.push_back(t); };
    for (double m : {1e-12, 1e-9, 1e-7, 1e-4, 1.0, 6.0, 12.0}) {
        with([&](Totals& t) { t.chloride_mol_kg = m; });                                      // strong acid
        with([&](Totals& t) { t.sodium_mol_kg = m; });                                        // strong base
        with([&](Totals& t) { t.sodium_mol_kg = t.chloride_mol_kg = m; });                    // salt alone
        for (std::size_t s = 0; s < acid_systems().size(); ++s) {
            with([&](Totals& t) { t.system_mol_kg[s] = m; });                                 // one system alone
            for (int half = 1; half <= 2 * acid_systems()[s].steps; ++half)                   // at and between its end points
                with([&](Totals& t) { t.system_mol_kg[s] = m; t.other_cation_mol_kg = m * half / 2; });
        }
    }
    for (double celsius : {0.0, 25.0, 60.0}) agrees(edges, celsius);
}

TEST(BatchConsistency, TwoHundredThousandRandomMixturesSettle) {
    std::mt19937_64 random(43);
    std::uniform_real_distribution<double> celsius(0, 60);
    std::size_t solved = 0, scalar = 0;
    for (int block = 0; block < 50; ++block) {
        Conditions c;
        c.water = Temperature::celsius(celsius(random));
        std::size_t fallbacks = 0;
        const auto answer = equilibria(random_liquids(random, 4000), c, &fallbacks);
        ASSERT_TRUE(answer.ok()) << answer.error().message;
        solved += answer->ph.size();
        scalar += fallbacks;
        for (double ph : answer->ph) ASSERT_TRUE(std::isfinite(ph));
    }
    EXPECT_EQ(solved, 200000U);
    RecordProperty("lanes_by_the_scalar_path", static_cast<int>(scalar));
    std::printf("%zu of %zu lanes went to the scalar path\n", scalar, solved);
}

TEST(BatchProperty, RunsOnAWideInstructionSetWhenTheProcessorHasOne) {
    const auto answer = solve_batch(batch_of({empty_liquid()}, {}));
    ASSERT_TRUE(answer.ok());
#if defined(__x86_64__) && defined(__GNUC__)
    if (__builtin_cpu_supports("avx512f")) EXPECT_EQ(answer->target, BatchTarget::Avx512);
    else if (__builtin_cpu_supports("avx2")) EXPECT_EQ(answer->target, BatchTarget::Avx2);
    else EXPECT_EQ(answer->target, BatchTarget::Baseline);
#else
    EXPECT_EQ(answer->target, BatchTarget::Baseline);
#endif
}

bool same_bits(const std::vector<double>& a, const std::vector<double>& b) { return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0; }

TEST(BatchProperty, GivesTheSameBitsOnEveryInstructionSet) {
    std::mt19937_64 random(47);
    for (int round = 0; round < 4; ++round) {
        const Batch batch = batch_of(random_liquids(random, 1001), {});
        const auto plain = solve_batch(batch, BatchTarget::Baseline);
        ASSERT_TRUE(plain.ok());
        for (BatchTarget target : {BatchTarget::Avx2, BatchTarget::Avx512}) {
            if (target > widest_batch_target()) continue;
            const auto wide = solve_batch(batch, target);
            ASSERT_TRUE(wide.ok());
            EXPECT_EQ(wide->target, target);
            EXPECT_TRUE(same_bits(plain->ph, wide->ph));
            EXPECT_TRUE(same_bits(plain->ionic_strength_mol_kg, wide->ionic_strength_mol_kg));
            EXPECT_TRUE(same_bits(plain->buffer_mol_kg_ph, wide->buffer_mol_kg_ph));
            EXPECT_EQ(plain->settled, wide->settled);
        }
    }
}

TEST(BatchProperty, ALaneDoesNotDependOnItsNeighbours) {
    std::mt19937_64 random(53);
    auto liquids = random_liquids(random, 75);
    // Every system somewhere in lane 0 of both batches, so that both hold the same systems.
    for (double& mol : liquids[0].system_mol_kg) mol = 1e-6;
    const auto together = solve_batch(batch_of(liquids, {}));
    ASSERT_TRUE(together.ok());
    for (std::size_t i = 1; i < liquids.size(); ++i) {
        const auto apart = solve_batch(batch_of({liquids[0], liquids[i]}, {}));
        ASSERT_TRUE(apart.ok());
        EXPECT_EQ(apart->ph[1], together->ph[i]) << "lane " << i;
        EXPECT_EQ(apart->buffer_mol_kg_ph[1], together->buffer_mol_kg_ph[i]) << "lane " << i;
    }
}

TEST(BatchProperty, PhRisesWithStrongBase) {
    std::mt19937_64 random(59);
    const auto start = random_liquids(random, 200);
    std::vector<Totals> more = start;
    for (Totals& t : more) t.other_cation_mol_kg += 0.01;
    const auto before = equilibria(start, {}), after = equilibria(more, {});
    ASSERT_TRUE(before.ok() && after.ok());
    for (std::size_t i = 0; i < start.size(); ++i) EXPECT_GT(after->ph[i], before->ph[i] - 1e-9) << "lane " << i;
}

TEST(BatchConsistency, PowerOfTenIsRightToAFewUnitsInTheLastPlace) {
    for (double x = -120; x <= 120; x += 0.0371) {
        double got = 0;
        batch_kernel::power_of_ten_baseline(&x, &got, 1);
        // Rounding of x log2(10) is carried to the result; the polynomial adds three units at most.
        const double allowed = (std::abs(x) * std::log(10.0) + 3) * std::numeric_limits<double>::epsilon();
        EXPECT_NEAR(got / std::pow(10.0, x), 1, allowed) << x;
    }
}

/// One lane at unit activity coefficients, pKw 14.
double ideal_ph(double strong, int top, const std::vector<double>& pk, double total) {
    Batch b;
    b.strong_mol_kg = {strong};
    b.inert_mol_kg = {std::abs(strong)};
    b.debye_a_1 = b.log_gamma_h_1 = b.log_gamma_oh_1 = {0.0};
    b.log_kw_1 = {-14.0};
    BatchSystem s;
    s.steps = static_cast<int>(pk.size());
    s.top_charge = top;
    for (double v : pk) s.log_k.push_back(-v);
    s.total_mol_kg = {total};
    b.systems = {s};
    return solve_batch(b)->ph[0];
}

TEST(BatchConsistency, GivesTheExactAnswersOfTextbookProblemsAtUnitActivity) {
    // Our own solutions of the textbook's polynomials to twelve digits, printed to four: half a unit of the last.
    const auto exact = [](double expected, double got) { EXPECT_NEAR(got, expected, 5e-5); };
    exact(6.9783, ideal_ph(-1e-8, 0, {4.76}, 0));                      // hydrochloric acid
    exact(3.0000, ideal_ph(-1e-3, 0, {4.76}, 0));
    exact(2.8829, ideal_ph(0, 0, {4.76}, 0.1));                        // acetic acid
    exact(5.1487, ideal_ph(0, 0, {4.76}, 1e-5));
    exact(8.8800, ideal_ph(0.1, 0, {4.76}, 0.1));                      // its sodium salt
    exact(11.1221, ideal_ph(0, 1, {9.25}, 0.1));                       // ammonia
    exact(5.1250, ideal_ph(-0.1, 1, {9.25}, 0.1));                     // ammonium chloride
    exact(1.6326, ideal_ph(0, 0, {2.15, 7.20, 12.35}, 0.1));           // phosphoric acid and its trisodium salt
    exact(12.5732, ideal_ph(0.3, 0, {2.15, 7.20, 12.35}, 0.1));
    exact(8.3395, ideal_ph(0.1, 0, {6.35, 10.33}, 0.1));               // bicarbonate, carbonate
    exact(11.6550, ideal_ph(0.2, 0, {6.35, 10.33}, 0.1));
    exact(2.6208, ideal_ph(0, 0, {3.13, 4.76, 6.40}, 0.01));           // citric acid, citrate
    exact(9.6999, ideal_ph(0.3, 0, {3.13, 4.76, 6.40}, 0.1));
    exact(6.0744, ideal_ph(0, 1, {2.35, 9.78}, 0.1));                  // glycine
}

TEST(BatchReference, MeetsThreePhStandardsAt25Degrees) {
    std::vector<Totals> standards(3, empty_liquid());
    standards[0].system_mol_kg[system_index("phthalate")] = standards[0].potassium_mol_kg = 0.05;
    standards[1].system_mol_kg[system_index("phosphate")] = 0.05;
    standards[1].potassium_mol_kg = 0.025;
    standards[1].sodium_mol_kg = 0.05;
    standards[2].system_mol_kg[system_index("citrate")] = standards[2].potassium_mol_kg = 0.05;
    const auto answer = equilibria(standards, {});
    ASSERT_TRUE(answer.ok());
    const std::string why = "0.005 stated for the standard, 0.015 for the activity model";
    test::check("phthalate standard, 25 degC, pH, batch", "buck2002", "table of typical pH(PS)", 4.005, answer->ph[0], 0.02, why);
    test::check("phosphate 1:1 standard, 25 degC, pH, batch", "bates1962", "table of pH(S)", 6.865, answer->ph[1], 0.02, why);
    test::check("dihydrogen citrate standard, 25 degC, pH, batch", "staples1969", "abstract", 3.776, answer->ph[2], 0.02, why);
}

TEST(BatchRefusal, NamesTheSystemThatDoesNotFit) {
    Batch b = batch_of({empty_liquid(), empty_liquid()}, {});
    BatchSystem s;
    s.log_k = {-5};
    s.total_mol_kg = {0.1, 0.1};
    const auto where = [&](const BatchSystem& bad) {
        Batch changed = b;
        changed.systems = {s, bad};
        const auto answer = solve_batch(changed);
        return answer.ok() ? std::string("accepted") : answer.error().where;
    };
    EXPECT_EQ(where(s), "accepted");
    BatchSystem bad = s;
    bad.total_mol_kg = {0.1};
    EXPECT_EQ(where(bad), "batch.systems[1].total_mol_kg");
    bad = s;
    bad.steps = 7;
    EXPECT_EQ(where(bad), "batch.systems[1].steps");
    bad = s;
    bad.log_k = {std::numeric_limits<double>::quiet_NaN()};
    EXPECT_EQ(where(bad), "batch.systems[1].log_k");
    bad = s;
    bad.top_charge = 4;
    EXPECT_EQ(where(bad), "batch.systems[1].top_charge");
    Batch uneven = b;
    uneven.inert_mol_kg.pop_back();
    const auto answer = solve_batch(uneven);
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().code, ErrorCode::InvalidInput);
    Conditions hot;
    hot.water = Temperature::celsius(61);
    const auto refused = equilibria({empty_liquid()}, hot);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(refused.error().where, "liquid_c");
}

}  // namespace
}  // namespace hw::chem
