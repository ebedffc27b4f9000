#include "core/piece/solid.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/piece/model.hpp"

namespace {

using namespace hw::piece;
constexpr double pi = std::numbers::pi;

double area_of(const Solid& solid, int panel) {
    double sum = 0;
    for (const auto& face : solid.faces)
        if (face.panel == panel) sum += face.area_cm2;
    return sum;
}

double facet_area_of(const Solid& solid, int panel) {
    double sum = 0;
    for (const auto& face : solid.faces)
        if (face.panel == panel) sum += length(area_vector(solid, face));
    return sum;
}

double volume_of(const Solid& solid) {
    double sum = 0;
    for (const auto& face : solid.faces) sum += dot(area_vector(solid, face), solid.points[face.corners[0]] - solid.points[0]) / 3;
    return sum;
}

Point3 leak_of(const Solid& solid) {
    Point3 sum;
    for (const auto& face : solid.faces) {
        const Point3 a = area_vector(solid, face);
        sum = {sum.x + a.x, sum.y + a.y, sum.z + a.z};
    }
    return sum;
}

TEST(SolidConsistency, ABoxOfThreeByFiveBySevenHasTheAreasOfItsSides) {
    // 3 wide, 5 deep, 7 high: 5 x 7 = 35 at the sides, 3 x 7 = 21 in front, 3 x 5 = 15 on top; volume 105.
    const Solid b = box({1, 2, 3}, {4, 7, 10}, {0, 1, 2, 3, 4, 5});
    const double expected[] = {35, 35, 21, 21, 15, 15};
    for (int i = 0; i < 6; ++i) EXPECT_NEAR(area_of(b, i), expected[i], 1e-12) << i;
    EXPECT_NEAR(volume_of(b), 105, 1e-12);
}

TEST(SolidConsistency, AHalfRoundPrismHasTheAreasOfItsArcAndItsEnds) {
    // Radius 4, length 10: the arc pi x 4 x 10 = 125.66, its flat side 8 x 10 = 80, an end pi 16 / 2 = 25.13, round it
    // pi 4 + 8 = 20.57.
    const Solid s = prism(Axis::Y, Profile({4, 0}).arc({0, 0}, pi, 0, 6).close(1), 0, 10, 2, 3);
    EXPECT_NEAR(area_of(s, 0), 40 * pi, 1e-10);
    EXPECT_NEAR(area_of(s, 1), 80, 1e-10);
    EXPECT_NEAR(area_of(s, 2), 8 * pi, 1e-10);
    for (const auto& face : s.faces) {
        if (face.panel == 2) { EXPECT_NEAR(face.round_cm, 4 * pi + 8, 1e-10); }
    }
}

TEST(SolidConsistency, ASectorOfARingHasTheAreaOfPappus) {
    // A full ring has 4 pi^2 R r; a third of it with R 17 and r 1.5 has 4 pi^2 x 25.5 / 3 = 335.57.
    const Solid s = ring_sector({0, 0, 0}, 17, 1.5, 0.3, 0.3 + 2 * pi / 3, 0, 5, 7);
    EXPECT_NEAR(area_of(s, 0), 4 * pi * pi * 25.5 / 3, 1e-9);
}

TEST(SolidProperty, FacetsNearTheTrueAreaAtSecondOrder) {
    auto arc_miss = [](int facets) {
        const Solid s = prism(Axis::Y, Profile({4, 0}).arc({0, 0}, pi, 0, facets).close(1), 0, 10, 2, 3);
        return area_of(s, 0) - facet_area_of(s, 0);
    };
    auto end_miss = [](int facets) {
        const Solid s = prism(Axis::Y, Profile({4, 0}).arc({0, 0}, pi, 0, facets).close(1), 0, 10, 2, 3);
        return area_of(s, 2) - facet_area_of(s, 2);
    };
    auto ring_miss = [](int facets) {
        const Solid s = ring_sector({0, 0, 0}, 17, 1.5, 0, 2, 0, facets, facets);
        return area_of(s, 0) - facet_area_of(s, 0);
    };
    // Half the step, a quarter of the miss: the order is log2 of the ratio. The next term of the series is of fourth
    // order, so at 32 facets the ratio is off by about (pi / 32)^2.
    for (const auto& miss : {+arc_miss, +end_miss, +ring_miss}) {
        EXPECT_GT(miss(32), 0);
        EXPECT_NEAR(std::log2(miss(32) / miss(64)), 2, pi * pi / 32 / 32);
    }
}

TEST(SolidProperty, FacesCloseAndLookOutward) {
    const Profile five = Profile({0, 0}).line({5, 0}, 0).line({6, 3}, 1).line({2, 6}, 2).line({-1, 2}, 3).close(4);
    std::vector<Solid> solids{box({0, 0, 0}, {2, 3, 4}, {}), tapered({1, 1, 0}, {2, 2, 0}, {0, 0, 5}, {4, 3, 5}), ring_sector({1, 2, 3}, 9, 2, 0.1, 1.9, 0, 6, 9)};
    for (const Axis axis : {Axis::X, Axis::Y, Axis::Z}) solids.push_back(prism(axis, five, 1, 4, 5, 6));
    const std::size_t n = solids.size();
    for (std::size_t i = 0; i < n; ++i) {
        solids.push_back(leaned(solids[i], 1, 2, 0.3));
        solids.push_back(turned(solids[i], 1, 2, 0.7));
        solids.push_back(mirrored(solids[i], 3));
    }
    for (const auto& s : solids) {
        EXPECT_LT(length(leak_of(s)), 1e-9);
        EXPECT_GT(volume_of(s), 0);
    }
}

TEST(SolidProperty, CuttingKeepsEveryAreaAndStaysClosed) {
    Solid s = prism(Axis::X, Profile({0, 0}).line({5, 0}, 0).line({6, 3}, 1).line({2, 6}, 2).line({-1, 2}, 3).close(4), 0, 7, 5, 6);
    const Solid whole = s;
    cut(s, Axis::Z, 2.5);
    cut(s, Axis::Y, 1.25);
    cut(s, Axis::X, 3);
    EXPECT_GT(s.faces.size(), whole.faces.size());
    EXPECT_LT(length(leak_of(s)), 1e-9);
    for (int panel = 0; panel <= 6; ++panel) EXPECT_NEAR(area_of(s, panel), area_of(whole, panel), 1e-9) << panel;
    EXPECT_NEAR(volume_of(s), volume_of(whole), 1e-9);
}

TEST(SolidProperty, LeaningAndTurningKeepAreas) {
    const Solid s = box({0, 0, 0}, {2, 3, 4}, {0, 1, 2, 3, 4, 5});
    for (int i = 0; i < 6; ++i) {
        EXPECT_NEAR(facet_area_of(leaned(s, 5, 1, 0.4), i), area_of(s, i), 1e-12);
        EXPECT_NEAR(facet_area_of(turned(s, 5, 1, 0.4), i), area_of(s, i), 1e-12);
    }
}

}  // namespace
