#include "base/spelling.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace {

using namespace hw;

TEST(SpellingConsistency, CountsLettersPutInDroppedAndChanged) {
    EXPECT_EQ(letters_apart("width", "width"), 0U);
    EXPECT_EQ(letters_apart("widht", "width"), 2U);
    EXPECT_EQ(letters_apart("with", "width"), 1U);
    EXPECT_EQ(letters_apart("widdth", "width"), 1U);
    EXPECT_EQ(letters_apart("wideh", "width"), 1U);
    EXPECT_EQ(letters_apart("", "width"), 5U);
    EXPECT_EQ(letters_apart("width", ""), 5U);
}

TEST(SpellingProperty, IsADistance) {
    const std::vector<std::string> words{"", "a", "dwell_s", "dwel_s", "dose", "does", "area_cm2", "surface_ph"};
    for (const auto& a : words)
        for (const auto& b : words) {
            EXPECT_EQ(letters_apart(a, b), letters_apart(b, a));
            EXPECT_EQ(letters_apart(a, b) == 0, a == b);
            EXPECT_LE(letters_apart(a, b), std::max(a.size(), b.size()));
            for (const auto& c : words) EXPECT_LE(letters_apart(a, c), letters_apart(a, b) + letters_apart(b, c));
        }
}

}  // namespace
