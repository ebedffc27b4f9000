// How long a job takes, from usual ranges of its parts: hours are right-skewed, and their middles do not add up.
#pragma once

#include <vector>

#include "base/result.hpp"

namespace hw::belief {

struct HourRange {
    double low_h = 0, high_h = 0;                 ///< one in ten takes less, one in ten more; equal: always the same
    double times = 1;                             ///< m² or how often, above 0; all of one kind go alike
};
struct WorkHours {
    double half_h = 0, eight_in_ten_h = 0;        ///< half of such jobs, and eight in ten, take no longer
};

/// Each part is log-normal with its ends at 10 and 90 %; the sum is the log-normal of equal mean and variance (Fenton).
/// @error OutOfRange  no part, or a range that is not above 0 and rising
/// @source fenton1960
Result<WorkHours> work_hours(const std::vector<HourRange>& parts);

}  // namespace hw::belief
