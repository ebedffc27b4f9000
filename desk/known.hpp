// What is known of what happened to a leather: everything that was told and read, weighed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/treatment/course.hpp"
#include "desk/happening.hpp"
#include "desk/looks.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"
#include "desk/unknowns.hpp"
#include "desk/weigh.hpp"

namespace hw::desk {

/// What a test of the bench would read, as far as can be told now.
struct Foreseen {
    std::string test;                             ///< key of atlas/bench_tests.csv
    std::vector<std::size_t> members;             ///< of Known: those that were asked, equal in weight
    std::vector<Sight> sights;                    ///< of each of them, in the scale of the kind
};

/// What may have happened, weighed by everything that was read: members drawn from what fits, equal in weight.
struct Known {
    Question question;                            ///< as told
    std::vector<Unknown> unknowns;
    std::vector<std::vector<double>> u;           ///< [member][unknown]
    std::vector<Member> members;                  ///< `hide.ph` is that of the place before the first wetting
    std::vector<MemberLiquid> liquids;            ///< Member::liquid points here; clean water where nothing was laid
    std::vector<treatment::Course> courses;       ///< per member: what happened until now, passes included, nothing after
    double now_h = 0;
    Weighing weighing;
    std::vector<Foreseen> foreseen;               ///< tests that could be done next
    std::optional<Stop> stop;                     ///< products met that must not: there is nothing else here then
    std::vector<Reason> notes;                    ///< what was left aside, and why
    std::vector<std::size_t> solved_as;           ///< [member] in Learned::after
};

/// Known, and how it came to be known.
struct Learned {
    Happening happening;
    Solved before;                                ///< as told
    Solved after;                                 ///< weighed: `weighed.after.weight_1` of each
    Weighed weighed;
    Known known;
};

/// Weighs by all readings at once, from the prior.
/// @error as refine
Result<Learned> learned_from(const RefineRequest& request, Ports& ports, const Progress& progress = {});
/// What `refine` answers of it.
Result<RefineAnswer> told_of(const Learned& learned, const RefineRequest& request, Ports& ports);
Result<Known> known_by(const RefineRequest& request, Ports& ports, const Progress& progress = {});

}  // namespace hw::desk
