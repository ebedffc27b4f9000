// The demo workshop: invented liquids, leathers and judgements, put in and taken out through the ports.
#pragma once

#include "desk/inspect.hpp"
#include "desk/judge.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

std::vector<Liquid> demo_liquids();
std::vector<Leather> demo_leathers();
std::vector<JudgeRequest> demo_requests();
/// Pieces at several stages, each as the entries that were made about it.
std::vector<InspectRequest> demo_pieces();

/// Bottles of the demo's liquids, and an invented data sheet in two revisions. Without a shelf it does nothing.
Result<Done> load_demo_shelf(Ports& ports);

/// Puts the demo workshop into a store; its judgements are computed, not canned.
Result<Done> load_demo(Ports& ports);

}  // namespace hw::desk
