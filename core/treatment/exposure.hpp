// A story of use turned into a solved section: what the liquid does to the hide, at which depth, for how long.
#pragma once

#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/quantity.hpp"
#include "base/result.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/diffusion/section.hpp"
#include "core/leather/hide.hpp"

namespace hw::treatment {

/// How the liquid is laid on, wiped, rinsed and left, in plain numbers.
struct Story {
    double dose_kg_m2 = 0.05;                    ///< of the liquid as used, each time
    double dwell_s = 120;
    double wiped_1 = 0.5;                        ///< share of the film
    int rinse_passes = 0;
    double rinse_kg_m2 = 0.03;
    double rinse_blotted_1 = 0.6;
    double rinse_wait_s = 60;
    double rinse_hardness_mg_l = 0;
    int repeats = 1;
    double interval_s = 86400;
    double rest_s = 86400;
    Temperature air = Temperature::celsius(20);
    double humidity_1 = 0.5;
    double air_speed_m_s = 0.1;
    double permeability_1 = 1;                   ///< scales what the finish lets through
};

/// A solved exposure, on the pH scale.
struct Exposure {
    diffusion::SectionResult section;            ///< x already turned into pH in `ph` below
    std::vector<std::vector<double>> ph;         ///< [snapshot][cell]
    std::vector<double> film_ph, surface_ph;     ///< per snapshot
    std::vector<diffusion::Layer> layers;
    double ph_minus_x = 0;
    double ionic_strength_mol_kg = 0.1;          ///< at which the constants were taken
    double evaporation_kg_m2_s = 0;
    double finish_um = 0;                        ///< depth at which the leather begins
    double dry_kg_m2 = 0;                        ///< dry leather per area
    double applied_mol_m2 = 0;                   ///< alkali counted to the hide's own pH; negative: acid
    double left_mol_m2 = 0;                      ///< of it, at the end, on and in the leather
    double taken_up_mol_kg = 0;                  ///< alkali gained by the leather, mol per kg dry leather
    std::vector<double> carried_mol_kg;          ///< per acid-base system, left behind, mol per kg dry leather
    std::vector<std::string> left_out;           ///< acid-base systems too small to travel with the others
};

/// What the section engine needs for one exposure, and what turns its answer into pH.
struct Setting {
    std::vector<diffusion::Component> components;
    std::vector<diffusion::Layer> layers;
    std::vector<diffusion::Stage> stages;
    diffusion::Options options;
    std::vector<std::size_t> systems;            ///< acid-base system of each component
    std::vector<std::string> left_out;
    double ph_minus_x = 0;
    double ionic_strength_mol_kg = 0.1;
};

/// The setting of one liquid and its rinse water: see setting(const Course&, …) in core/treatment/course.hpp.
///
/// @param ionic_strength_mol_kg  of the liquid in the bottle
/// @param least_share_1  systems below this share of all acids, bases and strong ions together do not travel
/// @see docs/theory/transport.md
Setting setting(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double ionic_strength_mol_kg, double least_share_1 = 0);

/// Alkali of a liquid counted to the hide's own pH, mol per kg of water: what the hide would have to take up in the end. In the
/// room, where what would stay as bicarbonate in a bottle leaves as carbon dioxide. Negative: acid.
Result<double> alkali_to_hide_mol_kg(const chem::Totals& liquid, const leather::Hide& hide, Temperature air);

/// The solved section on the pH scale; `applied_mol_m2` is left to the caller.
Exposure solved(const Setting& setting, const leather::Hide& hide, diffusion::SectionResult section);

/// One exposure from the liquid to the solved section.
///
/// @error NotConverged  from the engine
/// @param tolerance_1, mesh_1  see diffusion::Options
Result<Exposure> exposure(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double tolerance_1 = 1e-3,
                          double mesh_1 = 1, const Progress& progress = {});

}  // namespace hw::treatment
