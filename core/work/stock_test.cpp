// The last day of a bottle and the amount at which to order.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "atlas/shelf_rules.hpp"
#include "core/work/stock.hpp"

namespace hw::work {
namespace {

TEST(StockConsistency, TheEarlierOfPrintedAndOpenedDecides) {
    Bottle b;
    b.received_day = 100;
    b.printed_day = 400;
    EXPECT_EQ(last_day(b).by, UseBy::Printed);
    b.opened_day = 350;
    b.opened_life_days = 90;
    EXPECT_EQ(last_day(b).by, UseBy::Printed);
    EXPECT_EQ(last_day(b).day, 400);
    b.opened_day = 200;
    EXPECT_EQ(last_day(b).by, UseBy::Opened);
    EXPECT_EQ(last_day(b).day, 290);
}

TEST(StockConsistency, TheTimeSinceItCameCountsOnlyWhereNothingIsPrinted) {
    Bottle b;
    b.received_day = 100;
    EXPECT_EQ(last_day(b).by, UseBy::NotKnown);
    EXPECT_FALSE(last_day(b).day);
    b.unopened_life_days = 365;
    EXPECT_EQ(last_day(b).by, UseBy::Kept);
    EXPECT_EQ(last_day(b).day, 465);
    b.printed_day = 900;
    EXPECT_EQ(last_day(b).by, UseBy::Printed);
    EXPECT_EQ(last_day(b).day, 900);
}

TEST(StockProperty, NothingMakesABottleKeepLonger) {
    for (std::int64_t printed = 0; printed < 40; printed += 7)
        for (std::int64_t opened = 0; opened < 40; opened += 5)
            for (std::int64_t life = 0; life < 30; life += 4) {
                Bottle b;
                b.printed_day = printed;
                const auto before = *last_day(b).day;
                b.opened_day = opened;
                b.opened_life_days = life;
                EXPECT_EQ(*last_day(b).day, std::min(before, opened + life));
            }
}

TEST(StockConsistency, DemandIsTheSampleMeanAndSpread) {
    const Demand d = demand_of({2, 4, 4, 4, 5, 5, 7, 9});
    EXPECT_EQ(d.weeks, 8);
    EXPECT_DOUBLE_EQ(d.mean, 5);
    EXPECT_NEAR(d.sd * d.sd, 32.0 / 7, 1e-12);
    EXPECT_EQ(demand_of({3}).sd, 0);
    EXPECT_EQ(demand_of({}).weeks, 0);
}

// Worked by hand: 120 a week, give or take 40. Four weeks of waiting: 4 x 120 + 1.6449 x 40 x 2. A quarter of a week: 30 + 1.6449 x 40 / 2.
TEST(StockConsistency, TheOrderPointIsThatOfTheExampleWorkedByHand) {
    EXPECT_NEAR(reorder_point(120, 40, 28, 1.6449).value(), 480 + 131.592, 1e-9);
    EXPECT_NEAR(reorder_point(120, 40, 1.75, 1.6449).value(), 30 + 32.898, 1e-9);
}

// The row has four digits: half a unit of the last one, times the density of the normal distribution there, 0.103.
TEST(StockConsistency, NinetyFiveOfAHundredLieBelowTheQuantileOfTheTable) {
    double z = 0;
    for (const auto& row : atlas::shelf_rules)
        if (row.key == "service_z") z = row.value_1;
    EXPECT_NEAR(0.5 * std::erfc(-z / std::sqrt(2.0)), 0.95, 0.00005 * 0.104);
}

TEST(StockProperty, MoreUseSpreadOrWaitingNeverOrdersLater) {
    const double base = reorder_point(100, 30, 14, 1.6449).value();
    EXPECT_GT(reorder_point(110, 30, 14, 1.6449).value(), base);
    EXPECT_GT(reorder_point(100, 40, 14, 1.6449).value(), base);
    EXPECT_GT(reorder_point(100, 30, 21, 1.6449).value(), base);
    EXPECT_DOUBLE_EQ(reorder_point(100, 30, 0, 1.6449).value(), 0);
    EXPECT_DOUBLE_EQ(reorder_point(100, 0, 14, 1.6449).value(), 200);
    // Four times the wait: twice the spread's part.
    EXPECT_NEAR(reorder_point(0, 30, 28, 2).value(), 2 * reorder_point(0, 30, 7, 2).value(), 1e-12);
}

TEST(StockRefusal, NothingBelowNought) {
    EXPECT_EQ(reorder_point(-1, 0, 7, 1).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(reorder_point(1, std::nan(""), 7, 1).error().code, ErrorCode::OutOfRange);
}

}  // namespace
}  // namespace hw::work
