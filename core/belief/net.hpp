// What a thing is, from what was seen of it: exact, over every state, in logarithms.
#pragma once

#include <cstddef>
#include <vector>

#include "base/result.hpp"

namespace hw::belief {

/// A thing is of one class and one sort; it has places, and at each place each of a few veils is there or not. Class and sort
/// are those of the whole thing, veils are of their place alone.
struct NetShape {
    std::size_t classes = 1, sorts = 1, veils = 0;
    [[nodiscard]] std::size_t masks() const { return std::size_t{1} << veils; }
    [[nodiscard]] std::size_t states() const { return classes * sorts * masks(); }
    /// @param mask  bit v is set where veil v is there
    [[nodiscard]] std::size_t state(std::size_t a, std::size_t s, std::size_t mask) const { return (a * sorts + s) * masks() + mask; }
};

struct NetPrior {
    std::vector<double> class_sort_1;             ///< [class * sorts + sort], of any sum above 0; 0: cannot be
    std::vector<std::vector<double>> veil_1;      ///< [place][veil], chance that it is there
};

/// Something seen at one place: its chance in each state there.
struct Seen {
    std::size_t place = 0;
    std::vector<double> chance_1;                 ///< [NetShape::state]
};

struct NetPosterior {
    std::vector<double> class_sort_1;             ///< sums to 1
    std::vector<std::vector<double>> veil_1;      ///< [place][veil]
    double log_evidence = 0;                      ///< log of the chance of all that was seen
};

/// Posterior over class, sort and veils, by adding up every state:
///
///     P(a, s | seen)  ~  P(a, s) prod_places sum_veils P(veils) prod_seen-there P(seen | a, s, veils)
///
/// @error OutOfRange  nothing can have given all that was seen; `where` is "saw"
/// @see docs/theory/identify.md
Result<NetPosterior> inferred(const NetShape& shape, const NetPrior& prior, const std::vector<Seen>& seen);

/// What a further look at one place is expected to settle.
struct NetGain {
    double bits = 0;                              ///< expected fall of the entropy of class and sort, never below 0
    std::vector<double> outcome_1;                ///< chance of each answer
    std::vector<std::vector<double>> after_1;     ///< [answer][class * sorts + sort]
};

/// The joint chances of the states at one place, all else added up; made once, asked for many tests.
/// @return [NetShape::state], sums to 1   @error OutOfRange as inferred()
Result<std::vector<double>> joint_at(const NetShape& shape, const NetPrior& prior, const std::vector<Seen>& seen, std::size_t place);

/// Exact, by adding up every state and every answer.
/// @param joint  as joint_at() gives it  @param answers  [answer][NetShape::state], columns sum to 1
NetGain gain(const NetShape& shape, const std::vector<double>& joint, const std::vector<std::vector<double>>& answers);

/// Entropy in bits. @param p  sums to 1
double entropy_bits(const std::vector<double>& p);

/// Value below which the share u of a Beta(a, b) lies. @param a, b  above 0  @param u  strictly between 0 and 1
double beta_quantile(double a, double b, double u);

}  // namespace hw::belief
