#include "core/chem/systems.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include "atlas/acid_systems.hpp"
#include "atlas/constants.hpp"
#include "atlas/diffusion.hpp"
#include "atlas/water_laws.hpp"

namespace hw::chem {

namespace {

/// log10 K = a + b T + c/T + d log10 T + e T^2 + f/T^2, T in kelvin.
double law(std::string_view name, Temperature water) {
    const double t = water.kelvin();
    for (const auto& row : atlas::water_laws)
        if (row.law == name)
            return row.constant_1 + row.by_t_1 * t + row.by_reciprocal_1 / t + row.by_log_1 * std::log10(t) + row.by_square_1 * t * t + row.by_reciprocal_square_1 / (t * t);
    throw Bug("no law named " + std::string(name));
}

}  // namespace

const std::vector<AcidSystem>& acid_systems() {
    static const std::vector<AcidSystem> systems = [] {
        std::vector<AcidSystem> out;
        for (std::size_t i = 0; i < atlas::acid_systems.size(); ++i) {
            const auto& row = atlas::acid_systems[i];
            if (out.empty() || out.back().name != row.system) out.push_back({row.system, static_cast<int>(row.top_charge_1), i, 0});
            ++out.back().steps;
        }
        return out;
    }();
    return systems;
}

std::size_t system_index(std::string_view name) {
    const auto& all = acid_systems();
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i].name == name) return i;
    throw Bug("no acid-base system named " + std::string(name));
}

std::vector<double> pk_at(std::size_t system, Temperature water) {
    const AcidSystem& s = acid_systems()[system];
    const double t = water.kelvin(), tr = 298.15, r = atlas::constants[0].value_j_k_mol;
    std::vector<double> out;
    for (int i = 0; i < s.steps; ++i) {
        const auto& row = atlas::acid_systems[s.first_row + static_cast<std::size_t>(i)];
        const double dh = std::isnan(row.dh_kj_mol) ? 0 : row.dh_kj_mol * 1000, dcp = std::isnan(row.dcp_j_mol_k) ? 0 : row.dcp_j_mol_k;
        const double ln_k = -row.pk_1 * std::numbers::ln10 + dh / r * (1 / tr - 1 / t) + dcp / r * (tr / t - 1 + std::log(t / tr));
        out.push_back(-ln_k / std::numbers::ln10);
    }
    return out;
}

double pkw_at(Temperature water) {
    return -law("log_kw", water);
}

double log_henry_co2(Temperature water) {
    return law("log_henry_co2", water);
}

double diffusion_scale(Temperature water) {
    auto log_viscosity = [](double c) { return (20 - c) / (c + 96) * (1.2364 - 1.37e-3 * (20 - c) + 5.7e-6 * (20 - c) * (20 - c)); };
    return water.kelvin() / 298.15 * std::pow(10.0, log_viscosity(25) - log_viscosity(water.celsius()));
}

double diffusion_25(std::size_t system) {
    for (const auto& row : atlas::diffusion)
        if (row.system == acid_systems()[system].name) return row.d_m2_s;
    throw Bug("no diffusion coefficient for " + std::string(acid_systems()[system].name));
}

}  // namespace hw::chem
