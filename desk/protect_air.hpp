// The air of a job: what protect computes before it speaks. Not for other verbs.
#pragma once

#include <string>
#include <vector>

#include "core/air/room.hpp"
#include "desk/protect.hpp"

namespace hw::desk {

/// A planned liquid with what is known of it.
struct Planned {
    PlannedItem item;
    ProductFacts facts;
    Liquid as_sheet;                              ///< named like the liquid, with the ingredients of the facts: what the tables look at
    double grams = 0, ml = 0;                     ///< of the product, without the water it was mixed with
    bool density_taken = false;                   ///< nobody says it
    [[nodiscard]] bool sprayed() const { return item.goes_on == GoesOn::Spray || item.goes_on == GoesOn::Airbrush; }
};

/// The space that the air is computed for.
struct Space {
    SafetyPlaceNow told;
    std::string kind;                             ///< workshop, home, car, outdoors
    bool shut = false;                            ///< nothing but leaks
    bool computed = false;                        ///< outdoors it is not
    bool mixing_told = false;                     ///< told, or in a measured clearing time
    air::Room room;                               ///< air changes over the mixing factor
    double changes_per_h = 0, mixing_1 = 1;
    std::optional<double> clears_h;               ///< measured, to a hundredth
    Temperature air = Temperature::celsius(20);
};

/// @error NotFound, InvalidInput
Result<Space> space_of(const SafetyPlace& place, std::vector<std::string>& defaults);

/// @error as resolved; InvalidInput without an amount, or with two
Result<Planned> planned_of(const PlannedItem& item, std::size_t index, std::vector<std::string>& defaults, Ports& ports);

SafetyAir air_of(const std::vector<Planned>& items, const Space& space, const std::vector<OwnLimit>& own);

/// Lowest flash point that a sheet or a table names for what is planned, degC; nothing: none is named.
struct Flash {
    double celsius = 0;
    std::string of;
    Basis basis;
};
std::optional<Flash> flash_of(const std::vector<Planned>& items);

/// A figure of atlas/protect_figures.csv.
double safety_figure(std::string_view key);
Basis basis_of_figure(std::string_view key, std::string inputs = {});

}  // namespace hw::desk
