#include "core/piece/piece.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <set>

#include "core/piece/model.hpp"

namespace {

using namespace hw;
using namespace hw::piece;
constexpr double pi = std::numbers::pi;

double area(const Drawing& d, const std::string& code) {
    for (const auto& panel : d.panels)
        if (panel.code == code) return panel.area_cm2;
    ADD_FAILURE() << "no panel " << code;
    return 0;
}

double welt(const Drawing& d, const std::string& code) {
    for (const auto& panel : d.panels)
        if (panel.code == code) return panel.welt_cm;
    ADD_FAILURE() << "no panel " << code;
    return 0;
}

/// Every choice of the options of a family.
std::vector<std::vector<Given>> choices(const Family& family) {
    std::vector<std::vector<Given>> out{{}};
    for (const auto& o : family.options) {
        std::vector<std::vector<Given>> more;
        for (const auto& chosen : out)
            for (int value = o.least; value <= o.most; ++value) {
                more.push_back(chosen);
                more.back().push_back({std::string(o.key), static_cast<double>(value)});
            }
        out = std::move(more);
    }
    return out;
}

/// As the drawing fills it in: places beyond the default widen what grows with them.
double places_beyond(const Family& family, const Dimension& d, const std::vector<Given>& chosen) {
    if (d.per_place_cm == 0) return 0;
    const std::string key = family.key == "corner_sofa" && d.key == "length" ? "return_seats" : "seats";
    for (const auto& o : family.options)
        for (const auto& g : chosen)
            if (o.key == key && g.key == key) return g.value_1 - o.value;
    return 0;
}

/// Options chosen, and each dimension at its least or most by the bits of `pattern`.
std::vector<Given> corner_of_range(const Family& family, std::vector<Given> chosen, unsigned pattern) {
    const std::vector<Given> options = chosen;
    for (std::size_t i = 0; i < family.dimensions.size(); ++i) {
        const auto& d = family.dimensions[i];
        chosen.push_back({std::string(d.key), ((pattern >> i & 1U) != 0 ? d.most_cm : d.least_cm) + d.per_place_cm * places_beyond(family, d, options)});
    }
    return chosen;
}

// ---- areas by hand -----------------------------------------------------------------------------------------------------

TEST(PieceConsistency, ALooseCushionSofaAgreesWithHandCalculation) {
    // Two seats, 171 wide, 93 deep, frame 81 high, arms 19 x 61, seat 43 with cushions of 17, frame 13, back cushion 21, feet 7.
    const auto d = drawing("sofa", {{"seats", 2}, {"width", 171}, {"depth", 93}, {"height", 81}, {"arm_width", 19}, {"arm_height", 61}, {"seat_height", 43},
                                    {"seat_cushion", 17}, {"back_frame", 13}, {"back_cushion", 21}, {"foot", 7}, {"welt", 2}}).value();
    // A place is (171 - 38) / 2 = 66.5 wide; a seat cushion runs 93 - 13 = 80 deep; the deck is 43 - 17 = 26 high.
    EXPECT_NEAR(area(d, "SC1-top"), 66.5 * 80, 1e-9);
    EXPECT_NEAR(area(d, "SC2-under"), 66.5 * 80, 1e-9);
    EXPECT_NEAR(area(d, "SC1-front"), 66.5 * 17, 1e-9);
    EXPECT_NEAR(area(d, "SC2-left"), 80 * 17, 1e-9);
    EXPECT_NEAR(area(d, "FB"), 133 * (26 - 7), 1e-9);
    EXPECT_NEAR(area(d, "DK"), 133 * 80, 1e-9);
    EXPECT_NEAR(area(d, "IA-L"), 80 * (61 - 26), 1e-9);
    EXPECT_NEAR(area(d, "AT-R"), 80 * 19, 1e-9);
    EXPECT_NEAR(area(d, "AF-L"), 19 * (61 - 7), 1e-9);
    EXPECT_NEAR(area(d, "OA-R"), 80 * (61 - 7), 1e-9);
    EXPECT_NEAR(area(d, "OB"), 171 * (81 - 7), 1e-9);
    EXPECT_NEAR(area(d, "OB-top"), 171 * 13, 1e-9);
    // The side of the frame and its strip above the arm: 13 x 74 + 19 x 20.
    EXPECT_NEAR(area(d, "OB-L"), 13 * 74 + 19 * 20, 1e-9);
    EXPECT_NEAR(area(d, "IB"), 133 * (81 - 26), 1e-9);
    // A back cushion stands on the seat and 1.08 times as high as the frame above it: 38 x 1.08 = 41.04. It thins from 21
    // to 12.6, so the slant of its face is sqrt(41.04^2 + 8.4^2); its ends are trapezoids of (21 + 12.6) / 2 x 41.04.
    const double slant = std::sqrt(41.04 * 41.04 + 8.4 * 8.4);
    EXPECT_NEAR(area(d, "BC1-face"), 66.5 * slant, 1e-9);
    EXPECT_NEAR(area(d, "BC1-reverse"), 66.5 * 41.04, 1e-9);
    EXPECT_NEAR(area(d, "BC2-border"), 66.5 * (21 + 12.6) + 2 * 16.8 * 41.04, 1e-9);
    EXPECT_NEAR(welt(d, "SC1-top"), 2 * (66.5 + 80), 1e-9);
    EXPECT_NEAR(welt(d, "BC1-face"), 2 * (66.5 + slant), 1e-9);
    EXPECT_NEAR(welt(d, "AF-L"), 2 * (19 + 54), 1e-9);
    EXPECT_EQ(welt(d, "OB"), 0);
}

TEST(PieceConsistency, ARoundArmAgreesWithHandCalculation) {
    const auto d = drawing("armchair", {{"width", 91}, {"depth", 87}, {"arm_width", 17}, {"arm_height", 63}, {"seat_height", 45}, {"seat_cushion", 15}, {"back_frame", 12}, {"foot", 9}, {"arms", 2}, {"welt", 2}}).value();
    // The arm is 87 - 12 = 75 long; its round has radius 8.5 and starts at 63 - 8.5 = 54.5; the deck is at 30.
    EXPECT_NEAR(area(d, "IA-L"), (54.5 - 30 + pi * 8.5) * 75, 1e-9);
    EXPECT_NEAR(area(d, "OA-L"), (54.5 - 9) * 75, 1e-9);
    EXPECT_NEAR(area(d, "AF-R"), 17 * (54.5 - 9) + pi * 8.5 * 8.5 / 2, 1e-9);
    // The back is sewn in and 16 thick up to the seat, so the seat cushion is 75 - 16 = 59 deep; above the seat it rises by
    // 82 - 45 = 37 and thins from 16 to 9.6; behind the cushion it goes on for 15 to the deck.
    EXPECT_NEAR(area(d, "SC1-top"), 57 * 59, 1e-9);
    EXPECT_NEAR(area(d, "DK"), 57 * 59, 1e-9);
    EXPECT_NEAR(area(d, "BC1-face"), 57 * std::sqrt(37.0 * 37 + 6.4 * 6.4), 1e-9);
    EXPECT_NEAR(area(d, "IB"), 57 * 15, 1e-9);
    // Side of the frame, strip above the arm, and the corners beside its round: 12 x 73 + 17 x 19 + 17 x 8.5 - pi 8.5^2 / 2.
    EXPECT_NEAR(area(d, "OB-L"), 12 * 73 + 17 * 19 + 17 * 8.5 - pi * 8.5 * 8.5 / 2, 1e-9);
    EXPECT_NEAR(welt(d, "AF-R"), 17 + 2 * 45.5 + pi * 8.5, 1e-9);
}

TEST(PieceConsistency, AWingChairAgreesWithHandCalculation) {
    const auto d = drawing("wing_chair", {{"width", 77}, {"depth", 85}, {"height", 111}, {"arm_width", 9}, {"arm_height", 64}, {"back_frame", 10}, {"wing", 24}}).value();
    // The wing is 24 deep at the arm and up to 64 + 0.75 x 47 = 99.25; from there it goes back by 0.45 x 24 = 10.8 to 13.2 at 111.
    EXPECT_NEAR(area(d, "W-L-inside"), 24 * 35.25 + (24 + 13.2) / 2 * 11.75, 1e-9);
    EXPECT_NEAR(area(d, "W-R-outside"), 24 * 35.25 + (24 + 13.2) / 2 * 11.75, 1e-9);
    EXPECT_NEAR(area(d, "W-L-edge"), 9 * (35.25 + std::sqrt(11.75 * 11.75 + 10.8 * 10.8) + 13.2), 1e-9);
    // The wing stands on the last 24 of the 75 of the arm.
    EXPECT_NEAR(area(d, "AT-L"), 9 * 51, 1e-9);
}

TEST(PieceConsistency, SeatsOfACarAgreeWithHandCalculation) {
    const auto d = drawing("front_seat", {{"width", 55}, {"depth", 51}, {"back_height", 63}, {"bolster_width", 10}, {"bolster_rise", 5}, {"seat_cushion", 13}, {"back_cushion", 12}}).value();
    // The insert is 55 - 20 = 35 wide: its top, and its front border of 13.
    EXPECT_NEAR(area(d, "CU"), 35 * (51 + 13), 1e-9);
    // Bolster, section 10 wide: side 13 + 0.6 x 5 = 16, slopes of (1.2, 2) and (5, 5), top 3.8; front end 10 x 13 and what is above.
    const double round = 16 + std::hypot(1.2, 2.0) + 3.8 + std::hypot(5.0, 5.0);
    const double end = 10 * 13 + (3.0 + 5.0) / 2 * 1.2 + 3.8 * 5 + 5 * 5 / 2.0;
    EXPECT_NEAR(area(d, "CB-o"), round * 51 + end, 1e-9);
    EXPECT_NEAR(area(d, "CB-i"), area(d, "CB-o"), 1e-9);
    EXPECT_NEAR(area(d, "BI"), 35 * (63 + 12), 1e-9);
    // The back panel: a shell of 55 x 63, 2.4 deep at its sides and top.
    EXPECT_NEAR(area(d, "BP"), 55 * 63 + (2 * 63 + 55) * 2.4, 1e-9);
}

TEST(PieceConsistency, ASteeringWheelAgreesWithHandCalculation) {
    const auto d = drawing("steering_wheel", {{"diameter", 38}, {"grip", 3}, {"spoke_width", 4}, {"cover", 14}, {"sectors", 3}}).value();
    // R = 17.5, r = 1.5: the whole rim 4 pi^2 R r, a third of it for each part.
    EXPECT_NEAR(area(d, "SW-1"), 4 * pi * pi * 17.5 * 1.5 / 3, 1e-9);
    EXPECT_NEAR(area(d, "SW-cover"), pi * 49, 1e-9);
    // A spoke runs from sqrt(7^2 - 2^2) to sqrt(16^2 - 2^2), is 4 wide and half the grip thick, wrapped round.
    EXPECT_NEAR(area(d, "SW-S1"), (std::sqrt(252.0) - std::sqrt(45.0)) * 2 * (4 + 1.5), 1e-9);
}

TEST(PieceConsistency, TheOtherFamiliesAgreeWithHandCalculation) {
    const auto ottoman = drawing("ottoman", {{"width", 71}, {"depth", 53}, {"height", 43}, {"foot", 9}}).value();
    EXPECT_NEAR(ottoman.area_m2, (71 * 53 + 2 * (71 + 53) * 34) / 1e4, 1e-12);
    const auto stool = drawing("stool", {{"width", 37}, {"seat_cushion", 6}}).value();
    EXPECT_NEAR(stool.area_m2, (pi * 37 * 37 / 4 + pi * 37 * 6) / 1e4, 1e-12);
    // Nine channels of 18 on 162: rise 2.25, radius (81 + 5.0625) / 4.5 = 19.125, arc 2 x 19.125 x asin(9 / 19.125).
    const auto board = drawing("headboard", {{"width", 162}, {"height", 77}, {"channels", 9}}).value();
    EXPECT_NEAR(area(board, "HB4"), 77 * 2 * 19.125 * std::asin(9 / 19.125), 1e-9);
    // Office chair seat of 50 x 46, corners of 0.16 x 50 = 8: 2300 - (4 - pi) 64; its border 2 (34 + 30) + 2 pi 8 = 178.27 long, 9 high.
    const auto office = drawing("office_chair", {{"width", 50}, {"depth", 46}, {"seat_cushion", 9}}).value();
    EXPECT_NEAR(area(office, "SC1-top"), 2300 - (4 - pi) * 64, 1e-9);
    EXPECT_NEAR(area(office, "SC1-border"), (2 * (34 + 30) + 16 * pi) * 9, 1e-9);
    // Dining chair back 0.94 of a seat of 45 wide, 44 high, 6 thick.
    const auto dining = drawing("dining_chair", {{"width", 45}, {"back_height", 44}, {"back_cushion", 6}}).value();
    EXPECT_NEAR(area(dining, "BC1-face"), 42.3 * 44, 1e-9);
    EXPECT_NEAR(area(dining, "BC1-border"), 2 * (42.3 + 44) * 6, 1e-9);
    // Recliner: footrest 39 long on a seat of 86 - 34 = 52, cushion 16: three quarters of it thick.
    const auto recliner = drawing("recliner", {{"width", 86}, {"arm_width", 17}, {"seat_cushion", 16}, {"footrest", 39}}).value();
    EXPECT_NEAR(area(recliner, "FT-top"), 52 * 39, 1e-9);
    EXPECT_NEAR(area(recliner, "FT-left"), 39 * 12, 1e-9);
    // Its arms run back to 92 and round to the rear: 92 x (61 - 5) and 17 x 56. Above them the back shows 13 x (104 - 61).
    EXPECT_NEAR(area(recliner, "OA-L"), (92 + 17) * 56, 1e-9);
    EXPECT_NEAR(area(recliner, "AT-R"), 17 * 92, 1e-9);
    EXPECT_NEAR(area(recliner, "IA-R"), (92 - 13) * (61 - 46), 1e-9);
    EXPECT_NEAR(area(recliner, "OB-R"), 13 * 43, 1e-9);
    // Door panel: lower part from 0 to 0.36 of 62 = 22.32. Its ends go from 0.03 and 0.97 of 96; the front one reaches 0 at 0.72
    // of the height, the rear one 96 at 0.5. Width at 22.32: 96 - 2.88 (1 - 0.36 / 0.72) - 2.88 (1 - 0.36 / 0.5) = 93.7536.
    const auto door = drawing("door_panel", {{"length", 96}, {"height", 62}, {"arm_length", 40}, {"arm_height", 10}, {"arm_depth", 6}}).value();
    EXPECT_NEAR(area(door, "DP-lower"), (90.24 + 93.7536) / 2 * 22.32, 1e-9);
    // Armrest: top 6, front 6, underside sqrt(6^2 + 4^2) over 40, and two ends of (10 + 6) / 2 x 6.
    EXPECT_NEAR(area(door, "DP-arm"), 40 * (6 + 6 + std::sqrt(52.0)) + 2 * 48, 1e-9);
    // Corner sofa: main place (291 - 96 - 21) / 2 = 87 by 96 - 15; return place 220 - 96 - 21 = 103.
    const auto corner = drawing("corner_sofa", {{"width", 291}, {"length", 220}, {"depth", 96}, {"arm_width", 21}, {"back_frame", 15}}).value();
    EXPECT_NEAR(area(corner, "SC1-top"), 87 * 81, 1e-9);
    EXPECT_NEAR(area(corner, "SC3-top"), 81 * 81, 1e-9);
    EXPECT_NEAR(area(corner, "SC4-top"), 103 * 81, 1e-9);
    // Rear bench: place (137 - 16) / 3; the armrest takes 0.66 of the back of 60.
    const auto bench = drawing("rear_bench", {{"width", 137}, {"bolster_width", 8}}).value();
    EXPECT_NEAR(area(bench, "AC"), 121.0 / 3 * 0.66 * 60, 1e-9);
    EXPECT_NEAR(area(bench, "RC-BI"), 121.0 / 3 * (0.34 * 60 + 12), 1e-9);
}

// ---- laws --------------------------------------------------------------------------------------------------------------

TEST(PieceProperty, AreaGoesWithTheSquareOfAllDimensions) {
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            std::vector<Given> larger = chosen;
            for (const auto& d : family.dimensions) larger.push_back({std::string(d.key), 1.04 * (d.value_cm + d.per_place_cm * places_beyond(family, d, chosen))});
            const auto a = drawing(family.key, chosen), b = drawing(family.key, larger);
            ASSERT_TRUE(a.ok() && b.ok()) << family.key << (a.ok() ? b : a).error().message;
            ASSERT_EQ(a->panels.size(), b->panels.size());
            for (std::size_t i = 0; i < a->panels.size(); ++i) EXPECT_NEAR(b->panels[i].area_cm2, 1.04 * 1.04 * a->panels[i].area_cm2, 1e-9 * b->panels[i].area_cm2) << family.key << a->panels[i].code;
        }
}

