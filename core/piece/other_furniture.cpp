// Ottoman, stool, dining chair, office chair, headboard.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double quarter = std::numbers::pi / 2;
constexpr double degree = std::numbers::pi / 180;

/// A rectangle with round corners; all of its edge belongs to one panel.
Profile rounded(Point2 low, Point2 high, double radius, int panel, int facets) {
    Profile p({low.x + radius, low.y});
    p.line({high.x - radius, low.y}, panel).arc({high.x - radius, low.y + radius}, quarter, panel, facets);
    p.line({high.x, high.y - radius}, panel).arc({high.x - radius, high.y - radius}, quarter, panel, facets);
    p.line({low.x + radius, high.y}, panel).arc({low.x + radius, high.y - radius}, quarter, panel, facets);
    p.line({low.x, low.y + radius}, panel).arc({low.x + radius, low.y + radius}, quarter, panel, facets);
    return p.closed();
}

Profile circle(Point2 centre, double radius, int panel, int facets) {
    return Profile({centre.x + radius, centre.y}).arc(centre, 2 * std::numbers::pi, panel, 4 * facets).closed();
}

/// Four legs under a rectangle, spread towards the floor.
void legs(Model& m, Point2 low, Point2 high, double size, double height, double spread) {
    for (const bool right : {false, true})
        for (const bool back : {false, true}) {
            const double x = right ? high.x - size : low.x, y = back ? high.y - size : low.y;
            const double dx = right ? spread : -spread, dy = back ? spread : -spread, thin = 0.2 * size;
            m.add(tapered({x + dx + thin, y + dy + thin, 0}, {x + dx + size - thin, y + dy + size - thin, 0}, {x, y, height}, {x + size, y + size, height}));
        }
}

void welt_round(Model& m, int panel, const Values& v) {
    if (v.whole("welt") == 2) m.panels[static_cast<std::size_t>(panel)].welt_cm = 1;
}

BoxPanels pad_panels(Model& m, const std::string& name) {
    BoxPanels p;
    p.top = m.panel("SC1-top", name + "top", "seat");
    p.front = m.panel("SC1-front", name + "front border", "seat");
    p.left = m.panel("SC1-left", name + "left border", "seat");
    p.right = m.panel("SC1-right", name + "right border", "seat");
    p.back = m.panel("SC1-back", name + "back border", "seat");
    return p;
}

}  // namespace

Model ottoman(const Values& v) {
    Model m;
    const double w = v["width"], d = v["depth"], foot = v["foot"], size = 0.09 * std::min(w, d);
    const BoxPanels p = pad_panels(m, "Ottoman, ");
    welt_round(m, p.top, v);
    m.add(box({0, 0, foot}, {w, d, v["height"]}, p));
    legs(m, {0.6 * size, 0.6 * size}, {w - 0.6 * size, d - 0.6 * size}, size, foot, 0);
    m.looks = {{"front", "From the front left", {-32, 30}, false}, {"back", "From the back right", {148, 30}, false}};
    return m;
}

Model stool(const Values& v, int facets) {
    Model m;
    const double w = v["width"], h = v["height"], pad = v["seat_cushion"], leg = 0.09 * w;
    const bool round = v.whole("shape") == 1;
    const int top = m.panel("SC1-top", "Seat, top", "seat"), border = m.panel("SC1-border", "Seat, border", "seat");
    welt_round(m, top, v);
    if (round) m.add(prism(Axis::Z, circle({w / 2, w / 2}, w / 2, border, facets), h - pad, h, bare, top));
    else m.add(box({0, 0, h - pad}, {w, w, h}, {border, border, border, border, bare, top}));
    const double in = (round ? 0.2 : 0.08) * w;
    legs(m, {in, in}, {w - in, w - in}, leg, h - pad, 0.1 * w);
    m.looks = {{"front", "From the front left", {-32, 35}, false}, {"back", "From the back right", {148, 35}, false}};
    return m;
}

Model dining_chair(const Values& v) {
    Model m;
    const double w = v["width"], d = v["depth"], sh = v["seat_height"], pad = v["seat_cushion"], bt = v["back_cushion"], gap = v["gap"], bh = v["back_height"];
    const BoxPanels p = pad_panels(m, "Seat, ");
    welt_round(m, p.top, v);
    m.add(box({0, 0, sh - pad}, {w, d, sh}, p));
    const int face = m.panel("BC1-face", "Back, face", "back"), border = m.panel("BC1-border", "Back, border", "back"), outside = m.panel("OB", "Outside back", "outside");
    welt_round(m, face, v);
    const double lean = 9 * degree, post = 0.08 * w;
    m.add(leaned(box({0.03 * w, d - bt, sh + gap}, {0.97 * w, d, sh + gap + bh}, {border, border, face, outside, border, border}), d, sh, lean));
    for (const double x : {0.1 * w, 0.9 * w - post}) m.add(leaned(box({x, d - bt, sh}, {x + post, d, sh + gap}, {}), d, sh, lean));
    legs(m, {0.03 * w, 0.03 * d}, {0.97 * w, 0.97 * d}, 0.09 * w, sh - pad, 0.04 * w);
    m.looks = {{"front", "From the front left", {-32, 25}, false}, {"back", "From the back right", {148, 22}, false}};
    return m;
}

