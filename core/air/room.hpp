// Vapour in the air of a room: how much of a liquid brings it to a limit, how it rises and falls, how much air keeps it down.
// The air is one well-mixed box; what mixes badly is met by a factor from outside.
#pragma once

#include <vector>

#include "base/quantity.hpp"

namespace hw::air {

/// Volume of a mole of gas at a pressure of 101.325 kPa, m3/mol:  R T / p
/// @source si2019, gas constant; ideal gas
double molar_volume_m3_mol(Temperature air);

/// A concentration in mg/m3 as a share of the volume, ppm, and back:  ppm = (mg/m3) V_m / M
/// @param molar_mass_g_mol  above 0
/// @source si2019, gas constant; ideal gas; the value 24.45 L/mol in tables of limits is the same law at 298 K with three digits
double ppm_of(double mg_m3, double molar_mass_g_mol, Temperature air);
double mg_m3_of(double ppm, double molar_mass_g_mol, Temperature air);

/// Grams that bring still air of this volume to a concentration when all of them evaporate, g.
double grams_for(double ppm, double volume_m3, double molar_mass_g_mol, Temperature air);

/// Fresh air that keeps a steady release at a concentration, m3/h:
///
///     Q = G V_m K / (M C)
///
/// @param grams_per_h  G, released   @param ppm  C, above 0   @param mixing_1  K, 1 for perfect mixing
/// @source acgih_vent, dilution ventilation
double dilution_m3_h(double grams_per_h, double ppm, double molar_mass_g_mol, Temperature air, double mixing_1);

/// Time until a level has fallen to a share of itself, h:  K ln(1 / share) / n.  Infinite without air changes.
/// @param share_1  above 0, at most 1   @param mixing_1  at least 1
double clearing_h(double share_1, double air_changes_per_h, double mixing_1 = 1);

/// A liquid that goes on at a steady rate and leaves what it went onto by itself.
struct Release {
    double grams = 0;                     ///< in all
    double over_h = 0;                    ///< in so long; 0: at once
    double leaves_h = 0;                  ///< what was laid on falls to 1/e in this time; 0: as soon as it is laid on
};

/// The box.
struct Room {
    double volume_m3 = 0;                 ///< above 0
    double air_changes_per_h = 0;         ///< 0: shut
};

/// Concentration in the room, mg/m3, and what it came from. With L on the surface and C in the air,
///
///     dL/dt = r(t) - k L,     V dC/dt = k L - n V C,
///
/// in closed form; the limits n -> 0, k -> infinity and n = k are taken exactly.
/// @see docs/theory/room-air.md
double level_mg_m3(const Release& release, const Room& room, double at_h);

/// Mean concentration from one time to another, mg/m3. @param to_h  after from_h
double mean_mg_m3(const Release& release, const Room& room, double from_h, double to_h);

/// Grams that are still on the surface.
double on_surface_g(const Release& release, double at_h);

/// When the level is highest, h. Infinite where it only rises: a shut room that a liquid is still leaving.
double peak_h(const Release& release, const Room& room);

/// Highest level, mg/m3.
double peak_mg_m3(const Release& release, const Room& room);

/// When the level has fallen for good below this, h; infinite where it never does. 0 where it is never reached.
double below_h(const Release& release, const Room& room, double mg_m3);

/// Mean of the worst window of a length, mg/m3. @param window_h  above 0
double worst_mean_mg_m3(const Release& release, const Room& room, double window_h);

/// One vapour of a mixture, against a limit of its own in the same unit.
struct Part {
    double level = 0;
    double limit = 0;                     ///< above 0
};

/// Sum of level over limit: above 1 the mixture is over although each part may be under.
/// @source osha_1000d, additive rule; lechatelier1891 where the limits are lower explosive limits
double share_of_limits(const std::vector<Part>& parts);

/// Lower explosive limit of a mixture, per cent by volume, from volume shares that sum to 1:  1 / sum(x_i / L_i)
/// @source lechatelier1891
double mixture_lel_pct(const std::vector<Part>& shares_and_limits);

/// Time in which mould grows at a humidity, h: the printed times with the logarithm of time straight between them.
/// Infinite below the driest that is printed. @param humidity_pct  0 to 100
/// @source cci8_1, growth times
double mould_growth_h(double humidity_pct);

}  // namespace hw::air
