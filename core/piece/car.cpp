// Front seat, rear bench, steering wheel, door panel.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double lean = 20 * pi / 180;   // of a backrest

/// A seat seen from the front: cushion on a base, backrest leaning about the rear edge of the cushion's top.
struct CarSeat {
    double width, depth, back_height, bolster, rise, cushion, back, base, top;
    explicit CarSeat(const Values& v)
        : width(v["width"]), depth(v["depth"]), back_height(v["back_height"]), bolster(v["bolster_width"]), rise(v["bolster_rise"]),
          cushion(v["seat_cushion"]), back(v["back_cushion"]), base(v["base"]), top(base + cushion) {}
};

/// Cushion bolster on the left; its far end at x = bolster meets the insert.
void cushion_bolster(Model& m, const CarSeat& s, int panel, bool left) {
    const double b = s.bolster;
    Profile p({0, s.base});
    p.line({b, s.base}, bare).line({b, s.top}, bare).line({0.5 * b, s.top + s.rise}, panel).line({0.12 * b, s.top + s.rise}, panel);
    p.line({0, s.top + 0.6 * s.rise}, panel).close(panel);
    const Solid solid = prism(Axis::Y, p, 0, s.depth, panel, bare);
    m.add(left ? solid : mirrored(solid, s.width / 2));
}

void back_bolster(Model& m, const CarSeat& s, int panel, bool left) {
    const double b = s.bolster, front = s.depth;
    Profile p({0, front - 0.6 * s.rise});
    p.line({0.12 * b, front - s.rise}, panel).line({0.5 * b, front - s.rise}, panel).line({b, front}, panel);
    p.line({b, front + s.back}, bare).line({0, front + s.back}, bare).close(panel);
    const Solid solid = leaned(prism(Axis::Z, p, s.top + s.rise, s.top + s.back_height, bare, panel), s.depth, s.top, lean);
    m.add(left ? solid : mirrored(solid, s.width / 2));
}

void head_restraint(Model& m, const CarSeat& s, double centre, double width, double height, int panel) {
    const double from = s.top + s.back_height, gap = 0.2 * height, y = s.depth + 0.1 * s.back, deep = 0.75 * s.back;
    const double x = centre - width / 2, chamfer = 0.2 * height;
    Profile p({x + 0.6 * chamfer, from + gap});
    p.line({x + width - 0.6 * chamfer, from + gap}, panel).line({x + width, from + gap + chamfer}, panel).line({x + width - 0.6 * chamfer, from + gap + height}, panel);
    p.line({x + 0.6 * chamfer, from + gap + height}, panel).line({x, from + gap + chamfer}, panel).close(panel);
    m.add(leaned(prism(Axis::Y, p, y, y + deep, panel, panel), s.depth, s.top, lean));
    for (const double post : {centre - 0.25 * width, centre + 0.2 * width})
        m.add(leaned(box({post, y + 0.4 * deep, from}, {post + 0.05 * width, y + 0.6 * deep, from + gap}, {}), s.depth, s.top, lean));
}

Solid back_insert(const CarSeat& s, double x0, double x1, const BoxPanels& panels) {
    return box({x0, s.depth, s.top}, {x1, s.depth + s.back, s.top + s.back_height}, panels);
}

}  // namespace

