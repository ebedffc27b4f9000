// What is known of what happened to a leather: everything that was told and read, weighed.
#pragma once

#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "core/treatment/course.hpp"
#include "desk/ports.hpp"
#include "desk/refine.hpp"
#include "desk/unknowns.hpp"

namespace hw::desk {

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
};

/// Weighs by all readings at once, from the prior.
/// @error as refine
Result<Known> known_by(const RefineRequest& request, Ports& ports, const Progress& progress = {});

}  // namespace hw::desk
