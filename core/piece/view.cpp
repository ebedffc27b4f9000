#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <optional>
#include <utility>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double touching_cm = 1e-6;   // solids that share a face differ by rounding only
constexpr double margin_share = 0.03;
constexpr double least_shape_cm2 = 0.01;
constexpr int cushions_in_row = 2;     // wide enough to touch their borders on a phone

struct Screen {
    Point3 right, up, viewer, light;
    explicit Screen(Camera camera) {
        const double a = camera.azimuth_deg * std::numbers::pi / 180, e = camera.elevation_deg * std::numbers::pi / 180;
        right = {std::cos(a), std::sin(a), 0};
        up = {-std::sin(a) * std::sin(e), std::cos(a) * std::sin(e), std::cos(e)};
        viewer = {std::sin(a) * std::cos(e), -std::cos(a) * std::cos(e), std::sin(e)};
        // From above and from the viewer's left, whichever side he stands on.
        const std::array<double, 3> share{-0.45, 0.75, 0.49};
        light = {share[0] * right.x + share[1] * up.x + share[2] * viewer.x, share[0] * right.y + share[1] * up.y + share[2] * viewer.y,
                 share[0] * right.z + share[1] * up.z + share[2] * viewer.z};
    }
    [[nodiscard]] Point2 at(Point3 p) const { return {dot(p, right), -dot(p, up)}; }
    [[nodiscard]] bool sees(const Solid& solid, const Face& face) const {
        const Point3 area = area_vector(solid, face);
        return dot(area, viewer) > 1e-9 * length(area);
    }
};

struct Bounds {
    Point2 low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()}, high{-low.x, -low.y};
    void take(Point2 p) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
};

Bounds bounds_on(const Screen& screen, const Solid& solid) {
    Bounds out;
    for (const auto& p : solid.points) out.take(screen.at(p));
    return out;
}

bool apart(const Bounds& a, const Bounds& b) {
    return a.high.x <= b.low.x + touching_cm || b.high.x <= a.low.x + touching_cm || a.high.y <= b.low.y + touching_cm || b.high.y <= a.low.y + touching_cm;
}

std::pair<double, double> extent(const Solid& solid, Point3 normal) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const auto& p : solid.points) {
        const double d = dot(p, normal);
        low = std::min(low, d);
        high = std::max(high, d);
    }
    return {low, high};
}

/// What a plane between two solids proves: which of them cannot hide the other.
struct Proof {
    bool a_cannot_hide_b = false, b_cannot_hide_a = false;
    void try_plane(const Solid& a, const Solid& b, Point3 normal, Point3 viewer) {
        const auto [a_low, a_high] = extent(a, normal);
        const auto [b_low, b_high] = extent(b, normal);
        double side = dot(normal, viewer);
        if (std::abs(side) < 1e-9) side = 0;
        const bool a_below = a_high <= b_low + touching_cm, b_below = b_high <= a_low + touching_cm;
        if (a_below) { a_cannot_hide_b |= side >= 0; b_cannot_hide_a |= side <= 0; }
        if (b_below) { b_cannot_hide_a |= side >= 0; a_cannot_hide_b |= side <= 0; }
    }
};

Proof proof_of(const Solid& a, const Solid& b, Point3 viewer) {
    Proof proof;
    for (const Point3 axis : {Point3{1, 0, 0}, Point3{0, 1, 0}, Point3{0, 0, 1}}) proof.try_plane(a, b, axis, viewer);
    for (const Solid* solid : {&a, &b})
        for (const auto& face : solid->faces) {
            if (proof.a_cannot_hide_b && proof.b_cannot_hide_a) return proof;
            const Point3 area = area_vector(*solid, face);
            const double size = length(area);
            if (size > 0) proof.try_plane(a, b, {area.x / size, area.y / size, area.z / size}, viewer);
        }
    return proof;
}

// ---- outlines ----------------------------------------------------------------------------------------------------------

using Edge = std::pair<std::size_t, std::size_t>;

