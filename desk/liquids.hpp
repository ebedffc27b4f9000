// From a liquid on the shelf to totals the chemistry can work with; used by analyse and judge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/chem/composition.hpp"
#include "core/chem/hazards.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// Ranges at their middle. `low_to_high_1`: per ingredient, where in its range instead (0 to 1); shares beyond 100 % are scaled down.
std::vector<chem::Portion> portions(const Liquid& liquid, const std::vector<double>& low_to_high_1 = {});

/// A range whose ends are missing or upside down, if there is one.
std::optional<Error> upside_down(const Liquid& liquid);

/// @error as chem::totals; `where` starts with "liquid."
Result<chem::Totals> totals_of(const Liquid& liquid);

/// The stored liquid when only an id was given. @error NotFound "liquid.id"
Result<Liquid> resolved(const Liquid& liquid, Store& store);

/// People first: what to do about a meeting that must not happen.
Stop stop_from(const chem::Hazard& hazard);

/// The worst meeting that must not happen, inside a liquid and with those of the shelf that it meets. By what is named alone, so
/// that an entry which cannot be computed still stops; an id that is not on the shelf is left for the computation to refuse.
std::optional<Stop> meeting_stop(const Liquid& liquid, const std::vector<std::string>& meets, Store& store);

/// Nothing that could be computed stands on the label or sheet, and it is not said to be water.
bool nothing_known(const Liquid& liquid);

}  // namespace hw::desk
