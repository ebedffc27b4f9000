#include "core/diffusion/sections.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "core/diffusion/section_run.hpp"

namespace hw::diffusion {

namespace {

using Make = engine::LaneEngine* (*)(const engine::Setup&);

Make engine_for(chem::BatchTarget target) {
    switch (std::min(target, chem::widest_batch_target())) {
        case chem::BatchTarget::Baseline: return engine::make_baseline;
        case chem::BatchTarget::Avx2: return engine::make_avx2;
        case chem::BatchTarget::Avx512: return engine::make_avx512;
    }
    throw Bug("an instruction set without an engine");
}

/// Everything that the cases of a pack must have in common.
std::vector<double> shape_of(const SectionCase& c) {
    std::vector<double> s{static_cast<double>(c.components.size()), static_cast<double>(c.layers.size()), static_cast<double>(c.story.size()),
                          c.options.tolerance_1, c.options.mesh_1, static_cast<double>(c.options.max_time_steps), c.options.electroneutral ? 1.0 : 0.0,
                          c.options.fixed_surface ? 1.0 : 0.0, c.options.lean ? 1.0 : 0.0, static_cast<double>(c.options.output_s.size())};
    s.insert(s.end(), c.options.output_s.begin(), c.options.output_s.end());
    for (const auto& k : c.components) s.insert(s.end(), {static_cast<double>(k.top_charge), static_cast<double>(k.log_k.size()), static_cast<double>(k.neutral_form)});
    for (const auto& l : c.layers) s.insert(s.end(), {static_cast<double>(l.cells), static_cast<double>(l.sites.size()), l.finish ? 1.0 : 0.0, l.water_exponent_1 > 0 ? 1.0 : 0.0});
    for (const auto& stage : c.story) s.insert(s.end(), {static_cast<double>(stage.kind), stage.duration_s});
    return s;
}

/// Cases that are alike in this take like time steps: how readily the film drains into the leather, and how much is laid on.
std::pair<double, double> pace_of(const SectionCase& c) {
    double kg = 0;
    for (const auto& stage : c.story) kg += stage.kg_m2;
    const Layer& top = c.layers.front();
    const double drains = std::log(top.water_conductivity_kg_m_s / top.thickness_m);
    constexpr double bands = 8;  // within a band of openness, by the time the film needs to dry
    const double dries = kg / c.options.evaporation_kg_m2_s;
    // A sort needs numbers, also where nothing drains or dries.
    return {std::isnan(drains) ? 0 : std::floor(drains * bands / 3), std::isnan(dries) ? 0 : dries};
}

using Pack = std::vector<std::size_t>;

std::vector<Pack> packs_of(const std::vector<SectionCase>& cases) {
    std::map<std::vector<double>, std::vector<std::size_t>> by_shape;
    for (std::size_t i = 0; i < cases.size(); ++i) by_shape[shape_of(cases[i])].push_back(i);
    std::vector<Pack> packs;
    for (auto& [shape, members] : by_shape) {
        std::stable_sort(members.begin(), members.end(), [&](std::size_t a, std::size_t b) { return pace_of(cases[a]) < pace_of(cases[b]); });
        for (std::size_t at = 0; at < members.size(); at += engine::pack_width)
            packs.emplace_back(members.begin() + static_cast<std::ptrdiff_t>(at), members.begin() + static_cast<std::ptrdiff_t>(std::min(members.size(), at + engine::pack_width)));
    }
    return packs;
}

CaseView view_of(const SectionCase& c) { return {&c.components, &c.layers, &c.story, &c.options}; }

/// Solves the cases of a pack into `out`.
std::optional<Error> solve(const std::vector<SectionCase>& cases, const Pack& pack, Make make, std::vector<SectionResult>& out) {
    bool cancelled = false;
    std::vector<CaseView> lanes;
    for (std::size_t i : pack) lanes.push_back(view_of(cases[i]));
    // What is missing to a whole pack is filled with the last case once more.
    while (lanes.size() < engine::pack_width) lanes.push_back(lanes.back());
    auto together = run_lanes(lanes, make, {}, cancelled);
    if (together.ok()) {
        for (std::size_t k = 0; k < pack.size(); ++k) out[pack[k]] = std::move((*together)[k]);
        return std::nullopt;
    }
    for (std::size_t i : pack) {
        auto alone = run_lanes({view_of(cases[i])}, engine::make_single, {}, cancelled);
        if (!alone.ok()) return alone.error();
        out[i] = std::move(alone->front());
    }
    return std::nullopt;
}

}  // namespace

Result<std::vector<SectionResult>> run_sections(const std::vector<SectionCase>& cases, int threads, const Progress& progress, chem::BatchTarget target) {
    for (const auto& c : cases)
        if (const auto bad = refused(view_of(c))) return *bad;
    const auto packs = packs_of(cases);
    const Make make = engine_for(target);
    std::vector<SectionResult> out(cases.size());
    std::atomic<std::size_t> next{0};
    std::atomic<bool> stop{false};
    std::mutex one_at_a_time;
    std::optional<Error> first_error;
    std::exception_ptr thrown;
    std::size_t done = 0;
    const auto solve_packs = [&] {
        for (std::size_t p = next++; p < packs.size() && !stop; p = next++) {
            auto bad = solve(cases, packs[p], make, out);
            const std::scoped_lock lock(one_at_a_time);
            ++done;
            if (!bad && !stop && progress && !progress(static_cast<double>(done) / static_cast<double>(packs.size()), "solving the members")) bad = Error{ErrorCode::NotConverged, "Cancelled.", "use"};
            if (!bad) continue;
            stop = true;
            if (!first_error) first_error = std::move(bad);
        }
    };
    const auto work = [&] {
        try {
            solve_packs();
        } catch (...) {  // handed to the caller: out of a thread it would end the program
            stop = true;
            const std::scoped_lock lock(one_at_a_time);
            if (!thrown) thrown = std::current_exception();
        }
    };
    {
        std::vector<std::jthread> others;
        for (int t = 1; t < threads; ++t) others.emplace_back(work);
        work();
    }
    if (thrown) std::rethrow_exception(thrown);
    if (first_error) return *first_error;
    return out;
}

}  // namespace hw::diffusion
