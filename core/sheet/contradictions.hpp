// Statements of one sheet that do not go together.
#pragma once

#include <vector>

#include "core/sheet/facts.hpp"

namespace hw::sheet {

std::vector<Contradiction> contradictions_in(const Facts& facts);

}  // namespace hw::sheet
