// The engine in configurations small enough for a textbook: every flux, store and exchange term of it is met by a closed
// solution. Each case runs at three resolutions; what is left of the discretisation is the change of the last refinement.
#include "core/diffusion/section.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <numbers>
#include <ostream>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/support/reference.hpp"
#include "tests/support/section_story.hpp"

namespace {

using namespace hw;
using namespace hw::diffusion;
using hw::test::check;
using hw::test::SectionCase;
using Kind = Stage::Kind;
constexpr double pi = std::numbers::pi;

/// A liquid-filled slab without binding, water that stands still, one step of waiting below a bath.
SectionCase slab(double thickness_m, int cells, double growth_1, double wait_s) {
    SectionCase s;
    Layer layer;
    layer.name = "slab";
    layer.thickness_m = thickness_m;
    layer.cells = cells;
    layer.growth_1 = growth_1;
    layer.water_ambient_kg_m3 = 1000;  // one m3 of liquid per m3: concentrations per layer and per liquid agree
    layer.water_full_kg_m3 = 1000 + 1e-6;
    layer.water_conductivity_kg_m_s = 0;
    layer.solute_share_1 = 1;
    layer.solute_exponent_1 = 0;
    s.layers = {layer};
    s.story = {{Kind::Lay, "bath", 1000, {0, {}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, wait_s}};
    s.options.tolerance_1 = 1e-6;
    s.options.log_kw_1 = -14;
    s.options.evaporation_kg_m2_s = 0;
    s.options.film_left_kg_m2 = 0;
    s.options.fixed_surface = true;
    s.options.electroneutral = false;
    s.options.background_mol_m3 = 0;
    s.options.output_s = {wait_s};
    return s;
}

/// A neutral tracer at 1 mol/m3 in the bath and none in the slab.
SectionCase tracer_slab(double thickness_m, int cells, double growth_1, double wait_s, double d_m2_s) {
    SectionCase s = slab(thickness_m, cells, growth_1, wait_s);
    Component c;
    c.name = "tracer";
    c.d_m2_s = d_m2_s;
    s.components = {c};
    s.layers[0].start_mol_m3 = {0.0};
    s.story[0].liquid.total_mol_m3 = {1.0};
    return s;
}

SectionResult solved(const SectionCase& s) {
    auto r = run_section(s.components, s.layers, s.story, s.options);
    if (!r.ok()) throw std::runtime_error(r.error().message);
    return *r;
}

/// Value at a depth through the four nearest cell centres.
double at_depth(const SectionResult& r, double depth_m, const std::function<double(std::size_t)>& value) {
    std::vector<double> z;
    for (std::size_t i = 0; i < r.top_m.size(); ++i) z.push_back((r.top_m[i] + r.bottom_m[i]) / 2);
    const auto above = static_cast<std::size_t>(std::lower_bound(z.begin(), z.end(), depth_m) - z.begin());
    const std::size_t first = std::min(above < 2 ? 0 : above - 2, z.size() - 4);
    double sum = 0;
    for (std::size_t i = first; i < first + 4; ++i) {
        double term = value(i);
        for (std::size_t j = first; j < first + 4; ++j)
            if (j != i) term *= (depth_m - z[j]) / (z[i] - z[j]);
        sum += term;
    }
    return sum;
}

double hydroxide(double x) { return 1000 * (std::pow(10.0, x - 14) - std::pow(10.0, -x)); }
double tracer_at(const SectionResult& r, double depth_m) {
    return at_depth(r, depth_m, [&](std::size_t i) { return r.snapshots.back().total_mol_m3[0][i]; });
}
double tracer_taken(const SectionResult& r) { return r.ledger.gained_mol_m2[0] - 0.0 + r.ledger.lost_to_air_mol_m2[0]; }

struct Refined {
    double got = 0, left = 0, order = 0;
};

/// Mesh 1, 2 and 4: the finest value, the change of the last halving, the order at which the changes shrink. The error of
/// the time steps goes as tolerance^(2/3), so an eighth of the tolerance keeps step with half the mesh.
Refined refined(SectionCase s, const std::function<double(const SectionResult&)>& value, double tolerance_factor = 0.125) {
    double g[3];
    for (int level = 0; level < 3; ++level) {
        s.options.mesh_1 = 1 << level;
        g[level] = value(solved(s));
        s.options.tolerance_1 *= tolerance_factor;
    }
    return {g[2], std::abs(g[2] - g[1]), std::log2(std::abs(g[1] - g[0]) / std::abs(g[2] - g[1]))};
}

/// @param model_1  relative: what keeps the configuration from being quite that of the textbook
void check_refined(const std::string& claim, const std::string& source, const std::string& locator, double expected, const Refined& r,
                   double least_order, double model_1 = 0, const std::string& model = {}) {
    std::printf("%-66s closed %.6g  engine %.6g  halving %.1e  order %.2f\n", claim.c_str(), expected, r.got, r.left, r.order);
    check(claim, source, locator, expected, r.got, (0.5e-4 + model_1) * std::abs(expected) + r.left,
          "half a unit of the fourth digit, plus the change of the last halving of mesh and time step" + model);
    // The halving itself must be small, or the tolerance above would say nothing.
    EXPECT_LE(r.left, 1e-3 * std::abs(expected)) << claim;
    // Where the change is far below the digit asked for, an order can no longer be read off.
    if (r.left > 2e-5 * std::abs(expected)) {
        EXPECT_GE(r.order, least_order) << claim;
    }
}

double filled_sites_m(const SectionResult& r, double site_mol_kg) {
    double depth = 0;
    for (std::size_t i = 0; i < r.top_m.size(); ++i) depth += (r.bottom_m[i] - r.top_m[i]) * r.snapshots.back().bound_mol_kg[i] / site_mol_kg;
    return depth;
}

// --- 1: linear sorption -------------------------------------------------------------------------------------------

struct LinearRow {
    double retardation, seconds, depth_m;
};

void PrintTo(const LinearRow& row, std::ostream* out) { *out << "R " << row.retardation << ", " << row.seconds << " s, " << row.depth_m << " m"; }

class LinearSorptionReference : public ::testing::TestWithParam<LinearRow> {};

TEST_P(LinearSorptionReference, FollowsTheErrorFunctionWithARetardedCoefficient) {
    const auto [retardation, seconds, depth] = GetParam();
    const double d = 1e-10, start = hydroxide(10), bath = 10;
    SectionCase s = slab(12 * std::sqrt(d / retardation * seconds), 40, 1.04, seconds);
    s.options.d_strong_cation_m2_s = d;
    s.layers[0].start_x = 10;
    // A site far beyond the range binds in proportion to the hydroxide: B = n 10^(x - 20).
    if (retardation > 1) {
        s.layers[0].dry_density_kg_m3 = 1;
        s.layers[0].sites = {{(retardation - 1) * 1e9, 20}};
    }
    s.story[0].liquid.strong_mol_m3 = bath;
    const double apparent = d / retardation, root = std::sqrt(apparent * seconds);
    const std::string name = "linear sorption R=" + std::to_string(static_cast<int>(retardation)) + ", " + std::to_string(static_cast<int>(seconds)) + " s, ";
    check_refined(name + "c/c0", "crank1975", "eq. 3.13 with D/R of section 14.2", std::erfc(depth / 2 / root), refined(s, [&](const SectionResult& r) {
                      return (at_depth(r, depth, [&](std::size_t i) { return hydroxide(r.snapshots.back().x[i]); }) - start) / (bath - start);
                  }), 1.7);
    check_refined(name + "uptake/c0, m", "crank1975", "eq. 3.15 with D/R of section 14.2", 2 * retardation * std::sqrt(apparent * seconds / pi),
                  refined(s, [&](const SectionResult& r) { return r.ledger.in_leather_strong_mol_m2 / (bath - start); }), 1.5);
}

INSTANTIATE_TEST_SUITE_P(Rows, LinearSorptionReference,
                         ::testing::Values(LinearRow{1, 600, 100e-6}, LinearRow{10, 600, 100e-6}, LinearRow{1, 60, 50e-6},
                                           LinearRow{10, 60, 50e-6}, LinearRow{1, 3600, 300e-6}, LinearRow{10, 3600, 300e-6}));

// --- 2: saturable sorption, sharp front ---------------------------------------------------------------------------

class SharpFrontReference : public ::testing::TestWithParam<double> {};

TEST_P(SharpFrontReference, MovesAsTheMovingBoundarySolution) {
    const double ratio = GetParam(), d = 1e-10, seconds = 600, sites = 500, bath = ratio * sites;
    double low = 1e-3, high = 2;
    for (int i = 0; i < 60; ++i) {
        const double mid = (low + high) / 2;
        (std::sqrt(pi) * mid * std::exp(mid * mid) * std::erf(mid) < ratio ? low : high) = mid;
    }
    SectionCase s = slab(5 * low * std::sqrt(d * seconds), 60, 1, seconds);
    s.options.d_strong_cation_m2_s = d;
    s.options.tolerance_1 = 2e-4;
    s.options.max_time_steps = 40000;
    s.layers[0].start_x = 6;
    s.layers[0].dry_density_kg_m3 = 1;
    s.story[0].liquid.strong_mol_m3 = bath;
    // The sites of the solution are those between start and bath.
    const auto share = [](double x) { return 1 / (1 + std::pow(10.0, 8 - x)); };
    s.layers[0].sites = {{sites / (share(14 + std::log10(bath / 1000)) - share(6)), 8}};
    // Half filled at 1e-3 mol/m3 of hydroxide, not at none; and 1e-3 mol/m3 of acid in the liquid ahead of the front.
    const double model = 2e-3 / bath;
    const std::string why = ", plus what the sites and the liquid ahead hold back beside the bath (2e-3 mol/m3)";
    char name[80];
    std::snprintf(name, sizeof name, "sharp front c0/q=%g, depth, um", ratio);
    check_refined(name, "crank1975", "section 13.2.2, moving boundary with a sharp front (Neumann)", 2e6 * low * std::sqrt(d * seconds),
                  refined(s, [&](const SectionResult& r) { return 1e6 * filled_sites_m(r, sites); }, 1), 0.8, model, why);
    std::snprintf(name, sizeof name, "sharp front c0/q=%g, uptake/c0, m", ratio);
    check_refined(name, "crank1975", "section 13.2.2, moving boundary with a sharp front (Neumann)", 2 * std::sqrt(d * seconds / pi) / std::erf(low),
                  refined(s, [&](const SectionResult& r) { return r.ledger.in_leather_strong_mol_m2 / bath; }, 1), 0.8, model, why);
}

INSTANTIATE_TEST_SUITE_P(Rows, SharpFrontReference, ::testing::Values(0.01, 0.1, 0.5, 1.0));

// --- 3: first-order loss ------------------------------------------------------------------------------------------

struct LossRow {
    double seconds, depth_m;
};

void PrintTo(const LossRow& row, std::ostream* out) { *out << row.seconds << " s, " << row.depth_m << " m"; }

class FirstOrderLossReference : public ::testing::TestWithParam<LossRow> {};

TEST_P(FirstOrderLossReference, FollowsDanckwerts) {
    const auto [t, depth] = GetParam();
    const double d = 1e-9, k = 1e-2;
    SectionCase s = tracer_slab(8 * std::sqrt(d / k), 40, 1.03, t, d);
    // Dry pores in touch with air that holds none of it: a first-order loss.
    s.components[0].neutral_form = 0;
    s.components[0].film_velocity_m_s = 1;
    s.components[0].pore_exchange_per_s = k;
    const double kt = k * t, a = depth / 2 / std::sqrt(d * t), e = depth * std::sqrt(k / d);
    const std::string name = "first-order loss, " + std::to_string(static_cast<int>(t)) + " s, ";
    check_refined(name + "c/c0", "danckwerts1951", "eq. for the plane surface; Crank 1975 eq. 14.12",
                  0.5 * std::exp(-e) * std::erfc(a - std::sqrt(kt)) + 0.5 * std::exp(e) * std::erfc(a + std::sqrt(kt)),
                  refined(s, [&](const SectionResult& r) { return tracer_at(r, depth); }), 1.7);
    check_refined(name + "uptake/c0, m", "danckwerts1951", "eq. for the plane surface; Crank 1975 eq. 14.14",
                  std::sqrt(d / k) * ((kt + 0.5) * std::erf(std::sqrt(kt)) + std::sqrt(kt / pi) * std::exp(-kt)),
                  refined(s, [&](const SectionResult& r) { return tracer_taken(r) - s.story[0].kg_m2 / 1000; }), 1.5);
}

INSTANTIATE_TEST_SUITE_P(Rows, FirstOrderLossReference, ::testing::Values(LossRow{100, 200e-6}, LossRow{1000, 300e-6}));

// --- 4 and 5: plane sheet, finite and endless bath -----------------------------------------------------------------

/// Root n of tan q = -alpha q, between (n - 1/2) pi and n pi.
double sheet_root(double alpha, int n) {
    double low = (n - 0.5) * pi + 1e-12, high = n * pi;
    for (int i = 0; i < 80; ++i) {
        const double mid = (low + high) / 2;
        (std::tan(mid) + alpha * mid < 0 ? low : high) = mid;
    }
    return low;
}

double finite_bath(double alpha, double tau) {
    double sum = 1;
    for (int n = 1; n < 200; ++n) {
        const double q = sheet_root(alpha, n);
        sum -= 2 * alpha * (1 + alpha) / (1 + alpha + alpha * alpha * q * q) * std::exp(-q * q * tau);
    }
    return sum;
}

TEST(PlaneSheetReference, TakesUpFromAWellMixedFilmOfFiniteVolume) {
    const double d = 1e-10, l = 500e-6;
    for (double alpha : {0.25, 1.0, 4.0})
        for (double tau : {0.01, 0.05, 0.1, 0.2, 0.5}) {
            SectionCase s = tracer_slab(l, 40, 1.03, tau * l * l / d, d);
            s.options.fixed_surface = false;
            s.story[0].kg_m2 = 1000 * alpha * l;  // film depth alpha l
            char name[80];
            std::snprintf(name, sizeof name, "sheet in finite film, alpha=%g, Dt/l2=%g, M/Minf", alpha, tau);
            check_refined(name, "crank1975", "eq. 4.37", finite_bath(alpha, tau), refined(s, [&](const SectionResult& r) {
                              double taken = 0;
                              for (std::size_t i = 0; i < r.top_m.size(); ++i) taken += (r.bottom_m[i] - r.top_m[i]) * r.snapshots.back().total_mol_m3[0][i];
                              return taken / (alpha * l / (1 + alpha));
                          }), 1.5);
        }
}

TEST(PlaneSheetReference, TakesUpFromAnEndlessBath) {
    const double d = 1e-10, l = 500e-6;
    for (double tau : {0.01, 0.05, 0.1, 0.2, 0.5, 1.0}) {
        double expected = 1;
        for (int n = 0; n < 200; ++n) {
            const double odd = 2 * n + 1;
            expected -= 8 / (odd * odd * pi * pi) * std::exp(-odd * odd * pi * pi * tau / 4);
        }
        char name[80];
        std::snprintf(name, sizeof name, "sheet in endless bath, Dt/l2=%g, M/Minf", tau);
        const SectionCase s = tracer_slab(l, 40, 1.03, tau * l * l / d, d);
        check_refined(name, "crank1975", "eq. 4.18", expected, refined(s, [&](const SectionResult& r) {
                          double taken = 0;
                          for (std::size_t i = 0; i < r.top_m.size(); ++i) taken += (r.bottom_m[i] - r.top_m[i]) * r.snapshots.back().total_mol_m3[0][i];
                          return taken / l;
                      }), 1.5);
    }
}

// --- 6: surface resistance ----------------------------------------------------------------------------------------

TEST(SurfaceResistanceReference, AThinFinishActsAsASurfaceResistance) {
    const double d = 1e-10, h = 1e-6, t = 600;
    SectionCase s = tracer_slab(12 * std::sqrt(d * t), 40, 1.04, t, 1e-9);
    s.layers[0].solute_share_1 = d / 1e-9;
    Layer finish = s.layers[0];
    finish.name = "finish";
    finish.finish = true;
    finish.cells = 1;
    finish.growth_1 = 1;
    finish.thickness_m = 1e-6;
    finish.water_ambient_kg_m3 = 1;  // it resists, but holds next to nothing: 4e-6 of what the slab takes up
    finish.water_full_kg_m3 = 1 + 1e-6;
    finish.solute_share_1 = h * finish.thickness_m / 1e-9;
    s.layers.insert(s.layers.begin(), finish);
    for (double depth : {0.0, 100e-6}) {
        const double a = depth / 2 / std::sqrt(d * t), b = h / d * std::sqrt(d * t);
        const double expected = std::erfc(a) - std::exp(h * depth / d + b * b) * std::erfc(a + b);
        char name[80];
        std::snprintf(name, sizeof name, "surface resistance, depth %g um, c/c0", depth * 1e6);
        check_refined(name, "carslaw1959", "section 2.7, eq. (1)", expected, refined(s, [&](const SectionResult& r) {
                          // Depths count from below the finish, through leather cells only.
                          std::vector<double> z, c;
                          for (std::size_t i = 0; i < r.top_m.size(); ++i)
                              if (r.layer_of[i] == 1) {
                                  z.push_back((r.top_m[i] + r.bottom_m[i]) / 2 - finish.thickness_m);
                                  c.push_back(r.snapshots.back().total_mol_m3[0][i]);
                              }
                          const auto above = static_cast<std::size_t>(std::lower_bound(z.begin(), z.end(), depth) - z.begin());
                          const std::size_t first = std::min(above < 2 ? 0 : above - 2, z.size() - 4);
                          double sum = 0;
                          for (std::size_t i = first; i < first + 4; ++i) {
                              double term = c[i];
                              for (std::size_t j = first; j < first + 4; ++j)
                                  if (j != i) term *= (depth - z[j]) / (z[i] - z[j]);
                              sum += term;
                          }
                          return sum;
                      }), 1.7);
    }
}

// --- 7: electroneutral coupling -----------------------------------------------------------------------------------

/// Coefficient that the uptake of a slab from a bath of one salt shows, m2/s.
double shown_d(const SectionResult& r, double step_mol_m3, double t) {
    const double m = r.ledger.in_leather_strong_mol_m2 / step_mol_m3;
    return m * m * pi / 4 / t;
}

struct SaltRow {
    const char* name;
    double start_x, bath_mol_m3, start_mol_m3, background_mol_m3, expected_m2_s;
    const char* source;
    const char* locator;
};

void PrintTo(const SaltRow& row, std::ostream* out) { *out << row.name; }

class CouplingReference : public ::testing::TestWithParam<SaltRow> {};

TEST_P(CouplingReference, ASaltMovesAsAWholeAndATracerAlone) {
    const auto& row = GetParam();
    const double t = 60;
    SectionCase s = slab(12 * std::sqrt(row.expected_m2_s * t), 40, 1.04, t);
    s.options.electroneutral = true;
    s.options.background_mol_m3 = row.background_mol_m3;
    s.layers[0].start_x = row.start_x;
    s.story[0].liquid.strong_mol_m3 = row.bath_mol_m3;
    const Refined r = refined(s, [&](const SectionResult& result) { return 1e9 * shown_d(result, row.bath_mol_m3 - row.start_mol_m3, t); });
    check_refined(std::string(row.name) + ", 1e9 D, m2/s", row.source, row.locator, 1e9 * row.expected_m2_s, r, 1.5);
}

// Nernst-Hartley values to the four digits of the ionic coefficients; sodium 1.334, chloride 2.032, H+ 9.311, OH- 5.273.
INSTANTIATE_TEST_SUITE_P(Rows, CouplingReference,
                         ::testing::Values(SaltRow{"NaOH alone", 12, 100, hydroxide(12), 0, 2 * 1.334e-9 * 5.273e-9 / (1.334e-9 + 5.273e-9), "robinson2002", "Nernst-Hartley relation"},
                                           SaltRow{"HCl alone", 2, -100, hydroxide(2), 0, 2 * 9.311e-9 * 2.032e-9 / (9.311e-9 + 2.032e-9), "robinson2002", "Nernst-Hartley relation"},
                                           SaltRow{"H+ in excess salt", 4, -1, hydroxide(4), 1e5, 9.311e-9, "crc", "tracer value of H+"},
                                           SaltRow{"OH- in excess salt", 10, 1, hydroxide(10), 1e5, 5.273e-9, "crc", "tracer value of OH-"}));

TEST(CouplingSaltReference, SodiumAcetateMovesAsAWhole) {
    const double t = 60, cation = 1.334e-9, anion = 1.089e-9, whole = 2 * cation * anion / (cation + anion);
    SectionCase s = slab(12 * std::sqrt(whole * t), 40, 1.04, t);
    Component acetate;
    acetate.name = "acetate";
    acetate.log_k = {-4.756};
    acetate.d_m2_s = anion;
    s.components = {acetate};
    s.options.electroneutral = true;
    s.layers[0].start_x = 8.5;
    s.layers[0].start_mol_m3 = {10.0};
    s.story[0].liquid = {strong_charge(s.components, {100.0}, 8.5, -14), {100.0}};
    const double step = s.story[0].liquid.strong_mol_m3 - strong_charge(s.components, {10.0}, 8.5, -14);
    check_refined("Na acetate alone, 1e9 D, m2/s", "robinson2002", "Nernst-Hartley relation", 1e9 * whole,
                  refined(s, [&](const SectionResult& r) { return 1e9 * shown_d(r, step, t); }), 1.5);
}

// --- 8: balance ---------------------------------------------------------------------------------------------------

TEST(BalanceProperty, AClosedFilmAndSlabKeepAlkaliAndComponentsToRoundOff) {
    SectionCase s = hw::test::soda_story();
    for (auto& c : s.components) c.neutral_form = -1;
    s.options.evaporation_kg_m2_s = 0;
    s.story = {{Kind::Lay, "wetted", 0.05, {100, {60, 5}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, 3600}};
    EXPECT_LE(solved(s).ledger.worst_balance_1, 1e-12);
}

// --- 9: a cloth pressed on -----------------------------------------------------------------------------------------

/// Water alone, a straight conductivity, and a skin held full for a time that the far side does not notice.
TEST(PressReference, ASkinHeldFullTakesUpAsTheRootOfTime) {
    constexpr double room = 500, conductivity = 1e-6, l = 3e-3;
    for (double seconds : {10.0, 30.0, 60.0}) {
        SectionCase s = slab(l, 60, 1.05, 0);
        s.layers[0].water_ambient_kg_m3 = 100;
        s.layers[0].water_full_kg_m3 = 100 + room;
        s.layers[0].water_conductivity_kg_m_s = conductivity;
        s.options.output_s.clear();
        s.options.fixed_surface = false;
        s.story = {{Kind::Lay, "wet", 1, {0, {}}, 0, 0}, {Kind::Press, "", 0, {}, 0, seconds, 1.0}};
        char name[80];
        std::snprintf(name, sizeof name, "skin held full for %g s, water taken up, kg/m2", seconds);
        check_refined(name, "crank1975", "eq. 3.15", 2 * std::sqrt(room * conductivity * seconds / pi), refined(s, [](const SectionResult& r) { return r.ledger.water_in_leather_kg_m2; }), 1.5);
    }
}

/// What a dry cloth draws is taken with it, whatever share of the film it takes; nothing evaporates under it; the balance is no worse for it.
TEST(PressProperty, AClothKeepsWhatItDraws) {
    SectionCase s = slab(1e-3, 40, 1.05, 0);
    s.layers[0].water_ambient_kg_m3 = 100;
    s.layers[0].water_full_kg_m3 = 600;
    s.layers[0].water_conductivity_kg_m_s = 1e-6;
    s.options.output_s.clear();
    s.options.fixed_surface = false;
    s.options.evaporation_kg_m2_s = 2e-5;
    const auto run = [&](double share, double press_s) {
        s.story = {{Kind::Lay, "wet", 0.05, {0, {}}, 0, 0}, {Kind::Wait, "", 0, {}, 0, 60}, {Kind::Press, "", 0, {}, 0, press_s, 0}, {Kind::Wipe, "off", 0, {}, share, 0}};
        return solved(s);
    };
    const auto none = run(0, 1e-3), half = run(0, 15), whole = run(0, 30), all = run(1, 30);
    EXPECT_LT(none.wiped_off[0].water_kg_m2, half.wiped_off[0].water_kg_m2);
    EXPECT_LT(half.wiped_off[0].water_kg_m2, whole.wiped_off[0].water_kg_m2);
    EXPECT_NEAR(whole.ledger.water_evaporated_kg_m2, none.ledger.water_evaporated_kg_m2, 1e-9);
    // With all of the film nothing is left on it.
    EXPECT_NEAR(all.snapshots.back().film_kg_m2, 0, 1e-12);
    EXPECT_GT(all.wiped_off[0].water_kg_m2, whole.wiped_off[0].water_kg_m2);
    for (const auto* r : {&half, &whole, &all}) EXPECT_LE(r->ledger.worst_balance_1, none.ledger.worst_balance_1 + 1e-12);
}

// --- refusals -----------------------------------------------------------------------------------------------------

TEST(SectionRefusal, NamesWhatIsMissing) {
    SectionCase s = hw::test::soda_story();
    const auto refused = [&](const SectionCase& bad) {
        const auto r = run_section(bad.components, bad.layers, bad.story, bad.options);
        return r.ok() ? std::string("accepted") : r.error().where;
    };
    SectionCase none = s;
    none.layers.clear();
    EXPECT_EQ(refused(none), "layers");
    SectionCase flat = s;
    flat.layers[0].thickness_m = 0;
    EXPECT_EQ(refused(flat), "layers");
    SectionCase crowd = s;
    crowd.components.assign(7, s.components[0]);
    EXPECT_EQ(refused(crowd), "components");
    SectionCase short_list = s;
    short_list.story[0].liquid.total_mol_m3 = {1.0};
    EXPECT_EQ(refused(short_list), "story");
}

TEST(SectionRefusal, StopsWhenTheBudgetIsUsedUpOrTheCallerCancels) {
    SectionCase s = hw::test::soda_story();
    s.options.max_time_steps = 5;
    const auto budget = run_section(s.components, s.layers, s.story, s.options);
    ASSERT_FALSE(budget.ok());
    EXPECT_EQ(budget.error().code, ErrorCode::NotConverged);
    s = hw::test::soda_story();
    const auto cancelled = run_section(s.components, s.layers, s.story, s.options, [](double, const char*) { return false; });
    ASSERT_FALSE(cancelled.ok());
    EXPECT_EQ(cancelled.error().code, ErrorCode::NotConverged);
}

}  // namespace
