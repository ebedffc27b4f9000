// What leaves a film of liquid into the room air, how fast, and how fast carbon dioxide comes in.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "core/chem/composition.hpp"

namespace hw::chem {

/// Velocities of transfer on the two sides of a liquid surface. The defaults are the atlas' estimates for still room air.
struct FilmSides {
    Speed gas;
    Speed liquid;
};
FilmSides still_air();

/// Row of atlas::volatiles whose neutral form belongs to an acid-base system, or that is this substance; none: stays.
std::optional<std::size_t> volatile_of_system(std::string_view system);
std::optional<std::size_t> volatile_named(std::string_view name);

/// Henry solubility of a row of atlas::volatiles, mol/(m3 Pa).
///
///     H(T) = H(25 degC) exp( b (1/T - 1/298.15 K) )
///
/// For carbon dioxide the law of `log_henry_co2`, so that transport and equilibrium agree. Where b is unknown, H(25 degC).
/// @source sander2023; sander2015; johnson1996; parkhurst2013
double henry_mol_m3_pa(std::size_t row, Temperature water);

/// The same without dimension: concentration in the liquid over that in the gas,  H R T.
double henry_1(std::size_t row, Temperature water);

/// Velocity of loss from the liquid, of the neutral form, by two films in series:
///
///     1/v = 1/k_liquid + H R T / k_gas
///
/// @source lewis1924, resistances in series
Speed loss_velocity(std::size_t row, Temperature water, const FilmSides& sides = still_air());

/// Time in which the neutral form falls to 1/e in a film of this thickness:  thickness / loss velocity.
Duration loss_time(std::size_t row, Temperature water, Length film, const FilmSides& sides = still_air());

/// Share of a system that is uncharged at a pH, activity coefficients 1; only this share leaves. 0 to 1.
double neutral_share(std::size_t system, double ph, Temperature water);

/// One volatile of the atlas, in order of leaving.
struct Leaving {
    std::size_t row = 0;                ///< in atlas::volatiles
    Duration time;                      ///< of loss of the neutral form
    bool before_water = false;          ///< gone to 1/e while the film still dries
};

/// All volatiles, the fastest first. @param dries  time in which the water of the film leaves
std::vector<Leaving> order_of_loss(Temperature water, Length film, Duration dries, const FilmSides& sides = still_air());

/// Second-order rate of CO2 with OH-, m3/(mol s), 0 to 40 degC.  log10 k[L/(mol s)] = 13.635 - 2895 / T
/// @source pinsent1956
double co2_hydroxide_rate_m3_mol_s(Temperature water);

/// First-order rate of CO2 with water, 1/s: the value of 25 degC. @source pinsent1956
double co2_water_rate_per_s();

/// CO2 in balance with the air, mol per m3 of water. @param co2_atm  420e-6 today @source parkhurst2013
double co2_in_balance_mol_m3(Temperature water, double co2_atm);

/// How much faster a gas is taken up for reacting on its way, against uptake without reaction; at least 1.
///
///     E = Ha / tanh Ha,   Ha = sqrt(k D) / k_liquid
///
/// @param rate_per_s      first-order rate k, for CO2  k_OH [OH-] + k_water
/// @param diffusion_m2_s  of the gas in water
/// @source danckwerts1951, steady uptake with first-order reaction
double uptake_enhancement(double rate_per_s, double diffusion_m2_s, Speed liquid_side);

/// Uptake of CO2 by alkaline liquid at a hydroxide concentration that the surface keeps up, mol/(m2 s), gas side included.
double co2_uptake_mol_m2_s(double hydroxide_mol_m3, Temperature water, double co2_atm, const FilmSides& sides = still_air());

}  // namespace hw::chem
