// Activity coefficients of ions: specific ion interaction with the Bates-Guggenheim term.
#pragma once

#include <string_view>

#include "base/quantity.hpp"

namespace hw::chem {

/// Debye-Hueckel constant A of water, log10 basis, kg^1/2 mol^-1/2, 0 to 60 degC.
///
///     A = 1.824829e6 rho^1/2 (eps T)^-3/2
///
/// @source bradley1979, eq. 1 (permittivity at 1 bar); kell1975, density
double debye_huckel_a(Temperature water);

/// Relative permittivity of water at 1 bar. @source bradley1979
double permittivity(Temperature water);

/// Long-range part of log10 gamma for unit squared charge:  -A sqrt(I) / (1 + ba sqrt(I)).
/// @param ba  denominator, see long_range_ba; 1.5 by the Bates-Guggenheim convention @source bates1962
double debye_huckel_term(double a, double ionic_strength_mol_kg, double ba = 1.5);

/// Denominator B a of the long-range term of a system: the convention's, unless atlas::long_range has a row of its own.
/// @source bates1962; parkhurst2013, ion size of carbonate
double long_range_ba(std::string_view system);

/// log10 gamma by Davies, for comparison:  -A z^2 (sqrt(I)/(1+sqrt(I)) - 0.3 I).
double davies1962_log10_gamma(int charge, double a, double ionic_strength_mol_kg);

/// Specific interaction coefficient of an ion with one of opposite charge, kg/mol; 0 where the atlas knows none, which
/// leaves the long-range term alone. @source grenthe1992, appendix
double specific_interaction(std::string_view ion, int charge, std::string_view partner);

}  // namespace hw::chem
