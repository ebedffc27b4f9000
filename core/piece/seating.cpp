// Sofas, armchairs, wing chairs, recliners: feet, base, arms, back frame, seat and back cushions.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double foot_inset = 0.04, foot_share = 0.05;   // of the depth
constexpr double back_taper = 0.6;                       // thickness of a back cushion at the top, of that at the bottom
constexpr double proud = 1.08;                           // a loose back cushion stands above the frame

/// Everything measured from the floor and from the front edge of the arms.
struct Seating {
    bool wing, recliner, loose_back, loose_seat, rounded, welt;
    bool between;                // the back stands between the arms, not behind them
    int seats, facets;
    double width, depth, height, arm_w, arm_h, seat_h, cushion, frame, pad, foot;
    double inner_y, deck, top;   // front of the back frame, height of the deck, top of the back cushions
    double seat_end;             // seat cushions run under loose back cushions, and up to a sewn-in back
    double pad_from;             // where the back cushions begin: on the seat, or sewn in on the deck

    Seating(std::string_view family, const Values& v, int facets_)
        : wing(family == "wing_chair"), recliner(family == "recliner"), loose_back(!recliner && v.whole("back") == 2),
          loose_seat(!recliner && v.whole("seat") == 2), rounded(!wing && v.whole("arms") == 2), welt(v.whole("welt") == 2), between(recliner),
          seats(family == "sofa" ? v.whole("seats") : 1), facets(facets_), width(v["width"]), depth(v["depth"]), height(v["height"]),
          arm_w(v["arm_width"]), arm_h(v["arm_height"]), seat_h(v["seat_height"]), cushion(v["seat_cushion"]), frame(v["back_frame"]),
          pad(v["back_cushion"]), foot(v["foot"]), inner_y(depth - frame), deck(seat_h - cushion),
          top(loose_back ? seat_h + (height - seat_h) * proud : height), seat_end(loose_back ? inner_y : inner_y - pad),
          pad_from(loose_back ? seat_h : deck) {}
    [[nodiscard]] double left_of(int seat) const { return arm_w + (width - 2 * arm_w) * seat / seats; }
};

void feet(Model& m, const Seating& s) {
    const double inset = foot_inset * s.depth, size = foot_share * s.depth;
    for (const double x : {inset, s.width - inset - size})
        for (const double y : {inset, s.depth - inset - size}) {
            const double thin = 0.2 * size;
            m.add(tapered({x + thin, y + thin, 0}, {x + size - thin, y + size - thin, 0}, {x, y, s.foot}, {x + size, y + size, s.foot}));
        }
}

void base(Model& m, const Seating& s) {
    BoxPanels p;
    p.front = m.panel("FB", "Front border", "base");
    if (s.loose_seat) p.top = m.panel("DK", "Deck under the seat cushions", "base");
    Solid solid = box({s.arm_w, 0, s.foot}, {s.width - s.arm_w, s.inner_y, s.deck}, p);
    if (p.top != bare && s.seat_end < s.inner_y) {
        cut(solid, Axis::Y, s.seat_end);
        relabel(solid, p.top, bare, [&](Point3 c) { return c.y > s.seat_end; });
    }
    m.add(std::move(solid));
}

/// The left arm; the right one is its mirror image with panels of its own.
void arm(Model& m, const Seating& s, bool left) {
    const std::string side = left ? "L" : "R", word = left ? "left" : "right";
    // The cover of a round arm runs over it in one piece; a square one has a top of its own.
    const int inside = m.panel("IA-" + side, (s.rounded ? "Inside arm and top, " : "Inside arm, ") + word, "arms");
    const int top = s.rounded ? inside : m.panel("AT-" + side, "Arm top, " + word, "arms");
    const int front = m.panel("AF-" + side, "Arm front, " + word, "arms"), outside = m.panel("OA-" + side, "Outside arm, " + word, "arms");
    if (s.welt) m.panels[static_cast<std::size_t>(front)].welt_cm = 1;
    const double shown_from = s.loose_seat ? s.deck : s.seat_h, r = s.arm_w / 2;
    Profile p({0, s.foot});
    p.line({s.arm_w, s.foot}, bare).line({s.arm_w, shown_from}, bare);
    if (s.rounded) p.line({s.arm_w, s.arm_h - r}, inside).arc({r, s.arm_h - r}, std::numbers::pi, top, 2 * s.facets);
    else p.line({s.arm_w, s.arm_h}, inside).line({0, s.arm_h}, top);
    p.close(outside);
    Solid solid = prism(Axis::Y, p, 0, s.between ? s.depth : s.inner_y, front, s.between ? outside : bare);
    if (s.between) {
        cut(solid, Axis::Y, s.inner_y);
        relabel(solid, inside, bare, [&](Point3 c) { return c.y > s.inner_y && c.x > s.arm_w * (1 - 1e-9); });
    }
    m.add(left ? solid : mirrored(solid, s.width / 2));
}

