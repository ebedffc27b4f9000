#include "core/chem/volatility.hpp"

#include <cmath>
#include <string>

#include "atlas/volatiles.hpp"
#include "core/chem/systems.hpp"
#include "tests/support/reference.hpp"

namespace hw::chem {
namespace {

const Temperature warm = Temperature::celsius(25);

double loss_s(const char* name) { return loss_time(*volatile_named(name), warm, micrometres(100)).in(seconds); }

TEST(VolatilityReference, GivesThePrintedHenryConstants) {
    test::check("Henry constant of CO2, 25 degC, mol/(m3 Pa)", "sander2015", "CO2", 3.3e-4, henry_mol_m3_pa(*volatile_named("carbon dioxide"), warm), 0.06e-4,
                "half a unit of the last printed digit, and 0.3 % because a kilogram of water counts as a litre");
    // 4.1e3 and 8.9e3 mol/(L atm) as printed, over 101.325 kPa.
    test::check("Henry constant of acetic acid, 25 degC, mol/(L atm)", "johnson1996", "abstract", 4.1e3, henry_mol_m3_pa(*volatile_named("acetic acid"), warm) * 101.325,
                0.4e3, "the source's stated uncertainty");
    test::check("Henry constant of formic acid, 25 degC, mol/(L atm)", "johnson1996", "abstract", 8.9e3, henry_mol_m3_pa(*volatile_named("formic acid"), warm) * 101.325,
                1.3e3, "the source's stated uncertainty");
    const double r = 8.314462618, step = 1 / Temperature::celsius(20).kelvin() - 1 / Temperature::celsius(30).kelvin();
    auto enthalpy = [&](const char* name) {
        const auto row = *volatile_named(name);
        return -r * std::log(henry_mol_m3_pa(row, Temperature::celsius(20)) / henry_mol_m3_pa(row, Temperature::celsius(30))) / step / 1000;
    };
    test::check("enthalpy of solution of acetic acid vapour, kJ/mol", "johnson1996", "abstract", -52, enthalpy("acetic acid"), 1, "the source's stated uncertainty");
    test::check("enthalpy of solution of formic acid vapour, kJ/mol", "johnson1996", "abstract", -51, enthalpy("formic acid"), 2, "the source's stated uncertainty");
}

TEST(VolatilityReference, GivesThePrintedRateOfCarbonDioxideWithHydroxide) {
    test::check("log10 k of CO2 + OH-, 25 degC, L/(mol s)", "pinsent1956", "log k = 13.635 - 2895/T", 13.635 - 2895 / 298.15, std::log10(1e3 * co2_hydroxide_rate_m3_mol_s(warm)), 5e-4,
                "half a unit of the last printed digit");
    const double slope = std::log(co2_hydroxide_rate_m3_mol_s(Temperature::celsius(35)) / co2_hydroxide_rate_m3_mol_s(Temperature::celsius(15)));
    const double span = 1 / Temperature::celsius(15).kelvin() - 1 / Temperature::celsius(35).kelvin();
    test::check("activation energy of CO2 + OH-, kJ/mol", "pinsent1956", "slope of the law", 55.4, 8.314462618e-3 * slope / span, 0.05, "half a unit of the last printed digit");
}

TEST(VolatilityConsistency, GivesTheTimesOfAFilmOfATenthOfAMillimetre) {
    // Worked out once by hand from 1/v = 1/k_l + H R T / k_g with the atlas' rows; half a unit of the last digit.
    EXPECT_NEAR(loss_s("sulfur dioxide"), 6.07, 0.005);
    EXPECT_NEAR(loss_s("ammonia"), 53.75, 0.005);
    EXPECT_NEAR(loss_s("2-propanol"), 112.4, 0.05);
    EXPECT_NEAR(loss_s("ethanol"), 162.0, 0.05);
    EXPECT_NEAR(loss_s("acetic acid") / 60, 55.2, 0.05);
    EXPECT_NEAR(loss_s("hydrogen peroxide") / 3600, 19.7, 0.05);
    EXPECT_NEAR(loss_s("monoethanolamine") / 3600, 7.3, 0.05);
}

TEST(VolatilityProperty, GasesLeaveFirstThenAmmoniaThenAlcoholsThenTheSlowAcids) {
    const auto order = order_of_loss(warm, micrometres(100), minutes(80));
    ASSERT_EQ(order.size(), atlas::volatiles.size());
    auto place = [&](const char* name) {
        for (std::size_t i = 0; i < order.size(); ++i)
            if (atlas::volatiles[order[i].row].name == name) return i;
        ADD_FAILURE() << name;
        return order.size();
    };
    const char* expected[] = {"carbon dioxide", "sulfur dioxide", "ammonia", "2-propanol", "ethanol", "2-butoxyethanol", "acetic acid", "formic acid", "monoethanolamine"};
    for (std::size_t i = 1; i < std::size(expected); ++i) EXPECT_LT(place(expected[i - 1]), place(expected[i])) << expected[i];
    EXPECT_TRUE(order[place("ammonia")].before_water);
    EXPECT_FALSE(order[place("monoethanolamine")].before_water);
}

TEST(VolatilityProperty, TwoFilmsAreSlowerThanEitherAndScaleWithThickness) {
    for (std::size_t row = 0; row < atlas::volatiles.size(); ++row) {
        const auto sides = still_air();
        const double v = loss_velocity(row, warm).in(metres_per_second);
        EXPECT_LT(v, sides.liquid.in(metres_per_second));
        EXPECT_LT(v, sides.gas.in(metres_per_second) / henry_1(row, warm));
        EXPECT_NEAR(loss_time(row, warm, micrometres(200)) / loss_time(row, warm, micrometres(100)), 2, 1e-12);
        EXPECT_LE(henry_mol_m3_pa(row, Temperature::celsius(40)), henry_mol_m3_pa(row, warm)) << "gases dissolve less in warm water";
    }
}

TEST(VolatilityProperty, HalfIsNeutralAtThePkAndTheShareLiesBetweenNoneAndAll) {
    const auto ammonia = system_index("ammonia"), acetate = system_index("acetate");
    EXPECT_NEAR(neutral_share(ammonia, pk_at(ammonia, warm)[0], warm), 0.5, 1e-12);
    EXPECT_NEAR(neutral_share(acetate, pk_at(acetate, warm)[0], warm), 0.5, 1e-12);
    EXPECT_GT(neutral_share(ammonia, 12, warm), 0.99);
    EXPECT_LT(neutral_share(acetate, 12, warm), 1e-6);
    for (std::size_t s = 0; s < acid_systems().size(); ++s)
        for (double ph = -2; ph <= 16; ph += 0.5) {
            const double share = neutral_share(s, ph, warm);
            EXPECT_TRUE(share >= 0 && share <= 1) << acid_systems()[s].name << " at " << ph;
        }
}

TEST(VolatilityProperty, ReactionSpeedsUptakeUpAndNeverSlowsIt) {
    const Speed liquid = still_air().liquid;
    EXPECT_DOUBLE_EQ(uptake_enhancement(0, 1.92e-9, liquid), 1);
    double before = 1;
    for (double k = 1e-4; k < 1e4; k *= 3) {
        const double e = uptake_enhancement(k, 1.92e-9, liquid);
        EXPECT_GE(e, before);
        before = e;
    }
    // Fast reaction: the flux forgets the film and becomes sqrt(k D).
    EXPECT_NEAR(uptake_enhancement(1e4, 1e-9, liquid) * liquid.in(metres_per_second), std::sqrt(1e4 * 1e-9), 1e-9);
    EXPECT_GT(co2_uptake_mol_m2_s(10, warm, 420e-6), co2_uptake_mol_m2_s(1, warm, 420e-6));
    EXPECT_NEAR(co2_uptake_mol_m2_s(10, warm, 840e-6) / co2_uptake_mol_m2_s(10, warm, 420e-6), 2, 1e-12);
}

}  // namespace
}  // namespace hw::chem