/// The faces of one panel in one smooth patch, seen as a whole: its loops of directed edges.
struct Patch {
    int panel = bare, patch = 0;
    std::vector<const Face*> faces;
};

std::vector<Patch> visible_patches(const Screen& screen, const Solid& solid) {
    std::vector<Patch> out;
    for (const auto& face : solid.faces) {
        if (!screen.sees(solid, face)) continue;
        auto found = std::find_if(out.begin(), out.end(), [&](const Patch& p) { return p.panel == face.panel && p.patch == face.patch; });
        if (found == out.end()) found = out.insert(out.end(), Patch{face.panel, face.patch, {}});
        found->faces.push_back(&face);
    }
    return out;
}

std::vector<std::vector<std::size_t>> loops_of(const Patch& patch) {
    std::map<Edge, bool> open;
    for (const Face* face : patch.faces)
        for (std::size_t i = 0; i < face->corners.size(); ++i) {
            const Edge edge{face->corners[i], face->corners[(i + 1) % face->corners.size()]};
            if (open.erase({edge.second, edge.first}) == 0) open[edge] = true;
        }
    std::vector<std::vector<std::size_t>> loops;
    while (!open.empty()) {
        std::vector<std::size_t> loop{open.begin()->first.first};
        auto next = open.begin();
        while (next != open.end()) {
            const std::size_t to = next->first.second;
            open.erase(next);
            if (to == loop.front()) break;
            loop.push_back(to);
            next = open.lower_bound({to, 0});
            if (next != open.end() && next->first.first != to) next = open.end();
        }
        loops.push_back(std::move(loop));
    }
    return loops;
}

/// Edges of a solid between two visible faces of one panel: folds, over which no seam runs.
std::map<Edge, bool> folds_of(const std::vector<Patch>& patches) {
    std::map<Edge, int> panel_of;
    for (const auto& patch : patches)
        for (const Face* face : patch.faces)
            for (std::size_t i = 0; i < face->corners.size(); ++i) panel_of[{face->corners[i], face->corners[(i + 1) % face->corners.size()]}] = face->panel;
    std::map<Edge, bool> folds;
    for (const auto& [edge, panel] : panel_of) {
        const auto other = panel_of.find({edge.second, edge.first});
        if (panel != bare && other != panel_of.end() && other->second == panel) folds[edge] = true;
    }
    return folds;
}

double light_on(const Screen& screen, const Solid& solid, const Patch& patch) {
    double sum = 0, weight = 0;
    for (const Face* face : patch.faces) {
        const Point3 area = area_vector(solid, *face);
        const double seen = dot(area, screen.viewer);
        sum += seen * dot(area, screen.light) / length(area);
        weight += seen;
    }
    return std::clamp(0.5 + 0.5 * sum / weight, 0.0, 1.0);
}

/// Runs of seam along a loop; a loop without folds is one closed run.
std::vector<std::vector<Point2>> lines_along(const std::vector<std::size_t>& loop, const std::vector<Point2>& outline, const std::map<Edge, bool>& folds) {
    const std::size_t n = loop.size();
    std::vector<bool> seam(n);
    for (std::size_t i = 0; i < n; ++i) seam[i] = folds.find({loop[i], loop[(i + 1) % n]}) == folds.end();
    const auto first_fold = std::find(seam.begin(), seam.end(), false);
    const std::size_t start = first_fold == seam.end() ? 0 : static_cast<std::size_t>(first_fold - seam.begin());
    std::vector<std::vector<Point2>> lines;
    bool drawing = false;
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t i = (start + k) % n;
        if (seam[i] && !drawing) lines.push_back({outline[i]});
        if (seam[i]) lines.back().push_back(outline[(i + 1) % n]);
        drawing = seam[i];
    }
    return lines;
}

