// From what a data sheet says to what the equilibrium needs: totals per kg of water.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace hw::chem {

/// One line of a composition. Give content_pct (weight per cent) or molality_mol_kg (per kg of water).
struct Portion {
    std::string name;
    std::string cas;
    std::optional<double> content_pct;
    std::optional<double> molality_mol_kg;
};

/// A substance of the composition that the atlas knows.
struct Recognised {
    std::size_t row = 0;                         ///< in atlas::substances
    double mol_kg = 0;                           ///< per kg of water
    double content_pct = 0;
};

/// A liquid in totals, mol per kg of water.
struct Totals {
    std::vector<double> system_mol_kg;           ///< per acid-base system, in the order of acid_systems()
    double sodium_mol_kg = 0, potassium_mol_kg = 0, calcium_mol_kg = 0, magnesium_mol_kg = 0;
    double chloride_mol_kg = 0;
    double other_anion_mol_kg = 0;               ///< strong, charge -1
    double other_cation_mol_kg = 0;              ///< strong, charge +1
    double unknown_pct = 0;                      ///< weight per cent of ingredients not known to us
    double organic_pct = 0;                      ///< weight per cent of alcohols and solvents: what takes the place of water
    double water_kg_kg = 1;                      ///< kg of water per kg of liquid
    std::vector<Recognised> recognised;
    std::vector<std::string> unknown;            ///< their names

    /// Strong charge without calcium and magnesium, mol/kg.
    [[nodiscard]] double strong_charge_mol_kg() const {
        return sodium_mol_kg + potassium_mol_kg + other_cation_mol_kg - chloride_mol_kg - other_anion_mol_kg;
    }
};

/// A CAS number with a right check digit. @error InvalidInput with the digit that it should have
/// @source cas_rule, check digit
Result<std::string> parse_cas(std::string_view text);

/// Row of atlas::substances for a CAS number or a name or alias; nothing when not known to us.
std::optional<std::size_t> find_substance(std::string_view name, std::string_view cas);

/// Totals of a composition.
/// @error InvalidInput  over 100 %, negative, neither or both of the amounts, a wrong check digit, a CAS number and a
///                      name that are two different known substances; `where` is "ingredients[i].field"
Result<Totals> totals(const std::vector<Portion>& composition);

/// What stands in a composition, known and unknown, whatever its amounts: for what must not meet, which has to be answered
/// before anything can be refused. An entry with the amount 0 is not there.
Totals present(const std::vector<Portion>& composition);

/// Mixed with water: `parts_water` kg to one kg of liquid, of a hardness in mg CaCO3 per litre, taken as Ca(HCO3)2.
Totals diluted(const Totals& liquid, double parts_water, double hardness_mg_l);

/// Clean water of a hardness.
Totals tap_water(double hardness_mg_l);

}  // namespace hw::chem
