// Many stories of one shape side by side, on vector units and threads.
#pragma once

#include <vector>

#include "core/chem/batch.hpp"
#include "core/diffusion/section.hpp"

namespace hw::diffusion {

struct SectionCase {
    std::vector<Component> components;
    std::vector<Layer> layers;
    std::vector<Stage> story;
    Options options;
};

/// Mesh and tolerance at which an ensemble is solved: what they cost in accuracy is in docs/theory/lanes.md.
inline constexpr double ensemble_mesh_1 = 0.5, ensemble_tolerance_1 = 1e-2;

/// Solves every case. Cases of the same shape (components and their steps, layers, cells, kinds of site, stages and their
/// durations, options but for the numbers of the air and the drop) travel eight at a time and share time steps; every other
/// number may differ. Which cases share a pack depends on the cases alone, so neither threads nor the instruction set move a
/// bit of any answer. A case that keeps its pack from settling is solved by itself.
///
/// @param threads   1 or more
/// @param progress  told after each pack, by one thread at a time; false ends all of them
/// @return in the order of the cases
/// @error InvalidInput  as run_section; NotConverged  a case did not settle even alone, or cancelled
/// @see docs/theory/lanes.md
Result<std::vector<SectionResult>> run_sections(const std::vector<SectionCase>& cases, int threads, const Progress& progress = {}, chem::BatchTarget target = chem::widest_batch_target());

}  // namespace hw::diffusion
