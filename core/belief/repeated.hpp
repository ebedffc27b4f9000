// What readings of the same thing in several places say together.
#pragma once

#include <vector>

namespace hw::belief {

struct Repeated {
    double mean = 0;
    double half_width = 0;    ///< of a 90 % interval for the mean
    double scatter = 0;       ///< standard deviation of one reading; that which was expected where only one was taken
};

/// Mean of n readings with a 90 % interval. The scatter seen is weighed with the scatter expected as if that had been seen
/// in `prior_n` readings more, so that two readings that agree by chance do not look exact:
///
///     s^2 = (prior_n s0^2 + (n - 1) s_seen^2) / (prior_n + n - 1),   half width = t(0.95, prior_n + n - 1) s / sqrt(n)
///
/// (posterior of a normal mean with a scaled inverse chi-squared prior on the variance and a flat prior on the mean)
/// @param expected_scatter  s0, standard deviation of one reading, above 0
/// @source gelman2013, 3.3, conjugate prior of the variance
/// @see docs/theory/readings.md
Repeated repeated(const std::vector<double>& readings, double expected_scatter, double prior_n = 3);

}  // namespace hw::belief
