// What counts of tries tell: how large the share that fails may still be, and how often a thing succeeds.
#pragma once

namespace hw::belief {

struct Interval {
    double low_1 = 0, high_1 = 1;
};

/// Tries and how many of them succeeded.
struct Counts {
    int n = 0, succeeded = 0;
};

/// The largest share of failures that `failed` of `n` tries do not rule out at the confidence: the upper limit of Clopper and Pearson.
///
///     none failed:  1 - a^(1/n),  a = 1 - confidence;     else the quantile 1 - a of Beta(k + 1, n - k)
///
/// @param confidence_1  between 0 and 1
/// @return  1 when nothing was tried or everything failed
/// @source clopper1934, one-sided upper limit
/// @see docs/theory/spots.md
double failing_at_most_1(int n, int failed, double confidence_1);

/// Fewest tries that, none failing, rule out a share of failures above `at_most_1`.
/// @param at_most_1  between 0 and 1
int tries_for(double at_most_1, double confidence_1);

/// A rate of success as a Beta distribution.
struct Rate {
    double a_1 = 1, b_1 = 1;              ///< Beta(a, b)
    [[nodiscard]] double mean_1() const { return a_1 / (a_1 + b_1); }
};

/// Beta(1 + s, 1 + n - s): the counts after a uniform prior.
Rate rate_of(const Counts& counts);

/// A rate that leans on that of its kind while its own counts are few:
///
///     Beta(m p + s, m (1 - p) + n - s),   p mean of the kind,  m = min(weight, n_kind + 2)
///
/// so that without tries of its kind the prior is uniform, without tries of its own the mean is that of the kind, and with many
/// of its own these decide.
/// @param own   of the thing itself; @param kind  of the others of its kind, its own left out
/// @param weight_n  of the kind, in tries, above 0
/// @source gelman2013, 5.3, a beta prior common to a group, its weight stated and not fitted
/// @see docs/theory/spots.md
Rate shrunk(const Counts& own, const Counts& kind, double weight_n);

/// The middle share of a rate.
Interval interval_of(const Rate& rate, double share_1);

}  // namespace hw::belief
