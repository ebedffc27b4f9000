// Question: how long does an ensemble of 1,024 members of one full story take (contact, wipe, rinse, drying, a day of rest), how
// accurate are its members, and what would one member cost with integrators of general-purpose libraries? Members differ in
// amount, wiping, openness of the finish (a third to three times), buffering, start and drying. Their errors are against the
// same members on four times the cells at a tolerance of 1e-5; the libraries solve one member at equal accuracy in this
// process: SUNDIALS CVODE (BDF, banded; only where it is installed) and the Rosenbrock method of Boost.Odeint (dense).
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <vector>

#include "core/belief/points.hpp"
#include "core/belief/spread.hpp"
#include "core/belief/summary.hpp"
#include "core/diffusion/sections.hpp"
#include "tests/support/section_by_odeint.hpp"
#include "tests/support/section_story.hpp"
#ifdef HW_CVODE
#include "bench/stiff_by_cvode.hpp"
#endif

namespace {

using namespace hw;
using belief::Spread;

// Ratios are of core time, which other work on the machine hardly moves.
double core_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }
double now_s() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

std::vector<diffusion::SectionCase> members(std::size_t count, double mesh, double tolerance) {
    const auto u = *belief::even_points(count, 6);
    std::vector<diffusion::SectionCase> out;
    for (const auto& p : u) {
        const auto base = test::soda_story();
        diffusion::SectionCase c{base.components, base.layers, base.story, base.options};
        const double dose = belief::quantile({Spread::Shape::Tent, 0.74, 1, 1.26}, p[0]), left = belief::quantile({Spread::Shape::Tent, 0.5, 1, 1.5}, p[1]);
        const double open = belief::quantile({Spread::Shape::RatioBell, 1.0 / 3, 1, 3}, p[2]), buffering = belief::quantile({Spread::Shape::Bell, 0.8, 1, 1.2}, p[3]);
        const double start = belief::quantile({Spread::Shape::Bell, 3.55, 4, 4.45}, p[4]), drying = belief::quantile({Spread::Shape::Bell, 0.7, 1, 1.3}, p[5]);
        c.story[0].kg_m2 *= dose;
        c.story[2].share_1 = 1 - (1 - c.story[2].share_1) * left;
        c.layers[0].water_conductivity_kg_m_s *= open;
        c.layers[0].solute_share_1 *= open;
        for (auto& layer : c.layers) {
            for (auto& site : layer.sites) site.amount_mol_kg *= buffering;
            layer.start_x = start;
            layer.start_mol_m3 = {test::carbonate_of_air(c.components[0], start), 0.0};
        }
        c.options.evaporation_kg_m2_s *= drying;
        c.options.mesh_1 = mesh;
        c.options.tolerance_1 = tolerance;
        c.options.lean = true;
        out.push_back(std::move(c));
    }
    return out;
}

double p95(std::vector<double> v) { return belief::quantiles(std::move(v), {0.95})[0]; }

/// Solves the first members at these settings and prints by how much they miss `fine`.
void accuracy(const std::vector<diffusion::SectionResult>& fine, double mesh, double tolerance) {
    const auto cases = members(fine.size(), mesh, tolerance);
    const double start = core_s();
    const auto r = diffusion::run_sections(cases, 1);
    const double ms = 1e3 * (core_s() - start) / static_cast<double>(cases.size());
    std::vector<double> uptake, reading, front, end, highest, moments;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        const auto &is = (*r)[i], &right = fine[i];
        const auto& layers = cases[i].layers;
        constexpr double front_x = 4.6;
        uptake.push_back(100 * std::abs(is.ledger.in_leather_strong_mol_m2 / right.ledger.in_leather_strong_mol_m2 - 1));
        front.push_back(1e6 * std::abs(test::front_m(is, layers, front_x) - test::front_m(right, layers, front_x)));
        highest.push_back(test::highest(is, layers).miss(test::highest(right, layers)));
        double worst_reading = 0, worst = 0;
        for (std::size_t k = 0; k < is.snapshots.size(); ++k) {
            const double miss = test::profile(is, layers, is.snapshots[k].x).miss(test::profile(right, layers, right.snapshots[k].x));
            worst = std::max(worst, miss);
            worst_reading = std::max(worst_reading, std::abs(is.snapshots[k].reading_x - right.snapshots[k].reading_x));
            if (k + 1 == is.snapshots.size()) end.push_back(miss);
        }
        moments.push_back(worst);
        reading.push_back(worst_reading);
    }
    const double last = p95(end);
    std::printf("  %4.2f  %6.0e  %6.2f ms  uptake %.3f %%, front %.2f um, reading at any moment %.4f; pH at every depth: at the end %.4f, its highest %.3f, at any moment %.3f\n", mesh, tolerance, ms, p95(uptake),
                p95(front), p95(reading), last, p95(highest), p95(moments));
}

}  // namespace

