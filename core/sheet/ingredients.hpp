// Section 3: what is in it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/sheet/facts.hpp"
#include "core/sheet/letters.hpp"
#include "core/sheet/lines.hpp"

namespace hw::sheet {

/// Numbers that name a substance, found in a text.
struct Identifiers {
    std::vector<std::string> cas;          ///< of the form of a CAS number, right or not
    std::string ec, reach, index;
};
Identifiers identifiers_in(std::string_view text);

std::vector<Ingredient> ingredients_in(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal);

}  // namespace hw::sheet
