// The condition index of a panel: one number to follow over time.
#pragma once

#include <vector>

namespace hw::leather {

struct Seen {
    double weight_1 = 0;      ///< of the kind of damage, from atlas/condition_terms.csv
    double severity_1 = 0;    ///< 0 gone, 1 faint, 2 plain, 3 heavy, 4 failed
    double area_1 = 0;        ///< share of the panel, 0 to 1
};

struct ConditionIndex {
    double value = 100;       ///< 100 = nothing seen, 0 = as bad as it can be noted
    double plus_minus = 0;    ///< 90 % half width if each severity may lie half a step off, evenly
};

/// For a trend on one panel, never for a price.
///
///     CI = max(0, 100 - sum_k w_k s_k sqrt(a_k))
///
/// The root lets small damage count: a tear over 1 % of a panel weighs a tenth of one over all of it.
/// @see docs/theory/condition.md
ConditionIndex condition_index(const std::vector<Seen>& seen);

}  // namespace hw::leather
