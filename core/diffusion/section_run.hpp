// Runs the story of one case, or of a pack of cases that keep step. Inside core/diffusion only.
#pragma once

#include <optional>
#include <vector>

#include "core/diffusion/section.hpp"
#include "core/diffusion/section_engine.hpp"

namespace hw::diffusion {

/// A case by reference.
struct CaseView {
    const std::vector<Component>* components = nullptr;
    const std::vector<Layer>* layers = nullptr;
    const std::vector<Stage>* story = nullptr;
    const Options* options = nullptr;
};

/// @error InvalidInput  as run_section
std::optional<Error> refused(const CaseView& view);

/// Cases of one shape: the same stages and durations, layers and cells, components and steps.
/// @param lanes  1 or engine::pack_width of them
/// @error NotConverged  some lane did not settle, or the progress call cancelled; `cancelled` tells which
Result<std::vector<SectionResult>> run_lanes(const std::vector<CaseView>& lanes, engine::LaneEngine* (*make)(const engine::Setup&), const Progress& progress, bool& cancelled);

}  // namespace hw::diffusion
