#include "core/chem/solvents.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <set>
#include <string>

#include "atlas/finish_film_chances.hpp"
#include "atlas/finish_films.hpp"
#include "atlas/leather_classes.hpp"
#include "atlas/solvents.hpp"
#include "atlas/substances.hpp"

namespace {

using namespace hw;
using namespace hw::chem;

Totals liquid(std::vector<Portion> portions) { return totals(portions).value(); }
std::size_t film(const char* key) { return finish_film(key).value(); }
double red(const char* solvent, const char* on) { return relative_energy_difference(hansen_of_solvent(solvent_named(solvent).value()), film(on)); }

DryingOf on_film(const char* key, double finish_um = 60) {
    DryingOf d;
    d.dose_g_m2 = 84;
    d.finish_um = finish_um;
    d.film = film(key);
    return d;
}

// Not a Reference: parameters are second-hand, and the distances below were worked out by hand from the same parameters.
TEST(SolventsConsistency, GivesTheDistancesOfHandArithmetic) {
    EXPECT_NEAR(red("n-methyl-2-pyrrolidone", "acrylic_hard"), 0.25, 0.005);
    EXPECT_NEAR(red("ethanol", "nitrocellulose"), 1.06, 0.005);
    EXPECT_NEAR(red("acetone", "pvc"), 1.79, 0.005);
    EXPECT_NEAR(red("2-butoxyethanol", "pu_polyester"), 0.70, 0.005);
    EXPECT_NEAR(red("2-butanone", "acrylic_soft"), 0.33, 0.005);
    EXPECT_NEAR(red("benzyl alcohol", "pu_one"), 0.62, 0.005);
    EXPECT_NEAR(red("d-limonene", "pu_polyether"), 1.28, 0.005);
    EXPECT_NEAR(red("water", "pu_polyester"), 4.70, 0.005);
    // Half ethanol, half water by volume; a tenth of butoxyethanol.
    const Hansen water = hansen_of_solvent(*solvent_named("water")), ethanol = hansen_of_solvent(*solvent_named("ethanol")), ether = hansen_of_solvent(*solvent_named("2-butoxyethanol"));
    EXPECT_NEAR(relative_energy_difference(blend({{water, 1}, {ethanol, 1}}), film("pu_polyester")), 3.0, 0.05);
    EXPECT_NEAR(relative_energy_difference(blend({{water, 9}, {ether, 1}}), film("pu_polyester")), 4.25, 0.05);
}

TEST(SolventsProperty, DistanceIsADistance) {
    std::mt19937 dice(7);
    std::uniform_real_distribution<double> u(0, 25);
    const auto any = [&] { return Hansen{u(dice), u(dice), u(dice)}; };
    for (int i = 0; i < 1000; ++i) {
        const Hansen a = any(), b = any(), c = any();
        EXPECT_EQ(hansen_distance_mpa_half(a, a), 0);
        EXPECT_DOUBLE_EQ(hansen_distance_mpa_half(a, b), hansen_distance_mpa_half(b, a));
        EXPECT_LE(hansen_distance_mpa_half(a, c), hansen_distance_mpa_half(a, b) + hansen_distance_mpa_half(b, c) + 1e-12);
        // A blend lies on the line between its parts.
        const Hansen half = blend({{a, 2}, {b, 2}});
        EXPECT_NEAR(hansen_distance_mpa_half(a, half) + hansen_distance_mpa_half(half, b), hansen_distance_mpa_half(a, b), 1e-9);
    }
}

TEST(SolventsProperty, EveryRowIsASubstanceAndChancesAddUpToOne) {
    for (std::size_t i = 0; i < atlas::solvents.size(); ++i) {
        const auto row = find_substance("", atlas::solvents[i].cas);
        ASSERT_TRUE(row) << atlas::solvents[i].name;
        EXPECT_EQ(atlas::substances[*row].name, atlas::solvents[i].name);
        EXPECT_EQ(solvent_of(*row), i);
    }
    std::set<std::string_view> used;
    for (const auto& row : atlas::finish_film_chances) {
        EXPECT_TRUE(finish_film(row.film)) << row.film;
        used.insert(row.film);
    }
    EXPECT_EQ(used.size(), atlas::finish_films.size());
    for (const auto& leather : atlas::leather_classes) {
        double sum = 0;
        for (const auto& f : films_of(leather.key)) sum += f.chance_1;
        EXPECT_NEAR(sum, leather.finish_um > 0 ? 1 : 0, 1e-12) << leather.key;
    }
}

TEST(SolventsProperty, NothingIsLostOnTheWay) {
    for (const auto& t : {liquid({{"2-butoxyethanol", "", 5, {}}, {"ethanol", "", 4, {}}}), liquid({{"ethanol", "", 70, {}}}), liquid({{"acetone", "", 95, {}}, {"d-limonene", "", 2, {}}})})
        for (const char* key : {"acrylic_soft", "pu_polyester", "pvc"})
            for (double kept : {0.0, 0.1, 0.5, 1.0})
                for (double dwell : {0.0, 120.0, 900.0}) {
                    DryingOf d = on_film(key);
                    d.kept_1 = kept;
                    d.dwell_s = dwell;
                    const auto r = solvent_residue(t, d);
                    ASSERT_GT(r.count, 0U);
                    for (std::size_t i = 0; i < r.count; ++i) {
                        const auto& p = r.parts[i];
                        EXPECT_NEAR(p.wiped_g_m2 + p.evaporated_g_m2 + p.in_film_g_m2 + p.on_surface_g_m2, p.laid_g_m2, 1e-9 * p.laid_g_m2);
                        for (double part : {p.wiped_g_m2, p.evaporated_g_m2, p.in_film_g_m2, p.on_surface_g_m2}) EXPECT_GE(part, 0);
                    }
                }
}

TEST(SolventsProperty, MoreSolventNeverLeavesLessAndMoreWipingNeverLeavesMore) {
    for (const char* solvent : {"2-butoxyethanol", "ethanol", "1-methoxy-2-propanol", "benzyl alcohol", "2-(2-butoxyethoxy)ethanol"}) {
        double last = -1, last_share = -1;
        for (double pct : {0.1, 0.3, 1.0, 3.0, 10.0, 30.0}) {
            const auto r = solvent_residue(liquid({{solvent, "", pct, {}}}), on_film("pu_polyester"));
            EXPECT_GE(r.left_g_m2, last) << solvent << ' ' << pct;
            EXPECT_GE(r.film_share_1, last_share) << solvent << ' ' << pct;
            last = r.left_g_m2;
            last_share = r.film_share_1;
        }
        last = 1e9;
        for (double kept : {1.0, 0.7, 0.5, 0.2, 0.05, 0.0}) {
            DryingOf d = on_film("pu_polyester");
            d.kept_1 = kept;
            const double left = solvent_residue(liquid({{solvent, "", 5, {}}}), d).left_g_m2;
            EXPECT_LE(left, last) << solvent << ' ' << kept;
            last = left;
        }
    }
}

// Dilute and ideally mixed, the law has a closed form: m / m0 = w^(E_i M_w / (E_w (1 - RH) M_i)), w the share of water left.
TEST(SolventsConsistency, FollowsTheClosedFormWhereItIsDilute) {
    for (const char* solvent : {"2-butoxyethanol", "1-methoxy-2-propanol", "benzyl alcohol"})
        for (double humidity : {0.0, 0.5, 0.8}) {
            DryingOf d;
            d.activity_1 = 0;
            d.humidity_1 = humidity;
            d.kept_1 = 1;
            const auto t = liquid({{solvent, "", 1e-4, {}}});
            const auto& row = atlas::solvents[*solvent_named(solvent)];
            const double power = row.evaporation_rate_1 / atlas::substances[t.recognised[0].row].molar_mass_g_mol / (0.3 * (1 - humidity) / 18.015);
            const auto r = solvent_residue(t, d);
            // The water goes from 1 to the wipe, and from there to a hundredth.
            const double water_at_wipe = 1 - d.water_loss_g_m2_s * d.dwell_s / d.dose_g_m2;
            EXPECT_NEAR(r.left_g_m2 / r.laid_g_m2, std::pow(0.01 * water_at_wipe, power), 1e-4) << solvent << humidity;
        }
}

// Against ten thousand small steps of Euler's rule, written anew; 10 % of what is left is far inside what is known of the rates.
TEST(SolventsConsistency, ItsThirtyStepsAreEnough) {
    for (const auto& [name, pct] : {std::pair{"2-butoxyethanol", 5.0}, std::pair{"1-methoxy-2-propanol", 20.0}, std::pair{"dipropylene glycol methyl ether", 10.0}}) {
        const auto t = liquid({{name, "", pct, {}}});
        const auto& row = atlas::solvents[*solvent_named(name)];
        const double mass_mol = atlas::substances[t.recognised[0].row].molar_mass_g_mol;
        DryingOf d;
        d.dose_g_m2 = 100;
        d.kept_1 = 1;
        double water = 100 - pct, m = pct;
        const double dry = 0.01 * (water - d.water_loss_g_m2_s * d.dwell_s);
        while (water > dry) {
            const double volume = water / 0.997 + m / row.density_g_cm3, mol = water / 18.015 + m / mass_mol, by_water = water / 0.997 / volume;
            const double activity = std::min(1.0, std::pow(row.in_water_gamma_1, by_water * by_water) * m / mass_mol / mol);
            const double step = 1e-3 * water;
            m -= std::min(m, step * row.evaporation_rate_1 * activity / (0.3 * (1 - d.humidity_1)));
            water -= step;
        }
        EXPECT_NEAR(solvent_residue(t, d).left_g_m2, m, 0.1 * m + 1e-3) << name;
    }
}

TEST(SolventsProperty, VentsToWhatIsAskedAndSoonerFromAThinnerFilm) {
    const auto r = solvent_residue(liquid({{"2-butoxyethanol", "", 10, {}}, {"2-(2-butoxyethoxy)ethanol", "", 5, {}}}), on_film("pu_polyester"));
    ASSERT_GT(r.left_g_m2, 0.3);
    const double s = vented_s(r, 0.2);
    double left = 0;
    for (std::size_t i = 0; i < r.count; ++i) left += r.parts[i].left_g_m2() * std::exp(-s / r.parts[i].gone_time_s);
    EXPECT_NEAR(left, 0.2, 1e-3);
    EXPECT_EQ(vented_s(r, 100), 0);
    const auto thin = solvent_residue(liquid({{"2-butoxyethanol", "", 10, {}}}), on_film("pu_polyester", 20));
    EXPECT_LT(thin.parts[0].gone_time_s, r.parts[0].gone_time_s);
    // Half a day for a slow solvent in 60 um, as the diffusion figure says: 4 L^2 / (pi^2 D) = 13.5 h, surface on top.
    EXPECT_GT(r.parts[0].gone_time_s, 13.5 * 3600 * 0.99);
    EXPECT_LT(r.parts[0].gone_time_s, 16 * 3600);
}

TEST(SolventsProperty, GlycerolAndWaterAreNoSolventsThatLeave) {
    const auto r = solvent_residue(liquid({{"glycerol", "", 2, {}}}), on_film("pu_polyester"));
    EXPECT_EQ(r.count, 0U);
    EXPECT_EQ(r.left_g_m2, 0);
    EXPECT_TRUE(std::isnan(r.red_1));
    EXPECT_EQ(solvent_residue(liquid({}), on_film("pu_polyester")).count, 0U);
}

TEST(SolventsProperty, KeepsTheLargestEight) {
    std::vector<Portion> many;
    double pct = 0.1;
    for (const char* name : {"acetone", "2-butanone", "ethyl acetate", "n-butyl acetate", "2-butoxyethanol", "1-methoxy-2-propanol", "benzyl alcohol", "ethyl lactate", "toluene", "ethanol"}) many.push_back({name, "", pct += 0.1, {}});
    const auto r = solvent_residue(liquid(many), on_film("pu_one"));
    ASSERT_EQ(r.count, most_solvents);
    double sum = 0;
    for (const auto& p : r.parts) {
        sum += p.laid_g_m2;
        EXPECT_NE(atlas::solvents[p.solvent].name, "acetone");
        EXPECT_NE(atlas::solvents[p.solvent].name, "2-butanone");
    }
    EXPECT_NEAR(r.laid_g_m2, sum, 1e-9);
}

TEST(SolventsRefusal, SharesOutsideZeroToOneAndUnknownFilmsAreBugs) {
    const auto t = liquid({{"ethanol", "", 5, {}}});
    DryingOf d = on_film("pvc");
    d.kept_1 = 1.2;
    EXPECT_THROW((void)solvent_residue(t, d), Bug);
    d = on_film("pvc");
    d.film = 99;
    EXPECT_THROW((void)solvent_residue(t, d), Bug);
    EXPECT_FALSE(finish_film("leaf gold"));
    EXPECT_FALSE(solvent_named("soap"));
}

}  // namespace