namespace {

void office_base(Model& m, double w, double d, double under, int facets) {
    const double star = 0.58 * w, half = 0.03 * w, from = 2.2 * half, floor = 0.13 * under, thick = 0.1 * under;
    m.add(prism(Axis::Z, circle({w / 2, d / 2}, 1.6 * half, bare, facets), floor, under, bare, bare));
    for (int k = 0; k < 5; ++k) {
        const double angle = (18 + 72 * k) * degree;
        m.add(turned(box({w / 2 + from, d / 2 - half, floor}, {w / 2 + star, d / 2 + half, floor + thick}, {}), w / 2, d / 2, angle));
        m.add(turned(box({w / 2 + star - 2 * half, d / 2 - half, 0}, {w / 2 + star, d / 2 + half, floor}, {}), w / 2, d / 2, angle));
    }
}

void arm_pads(Model& m, const Values& v, int facets) {
    const double w = v["width"], d = v["depth"], sh = v["seat_height"], low = sh - v["seat_cushion"], aw = v["arm_width"], al = v["arm_length"], top = sh + v["arm_height"], thick = 0.35 * aw, gap = 0.02 * w;
    // Beside whatever is wider, seat or back.
    const double beside = std::max(w, v["back_width"]) / 2 + gap, y = 0.55 * d - al / 2, bar = 0.3 * aw;
    for (const bool left : {true, false}) {
        const int panel = m.panel(left ? "AT-L" : "AT-R", left ? "Arm pad, left" : "Arm pad, right", "arms");
        const double x = left ? w / 2 - beside - aw : w / 2 + beside, middle = x + aw / 2;
        m.add(prism(Axis::Z, rounded({x, y}, {x + aw, y + al}, 0.4 * aw, panel, facets), top - thick, top, bare, panel));
        m.add(box({middle - bar / 2, y + al / 2 - bar, low}, {middle + bar / 2, y + al / 2 + bar, top - thick}, {}));
    }
}

}  // namespace

Model office_chair(const Values& v, int facets) {
    Model m;
    const double w = v["width"], d = v["depth"], sh = v["seat_height"], pad = v["seat_cushion"], bw = v["back_width"], bh = v["back_height"], bt = v["back_cushion"];
    const double lean = 10 * degree, gap = 0.06 * bh, x = (w - bw) / 2;
    const int top = m.panel("SC1-top", "Seat, top", "seat"), border = m.panel("SC1-border", "Seat, border", "seat");
    m.add(prism(Axis::Z, rounded({0, 0}, {w, d}, 0.16 * w, border, facets), sh - pad, sh, bare, top));
    const int face = m.panel("BC1-face", "Back, face", "back"), edge = m.panel("BC1-border", "Back, border", "back"), outside = m.panel("OB", "Outside back", "outside");
    welt_round(m, top, v);
    welt_round(m, face, v);
    m.add(leaned(prism(Axis::Y, rounded({x, sh + gap}, {x + bw, sh + gap + bh}, 0.18 * bw, edge, facets), d, d + bt, face, outside), d, sh, lean));
    m.add(leaned(box({w / 2 - 0.08 * w, d + 0.3 * bt, sh}, {w / 2 + 0.08 * w, d + 0.7 * bt, sh + gap}, {}), d, sh, lean));
    arm_pads(m, v, facets);
    if (v.whole("headrest") == 2) {
        const int head = m.panel("HR", "Headrest", "head");
        const double hw = 0.6 * bw, hh = 0.28 * bh, from = sh + gap + bh + 0.5 * gap, hx = (w - hw) / 2;
        m.add(leaned(prism(Axis::Y, rounded({hx, from}, {hx + hw, from + hh}, 0.35 * hh, head, facets), d, d + 0.8 * bt, head, head), d, sh, lean));
        m.add(leaned(box({w / 2 - 0.06 * w, d + 0.2 * bt, sh + gap + bh}, {w / 2 + 0.06 * w, d + 0.6 * bt, from}, {}), d, sh, lean));
    }
    office_base(m, w, d, sh - pad, facets);
    m.looks = {{"front", "From the front left", {-32, 25}, false}, {"back", "From the back right", {148, 22}, false}};
    return m;
}

Model headboard(const Values& v, int facets) {
    Model m;
    const double w = v["width"], h = v["height"], t = v["thickness"];
    const int channels = v.whole("channels");
    BoxPanels p;
    if (channels == 0) p.front = m.panel("HB-face", "Headboard, face", "face");
    std::vector<int> channel;
    for (int k = 1; k <= channels; ++k) channel.push_back(m.panel("HB" + std::to_string(k), "Channel " + std::to_string(k), "face"));
    p.top = m.panel("HB-top", "Headboard, top border", "border");
    p.left = m.panel("HB-left", "Headboard, left border", "border");
    p.right = m.panel("HB-right", "Headboard, right border", "border");
    p.back = m.panel("HB-back", "Headboard, back", "outside");
    if (channels == 0) welt_round(m, p.front, v);
    m.add(box({0, 0, 0}, {w, t, h}, p));
    for (int k = 0; k < channels; ++k) {
        // A channel bulges as an arc whose rise is an eighth of its width.
        const double chord = w / channels, rise = chord / 8, radius = (chord * chord / 4 + rise * rise) / (2 * rise), x = chord * k;
        const double angle = 2 * std::asin(chord / (2 * radius));
        Profile profile({x + chord, 0});
        profile.line({x, 0}, bare).arc({x + chord / 2, radius - rise}, angle, channel[static_cast<std::size_t>(k)], facets).closed();
        m.add(prism(Axis::Z, profile, 0, h, bare, p.top));
    }
    m.looks = {{"front", "From the front left", {-28, 22}, false}, {"back", "From the back right", {152, 22}, false}};
    return m;
}

}  // namespace hw::piece
