// What is believed of one number: a distribution with a quantile, so that evenly spread points become draws.
#pragma once

#include <limits>
#include <vector>

namespace hw::belief {

/// A distribution over a number, cut to [least, most].
///
/// The stated ends hold nine tenths of a bell (5 % lie beyond each) and all of the others; that is how a restorer states a
/// range ("0.7 to 1.2 g a pull"), and how the rows of the atlas are meant.
struct Spread {
    enum class Shape {
        Known,      ///< middle, always
        Even,       ///< every value from low to high alike
        Tent,       ///< triangular: most likely at middle, none beyond low and high
        Bell,       ///< normal around middle; low and high are its 5 % and 95 % points, and may lie unevenly
        RatioBell,  ///< the logarithm is a bell: factors, all positive
    };
    Shape shape = Shape::Known;
    double low = 0, middle = 0, high = 0;
    double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
};

/// Value below which the share u of the belief lies. @param u  strictly between 0 and 1
/// @return finite, rising with u; a cut belief is drawn from what is left of it, not piled up at the cut
double quantile(const Spread& spread, double u);

/// Share of the belief below x; the inverse of quantile within its range.
double below(const Spread& spread, double x);

/// Index drawn from weights that need not add up to 1. @param u in (0, 1)
std::size_t pick(const std::vector<double>& weights, double u);

}  // namespace hw::belief
