// A story with several liquids, one after another on the same place: the product, then rinses, buffers, water.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/treatment/exposure.hpp"

namespace hw::treatment {

/// One liquid laid on, left, and taken off again.
struct Laying {
    std::size_t liquid = 0;                      ///< in Course::liquids
    double kg_m2 = 0.03;                         ///< of the liquid as used
    double dwell_s = 120;
    double taken_off_1 = 0;                      ///< share of the film that cloth or blotter takes; 0: none
    std::string name, off_name;                  ///< of the events: "wetted", "wiped"; "rinsed", "blotted"
    double then_s = 0;                           ///< wait after taking off
    double press_s = 0;                          ///< a dry cloth is held on so long before it takes that share: it draws from the leather
    /// From laying on to the end of the wait.
    [[nodiscard]] double lasts_s() const { return dwell_s + press_s + then_s; }
};

/// Whether a laying has a Wipe: where something is taken off, or the taking off has a name.
bool takes_off(const Laying& laying);

struct Course {
    std::vector<chem::Totals> liquids;
    std::vector<Laying> layings;
    double first_wait_s = 0;                     ///< before the first laying
    Temperature air = Temperature::celsius(20);
    double humidity_1 = 0.5, air_speed_m_s = 0.1, permeability_1 = 1;
};

/// The same stages as the story: liquid 0 is the one of the story, liquid 1 its rinse water.
Course course_of(const chem::Totals& liquid, const Story& story);

/// Water that a litre of leather holds when its pores are full, kg/m3.
double soaked_kg_m3(const leather::Hide& hide);

/// What the section engine needs for a course.
///
/// A laying gives Lay, Wait for its dwell, Press for `press_s`, Wipe, and Wait for `then_s`. A Wipe with a name stays where its share happens to be 0,
/// so that members of an ensemble keep one shape; waits of no length after taking off are left out.
///
/// Components: carbonate always, then the systems that reach the highest molality in any liquid that is laid on, six in all;
/// what is left out is told. Constants are conditional ones at one ionic strength for the whole course (held between 0.1 and
/// 1 mol/kg); the hide starts in balance with the air.
///
/// @param ionic_strength_mol_kg  of the strongest liquid in the bottle
/// @param least_share_1  systems below this share of all acids, bases and strong ions together, in every liquid, do not travel
/// @see docs/theory/transport.md
Setting setting(const Course& course, const leather::Hide& hide, double ionic_strength_mol_kg, double least_share_1 = 0);

/// What a wiping took off, as a liquid: its acids and bases, and its strong ions as sodium or chloride. The neutral salts of
/// product and leather do not travel in the section and are missing in it, so that a conductivity from it is a lower bound.
/// @param off  of a section solved with this setting, with water in it
chem::Totals taken_off_liquid(const Setting& setting, const diffusion::WipedOff& off);

/// One course solved. `applied_mol_m2` is the sum over the layings, each counted to the hide's own pH in the room: positive
/// for alkali, negative for acid; clean water brings some µmol/m2, as the weak acid or alkali that it is.
///
/// @error InvalidInput  a laying of a liquid that is not there, a share outside 0 to 1, a negative amount or time
/// @error NotConverged  from the engine
/// @param tolerance_1, mesh_1  see diffusion::Options
Result<Exposure> exposure(const Course& course, const leather::Hide& hide, double tolerance_1 = 1e-3, double mesh_1 = 1,
                          const Progress& progress = {});

}  // namespace hw::treatment
