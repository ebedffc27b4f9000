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

/// What a member is judged by.
struct Told {
    double uptake = 0, reading = 0, front_um = 0;
    std::vector<double> depth, x;                        ///< at the end, of the leather below the finish
};

/// Deepest place that x ever passed 4.6, straight between cell centres.
double front_of(const diffusion::SectionResult& r, const diffusion::SectionCase& c) {
    constexpr double front_x = 4.6;
    double deepest = 0;
    for (const auto& s : r.snapshots)
        for (std::size_t i = s.x.size(); i-- > 1;) {
            if (c.layers[static_cast<std::size_t>(r.layer_of[i - 1])].finish) break;
            if (s.x[i - 1] <= front_x || s.x[i] > front_x) continue;
            const double a = (r.top_m[i - 1] + r.bottom_m[i - 1]) / 2, b = (r.top_m[i] + r.bottom_m[i]) / 2;
            deepest = std::max(deepest, a + (b - a) * (s.x[i - 1] - front_x) / (s.x[i - 1] - s.x[i]));
            break;
        }
    return 1e6 * deepest;
}

Told told(const diffusion::SectionResult& r, const diffusion::SectionCase& c) {
    Told t;
    t.uptake = r.ledger.in_leather_strong_mol_m2;
    t.reading = r.snapshots.back().reading_x;
    t.front_um = front_of(r, c);
    for (std::size_t i = 0; i < r.top_m.size(); ++i) {
        if (c.layers[static_cast<std::size_t>(r.layer_of[i])].finish) continue;
        t.depth.push_back((r.top_m[i] + r.bottom_m[i]) / 2);
        t.x.push_back(r.snapshots.back().x[i]);
    }
    return t;
}

double at(const Told& t, double depth) {
    const auto it = std::lower_bound(t.depth.begin(), t.depth.end(), depth);
    if (it == t.depth.begin()) return t.x.front();
    if (it == t.depth.end()) return t.x.back();
    const auto i = static_cast<std::size_t>(it - t.depth.begin());
    return t.x[i - 1] + (t.x[i] - t.x[i - 1]) * (depth - t.depth[i - 1]) / (t.depth[i] - t.depth[i - 1]);
}

double p95(std::vector<double> v) { return belief::quantiles(std::move(v), {0.95})[0]; }

void accuracy(const std::vector<Told>& fine, std::size_t count, double mesh, double tolerance, bool print_time) {
    const auto cases = members(count, mesh, tolerance);
    const double start = now_s();
    const auto r = diffusion::run_sections(cases, 1);
    const double ms = 1e3 * (now_s() - start) / static_cast<double>(count);
    std::vector<double> uptake, reading, front, profile;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        const Told t = told((*r)[i], cases[i]);
        uptake.push_back(100 * std::abs(t.uptake / fine[i].uptake - 1));
        reading.push_back(std::abs(t.reading - fine[i].reading));
        front.push_back(std::abs(t.front_um - fine[i].front_um));
        double worst = 0;
        for (std::size_t k = 0; k < t.depth.size(); ++k) worst = std::max(worst, std::abs(t.x[k] - at(fine[i], t.depth[k])));
        profile.push_back(worst);
    }
    std::printf("  mesh %.2f, tolerance %.0e: %5.2f ms a member%s; 95th percentile of the miss: uptake %.3f %%, reading %.4f pH, front %.2f um, profile at the end %.4f pH\n", mesh, tolerance, ms,
                print_time ? "" : " (few members)", p95(uptake), p95(reading), p95(front), p95(profile));
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
            double best = 1e9;
            for (int repeat = 0; repeat < 3; ++repeat) {
                const double start = now_s();
                const auto r = diffusion::run_sections(cases, threads, {}, target);
                best = std::min(best, now_s() - start);
                if (!r.ok()) std::printf("not solved: %s\n", r.error().message.c_str());
            }
            if (threads == 1) per_member_ms = 1e3 * best / static_cast<double>(all);
            std::printf("  %-9s %d thread%s %7.3f s\n", name, threads, threads == 1 ? " " : "s", best);
        }
    }
    {
        const double start = now_s();
        for (std::size_t i = 0; i < 64; ++i) {
            const auto r = diffusion::run_section(cases[i].components, cases[i].layers, cases[i].story, cases[i].options);
            if (!r.ok()) std::printf("not solved\n");
        }
        const double alone = 1e3 * (now_s() - start) / 64;
        std::printf("  one by one %.2f ms a member; in lanes %.2f ms: %.1f times\n", alone, per_member_ms, alone / per_member_ms);
    }

    std::printf("accuracy of %zu members\n", checked);
    const auto finest = members(checked, 4, 1e-5);
    std::vector<diffusion::SectionCase> patient = finest;
    for (auto& c : patient) c.options.max_time_steps = 200000;
    const auto reference = diffusion::run_sections(patient, 2);
    std::vector<Told> fine;
    for (std::size_t i = 0; i < checked; ++i) fine.push_back(told((*reference)[i], finest[i]));
    accuracy(fine, checked, diffusion::ensemble_mesh_1, diffusion::ensemble_tolerance_1, false);
    if (std::getenv("HW_SWEEP") != nullptr)
        for (double mesh : {0.35, 0.5, 0.7, 1.0})
            for (double tolerance : {1e-3, 4e-3, 1e-2, 3e-2}) accuracy(fine, checked, mesh, tolerance, false);

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
            const double start = now_s();
            const auto r = solve(tolerance);
            const double ms = 1e3 * (now_s() - start), miss = miss_of(r.x);
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
