// Compiled as C++17: the vectors of Boost 1.74 use allocator members that C++20 took away.
#include "tests/support/stiff_by_odeint.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

#include <boost/numeric/odeint.hpp>

namespace hw::test {

int integrate_stiff(const StiffRates& rates, const StiffJacobian& jacobian, std::vector<double>& y, double duration,
                    double first_step, double tolerance) {
    namespace odeint = boost::numeric::odeint;
    using State = boost::numeric::ublas::vector<double>;
    using Matrix = boost::numeric::ublas::matrix<double>;
    std::vector<double> in(y.size()), out(y.size()), rows;
    const auto slope = [&](const State& from, State& to, double) {
        std::copy(from.begin(), from.end(), in.begin());
        rates(in, out);
        std::copy(out.begin(), out.end(), to.begin());
    };
    const auto slopes = [&](const State& from, Matrix& to, const double&, State& by_time) {
        std::copy(from.begin(), from.end(), in.begin());
        jacobian(in, rows);
        std::copy(rows.begin(), rows.end(), to.data().begin());
        std::fill(by_time.begin(), by_time.end(), 0.0);
    };
    State state(y.size());
    std::copy(y.begin(), y.end(), state.begin());
    const auto steps = odeint::integrate_adaptive(odeint::make_controlled<odeint::rosenbrock4<double>>(tolerance, tolerance),
                                                  std::make_pair(slope, slopes), state, 0.0, duration, first_step);
    std::copy(state.begin(), state.end(), y.begin());
    return static_cast<int>(steps);
}

}  // namespace hw::test
