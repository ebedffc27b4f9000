// What a depth profile of pH does not tell: said beside the judgement, each with who says so.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/chem/composition.hpp"
#include "core/leather/hide.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// The stop of a cross-linker that is sprayed: isocyanate or aziridine by name.
std::optional<Stop> never_sprayed(const Liquid& liquid, const Use& use);

/// Whether an ingredient of a kind stands on the sheet, whatever its amount.
bool names_kind(const Liquid& liquid, std::string_view kind);

/// Fire, gloves, cross-linkers, and the parts of a car that nothing may reach. @param liquid_ph  as used; nothing when there is none
std::vector<Reason> people_and_car(const chem::Totals& liquid, const Liquid& product, const leather::Hide& hide, std::optional<double> liquid_ph);

/// Whether ingredients of a kind ("solvent", "peroxide") come to more than a share of the liquid.
bool contains_kind(const chem::Totals& liquid, std::string_view kind, double pct);

/// Leather that takes no water at all, whatever the liquid.
std::optional<Stop> no_water(const Leather& leather, const leather::Hide& hide);

/// Moisture beyond what custom allows in a pass, alkali on a finish, washing agents left behind, acid below the floor.
/// @param dose_g_m2  of the liquid as used, each time
/// @param liquid_ph  as used
std::vector<Reason> not_computed(const leather::Hide& hide, double dose_g_m2, double liquid_ph);

}  // namespace hw::desk
