// What a covering may be called: the rules of EN 15987 and RAL 061 A1.
#pragma once

#include <optional>
#include <string>

namespace hw::leather {

/// What is left of the hide.
enum class Grain { Whole, Buffed, Gone, Fibre, None };   ///< Fibre: broken up and re-formed; None: no hide at all

struct Naming {
    std::string words;                 ///< "leather", "coated leather", "not leather" …; empty: cannot be said yet
    bool leather = false;              ///< whether the word leather may stand in it
    std::string why;                   ///< the rule, in one sentence
    std::string rule;                  ///< key in atlas/naming_limits.csv
};

/// Name by EN 15987.
///
///     film <= 0.15 mm: leather;  <= thickness / 3: coated leather;  beyond: not leather
///
/// and where the grain is gone, split before the word.
/// @param film_mm  surface layer, 0 or more; not given: taken as within the limit for Whole and Buffed, undecided for Gone
/// @param thickness_mm  of the whole; needed above 0.15 mm
/// @param fibre_share_1  of dry leather, where it is fibre board
/// @source en15987, 4.1.1 with its notes; coated leather as restated in a lexicon
/// @see docs/theory/identify.md
Naming named(Grain grain, std::optional<double> film_mm, std::optional<double> thickness_mm, std::optional<double> fibre_share_1 = std::nullopt);

/// Whether a coat without pigment is thin enough for aniline. @param film_mm  0 or more  @source ral061, 3.1
bool thin_enough_for_aniline(double film_mm);

}  // namespace hw::leather
