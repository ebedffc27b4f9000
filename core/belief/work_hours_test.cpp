#include "core/belief/work_hours.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace hw::belief {
namespace {

TEST(WorkHoursConsistency, OnePartHasItsMiddleAtTheGeometricMean) {
    const auto one = work_hours({{2, 5, 1}});
    ASSERT_TRUE(one.ok());
    EXPECT_NEAR(one->half_h, std::sqrt(10.0), 1e-12);
    const double spread = std::log(5.0 / 2) / (2 * 1.2815515655446004);
    EXPECT_NEAR(one->eight_in_ten_h, std::sqrt(10.0) * std::exp(0.8416212335729143 * spread), 1e-9);
    EXPECT_NEAR(work_hours({{0.4, 0.4, 2}})->eight_in_ten_h, 0.8, 1e-12) << "what always takes the same has no spread";
}

// 100,000 jobs drawn; the middle of Fenton's sum is compared at 2 %: its own error for spreads this small.
TEST(WorkHoursConsistency, ASumAgreesWithDrawnJobs) {
    const std::vector<HourRange> parts{{0.2, 0.5, 1}, {0.5, 1.5, 1}, {0.3, 0.8, 1}, {0.5, 1, 1}, {0.3, 1.5, 1}, {0.3, 0.6, 0.3}};
    std::mt19937_64 from(12);
    std::normal_distribution<double> normal;
    std::vector<double> drawn;
    double middles = 0;
    for (const auto& p : parts) middles += p.times * std::sqrt(p.low_h * p.high_h);
    for (int n = 0; n < 100000; ++n) {
        double sum = 0;
        for (const auto& p : parts) sum += p.times * std::sqrt(p.low_h * p.high_h) * std::exp(normal(from) * std::log(p.high_h / p.low_h) / (2 * 1.2815515655446004));
        drawn.push_back(sum);
    }
    std::sort(drawn.begin(), drawn.end());
    const auto h = work_hours(parts).value();
    EXPECT_NEAR(h.half_h, drawn[50000], 0.02 * drawn[50000]);
    EXPECT_NEAR(h.eight_in_ten_h, drawn[80000], 0.02 * drawn[80000]);
    EXPECT_GT(h.half_h, middles) << "middles added up say too little";
}

TEST(WorkHoursRefusal, WantsRangesAboveNought) {
    EXPECT_EQ(work_hours({}).error().code, ErrorCode::OutOfRange);
    EXPECT_EQ(work_hours({{0, 1, 1}}).error().where, "hours");
    EXPECT_EQ(work_hours({{2, 1, 1}}).error().where, "hours");
    EXPECT_EQ(work_hours({{1, 2, 0}}).error().where, "hours");
}

}  // namespace
}  // namespace hw::belief