TEST(PieceProperty, TwinsNameEachOtherAndHaveEqualAreas) {
    std::size_t twins = 0;
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            const auto d = drawing(family.key, chosen).value();
            for (const auto& panel : d.panels) {
                if (panel.twin.empty()) continue;
                ++twins;
                const auto twin = std::find_if(d.panels.begin(), d.panels.end(), [&](const Panel& p) { return p.code == panel.twin; });
                ASSERT_NE(twin, d.panels.end());
                EXPECT_EQ(twin->twin, panel.code);
                EXPECT_NEAR(twin->area_cm2, panel.area_cm2, 1e-9 * panel.area_cm2) << family.key << panel.code;
            }
        }
    EXPECT_GT(twins, 100U);
    const auto sofa = drawing("sofa", {}).value();
    std::map<std::string, std::string> of;
    for (const auto& panel : sofa.panels) of[panel.code] = panel.twin;
    EXPECT_EQ(of["IA-L"], "IA-R");
    EXPECT_EQ(of["SC1-left"], "SC3-right");
    EXPECT_EQ(of["SC2-top"], "");
}

TEST(PieceProperty, PanelsHaveAreaOneCodeAndAPlainName) {
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            std::set<std::string> codes, names;
            const auto d = drawing(family.key, chosen).value();
            double sum = 0;
            for (const auto& panel : d.panels) {
                EXPECT_GT(panel.area_cm2, 0) << family.key << panel.code;
                EXPECT_TRUE(codes.insert(panel.code).second) << panel.code;
                EXPECT_TRUE(names.insert(panel.name).second) << panel.name;
                EXPECT_FALSE(panel.part.empty());
                sum += panel.area_cm2 / 1e4;
            }
            EXPECT_NEAR(d.area_m2 + d.other_m2, sum, 1e-9);
        }
}

