// Evaporation of a wet film into room air, at the wet-bulb temperature of its surface.
#pragma once

#include "base/quantity.hpp"

namespace hw::diffusion {

/// Saturation vapour pressure over water, Pa, -20 to 50 degC:  611.21 exp((18.678 - t/234.5) t / (257.14 + t)).
/// @source buck1981, revised coefficients
double saturation_pressure_pa(Temperature air);

/// kg of water per kg of dry air at 101325 Pa. @param humidity_1 relative, 0 to 1
double humidity_ratio(Temperature air, double humidity_1);

/// Wet-bulb temperature by the balance of latent and sensible heat (Lewis number 1).
Temperature wet_bulb(Temperature air, double humidity_1);

/// kg/(m2 s) from a thin wet film:  (25 + 19 v)(x_s - x)/3600, x_s at the wet-bulb temperature.
/// @param speed_m_s  air speed over the surface
/// @source lewis_rate
/// @see docs/theory/drying.md
double evaporation_kg_m2_s(Temperature air, double humidity_1, double speed_m_s);

}  // namespace hw::diffusion
