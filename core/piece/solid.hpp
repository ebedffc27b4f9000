// Solids in centimetres whose faces carry panels: prisms over a profile of lines and arcs, boxes, rings.
//
// x runs to the right of who stands before the piece, y away from him, z up. A curved face is drawn by flat facets, but
// each facet carries the area of the curved patch it stands for, so an area never depends on the number of facets.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace hw::piece {

struct Point2 {
    double x = 0, y = 0;
};
struct Point3 {
    double x = 0, y = 0, z = 0;
};
enum class Axis { X, Y, Z };

Point3 operator-(Point3 a, Point3 b);
Point3 cross(Point3 a, Point3 b);
double dot(Point3 a, Point3 b);
double length(Point3 a);

inline constexpr int bare = -1;     ///< a face that is no panel: frame, foot, or what lies against another solid
inline constexpr int facets_default = 8;  ///< facets of a quarter turn

struct Face {
    std::vector<std::size_t> corners;  ///< counter-clockwise seen from outside
    int panel = bare;
    int patch = 0;                     ///< facets of one smooth patch share it
    double area_cm2 = 0;               ///< of the true surface, not of the facet
    double round_cm = 0;               ///< length of the true edge round it
};

/// A closed solid. Convex, but for the sectors of a ring.
struct Solid {
    std::vector<Point3> points;
    std::vector<Face> faces;
    int loose = -1;                    ///< a loose cushion: panel that lies up when it is turned over; else -1
};

/// Area of a face's polygon times its outward normal, cm².
Point3 area_vector(const Solid& solid, const Face& face);
Point3 centre_of(const Solid& solid, const Face& face);

/// A convex closed line of straight edges and arcs, walked counter-clockwise.
class Profile {
public:
    explicit Profile(Point2 start) { points_.push_back(start); }
    /// Straight to a point; the face over this edge belongs to `panel`.
    Profile& line(Point2 to, int panel);
    /// Counter-clockwise by `angle` (radians, above 0) round a centre.
    Profile& arc(Point2 centre, double angle, int panel, int facets);
    /// Straight back to the start.
    Profile& close(int panel);
    /// Ends where it began, by an arc.
    Profile& closed();

    struct Edge {
        int panel, patch;
        double length_cm;              ///< along the true curve
    };
    [[nodiscard]] const std::vector<Point2>& points() const { return points_; }
    [[nodiscard]] const std::vector<Edge>& edges() const { return edges_; }
    [[nodiscard]] double beyond_chords_cm2() const { return beyond_chords_; }  ///< area between arcs and their chords

private:
    std::vector<Point2> points_;
    std::vector<Edge> edges_;
    double beyond_chords_ = 0;
    int patch_ = 2;
};

/// The profile drawn along an axis. It lies in (y, z) for X, in (x, z) for Y, in (x, y) for Z.
/// @param panel_from, panel_to  panels of the two ends
Solid prism(Axis along, const Profile& profile, double from, double to, int panel_from, int panel_to);

struct BoxPanels {
    int left = bare, right = bare, front = bare, back = bare, under = bare, top = bare;
};
Solid box(Point3 low, Point3 high, const BoxPanels& panels);

/// A solid between two rectangles that lie level, for feet and the like. All bare.
Solid tapered(Point3 low_a, Point3 low_b, Point3 high_a, Point3 high_b);

/// Part of a ring in the plane y = `centre.y`: the tube of radius `tube` round the circle of radius `ring`, between two
/// angles (radians, from +x towards +z).
Solid ring_sector(Point3 centre, double ring, double tube, double from, double to, int panel, int facets_round, int facets_tube);

/// Leaned back round the line y, z along x: what is above goes to +y for an angle above 0 (radians).
Solid leaned(Solid solid, double y, double z, double angle);
/// Turned round the upright line through x, y (radians, counter-clockwise seen from above).
Solid turned(Solid solid, double x, double y, double angle);
/// Seen in a mirror at the plane x.
Solid mirrored(Solid solid, double x);

/// Cuts every face that crosses the plane `axis` = `at` in two; the solid stays the same.
void cut(Solid& solid, Axis axis, double at);
/// Gives the faces whose centre satisfies the question to another panel.
void relabel(Solid& solid, int from, int to, const std::function<bool(Point3 centre)>& where);

}  // namespace hw::piece