TEST(PieceProperty, TheAreaDoesNotDependOnTheFacets) {
    for (const std::string_view key : {"sofa", "office_chair", "headboard", "stool", "steering_wheel"}) {
        const auto all = families();
        const auto family = *std::find_if(all.begin(), all.end(), [&](const Family& f) { return f.key == key; });
        std::vector<std::pair<std::string_view, double>> values;
        for (const auto& d : family.dimensions) values.emplace_back(d.key, d.value_cm);
        for (const auto& o : family.options) values.emplace_back(o.key, o.key == "arms" ? 2 : o.key == "channels" ? 7 : o.value);
        auto sum = [&](int facets) {
            double out = 0;
            for (const auto& solid : model_of(key, Values(values), facets).solids)
                for (const auto& face : solid.faces) out += face.panel == bare ? 0 : face.area_cm2;
            return out;
        };
        EXPECT_NEAR(sum(3), sum(24), 1e-9 * sum(24)) << key;
    }
}

TEST(PieceProperty, APieceOfFurnitureOrACarHasTheQuestionsOfItsPanels) {
    const auto seat = drawing("front_seat", {}).value();
    std::map<std::string, Panel> of;
    for (const auto& panel : seat.panels) of[panel.code] = panel;
    EXPECT_TRUE(of["BB-o"].possible_airbag);
    EXPECT_FALSE(of["BB-i"].possible_airbag);
    EXPECT_TRUE(of["CU"].possible_occupancy_sensor && of["CU"].possible_heater && of["BI"].possible_heater);
    const auto wheel = drawing("steering_wheel", {}).value();
    EXPECT_TRUE(std::any_of(wheel.panels.begin(), wheel.panels.end(), [](const Panel& p) { return p.code == "SW-cover" && p.possible_airbag; }));
    for (const auto& family : families()) {
        const auto d = drawing(family.key, {}).value();
        for (const auto& panel : d.panels) {
            if (family.group == "furniture") { EXPECT_FALSE(panel.possible_airbag) << panel.code; }
            for (const auto& q : panel.questions) EXPECT_FALSE(q.sentence.empty() || q.source.empty() || q.locator.empty() || q.standing.empty());
        }
    }
}

