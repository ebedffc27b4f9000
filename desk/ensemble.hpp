// The members of a question, solved and held against the limits, and what they say together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/belief/summary.hpp"
#include "core/diffusion/sections.hpp"
#include "desk/assessment.hpp"
#include "desk/belief.hpp"
#include "desk/unknowns.hpp"

namespace hw::desk {

/// What is kept of one solved member.
struct Outcome {
    Held held;
    std::vector<std::vector<float>> ph;           ///< [moment][cell of the leather], the finish left out
    std::vector<float> surface_ph;                ///< per moment
    double farthest_ph = 0;                       ///< inside the leather, in the direction of the dose
    double left_mol_m2 = 0;                       ///< alkali, acid below zero, counted to the hide's own pH
    double takes_grain_mol_m2 = 0;                ///< what the grain takes up before its nearest limit that way
    double wetted_um = 0;                         ///< depth into the leather that was half full of water or more
    double surface_wet_s = 0;
};

/// @param alkali  the dose pulls upwards
Result<Outcome> outcome_of(const treatment::Exposure& exposure, const leather::Hide& hide, bool alkali);

/// Middles of the cells of a solved member, from the top of the leather, stretched to the central thickness below the grain.
std::vector<double> depths_um(const treatment::Exposure& exposure, const leather::Hide& solved, const leather::Hide& central);

/// Systems below this share of all that is dissolved move no reading: they stay at home, and sections stay small.
inline constexpr double least_share_1 = 2e-3;

/// Threads that an ensemble is solved on.
int section_threads();

/// Sections of all cases; a case that cannot be solved costs its own answer only.
Result<std::vector<std::optional<diffusion::SectionResult>>> sections_of(const std::vector<diffusion::SectionCase>& cases, const Progress& progress);

struct Ensemble {
    Draw draw;
    std::vector<Outcome> outcomes;
    std::vector<double> moment_s;
    std::vector<double> depth_um;                 ///< of the cells, from the top of the leather, at the central thickness
};

/// Draws and solves. @param members a power of two  @error as draw; NotConverged
Result<Ensemble> solve_ensemble(const Question& question, int members, const Progress& progress = {});

/// Grade that half of the members come to or stay below.
Grade middle_grade(const std::vector<Grade>& grades);

/// Chances, fans and influences. The influences are those on the grade where members differ in it, else on `reached`.
/// @param grades, reached  of every member  @param reached_name  "the highest pH inside the leather"
Sure sure_of(const Ensemble& ensemble, const std::vector<Grade>& grades, Grade answer, const std::vector<double>& reached, const std::string& reached_name);

/// Member nearest to the middle of every unknown among those of a grade; the count where there is none.
std::size_t nearest_of(const Ensemble& ensemble, const std::vector<Grade>& grades, Grade grade);

Band band_of(const std::vector<double>& values, std::string unit);

}  // namespace hw::desk
