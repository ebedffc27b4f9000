#include "core/chem/electrode.hpp"

#include <gtest/gtest.h>


namespace hw::chem {
namespace {

// R. G. Bates and every handbook print 59.16 mV at 25 degC, 54.20 at 0, 58.17 at 20.
TEST(ElectrodeConsistency, TheIdealSlopeIsThatOfTheConstants) {
    EXPECT_NEAR(nernst_slope_mv(25), 59.159, 0.001);
    EXPECT_NEAR(nernst_slope_mv(0), 54.199, 0.001);
    EXPECT_NEAR(nernst_slope_mv(20), 58.167, 0.001);
}

TEST(ElectrodeProperty, AnIdealMeterHasFullSlopeAndNoOffset) {
    const auto e = electrode({4.01, 4.01}, {7.00, 7.00}, false, 25, 1.5);
    ASSERT_TRUE(e.ok());
    EXPECT_DOUBLE_EQ(e->slope_pct, 100);
    EXPECT_NEAR(e->zero_ph, 0, 1e-12);
}

TEST(ElectrodeProperty, MillivoltsAndPhTellTheSame) {
    const double s = nernst_slope_mv(20);
    // An electrode of 93 % slope whose zero point lies 12 mV off.
    const auto mv = [&](double ph) { return 12 - 0.93 * s * (ph - 7); };
    const auto from_mv = electrode({4.00, mv(4.00)}, {7.02, mv(7.02)}, true, 20, 1.5);
    ASSERT_TRUE(from_mv.ok());
    EXPECT_NEAR(from_mv->slope_pct, 93, 1e-9);
    EXPECT_NEAR(from_mv->zero_ph, -12 / s, 1e-12);
    const auto from_ph = electrode({4.00, 7 - mv(4.00) / s}, {7.02, 7 - mv(7.02) / s}, false, 20, 1.5);
    ASSERT_TRUE(from_ph.ok());
    EXPECT_NEAR(from_ph->slope_pct, from_mv->slope_pct, 1e-9);
    EXPECT_NEAR(from_ph->zero_ph, from_mv->zero_ph, 1e-12);
}

TEST(ElectrodeProperty, TheOrderOfTheBuffersDoesNotMatter) {
    const auto a = electrode({4, 4.1}, {10, 9.8}, false, 25, 1.5), b = electrode({10, 9.8}, {4, 4.1}, false, 25, 1.5);
    EXPECT_NEAR(a->slope_pct, b->slope_pct, 1e-9);
    EXPECT_NEAR(a->zero_ph, b->zero_ph, 1e-12);
}

TEST(ElectrodeRefusal, TwoBuffersAlikeTellNoSlope) {
    const auto e = electrode({7, 7}, {6.86, 6.9}, false, 25, 1.5);
    ASSERT_FALSE(e.ok());
    EXPECT_EQ(e.error().where, "buffers");
}

}  // namespace
}  // namespace hw::chem
