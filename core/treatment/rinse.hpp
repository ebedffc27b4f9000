// Rinses: what one pass can do, in closed form, and which liquids are no rinse at all.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "base/result.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/leather/hide.hpp"

namespace hw::treatment {

/// Alkali that one pass takes up on its way between two pH, mol/m2.
///
///     n = m w (c(from) - c(to)),   c(pH): strong acid per kg of water that brings the rinse to that pH
///
/// Free hydrogen ions count as well as what the buffer gives. Closed to the air, whatever the conditions say.
/// @param kg_m2    m, of the rinse as used; w is its share of water
/// @param from_ph  where the rinse starts: its own pH, or that to which it was set
/// @param to_ph    where it is of no more use
/// @return         positive where the rinse neutralises alkali (to_ph above from_ph); negative: acid
/// @error OutOfRange  temperature outside 0 to 60 degC
/// @see docs/theory/rinse.md
Result<double> pass_capacity_mol_m2(const chem::Totals& rinse, double kg_m2, double from_ph, double to_ph, const chem::Conditions& conditions = {});

/// Passes that neutralise a dose, as a number with its fraction; infinite where a pass takes up nothing of it.
/// Both of the same kind (alkali against what takes up alkali), in the same unit.
double passes_to_neutralise(double dose_mol_m2, double capacity_mol_m2);

/// What is left of a dose that lies within the film after n passes of which each blots the share e:  dose (1 - e)^n.
/// The dose that the leather has taken up is not in the film: for that, see core/treatment/course.hpp.
double left_after_blotting(double dose_mol_m2, double blotted_1, double passes);

/// How far the hide's pH moves when a dose spreads evenly from the top of the leather to a depth, with nothing else at work:
///
///     dose = rho L (B(pH + shift) - B(pH)),   B: leather::alkali_between
///
/// @param dose_mol_m2  alkali; negative: acid
/// @param depth_um     L, into the leather below the finish; more than the leather has counts as all of it
/// @return             shift, pH units, with the sign of the dose
/// @error InvalidInput no depth
/// @error OutOfRange   more than the groups between pH 0 and 14 can hold
Result<double> self_buffering_ph(const leather::Hide& hide, double dose_mol_m2, double depth_um);

/// Difference figure of a liquid: how far its pH moves when it is diluted tenfold with pure water, closed to the air. Near 1
/// means free strong acid or alkali. It speaks only below pH 4 and above pH 10, and weak acids in little water come near to
/// 0.7 as well, so that a figure about 0.7 is ambiguous.
/// @source iso4045, dilution and reading of an extract, here of the liquid itself
/// @error OutOfRange, NotConverged  as chem::equilibrium
Result<double> difference_figure(const chem::Totals& liquid, const chem::Conditions& conditions = {});

/// One reason why a liquid is no rinse for this hide, with the fact that says so.
struct Refusal {
    std::string_view key;                        ///< "unknown_parts", "not_labelled", "too_acid", "too_alkaline", "free_strong_acid", "complexes_tannage", "hypochlorite", "peroxide", "sulfite", "sulfide", "solvent", "leaves_residue"
    std::string what;                            ///< the ingredient, where one is to blame
    double value = 0, limit = 0;                 ///< both in `unit`
    std::string_view unit;                       ///< "%", "pH"
    std::string_view plain_name, source, locator, standing;  ///< of the row that holds the limit
};

/// How a rinse is meant to be used, and what is known of it.
struct RinseUse {
    double kg_m2 = 0.03;                         ///< per pass, as used
    bool label_known = true;                     ///< false: what the bottle holds is not known
    Temperature water = Temperature::celsius(20);
};

/// Every reason why a liquid must not be used as a rinse on this hide; empty: none of these speaks against it.
///
/// Asked here is the liquid alone. What it must not meet on the piece is chem::hazards; whether the piece bears water at all
/// is asked before any rinse. A liquid above pH 8 is refused when a pass brings more alkali than counts as a residue: tap
/// water passes, bicarbonate does not.
/// @error OutOfRange, NotConverged  as chem::equilibrium
/// @see docs/theory/rinse.md
Result<std::vector<Refusal>> why_not(const chem::Totals& rinse, const leather::Hide& hide, const RinseUse& use = {});

}  // namespace hw::treatment
