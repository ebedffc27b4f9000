// The ways of one plan as they were computed, between `rebalance`, which chooses, and the bench card, which tells.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/rinse_design.hpp"

namespace hw::desk {

/// One way with what its members come to.
struct Looked {
    WayAnswer told;
    std::optional<Proposal> proposal;             ///< nothing: not followed
    Followed followed;                            ///< all members
    std::optional<Design> design;
    std::vector<double> losses_min;               ///< per member
    bool reaches = false;                         ///< the chance that was asked for
};

/// What every part of the answer looks at.
struct Scene {
    const RebalanceRequest& request;
    leather::Hide hide;
    Aim aim;
    Window window;
    Moisture moisture;
    double area_m2 = 0.09;
    bool acid = false;                            ///< the place lies below its window, not above it
    bool oil_rot = false;                         ///< skin oil and sweat on leather that is not vegetable tanned
};

/// Name of a way in the words of the bench: "rinse and blot".
std::string way_name(Way way);

/// The steps of a way, in order.
std::vector<BenchStep> card_of(const Scene& scene, const Looked& way);

/// What the readings should be under a way, with their own error.
std::vector<Expected> expected_of(const Scene& scene, const Looked& way);

/// Fans of surface and grain along time from now, and through the leather at the end.
std::vector<Fan> fans_of(const Followed& followed);

/// Half width of the 90 % band of a surface reading, from atlas/look_kinds.csv.
double reading_half_ph();

}  // namespace hw::desk
