#include <gtest/gtest.h>

#include <cmath>

#include "core/piece/model.hpp"

namespace {

using namespace hw;
using namespace hw::piece;

FreePanel rectangle(double a, double b) { return {"", "", "rectangle", a, b, 0, {}}; }

TEST(FreePanelConsistency, GivesTheAreasOfRectangleTrapezoidAndOutline) {
    // 40 x 27.5 = 1100; (50 + 30) / 2 x 22 = 880; an L of 30 x 10 and 10 x 25 more: 300 + 250 = 550.
    const auto d = drawing_of_free({rectangle(40, 27.5), {"GS", "Gear gaiter", "trapezoid", 50, 30, 22, {}}, {"", "", "outline", 0, 0, 0, {{0, 0}, {30, 0}, {30, 10}, {10, 10}, {10, 35}, {0, 35}}}}).value();
    ASSERT_EQ(d.panels.size(), 3U);
    EXPECT_NEAR(d.panels[0].area_cm2, 1100, 1e-9);
    EXPECT_NEAR(d.panels[1].area_cm2, 880, 1e-9);
    EXPECT_NEAR(d.panels[2].area_cm2, 550, 1e-9);
    EXPECT_NEAR(d.area_m2, 0.253, 1e-12);
    EXPECT_EQ(d.panels[0].code, "P1");
    EXPECT_EQ(d.panels[1].code, "GS");
}

TEST(FreePanelProperty, TheDirectionOfAnOutlineDoesNotMatter) {
    const std::vector<Point2> there{{0, 0}, {30, 5}, {20, 40}}, back{{20, 40}, {30, 5}, {0, 0}};
    EXPECT_DOUBLE_EQ(drawing_of_free({{"", "", "outline", 0, 0, 0, there}})->area_m2, drawing_of_free({{"", "", "outline", 0, 0, 0, back}})->area_m2);
}

TEST(FreePanelProperty, PanelsLieInRowsWithoutOverlapAndInsideTheSheet) {
    std::vector<FreePanel> panels;
    for (int i = 0; i < 23; ++i) panels.push_back(rectangle(10 + 7 * (i % 5), 8 + 11 * (i % 3)));
    const auto d = drawing_of_free(panels).value();
    const View& view = d.views.at(0);
    ASSERT_EQ(view.shapes.size(), panels.size());
    auto bounds = [](const Shape& s) { return std::pair{s.outline[3], s.outline[1]}; };
    for (std::size_t i = 0; i < view.shapes.size(); ++i) {
        const auto [a_low, a_high] = bounds(view.shapes[i]);
        EXPECT_GE(a_low.x, 0);
        EXPECT_GE(a_low.y, 0);
        EXPECT_LE(a_high.x, view.width);
        EXPECT_LE(a_high.y, view.height);
        EXPECT_NEAR((a_high.x - a_low.x) * (a_high.y - a_low.y), d.panels[i].area_cm2, 1e-9);
        for (std::size_t k = i + 1; k < view.shapes.size(); ++k) {
            const auto [b_low, b_high] = bounds(view.shapes[k]);
            EXPECT_TRUE(a_high.x <= b_low.x || b_high.x <= a_low.x || a_high.y <= b_low.y || b_high.y <= a_low.y) << i << " " << k;
        }
    }
}

void expect_refused(const std::vector<FreePanel>& panels, ErrorCode code, const std::string& where) {
    const auto r = drawing_of_free(panels);
    ASSERT_FALSE(r.ok()) << where;
    EXPECT_EQ(r.error().code, code);
    EXPECT_EQ(r.error().where, where);
}

TEST(FreePanelRefusal, NamesThePanelAndTheField) {
    auto outline = [](std::vector<Point2> points) { return FreePanel{"", "", "outline", 0, 0, 0, std::move(points)}; };
    expect_refused({}, ErrorCode::InvalidInput, "panels");
    expect_refused({rectangle(10, 10), {"", "", "circle", 1, 1, 1, {}}}, ErrorCode::InvalidInput, "panels[1].shape");
    expect_refused({rectangle(0.4, 10)}, ErrorCode::OutOfRange, "panels[0].a_cm");
    expect_refused({rectangle(10, 1001)}, ErrorCode::OutOfRange, "panels[0].b_cm");
    expect_refused({{"", "", "trapezoid", 10, 8, 0, {}}}, ErrorCode::OutOfRange, "panels[0].h_cm");
    expect_refused({rectangle(std::nan(""), 10)}, ErrorCode::InvalidInput, "panels[0].a_cm");
    expect_refused({outline({{0, 0}, {10, 0}})}, ErrorCode::InvalidInput, "panels[0].outline");
    expect_refused({outline({{0, 0}, {10, 10}, {10, 0}, {0, 10}})}, ErrorCode::InvalidInput, "panels[0].outline");           // crosses
    expect_refused({outline({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}})}, ErrorCode::InvalidInput, "panels[0].outline");   // touches
    expect_refused({outline({{0, 0}, {10, 0}, {10, 0}, {0, 10}})}, ErrorCode::InvalidInput, "panels[0].outline");            // a point twice
    expect_refused({outline({{0, 0}, {10, 0}, {20, 0}})}, ErrorCode::InvalidInput, "panels[0].outline");                     // no area
    expect_refused({outline({{0, 0}, {1e4, 0}, {0, 10}})}, ErrorCode::OutOfRange, "panels[0].outline");
    expect_refused({{"A", "", "rectangle", 9, 9, 0, {}}, {"A", "", "rectangle", 9, 9, 0, {}}}, ErrorCode::InvalidInput, "panels[1].code");
}

}  // namespace
