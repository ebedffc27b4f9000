// Corner sofa: a long run with its back to the wall, a corner place, and a return towards the viewer.
#include <algorithm>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double back_taper = 0.6, proud = 1.08;   // as on a straight sofa

/// Built with the corner on the right; a left one is its mirror image.
struct Corner {
    Model m;
    bool mirror;
    int seats, return_seats;
    double width, length, depth, height, arm_w, arm_h, seat_h, frame, pad, foot, deck, top;
    double run_front, run_back, return_left, return_back;   // y, y, x, x

    explicit Corner(const Values& v)
        : mirror(v.whole("corner") == 1), seats(v.whole("seats")), return_seats(v.whole("return_seats")), width(v["width"]), length(v["length"]),
          depth(v["depth"]), height(v["height"]), arm_w(v["arm_width"]), arm_h(v["arm_height"]), seat_h(v["seat_height"]), frame(v["back_frame"]),
          pad(v["back_cushion"]), foot(v["foot"]), deck(seat_h - v["seat_cushion"]), top(seat_h + (height - seat_h) * proud),
          run_front(length - depth), run_back(length - frame), return_left(width - depth), return_back(width - frame) {}

    [[nodiscard]] std::string side(bool left) const { return left != mirror ? "L" : "R"; }
    [[nodiscard]] std::string word(bool left) const { return left != mirror ? "left" : "right"; }
    void add(const Solid& solid) { m.add(mirror ? mirrored(solid, width / 2) : solid); }

    /// @param front, back, first, second  panels towards the sitter's feet, behind him, and at either end
    [[nodiscard]] BoxPanels facing(bool on_return, int front, int back, int first, int second) const {
        BoxPanels p;
        if (on_return) { p.left = front; p.right = back; p.back = first; p.front = second; }
        else { p.front = front; p.back = back; p.left = first; p.right = second; }
        return p;
    }

    void seat(int number, bool on_return, Point2 low, Point2 high) {
        const std::string code = "SC" + std::to_string(number) + "-", name = "Seat cushion " + std::to_string(number) + ", ";
        BoxPanels p = facing(on_return, m.panel(code + "front", name + "front border", "seat"), m.panel(code + "back", name + "back border", "seat"),
                             m.panel(code + word(true), name + word(true) + " border", "seat"), m.panel(code + word(false), name + word(false) + " border", "seat"));
        p.top = m.panel(code + "top", name + "top", "seat");
        p.under = m.panel(code + "under", name + "underside", "seat");
        Solid solid = box({low.x, low.y, deck}, {high.x, high.y, seat_h}, p);
        solid.loose = p.under;
        add(solid);
    }

    void back(int number, bool on_return, double from, double to) {
        const std::string code = "BC" + std::to_string(number) + "-", name = "Back cushion " + std::to_string(number) + ", ";
        const int face = m.panel(code + "face", name + "face", "back"), border = m.panel(code + "border", name + "border", "back"), reverse = m.panel(code + "reverse", name + "reverse", "back");
        const double at = on_return ? return_back : run_back;
        Profile p({at - pad, seat_h});
        p.line({at, seat_h}, border).line({at, top}, reverse).line({at - back_taper * pad, top}, border).close(face);
        Solid solid = prism(on_return ? Axis::Y : Axis::X, p, from, to, border, border);
        solid.loose = reverse;
        add(solid);
    }

    void cushions() {
        const double place = (return_left - arm_w) / seats, return_place = (run_front - arm_w) / return_seats;
        for (int k = 0; k < seats; ++k) {
            seat(k + 1, false, {arm_w + place * k, run_front}, {arm_w + place * (k + 1), run_back});
            back(k + 1, false, arm_w + place * k, arm_w + place * (k + 1));
        }
        seat(seats + 1, false, {return_left, run_front}, {return_back, run_back});
        back(seats + 1, false, return_left, return_back - pad);
        for (int k = 0; k < return_seats; ++k) {
            const double far = run_front - return_place * k;
            seat(seats + 2 + k, true, {return_left, far - return_place}, {return_back, far});
            back(seats + 2 + k, true, far - return_place, k == 0 ? run_back : far);
        }
    }