void add_shapes(View& view, const Screen& screen, const Solid& solid) {
    const auto patches = visible_patches(screen, solid);
    const auto folds = folds_of(patches);
    for (const auto& patch : patches)
        for (const auto& loop : loops_of(patch)) {
            Shape shape;
            shape.panel = patch.panel == bare ? no_panel : static_cast<std::size_t>(patch.panel);
            for (const auto i : loop) shape.outline.push_back(screen.at(solid.points[i]));
            // A face that is seen edge-on is a line, not a place to touch. A loop the other way round is a hole, in which
            // another solid stands. (On paper y runs down, so that what is counter-clockwise has an area below 0.)
            if (signed_area(shape.outline) > -least_shape_cm2) continue;
            shape.lines = lines_along(loop, shape.outline, folds);
            shape.light_1 = light_on(screen, solid, patch);
            view.shapes.push_back(std::move(shape));
        }
}

void move(Shape& shape, double dx, double dy) {
    for (auto& p : shape.outline) p = {p.x + dx, p.y + dy};
    for (auto& line : shape.lines)
        for (auto& p : line) p = {p.x + dx, p.y + dy};
}

// ---- cushions folded out -----------------------------------------------------------------------------------------------

Point3 unit(Point3 a) {
    const double size = length(a);
    return {a.x / size, a.y / size, a.z / size};
}

/// Plane of a face seen from outside: away from the floor is up on the paper, or away from the viewer if the face lies level.
struct Sheet {
    Point3 origin, right, up;
    Sheet(const Solid& solid, const Face& face) {
        const Point3 normal = unit(area_vector(solid, face));
        const Point3 wish = std::abs(normal.z) > 0.9 ? Point3{0, 1, 0} : Point3{0, 0, 1};
        right = unit(cross(wish, normal));
        up = cross(normal, right);
        origin = solid.points[face.corners[0]];
    }
    [[nodiscard]] Point2 at(Point3 p) const { return {dot(p - origin, right), -dot(p - origin, up)}; }
};

/// A face next to the base, turned about their common edge into the plane of the base.
std::optional<std::vector<Point2>> folded_out(const Solid& solid, const Face& base, const Face& face, const Sheet& sheet) {
    for (std::size_t i = 0; i < base.corners.size(); ++i) {
        const std::size_t a = base.corners[i], b = base.corners[(i + 1) % base.corners.size()];
        for (std::size_t k = 0; k < face.corners.size(); ++k) {
            if (face.corners[k] != b || face.corners[(k + 1) % face.corners.size()] != a) continue;
            const Point3 along = unit(solid.points[b] - solid.points[a]), inward = unit(cross(unit(area_vector(solid, face)), solid.points[a] - solid.points[b]));
            const Point2 from = sheet.at(solid.points[a]), to = sheet.at(solid.points[b]);
            const double size = std::hypot(to.x - from.x, to.y - from.y);
            const Point2 t{(to.x - from.x) / size, (to.y - from.y) / size}, out{-t.y, t.x};
            std::vector<Point2> outline;
            for (const auto corner : face.corners) {
                const Point3 arm = solid.points[corner] - solid.points[a];
                const double s = dot(arm, along), h = dot(arm, inward);
                outline.push_back({from.x + s * t.x + h * out.x, from.y + s * t.y + h * out.y});
            }
            return outline;
        }
    }
    return std::nullopt;
}

Shape flat_shape(int panel, std::vector<Point2> outline, double light) {
    Shape shape{panel == bare ? no_panel : static_cast<std::size_t>(panel), std::move(outline), {}, light};
    shape.lines.push_back(shape.outline);
    shape.lines[0].push_back(shape.outline[0]);
    return shape;
}

std::vector<Shape> net_of(const Solid& solid) {
    const auto base = std::find_if(solid.faces.begin(), solid.faces.end(), [&](const Face& f) { return f.panel == solid.loose; });
    HW_EXPECTS(base != solid.faces.end());
    const Sheet sheet(solid, *base);
    std::vector<Point2> outline;
    for (const auto i : base->corners) outline.push_back(sheet.at(solid.points[i]));
    std::vector<Shape> out{flat_shape(base->panel, outline, 0.85)};
    for (const auto& face : solid.faces)
        if (&face != &*base && face.panel != bare)
            if (auto border = folded_out(solid, *base, face, sheet)) out.push_back(flat_shape(face.panel, std::move(*border), 0.65));
    return out;
}

}  // namespace

