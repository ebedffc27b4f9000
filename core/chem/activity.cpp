#include "core/chem/activity.hpp"

#include <cmath>

#include "atlas/long_range.hpp"
#include "atlas/sit.hpp"

namespace hw::chem {

double permittivity(Temperature water) {
    const double t = water.kelvin();
    const double e1000 = 342.79 * std::exp(-5.0866e-3 * t + 9.469e-7 * t * t);
    const double c = -2.0525 + 3115.9 / (-182.89 + t);
    const double b = -8032.5 + 4.2142e6 / t + 2.1417 * t;
    return e1000 + c * std::log((b + 1.0) / (b + 1000.0));
}

double debye_huckel_a(Temperature water) {
    const double c = water.celsius();
    // Kell 1975, g/cm3
    const double rho = (999.83952 + 16.945176 * c - 7.9870401e-3 * c * c - 46.170461e-6 * c * c * c + 105.56302e-9 * c * c * c * c -
                        280.54253e-12 * c * c * c * c * c) / (1 + 16.879850e-3 * c) / 1000;
    return 1.824829e6 * std::sqrt(rho) * std::pow(permittivity(water) * water.kelvin(), -1.5);
}

double debye_huckel_term(double a, double ionic_strength_mol_kg, double ba) {
    const double root = std::sqrt(ionic_strength_mol_kg);
    return -a * root / (1 + ba * root);
}

double long_range_ba(std::string_view system) {
    double standard = 0;
    for (const auto& row : atlas::long_range) {
        if (row.system == system) return row.ba_1;
        if (row.system.empty()) standard = row.ba_1;
    }
    return standard;
}

double davies1962_log10_gamma(int charge, double a, double ionic_strength_mol_kg) {
    const double root = std::sqrt(ionic_strength_mol_kg);
    return -a * charge * charge * (root / (1 + root) - 0.3 * ionic_strength_mol_kg);
}

double specific_interaction(std::string_view ion, int charge, std::string_view partner) {
    for (const auto& row : atlas::sit)
        if (row.ion == ion && static_cast<int>(row.charge_1) == charge && row.partner == partner) return row.epsilon_1;
    return 0;
}

}  // namespace hw::chem
