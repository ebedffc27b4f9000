// CVODE of SUNDIALS behind plain vectors, for the benches only.
#pragma once

#include <cstddef>
#include <vector>

#include "tests/support/section_by_odeint.hpp"

namespace hw::bench {

/// BDF with a banded Jacobian by differences. @return steps taken; below zero: CVODE gave up
int integrate_by_cvode(const test::SectionRates& rates, std::vector<double>& y, double duration, std::size_t per_cell, double tolerance);

}  // namespace hw::bench