// ---- the picture -------------------------------------------------------------------------------------------------------

void expect_sound(const View& view, const Drawing& d, const std::string& what) {
    EXPECT_FALSE(view.shapes.empty()) << what;
    for (const auto& shape : view.shapes) {
        EXPECT_TRUE(is_simple(shape.outline)) << what << " " << view.key << (shape.panel == no_panel ? " bare" : d.panels[shape.panel].code);
        EXPECT_GT(std::abs(signed_area(shape.outline)), 0);
        EXPECT_TRUE(shape.light_1 >= 0 && shape.light_1 <= 1);
        for (const auto& p : shape.outline) {
            EXPECT_TRUE(p.x >= 0 && p.x <= view.width && p.y >= 0 && p.y <= view.height) << what << view.key;
        }
    }
}

TEST(PieceProperty, OutlinesAreSimpleAndLieInsideTheirView) {
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            const auto d = drawing(family.key, chosen).value();
            for (const auto& view : d.views) expect_sound(view, d, std::string(family.key));
        }
}

TEST(PieceProperty, SolidsCanBeOrderedOverTheWholeRangeAndStayClosed) {
    std::size_t drawn = 0, refused = 0;
    for (const auto& family : families()) {
        const auto all = choices(family);
        const unsigned corners = 1U << family.dimensions.size();
        // Corners of the range in a fixed stride, so that each option meets several hundred of them in all.
        const unsigned stride = corners > 64 ? static_cast<unsigned>(corners / 64) | 1U : 1U;
        unsigned pattern = 0;
        for (const auto& chosen : all)
            for (unsigned i = 0; i < std::min(corners, 64U); ++i, pattern += stride) {
                const auto r = drawing(family.key, corner_of_range(family, chosen, pattern % corners));
                if (!r.ok()) {
                    ++refused;
                    EXPECT_EQ(r.error().code, ErrorCode::OutOfRange) << family.key << ": " << r.error().message;
                    continue;
                }
                ++drawn;
                for (const auto& view : r->views) expect_sound(view, *r, std::string(family.key));
            }
    }
    EXPECT_GT(drawn, 1000U);
    EXPECT_GT(refused, 10U);
}

