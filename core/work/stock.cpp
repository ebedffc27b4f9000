#include "core/work/stock.hpp"

#include <algorithm>
#include <cmath>

namespace hw::work {

LastDay last_day(const Bottle& b) {
    LastDay out;
    const auto take = [&](UseBy by, std::int64_t day) {
        if (!out.day || day < *out.day) out = {by, day};
    };
    if (b.printed_day) take(UseBy::Printed, *b.printed_day);
    else if (b.unopened_life_days) take(UseBy::Kept, b.received_day + *b.unopened_life_days);
    if (b.opened_day && b.opened_life_days) take(UseBy::Opened, *b.opened_day + *b.opened_life_days);
    return out;
}

Demand demand_of(const std::vector<double>& by_week) {
    Demand out;
    out.weeks = static_cast<int>(by_week.size());
    if (by_week.empty()) return out;
    const double n = static_cast<double>(by_week.size());
    for (const double x : by_week) out.mean += x / n;
    if (by_week.size() < 2) return out;
    double squares = 0;
    for (const double x : by_week) squares += (x - out.mean) * (x - out.mean);
    out.sd = std::sqrt(squares / (n - 1));
    return out;
}

Result<double> reorder_point(double mean_week, double sd_week, double lead_days, double z) {
    for (const double x : {mean_week, sd_week, lead_days, z})
        if (!(x >= 0) || !std::isfinite(x)) return Error{ErrorCode::OutOfRange, "Use, spread, days until it arrives and z are 0 or more.", "reorder"};
    const double weeks = lead_days / 7;
    return mean_week * weeks + z * sd_week * std::sqrt(weeks);
}

}  // namespace hw::work