Result<std::vector<std::size_t>> paint_order(const std::vector<Solid>& solids, Camera camera) {
    const Screen screen(camera);
    const std::size_t n = solids.size();
    std::vector<Bounds> bounds;
    for (const auto& solid : solids) bounds.push_back(bounds_on(screen, solid));
    std::vector<std::vector<std::size_t>> in_front(n);
    std::vector<std::size_t> behind_left(n, 0);
    auto before = [&](std::size_t back, std::size_t front) { in_front[back].push_back(front); ++behind_left[front]; };
    for (std::size_t a = 0; a < n; ++a)
        for (std::size_t b = a + 1; b < n; ++b) {
            if (apart(bounds[a], bounds[b])) continue;
            const Proof proof = proof_of(solids[a], solids[b], screen.viewer);
            if (!proof.b_cannot_hide_a) before(a, b);
            if (!proof.a_cannot_hide_b) before(b, a);
        }
    std::vector<std::size_t> order;
    std::vector<bool> done(n, false);
    while (order.size() < n) {
        std::size_t next = 0;
        while (next < n && (done[next] || behind_left[next] > 0)) ++next;
        if (next == n) return Error{ErrorCode::NotConverged, "Some solids of the drawing stand in a ring, each behind the next.", "family"};
        done[next] = true;
        order.push_back(next);
        for (const auto front : in_front[next]) --behind_left[front];
    }
    return order;
}

void fit(View& view) {
    Bounds all;
    for (const auto& shape : view.shapes)
        for (const auto& p : shape.outline) all.take(p);
    const double margin = margin_share * std::max(all.high.x - all.low.x, all.high.y - all.low.y);
    for (auto& shape : view.shapes) move(shape, margin - all.low.x, margin - all.low.y);
    view.width = all.high.x - all.low.x + 2 * margin;
    view.height = all.high.y - all.low.y + 2 * margin;
}

Result<View> view_of(const Model& model, const Look& look) {
    std::vector<Solid> solids;
    for (const auto& solid : model.solids)
        if (!look.without_loose || solid.loose == -1) solids.push_back(solid);
    std::vector<std::size_t> order(solids.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    if (!model.in_order) {
        HW_TRY(found, paint_order(solids, look.camera));
        order = found;
    }
    View view{look.key, look.name, 0, 0, {}};
    const Screen screen(look.camera);
    for (const auto i : order) add_shapes(view, screen, solids[i]);
    fit(view);
    return view;
}

View cushions_turned(const Model& model) {
    View view{"cushions", "Cushions turned over", 0, 0, {}};
    double left = 0, top = 0, row_height = 0;
    int in_row = 0;
    auto next_row = [&] { left = 0; top += row_height; row_height = 0; in_row = 0; };
    for (const std::string part : {"seat", "back"}) {
        if (in_row > 0) next_row();
        for (const auto& solid : model.solids) {
            if (solid.loose == -1 || model.panels[static_cast<std::size_t>(solid.loose)].part != part) continue;
            if (in_row == cushions_in_row) next_row();
            auto net = net_of(solid);
            Bounds size;
            for (const auto& shape : net)
                for (const auto& p : shape.outline) size.take(p);
            const double width = size.high.x - size.low.x, height = size.high.y - size.low.y, gap = 0.08 * width;
            for (auto& shape : net) {
                move(shape, left - size.low.x, top - size.low.y);
                view.shapes.push_back(std::move(shape));
            }
            left += width + gap;
            row_height = std::max(row_height, height + gap);
            ++in_row;
        }
    }
    if (!view.shapes.empty()) fit(view);
    return view;
}

}  // namespace hw::piece
