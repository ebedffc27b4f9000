// The story of a section solved a second way: own right-hand side in conserved amounts, integrated by a stiff solver of a
// general-purpose library. Dense and slow on purpose: nothing is shared with the engine but the equations on
// docs/theory/transport.md.
#pragma once

#include <functional>
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

using SectionRates = std::function<void(const std::vector<double>& y, std::vector<double>& dydt)>;
/// Moves y by `duration`; a variable feels those of its own cell and of the two neighbours, `per_cell` each. Returns the steps taken.
using SectionIntegrator = std::function<int(const SectionRates& rates, std::vector<double>& y, double duration, std::size_t per_cell, double tolerance)>;

/// The same right-hand side by any integrator that needs rates only.
SecondSolution section_by(const SectionCase& section, double tolerance_1, const SectionIntegrator& integrator);

/// @param tolerance_1  relative and absolute error asked of a step, in amounts scaled to their own size
SecondSolution section_by_odeint(const SectionCase& section, double tolerance_1);

}  // namespace hw::test
