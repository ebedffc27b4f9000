// The spots of a piece, folded from its entries.
#pragma once

#include <cstdint>
#include <vector>

#include "desk/entries.hpp"
#include "desk/inspect.hpp"
#include "desk/ports.hpp"
#include "desk/spot_now.hpp"

namespace hw::desk {

/// Spots that stand, oldest first. @param panels  as they are known now
Result<std::vector<SpotNow>> spots_now(const std::vector<KeptEntry>& entries, const std::vector<EntryState>& states, const std::vector<PanelNow>& panels, std::int64_t now_s);

/// A spot before it is entered: its liquid made whole, its drying computed; the one at the edge only after one in hiding passed.
/// @error NotFound  a liquid that is not on the shelf   @error Conflict  no hidden spot of it has passed on this class
Result<SpotMade> made_ready(const SpotMade& told, const InspectAnswer& piece, Ports& ports);

/// Clean water, as a control.
Liquid control_water();

}  // namespace hw::desk