TEST(PieceProperty, EverySolidIsClosed) {
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            std::vector<std::pair<std::string_view, double>> values;
            for (const auto& d : family.dimensions) values.emplace_back(d.key, d.value_cm + d.per_place_cm * places_beyond(family, d, chosen));
            for (const auto& g : chosen) values.emplace_back(g.key, g.value_1);
            for (const auto& solid : model_of(family.key, Values(values)).solids) {
                Point3 sum;
                for (const auto& face : solid.faces) {
                    const Point3 a = area_vector(solid, face);
                    sum = {sum.x + a.x, sum.y + a.y, sum.z + a.z};
                }
                EXPECT_LT(length(sum), 1e-9) << family.key;
            }
        }
}

/// Pixels in which each panel is the topmost, the drawing being as wide as a phone shows it.
std::map<std::size_t, int> seen_pixels(const View& view, double width_px) {
    const double scale = width_px / view.width;
    const int w = static_cast<int>(width_px), h = static_cast<int>(std::ceil(view.height * scale));
    std::vector<std::size_t> top(static_cast<std::size_t>(w * h), no_panel);
    for (const auto& shape : view.shapes)
        for (int row = 0; row < h; ++row) {
            const double y = (row + 0.5) / scale;
            std::vector<double> cuts;
            for (std::size_t i = 0; i < shape.outline.size(); ++i) {
                const Point2 a = shape.outline[i], b = shape.outline[(i + 1) % shape.outline.size()];
                if ((a.y <= y) != (b.y <= y)) cuts.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
            }
            std::sort(cuts.begin(), cuts.end());
            for (std::size_t i = 0; i + 1 < cuts.size(); i += 2)
                for (int col = std::max(0, static_cast<int>(std::ceil(cuts[i] * scale - 0.5))); col < w && (col + 0.5) / scale < cuts[i + 1]; ++col)
                    top[static_cast<std::size_t>(row * w + col)] = shape.panel;
        }
    std::map<std::size_t, int> count;
    for (const auto panel : top) ++count[panel];
    return count;
}

