// How long work reports back and is stopped. The core never looks at a clock: budgets are counted in steps.
#pragma once

#include <functional>

namespace hw {

/// Called between steps with the share done (0 to 1) and what is being computed. Returns false to cancel.
using Progress = std::function<bool(double share_done_1, const char* doing)>;

/// How an iteration ended. The default says that nothing ran.
enum class Outcome { NotRun, Converged, OutOfBudget, Cancelled, Failed };

/// What a solver tells about its own run.
struct SolverReport {
    Outcome outcome = Outcome::NotRun;
    int iterations = 0;
    double residual = 0;
};

}  // namespace hw
