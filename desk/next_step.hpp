// The test that would change the answer most.
#pragma once

#include <string_view>

#include "desk/belief.hpp"

namespace hw::desk {

/// Row of atlas/bench_tests.csv. An unknown name is a bug.
NextTest test_named(std::string_view name);

/// What is not known and makes the largest part of the spread, if a test settles it; a hidden spot where nothing is open.
///
/// First version: share of variance. A share that is not clearly above its own error asks for nothing.
NextTest next_test(const Sure& sure);

/// Whether so large a share agrees that no test would change the answer (row `settled`).
bool is_settled(double share_1);

/// Whether fewer than half of the members come to the answer: the middle one alone speaks for it.
bool cannot_be_told(const Sure& sure);

}  // namespace hw::desk