/// The strips of a full-width frame above the arms; above a round arm also the corners beside its round.
void strip_above_arm(const Seating& s, Solid& solid, int panel, bool left) {
    const double near = 1e-9 * s.depth, round = s.rounded ? s.arm_w / 2 : 0;
    for (auto& face : solid.faces) {
        const Point3 c = centre_of(solid, face);
        if (face.panel != bare || std::abs(c.y - s.inner_y) > near || c.z < s.arm_h - round) continue;
        if (left ? c.x > s.arm_w : c.x < s.width - s.arm_w) continue;
        face.panel = panel;
        if (c.z < s.arm_h) face.area_cm2 -= std::numbers::pi * round * round / 2;   // the end of the arm stands before it
    }
}

/// As wide as the piece, or between the arms.
void back_frame(Model& m, const Seating& s) {
    BoxPanels p;
    p.back = m.panel("OB", "Outside back", "outside");
    p.top = m.panel("OB-top", "Outside back, top border", "outside");
    p.left = m.panel("OB-L", "Outside back, left border", "outside");
    p.right = m.panel("OB-R", "Outside back, right border", "outside");
    const double in = s.between ? s.arm_w : 0;
    Solid solid = box({in, s.inner_y, s.foot}, {s.width - in, s.depth, s.height}, p);
    if (s.between) {
        cut(solid, Axis::Z, s.arm_h);
        for (const int side : {p.left, p.right}) relabel(solid, side, bare, [&](Point3 c) { return c.z < s.arm_h; });
        m.add(std::move(solid));
        return;
    }
    for (const double x : {s.arm_w, s.width - s.arm_w}) cut(solid, Axis::X, x);
    for (const double z : {s.pad_from, s.arm_h}) cut(solid, Axis::Z, z);
    if (s.rounded) cut(solid, Axis::Z, s.arm_h - s.arm_w / 2);
    strip_above_arm(s, solid, p.left, true);
    strip_above_arm(s, solid, p.right, false);
    if (s.loose_back) {
        const int inner = m.panel("IB", "Inside back behind the cushions", "back");
        const double from = s.loose_seat ? s.deck : s.seat_h;
        cut(solid, Axis::Z, from);
        relabel(solid, bare, inner, [&](Point3 c) { return std::abs(c.y - s.inner_y) < 1e-9 * s.depth && c.x > s.arm_w && c.x < s.width - s.arm_w && c.z > from; });
    }
    m.add(std::move(solid));
}

void seat_cushion(Model& m, const Seating& s, int k) {
    const std::string code = "SC" + std::to_string(k + 1) + "-", name = "Seat cushion " + std::to_string(k + 1) + ", ";
    BoxPanels p;
    p.top = m.panel(code + "top", name + "top", "seat");
    p.front = m.panel(code + "front", name + "front border", "seat");
    if (s.welt) m.panels[static_cast<std::size_t>(p.top)].welt_cm = 1;
    if (s.loose_seat) {
        p.left = m.panel(code + "left", name + "left border", "seat");
        p.right = m.panel(code + "right", name + "right border", "seat");
        p.back = m.panel(code + "back", name + "back border", "seat");
        p.under = m.panel(code + "under", name + "underside", "seat");
        if (s.welt) m.panels[static_cast<std::size_t>(p.under)].welt_cm = 1;
    }
    Solid solid = box({s.left_of(k), 0, s.deck}, {s.left_of(k + 1), s.seat_end, s.seat_h}, p);
    if (s.loose_seat) solid.loose = p.under;
    m.add(std::move(solid));
}

/// As thick below the seat as at it, and thinner towards the top.
Profile cushion_profile(const Seating& s, double from, double to, int face, int top, int reverse, int under, int below_seat) {
    auto front_at = [&](double z) { return s.inner_y - s.pad * (1 - (1 - back_taper) * std::max(0.0, z - s.seat_h) / (s.top - s.seat_h)); };
    Profile p({front_at(from), from});
    p.line({s.inner_y, from}, under).line({s.inner_y, to}, reverse).line({front_at(to), to}, top);
    if (from < s.seat_h) p.line({front_at(s.seat_h), s.seat_h}, face).close(below_seat);
    else p.close(face);
    return p;
}

void loose_back_cushion(Model& m, const Seating& s, int k) {
    const std::string code = "BC" + std::to_string(k + 1) + "-", name = "Back cushion " + std::to_string(k + 1) + ", ";
    const int face = m.panel(code + "face", name + "face", "back"), border = m.panel(code + "border", name + "border", "back");
    const int reverse = m.panel(code + "reverse", name + "reverse", "back");
    if (s.welt)
        for (const int panel : {face, reverse}) m.panels[static_cast<std::size_t>(panel)].welt_cm = 1;
    Solid solid = prism(Axis::X, cushion_profile(s, s.seat_h, s.top, face, border, reverse, border, bare), s.left_of(k), s.left_of(k + 1), border, border);
    solid.loose = reverse;
    m.add(std::move(solid));
}