Model front_seat(const Values& v) {
    Model m;
    const CarSeat s(v);
    // The left seat of the car has its door on the right of who stands before it.
    const bool outer_left = v.whole("car_side") == 2;
    const int insert = m.panel("CU", "Cushion insert", "seat");
    const int inner = m.panel("CB-i", "Cushion bolster, inner", "seat"), outer = m.panel("CB-o", "Cushion bolster, outer", "seat");
    const int back = m.panel("BI", "Back insert", "back");
    const int back_inner = m.panel("BB-i", "Back bolster, inner", "back"), back_outer = m.panel("BB-o", "Back bolster, outer", "back");
    const int head = m.panel("HR", "Head restraint", "head"), rear = m.panel("BP", "Back panel", "outside");
    BoxPanels cu, bi;
    cu.top = cu.front = insert;
    bi.front = bi.top = back;
    m.add(box({s.bolster, 0, s.base}, {s.width - s.bolster, s.depth, s.top}, cu));
    cushion_bolster(m, s, outer_left ? outer : inner, true);
    cushion_bolster(m, s, outer_left ? inner : outer, false);
    m.add(leaned(back_insert(s, s.bolster, s.width - s.bolster, bi), s.depth, s.top, lean));
    back_bolster(m, s, outer_left ? back_outer : back_inner, true);
    back_bolster(m, s, outer_left ? back_inner : back_outer, false);
    // The back panel is a shell over the whole width, a fifth of the thickness of the back.
    const double shell = s.depth + s.back;
    m.add(leaned(box({0, shell, s.top}, {s.width, shell + 0.2 * s.back, s.top + s.back_height}, {rear, rear, bare, rear, bare, rear}), s.depth, s.top, lean));
    head_restraint(m, s, s.width / 2, v["head_width"], v["head_height"], head);
    const double inset = 0.12 * s.width;
    m.add(box({inset, 0.1 * s.depth, 0}, {s.width - inset, 0.9 * s.depth, s.base}, {}));
    m.looks = {{"front", "From the front left", {-32, 25}, false}, {"right", "From the front right", {32, 25}, false}, {"back", "From the back right", {148, 18}, false}};
    return m;
}

Model rear_bench(const Values& v) {
    Model m;
    const CarSeat s(v);
    const double place = (s.width - 2 * s.bolster) / 3;
    // As you sit in it, left is on the right of who stands before it.
    const std::vector<std::pair<std::string, std::string>> places{{"RR", "Rear right"}, {"RC", "Rear centre"}, {"RL", "Rear left"}};
    for (const bool left : {true, false}) {
        const auto& [code, name] = left ? places[0] : places[2];
        cushion_bolster(m, s, m.panel(code + "-CB-o", name + ", cushion bolster", "seat"), left);
        back_bolster(m, s, m.panel(code + "-BB-o", name + ", back bolster", "back"), left);
    }
    for (std::size_t k = 0; k < 3; ++k) {
        const auto& [code, name] = places[k];
        const double x = s.bolster + place * static_cast<double>(k);
        BoxPanels cu, bi;
        cu.top = cu.front = m.panel(code + "-CU", name + ", cushion insert", "seat");
        bi.front = bi.top = m.panel(code + "-BI", name + ", back insert", "back");
        m.add(box({x, 0, s.base}, {x + place, s.depth, s.top}, cu));
        Solid back = back_insert(s, x, x + place, bi);
        if (k == 1 && v.whole("armrest") == 2) {
            // Folded up, its lower side is the face of the backrest up to two thirds of the height.
            const double up_to = s.top + 0.66 * s.back_height;
            cut(back, Axis::Z, up_to);
            relabel(back, bi.front, m.panel("AC", "Centre armrest, folded up", "arms"), [&](Point3 c) { return c.z < up_to; });
        }
        m.add(leaned(std::move(back), s.depth, s.top, lean));
        head_restraint(m, s, x + place / 2, v["head_width"], v["head_height"], m.panel(code + "-HR", name + ", head restraint", "head"));
    }
    m.add(box({0.04 * s.width, 0.06 * s.depth, 0}, {0.96 * s.width, s.depth, s.base}, {}));
    m.looks = {{"front", "From the front left", {-28, 28}, false}, {"right", "From the front right", {28, 28}, false}};
    return m;
}

namespace {

/// A spoke from the cover to the rim, wrapped all round.
Solid spoke(double angle, double from, double to, double width, double thick, int panel) {
    const double c = std::cos(angle), s = std::sin(angle), h = width / 2;
    auto at = [&](double along, double across) { return Point2{along * c - across * s, along * s + across * c}; };
    Profile p(at(from, -h));
    p.line(at(to, -h), panel).line(at(to, h), bare).line(at(from, h), panel).close(bare);
    return prism(Axis::Y, p, -thick / 2, thick / 2, panel, panel);
}

}  // namespace

