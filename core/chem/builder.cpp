#include "core/chem/builder.hpp"

#include <cmath>

#include "atlas/substances.hpp"
#include "core/chem/equilibrium.hpp"

namespace hw::chem {

Totals one_mol_kg(std::size_t substance_row) {
    const auto& row = atlas::substances[substance_row];
    Portion p;
    p.name = std::string(row.name);
    p.cas = std::string(row.cas);
    p.molality_mol_kg = 1;
    auto t = totals({p});
    if (!t.ok()) throw Bug("the atlas does not know its own substance " + p.name);
    return *t;
}

Totals with_added(const Totals& liquid, std::size_t substance_row, double mol_kg) {
    const Totals one = one_mol_kg(substance_row);
    Totals t = liquid;
    for (std::size_t s = 0; s < t.system_mol_kg.size(); ++s) t.system_mol_kg[s] += mol_kg * one.system_mol_kg[s];
    t.sodium_mol_kg += mol_kg * one.sodium_mol_kg;
    t.potassium_mol_kg += mol_kg * one.potassium_mol_kg;
    t.calcium_mol_kg += mol_kg * one.calcium_mol_kg;
    t.magnesium_mol_kg += mol_kg * one.magnesium_mol_kg;
    t.chloride_mol_kg += mol_kg * one.chloride_mol_kg;
    t.other_anion_mol_kg += mol_kg * one.other_anion_mol_kg;
    t.other_cation_mol_kg += mol_kg * one.other_cation_mol_kg;
    const double kg_per_kg_water = mol_kg * atlas::substances[substance_row].molar_mass_g_mol / 1000;
    t.water_kg_kg = liquid.water_kg_kg / (1 + kg_per_kg_water * liquid.water_kg_kg);
    t.recognised.push_back({substance_row, mol_kg, 100 * kg_per_kg_water * t.water_kg_kg});
    return t;
}

Result<std::optional<double>> amount_to_ph(const Totals& liquid, std::size_t substance_row, double ph, double most_mol_kg, Temperature water) {
    Conditions c;
    c.water = water;
    // Acid that is missing to the pH: below zero the liquid lacks alkali.
    const auto missing = [&](double mol) { return acid_to_ph(mol > 0 ? with_added(liquid, substance_row, mol) : liquid, ph, c); };
    HW_TRY(at_none, missing(0));
    if (at_none == 0) return std::optional<double>(0.0);
    HW_TRY(at_most, missing(most_mol_kg));
    if ((at_none > 0) == (at_most > 0)) return std::optional<double>();
    double low = 0, high = most_mol_kg, f_low = at_none, f_high = at_most;
    constexpr int most_passes = 60;
    const double enough = 1e-9 * std::abs(at_none) + 1e-12;
    for (int i = 0; i < most_passes; ++i) {
        const double mol = (low * f_high - high * f_low) / (f_high - f_low);
        HW_TRY(f, missing(mol));
        if (std::abs(f) <= enough || high - low < 1e-15) return std::optional<double>(mol);
        // The end that stays is given half its weight (Illinois), so that both close in.
        if ((f > 0) == (f_low > 0)) {
            low = mol;
            f_low = f;
            f_high /= 2;
        } else {
            high = mol;
            f_high = f;
            f_low /= 2;
        }
    }
    return std::optional<double>((low + high) / 2);
}

}  // namespace hw::chem
