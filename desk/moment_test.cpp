#include "desk/moment.hpp"

#include <gtest/gtest.h>

#include <cstdint>

namespace {

using namespace hw::desk;

TEST(MomentConsistency, TimesAreWrittenAsIso8601AndReadAgain) {
    EXPECT_EQ(moment(0), "1970-01-01T00:00:00Z");
    EXPECT_EQ(moment(1767323045), "2026-01-02T03:04:05Z");
    EXPECT_EQ(moment(1709251199), "2024-02-29T23:59:59Z");
    for (const std::int64_t s : {std::int64_t{0}, std::int64_t{1767323045}, std::int64_t{1709251199}}) EXPECT_EQ(parse_moment(moment(s)), s);
}

TEST(MomentRefusal, WhatIsNoTimeIsNone) {
    for (const char* bad : {"", "yesterday", "2026-02-30", "2026-01-02T25:00:00Z", "2026-01-02T03:04:05", "2026-01-02T03:04:05.Z"}) EXPECT_FALSE(parse_moment(bad).has_value()) << bad;
}

}  // namespace
