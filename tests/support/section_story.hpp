// One story of use for tests and benches of the section engine: invented round numbers, no leather of any customer.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "core/diffusion/section.hpp"

namespace hw::test {

/// A section with everything that `run_section` takes.
struct SectionCase {
    std::vector<diffusion::Component> components;
    std::vector<diffusion::Layer> layers;
    std::vector<diffusion::Stage> story;
    diffusion::Options options;
};

/// Carbonate system at an ionic strength near 0.1, with exchange between film, pores and air.
inline diffusion::Component carbonate() {
    diffusion::Component c;
    c.name = "carbonate";
    c.log_k = {-6.15, -9.92};
    c.d_m2_s = 1.18e-9;
    c.neutral_form = 0;
    c.air_mol_m3 = 0.0143;
    c.film_velocity_m_s = 2e-5;
    c.hydroxide_rate_m3_mol_s = 8.4;
    c.pore_exchange_per_s = 0.02;
    return c;
}

/// A polyprotic acid that stays where the water brings it.
inline diffusion::Component citrate() {
    diffusion::Component c;
    c.name = "citrate";
    c.log_k = {-2.93, -4.35, -5.76};
    c.d_m2_s = 0.66e-9;
    return c;
}

/// Carbonate in a liquid that is in balance with the air at x, mol per m3.
inline double carbonate_of_air(const diffusion::Component& c, double x) {
    double weight = 1, sum = 1;
    for (double k : c.log_k) sum += weight *= std::pow(10.0, k + x);
    return c.air_mol_m3 * sum;
}

/// Sites of a tanned and finished hide: carboxyl groups, amines, and a flat remainder between 6 and 9.
inline std::vector<diffusion::Site> hide_sites() {
    return {{0.2, 3.9}, {0.4, 4.3}, {0.02, 6.5}, {0.2, 10.4}, {0.05, 6.5}, {0.05, 7.5}, {0.05, 8.5}};
}

/// Film on finish (20 um), grain (300 um) and corium (900 um); an alkaline liquid is laid on, left, half wiped off,
/// rinsed with water, blotted and left to dry for a day.
inline SectionCase soda_story(double strong_mol_m3 = 100, double carbonate_mol_m3 = 60, double citrate_mol_m3 = 5) {
    SectionCase s;
    s.components = {carbonate(), citrate()};
    const double start_x = 4;
    const std::vector<double> start = {carbonate_of_air(s.components[0], start_x), 0.0};
    diffusion::Layer film;
    film.name = "finish";
    film.finish = true;
    film.thickness_m = 20e-6;
    film.cells = 10;
    film.water_ambient_kg_m3 = 20;
    film.water_full_kg_m3 = 100;
    film.water_conductivity_kg_m_s = 1e-8;
    film.solute_share_1 = 3e-3;
    film.solute_exponent_1 = 2;
    film.air_share_1 = 0;
    diffusion::Layer grain;
    grain.name = "grain";
    grain.thickness_m = 300e-6;
    grain.cells = 30;
    grain.growth_1 = 1.07;
    grain.dry_density_kg_m3 = 610;
    grain.water_ambient_kg_m3 = 71;
    grain.water_full_kg_m3 = 520;
    grain.water_conductivity_kg_m_s = 1e-5;
    grain.water_exponent_1 = 8;
    grain.solute_share_1 = 0.19;
    grain.solute_exponent_1 = 10.0 / 3;
    grain.sites = hide_sites();
    diffusion::Layer corium = grain;
    corium.name = "corium";
    corium.thickness_m = 900e-6;
    corium.cells = 18;
    corium.growth_1 = 1.12;
    s.layers = {film, grain, corium};
    for (auto& layer : s.layers) {
        layer.start_x = start_x;
        layer.start_mol_m3 = start;
    }
    using Kind = diffusion::Stage::Kind;
    const diffusion::LaidLiquid liquid{strong_mol_m3, {carbonate_mol_m3, citrate_mol_m3}};
    const diffusion::LaidLiquid water{0, {0.014, 0}};
    s.story = {{Kind::Lay, "wetted", 0.05, liquid, 0, 0}, {Kind::Wait, "", 0, {}, 0, 120},  {Kind::Wipe, "wiped", 0, {}, 0.5, 0},
               {Kind::Lay, "rinsed", 0.03, water, 0, 0},  {Kind::Wait, "", 0, {}, 0, 60},   {Kind::Wipe, "blotted", 0, {}, 0.6, 0},
               {Kind::Wait, "", 0, {}, 0, 86400}};
    s.options.evaporation_kg_m2_s = 0.069 / 3600;
    return s;
}

/// Deepest place below the surface, m, that x ever passed from above; straight between the middles of cells.
inline double front_m(const diffusion::SectionResult& r, const std::vector<diffusion::Layer>& layers, double front_x) {
    double deepest = 0;
    for (const auto& s : r.snapshots)
        for (std::size_t i = s.x.size(); i-- > 1;) {
            if (layers[static_cast<std::size_t>(r.layer_of[i - 1])].finish) break;
            if (s.x[i - 1] <= front_x || s.x[i] > front_x) continue;
            const double a = (r.top_m[i - 1] + r.bottom_m[i - 1]) / 2, b = (r.top_m[i] + r.bottom_m[i]) / 2;
            deepest = std::max(deepest, a + (b - a) * (s.x[i - 1] - front_x) / (s.x[i - 1] - s.x[i]));
            break;
        }
    return deepest;
}

/// x over depth at a moment, straight between the middles of cells.
struct Profile {
    std::vector<double> depth_m, x;
    [[nodiscard]] double at(double depth) const {
        const auto it = std::lower_bound(depth_m.begin(), depth_m.end(), depth);
        if (it == depth_m.begin()) return x.front();
        if (it == depth_m.end()) return x.back();
        const auto i = static_cast<std::size_t>(it - depth_m.begin());
        return x[i - 1] + (x[i] - x[i - 1]) * (depth - depth_m[i - 1]) / (depth_m[i] - depth_m[i - 1]);
    }
    /// Largest miss at any of our depths.
    [[nodiscard]] double miss(const Profile& right) const {
        double worst = 0;
        for (std::size_t i = 0; i < x.size(); ++i) worst = std::max(worst, std::abs(x[i] - right.at(depth_m[i])));
        return worst;
    }
};

/// Below the finish: where `x` holds a number for every cell of the section.
inline Profile profile(const diffusion::SectionResult& r, const std::vector<diffusion::Layer>& layers, const std::vector<double>& x) {
    Profile p;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (layers[static_cast<std::size_t>(r.layer_of[i])].finish) continue;
        p.depth_m.push_back((r.top_m[i] + r.bottom_m[i]) / 2);
        p.x.push_back(x[i]);
    }
    return p;
}

/// The highest x that each place ever came to.
inline Profile highest(const diffusion::SectionResult& r, const std::vector<diffusion::Layer>& layers) {
    std::vector<double> x = r.snapshots.front().x;
    for (const auto& s : r.snapshots)
        for (std::size_t i = 0; i < x.size(); ++i) x[i] = std::max(x[i], s.x[i]);
    return profile(r, layers, x);
}

}  // namespace hw::test
