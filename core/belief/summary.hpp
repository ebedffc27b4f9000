// What many members say of a quantity: bands, shares, and which unknown makes how much of the spread.
#pragma once

#include <cstddef>
#include <vector>

namespace hw::belief {

/// Quantiles by linear interpolation between ordered members (definition 7 of Hyndman & Fan 1996, the usual one).
/// @param values  at least one, all finite  @param shares  each 0 to 1, rising
/// @return one value per share
std::vector<double> quantiles(std::vector<double> values, const std::vector<double>& shares);

/// The five quantiles of a band: 5, 25, 50, 75, 95 %.
struct Five {
    double low_90 = 0, low_50 = 0, median = 0, high_50 = 0, high_90 = 0;
};
Five five(std::vector<double> values);

/// Standard error of a share found by n independent members, sqrt(p (1 - p) / n) with p drawn a little to the middle so
/// that none of 64 is not certainty (Agresti & Coull 1998). Evenly spread members do better: this is an upper figure.
double share_error(double share, std::size_t members);

/// Share of the variance of y that one unknown makes by itself.
struct FirstOrder {
    double share_1 = 0, plus_minus_1 = 0;         ///< index, and its standard error: by leaving out one part in eight, and from the noise
};

/// First-order (Sobol) index of each coordinate from one sample.
///
/// The mean of y given a coordinate is fitted by Legendre polynomials in that coordinate alone; its variance over that of y
/// is the index. The points are even, so the coefficients are plain means. Noise of random members would add a known variance
/// to them, even members add less: half of it is taken off, half counts in the error. A small sample is fitted by low degrees.
///
/// @param u  [member][coordinate] in (0, 1)  @param y  one value per member
/// @return one per coordinate; all 0 where y does not vary
/// @source sobol1993, definition; sudret2008, indices from polynomial coefficients
/// @see docs/theory/sensitivity.md
std::vector<FirstOrder> first_order(const std::vector<std::vector<double>>& u, const std::vector<double>& y);

}  // namespace hw::belief
