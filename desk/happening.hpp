// What was told of a mishap, made computable: members, their courses, and what each of them shows to whoever reads.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/treatment/course.hpp"
#include "desk/ensemble.hpp"
#include "desk/looks.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"
#include "desk/unknowns.hpp"
#include "desk/weigh.hpp"

namespace hw::desk {

/// A reading that is weighed.
struct Sighted {
    Look look;
    const atlas::LookKindsRow* kind = nullptr;
    Evidence evidence;
    std::size_t given = none;                     ///< in RefineRequest::readings; none: from the leather or the piece
    bool drawn_from = false;                      ///< of the product: members are drawn to fit it, so it weighs nothing again
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

struct LaidPass {
    Pass told;
    chem::Totals liquid;
    double ionic_strength_mol_kg = 0;
};

struct Happening {
    Question question;
    Question by_sheet;                            ///< without what was read of the product
    std::vector<Unknown> unknowns;                ///< those that vary
    std::vector<std::vector<double>> prior;       ///< [member][unknown]
    std::vector<LaidPass> passes;                 ///< by time
    std::vector<std::size_t> pass_order;          ///< where each pass of the request stands there
    std::vector<Sighted> readings;                ///< in an order of their own, whatever order they were given in
    double now_s = 0;
    std::vector<double> output_s;
    std::optional<Stop> stop;                     ///< people first
    std::optional<Stop> no_water;                 ///< leather that takes no water at all, by what was told and read; refine only says so
    std::vector<Reason> notes;
    std::vector<std::string> defaults_used;
};

/// Takes the passes in that stand in the record of the panel; those that were told as well are not taken twice.
/// @return what was laid on before the mishap was over: no pass of this story, but it lies there
Result<std::vector<Pass>> passes_of_panel(RefineRequest& request, Ports& ports);

/// @error as refine  @return with `stop` set and nothing else computed where products met that must not
Result<Happening> happening_of(const RefineRequest& request, Ports& ports);

/// Solved members of a happening.
struct Solved {
    Draw draw;
    std::vector<treatment::Course> courses;
    std::vector<bool> settled;                    ///< false: that member could not be solved and has no outcome
    std::vector<Outcome> outcomes;                ///< until now
    std::vector<double> cloth_kg_m2;              ///< what the first wiping took
    std::vector<double> taken_up_mol_kg;          ///< alkali gained by the leather
    std::vector<std::vector<double>> carried_mol_kg;
    std::vector<std::vector<double>> rinse_us_cm; ///< [member][pass], of acids and bases alone; empty: nobody asked
    std::vector<double> moment_s, depth_um;
};

/// Solves members at points of the unknowns until `until_s` (now, or later for a reading that is still to come).
/// @error NotConverged  cancelled, or none of them could be solved
Result<Solved> solved_at(const Happening& happening, const std::vector<std::vector<double>>& u, double until_s, const Progress& progress = {});

/// What every member expects of a reading, its error included.
/// @error OutOfRange  a kind that this leather or this story cannot show; the message says why
Result<std::vector<Sight>> sights_of(const Happening& happening, const Solved& solved, const Look& look);

/// Of all readings: [member][reading]; an empty row where a member could not be solved.
Result<std::vector<std::vector<Sight>>> sights_of(const Happening& happening, const Solved& solved);

/// Why drops of acid may not be counted into this product; empty: they may.
std::string no_drops(const Liquid& product, const DropCount& drops);

}  // namespace hw::desk
