#include "desk/compare.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "desk/demo.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

CompareRequest asked() {
    CompareRequest r;
    for (const auto& l : demo_liquids())
        if (r.liquids.size() < 4 && l.label_known) r.liquids.push_back(l);
    r.leathers.push_back(demo_leathers().front());
    r.members = 32;
    return r;
}

Result<CompareAnswer> compared(const CompareRequest& r) {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    return compare(r, ports);
}

TEST(CompareProperty, MildestComesFirst) {
    const auto a = compared(asked());
    ASSERT_TRUE(a.ok()) << a.error().message;
    ASSERT_EQ(a->rows.size(), 4U);
    for (std::size_t i = 1; i < a->rows.size(); ++i) {
        EXPECT_LE(a->rows[i - 1].grade, a->rows[i].grade);
        EXPECT_LE(a->rows[i - 1].rank, a->rows[i].rank);
    }
    for (const auto& row : a->rows) EXPECT_EQ(row.rank != row.rank_by_ph && row.rank_by_ph != 0, !row.why_not_ph.empty());
}

// Lye at pH 12 with nothing behind it does less than bicarbonate at pH 8: the order by pH alone is the wrong way round.
TEST(CompareProperty, WherePhAloneWouldRankOtherwiseItSaysWhy) {
    CompareRequest r = asked();
    Liquid thin, strong;
    thin.name = "a trace of lye";
    thin.ingredients = {{"sodium hydroxide", "", 0.002, std::nullopt, std::nullopt}};
    strong.name = "much bicarbonate";
    strong.ingredients = {{"sodium bicarbonate", "", 6, std::nullopt, std::nullopt}};
    r.liquids = {thin, strong};
    const auto a = compared(r);
    ASSERT_TRUE(a.ok());
    ASSERT_EQ(a->rows[0].liquid, thin.name);
    EXPECT_GT(a->rows[0].liquid_ph, a->rows[1].liquid_ph);
    EXPECT_EQ(a->rows[0].rank_by_ph, 2);
    EXPECT_FALSE(a->rows[0].why_not_ph.empty() || a->rows[1].why_not_ph.empty());
}

TEST(CompareProperty, RinsingIsNeverRankedBehindLeavingItOn) {
    CompareRequest r = asked();
    r.liquids = {demo_requests().front().liquid};
    Use rinsed;
    rinsed.rinse.passes = 2;
    r.uses = {{"left on", {}}, {"rinsed twice", rinsed}};
    const auto a = compared(r);
    ASSERT_TRUE(a.ok());
    EXPECT_LT(std::abs(a->rows[a->rows[0].use == "rinsed twice" ? 0 : 1].reserve_mmol_m2), std::abs(a->rows[a->rows[0].use == "rinsed twice" ? 1 : 0].reserve_mmol_m2));
}

TEST(CompareProperty, ACautionOfOneLiquidStandsWithItsName) {
    CompareRequest r = asked();
    r.liquids.resize(2);
    r.liquids[1].name = "strong lye";
    r.liquids[1].ingredients = {{"sodium hydroxide", "1310-73-2", 1.0, std::nullopt, std::nullopt}};
    r.liquids[1].stated_ph = std::nullopt;
    const auto a = compared(r);
    ASSERT_TRUE(a.ok());
    EXPECT_TRUE(std::any_of(a->cautions.begin(), a->cautions.end(), [](const std::string& c) { return c.rfind("strong lye: ", 0) == 0 && c.find("gloves") != std::string::npos; }));
    EXPECT_EQ(std::count(a->cautions.begin(), a->cautions.end(), "Try it on a hidden spot first, and read it dry."), 1);
}

