// How long a bottle may be used, and how much of a thing should be left when more is ordered.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"

namespace hw::work {

/// What decides the last day on which a bottle may be used.
enum class UseBy { NotKnown, Printed, Opened, Kept };

/// Days are counted from 1970-01-01.
struct Bottle {
    std::int64_t received_day = 0;
    std::optional<std::int64_t> opened_day, printed_day;   ///< printed: the last day by the bottle
    std::optional<std::int64_t> opened_life_days, unopened_life_days;
};

struct LastDay {
    UseBy by = UseBy::NotKnown;
    std::optional<std::int64_t> day;              ///< it may still be used on this day
};

/// The earliest of the printed day and of opening plus what it keeps once opened. Only where no day is printed does the time
/// since it was received count, by what it keeps unopened.
LastDay last_day(const Bottle& bottle);

/// What is used in a week, by so many whole weeks.
struct Demand {
    int weeks = 0;
    double mean = 0;
    double sd = 0;                                ///< sample, n - 1; 0 below two weeks
};
Demand demand_of(const std::vector<double>& by_week);

/// The amount left at which to order.
///
///     R = m L + z s sqrt(L)
///
/// @param mean_week, sd_week  m, s: use in a week and its standard deviation, any one unit, 0 or more
/// @param lead_days           7 L: from order to arrival, 0 or more
/// @param z                   quantile of the normal distribution for the chance of not running out, 0 or more
/// @return                    R, in the unit of m
/// @error OutOfRange          one of them below 0 or not finite
/// @source silver2017, from memory: order point under normal demand
Result<double> reorder_point(double mean_week, double sd_week, double lead_days, double z);

}  // namespace hw::work
