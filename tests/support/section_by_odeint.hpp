// The story of a section solved a second way: own right-hand side in conserved amounts, integrated by a stiff solver of a
// general-purpose library. Dense and slow on purpose: nothing is shared with the engine but the equations on
// docs/theory/transport.md.
#pragma once

#include <vector>

#include "tests/support/section_story.hpp"

namespace hw::test {

struct SecondSolution {
    std::vector<double> x;           ///< per cell of the leather
    std::vector<double> water_share; ///< u per cell
    double film_kg_m2 = 0;
    double film_x = 7;
    double uptake_mol_m2 = 0;        ///< alkali gained by the leather
    int steps = 0;
};

/// @param tolerance_1  relative and absolute error asked of a step, in amounts scaled to their own size
SecondSolution section_by_odeint(const SectionCase& section, double tolerance_1);

}  // namespace hw::test
