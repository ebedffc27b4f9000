#include "core/piece/solid.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "base/result.hpp"

namespace hw::piece {

Point3 operator-(Point3 a, Point3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
Point3 cross(Point3 a, Point3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
double dot(Point3 a, Point3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
double length(Point3 a) { return std::sqrt(dot(a, a)); }

namespace {

double along_axis(Point3 p, Axis axis) { return axis == Axis::X ? p.x : axis == Axis::Y ? p.y : p.z; }

double polygon_round_cm(const Solid& solid, const Face& face) {
    double sum = 0;
    for (std::size_t i = 0; i < face.corners.size(); ++i)
        sum += length(solid.points[face.corners[(i + 1) % face.corners.size()]] - solid.points[face.corners[i]]);
    return sum;
}

/// Fills in area and edge of flat faces, and turns every face of a convex solid outward.
void finish_convex(Solid& solid) {
    Point3 middle;
    for (const auto& p : solid.points) middle = {middle.x + p.x, middle.y + p.y, middle.z + p.z};
    const double n = static_cast<double>(solid.points.size());
    middle = {middle.x / n, middle.y / n, middle.z / n};
    for (auto& face : solid.faces) {
        const Point3 area = area_vector(solid, face);
        if (dot(area, centre_of(solid, face) - middle) < 0) std::reverse(face.corners.begin(), face.corners.end());
        if (face.area_cm2 <= 0) face.area_cm2 = length(area);
        if (face.round_cm <= 0) face.round_cm = polygon_round_cm(solid, face);
    }
}

}  // namespace

Point3 area_vector(const Solid& solid, const Face& face) {
    Point3 sum;
    const Point3 origin = solid.points[face.corners[0]];
    for (std::size_t i = 1; i + 1 < face.corners.size(); ++i) {
        const Point3 c = cross(solid.points[face.corners[i]] - origin, solid.points[face.corners[i + 1]] - origin);
        sum = {sum.x + c.x / 2, sum.y + c.y / 2, sum.z + c.z / 2};
    }
    return sum;
}

Point3 centre_of(const Solid& solid, const Face& face) {
    Point3 sum;
    for (const auto i : face.corners) sum = {sum.x + solid.points[i].x, sum.y + solid.points[i].y, sum.z + solid.points[i].z};
    const double n = static_cast<double>(face.corners.size());
    return {sum.x / n, sum.y / n, sum.z / n};
}

Profile& Profile::line(Point2 to, int panel) {
    edges_.push_back({panel, patch_++, std::hypot(to.x - points_.back().x, to.y - points_.back().y)});
    points_.push_back(to);
    return *this;
}

Profile& Profile::arc(Point2 centre, double angle, int panel, int facets) {
    HW_EXPECTS(facets > 0 && angle > 0);
    const Point2 arm{points_.back().x - centre.x, points_.back().y - centre.y};
    const double radius = std::hypot(arm.x, arm.y), step = angle / facets;
    for (int i = 1; i <= facets; ++i) {
        const double c = std::cos(step * i), s = std::sin(step * i);
        points_.push_back({centre.x + arm.x * c - arm.y * s, centre.y + arm.x * s + arm.y * c});
        edges_.push_back({panel, patch_, radius * step});
    }
    beyond_chords_ += facets * radius * radius / 2 * (step - std::sin(step));
    ++patch_;
    return *this;
}

Profile& Profile::close(int panel) {
    line(points_.front(), panel);
    points_.pop_back();
    return *this;
}

Profile& Profile::closed() {
    points_.pop_back();
    return *this;
}

Solid prism(Axis along, const Profile& profile, double from, double to, int panel_from, int panel_to) {
    HW_EXPECTS(profile.points().size() == profile.edges().size() && to > from);
    const std::size_t n = profile.points().size();
    Solid out;
    for (const double t : {from, to})
        for (const auto& p : profile.points())
            out.points.push_back(along == Axis::X ? Point3{t, p.x, p.y} : along == Axis::Y ? Point3{p.x, t, p.y} : Point3{p.x, p.y, t});
    Face low, high;
    for (std::size_t i = 0; i < n; ++i) {
        const auto& edge = profile.edges()[i];
        const std::size_t j = (i + 1) % n;
        out.faces.push_back({{i, j, n + j, n + i}, edge.panel, edge.patch, edge.length_cm * (to - from), 2 * (edge.length_cm + to - from)});
        low.corners.push_back(i);
        high.corners.push_back(n + i);
        low.round_cm += edge.length_cm;
    }
    low.panel = panel_from;
    high.panel = panel_to;
    high.patch = 1;
    high.round_cm = low.round_cm;
    low.area_cm2 = high.area_cm2 = length(area_vector(out, low)) + profile.beyond_chords_cm2();
    out.faces.push_back(low);
    out.faces.push_back(high);
    finish_convex(out);
    return out;
}

Solid box(Point3 low, Point3 high, const BoxPanels& panels) {
    Profile profile({low.y, low.z});
    profile.line({high.y, low.z}, panels.under).line({high.y, high.z}, panels.back).line({low.y, high.z}, panels.top).close(panels.front);
    return prism(Axis::X, profile, low.x, high.x, panels.left, panels.right);
}

Solid tapered(Point3 low_a, Point3 low_b, Point3 high_a, Point3 high_b) {
    Solid out;
    for (const auto& [a, b] : {std::pair{low_a, low_b}, std::pair{high_a, high_b}})
        for (const Point3 p : {Point3{a.x, a.y, a.z}, {b.x, a.y, a.z}, {b.x, b.y, a.z}, {a.x, b.y, a.z}}) out.points.push_back(p);
    int patch = 0;
    for (const auto& corners : std::vector<std::vector<std::size_t>>{{0, 1, 2, 3}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}})
        out.faces.push_back({corners, bare, patch++, 0, 0});
    finish_convex(out);
    return out;
}

Solid ring_sector(Point3 centre, double ring, double tube, double from, double to, int panel, int facets_round, int facets_tube) {
    HW_EXPECTS(facets_round > 0 && facets_tube > 2 && to > from && tube < ring);
    Solid out;
    const auto n = static_cast<std::size_t>(facets_tube), m = static_cast<std::size_t>(facets_round);
    const double step = (to - from) / facets_round, turn = 2 * std::numbers::pi / facets_tube;
    for (std::size_t i = 0; i <= m; ++i)
        for (std::size_t k = 0; k < n; ++k) {
            const double round = from + step * static_cast<double>(i), across = turn * static_cast<double>(k);
            const double r = ring + tube * std::cos(across);
            out.points.push_back({centre.x + r * std::cos(round), centre.y - tube * std::sin(across), centre.z + r * std::sin(round)});
        }
    for (std::size_t i = 0; i < m; ++i)
        for (std::size_t k = 0; k < n; ++k) {
            const std::size_t next = (k + 1) % n;
            const double a = turn * static_cast<double>(k), b = a + turn;
            // The true patch: the integral of (ring + tube cos a) tube over both angles.
            const double area = tube * step * (ring * turn + tube * (std::sin(b) - std::sin(a)));
            out.faces.push_back({{i * n + k, (i + 1) * n + k, (i + 1) * n + next, i * n + next}, panel, 0, area, 0});
        }
    Face start, end;
    for (std::size_t k = 0; k < n; ++k) {
        start.corners.push_back(k);
        end.corners.push_back(m * n + n - 1 - k);
    }
    for (Face* face : {&start, &end}) {
        face->patch = face == &start ? 1 : 2;
        face->area_cm2 = std::numbers::pi * tube * tube;
        face->round_cm = 2 * std::numbers::pi * tube;
        out.faces.push_back(*face);
    }
    return out;
}

Solid leaned(Solid solid, double y, double z, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    for (auto& p : solid.points) p = {p.x, y + (p.y - y) * c + (p.z - z) * s, z - (p.y - y) * s + (p.z - z) * c};
    return solid;
}

Solid turned(Solid solid, double x, double y, double angle) {
    const double c = std::cos(angle), s = std::sin(angle);
    for (auto& p : solid.points) p = {x + (p.x - x) * c - (p.y - y) * s, y + (p.x - x) * s + (p.y - y) * c, p.z};
    return solid;
}

Solid mirrored(Solid solid, double x) {
    for (auto& p : solid.points) p.x = 2 * x - p.x;
    for (auto& face : solid.faces) std::reverse(face.corners.begin(), face.corners.end());
    return solid;
}

void cut(Solid& solid, Axis axis, double at) {
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> on_edge;
    auto crossing = [&](std::size_t a, std::size_t b) {
        const auto key = std::minmax(a, b);
        if (const auto found = on_edge.find(key); found != on_edge.end()) return found->second;
        const Point3 p = solid.points[key.first], q = solid.points[key.second];
        const double t = (at - along_axis(p, axis)) / (along_axis(q, axis) - along_axis(p, axis));
        solid.points.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y), p.z + t * (q.z - p.z)});
        return on_edge[key] = solid.points.size() - 1;
    };
    std::vector<Face> faces;
    for (const auto& face : solid.faces) {
        Face below = face, above = face;
        below.corners.clear();
        above.corners.clear();
        for (std::size_t i = 0; i < face.corners.size(); ++i) {
            const std::size_t a = face.corners[i], b = face.corners[(i + 1) % face.corners.size()];
            const double da = along_axis(solid.points[a], axis) - at, db = along_axis(solid.points[b], axis) - at;
            if (da <= 0) below.corners.push_back(a);
            if (da >= 0) above.corners.push_back(a);
            if (da * db < 0) {
                const std::size_t c = crossing(a, b);
                below.corners.push_back(c);
                above.corners.push_back(c);
            }
        }
        if (below.corners.size() < 3 || above.corners.size() < 3) { faces.push_back(face); continue; }
        const double low = length(area_vector(solid, below)), high = length(area_vector(solid, above));
        if (low <= 0 || high <= 0) { faces.push_back(face); continue; }
        // A curved facet is cut across its straight edges, so the shares of the facet are the shares of the surface.
        below.area_cm2 = face.area_cm2 * low / (low + high);
        above.area_cm2 = face.area_cm2 - below.area_cm2;
        below.round_cm = polygon_round_cm(solid, below);
        above.round_cm = polygon_round_cm(solid, above);
        faces.push_back(below);
        faces.push_back(above);
    }
    solid.faces = std::move(faces);
}

void relabel(Solid& solid, int from, int to, const std::function<bool(Point3)>& where) {
    for (auto& face : solid.faces)
        if (face.panel == from && where(centre_of(solid, face))) face.panel = to;
}

}  // namespace hw::piece
