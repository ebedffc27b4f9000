// A stiff integrator of a general-purpose library behind plain vectors, as an outside check of our own.
#pragma once

#include <functional>
#include <vector>

namespace hw::test {

using StiffRates = std::function<void(const std::vector<double>& y, std::vector<double>& dydt)>;
using StiffJacobian = std::function<void(const std::vector<double>& y, std::vector<double>& row_by_row)>;

/// Moves y by `duration` with Boost.Odeint's fourth-order Rosenbrock method, step control included. Returns the steps taken.
/// @param first_step  of the same unit as `duration`
/// @param tolerance   relative and absolute
int integrate_stiff(const StiffRates& rates, const StiffJacobian& jacobian, std::vector<double>& y, double duration,
                    double first_step, double tolerance);

}  // namespace hw::test
