// The next best test: which reading saves most of what a wrong decision costs, for the work that it takes.
#pragma once

#include <string>
#include <vector>

#include "desk/known.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"

namespace hw::desk {

/// Tests that could be done next, best first: those that the shop has, by what they save beyond their own cost for each minute of
/// work; then those it has not.
///
/// @param loss_min  [action][member of known], in minutes of work
/// @param actions   what could be done, in a clause: "leave it alone"
/// @param bench     what the shop has; a test that is not listed is there and takes the usual minutes
/// @see docs/theory/value-of-information.md, docs/theory/observations.md
std::vector<TestWorth> best_tests(const Known& known, const std::vector<std::vector<double>>& loss_min, const std::vector<std::string>& actions, const std::vector<ShopTest>& bench);

/// What to do next, or that no test would change what is best. @param best_action  "leave it alone"
std::string next_sentence(const std::vector<TestWorth>& tests, const std::string& best_action);

/// Every test of the bench as the shop has it: kept settings over the usual, `asked` over both.
/// @error NotFound  "bench[i].name": no such test
Result<std::vector<ShopTest>> bench_of(const std::vector<ShopTest>& asked, Ports& ports);

/// Keeps how one test stands in the shop. @error NotFound "name"  OutOfRange "minutes"
Result<std::vector<ShopTest>> keep_bench(const ShopTest& test, Ports& ports);

}  // namespace hw::desk
