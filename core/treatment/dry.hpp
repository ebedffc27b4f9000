// When a place that was wetted is dry again, on the surface and inside.
#pragma once

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/leather/hide.hpp"
#include "core/treatment/exposure.hpp"

namespace hw::treatment {

struct Dry {
    double touch_s = 0;        ///< since it was wetted, until no film is left
    double through_s = 0;      ///< until it is nowhere much wetter than the room air keeps it
    bool in_time = true;       ///< false: not dry through when the story ended; the times are then its end
};

/// Solves the story with clean water in the section engine and looks when it was last wet.
///
/// The water is that of the story, its dose and its rinses; what else is in the liquid does not change it much. A spot is taken
/// as a place in the middle of a wet panel: dry leather round it makes it sooner.
/// @param above_kg_kg  how much wetter a place may be, kg of water per kg of dry leather, above 0
/// @param story       `rest_s` is how far it is looked ahead
/// @error NotConverged  from the engine
/// @see docs/theory/spots.md, docs/theory/drying.md
Result<Dry> dry(const leather::Hide& hide, const Story& story, double above_kg_kg, const Progress& progress = {});

}  // namespace hw::treatment
