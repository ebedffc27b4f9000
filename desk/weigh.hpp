// Weighing: members against readings, each reading against all the others, and what pulls where.
#pragma once

#include <functional>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/belief/refine.hpp"
#include "desk/belief.hpp"
#include "desk/looks.hpp"

namespace hw::desk {

/// A reading in the scale of its kind.
struct Evidence {
    double value = 0;
    bool at_least = false;                        ///< the scale ended: so much, or more
};

/// What members at points of the unknowns expect of every reading: [member][reading]. A member that cannot be is an empty row.
using Chain = std::function<Result<std::vector<std::vector<Sight>>>(const std::vector<std::vector<double>>& u)>;

/// A reading against what is expected of it, the reading's own error included.
struct Fit {
    double chance_before_1 = 1, chance_others_1 = 1; ///< of a reading at least as far out: two-sided, or beyond it where the scale ended
    Band before, others;                          ///< in the scale of the kind
};

/// Two readings that do not fit each other: either fits once the other is left out.
struct Disagreement {
    std::size_t a = 0, b = 0;
};

struct Weighed {
    belief::Refined after;
    std::vector<std::vector<Sight>> sights_before, sights_after; ///< [member][reading]
    std::vector<Fit> fits;                        ///< per reading
    std::vector<Disagreement> disagreements;
    std::vector<double> pull;                     ///< per unknown, where its mean has moved to, in standard deviations of what was believed of it
};

struct WeighOptions {
    double does_not_fit_1 = 0.01;                 ///< a smaller chance than this does not fit
    std::uint64_t seed = 1;
    bool fits = true;                             ///< look at every reading against the others
};

/// All readings together from the prior; the order of `evidence` is that of the sums, so give it sorted.
/// @param before  what `chain` says at `prior`, where it is there already
/// @error as belief::refined and the chain
/// @see docs/theory/refine.md, docs/theory/observations.md
Result<Weighed> weigh(const std::vector<std::vector<double>>& prior, const std::vector<Evidence>& evidence, const Chain& chain, const WeighOptions& options = {}, const Progress& progress = {},
                      std::vector<std::vector<Sight>> before = {});

/// Log likelihood of one reading for one member.
double log_likelihood(const Evidence& evidence, const Sight& sight);

/// Chance of a reading at least as far out as this one, over weighted members: two-sided, their own errors included.
double chance_of(const Evidence& evidence, const std::vector<Sight>& sights, const std::vector<double>& weights);

/// Band of a reading over weighted members, their own errors included.
Band band_of_reading(const std::vector<Sight>& sights, const std::vector<double>& weights);

/// Band of what weighted members come to. Its ends lie where nine (five) of ten further draws are expected inside, however few
/// members they are worth: of n draws the share between the k-th lowest and the k-th highest is (n + 1 - 2k) / (n + 1) on average.
/// @param effective  number of members that they are worth
Band band_of_members(const std::vector<double>& values, const std::vector<double>& weights, double effective, std::string unit);

}  // namespace hw::desk
