// Section 8: what the air at the bench may hold.
#pragma once

#include <vector>

#include "core/sheet/facts.hpp"
#include "core/sheet/letters.hpp"
#include "core/sheet/lines.hpp"

namespace hw::sheet {

/// @param known  the ingredients, to give a limit that is printed with a name only its CAS number
std::vector<Fact<Limit>> limits_in(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal, const std::vector<Ingredient>& known);

}  // namespace hw::sheet