TEST(PieceProperty, EveryPanelCanBeTappedInOneOfTheViews) {
    // 340 px is a phone of 360 less its margins; a wider piece is drawn larger and moved. 24 x 24 px is the least target
    // of WCAG 2.2, success criterion 2.5.8.
    constexpr double phone_px = 340;
    constexpr int least_px = 24 * 24;
    for (const auto& family : families())
        for (const auto& chosen : choices(family)) {
            const auto d = drawing(family.key, chosen).value();
            std::map<std::size_t, int> best;
            for (const auto& view : d.views)
                for (const auto& [panel, pixels] : seen_pixels(view, std::max(phone_px, least_px_per_cm * view.width))) best[panel] = std::max(best[panel], pixels);
            for (std::size_t i = 0; i < d.panels.size(); ++i) {
                std::string options;
                for (const auto& g : chosen) options += " " + g.key + "=" + std::to_string(static_cast<int>(g.value_1));
                EXPECT_GE(best[i], least_px) << family.key << options << " " << d.panels[i].code;
            }
        }
}

TEST(PieceConsistency, WhatStandsInFrontIsPaintedLater) {
    // A small box before a large one, a third on top, seen from the front left.
    const std::vector<Solid> solids{box({0, 0, 0}, {1, 1, 1}, {}), box({-2, 2, 0}, {3, 3, 4}, {}), box({0, 0, 1}, {1, 1, 2}, {})};
    const auto order = paint_order(solids, {-30, 30}).value();
    EXPECT_EQ(order, (std::vector<std::size_t>{1, 0, 2}));
    EXPECT_EQ(paint_order(solids, {150, 10}).value().back(), 1U);
}

