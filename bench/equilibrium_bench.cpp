// How many liquids does one core solve per second, and how does that compare with a bracketing root finder of a
// general-purpose library on the same residual?
//
// Size: 8 acid-base systems with 17 sites (carbonate, phosphate, borate, ammonia, citrate, acetate, EDTA, silicate), all
// present in every liquid with 1e-6 to 0.1 mol/kg, strong acid or base; no complexes, no solids. It comes from the
// household cleaners of the demo, which hold at most six systems beside carbonate; the comparison is thus a full one.
// One thread. Every figure is the best of five runs, so that a busy machine disturbs little.

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdio>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

#include "bench/mixtures.hpp"
#include "core/chem/activity.hpp"
#include "core/chem/batch.hpp"
#include "core/chem/equilibrium.hpp"

namespace {

using namespace hw;

constexpr std::size_t lanes = 32768, scalar_lanes = 2048;
constexpr int repeats = 5;

/// The residual of one lane of a batch, in plain scalar code: charge at a pH and, behind it, the ionic strength.
class Residual {
public:
    Residual(const chem::Batch& batch, std::size_t lane) : b_(batch), l_(lane) {}
    void set_ionic(double at) {
        g_ = std::numbers::ln10 * chem::debye_huckel_term(b_.debye_a_1[l_], at);
        gc_ = std::numbers::ln10 * chem::debye_huckel_term(b_.debye_a_1[l_], at, 1.77);
        k_.clear();
        for (const auto& s : b_.systems)
            for (int j = 0; j < s.steps; ++j)
                k_.push_back(std::exp(std::numbers::ln10 * s.log_k[s.shared ? static_cast<std::size_t>(j) : static_cast<std::size_t>(j) * b_.lanes() + l_] +
                                      (s.ba == 1.5 ? g_ : gc_) * (2 * (s.top_charge - j) - 1)));
        gamma_ = std::exp(g_);
        kw_ = std::pow(10.0, b_.log_kw_1[l_]);
    }
    double operator()(double ph) {
        const double a = std::pow(10.0, -ph), h = a / gamma_, oh = kw_ / a / gamma_, r = 1 / a;
        double charge = b_.strong_mol_kg[l_] + h - oh;
        ionic = b_.inert_mol_kg[l_] + h + oh;
        auto k = k_.begin();
        for (const auto& s : b_.systems) {
            double weight = 1, sum = 1, z1 = s.top_charge, z2 = z1 * z1;
            for (int j = 0; j < s.steps; ++j) {
                const double z = s.top_charge - j - 1;
                weight *= *k++ * r;
                sum += weight;
                z1 += z * weight;
                z2 += z * z * weight;
            }
            charge += s.total_mol_kg[l_] * z1 / sum;
            ionic += s.total_mol_kg[l_] * z2 / sum;
        }
        ionic /= 2;
        return charge;
    }
    double ionic = 0;

private:
    const chem::Batch& b_;
    std::size_t l_;
    double g_ = 0, gc_ = 0, gamma_ = 1, kw_ = 1e-14;
    std::vector<double> k_;
};

/// pH by TOMS 748 inside a fixed point of the ionic strength, to the same 1e-9.
double by_toms748(const chem::Batch& batch, std::size_t lane) {
    Residual f(batch, lane);
    double ionic = 0.05, ph = 7;
    for (int i = 0; i < 100; ++i) {
        f.set_ionic(ionic);
        std::uintmax_t budget = 200;
        const auto root = boost::math::tools::toms748_solve([&](double x) { return f(x); }, -2.5, 16.5, boost::math::tools::eps_tolerance<double>(36), budget);
        ph = (root.first + root.second) / 2;
        f(ph);
        if (std::abs(f.ionic - ionic) < 1e-10 * f.ionic) break;
        ionic = f.ionic;
    }
    return ph;
}

template <class Work>
double best_rate(std::size_t solves, Work&& work) {
    double best = std::numeric_limits<double>::infinity();
    for (int i = 0; i < repeats; ++i) best = std::min(best, bench::seconds_of(work));
    return static_cast<double>(solves) / best;
}

void line(const char* what, double rate, double reference) { std::printf("%-58s %12.0f /s  %8.2f x toms748\n", what, rate, rate / reference); }

}  // namespace

int main() {
    std::mt19937_64 random(20);
    std::vector<std::size_t> systems;
    for (const char* name : {"carbonate", "phosphate", "borate", "ammonia", "citrate", "acetate", "edta", "silicate"}) systems.push_back(chem::system_index(name));
    std::vector<chem::Totals> plain, salty;
    for (std::size_t i = 0; i < lanes; ++i)
        for (bool salts : {false, true}) {
            chem::Totals t = bench::random_liquid(random, {}, salts);
            for (std::size_t s : systems) t.system_mol_kg[s] = bench::log_even(random, -6, -1);
            (salts ? salty : plain).push_back(t);
        }
    chem::Conditions core;
    core.complexes = false;
    const chem::Batch batch = chem::batch_of(plain, core), batch_salts = chem::batch_of(salty, core);

    volatile double sink = 0;
    const double toms = best_rate(scalar_lanes, [&] { for (std::size_t i = 0; i < scalar_lanes; ++i) sink = by_toms748(batch, i); });
    std::printf("Solves per second on one core, 8 systems, 17 sites, 25 degC, no complexes, no solids\n");
    line("toms748_solve of the library, same residual", toms, toms);
    const chem::BatchTarget widest = chem::widest_batch_target();
    const std::vector<std::pair<chem::BatchTarget, const char*>> targets{{chem::BatchTarget::Baseline, "batch, baseline instruction set"},
                                                                         {chem::BatchTarget::Avx2, "batch, avx2"},
                                                                         {chem::BatchTarget::Avx512, "batch, avx512f"}};
    for (const auto& pair : targets) {
        const chem::BatchTarget target = pair.first;
        if (target > widest) continue;
        line(pair.second, best_rate(lanes, [&] { sink = chem::solve_batch(batch, target)->ph[0]; }), toms);
    }
    line("batch, widest, constants per lane (specific interactions)", best_rate(lanes, [&] { sink = chem::solve_batch(batch_salts)->ph[0]; }), toms);
    line("batch from totals, with set-up of the arrays", best_rate(lanes, [&] { sink = chem::equilibria(salty, core)->ph[0]; }), toms);
    line("scalar path, acid-base core", best_rate(scalar_lanes, [&] { for (std::size_t i = 0; i < scalar_lanes; ++i) sink = chem::equilibrium(salty[i], core)->ph; }), toms);
    chem::Conditions full;
    line("full model, ion pairs and polyborates", best_rate(scalar_lanes, [&] { for (std::size_t i = 0; i < scalar_lanes; ++i) sink = chem::equilibrium(salty[i], full)->ph; }), toms);

    const auto answer = chem::solve_batch(batch);
    double worst = 0;
    for (std::size_t i = 0; i < scalar_lanes; ++i) worst = std::max(worst, std::abs(answer->ph[i] - by_toms748(batch, i)));
    std::size_t open = 0;
    for (unsigned char s : answer->settled) open += s == 0;
    std::printf("largest difference of batch and toms748 in pH: %.1e (its own bracket: %.1e); lanes left open: %zu of %zu\n", worst, 19 * std::exp2(-35), open, lanes);
    return open == 0 ? 0 : 1;
}
