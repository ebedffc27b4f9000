#include "core/chem/drop_titration.hpp"

#include <cmath>

#include "base/result.hpp"

namespace hw::chem {

DropReserve reserve_from_drops(const DropTitration& t) {
    HW_EXPECTS(t.drops_1 >= 0 && t.drop_g > 0 && t.titrant_mol_kg > 0 && t.sample_g > 0);
    DropReserve out;
    const double per_drop = t.titrant_mol_kg * t.drop_g / t.sample_g;
    out.mol_kg = t.drops_1 * per_drop;
    const std::array<double, 5> u{per_drop * t.count_half_1 / std::sqrt(3.0), out.mol_kg * t.drop_half_1 / bell_90, out.mol_kg * t.titrant_half_1 / bell_90, out.mol_kg * t.sample_half_1 / bell_90, t.end_half_mol_kg / bell_90};
    double sum = 0;
    for (const double x : u) sum += x * x;
    out.standard_mol_kg = std::sqrt(sum);
    out.half_mol_kg = bell_90 * out.standard_mol_kg;
    for (std::size_t i = 0; i < u.size(); ++i) out.share_1[i] = sum > 0 ? u[i] * u[i] / sum : 0;
    return out;
}

}  // namespace hw::chem
