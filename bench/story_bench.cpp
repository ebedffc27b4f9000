// Question: how long does one story of use take, and how does that compare with a stiff integrator of a general-purpose
// library at equal accuracy? Size: the mesh that core/treatment uses for finished leather (58 cells, two components) and
// for absorbent leather (48 cells); accuracy is the largest miss of x over the final profile against a run at 1e-7.
// Both run in this process on one core. The library's Rosenbrock method has dense matrices only; that is part of the ratio.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <vector>

#include "core/diffusion/section.hpp"
#include "tests/support/section_by_odeint.hpp"
#include "tests/support/section_story.hpp"

namespace {

using namespace hw;

double seconds() { return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count(); }

double miss(const std::vector<double>& x, const std::vector<double>& right) {
    double worst = 0;
    for (std::size_t i = 0; i < x.size(); ++i) worst = std::max(worst, std::abs(x[i] - right[i]));
    return worst;
}

struct Timed {
    double tolerance, ms, miss;
    int steps;
};

void compare(const char* name, test::SectionCase s) {
    s.options.tolerance_1 = 1e-7;
    s.options.max_time_steps = 200000;
    const auto right = diffusion::run_section(s.components, s.layers, s.story, s.options);
    if (!right.ok()) {
        std::printf("%s: the reference did not settle\n", name);
        return;
    }
    const auto& x = right->snapshots.back().x;
    std::vector<Timed> own, other;
    for (double tolerance : {1e-3, 1e-4, 1e-5, 1e-6}) {
        s.options.tolerance_1 = tolerance;
        Timed t{tolerance, 1e9, 0, 0};
        for (int repeat = 0; repeat < 7; ++repeat) {
            const double start = seconds();
            const auto r = diffusion::run_section(s.components, s.layers, s.story, s.options);
            t.ms = std::min(t.ms, 1e3 * (seconds() - start));
            t.miss = miss(r->snapshots.back().x, x);
            t.steps = r->report.iterations;
        }
        own.push_back(t);
    }
    for (double tolerance : {1e-2, 1e-3, 1e-4}) {
        const double start = seconds();
        const auto r = test::section_by_odeint(s, tolerance);
        other.push_back({tolerance, 1e3 * (seconds() - start), miss(r.x, x), r.steps});
    }
    std::printf("%s, %zu cells\n  %-22s %9s %10s %8s\n", name, x.size(), "", "ms", "miss of x", "steps");
    for (const auto& t : own) std::printf("  section    at %-8.0e %9.2f %10.1e %8d\n", t.tolerance, t.ms, t.miss, t.steps);
    for (const auto& t : other) std::printf("  rosenbrock at %-8.0e %9.1f %10.1e %8d\n", t.tolerance, t.ms, t.miss, t.steps);
    for (const auto& t : other) {
        // The cheapest own run that is at least as accurate.
        const Timed* best = nullptr;
        for (const auto& o : own)
            if (o.miss <= t.miss && (best == nullptr || o.ms < best->ms)) best = &o;
        if (best != nullptr) std::printf("  at a miss of %.1e or better: %.0f times the speed of the library\n", t.miss, t.ms / best->ms);
        else std::printf("  at a miss of %.1e: no own run above reaches it\n", t.miss);
    }
}

}  // namespace

int main() {
    compare("finished leather", test::soda_story());
    auto bare = test::soda_story();
    bare.layers.erase(bare.layers.begin());
    compare("absorbent leather", bare);
}
