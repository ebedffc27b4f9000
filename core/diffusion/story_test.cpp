// Whole stories: against a second integrator, against themselves at a finer resolution, and against common sense.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/diffusion/section.hpp"
#include "tests/support/reference.hpp"
#include "tests/support/section_by_odeint.hpp"
#include "tests/support/section_story.hpp"

namespace {

using namespace hw;
using namespace hw::diffusion;
using hw::test::SectionCase;
using hw::test::soda_story;
using Kind = Stage::Kind;

SectionResult solved(const SectionCase& s) {
    auto r = run_section(s.components, s.layers, s.story, s.options);
    if (!r.ok()) throw std::runtime_error(r.error().message);
    return *r;
}

/// The same story on bare, absorbent leather.
SectionCase bare(SectionCase s) {
    s.layers.erase(s.layers.begin());
    return s;
}

/// Deepest point that ever was above x, from the top of the leather.
double front_m(const SectionResult& r, const SectionCase& s, double x) {
    double deepest = 0, finish = 0;
    for (const auto& layer : s.layers) finish += layer.finish ? layer.thickness_m : 0;
    for (const auto& shot : r.snapshots)
        for (std::size_t i = 0; i + 1 < shot.x.size(); ++i)
            if (shot.x[i] > x && shot.x[i + 1] <= x) {
                const double a = (r.top_m[i] + r.bottom_m[i]) / 2, b = (r.top_m[i + 1] + r.bottom_m[i + 1]) / 2;
                deepest = std::max(deepest, a + (b - a) * (shot.x[i] - x) / (shot.x[i] - shot.x[i + 1]) - finish);
            }
    return deepest;
}

double highest(const SectionResult& r, double depth_m) {
    double x = -5;
    for (const auto& shot : r.snapshots)
        for (std::size_t i = 0; i < shot.x.size(); ++i)
            if (r.bottom_m[i] >= depth_m) x = std::max(x, shot.x[i]);
    return x;
}

// --- a second integrator ------------------------------------------------------------------------------------------

void compare(const std::string& name, SectionCase s) {
    for (auto& layer : s.layers) layer.cells /= 2;  // the second integrator is dense
    const auto other_rough = hw::test::section_by_odeint(s, 1e-5), other = hw::test::section_by_odeint(s, 1e-6);
    s.options.tolerance_1 = 1e-5;
    const auto own_rough = solved(s);
    s.options.tolerance_1 = 1e-6;
    const auto own = solved(s);
    const std::string reason = "change of either integrator from tolerance 1e-5 to 1e-6, plus 1e-9";
    const auto& last = own.snapshots.back();
    const auto& last_rough = own_rough.snapshots.back();
    const auto row = [&](const std::string& what, double theirs, double theirs_rough, double ours, double ours_rough) {
        hw::test::check(name + ", " + what, "odeint2011", "rosenbrock4 on an own right-hand side", theirs, ours,
                        std::abs(theirs - theirs_rough) + std::abs(ours - ours_rough) + 1e-9, reason);
        // The reason must be a small number.
        EXPECT_LE(std::abs(theirs - theirs_rough) + std::abs(ours - ours_rough), 1e-3 * std::abs(theirs) + 1e-9) << what;
    };
    row("uptake, mmol/m2", 1e3 * other.uptake_mol_m2, 1e3 * other_rough.uptake_mol_m2, 1e3 * own.ledger.in_leather_strong_mol_m2, 1e3 * own_rough.ledger.in_leather_strong_mol_m2);
    row("film x", other.film_x, other_rough.film_x, last.film_x, last_rough.film_x);
    ASSERT_EQ(other.x.size(), last.x.size());
    double worst = 0, worst_water = 0, own_change = 0;
    for (std::size_t i = 0; i < last.x.size(); ++i) {
        worst = std::max(worst, std::abs(other.x[i] - last.x[i]));
        own_change = std::max({own_change, std::abs(last_rough.x[i] - last.x[i]), std::abs(other_rough.x[i] - other.x[i])});
        const auto& layer = s.layers[static_cast<std::size_t>(own.layer_of[i])];
        const double u = (last.liquid_kg_m3[i] - layer.water_ambient_kg_m3) / (layer.water_full_kg_m3 - layer.water_ambient_kg_m3);
        worst_water = std::max(worst_water, std::abs(other.water_share[i] - u));
    }
    std::printf("%-30s largest difference: x %.1e, water share %.1e (change of the integrators in x %.1e)\n", name.c_str(), worst, worst_water, own_change);
    hw::test::check(name + ", largest difference of x over the profile", "odeint2011", "rosenbrock4 on an own right-hand side", 0, worst, 2 * own_change + 1e-9, reason);
    EXPECT_LE(own_change, 1e-3);
    EXPECT_LE(worst_water, 1e-4);
}

TEST(SecondIntegratorReference, GivesTheSameSectionTwoMinutesAfterWetting) {
    auto s = soda_story();
    s.story.resize(2);
    compare("finished leather, 2 min", s);
}

TEST(SecondIntegratorReference, GivesTheSameSectionADayLater) { compare("finished leather, a day", soda_story()); }

TEST(SecondIntegratorReference, GivesTheSameSectionOnAbsorbentLeather) { compare("absorbent leather, a day", bare(soda_story())); }

// --- resolution ---------------------------------------------------------------------------------------------------

void holds_under_refinement(const std::string& name, SectionCase s) {
    const auto coarse = solved(s);
    s.options.mesh_1 *= 2;
    s.options.tolerance_1 /= 2;
    const auto fine = solved(s);
    const double uptake = std::abs(coarse.ledger.in_leather_strong_mol_m2 / fine.ledger.in_leather_strong_mol_m2 - 1);
    const double front = std::abs(front_m(coarse, s, 5) - front_m(fine, s, 5));
    double reading = 0;
    ASSERT_EQ(coarse.snapshots.size(), fine.snapshots.size());
    for (std::size_t i = 0; i < coarse.snapshots.size(); ++i)
        reading = std::max(reading, std::abs(coarse.snapshots[i].reading_x - fine.snapshots[i].reading_x));
    std::printf("%-34s halving moves uptake %.4f %%, front %.2f um, reading %.4f pH\n", name.c_str(), 100 * uptake, 1e6 * front, reading);
    EXPECT_LE(uptake, 1e-3) << name;
    EXPECT_LE(front, 2e-6) << name;
    EXPECT_LE(reading, 0.02) << name;
}

// The tolerances used are the engine's default and the one that core/treatment asks for.
TEST(ResolutionProperty, HalvingMeshAndStepMovesNextToNothing) {
    for (double tolerance : {1e-4, 1e-3}) {
        char label[40];
        std::snprintf(label, sizeof label, " at %.0e", tolerance);
        auto s = soda_story();
        s.options.tolerance_1 = tolerance;
        holds_under_refinement("finished, soda" + std::string(label), s);
        holds_under_refinement("absorbent, soda" + std::string(label), bare(s));
        auto lye = soda_story(25, 0.02, 0);
        lye.options.tolerance_1 = tolerance;
        holds_under_refinement("absorbent, lye" + std::string(label), bare(lye));
        auto acid = soda_story(-20, 0.02, 30);
        acid.options.tolerance_1 = tolerance;
        holds_under_refinement("absorbent, acid" + std::string(label), bare(acid));
        auto harsh = soda_story(800, 400, 20);
        harsh.options.tolerance_1 = tolerance;
        holds_under_refinement("absorbent, strong soda" + std::string(label), bare(harsh));
    }
}

// --- properties ---------------------------------------------------------------------------------------------------

TEST(StoryProperty, KeepsAlkaliComponentsAndWater) {
    for (const auto& s : {soda_story(), bare(soda_story()), bare(soda_story(25, 0.02, 0)), bare(soda_story(-20, 0.02, 30)), bare(soda_story(800, 400, 20))})
        EXPECT_LE(solved(s).ledger.worst_balance_1, 1e-9);
}

TEST(StoryIssue, StrongLyeOnAFinishWithTracesOfWeakAcidGetsAnAnswer) {
    // The field drove the trace out of the first cell of the finish faster than diffusion fed it, and no step was small enough.
    auto s = soda_story(613, 7.4, 0.0049);
    for (auto& layer : s.layers) layer.start_x = 5.2;
    for (double share : {1e-5, 1e-4, 1e-3, 1e-2, 0.1}) {
        s.layers[0].solute_share_1 = share;
        for (double kg_m2 : {0.01, 0.1}) {
            s.story[0].kg_m2 = kg_m2;
            EXPECT_LE(solved(s).ledger.worst_balance_1, 1e-9);
        }
    }
}

TEST(StoryProperty, NoConcentrationFallsBelowNothing) {
    for (const auto& s : {soda_story(), bare(soda_story()), bare(soda_story(-20, 0.02, 30)), bare(soda_story(800, 400, 20))})
        for (const auto& shot : solved(s).snapshots) {
            for (std::size_t k = 0; k < shot.total_mol_m3.size(); ++k)
                for (double t : shot.total_mol_m3[k]) EXPECT_GE(t, -1e-6 * s.story[0].liquid.total_mol_m3[k]);
            for (std::size_t i = 0; i < shot.liquid_kg_m3.size(); ++i) EXPECT_GT(shot.liquid_kg_m3[i], 0);
        }
}

TEST(StoryProperty, AHideInBalanceWithItsAirStaysAsItIsForADay) {
    auto s = soda_story();
    s.story = {{Kind::Wait, "", 0, {}, 0, 86400}};
    const auto r = solved(s);
    for (double x : r.snapshots.back().x) EXPECT_NEAR(x, 4, 1e-9);
    EXPECT_NEAR(r.ledger.in_leather_strong_mol_m2, 0, 1e-12);
    EXPECT_NEAR(r.ledger.water_evaporated_kg_m2, 0, 1e-12);
}

TEST(StoryProperty, MoreLiquidLongerDwellAndMoreAlkaliAllGoFurther) {
    for (bool finished : {true, false}) {
        const auto run = [&](double kg_m2, double dwell_s, double strong) {
            auto s = soda_story(strong, 0.6 * strong);
            s.story[0].kg_m2 = kg_m2;
            s.story[1].duration_s = dwell_s;
            return solved(finished ? s : bare(s));
        };
        double last = 0, last_x = 0;
        for (double kg_m2 : {0.01, 0.02, 0.05, 0.1, 0.2}) {
            const auto r = run(kg_m2, 120, 100);
            EXPECT_GT(r.ledger.in_leather_strong_mol_m2, last);
            EXPECT_GE(highest(r, 60e-6), last_x - 1e-3);
            last = r.ledger.in_leather_strong_mol_m2;
            last_x = highest(r, 60e-6);
        }
        last = 0;
        for (double dwell_s : {10.0, 60.0, 300.0, 900.0}) {
            const auto r = run(0.05, dwell_s, 100);
            EXPECT_GT(r.ledger.in_leather_strong_mol_m2, last);
            last = r.ledger.in_leather_strong_mol_m2;
        }
        last = last_x = 0;
        for (double strong : {5.0, 20.0, 100.0, 400.0}) {
            const auto r = run(0.05, 120, strong);
            EXPECT_GT(r.ledger.in_leather_strong_mol_m2, last);
            EXPECT_GE(highest(r, 60e-6), last_x - 1e-3);
            last = r.ledger.in_leather_strong_mol_m2;
            last_x = highest(r, 60e-6);
        }
    }
}

TEST(StoryProperty, NeitherOrderNorSplittingOfComponentsMatters) {
    // Citrate once as one component, once as four quarters behind carbonate and once before it.
    const auto one = bare(soda_story(100, 60, 8));
    auto after = one, before = one;
    const auto spread = [&](SectionCase& s, bool first) {
        const Component air = s.components[0], acid = s.components[1];
        s.components.assign(5, acid);
        s.components[first ? 4 : 0] = air;
        const auto amounts = [&](std::vector<double>& list) {
            const double gas = list[0], part = list[1] / 4;
            list.assign(5, part);
            list[first ? 4 : 0] = gas;
        };
        for (auto& layer : s.layers) amounts(layer.start_mol_m3);
        for (auto& stage : s.story)
            if (stage.kind == Kind::Lay) amounts(stage.liquid.total_mol_m3);
    };
    spread(after, false);
    spread(before, true);
    const auto a = solved(one), b = solved(after), c = solved(before);
    for (const auto* other : {&b, &c}) {
        EXPECT_LE(other->ledger.worst_balance_1, 1e-9);
        // The step control sees other scales: what is left is its tolerance.
        EXPECT_NEAR(other->ledger.in_leather_strong_mol_m2, a.ledger.in_leather_strong_mol_m2, 1e-4 * a.ledger.in_leather_strong_mol_m2);
        for (std::size_t i = 0; i < a.snapshots.back().x.size(); ++i) EXPECT_NEAR(other->snapshots.back().x[i], a.snapshots.back().x[i], 2e-3);
    }
}

TEST(StoryProperty, WipingAndRinsingTakeAlkaliOff) {
    const auto left = [](double wiped, double blotted) {
        auto s = soda_story();
        s.story[2].share_1 = wiped;
        s.story[5].share_1 = blotted;
        const auto r = solved(s);
        return r.ledger.in_leather_strong_mol_m2 + r.ledger.in_film_strong_mol_m2;
    };
    EXPECT_LT(left(0.9, 0.6), left(0.5, 0.6));
    EXPECT_LT(left(0.5, 0.9), left(0.5, 0.2));
}

TEST(StoryProperty, TheFilmDriesAndTheLeatherReturnsToTheAir) {
    auto s = soda_story();
    s.story.back().duration_s = 7 * 86400;
    const auto r = solved(s);
    EXPECT_LT(r.snapshots.back().film_kg_m2, 1e-5);
    EXPECT_GT(r.ledger.water_evaporated_kg_m2, 0.9 * (r.ledger.water_laid_kg_m2 - r.ledger.water_wiped_kg_m2));
    for (const auto& shot : r.snapshots)
        for (std::size_t i = 0; i < shot.liquid_kg_m3.size(); ++i)
            EXPECT_GE(shot.liquid_kg_m3[i], s.layers[static_cast<std::size_t>(r.layer_of[i])].water_ambient_kg_m3 * (1 - 1e-6));
}

TEST(StoryProperty, FallsOffACliffOnceTheCarboxylGroupsAreUsedUp) {
    // A thin piece kept wet, without the flat remainder: alkali is dosed as a share of its free carboxyl groups.
    const auto end_x = [](double share) {
        auto s = bare(soda_story(500, 0, 0));
        s.components.clear();
        for (auto& layer : s.layers) layer.start_mol_m3.clear();
        s.layers.resize(1);
        s.layers[0].thickness_m = 100e-6;
        s.layers[0].cells = 20;
        s.layers[0].sites = {{0.2, 3.9}, {0.4, 4.3}, {0.2, 10.4}};
        s.options.evaporation_kg_m2_s = 0;
        const double room = bound_alkali(s.layers[0].sites, 7) - bound_alkali(s.layers[0].sites, s.layers[0].start_x);
        const double kg_m2 = share * room * s.layers[0].dry_density_kg_m3 * s.layers[0].thickness_m / 500 * 1000;
        s.story = {{Kind::Lay, "wetted", kg_m2, {500, {}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, 86400}};
        const auto r = solved(s);
        EXPECT_NEAR(r.snapshots.back().x.front(), r.snapshots.back().x.back(), 0.05);
        return r.snapshots.back().x.back();
    };
    EXPECT_LT(end_x(0.5), 5.0);
    EXPECT_LT(end_x(0.95) - end_x(0.85), 1.0);
    EXPECT_GT(end_x(1.05) - end_x(0.95), 2.5);
}

TEST(StoryProperty, LyeHasTheHigherPhAndBicarbonateTheLargerReserve) {
    // NaOH 0.1 % and NaHCO3 1 % by mass: 25 and 119 mol/m3 of alkali.
    const auto lye = solved(bare(soda_story(25, 0, 0))), bicarbonate = solved(bare(soda_story(119, 119, 0)));
    const auto film = [](const SectionResult& r) { return r.snapshots[1].film_x; };
    EXPECT_GT(film(lye), 12);
    EXPECT_LT(film(bicarbonate), 8.6);
    EXPECT_GT(bicarbonate.ledger.in_leather_strong_mol_m2, 3 * lye.ledger.in_leather_strong_mol_m2);
}

TEST(StoryProperty, AmmoniaLeavesAFinishAndStaysInAnAcidHideAsItsSalt) {
    const auto run = [](bool finished) {
        auto s = soda_story(0, 0, 0);
        if (!finished) s = bare(s);
        Component ammonia;
        ammonia.name = "ammonia";
        ammonia.top_charge = 1;
        ammonia.log_k = {-9.24};
        ammonia.d_m2_s = 1.6e-9;
        ammonia.neutral_form = 1;
        ammonia.film_velocity_m_s = 1.8e-6;
        ammonia.pore_exchange_per_s = 2e-5;
        s.components.push_back(ammonia);
        for (auto& layer : s.layers) layer.start_mol_m3.push_back(0);
        s.story = {{Kind::Lay, "wetted", 0.05, {0, {0, 0, 60}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, 6 * 3600}};
        const auto r = solved(s);
        EXPECT_NEAR(r.ledger.lost_to_air_mol_m2[2] + r.ledger.gained_mol_m2[2], 0.05 / 1000 * 60, 1e-9);
        EXPECT_NEAR(r.ledger.in_leather_strong_mol_m2 + r.ledger.in_film_strong_mol_m2, 0, 1e-9);
        return r.ledger.lost_to_air_mol_m2[2] / (0.05 / 1000 * 60);
    };
    const double finished = run(true), absorbent = run(false);
    EXPECT_GT(finished, 0.5);
    EXPECT_LT(absorbent, 0.2);
}

TEST(StoryProperty, TheAirCapsTheFilmOfAnyCaustic) {
    // Lye on a sealed surface: carbon dioxide turns it to soda within minutes, and no alkali is lost.
    auto s = soda_story(25, 0, 0);
    for (auto& layer : s.layers) {
        layer.solute_share_1 = 1e-12;
        layer.water_conductivity_kg_m_s = 0;
    }
    s.options.evaporation_kg_m2_s = 0;
    s.story = {{Kind::Lay, "wetted", 0.1, {25, {0, 0}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, 86400}};
    const auto r = solved(s);
    EXPECT_GT(r.snapshots[1].film_x, 12);
    EXPECT_LT(r.snapshots.back().film_x, 9.6);
    EXPECT_NEAR(r.ledger.in_film_strong_mol_m2, 0.1 / 1000 * 25, 1e-7);
    EXPECT_LT(r.ledger.lost_to_air_mol_m2[0], 0);
}

}  // namespace
