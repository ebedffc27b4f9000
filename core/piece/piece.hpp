// What stands on the bench: families of furniture and car parts, drawn from their dimensions, with panels bounded by seams.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "core/piece/solid.hpp"

namespace hw::piece {

/// A measure that is taken on the piece with a tape; its default is a usual size.
struct Dimension {
    std::string_view key, name;
    double value_cm = 0, least_cm = 0, most_cm = 0;
    double per_place_cm = 0;       ///< is added to all three for each place beyond the default number of `seats`
    std::string_view source, locator, standing;
};

/// A whole number that is chosen: how many places, or which of `words` (1 is the first of them).
struct Option {
    std::string_view key, name;
    int value = 1, least = 1, most = 1;
    std::vector<std::string_view> words;   ///< empty: the number is a count
    std::string_view source, locator, standing;
};

struct Family {
    std::string_view key, name;
    std::string_view group;        ///< "furniture" or "car"
    std::string_view sides;        ///< what left and right mean in its names
    std::string_view source, locator, standing;
    std::vector<Dimension> dimensions;
    std::vector<Option> options;
};

/// Every family with its dimensions and options, in the order of the table.
std::vector<Family> families();

/// One dimension or option that is given; the others keep their default.
struct Given {
    std::string key;
    double value_1 = 0;            ///< cm for a dimension, a whole number for an option
};

/// A question to put before anything is done to a panel: what commonly sits behind it, not a claim that it does.
struct Question {
    std::string_view key;          ///< "airbag", "occupancy_sensor", "heater", "other_material"
    std::string_view sentence;
    std::string_view source, locator, standing;
};

struct Panel {
    std::string code;              ///< "SC1-top", "IA-L"
    std::string name;              ///< "Seat cushion 1, top"
    std::string part;              ///< "seat", "back", "arms", "outside", ...
    double area_cm2 = 0;           ///< of the surface between the seams, without seam allowance
    double welt_cm = 0;            ///< of welt sewn round it; 0 without
    std::string twin;              ///< code of its mirror image on the other side, or empty
    bool possible_airbag = false, possible_occupancy_sensor = false, possible_heater = false;
    bool often_other_material = false;  ///< commonly cloth, foam or plastic: not counted in `Drawing::area_m2`
    std::vector<Question> questions;
};

/// A picture smaller than this, in px of the page per drawing unit, has panels too small for a finger.
inline constexpr double least_px_per_cm = 1.5;

inline constexpr std::size_t no_panel = static_cast<std::size_t>(-1);

/// A closed outline to paint; what comes later lies in front.
struct Shape {
    std::size_t panel = no_panel;  ///< index in `Drawing::panels`; `no_panel`: frame or foot
    std::vector<Point2> outline;   ///< simple, without its first point repeated
    std::vector<std::vector<Point2>> lines;  ///< seams and silhouette along the outline; its other edges are folds
    double light_1 = 1;            ///< 0 turned from the light, 1 facing it
};

struct View {
    std::string key, name;
    double width = 0, height = 0;  ///< drawing units: cm in the plane of the picture; y runs down
    std::vector<Shape> shapes;     ///< in the order to paint
};

struct Drawing {
    std::vector<Panel> panels;
    std::vector<View> views;
    double area_m2 = 0;            ///< of all panels but those that are often of another material
    double other_m2 = 0;           ///< of those
};

/// Draws a piece of a family and works out the areas of its panels from the same solids.
///
///     area = sum of the true areas of its faces: polygons, arcs r t L, rings (integral of (R + r cos a) r)
///
/// @param family  key of one of `families()`
/// @param given   dimensions in cm and options that differ from the default
/// @return        panels in a fixed order, views in the order to show
/// @error NotFound      no such family; the message names those there are
/// @error InvalidInput  no such dimension or option, given twice, an option that is no whole number, a value that is none
/// @error OutOfRange    outside the range of the table, or two dimensions that cannot both be; `where` names the field
///                      (`dimensions.width`, `options.seats`)
/// @see docs/theory/drawings.md
Result<Drawing> drawing(std::string_view family, const std::vector<Given>& given);

/// A piece that belongs to no family: flat panels measured one by one.
struct FreePanel {
    std::string code, name;        ///< an empty code becomes P1, P2, ...
    std::string shape;             ///< "rectangle" (a, b), "trapezoid" (a, b parallel, h between them), "outline"
    double a_cm = 0, b_cm = 0, h_cm = 0;
    std::vector<Point2> outline;   ///< cm, in order, y up; closed by itself
};

/// Lays free panels out in rows.
///
///     rectangle a b;  trapezoid (a + b) h / 2;  outline |sum of x_i y_(i+1) - x_(i+1) y_i| / 2
///
/// @error InvalidInput  no panel, an unknown shape, fewer than three points, an outline that crosses or touches itself,
///                      the same code twice
/// @error OutOfRange    a side outside 0.5 to 1000 cm
/// @see docs/theory/drawings.md
Result<Drawing> drawing_of_free(const std::vector<FreePanel>& panels);

}  // namespace hw::piece
