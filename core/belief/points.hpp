// Evenly spread points for an ensemble: a Sobol sequence with a fixed digital shift.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "base/result.hpp"

namespace hw::belief {

/// Points of the unit cube, [point][dimension], each coordinate strictly between 0 and 1.
///
/// The first 2^m points of a Sobol sequence put exactly one point into each of 2^m strips of every coordinate. A digital
/// shift (one random word per coordinate, fixed by the seed) keeps that and takes the first point out of the corner.
/// Coordinates lie in the middle of their strips. Same arguments, same points.
///
/// @param count  a power of two, 2 to 2^20
/// @param dimensions  1 to 1000
/// @error InvalidInput  count is not such a power; `where` is "members"
/// @source joe2008, direction numbers
/// @see docs/theory/ensemble.md
Result<std::vector<std::vector<double>>> even_points(std::size_t count, std::size_t dimensions, std::uint64_t seed = 0);

/// Whether a number of members is a power of two within these bounds.
bool is_power_of_two(std::size_t count);

}  // namespace hw::belief
