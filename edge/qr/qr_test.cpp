#include "edge/qr/qr.hpp"

#include <gtest/gtest.h>

#include <regex>
#include <set>

namespace hw::qr {
namespace {

/// Dark modules of a picture, counted from the corner of the code itself.
std::set<std::pair<int, int>> dark(const std::string& svg) {
    std::set<std::pair<int, int>> out;
    const std::regex run("M(\\d+) (\\d+)h(\\d+)v1");
    for (auto it = std::sregex_iterator(svg.begin(), svg.end(), run); it != std::sregex_iterator(); ++it)
        for (int i = 0; i < std::stoi((*it)[3]); ++i) out.insert({std::stoi((*it)[1]) - 4 + i, std::stoi((*it)[2]) - 4});
    return out;
}

// ISO/IEC 18004: 21 modules a side in version 1, a finder pattern in three corners, timing patterns between them.
TEST(QrProperty, ThePatternsThatACameraLooksForAreThere) {
    SvgPainter painter;
    const std::string svg = *painter.svg("HW");
    EXPECT_NE(svg.find("viewBox=\"0 0 29 29\""), std::string::npos) << svg;
    const auto on = dark(svg);
    for (const auto& [left, top] : {std::pair{0, 0}, {14, 0}, {0, 14}})
        for (int y = 0; y < 7; ++y)
            for (int x = 0; x < 7; ++x) {
                const int ring = std::max(std::abs(x - 3), std::abs(y - 3));
                EXPECT_EQ(on.count({left + x, top + y}) == 1, ring != 2) << left << " " << top << " " << x << " " << y;
            }
    for (int i = 8; i < 13; ++i) {
        EXPECT_EQ(on.count({i, 6}) == 1, i % 2 == 0);
        EXPECT_EQ(on.count({6, i}) == 1, i % 2 == 0);
    }
}

TEST(QrRefusal, WhatIsTooLongForACodeIsRefused) {
    SvgPainter painter;
    EXPECT_FALSE(painter.svg(std::string(5000, 'x')).ok());
    EXPECT_FALSE(painter.svg("").ok());
}

}  // namespace
}  // namespace hw::qr
