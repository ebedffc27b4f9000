#include "core/belief/repeated.hpp"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "base/result.hpp"

namespace hw::belief {

Repeated repeated(const std::vector<double>& readings, double expected_scatter, double prior_n) {
    if (readings.empty() || !(expected_scatter > 0) || !(prior_n > 0)) throw Bug("repeated() needs a reading and an expected scatter");
    const auto n = static_cast<double>(readings.size());
    double mean = 0;
    for (double r : readings) mean += r / n;
    double squares = 0;
    for (double r : readings) squares += (r - mean) * (r - mean);
    const double freedom = prior_n + n - 1;
    const double scatter = std::sqrt((prior_n * expected_scatter * expected_scatter + squares) / freedom);
    const double t = boost::math::quantile(boost::math::students_t(freedom), 0.95);
    return {mean, t * scatter / std::sqrt(n), readings.size() == 1 ? expected_scatter : scatter};
}

}  // namespace hw::belief
