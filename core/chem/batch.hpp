// Many liquids at once: the acid-base core, in structure-of-arrays form, on vector units.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "core/chem/composition.hpp"
#include "core/chem/equilibrium.hpp"

namespace hw::chem {

inline constexpr int batch_max_steps = 6;

/// One acid-base system of a batch.
struct BatchSystem {
    int steps = 1;                        ///< losses of a proton, 1 to batch_max_steps
    int top_charge = 0;                   ///< of the fully protonated form, -3 to 3
    double ba = 1.5;                      ///< denominator of its long-range term: 1.5, or 1.77 for carbonate
    bool shared = true;                   ///< one table of constants for all lanes, or one per lane
    std::vector<double> log_k;            ///< log10 K of each step at I = 0 with the specific interaction of the lane
                                          ///< added; [step] when shared, [step * lanes + lane] otherwise; -30 to 10
    std::vector<double> total_mol_kg;     ///< per lane, 0 allowed
};

/// Liquids side by side; every vector has one entry per lane.
struct Batch {
    std::vector<BatchSystem> systems;
    std::vector<double> strong_mol_kg;    ///< net strong charge
    std::vector<double> inert_mol_kg;     ///< sum of z^2 m over the strong ions
    std::vector<double> debye_a_1;        ///< A of the lane's temperature
    std::vector<double> log_kw_1;
    std::vector<double> log_gamma_h_1;    ///< specific interaction part of log10 gamma of H+
    std::vector<double> log_gamma_oh_1;   ///< and of OH-

    [[nodiscard]] std::size_t lanes() const { return strong_mol_kg.size(); }
};

/// Instruction set that a batch runs on. All give the same bits.
enum class BatchTarget { Baseline, Avx2, Avx512 };

/// The widest that this processor and this build have.
BatchTarget widest_batch_target();

struct BatchAnswer {
    std::vector<double> ph;
    std::vector<double> ionic_strength_mol_kg;
    std::vector<double> buffer_mol_kg_ph;
    std::vector<unsigned char> settled;   ///< 0: this lane needs the scalar path
    BatchTarget target = BatchTarget::Baseline;  ///< what ran
};

/// Solves the charge balance of every lane, activities by the long-range term and the lane's specific interactions.
///
/// Seven bisections of pH -2.5 to 16.5 at a first ionic strength, then Newton steps in pH and ionic strength together; a
/// lane stands still once both steps are below 1e-7. No lane's answer depends on its neighbours.
///
/// @error InvalidInput  vectors of unequal length, or a system outside the ranges above; `where` names it
/// @see docs/theory/batch.md
Result<BatchAnswer> solve_batch(const Batch& batch, BatchTarget target = widest_batch_target());

/// The batch of these liquids at common conditions: systems that are zero in all lanes are left out.
/// Complexes, polyborates, solids and open air are outside its scope; `conditions` gives the temperature only.
Batch batch_of(const std::vector<Totals>& liquids, const Conditions& conditions);

/// pH, ionic strength and buffer capacity of many liquids, closed to the air, without complexes and solids. Lanes that the
/// kernel leaves open are solved by `equilibrium`.
///
/// @param fallbacks  when given, receives the number of such lanes
/// @error OutOfRange    temperature outside 0 to 60 degC
/// @error NotConverged  reported, never seen in the random tests
/// @see docs/theory/batch.md
Result<BatchAnswer> equilibria(const std::vector<Totals>& liquids, const Conditions& conditions, std::size_t* fallbacks = nullptr);

}  // namespace hw::chem
