// The chart for the wall: same chart, same bytes, on every paper; heads on every page.
#include <gtest/gtest.h>

#include "edge/pdf/printer.hpp"
#include "desk/meet.hpp"
#include "desk/touch.hpp"

namespace hw::pdf {
namespace {

desk::TouchAnswer chart(int liquids, int leathers) {
    desk::TouchAnswer a;
    a.version = "hidewright";
    a.use_words = "5 sprays";
    for (int j = 0; j < leathers; ++j) {
        desk::TouchColumn c;
        c.key = c.name = "leather " + std::to_string(j);
        a.columns.push_back(c);
    }
    for (int i = 0; i < liquids; ++i) {
        a.rows.push_back({"l" + std::to_string(i), "Liquid " + std::to_string(i), ""});
        for (int j = 0; j < leathers; ++j) {
            desk::TouchCell c;
            c.state = static_cast<desk::CellState>((i + j) % 4);
            c.grade = static_cast<desk::Grade>((i + j) % 6);
            c.words = "past a limit for a while";
            a.cells.push_back(c);
        }
    }
    a.legend.push_back({desk::Grade::Stop, "stop", "do not use"});
    return a;
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t n = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
    return n;
}

TEST(WallChartProperty, SameChartAndTimeGiveTheSameBytesOnEveryPaperAndAnotherTimeOthers) {
    PdfPrinter printer;
    const auto a = chart(24, 14);
    for (const auto paper : {desk::WallPaper::A3, desk::WallPaper::A4, desk::WallPaper::Tabloid, desk::WallPaper::Letter}) {
        const auto one = printer.chart(a, {}, "2026-01-02T03:04:05Z", paper), two = printer.chart(a, {}, "2026-01-02T03:04:05Z", paper), later = printer.chart(a, {}, "2026-01-03T03:04:05Z", paper);
        ASSERT_TRUE(one.ok());
        EXPECT_EQ(*one, *two);
        EXPECT_NE(*one, *later);
    }
}

TEST(WallChartProperty, ManyLiquidsAndLeathersRunOnOverPages) {
    PdfPrinter printer;
    const auto few = printer.chart(chart(5, 5), {}, "", desk::WallPaper::A4), many = printer.chart(chart(120, 30), {}, "", desk::WallPaper::A4), none = printer.chart(chart(0, 0), {}, "", desk::WallPaper::A4);
    ASSERT_TRUE(few.ok() && many.ok() && none.ok());
    // Three blocks of ten leathers, each over several pages.
    EXPECT_GE(many->size(), 5 * few->size());
    EXPECT_EQ(count(none->substr(0, 5), "%PDF-"), 1u);
}

}  // namespace
}  // namespace hw::pdf
