#include "core/chem/drying_path.hpp"

#include <cmath>

#include "core/chem/systems.hpp"
#include "tests/support/reference.hpp"

namespace hw::chem {
namespace {

Totals mixed(const std::vector<Portion>& portions) { return totals(portions).value(); }
Portion pct(const char* name, double value) { return {name, "", value, {}}; }
Portion molal(const char* name, double value) { return {name, "", {}, value}; }

TEST(DryingPathConsistency, AnAcidThatStaysUnchargedFollowsThePowerLaw) {
    // In 0.1 mol/kg HCl acetic acid is uncharged to 0.02 %, so N = w^(drying time / loss time) exactly.
    const DryingFilm film;
    const Totals liquid = mixed({molal("hydrochloric acid", 0.1), molal("acetic acid", 0.01)});
    const auto path = drying_path(liquid, {}, film);
    ASSERT_TRUE(path.ok());
    const double power = film.dries / loss_time(*volatile_of_system("acetate"), Temperature::celsius(25), film.thickness);
    const auto acetate = system_index("acetate");
    for (const DryingState& s : *path) EXPECT_NEAR(s.system_left_1[acetate] / std::pow(s.water_left_1, power), 1, 2e-3) << s.water_left_1;
}

TEST(DryingPathConsistency, LyeEndsWhereTheAirHoldsIt) {
    // 0.1 % NaOH in balance with the air at once, three and ten times its strength: 9.39, 9.68, 9.92 by the long-range term
    // alone. 0.05 is what the activity model promises at these strengths.
    const auto path = drying_path(mixed({pct("sodium hydroxide", 0.1)}), {}, {}, {1.0, 0.999, 1.0 / 3, 0.1});
    ASSERT_TRUE(path.ok());
    EXPECT_NEAR((*path)[0].ph, 12.3, 0.1);
    EXPECT_NEAR((*path)[1].ph, 9.39, 0.05);
    EXPECT_NEAR((*path)[2].ph, 9.68, 0.05);
    EXPECT_NEAR((*path)[3].ph, 9.92, 0.05);
}

TEST(DryingPathProperty, AmmoniaLeavesAndThePhFalls) {
    const Totals liquid = mixed({pct("ammonia", 0.5)});
    const auto path = drying_path(liquid, {}, {});
    ASSERT_TRUE(path.ok());
    const auto ammonia = system_index("ammonia");
    for (std::size_t i = 1; i < path->size(); ++i) EXPECT_LT((*path)[i].system_left_1[ammonia], (*path)[i - 1].system_left_1[ammonia]);
    EXPECT_GT(path->front().ph, 11);
    EXPECT_LT((*path)[2].ph, path->front().ph - 1);
    EXPECT_LT(path->back().system_left_1[ammonia], 0.01);
}

TEST(DryingPathProperty, FinerSharesGiveTheSamePath) {
    const Totals liquid = mixed({pct("ammonia", 0.3), pct("acetic acid", 0.2), pct("trisodium citrate", 0.2)});
    std::vector<double> fine{1.0};
    for (int i = 1; i <= 120; ++i) fine.push_back(std::exp(-i * std::log(50.0) / 120));
    fine.back() = 0.02;
    const std::vector<double> few{1.0, fine[40], fine[80], 0.02};
    const auto coarse = drying_path(liquid, {}, {}, few), dense = drying_path(liquid, {}, {}, fine);
    ASSERT_TRUE(coarse.ok() && dense.ok());
    for (std::size_t i = 0; i < few.size(); ++i) EXPECT_NEAR((*coarse)[i].ph, (*dense)[40 * i].ph, 0.01) << "the last digit of a pH meter, water left " << few[i];
}

TEST(DryingPathProperty, StrongResidueIsFlaggedBeyondTheModel) {
    const auto path = drying_path(mixed({pct("sodium chloride", 5)}), {}, {});
    ASSERT_TRUE(path.ok());
    EXPECT_FALSE(path->front().beyond_model);
    EXPECT_TRUE(path->back().beyond_model);
    EXPECT_GT(path->back().ionic_strength_mol_kg, 3);
}

TEST(DryingPathProperty, WhatDoesNotLeaveIsAllThere) {
    const auto path = drying_path(mixed({pct("citric acid", 0.5), pct("triethanolamine", 0.5)}), {}, {});
    ASSERT_TRUE(path.ok());
    const auto citrate = system_index("citrate"), amine = system_index("triethanolamine");
    for (const DryingState& s : *path) {
        EXPECT_DOUBLE_EQ(s.system_left_1[citrate], 1);
        EXPECT_DOUBLE_EQ(s.system_left_1[amine], 1);
        EXPECT_NEAR(s.liquid.system_mol_kg[citrate] * s.water_left_1, path->front().liquid.system_mol_kg[citrate], 1e-12);
    }
}

TEST(DryingPathRefusal, SharesMustFallBetweenOneAndTwoPerCent) {
    const Totals water = mixed({pct("sodium chloride", 0.1)});
    for (const std::vector<double>& left : {std::vector<double>{1.2}, {0.5, 0.5}, {0.5, 0.01}, {0.5, 0.7}, {std::nan("")}}) {
        const auto refused = drying_path(water, {}, {}, left);
        ASSERT_FALSE(refused.ok());
        EXPECT_EQ(refused.error().code, ErrorCode::InvalidInput);
    }
    Conditions hot;
    hot.water = Temperature::celsius(80);
    const auto refused = drying_path(water, hot, {});
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::OutOfRange);
}

}  // namespace
}  // namespace hw::chem
