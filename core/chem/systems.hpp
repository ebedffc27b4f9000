// The acid-base systems of the atlas, with their constants at a temperature.
#pragma once

#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "base/result.hpp"

namespace hw::chem {

/// An acid-base system: all forms of one acid, from the fully protonated one downward.
struct AcidSystem {
    std::string_view name;
    int top_charge = 0;
    std::size_t first_row = 0;  ///< in atlas::acid_systems
    int steps = 0;
};

/// All systems, in the order of the atlas.
const std::vector<AcidSystem>& acid_systems();

/// Index of a system by name. A name that the atlas lacks is a Bug.
std::size_t system_index(std::string_view name);

/// Thermodynamic pK of each step of a system.
///
///     ln K(T) = -pK ln10 + dH/R (1/Tr - 1/T) + dCp/R (Tr/T - 1 + ln(T/Tr)),  Tr = 298.15 K
///
/// @param water  0 to 60 degC
/// @source goldberg2002, eq. 5
/// @see docs/theory/equilibrium.md
std::vector<double> pk_at(std::size_t system, Temperature water);

/// pKw of water. @source parkhurst2013, water dissociation, 0 to 60 degC
double pkw_at(Temperature water);

/// log10 of Henry's constant of CO2, mol/(kg atm). @source parkhurst2013, 0 to 60 degC
double log_henry_co2(Temperature water);

/// Self-diffusion scaling by viscosity: D(T) / D(25 degC). @source crc, viscosity of water
double diffusion_scale(Temperature water);

/// Tracer diffusion coefficient of a system at 25 degC, m2/s; an estimate where the atlas says so.
double diffusion_25(std::size_t system);

}  // namespace hw::chem
