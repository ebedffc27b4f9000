#include "core/belief/rates.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>

#include "base/result.hpp"

namespace hw::belief {

double failing_at_most_1(int n, int failed, double confidence_1) {
    HW_EXPECTS(n >= 0 && failed >= 0 && failed <= n && confidence_1 > 0 && confidence_1 < 1);
    if (failed == n) return 1;
    if (failed == 0) return 1 - std::pow(1 - confidence_1, 1.0 / n);
    return boost::math::quantile(boost::math::beta_distribution<>(failed + 1.0, static_cast<double>(n - failed)), confidence_1);
}

int tries_for(double at_most_1, double confidence_1) {
    HW_EXPECTS(at_most_1 > 0 && at_most_1 < 1 && confidence_1 > 0 && confidence_1 < 1);
    int n = std::max(1, static_cast<int>(std::floor(std::log(1 - confidence_1) / std::log(1 - at_most_1))));
    while (failing_at_most_1(n, 0, confidence_1) > at_most_1) ++n;  // the quotient may be off by its last digit
    while (n > 1 && failing_at_most_1(n - 1, 0, confidence_1) <= at_most_1) --n;
    return n;
}

Rate rate_of(const Counts& c) {
    HW_EXPECTS(c.n >= 0 && c.succeeded >= 0 && c.succeeded <= c.n);
    return {1.0 + c.succeeded, 1.0 + (c.n - c.succeeded)};
}

Rate shrunk(const Counts& own, const Counts& kind, double weight_n) {
    HW_EXPECTS(own.n >= 0 && own.succeeded >= 0 && own.succeeded <= own.n && weight_n > 0);
    const double p = rate_of(kind).mean_1(), m = std::min(weight_n, kind.n + 2.0);
    return {m * p + own.succeeded, m * (1 - p) + (own.n - own.succeeded)};
}

Interval interval_of(const Rate& rate, double share_1) {
    HW_EXPECTS(share_1 > 0 && share_1 < 1);
    const boost::math::beta_distribution<> beta(rate.a_1, rate.b_1);
    return {boost::math::quantile(beta, (1 - share_1) / 2), boost::math::quantile(beta, (1 + share_1) / 2)};
}

}  // namespace hw::belief
