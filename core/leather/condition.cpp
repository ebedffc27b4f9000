#include "core/leather/condition.hpp"

#include <algorithm>
#include <cmath>

namespace hw::leather {

ConditionIndex condition_index(const std::vector<Seen>& seen) {
    // Standard deviation of an even error of half a step either way, and the 90 % point of the normal that their sum is near to.
    const double half_step_sd = 0.5 / std::sqrt(3.0);
    constexpr double normal_95 = 1.6448536269514722;
    double lost = 0, variance = 0;
    for (const auto& s : seen) {
        const double by_step = s.weight_1 * std::sqrt(std::clamp(s.area_1, 0.0, 1.0));
        lost += by_step * s.severity_1;
        if (s.severity_1 > 0) variance += by_step * by_step * half_step_sd * half_step_sd;
    }
    return {std::max(0.0, 100 - lost), normal_95 * std::sqrt(variance)};
}

}  // namespace hw::leather