    void arms() {
        for (const bool left : {true, false}) {
            const std::string code = "-" + side(left), name = ", " + word(left);
            const int inside = m.panel("IA" + code, "Inside arm" + name, "arms"), arm_top = m.panel("AT" + code, "Arm top" + name, "arms");
            const int front = m.panel("AF" + code, "Arm front" + name, "arms"), outside = m.panel("OA" + code, "Outside arm" + name, "arms");
            Profile p({0, foot});
            p.line({arm_w, foot}, bare).line({arm_w, deck}, bare).line({arm_w, arm_h}, inside).line({0, arm_h}, arm_top).close(outside);
            add(left ? prism(Axis::Y, p, run_front, run_back, front, bare) : prism(Axis::X, p, return_left, return_back, front, bare));
        }
    }

    /// The base of the long side reaches under the corner; the other one is that of the return.
    void bases() {
        BoxPanels run, ret;
        run.front = m.panel("FB1", "Front border, long side", "base");
        run.top = m.panel("DK1", "Deck under the seat cushions, long side", "base");
        ret.left = m.panel("FB2", "Front border, return", "base");
        ret.top = m.panel("DK2", "Deck under the seat cushions, return", "base");
        Solid solid = box({arm_w, run_front, foot}, {return_back, run_back, deck}, run);
        cut(solid, Axis::X, return_left);
        relabel(solid, run.front, bare, [&](Point3 c) { return c.x > return_left; });
        add(solid);
        add(box({return_left, arm_w, foot}, {return_back, run_front, deck}, ret));
    }

    void frames() {
        const int inner = m.panel("IB1", "Inside back behind the cushions, long side", "back");
        const int inner_return = m.panel("IB2", "Inside back behind the cushions, return", "back");
        const std::string near = side(true), far = side(false);
        BoxPanels run, ret;
        run.back = m.panel("OB1", "Outside back, long side", "outside");
        run.top = m.panel("OB1-top", "Outside back, long side, top border", "outside");
        run.left = m.panel("OB-" + near, "Outside back, " + word(true) + " border", "outside");
        run.right = ret.right = m.panel("OB2", "Outside back, return", "outside");
        ret.top = m.panel("OB2-top", "Outside back, return, top border", "outside");
        ret.front = m.panel("OB-" + far, "Outside back, " + word(false) + " border", "outside");
        Solid a = box({0, run_back, foot}, {width, length, height}, run), b = box({return_back, 0, foot}, {width, run_back, height}, ret);
        for (const double z : {deck, arm_h}) { cut(a, Axis::Z, z); cut(b, Axis::Z, z); }
        for (const double x : {arm_w, return_back}) cut(a, Axis::X, x);
        cut(b, Axis::Y, arm_w);
        const double touch = 1e-9 * width;
        auto on_a = [&](Point3 c) { return c.y < run_back + touch; };
        auto on_b = [&](Point3 c) { return c.x < return_back + touch; };
        relabel(a, bare, run.left, [&](Point3 c) { return on_a(c) && c.x < arm_w && c.z > arm_h; });
        relabel(a, bare, inner, [&](Point3 c) { return on_a(c) && c.x > arm_w && c.x < return_back && c.z > deck; });
        relabel(b, bare, ret.front, [&](Point3 c) { return on_b(c) && c.y < arm_w && c.z > arm_h; });
        relabel(b, bare, inner_return, [&](Point3 c) { return on_b(c) && c.y > arm_w && c.z > deck; });
        add(a);
        add(b);
    }

    void feet() {
        const double size = 0.05 * depth, in = 0.04 * depth;
        for (const auto& [x, y] : std::vector<std::pair<double, double>>{{in, run_front + in}, {in, length - in - size}, {width - in - size, length - in - size}, {width - in - size, in}, {return_left + in, in}})
            add(tapered({x + 0.2 * size, y + 0.2 * size, 0}, {x + 0.8 * size, y + 0.8 * size, 0}, {x, y, foot}, {x + size, y + size, foot}));
    }
};

}  // namespace

Model corner_sofa(const Values& v) {
    Corner c(v);
    c.cushions();
    c.arms();
    c.bases();
    c.frames();
    c.feet();
    const double turn = c.mirror ? -1 : 1;
    const std::string far = c.mirror ? "left" : "right", near = c.mirror ? "right" : "left";
    c.m.looks = {{"front", "From the front " + near, {-30 * turn, 35}, false}, {"right", "From the front " + far, {30 * turn, 35}, false},
                 {"back", "From the back " + far, {148 * turn, 25}, false}, {"over", "Over the back", {-150 * turn, 42}, false}, {"lifted", "Cushions lifted out", {-24 * turn, 42}, true}};
    return c.m;
}

}  // namespace hw::piece
