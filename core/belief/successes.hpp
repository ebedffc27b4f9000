// How often something worked: counts, and what they allow to say of the next time.
#pragma once

#include "base/result.hpp"

namespace hw::belief {

struct Successes {
    double good_n = 1, bad_n = 1;                 ///< starting counts and the shop's own together, each above 0
};
struct SuccessBand {
    double mean_1 = 0, low_1 = 0, high_1 = 0;     ///< mean and 90 % interval of the share
};

/// The share of good results is Beta(good, bad) distributed.
/// @error OutOfRange  a count that is not above 0
/// @source gelman2013, section 2.4
Result<SuccessBand> success_band(const Successes& counts);

/// Chance of just k good results in the next n, by the Beta-binomial law.
/// @error OutOfRange  a count that is not above 0, or k outside 0 to n
Result<double> success_chance(const Successes& counts, int k, int n);

}  // namespace hw::belief
