#include "base/result.hpp"
#include "base/quantity.hpp"
#include "base/source.hpp"

#include <gtest/gtest.h>

namespace {

using namespace hw;

TEST(ErrorTableConsistency, StandsInTheOrderOfTheEnumWithDistinctExitCodes) {
    for (std::size_t i = 0; i < error_table.size(); ++i) {
        EXPECT_EQ(static_cast<std::size_t>(error_table[i].code), i);
        for (std::size_t j = 0; j < i; ++j) EXPECT_NE(error_table[i].exit_code, error_table[j].exit_code);
    }
}

TEST(ResultRefusal, AskingAnErrorForItsValueIsABug) {
    const Result<int> r = Error{ErrorCode::NotFound, "no such liquid", "liquid.id"};
    EXPECT_FALSE(r.ok());
    EXPECT_EQ(r.error().where, "liquid.id");
    EXPECT_THROW(static_cast<void>(r.value()), Bug);
}

TEST(QuantityProperty, AUnitGoesInAndOutUnchanged) {
    EXPECT_DOUBLE_EQ(millimetres(1.2).in(micrometres), 1200.0);
    EXPECT_DOUBLE_EQ((Temperature::celsius(25) - Temperature::celsius(20)).in(kelvin_difference), 5.0);
    EXPECT_DOUBLE_EQ(minutes(2).in(seconds), 120.0);
}

TEST(SourceConsistency, EveryStandingRoundTrips) {
    for (auto s : {Standing::Published, Standing::CommonPractice, Standing::FromMemory, Standing::Derived,
                   Standing::Estimate, Standing::Measured, Standing::Invented})
        EXPECT_EQ(standing_of(name_of(s)), s);
    EXPECT_THROW(static_cast<void>(standing_of("hearsay")), Bug);
}

}  // namespace
