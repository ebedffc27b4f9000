// One-dimensional transport and reaction through a section: a liquid film on finish, grain and corium.
//
// Plain-double kernel in SI units. Concentrations are mol per m3 of liquid, x is -log10 of the hydrogen-ion
// concentration in mol/L, areal amounts are per m2 of leather.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"

namespace hw::diffusion {

inline constexpr int max_components = 6;
inline constexpr int max_steps = 6;

/// A proton-binding site of the solid: amount per kg of dry solid, and its apparent pKa on the x scale.
struct Site {
    double amount_mol_kg = 0;
    double pka_1 = 7;
};

/// A weak acid or base that travels with the liquid.
struct Component {
    std::string name;
    int top_charge = 0;                          ///< charge of the fully protonated form
    std::vector<double> log_k;                   ///< log10 K of each loss of a proton, concentration scale, mol/L
    double d_m2_s = 1e-9;                        ///< tracer diffusion coefficient in water
    int neutral_form = -1;                       ///< protons lost by the volatile form; -1: does not leave
    double air_mol_m3 = 0;                       ///< concentration of that form in balance with the room air
    double film_velocity_m_s = 0;                ///< transfer between film and air, liquid side, of that form
    double hydroxide_rate_m3_mol_s = 0;          ///< reaction of that form with OH-, which speeds up its uptake
    double pore_exchange_per_s = 0;              ///< exchange of dry pores with the room air, of that form
};

/// A layer from the surface down.
struct Layer {
    std::string name;
    double thickness_m = 0;
    int cells = 10;
    double growth_1 = 1.0;                       ///< each cell is this factor thicker than the one above
    double dry_density_kg_m3 = 0;                ///< dry solid per volume of layer
    double water_ambient_kg_m3 = 100;            ///< liquid in balance with the room air, per volume of layer
    double water_full_kg_m3 = 500;               ///< liquid when saturated
    double water_conductivity_kg_m_s = 1e-6;     ///< K in: water flux = -K exp(n (u - 1)) du/dx
    double water_exponent_1 = 0;                 ///< n
    double solute_share_1 = 0.3;                 ///< D_layer / D when saturated: open area and detours
    double solute_exponent_1 = 3;                ///< m in: D_layer = D share (water / water_full)^m
    double air_share_1 = 1;                      ///< how freely its pores breathe; 0 = sealed
    bool finish = false;                         ///< a finish film: a reading counts its depth from below it
    std::vector<Site> sites;
    double start_x = 7;
    std::vector<double> start_mol_m3;            ///< of each component, in its liquid
};

/// A liquid as laid on: net strong charge (alkali positive) and totals, mol per m3.
struct LaidLiquid {
    double strong_mol_m3 = 0;
    std::vector<double> total_mol_m3;
};

/// A step of the story. `Lay` puts liquid on, `Wipe` takes a share of the film, `Wait` lets time pass. `Press` holds a dry cloth on
/// the surface: it draws what the leather gives up through its skin into the film, under a cover that lets nothing evaporate;
/// the `Wipe` after it takes all that was drawn, and its share of what lay there before.
struct Stage {
    enum class Kind { Lay, Wipe, Wait, Press };
    Kind kind = Kind::Wait;
    std::string name;                            ///< of the event, empty for none
    double kg_m2 = 0;                            ///< Lay
    LaidLiquid liquid;                           ///< Lay
    double share_1 = 0;                          ///< Wipe: share of the film taken off
    double duration_s = 0;                       ///< Wait, Press
    double filled_1 = 0;                         ///< Press: how full the cloth stays, 0 as leather in the room air, 1 soaked
};

struct Options {
    double tolerance_1 = 1e-4;                   ///< relative error asked of a step
    double mesh_1 = 1;                           ///< multiplies the number of cells of every layer
    double background_mol_m3 = 50;               ///< inert 1:1 salt everywhere; carries charge, does not move on balance
    double evaporation_kg_m2_s = 2e-5;           ///< of a wet surface
    double film_patchy_kg_m2 = 5e-3;             ///< below this the film no longer covers the surface
    double film_left_kg_m2 = 1e-3;               ///< water that residue and skin of the surface keep in room air
    double d_strong_cation_m2_s = 1.334e-9;
    double d_strong_anion_m2_s = 2.032e-9;
    double d_hydrogen_m2_s = 9.311e-9;
    double d_hydroxide_m2_s = 5.273e-9;
    double log_kw_1 = -13.995;                   ///< concentration scale
    double drop_kg_m2 = 1.0;                     ///< water drop of a surface reading: 50 uL on 0.5 cm2
    double reading_depth_m = 50e-6;              ///< what the drop reaches below the finish
    int max_time_steps = 20000;
    bool electroneutral = true;                  ///< couple the components by the zero-current condition
    bool fixed_surface = false;                  ///< hold the film's composition: an endless bath
    std::vector<double> output_s;                ///< output times; empty: chosen around the events
    bool lean = false;                           ///< snapshots without bound alkali and totals: what an ensemble needs
};

struct EventAt {
    double at_s = 0;
    std::string name;
};

/// One output time. Every wait ends with one, so one stands just before each `Wipe` and one just after it.
struct Snapshot {
    double at_s = 0;
    std::vector<double> x;                       ///< per cell
    std::vector<double> bound_mol_kg;            ///< alkali bound by the solid since the start, per kg dry solid
    std::vector<double> liquid_kg_m3;            ///< per cell
    std::vector<std::vector<double>> total_mol_m3;///< [component][cell]
    double film_kg_m2 = 0;                       ///< liquid in the film, without the part it always keeps
    double film_x = 7;
    double film_strong_mol_m2 = 0;
    double reading_x = 7;                        ///< what a drop on the surface would come to
};

/// What a `Wipe` took off: the liquid that cloth or blotter now holds.
struct WipedOff {
    double at_s = 0;
    double water_kg_m2 = 0;
    double x = 7;                                ///< of the film at that moment
    double strong_mol_m2 = 0;
    std::vector<double> total_mol_m2;            ///< per component
};

/// Where alkali and the components are: taken up and lost since the start, mol per m2.
struct Ledger {
    double laid_strong_mol_m2 = 0;
    double wiped_strong_mol_m2 = 0;
    double in_leather_strong_mol_m2 = 0;         ///< gained by the leather
    double in_film_strong_mol_m2 = 0;
    std::vector<double> gained_mol_m2;           ///< per component, by leather and film together
    double water_laid_kg_m2 = 0;
    double water_wiped_kg_m2 = 0;
    double water_evaporated_kg_m2 = 0;
    double water_in_leather_kg_m2 = 0;           ///< gained
    std::vector<double> lost_to_air_mol_m2;      ///< per component; negative: taken up
    double worst_balance_1 = 0;                  ///< worst relative miss of alkali, components, water
};

struct SectionResult {
    std::vector<double> top_m, bottom_m;         ///< per cell, depth from the top of the finish
    std::vector<int> layer_of;                   ///< per cell
    std::vector<Snapshot> snapshots;
    std::vector<EventAt> events;
    std::vector<WipedOff> wiped_off;             ///< one per `Wipe` of the story, in its order
    Ledger ledger;
    SolverReport report;
    int rejected_steps = 0;
};

/// Alkali that the solid binds, mol per kg dry solid, counted from fully protonated.
double bound_alkali(const std::vector<Site>& sites, double x);

/// Net strong charge of a liquid at x with these totals, from electroneutrality, mol per m3.
double strong_charge(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double x,
                     double log_kw_1);

/// Mean charge of a component at x.
double mean_charge(const Component& component, double x);

/// x of a liquid with this strong charge and totals, in touch with solid that has bound part of it.
/// Solves  liquid_m3 S(x) + sum_j solid_kg_j B_j(x) = alkali  for x; strictly monotone, bracketed.
/// @error NotConverged  never expected; the bracket is -2 to 16
struct Solid {
    const std::vector<Site>* sites = nullptr;
    double kg = 0;
};
Result<double> balance_x(const std::vector<Component>& components, const std::vector<double>& total_mol_m3, double liquid_m3,
                         const std::vector<Solid>& solids, double alkali_mol, double log_kw_1);

/// Runs the story: water and solutes, implicit in time (TR-BDF2, adaptive), finite volumes in depth.
///
/// @error InvalidInput  a layer without thickness or cells, a component with more than max_steps
/// @error NotConverged  the step budget was used up or the progress call cancelled
/// @source bank1985, eq. 16-20 (TR-BDF2)
/// @see docs/theory/transport.md
Result<SectionResult> run_section(const std::vector<Component>& components, const std::vector<Layer>& layers,
                                  const std::vector<Stage>& story, const Options& options, const Progress& progress = {});

}  // namespace hw::diffusion
