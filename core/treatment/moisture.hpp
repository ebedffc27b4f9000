// Water of a course: what a class of leather may be given, and what a solved course gave it.
#pragma once

#include <string_view>

#include "core/treatment/course.hpp"

namespace hw::treatment {

inline constexpr double film_gone_kg_m2 = 1e-3;  ///< a thousandth of a millimetre: dry to the touch

/// What a class of leather may be given; each figure with its own row.
struct MoistureBudget {
    double pass_g_m2 = 0;                        ///< in one pass
    double net_24h_g_m2 = 0;                     ///< within 24 h, less what was blotted; what dries meanwhile does not count
    struct Row {
        std::string_view source, locator, standing;
    } pass, day;
};

/// @param leather_class  a key of atlas/leather_classes.csv; any other is a Bug
MoistureBudget moisture_budget(std::string_view leather_class);

/// Water that fills the pores of the grain, from balance with air of 50 % to soaked, g/m2: where the figures for a day come from.
double grain_holds_g_m2(const leather::Hide& hide);

/// Depth into the leather, below the finish, that was half full of water or more at some output, um.
/// @param from_s  here and in the next two: earlier outputs do not count
double wetted_um(const Exposure& exposure, double from_s = 0);

/// Time during which a film stood on the surface, as far as the outputs tell, s.
double surface_wet_s(const Exposure& exposure, double from_s = 0);

/// Most water on and in the leather at one output, above what the room air keeps there, g/m2.
double most_water_g_m2(const Exposure& exposure, double from_s = 0);

/// Water of the layings of a solved course.
struct Moisture {
    double pass_g_m2 = 0;                        ///< most laid on in one go
    double net_24h_g_m2 = 0;                     ///< most that stayed of what was laid on within any 24 h
    double wetted_um = 0, surface_wet_s = 0, most_water_g_m2 = 0;  ///< see the functions
};

/// @param from_laying  what was before this laying does not count: the accident, when a treatment is asked about
Moisture moisture(const Course& course, const Exposure& exposure, std::size_t from_laying = 0);

}  // namespace hw::treatment
