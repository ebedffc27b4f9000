// The demo workshop: invented liquids, leathers and judgements, put in and taken out through the ports.
#pragma once

#include "desk/judge.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

std::vector<Liquid> demo_liquids();
std::vector<Leather> demo_leathers();
std::vector<JudgeRequest> demo_requests();

/// Puts the demo workshop into a store; its judgements are computed, not canned.
Result<Done> load_demo(Ports& ports);

}  // namespace hw::desk
