// pH of a film while it dries: water leaves, what is volatile leaves with it or before it, carbon dioxide comes in.
#pragma once

#include <vector>

#include "core/chem/equilibrium.hpp"
#include "core/chem/volatility.hpp"

namespace hw::chem {

/// The film and its room.
struct DryingFilm {
    Length thickness = micrometres(100);
    Duration dries = minutes(80);             ///< of all its water at the steady rate of a wet surface; 80 min: 0.1 kg/m2 in
                                              ///< air of 23 degC, 50 %, 0.1 m/s (`evaporation_kg_m2_s`)
    FilmSides sides = still_air();
};

/// The film with a share of its first water left.
struct DryingState {
    double water_left_1 = 1;
    double ph = 7;
    double ionic_strength_mol_kg = 0;
    bool beyond_model = false;                ///< ionic strength above 3 mol/kg: banded, not refused
    Totals liquid;                            ///< totals per kg of water left; its list of ingredients is still the first
    std::vector<double> system_left_1;        ///< per system, share of the first amount that is still there; 1 where none was
};

/// pH along the way from the whole film to 2 % of its water.
///
/// Water leaves at a steady rate. The volatile form of a system with share a(pH) leaves by two films, so its amount N obeys
///
///     d ln N / d ln w = a(pH) dries / loss time,    w = water left
///
/// which is stepped in ln w with the share at the middle of each step, steps held by the error of Euler's rule. Carbonate is in balance with the air from the first
/// moment of drying on (thin films come to it sooner than they dry); alcohols and solvents leave without touching pH.
/// Solids do not form on the way.
///
/// @param left  shares of water wanted, falling, 1 to 0.02
/// @error InvalidInput  `left` out of range or not falling
/// @error OutOfRange    temperature outside 0 to 60 degC
/// @see docs/theory/volatility.md
Result<std::vector<DryingState>> drying_path(const Totals& liquid, const Conditions& conditions, const DryingFilm& film,
                                             const std::vector<double>& left = {1.0, 0.7, 0.5, 0.3, 0.2, 0.1, 0.05, 0.02});

}  // namespace hw::chem
