#include "core/diffusion/evaporation.hpp"

#include <cmath>

namespace hw::diffusion {

double saturation_pressure_pa(Temperature air) {
    const double t = air.celsius();
    return 611.21 * std::exp((18.678 - t / 234.5) * t / (257.14 + t));
}

double humidity_ratio(Temperature air, double humidity_1) {
    const double p = humidity_1 * saturation_pressure_pa(air);
    return 0.62198 * p / (101325 - p);
}

Temperature wet_bulb(Temperature air, double humidity_1) {
    const double x = humidity_ratio(air, humidity_1);
    double low = -10, high = air.celsius();
    for (int i = 0; i < 60; ++i) {
        const double t = (low + high) / 2;
        const double latent = (2501 - 2.381 * t) * (humidity_ratio(Temperature::celsius(t), 1) - x);
        const double sensible = (1.006 + 1.86 * x) * (air.celsius() - t);
        (latent < sensible ? low : high) = t;
    }
    return Temperature::celsius((low + high) / 2);
}

double evaporation_kg_m2_s(Temperature air, double humidity_1, double speed_m_s) {
    const double xs = humidity_ratio(wet_bulb(air, humidity_1), 1);
    return (25 + 19 * speed_m_s) * (xs - humidity_ratio(air, humidity_1)) / 3600;
}

}  // namespace hw::diffusion
