// Electrical conductivity of a dilute liquid: what a meter in the squeezed-out rinse shows.
#pragma once

#include "base/result.hpp"
#include "core/chem/equilibrium.hpp"

namespace hw::chem {

inline constexpr double conductivity_range_mol_kg = 0.05;  ///< ionic strength up to which the law is used

struct Conductivity {
    double us_cm = 0;                            ///< at 25 degC, the temperature to which meters refer their reading
    double model_error_1 = 0;                    ///< relative, of law and limiting conductivities; the composition has its own
    bool beyond_model = false;                   ///< ionic strength above conductivity_range_mol_kg
};

/// Conductivity of a liquid from the ions of its equilibrium.
///
///     kappa = sum |z| c lambda,   lambda = lambda0 - (B1 |z| z' lambda0 + B2 |z|) sqrt(I) / (1 + 1.5 sqrt(I))
///
/// lambda0: limiting conductivity per charge, from atlas/ionic_conductivities.csv, else from the diffusion coefficient of the
/// system (Nernst and Einstein); z': mean charge of the ions of the other sign, weighed by what they carry. Each ion moves on
/// its own (Kohlrausch). Complexes carry nothing here, and sodium and potassium count as free.
///
/// @param conditions  open to the air or closed; the temperature is taken as 25 degC whatever it says
/// @source onsager1927, limiting law, with the denominator of the activity law; crc, limiting conductivities
/// @error NotConverged  as equilibrium
/// @see docs/theory/rinse.md
Result<Conductivity> conductivity(const Totals& liquid, Conditions conditions = {});

}  // namespace hw::chem