TEST(PieceRefusal, SolidsThatHideEachOtherInTurnAreRefused) {
    // Two bars that pass through each other.
    const std::vector<Solid> crossed{box({0, 0, 0}, {10, 1, 1}, {}), box({8, -1, -1}, {9, 2, 2}, {})};
    EXPECT_EQ(paint_order(crossed, {-30, 30}).error().code, ErrorCode::NotConverged);
    // Three blocks that touch and do not overlap: the first stands before the second along x, that before the third along
    // y, and the third before the first along z.
    const std::vector<Solid> ring{box({0, 0, 0}, {1, 3, 1}, {}), box({1, 0, 0}, {3, 1, 3}, {}), box({0, 1, 1}, {3, 3, 3}, {})};
    EXPECT_EQ(paint_order(ring, {-30, 30}).error().code, ErrorCode::NotConverged);
}

// ---- refusals ----------------------------------------------------------------------------------------------------------

void expect_refused(std::string_view family, const std::vector<Given>& given, ErrorCode code, const std::string& where, const std::string& word) {
    const auto r = drawing(family, given);
    ASSERT_FALSE(r.ok()) << where;
    EXPECT_EQ(r.error().code, code);
    EXPECT_EQ(r.error().where, where);
    EXPECT_NE(r.error().message.find(word), std::string::npos) << r.error().message;
}

TEST(PieceRefusal, NamesTheFieldTheRangeAndTheNearestWord) {
    expect_refused("divan", {}, ErrorCode::NotFound, "family", "wing_chair");
    expect_refused("sofa", {{"widht", 200}}, ErrorCode::InvalidInput, "dimensions.widht", "Did you mean \"width\"?");
    expect_refused("sofa", {{"width", 200}, {"width", 210}}, ErrorCode::InvalidInput, "dimensions.width", "twice");
    expect_refused("sofa", {{"width", std::nan("")}}, ErrorCode::InvalidInput, "dimensions.width", "number");
    expect_refused("sofa", {{"width", 1000}}, ErrorCode::OutOfRange, "dimensions.width", "from 150 to 280 cm");
    expect_refused("sofa", {{"width", 300}, {"seats", 2}}, ErrorCode::OutOfRange, "dimensions.width", "from 90 to 220 cm");
    expect_refused("sofa", {{"seats", 5}}, ErrorCode::OutOfRange, "options.seats", "from 2 to 4");
    expect_refused("sofa", {{"seats", 2.5}}, ErrorCode::InvalidInput, "options.seats", "whole number");
    expect_refused("sofa", {{"arm_height", 45}}, ErrorCode::OutOfRange, "dimensions.arm_height", "above the seat");
    expect_refused("sofa", {{"width", 150}, {"arm_width", 40}}, ErrorCode::OutOfRange, "dimensions.width", "30 cm");
}

TEST(PieceConsistency, EveryFamilyHasDimensionsInOrderAndWordsForItsOptions) {
    EXPECT_EQ(families().size(), 14U);
    for (const auto& family : families()) {
        EXPECT_FALSE(family.dimensions.empty()) << family.key;
        for (const auto& d : family.dimensions) EXPECT_TRUE(d.least_cm < d.value_cm && d.value_cm < d.most_cm) << family.key << d.key;
        for (const auto& o : family.options) {
            EXPECT_TRUE(o.least <= o.value && o.value <= o.most) << family.key << o.key;
            if (!o.words.empty()) { EXPECT_EQ(o.words.size(), static_cast<std::size_t>(o.most)) << o.key; }
        }
    }
}

}  // namespace
