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
#include "desk/refine.hpp"

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

/// A liquid as it came onto a place.
struct Came {
    Liquid liquid;
    double at_h = 0;                              ///< hours on any one clock
    double own_left_1 = 1;                        ///< of itself, once its own wiping and rinsing were over
    double takes_1 = 0;                           ///< share of what lay there before that its blotting takes
};

/// The product as it was used, its wiping and rinsing included, at hour 0.
/// @param open  leather without a finish: it soaks in, and a cloth takes of the film only
Came as_used(const Liquid& product, const Use& use, bool open);

/// What still lies on a place, and what should not have met there.
struct Residue {
    std::vector<OnPiece> there;                   ///< in the order in which it came
    std::optional<chem::Hazard> met;              ///< the first that is a stop, at the moment of its meeting: nothing that comes later undoes it
};

/// Follows what came, in time: each against what still counted when it came. What came at one moment met unrinsed.
/// @param now_h  on the same clock
Residue residue_of(std::vector<Came> came, double now_h);

/// What was laid on a panel by its entries, as it came; what was taken back or corrected is not there.
/// @param now_s, now_h  Unix time, and what the clock of `at_h` shows then
std::vector<Pass> laid_on(const std::vector<KeptEntry>& entries, std::string_view panel, std::int64_t now_s, double now_h);

/// A pass as it came onto what lay there.
/// @param open  as above
Came came_with(const Pass& pass, bool open);

/// Whether a liquid soaks into this leather at once. Leather of which nothing is known does.
bool is_open(const Leather& leather, Store& store);

/// Takes the passes of the panel's record in, those that were told already apart: the same liquid within minutes is one pass.
/// @param from_h  what was laid on before that is no pass of this story
void take_in(std::vector<Pass>& passes, const std::vector<Pass>& of_record, double from_h);

}  // namespace hw::desk
