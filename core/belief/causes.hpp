// Which of several causes made what is seen: each sign can come from any of its causes or from none of them.
#pragma once

#include <cstddef>
#include <vector>

#include "base/result.hpp"

namespace hw::belief {

/// A sign is there unless every cause that is present, and everything not named, failed to make it (noisy-or with a leak):
///
///     P(sign not there | causes) = (1 - leak) prod_{present causes} (1 - chance)
///
/// @source pearl1988, section 4.3.2
/// @see docs/theory/causes.md
struct CauseNet {
    std::vector<double> prior_1;                  ///< of each cause by itself, 0 to 1
    std::vector<double> leak_1;                   ///< of each sign, 0 to 1
    std::vector<std::vector<double>> chance_1;    ///< [sign][cause], 0 to 1
};

/// What was seen of one sign: how likely that is if the sign is there, and if it is not. (1, 0): it is there; (0, 1): looked for,
/// and not there. A reading gives two numbers in between. A sign that nobody looked for is left out.
struct SeenSign {
    std::size_t sign = 0;
    double if_there = 1, if_not = 0;
};

/// Signs that may be there (or half there) at once: the work doubles with each.
inline constexpr std::size_t most_signs_there = 18;

struct CausePosterior {
    double log_evidence = 0;                      ///< natural logarithm of the chance of all that was seen
    std::vector<double> there_1;                  ///< of each cause, whatever the others do
};

/// The exact posterior: the sum over all subsets of causes, none left out and none bounded.
///
/// The subsets are not listed. Causes are taken in one by one; what is carried along is, for each subset of the signs that are
/// there, the weight of having explained just these. All terms are positive, so nothing cancels.
/// Work: causes x 2^s x s for s signs that are there; signs that are not there cost nothing.
///
/// @error InvalidInput  sizes that do not fit, a number outside 0 to 1, a sign seen twice
/// @error OutOfRange    more than `most_signs_there` signs there
/// @error NotConverged  what was seen cannot happen by this table
Result<CausePosterior> posterior_of(const CauseNet& net, const std::vector<SeenSign>& seen);

/// The chance of each combination of a few causes together with what was seen; bit k of the index is chosen[k].
/// @param chosen  at most 4, different
/// @return 2^n chances that add up to 1
Result<std::vector<double>> joint_of(const CauseNet& net, const std::vector<SeenSign>& seen, const std::vector<std::size_t>& chosen);

/// What a test would tell, in bits, of which of a few causes are present; exact, by its outcomes.
/// @param chain  signs in their order: the test finds the first of them that is there, or none
/// @return 0 to the number of chosen causes; a sign that was seen already adds nothing
Result<double> worth_of(const CauseNet& net, const std::vector<SeenSign>& seen, const std::vector<std::size_t>& chosen, const std::vector<std::size_t>& chain);

}  // namespace hw::belief
