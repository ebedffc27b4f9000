#include "core/chem/electrode.hpp"

#include <cmath>

#include "atlas/constants.hpp"

namespace hw::chem {

namespace {

constexpr double gas_constant_j_k_mol = atlas::constants[0].value_j_k_mol, faraday_c_mol = atlas::constants[1].value_c_mol;
static_assert(atlas::constants[0].name == "gas_constant" && atlas::constants[1].name == "faraday");

}  // namespace

double nernst_slope_mv(double water_c) { return 1000 * std::log(10.0) * gas_constant_j_k_mol * (water_c + 273.15) / faraday_c_mol; }

Result<Electrode> electrode(const BufferRead& one, const BufferRead& two, bool in_mv, double water_c, double apart_ph) {
    for (double v : {one.ph, one.read, two.ph, two.read, water_c})
        if (!std::isfinite(v)) return Error{ErrorCode::InvalidInput, "Give the pH of both buffers and what the meter showed in each.", "buffers"};
    if (std::abs(one.ph - two.ph) < apart_ph) return Error{ErrorCode::InvalidInput, "These two buffers lie too near to each other to tell the slope. Take two that lie further apart, as 4 and 7.", "buffers"};
    const double slope_mv = nernst_slope_mv(water_c);
    const auto shown_ph = [&](double read) { return in_mv ? 7 - read / slope_mv : read; };
    const double rise = (shown_ph(two.read) - shown_ph(one.read)) / (two.ph - one.ph);
    return Electrode{100 * rise, shown_ph(one.read) + rise * (7 - one.ph) - 7};
}

}  // namespace hw::chem
