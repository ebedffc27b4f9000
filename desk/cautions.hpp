// What a depth profile of pH does not tell: said beside the judgement, each with who says so.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chem/composition.hpp"
#include "core/leather/hide.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// The stop of a cross-linker that is sprayed: isocyanate, aziridine or their like, by name, short name or number.
std::optional<Stop> never_sprayed(const Liquid& liquid, const Use& use);

/// The ingredient that is a cross-linker, as it is called; empty: none is named.
std::string crosslinker_named(const Liquid& liquid);

/// Whether an ingredient of a hazard class stands on the sheet, whatever its amount and in whatever words.
bool names_class(const Liquid& liquid, std::string_view hazard_class);

/// Fire, gloves, cross-linkers, and the parts of a car that nothing may reach. @param liquid_ph  as used; nothing when there is none
std::vector<Reason> people_and_car(const chem::Totals& liquid, const Liquid& product, const leather::Hide& hide, std::optional<double> liquid_ph);

/// "hypochlorite" or "peroxide" where there is more of it, as used, than its threshold of that name; an ingredient that only its
/// name gives away counts whole.
std::optional<std::string_view> oxidiser_in(const Liquid& liquid, const chem::Totals& as_used, double parts_water);

/// Leather that takes no water at all, whatever the liquid.
std::optional<Stop> no_water(const Leather& leather, const leather::Hide& hide);

/// Moisture beyond what custom allows in a pass, alkali on a finish, washing agents left behind, acid below the floor.
/// @param dose_g_m2  of the liquid as used, each time
/// @param liquid_ph  as used
std::vector<Reason> not_computed(const Liquid& liquid, const leather::Hide& hide, double dose_g_m2, double liquid_ph);

}  // namespace hw::desk
