// Members of a prior on the unit cube, updated by readings.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"

namespace hw::belief {

/// Log likelihood of all readings at each of many points of the unit cube, up to one constant common to all of them.
/// -inf: impossible. Neither NaN nor +inf. The coordinates lie strictly between 0 and 1.
using LogLikelihood = std::function<Result<std::vector<double>>(const std::vector<std::vector<double>>& u)>;

struct RefineOptions {
    double least_effective_1 = 0.1;   ///< share of the members that the weights must be worth, else tempering from the prior
    double step_effective_1 = 0.5;    ///< share kept at every step of tempering, above 0 and below 1
    int moves = 1;                    ///< of every member after every step
    int most_steps = 40;
    std::uint64_t seed = 1;
};

struct Refined {
    std::vector<std::vector<double>> u;       ///< [member][dimension]
    std::vector<double> weight_1;             ///< per member, sums to 1
    std::vector<std::size_t> from;            ///< index of the prior point that a member IS (weights alone), empty after rejuvenation
    double effective = 0;                     ///< number of independent members that they are worth
    double log_evidence = 0;                  ///< log of the mean likelihood under the prior
    std::vector<double> exponents;            ///< of the tempering, rising, last 1; {1}: weights alone
    double accepted_1 = 1;                    ///< of the proposed moves
    int evaluations = 0;                      ///< points asked of the likelihood
    bool rejuvenated = false;
    SolverReport report;                      ///< iterations: steps of tempering; residual: error of a mean, in standard deviations of the posterior
};

/// Members and weights that stand for the prior given all readings at once: the order of readings is nothing that could matter.
///
///     w_i = L(u_i) / sum L(u_j)                                    where these are worth enough members, else
///     prior L^t, t rising to 1                                     (tempering, from the prior)
///     y' = sqrt(1 - b^2) y + b xi,  y = C^-1 (z - m),  z = probit u  (moves, accepted by Metropolis and Hastings)
///
/// m and C C' are the prior's 0 and 1, except where the members of the step clearly say otherwise; b is set between steps so
/// that a quarter to a half of the moves is accepted, or more where b is 1. The likelihood is asked in whole batches, once for
/// each point: first the prior's, then `moves` batches in every step.
/// Members that descend from one point of the prior are kin: `effective` says how many independent ones have the same error of
/// the mean, in the coordinate that is worst.
///
/// @param prior  even_points(), or any points uniform on the cube
/// @error OutOfRange  no point of the prior can have given the readings; `where` is "readings"
/// @error NotConverged  cancelled
/// @return report OutOfBudget where most_steps did not do: the rest is then in the weights, and `effective` tells
/// @source delmoral2006, samplers through a sequence of distributions; chopin2002, resample and move; cotter2013, the move;
///         baik2006 and james1961, what a sample says of a covariance and of a mean; chan2013 and lee2018, error of kin
/// @see docs/theory/refine.md
Result<Refined> refined(const std::vector<std::vector<double>>& prior, const LogLikelihood& likelihood, const RefineOptions& options, const Progress& progress = {});

}  // namespace hw::belief