TEST(CompareProperty, WhatMustNotMeetStopsHereToo) {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    Liquid vinegar;
    vinegar.name = "vinegar";
    vinegar.ingredients = {{"acetic acid", "64-19-7", 5.0, std::nullopt, std::nullopt}};
    const std::string id = *store.keep_liquid(vinegar);
    CompareRequest r = asked();
    r.liquids.resize(2);
    r.liquids[1].name = "bleach";
    r.liquids[1].ingredients = {{"sodium hypochlorite", "7681-52-9", 3.0, std::nullopt, std::nullopt}};
    r.liquids[1].stated_ph = std::nullopt;
    const auto alone = compare(r, ports);
    ASSERT_TRUE(alone.ok());
    EXPECT_NE(alone->rows.back().grade, Grade::Stop);
    r.meets = {id};
    const auto met = compare(r, ports);
    ASSERT_TRUE(met.ok());
    EXPECT_EQ(met->rows.back().liquid, "bleach");
    EXPECT_EQ(met->rows.back().grade, Grade::Stop);
}

// Bleach came out mildest, to be tried on a hidden spot, over its own sentence "keep it off".
TEST(CompareIssue, BleachIsNeverTheOneToTry) {
    CompareRequest r = asked();
    r.leathers[0] = {};
    r.leathers[0].leather_class = "pigmented_furniture";
    r.leathers[0].tannage = "chrome";
    Liquid bleach, soda;
    bleach.name = "bleach .2";
    bleach.ingredients = {{"sodium hypochlorite", "", 0.2, std::nullopt, std::nullopt}};
    soda.name = "soda 1";
    soda.ingredients = {{"sodium carbonate", "", 1, std::nullopt, std::nullopt}};
    r.liquids = {bleach, soda};
    const auto a = compared(r);
    ASSERT_TRUE(a.ok());
    EXPECT_EQ(a->rows[0].liquid, soda.name);
    EXPECT_EQ(a->rows[1].liquid, bleach.name);
    EXPECT_TRUE(a->rows[1].grade == Grade::Lasting || a->rows[1].grade == Grade::Deep);
    EXPECT_DOUBLE_EQ(a->rows[1].lasting_1, 1);
    Liquid more = bleach;
    more.name = "bleach 1";
    more.ingredients[0].content_pct = 1;
    r.liquids = {more, bleach};
    EXPECT_EQ(compared(r)->sentence, "None of them can be recommended, used like this.");
}

// Of two lyes that go deep the thinner was called mildest and to be tried.
TEST(CompareIssue, WhatLastsIsNotRecommended) {
    CompareRequest r = asked();
    Liquid thin, strong;
    thin.name = "lye 3";
    thin.ingredients = {{"sodium hydroxide", "", 3, std::nullopt, std::nullopt}};
    strong.name = "lye 5";
    strong.ingredients = {{"sodium hydroxide", "", 5, std::nullopt, std::nullopt}};
    r.liquids = {thin, strong};
    const auto a = compared(r);
    ASSERT_TRUE(a.ok());
    EXPECT_EQ(a->rows[0].liquid, thin.name);
    EXPECT_EQ(a->sentence, "None of them can be recommended, used like this.");
}

TEST(CompareRefusal, NamesTheFieldAsTheCallerKnowsIt) {
    CompareRequest r = asked();
    r.liquids[2].ingredients[0].content_pct = 120;
    EXPECT_EQ(compared(r).error().where, "liquids[2].ingredients[0].content_pct");
    r = asked();
    r.uses = {{"odd", {}}};
    r.uses[0].use.dose.count = 0;
    EXPECT_EQ(compared(r).error().where, "uses[0].use.dose.count");
    r = asked();
    r.leathers.clear();
    EXPECT_EQ(compared(r).error().where, "leathers");
    r = asked();
    r.leathers.assign(16, r.leathers[0]);
    EXPECT_EQ(compared(r).error().where, "liquids");
}

TEST(CompareProperty, CsvQuotesAndDefusesWhatSpreadsheetsWouldRun) {
    CompareAnswer a;
    CompareRow row;
    row.liquid = "=1+1";
    row.leather = "chair, \"old\"";
    row.liquid_ph = std::nan("");
    a.rows = {row};
    const std::string csv = as_csv(a);
    EXPECT_NE(csv.find(",'=1+1,\"chair, \"\"old\"\"\","), std::string::npos) << csv;
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 2);
    EXPECT_EQ(csv.find("nan"), std::string::npos);
}

}  // namespace