Model steering_wheel(const Values& v, int facets) {
    Model m;
    m.in_order = true;   // seen face-on: spokes, then the cover, then the rim over their ends
    const double tube = v["grip"] / 2, ring = v["diameter"] / 2 - tube, hub = v["cover"] / 2, width = v["spoke_width"];
    const int sectors = v.whole("sectors"), spokes = v.whole("spokes");
    std::vector<int> rim;
    for (int k = 1; k <= sectors; ++k) rim.push_back(m.panel("SW-" + std::to_string(k), "Rim, part " + std::to_string(k), "rim"));
    const std::vector<std::vector<double>> angles{{0, 180}, {0, 270, 180}, {20, 305, 235, 160}};
    const double from = std::sqrt(hub * hub - width * width / 4), to = std::sqrt((ring - tube) * (ring - tube) - width * width / 4);
    int number = 0;
    for (const double angle : angles[static_cast<std::size_t>(spokes - 2)]) {
        ++number;
        m.add(spoke(angle * pi / 180, from, to, width, 0.5 * v["grip"], m.panel("SW-S" + std::to_string(number), "Spoke " + std::to_string(number), "spokes")));
    }
    const int cover = m.panel("SW-cover", "Centre cover", "cover");
    m.add(prism(Axis::Y, Profile({hub, 0}).arc({0, 0}, 2 * pi, bare, 4 * facets).closed(), -v["grip"], 0, cover, bare));
    const double share = 2 * pi / sectors;
    for (int k = 0; k < sectors; ++k) {
        const double middle = pi / 2 - share * k;
        m.add(ring_sector({0, 0, 0}, ring, tube, middle - share / 2, middle + share / 2, rim[static_cast<std::size_t>(k)], std::max(2, 8 * facets / sectors), 2 * facets));
    }
    m.looks = {{"front", "As the driver sees it", {0, 0}, false}};
    return m;
}

Model door_panel(const Values& v) {
    Model m;
    const double l = v["length"], h = v["height"], al = v["arm_length"], ah = v["arm_height"], ad = v["arm_depth"], t = 0.04 * h;
    const int upper = m.panel("DP-upper", "Door panel, upper roll", "door"), insert = m.panel("DP-insert", "Door panel, insert", "door");
    const int arm = m.panel("DP-arm", "Door panel, armrest", "door"), lower = m.panel("DP-lower", "Door panel, lower part", "door");
    const double upper_from = 0.78 * h, insert_from = 0.36 * h, x0 = 0.55 * l - al / 2, x1 = x0 + al;
    Profile p({0.03 * l, 0});
    p.line({0.97 * l, 0}, bare).line({l, 0.5 * h}, bare).line({0.98 * l, h}, bare).line({0.1 * l, h}, bare).line({0, 0.72 * h}, bare).close(bare);
    Solid slab = prism(Axis::Y, p, 0, t, insert, bare);
    for (const double z : {insert_from, insert_from + ah, upper_from}) cut(slab, Axis::Z, z);
    for (const double x : {x0, x1}) cut(slab, Axis::X, x);
    relabel(slab, insert, upper, [&](Point3 c) { return c.z > upper_from; });
    relabel(slab, insert, lower, [&](Point3 c) { return c.z < insert_from; });
    relabel(slab, insert, bare, [&](Point3 c) { return c.z < insert_from + ah && c.x > x0 && c.x < x1; });
    m.add(std::move(slab));
    Profile rest({0, insert_from});
    rest.line({0, insert_from + ah}, bare).line({-ad, insert_from + ah}, arm).line({-ad, insert_from + 0.4 * ah}, arm).close(arm);
    m.add(prism(Axis::X, rest, x0, x1, arm, arm));
    m.looks = {{"front", "From inside the car", {0, 18}, false}};
    return m;
}

}  // namespace hw::piece
