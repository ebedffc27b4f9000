#include "core/belief/work_hours.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace hw::belief {

Result<WorkHours> work_hours(const std::vector<HourRange>& parts) {
    const boost::math::normal_distribution<double> normal;
    const double ninety = boost::math::quantile(normal, 0.9), eighty = boost::math::quantile(normal, 0.8);
    double mean = 0, variance = 0;
    for (const auto& p : parts) {
        if (!(p.low_h > 0) || !(p.high_h >= p.low_h) || !(p.times > 0) || !std::isfinite(p.high_h * p.times)) return Error{ErrorCode::OutOfRange, "Give hours above 0, the lower end first.", "hours"};
        const double middle = (std::log(p.low_h) + std::log(p.high_h)) / 2, spread = (std::log(p.high_h) - std::log(p.low_h)) / (2 * ninety);
        const double own = p.times * std::exp(middle + spread * spread / 2);
        mean += own;
        variance += own * own * std::expm1(spread * spread);
    }
    if (!(mean > 0)) return Error{ErrorCode::OutOfRange, "Give at least one part of the work.", "hours"};
    const double spread = std::sqrt(std::log1p(variance / (mean * mean)));
    const double half = mean / std::exp(spread * spread / 2);
    return WorkHours{half, half * std::exp(eighty * spread)};
}

}  // namespace hw::belief
