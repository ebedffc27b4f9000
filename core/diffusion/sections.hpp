// Many sections of one story.
#pragma once

#include <vector>

#include "core/diffusion/section.hpp"

namespace hw::diffusion {

struct SectionCase {
    std::vector<Component> components;
    std::vector<Layer> layers;
    std::vector<Stage> story;
    Options options;
};

inline constexpr double ensemble_mesh_1 = 0.5, ensemble_tolerance_1 = 4e-3;

Result<std::vector<SectionResult>> run_sections(const std::vector<SectionCase>& cases, int threads, const Progress& progress = {});

}  // namespace hw::diffusion
