#include "core/leather/condition.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace hw::leather {
namespace {

TEST(ConditionConsistency, TheWorkedPanelComesToSixtyFour) {
    // Fading (weight 10) severity 2 over all of it: 20. A tear (weight 25) severity 4 over 2.56 %: 25 x 4 x 0.16 = 16.
    const auto ci = condition_index({{10, 2, 1}, {25, 4, 0.0256}});
    EXPECT_NEAR(ci.value, 64, 1e-12);
    const double sd = std::sqrt((10 * 10 + 4 * 4) / 12.0);
    EXPECT_NEAR(ci.plus_minus, 1.6448536 * sd, 1e-6);
}

TEST(ConditionProperty, NothingSeenIsAHundredAndNothingFallsBelowZero) {
    EXPECT_EQ(condition_index({}).value, 100);
    EXPECT_EQ(condition_index({}).plus_minus, 0);
    EXPECT_EQ(condition_index({{25, 4, 1}, {25, 4, 1}}).value, 0);
}

TEST(ConditionProperty, WorseOrLargerNeverRaisesIt) {
    for (double severity = 0; severity < 4; ++severity)
        for (double area = 0; area < 1; area += 0.1) {
            EXPECT_LE(condition_index({{12, severity + 1, area}}).value, condition_index({{12, severity, area}}).value);
            EXPECT_LE(condition_index({{12, severity, area + 0.1}}).value, condition_index({{12, severity, area}}).value);
        }
}

TEST(ConditionProperty, WhatIsGoneWeighsNothing) {
    EXPECT_EQ(condition_index({{25, 0, 1}}).value, 100);
    EXPECT_EQ(condition_index({{25, 0, 1}}).plus_minus, 0);
}

}  // namespace
}  // namespace hw::leather
