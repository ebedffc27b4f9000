// From a liquid on the shelf to totals the chemistry can work with; used by analyse and judge.
#pragma once

#include <vector>

#include "core/chem/composition.hpp"
#include "core/chem/hazards.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

std::vector<chem::Portion> portions(const Liquid& liquid);

/// @error as chem::totals; `where` starts with "liquid."
Result<chem::Totals> totals_of(const Liquid& liquid);

/// The stored liquid when only an id was given. @error NotFound "liquid.id"
Result<Liquid> resolved(const Liquid& liquid, Store& store);

/// People first: what to do about a meeting that must not happen.
Stop stop_from(const chem::Hazard& hazard);

}  // namespace hw::desk