int main() {
    constexpr std::size_t all = 1024, checked = 64;
    std::printf("time of %zu members, mesh %.2f, tolerance %.0e\n", all, diffusion::ensemble_mesh_1, diffusion::ensemble_tolerance_1);
    const auto cases = members(all, diffusion::ensemble_mesh_1, diffusion::ensemble_tolerance_1);
    double per_member_ms = 0;
    const auto widest = chem::widest_batch_target();
    for (const auto& [target, name] : {std::pair{chem::BatchTarget::Baseline, "baseline"}, std::pair{chem::BatchTarget::Avx2, "AVX2"}, std::pair{chem::BatchTarget::Avx512, "AVX-512"}}) {
        if (target > widest) continue;
        for (int threads : {1, 2}) {
            double best = 1e9, best_core = 1e9;
            for (int repeat = 0; repeat < 3; ++repeat) {
                const double start = now_s(), core = core_s();
                const auto r = diffusion::run_sections(cases, threads, {}, target);
                best = std::min(best, now_s() - start);
                best_core = std::min(best_core, core_s() - core);
                if (!r.ok()) std::printf("not solved: %s\n", r.error().message.c_str());
            }
            if (threads == 1) per_member_ms = 1e3 * best_core / static_cast<double>(all);
            std::printf("  %-9s %d thread%s %7.3f s, %7.3f s of core time\n", name, threads, threads == 1 ? " " : "s", best, best_core);
        }
    }
    {
        const double start = core_s();
        for (std::size_t i = 0; i < 64; ++i) {
            const auto r = diffusion::run_section(cases[i].components, cases[i].layers, cases[i].story, cases[i].options);
            if (!r.ok()) std::printf("not solved\n");
        }
        const double alone = 1e3 * (core_s() - start) / 64;
        std::printf("  one by one %.2f ms a member; in lanes %.2f ms: %.1f times\n", alone, per_member_ms, alone / per_member_ms);
    }

    std::printf("accuracy: mesh, tolerance, core time a member of %zu, and the 95th percentile over them of the worst miss\n", checked);
    auto patient = members(checked, 4, 1e-5);
    for (auto& c : patient) c.options.max_time_steps = 200000;
    const auto fine = diffusion::run_sections(patient, 2);
    accuracy(*fine, diffusion::ensemble_mesh_1, diffusion::ensemble_tolerance_1);
    if (std::getenv("HW_SWEEP") != nullptr)
        for (double mesh : {0.35, 0.5, 0.7, 1.0})
            for (double tolerance : {1e-3, 4e-3, 1e-2, 3e-2}) accuracy(*fine, mesh, tolerance);

    std::printf("one member with other integrators\n");
    const auto& c = cases.front();
    test::SectionCase one{c.components, c.layers, c.story, c.options};
    one.options.lean = false;
    one.options.tolerance_1 = 1e-7;
    one.options.max_time_steps = 200000;
    const auto right = diffusion::run_section(one.components, one.layers, one.story, one.options);
    const auto miss_of = [&](const std::vector<double>& x) {
        double worst = 0;
        for (std::size_t i = 0; i < x.size(); ++i) worst = std::max(worst, std::abs(x[i] - right->snapshots.back().x[i]));
        return worst;
    };
    one.options.tolerance_1 = diffusion::ensemble_tolerance_1;
    const double own = miss_of(diffusion::run_section(one.components, one.layers, one.story, one.options)->snapshots.back().x);
    std::printf("  in lanes          %9.2f ms, miss of x %.1e (time steps only)\n", per_member_ms, own);
    const auto other = [&](const char* name, const auto& solve) {
        for (double tolerance : {1e-2, 1e-3, 1e-4, 1e-5, 1e-6}) {
            const double start = core_s();
            const auto r = solve(tolerance);
            const double ms = 1e3 * (core_s() - start), miss = miss_of(r.x);
            if (miss > own && tolerance > 1e-6) continue;
            std::printf("  %-17s %9.2f ms, miss of x %.1e at %.0e, %d steps: %.0f times as long\n", name, ms, miss, tolerance, r.steps, ms / per_member_ms);
            return;
        }
    };
    other("Boost.Odeint", [&](double tolerance) { return test::section_by_odeint(one, tolerance); });
#ifdef HW_CVODE
    other("SUNDIALS CVODE", [&](double tolerance) { return test::section_by(one, tolerance, bench::integrate_by_cvode); });
#else
    std::printf("  SUNDIALS CVODE is not installed: not compared\n");
#endif
}
