// What lies on a panel: every liquid that came onto it and was not rinsed away, and what may not meet it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/chem/hazards.hpp"
#include "desk/piece.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A liquid that came onto a place.
struct OnPiece {
    Liquid liquid;
    double left_1 = 1;                            ///< share of it that no cloth and no rinse took: what a cloth takes of the film, pass by pass
    double dry_h = 0;                             ///< hours since the place was last wetted
};

/// Whether it still counts as being there: from a hundredth of it on; what holds or may hold chlorine bleach until it is
/// rinsed so far and has been dry for a day.
bool counts(const OnPiece& thing);

/// What must not meet, most severe first, when `next` comes onto what still counts. Used before every step.
/// Pure water meets nothing. @see chem::hazards
std::vector<chem::Hazard> what_may_not_meet(const std::vector<OnPiece>& on_piece, const Liquid& next);

/// What was laid on a panel by its entries, oldest first; what was taken back or corrected is not there.
/// @param now_s  Unix time
std::vector<OnPiece> laid_on(const std::vector<KeptEntry>& entries, std::string_view panel, std::int64_t now_s);

/// A later rinse or wiping: everything below it becomes less, and wet again.
void rinsed(std::vector<OnPiece>& on_piece, double blotted_1);

}  // namespace hw::desk
