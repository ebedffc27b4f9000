#include "core/diffusion/sections.hpp"

#include <future>
#include <optional>

namespace hw::diffusion {

Result<std::vector<SectionResult>> run_sections(const std::vector<SectionCase>& cases, int threads, const Progress& progress) {
    std::vector<SectionResult> out(cases.size());
    std::vector<std::future<std::optional<Error>>> parts;
    const auto n = static_cast<std::size_t>(threads);
    for (std::size_t t = 0; t < n; ++t)
        parts.push_back(std::async(std::launch::async, [&, t]() -> std::optional<Error> {
            for (std::size_t i = t; i < cases.size(); i += n) {
                if (t == 0 && progress && !progress(static_cast<double>(i) / static_cast<double>(cases.size()), "solving the members")) return Error{ErrorCode::NotConverged, "Cancelled.", "use"};
                auto r = run_section(cases[i].components, cases[i].layers, cases[i].story, cases[i].options);
                if (!r.ok()) return r.error();
                out[i] = std::move(*r);
            }
            return std::nullopt;
        }));
    std::optional<Error> bad;
    for (auto& p : parts)
        if (auto e = p.get()) bad = e;
    if (bad) return *bad;
    return out;
}

}  // namespace hw::diffusion