/// A sewn-in back: its border shows on top and, beyond the arms, at the two ends.
void fixed_back_pad(Model& m, const Seating& s, int k, double from, double to, const std::string& code, const std::string& name) {
    const int face = m.panel(code + "face", name + ", face", "back"), border = m.panel(code + "border", name + ", border", "back");
    if (s.welt) m.panels[static_cast<std::size_t>(face)].welt_cm = 1;
    const bool first = k == 0 && !s.wing, last = k == s.seats - 1 && !s.wing, topmost = to >= s.top;
    // Behind a loose seat cushion the inside back goes on down to the deck.
    const int below = s.loose_seat && from < s.seat_h ? m.panel("IB", "Inside back behind the seat cushions", "back") : bare;
    Solid solid = prism(Axis::X, cushion_profile(s, from, to, face, topmost ? border : bare, bare, bare, below), s.left_of(k), s.left_of(k + 1), first ? border : bare, last ? border : bare);
    if (s.arm_h > from && s.arm_h < to) {
        cut(solid, Axis::Z, s.arm_h);
        const double left = s.left_of(k), right = s.left_of(k + 1), near = 1e-9 * s.width;
        relabel(solid, border, bare, [&](Point3 c) { return c.z < s.arm_h && (std::abs(c.x - left) < near || std::abs(c.x - right) < near); });
    }
    m.add(std::move(solid));
}

void wings(Model& m, const Seating& s, double reach) {
    for (const bool left : {true, false}) {
        const std::string code = std::string("W-") + (left ? "L" : "R") + "-", name = std::string("Wing, ") + (left ? "left" : "right") + ", ";
        const int inside = m.panel(code + "inside", name + "inside", "wings"), outside = m.panel(code + "outside", name + "outside", "wings");
        const int edge = m.panel(code + "edge", name + "edge", "wings");
        Profile p({s.inner_y - reach, s.arm_h});
        p.line({s.inner_y, s.arm_h}, bare).line({s.inner_y, s.height}, bare).line({s.inner_y - 0.55 * reach, s.height}, edge);
        p.line({s.inner_y - reach, s.arm_h + 0.75 * (s.height - s.arm_h)}, edge).close(edge);
        const Solid solid = prism(Axis::X, p, 0, s.arm_w, outside, inside);
        m.add(left ? solid : mirrored(solid, s.width / 2));
    }
    // What a wing stands on is not seen.
    for (auto& solid : m.solids) {
        for (const char* code : {"AT-L", "AT-R"}) {
            const int top = m.panel(code, "", "");
            bool has = false;
            for (const auto& face : solid.faces) has |= face.panel == top;
            if (!has) continue;
            cut(solid, Axis::Y, s.inner_y - reach);
            relabel(solid, top, bare, [&](Point3 c) { return c.y > s.inner_y - reach; });
        }
    }
}

void footrest(Model& m, const Seating& s, double reach) {
    BoxPanels p;
    p.top = m.panel("FT-top", "Footrest, top", "footrest");
    p.front = m.panel("FT-front", "Footrest, front border", "footrest");
    p.left = m.panel("FT-left", "Footrest, left border", "footrest");
    p.right = m.panel("FT-right", "Footrest, right border", "footrest");
    const double gap = 0.06 * reach, x0 = s.arm_w, x1 = s.width - s.arm_w, z1 = s.seat_h - 0.25 * s.cushion, z0 = s.seat_h - s.cushion;
    m.add(box({x0, -reach - gap, z0}, {x1, -gap, z1}, p));
    const double bar = 0.04 * (x1 - x0);
    for (const double x : {x0 + 2 * bar, x1 - 3 * bar}) m.add(box({x, -gap - 0.5 * reach, z0 - bar}, {x + bar, 0, z0}, {}));
}

void backs(Model& m, const Seating& s, double head) {
    for (int k = 0; k < s.seats; ++k) {
        if (s.loose_back) { loose_back_cushion(m, s, k); continue; }
        const std::string number = std::to_string(k + 1);
        if (head <= 0) { fixed_back_pad(m, s, k, s.pad_from, s.top, "BC" + number + "-", "Inside back " + number); continue; }
        fixed_back_pad(m, s, k, s.pad_from, s.top - head, "BC" + number + "-", "Inside back " + number);
        fixed_back_pad(m, s, k, s.top - head, s.top, "HR-", "Head pad");
    }
}

}  // namespace

Model upholstered(std::string_view family, const Values& v, int facets) {
    const Seating s(family, v, facets);
    Model m;
    for (int k = 0; k < s.seats; ++k) seat_cushion(m, s, k);
    backs(m, s, s.recliner ? v["head_pad"] : 0);
    arm(m, s, true);
    arm(m, s, false);
    if (s.wing) wings(m, s, v["wing"]);
    base(m, s);
    if (s.recliner) footrest(m, s, v["footrest"]);
    back_frame(m, s);
    feet(m, s);
    m.looks = {{"front", "From the front left", {-32, 30}, false}, {"right", "From the front right", {32, 30}, false}, {"back", "From the back right", {148, 22}, false}};
    if (s.loose_seat || s.loose_back) m.looks.push_back({"lifted", "Cushions lifted out", {-20, 38}, true});
    return m;
}

}  // namespace hw::piece
