#include "core/belief/successes.hpp"

#include <boost/math/distributions/beta.hpp>
#include <cmath>

namespace hw::belief {

namespace {

Result<Done> checked(const Successes& c) {
    if (!(c.good_n > 0) || !(c.bad_n > 0) || !std::isfinite(c.good_n + c.bad_n)) return Error{ErrorCode::OutOfRange, "Give counts above 0.", "counts"};
    return Done{};
}
double log_beta(double a, double b) { return std::lgamma(a) + std::lgamma(b) - std::lgamma(a + b); }

}  // namespace

Result<SuccessBand> success_band(const Successes& counts) {
    if (const auto fine = checked(counts); !fine.ok()) return fine.error();
    const boost::math::beta_distribution<double> share(counts.good_n, counts.bad_n);
    return SuccessBand{boost::math::mean(share), boost::math::quantile(share, 0.05), boost::math::quantile(share, 0.95)};
}

Result<double> success_chance(const Successes& counts, int k, int n) {
    if (const auto fine = checked(counts); !fine.ok()) return fine.error();
    if (n < 0 || k < 0 || k > n) return Error{ErrorCode::OutOfRange, "Give a number of good results from 0 to all.", "k"};
    const double choose = std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
    return std::exp(choose + log_beta(counts.good_n + k, counts.bad_n + n - k) - log_beta(counts.good_n, counts.bad_n));
}

}  // namespace hw::belief
