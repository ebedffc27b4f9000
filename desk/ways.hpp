// One way of going on from now: what it lays on, and what every member of what is known comes to under it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "atlas/plan_rules.hpp"
#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/treatment/course.hpp"
#include "desk/known.hpp"
#include "desk/rebalance.hpp"

namespace hw::desk {

/// Row of atlas/plan_rules.csv. An unknown key is a bug.
const atlas::PlanRulesRow& plan_rule(std::string_view key);
Basis basis_of_plan_rule(std::string_view key, std::string inputs);
/// How long a dry cloth is pressed on after a pass, of atlas/plan_rules.csv.
double press_s();

/// What is laid on from now, and how long it is left afterwards. `Laying::liquid` points into `liquids`.
struct Proposal {
    std::vector<chem::Totals> liquids;
    double ionic_strength_mol_kg = 0;             ///< of the strongest of them
    double first_wait_s = 0;
    std::vector<treatment::Laying> layings;       ///< none: nothing is done but to wait
    double rest_s = 86400;                        ///< after the last of them
    [[nodiscard]] double lasts_s() const;
};

/// What is asked of every member.
struct Aim {
    double low_ph = 3.5, high_ph = 5.5;
    double pass_g_m2 = 40;                        ///< moisture that custom allows in a pass
    bool open = true;                             ///< no finish: water goes in at once
    bool vegetable = false;
    bool of_readings = false;                     ///< the window is one of readings, with whatever the finish shifts them
};

/// How far what is left may lead: the states of atlas/decision_losses.csv.
enum class Ends { Within, Surface, Grain, Deep };

/// What one member comes to, from now on.
struct Under {
    std::vector<float> surface_ph, grain_ph;      ///< per moment from now: the surface as it would be read, the mean of the grain as it is
    double shift_ph = 0;                          ///< by which the finish shifts a reading of the surface
    std::vector<float> end_ph;                    ///< per cell of the leather, at the end
    bool inside_surface = false, inside_depth = false;
    bool past_limit = false;                      ///< a deciding limit is passed that it does not lie past now, or is still passed at the end
    bool passes_on_the_way = false;               ///< of these, passed anew
    Ends ends = Ends::Within;
    double out_surface_ph = 0, out_grain_ph = 0, out_deep_ph = 0;  ///< how far outside at the end: window, window or limit, limit
    bool ring = false, darkens = false;
    double net_g_m2 = 0;                          ///< laid on less blotted off, from now on
    double held_g_m2 = 0;                         ///< most water in the leather at once beyond what the air keeps there
    double film_end_s = 0;                        ///< from now until the surface is dry for good
    double left_mol_m2 = 0;                       ///< alkali on and in the leather at the end; below zero: acid
    std::vector<double> carried_mol_m2;           ///< per acid-base system, at the end
    [[nodiscard]] bool meets() const { return inside_surface && inside_depth && !past_limit; }
};

struct Followed {
    std::vector<double> at_s;                     ///< moments from now
    std::vector<double> depth_um;                 ///< of the cells
    std::vector<Under> members;                   ///< in the order of `which`
};

/// The course of a member with the proposal behind what has happened.
treatment::Course with_proposal(const Known& known, std::size_t member, const Proposal& proposal);

/// What a solved section comes to between two of its snapshots, in the words of the plan. What was laid on is not in `net_g_m2` yet.
/// @param shift_ph  by which the finish shifts a reading of the surface
Under under_of(const treatment::Exposure& exposure, const leather::Hide& hide, std::size_t now, std::size_t end, const Aim& aim, double shift_ph);

/// Solves the members `which` under a proposal.
/// @error NotConverged  from the engine, or cancelled
Result<Followed> follow(const Known& known, const std::vector<std::size_t>& which, const Proposal& proposal, const Aim& aim, const Progress& progress = {});

/// A proposal to be looked at as if it ended at each of these layings and the rest after it: they take as long as its own rest.
struct Candidate {
    Proposal proposal;
    std::vector<std::size_t> last;                ///< indices of layings, rising; the last of all is the last here
};

/// Follows many proposals side by side on the same members: [candidate][end]. `left_mol_m2` and `carried_mol_m2` are those of the
/// candidate's last end.
/// @error as follow
Result<std::vector<std::vector<Followed>>> follow_all(const Known& known, const std::vector<std::size_t>& which, const std::vector<Candidate>& candidates, const Aim& aim, const Progress& progress = {});

/// What one member comes to, solved finely: the picture of the section, from now.
Result<Profile> section_of(const Known& known, std::size_t member, const Proposal& proposal);

/// Members that stand for all: evenly through the order of what is left in them. @param followed all members, nothing done
std::vector<std::size_t> standing_for(const Followed& followed, std::size_t count);

/// What a state comes to later, in minutes of work: atlas/decision_losses.csv, left alone. On the way from one state to the
/// next graver one it grows with how far outside the place is, until it counts in full.
double loss_of(const Under& under);
/// Expected loss of each member, in minutes of work. @param work_min of the way itself
std::vector<double> losses_of(const Followed& followed, double work_min, double wait_h);

/// Share of the members for which it holds.
template <class Holds>
double share_of(const Followed& f, const Holds& holds) {
    double n = 0;
    for (const auto& m : f.members) n += holds(m) ? 1 : 0;
    return n / static_cast<double>(f.members.size());
}

double mean_of(const std::vector<double>& values);

}  // namespace hw::desk
