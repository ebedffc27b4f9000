#include "core/leather/naming.hpp"

#include <gtest/gtest.h>

namespace hw::leather {
namespace {

// EN 15987:2015, 4.1.1: surface layer of at most 0.15 mm; note 1: disintegrated and re-formed is not leather; note 2: without grain
// the word needs a qualifier.
TEST(NamingReference, FollowsTheLimitsOfEn15987) {
    EXPECT_EQ(named(Grain::Whole, 0.15, 1.2).words, "leather");
    EXPECT_EQ(named(Grain::Buffed, 0.0, 1.2).words, "leather");
    EXPECT_EQ(named(Grain::Whole, 0.151, 1.2).words, "coated leather");
    EXPECT_EQ(named(Grain::Gone, 0.15, 1.2).words, "split leather");
    EXPECT_EQ(named(Grain::Gone, 0.22, 1.2).words, "coated split leather");
    EXPECT_FALSE(named(Grain::Fibre, 0.1, 1.2).leather);
    EXPECT_FALSE(named(Grain::Fibre, 0.1, 1.2, 0.9).leather);
    EXPECT_EQ(named(Grain::Fibre, 0.1, 1.2, 0.5).words, "leather fibre board; not leather");
    EXPECT_EQ(named(Grain::Fibre, 0.1, 1.2, 0.49).words, "not leather");
    EXPECT_FALSE(named(Grain::None, 0.1, 1.2).leather);
}

TEST(NamingReference, CoatedLeatherEndsAtAThirdOfTheThickness) {
    EXPECT_EQ(named(Grain::Whole, 0.4, 1.2).words, "coated leather");
    EXPECT_FALSE(named(Grain::Whole, 0.401, 1.2).leather);
    EXPECT_EQ(named(Grain::Whole, 0.4, 1.199).words, "not leather");
}

// RAL 061 A1, 3.1 and 3.2: at most 0.01 mm.
TEST(NamingReference, AnilineEndsAtAHundredthOfAMillimetreByRal061) {
    EXPECT_TRUE(thin_enough_for_aniline(0.01));
    EXPECT_FALSE(thin_enough_for_aniline(0.0101));
}

TEST(NamingProperty, WhatWasNotMeasuredIsNotSaid) {
    EXPECT_EQ(named(Grain::Gone, std::nullopt, 1.2).words, "");
    EXPECT_EQ(named(Grain::Whole, 0.2, std::nullopt).words, "");
    EXPECT_NE(named(Grain::Whole, std::nullopt, std::nullopt).why.find("not measured"), std::string::npos);
}

}  // namespace
}  // namespace hw::leather
