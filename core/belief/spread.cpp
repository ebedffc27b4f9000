#include "core/belief/spread.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "base/result.hpp"

namespace hw::belief {

namespace {

constexpr double z95 = 1.6448536269514722;  // 95 % point of the standard normal

double standard_quantile(double u) { return boost::math::quantile(boost::math::normal(), u); }
double standard_below(double z) { return std::isinf(z) ? (z > 0 ? 1.0 : 0.0) : boost::math::cdf(boost::math::normal(), z); }

/// Two half bells that meet at the middle: 5 % lie below low and 5 % above high.
double bell_at(double low, double middle, double high, double z) { return middle + z * (z < 0 ? middle - low : high - middle) / z95; }
double bell_z(double low, double middle, double high, double x) {
    const double side = x < middle ? middle - low : high - middle;
    return side > 0 ? z95 * (x - middle) / side : (x < middle ? -1 : x > middle ? 1 : 0) * std::numeric_limits<double>::infinity();
}

double uncut_quantile(const Spread& s, double u) {
    switch (s.shape) {
        case Spread::Shape::Known: return s.middle;
        case Spread::Shape::Even: return s.low + u * (s.high - s.low);
        case Spread::Shape::Tent: {
            const double width = s.high - s.low, turn = width > 0 ? (s.middle - s.low) / width : 0.5;
            if (width <= 0) return s.middle;
            return u < turn ? s.low + std::sqrt(u * width * (s.middle - s.low)) : s.high - std::sqrt((1 - u) * width * (s.high - s.middle));
        }
        case Spread::Shape::Bell: return bell_at(s.low, s.middle, s.high, standard_quantile(u));
        case Spread::Shape::RatioBell: return std::exp(bell_at(std::log(s.low), std::log(s.middle), std::log(s.high), standard_quantile(u)));
    }
    throw Bug("a shape without a quantile");
}

double uncut_below(const Spread& s, double x) {
    switch (s.shape) {
        case Spread::Shape::Known: return x < s.middle ? 0 : 1;
        case Spread::Shape::Even: return s.high > s.low ? std::clamp((x - s.low) / (s.high - s.low), 0.0, 1.0) : (x < s.low ? 0.0 : 1.0);
        case Spread::Shape::Tent: {
            const double width = s.high - s.low;
            if (x <= s.low) return 0;
            if (x >= s.high) return 1;
            if (x < s.middle) return (x - s.low) * (x - s.low) / (width * (s.middle - s.low));
            return 1 - (s.high - x) * (s.high - x) / (width * (s.high - s.middle));
        }
        case Spread::Shape::Bell: return standard_below(bell_z(s.low, s.middle, s.high, x));
        case Spread::Shape::RatioBell: return x <= 0 ? 0 : standard_below(bell_z(std::log(s.low), std::log(s.middle), std::log(s.high), std::log(x)));
    }
    throw Bug("a shape without a distribution");
}

/// Share of the uncut belief below the cut, and the share that is kept.
struct Cut {
    double below = 0, kept = 1;
};
Cut cut_of(const Spread& s) {
    const double low = std::isinf(s.least) ? 0 : uncut_below(s, s.least), high = std::isinf(s.most) ? 1 : uncut_below(s, s.most);
    return {low, high - low};
}

}  // namespace

double quantile(const Spread& spread, double u) {
    HW_EXPECTS(u > 0 && u < 1);
    const Cut cut = cut_of(spread);
    // Next to nothing of the belief lies inside the cut: its nearer end is all that can be said.
    constexpr double least_kept = 1e-9;
    if (cut.kept < least_kept) return std::clamp(spread.middle, spread.least, spread.most);
    constexpr double edge = 1e-15;
    const double inner = std::clamp(cut.below + u * cut.kept, edge, 1 - edge);
    return std::clamp(uncut_quantile(spread, inner), spread.least, spread.most);
}

double below(const Spread& spread, double x) {
    if (x < spread.least) return 0;
    if (x >= spread.most) return 1;
    const Cut cut = cut_of(spread);
    return cut.kept > 0 ? std::clamp((uncut_below(spread, x) - cut.below) / cut.kept, 0.0, 1.0) : (x < spread.middle ? 0.0 : 1.0);
}

std::size_t pick(const std::vector<double>& weights, double u) {
    HW_EXPECTS(!weights.empty());
    double sum = 0;
    for (double w : weights) sum += w;
    HW_EXPECTS(sum > 0);
    double left = u * sum;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        if (weights[i] > 0 && left < weights[i]) return i;
        left -= weights[i];
    }
    for (std::size_t i = weights.size(); i-- > 0;)
        if (weights[i] > 0) return i;
    throw Bug("weights without a weight");
}

}  // namespace hw::belief
