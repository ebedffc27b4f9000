// The kinds of harm beside pH: each has its own mechanism, its own limits, and the test that would settle it.
//
// Plain-double functions for one member of an ensemble. "Limit passed" is never "damage occurs": no rate law for damage exists.
#pragma once

#include <array>
#include <limits>
#include <string>
#include <string_view>

#include "core/chem/composition.hpp"
#include "core/chem/solvents.hpp"
#include "core/leather/hide.hpp"
#include "core/treatment/exposure.hpp"

namespace hw::treatment {

enum class HarmKind { Solvent, Residue, Colour, Water, Abrasion, Repeated, Tannage };
inline constexpr std::size_t harm_kinds = 7;
inline constexpr std::array<HarmKind, harm_kinds> all_harm_kinds{HarmKind::Solvent, HarmKind::Residue, HarmKind::Colour, HarmKind::Water, HarmKind::Abrasion, HarmKind::Repeated, HarmKind::Tannage};

/// Mildest first. Caution: named, does not count as passing a limit. Unknown: a test has to say.
enum class HarmLevel { Within, Caution, ComesBack, Lasting, Deep, Unknown };

/// One member. NaN: not known; the kind then answers from the rest, or Unknown.
struct HarmInput {
    const chem::Totals& liquid;                  ///< as used
    const leather::Hide& hide;
    const Story& story;
    std::string_view film_kind;                  ///< key of atlas/finish_films.csv; empty: no film, or not known which
    double liquid_ph = std::numeric_limits<double>::quiet_NaN();                 ///< as used
    double alkali_left_mol_m2 = std::numeric_limits<double>::quiet_NaN();        ///< after the whole story, from the ledger; negative: acid
    double alkali_takes_grain_mol_m2 = std::numeric_limits<double>::quiet_NaN(); ///< what the grain takes up before its limit, in the direction of what is left; positive
    double wetted_to_um = std::numeric_limits<double>::quiet_NaN();              ///< depth into the leather that passed a stated wetness
    double surface_wet_s = std::numeric_limits<double>::quiet_NaN();             ///< from laying on until the film is dry; NaN: from the air
    double kept_1 = std::numeric_limits<double>::quiet_NaN();                    ///< share of what was laid on that no cloth took; NaN: from wiping and rinsing alone
    double rubs_n = std::numeric_limits<double>::quiet_NaN();                    ///< wet strokes over one place
    bool abrasive_tool = false;                  ///< melamine foam, abrasive pad
    bool label_known = true;                     ///< false: what the bottle holds is not known
    double radius_1 = 1;                         ///< scales the radius R0 of the film
    double release_1 = 1;                        ///< scales how fast the film takes solvent up and lets it go
    double activity_1 = 1;                       ///< see chem::DryingOf
};

/// What is measured against the limits of atlas/harm_limits.csv, in the order of its column `quantity`.
enum class HarmQuantity {
    SolventLeft, FilmShare, OpenSolvent, Sticky, Salts, FreeFat, DyeSolvent, DyeAlkali, Hypochlorite, Peroxide,
    WaterOfPass, Wetted, Abrasive, AbrasiveRubs, Rubs, Year, ResidueMany, Complexed, ChromeAlkali
};
inline constexpr std::size_t harm_quantities = 19;

/// All quantities of one member; NaN where not known. The unit is the ending of `harm_quantity_name`.
struct HarmQuantities {
    std::array<double, harm_quantities> value{};
    chem::SolventResidue solvents;               ///< of the last use
    std::size_t most_sticky = none;              ///< substance rows of which there is most; for the sentence
    std::size_t most_open = none;
    std::size_t most_complexing = none;          ///< in atlas::complexing
    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    [[nodiscard]] double operator[](HarmQuantity q) const { return value[static_cast<std::size_t>(q)]; }
};
std::string_view harm_quantity_name(HarmQuantity quantity);

/// The unit of a quantity for people: "g/m²", "mmol/m²", "%", "times", "strokes", "pH".
std::string_view harm_quantity_unit(HarmQuantity quantity);

/// What a row of atlas::harm_limits is about; to follow one quantity over the members of an ensemble.
HarmQuantity harm_limit_quantity(std::size_t limit);

/// A kind of harm against its limits.
struct HarmMeasure {
    HarmKind kind = HarmKind::Solvent;
    HarmLevel level = HarmLevel::Within;
    bool acts = false;                           ///< a limit of any level is passed
    bool known = true;                           ///< false: the liquid or the use is not known well enough for this kind
    std::size_t limit = none;                    ///< deciding row of atlas::harm_limits; the nearest one when none is passed; none: no row applies
    double measure = 0;                          ///< in the unit of that row
    double limit_value = 0;
    double clears_s = 0;                         ///< until it has come back by itself; NaN: it does not, or not known when
    static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
};

/// What a member comes to. Takes some microseconds: no equilibrium is solved.
/// @source hansen2007, kanicky2003, long2021 and others, per row of atlas/harm_limits.csv
/// @see docs/theory/harm.md
HarmQuantities harm_quantities_of(const HarmInput& input);

/// The seven kinds, in the order of HarmKind.
std::array<HarmMeasure, harm_kinds> harms(const HarmInput& input);
std::array<HarmMeasure, harm_kinds> harms(const HarmInput& input, const HarmQuantities& quantities);

/// Open leather: no finish, or at most that of an aniline (row `open_finish`).
bool is_open(const leather::Hide& hide);

/// Rings, darkening and stiffness from water alone, whatever is dissolved in it: for the passes of a course.
/// @param water_of_pass_g_m2  water laid on in one go
/// @param wetted_to_um        depth into the leather that was half full or more; NaN: not known
HarmMeasure water_harm(const leather::Hide& hide, double water_of_pass_g_m2, double wetted_to_um);

/// The deciding reason in one sentence for a restorer, with the numbers of this member.
std::string harm_sentence(const HarmMeasure& measure, const HarmInput& input, const HarmQuantities& quantities);

/// Row of atlas::harm_tests: the cheap test that would settle this kind on this hide.
std::size_t harm_test(HarmKind kind, const leather::Hide& hide);

/// The word of the atlas for a kind, and plain words for a level.
std::string_view harm_kind_key(HarmKind kind);
std::string_view harm_level_words(HarmLevel level);

/// Share of a liquid film that stays after wiping and rinsing:  (1 - wiped) (1 - blotted)^passes.
double share_kept_1(const Story& story);

}  // namespace hw::treatment
