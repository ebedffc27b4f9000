// pH and forms of a liquid: the strictly monotone charge balance, with activities, complexes, borates and solids.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/progress.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "core/chem/composition.hpp"

namespace hw::chem {

/// What the computation assumes beside the composition.
struct Conditions {
    Temperature water = Temperature::celsius(25);  ///< 0 to 60 degC
    bool open_to_air = false;                      ///< in balance with the CO2 of the air; carbonate total is then an outcome
    double co2_atm = 420e-6;
    bool solids = false;                           ///< let supersaturated solids of the atlas precipitate
    bool complexes = true;                         ///< complexes of metals and polyborates; without: the acid-base core alone
    bool ideal = false;                            ///< activity coefficients 1: for checks against exact textbook answers
    std::optional<double> pkw;                     ///< overrides, for the same checks
    std::optional<double> held_ionic_strength_mol_kg;  ///< holds the activity coefficients at those of this ionic strength, for checks of slopes
    std::vector<std::pair<std::size_t, std::vector<double>>> pk;
};

/// One form of an acid-base system.
struct Form {
    std::size_t system = 0;
    int protons_lost = 0;
    int charge = 0;
    double mol_kg = 0;                             ///< free, not in a complex
};

/// A solid that formed, or could form.
struct Precipitate {
    std::size_t row = 0;                           ///< in atlas::solids
    double saturation_index = 0;                   ///< log10 of ion product over solubility product, before it formed
    double mol_kg = 0;                             ///< formed
};

struct Equilibrium {
    double ph = 7;                                 ///< -log10 of the hydrogen-ion activity
    double ionic_strength_mol_kg = 0;
    double buffer_mol_kg_ph = 0;                   ///< Van Slyke: d(strong base)/d(pH) at fixed activity coefficients; complexes and polyborates follow
    double hydrogen_mol_kg = 0, hydroxide_mol_kg = 0;
    double calcium_free_mol_kg = 0, magnesium_free_mol_kg = 0;
    double carbonate_mol_kg = 0;                   ///< total inorganic carbon, as given or as taken from the air
    std::vector<Form> forms;
    std::vector<double> system_held_mol_kg;        ///< per system, all that its forms and complexes hold: the mass balance
    std::array<double, 4> metal_held_mol_kg{};     ///< calcium, magnesium, sodium, potassium, likewise
    std::vector<Precipitate> solids;
    double charge_error_1 = 0;                     ///< relative to the sum of charges
    bool beyond_model = false;                     ///< ionic strength above 3 mol/kg: banded, not refused
    SolverReport report;
};

/// Solves one liquid.
///
/// The charge balance at fixed activity coefficients falls strictly with pH, so it has one root, found by Newton inside a
/// bracket; free metals at a pH are the minimum of a convex function, found by damped Newton; ionic strength is the outer
/// fixed point, bracketed too. With solids, amounts are raised and lowered in turn until what is there is saturated and
/// nothing else is above saturation.
///
/// @error OutOfRange    temperature outside 0 to 60 degC
/// @error NotConverged  reported, never seen in the random tests
/// @source goldberg2002, constants; bates1962, activity convention; grenthe1992, interaction coefficients
/// @see docs/theory/equilibrium.md
Result<Equilibrium> equilibrium(const Totals& liquid, const Conditions& conditions = {});

/// log10 of ion product over solubility product of each row of atlas::solids; -99 where a part is missing.
/// @error OutOfRange, NotConverged  as equilibrium
Result<std::vector<double>> saturation_indices(const Totals& liquid, const Conditions& conditions = {});

/// Strong acid (mol per kg of water; negative: strong base) that brings the liquid to a pH; with `open_to_air` while it stays
/// in balance with the air. The acid or base counts in the activities as chloride or sodium and binds to nothing. Closed form
/// in pH; only the ionic strength is iterated.
/// @error OutOfRange  temperature outside 0 to 60 degC
Result<double> acid_to_ph(const Totals& liquid, double ph, const Conditions& conditions = {});

/// The same conditions without the air: a titration in a beaker is over before the air counts.
Conditions closed(Conditions conditions);

/// Reserve alkalinity, mL of 0.100 mol/L HCl that bring 10 mL, diluted to 100 mL, to pH 5.5. Negative for acids.
/// This and the next two are titrations: closed to the air whatever the conditions say.
/// @source astm_d1121, procedure
Result<double> reserve_alkalinity_ml(const Totals& liquid, const Conditions& conditions = {});

/// Alkaline reserve, g NaOH equivalent per 100 g to pH 10; 0 when the liquid is below. @source young1988; oecd122
Result<double> alkaline_reserve_g_100g(const Totals& liquid, const Conditions& conditions = {});

/// Acid reserve, g NaOH per 100 g to pH 4; 0 when the liquid is above. @source young1988; oecd122
Result<double> acid_reserve_g_100g(const Totals& liquid, const Conditions& conditions = {});

/// Constants of a system on the concentration scale at a given ionic strength, for the transport kernel, and the shift
/// between pH and x = -log10[H+]:  pH = x + ph_minus_x. Long-range term only.
struct ConditionalConstants {
    std::vector<double> log_k;
    double ph_minus_x = 0;
    double log_kw = -14;
};
ConditionalConstants conditional_constants(std::size_t system, Temperature water, double ionic_strength_mol_kg);

}  // namespace hw::chem
