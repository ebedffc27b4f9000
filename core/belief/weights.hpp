// Members that do not count alike: weights from readings, and what weighted members say.
#pragma once

#include <cstddef>
#include <vector>

#include "base/result.hpp"

namespace hw::belief {

struct Weights {
    std::vector<double> weight_1;  ///< per member, sums to 1
    double effective = 0;          ///< number of equal members that they are worth
    double log_mean = 0;           ///< log of the mean likelihood of the members
};

/// Weights in proportion to exp(log likelihood). Only differences of the logarithms matter, however large these are.
/// @param log_likelihood  per member; -inf: impossible, weight 0. Neither NaN nor +inf
/// @error OutOfRange  every member is impossible; `where` is "readings"
/// @see docs/theory/refine.md
Result<Weights> weights_of(const std::vector<double>& log_likelihood);

/// Number of equal members that weights are worth, (sum w)^2 / sum w^2.
/// @source kish1965, design effect of weights; kong1992, for likelihoods
double effective_number(const std::vector<double>& weights);

/// Quantiles of weighted members. With equal weights they are those of quantiles(); a member without weight is not there.
///
/// Ordered members fill [0, 1], each with a piece as long as its weight. The quantile of p is the mean of the values over a
/// window of length 1/n that begins at p (n - 1)/n, n being the effective number: of n equal members that is definition 7.
/// @param values  finite  @param weights  not negative, of any sum above 0  @param shares  each 0 to 1
/// @source akinshin2023, weighted form of definition 7
std::vector<double> weighted_quantiles(const std::vector<double>& values, const std::vector<double>& weights, const std::vector<double>& shares);

struct WeightedShare {
    double share_1 = 0, plus_minus_1 = 0;  ///< and its standard error
};

/// Share of the weight of those members that are inside, and its standard error.
///
/// The error is that of a ratio of weighted sums, with two members added inside and two outside, of the weight that one of
/// the effective number has: none is not certainty. With equal weights it is share_error().
/// @param inside  per member
/// @param effective  number of members that these are worth where they are kin (Refined::effective); 0: what the weights say
WeightedShare weighted_share(const std::vector<bool>& inside, const std::vector<double>& weights, double effective = 0);

/// Members drawn in proportion to their weight, by one number: a comb of `count` equal steps laid over the weights at u.
/// A member of weight w is drawn count w times, rounded down or up. @param u  in (0, 1)
/// @return indices, rising
std::vector<std::size_t> systematic(const std::vector<double>& weights, std::size_t count, double u);

}  // namespace hw::belief
