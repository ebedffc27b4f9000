#include "core/chem/conductivity.hpp"

#include <array>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "atlas/constants.hpp"
#include "atlas/ionic_conductivities.hpp"
#include "core/chem/activity.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

constexpr double water_kg_l = 0.99705;      // kell1975, 25 degC; a dilute liquid has the volume of its water
constexpr double viscosity_poise = 0.008903;  // crc, water at 25 degC
constexpr double symmetric_1 = 0.5 / (1 + 0.7071067811865476);  // q / (1 + sqrt q) of onsager1927 for ions of like mobility, q = 1/2
constexpr double size_1 = 1.5;              // bates1962, the denominator of the activity law
// What the law, and a limiting conductivity of each kind, may be off: estimates.
constexpr double single_error_1 = 0.01, multiple_error_1 = 0.05, by_diffusion_error_1 = 0.15;

struct Ion {
    double charge = 0, mol_kg = 0, lambda = 0, error_1 = 0;
};

const atlas::IonicConductivitiesRow& ion_row(std::string_view name) {
    for (const auto& row : atlas::ionic_conductivities)
        if (row.ion == name) return row;
    throw Bug("no limiting conductivity of " + std::string(name));
}

Ion known(const atlas::IonicConductivitiesRow& row, double mol_kg) {
    const bool estimate = row.standing == "estimate";
    return {row.charge_1, mol_kg, row.lambda_s_cm2_mol, estimate ? by_diffusion_error_1 : std::abs(row.charge_1) > 1 ? multiple_error_1 : single_error_1};
}

double faraday_squared_over_rt() {
    double r = 0, f = 0;
    for (const auto& row : atlas::constants) {
        if (row.name == "gas_constant") r = row.value_j_k_mol;
        if (row.name == "faraday") f = row.value_c_mol;
    }
    HW_EXPECTS(r > 0 && f > 0);
    return f * f / (r * 298.15);
}

Ion form_ion(const Form& form) {
    const std::string_view system = acid_systems()[form.system].name;
    for (const auto& row : atlas::ionic_conductivities)
        if (row.system == system && static_cast<int>(row.protons_lost_n) == form.protons_lost) {
            HW_EXPECTS(static_cast<int>(row.charge_1) == form.charge);
            return known(row, form.mol_kg);
        }
    // lambda = |z| D F^2 / (R T), in S cm2 per mole of charge.
    return {static_cast<double>(form.charge), form.mol_kg, 1e4 * std::abs(form.charge) * diffusion_25(form.system) * faraday_squared_over_rt(), by_diffusion_error_1};
}

/// Mean charge of the ions of a sign, weighed by the charge they bring.
double mean_charge_of(const std::vector<Ion>& ions, bool positive) {
    double charge = 0, squares = 0;
    for (const Ion& ion : ions)
        if ((ion.charge > 0) == positive) {
            charge += std::abs(ion.charge) * ion.mol_kg;
            squares += ion.charge * ion.charge * ion.mol_kg;
        }
    return charge > 0 ? squares / charge : 1;
}

}  // namespace

Result<Conductivity> conductivity(const Totals& liquid, Conditions conditions) {
    conditions.water = Temperature::celsius(25);
    HW_TRY(e, equilibrium(liquid, conditions));
    std::vector<Ion> ions{known(ion_row("hydrogen"), e.hydrogen_mol_kg), known(ion_row("hydroxide"), e.hydroxide_mol_kg), known(ion_row("sodium"), liquid.sodium_mol_kg), known(ion_row("potassium"), liquid.potassium_mol_kg),
                          known(ion_row("calcium"), e.calcium_free_mol_kg), known(ion_row("magnesium"), e.magnesium_free_mol_kg), known(ion_row("chloride"), liquid.chloride_mol_kg), known(ion_row("other cation"), liquid.other_cation_mol_kg),
                          known(ion_row("other anion"), liquid.other_anion_mol_kg)};
    for (const Form& form : e.forms)
        if (form.charge != 0) ions.push_back(form_ion(form));

    const double root = std::sqrt(e.ionic_strength_mol_kg), term = root / (1 + size_1 * root);
    const double et = permittivity(conditions.water) * conditions.water.kelvin();
    const double relaxation = 2.801e6 / std::pow(et, 1.5) * symmetric_1, drag = 41.25 / (viscosity_poise * std::sqrt(et));
    const std::array<double, 2> counter{mean_charge_of(ions, true), mean_charge_of(ions, false)};  // for anions, for cations
    Conductivity out;
    double unsure = 0;
    for (const Ion& ion : ions) {
        const double z = std::abs(ion.charge), other = counter[ion.charge > 0 ? 1 : 0];
        const double lambda = std::max(0.0, ion.lambda - (relaxation * z * other * ion.lambda + drag * z) * term);
        const double part = 1000 * z * ion.mol_kg * water_kg_l * lambda;
        out.us_cm += part;
        unsure += part * ion.error_1;
    }
    out.model_error_1 = out.us_cm > 0 ? unsure / out.us_cm : single_error_1;
    out.beyond_model = e.ionic_strength_mol_kg > conductivity_range_mol_kg;
    return out;
}

}  // namespace hw::chem
