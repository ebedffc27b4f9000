// What two buffers tell about a pH electrode.
#pragma once

#include "base/result.hpp"

namespace hw::chem {

/// A buffer as printed on its bottle for its temperature, and what the meter showed in it.
struct BufferRead {
    double ph = 7;     ///< of the buffer
    double read = 7;   ///< shown: pH, or mV
};

struct Electrode {
    double slope_pct = 0;   ///< of the ideal (Nernst) slope
    double zero_ph = 0;     ///< what it shows in a buffer of pH 7, less 7
};

/// Ideal slope of a glass electrode, mV for one pH: ln(10) R T / F.
/// @param water_c  temperature, 0 to 60 degC
/// @source si2019, CODATA constants
/// @see docs/theory/readings.md
double nernst_slope_mv(double water_c);

/// Slope and zero point from two buffers. Readings in pH are taken as those of a meter that assumes the ideal slope.
///
///     slope = 100 (r2 - r1) / (p2 - p1),   zero = r1 + (r2 - r1) (7 - p1) / (p2 - p1) - 7     (r in pH)
///
/// Readings in mV become pH first: r = 7 - E / nernst_slope.
/// @param apart_ph  the buffers must lie so far apart
/// @error InvalidInput  the buffers lie too near to each other, or a number is missing
Result<Electrode> electrode(const BufferRead& one, const BufferRead& two, bool in_mv, double water_c, double apart_ph);

}  // namespace hw::chem
