// What a sheet leaves out: the amount of a builder that reconciles the ingredients with the pH that was stated or read.
#pragma once

#include <cstddef>
#include <optional>

#include "base/quantity.hpp"
#include "core/chem/composition.hpp"

namespace hw::chem {

/// One mol of a substance per kg of water, in totals. @param substance_row in atlas::substances
Totals one_mol_kg(std::size_t substance_row);

/// Liquid with `mol_kg` of a substance added per kg of water; its weight is counted in the water share of the liquid.
Totals with_added(const Totals& liquid, std::size_t substance_row, double mol_kg);

/// Amount of the substance, mol per kg of water, that brings the liquid to a pH; nothing when it cannot, because it pulls the
/// other way or cannot reach that pH within `most_mol_kg`. By regula falsi on the acid that is missing, closed form in pH.
/// @error OutOfRange  temperature outside 0 to 60 degC
Result<std::optional<double>> amount_to_ph(const Totals& liquid, std::size_t substance_row, double ph, double most_mol_kg, Temperature water);

}  // namespace hw::chem
