#include "core/chem/volatility.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/co2_reactions.hpp"
#include "atlas/constants.hpp"
#include "atlas/film_transfer.hpp"
#include "atlas/volatiles.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

constexpr double standard_atmosphere_pa = 101325, water_kg_m3 = 1000;
constexpr double co2_diffusion_25_m2_s = 1.92e-9;  // parkhurst2013

double rate(std::string_view name, double kelvin) {
    for (const auto& row : atlas::co2_reactions)
        if (row.name == name) return std::pow(10.0, row.intercept_1 + row.slope_k / kelvin);
    throw Bug("no CO2 reaction named " + std::string(name));
}

double side(std::string_view name) {
    for (const auto& row : atlas::film_transfer)
        if (row.name == name) return row.velocity_m_s;
    throw Bug("no transfer velocity named " + std::string(name));
}

template <class Same>
std::optional<std::size_t> first_row(Same&& same) {
    const auto found = std::find_if(atlas::volatiles.begin(), atlas::volatiles.end(), same);
    if (found == atlas::volatiles.end()) return std::nullopt;
    return static_cast<std::size_t>(found - atlas::volatiles.begin());
}

}  // namespace

FilmSides still_air() { return {metres_per_second(side("gas side")), metres_per_second(side("liquid side"))}; }

std::optional<std::size_t> volatile_of_system(std::string_view system) {
    if (system.empty()) return std::nullopt;
    return first_row([&](const auto& row) { return row.system == system; });
}

std::optional<std::size_t> volatile_named(std::string_view name) {
    return first_row([&](const auto& row) { return row.name == name; });
}

double henry_mol_m3_pa(std::size_t row, Temperature water) {
    const auto& v = atlas::volatiles[row];
    if (v.system == "carbonate") return water_kg_m3 * std::pow(10.0, log_henry_co2(water)) / standard_atmosphere_pa;
    const double slope = std::isnan(v.henry_slope_k) ? 0 : v.henry_slope_k;
    return v.hcp_mol_m3_pa * std::exp(slope * (1 / water.kelvin() - 1 / 298.15));
}

double henry_1(std::size_t row, Temperature water) { return henry_mol_m3_pa(row, water) * atlas::constants[0].value_j_k_mol * water.kelvin(); }

Speed loss_velocity(std::size_t row, Temperature water, const FilmSides& sides) {
    return metres_per_second(1 / (1 / sides.liquid.in(metres_per_second) + henry_1(row, water) / sides.gas.in(metres_per_second)));
}

Duration loss_time(std::size_t row, Temperature water, Length film, const FilmSides& sides) {
    return seconds(film.in(metres) / loss_velocity(row, water, sides).in(metres_per_second));
}

double neutral_share(std::size_t system, double ph, Temperature water) {
    const AcidSystem& s = acid_systems()[system];
    const auto pk = pk_at(system, water);
    // Weights relative to the neutral form, upward and downward from it, so that none overflows.
    const int neutral = s.top_charge;
    if (neutral < 0 || neutral > s.steps) return 0;
    double sum = 1, weight = 1;
    for (int j = neutral; j < s.steps; ++j) sum += weight *= std::pow(10.0, ph - pk[static_cast<std::size_t>(j)]);
    weight = 1;
    for (int j = neutral; j > 0; --j) sum += weight *= std::pow(10.0, pk[static_cast<std::size_t>(j - 1)] - ph);
    return 1 / sum;
}

std::vector<Leaving> order_of_loss(Temperature water, Length film, Duration dries, const FilmSides& sides) {
    std::vector<Leaving> out;
    for (std::size_t row = 0; row < atlas::volatiles.size(); ++row) {
        const Duration time = loss_time(row, water, film, sides);
        out.push_back({row, time, time < dries});
    }
    std::stable_sort(out.begin(), out.end(), [](const Leaving& a, const Leaving& b) { return a.time < b.time; });
    return out;
}

double co2_hydroxide_rate_m3_mol_s(Temperature water) { return 1e-3 * rate("hydroxide", water.kelvin()); }

double co2_water_rate_per_s() { return rate("water", 298.15); }

double co2_in_balance_mol_m3(Temperature water, double co2_atm) { return water_kg_m3 * co2_atm * std::pow(10.0, log_henry_co2(water)); }

double uptake_enhancement(double rate_per_s, double diffusion_m2_s, Speed liquid_side) {
    const double ha = std::sqrt(rate_per_s * diffusion_m2_s) / liquid_side.in(metres_per_second);
    return ha < 1e-4 ? 1 : ha / std::tanh(ha);
}

double co2_uptake_mol_m2_s(double hydroxide_mol_m3, Temperature water, double co2_atm, const FilmSides& sides) {
    const double k = co2_hydroxide_rate_m3_mol_s(water) * hydroxide_mol_m3 + co2_water_rate_per_s();
    const double d = co2_diffusion_25_m2_s * diffusion_scale(water);
    const double liquid = uptake_enhancement(k, d, sides.liquid) * sides.liquid.in(metres_per_second);
    const double whole = 1 / (1 / liquid + henry_1(*volatile_of_system("carbonate"), water) / sides.gas.in(metres_per_second));
    return whole * co2_in_balance_mol_m3(water, co2_atm);
}

}  // namespace hw::chem
