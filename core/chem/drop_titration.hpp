// A product titrated by counting drops: what it holds, and how far that may lie off.
#pragma once

#include <array>

namespace hw::chem {

/// What was done, and the half widths of what is not known: `bell` ones hold nine times in ten, the count is anywhere within its.
struct DropTitration {
    double drops_1 = 0;                           ///< to the end
    double drop_g = 0.05;                         ///< one of them; a gram of thin solution is a millilitre
    double titrant_mol_kg = 0;                    ///< acid or base that a kilogram of the drops brings, up to the end
    double sample_g = 1;                          ///< of product
    double count_half_1 = 1;                      ///< drops, even
    double drop_half_1 = 0;                       ///< of drop_g, relative, bell
    double titrant_half_1 = 0;                    ///< of titrant_mol_kg, relative, bell
    double sample_half_1 = 0;                     ///< of sample_g, relative, bell
    double end_half_mol_kg = 0;                   ///< of the product near the end, bell: what the strip may err by, times how it buffers there
};

struct DropReserve {
    double mol_kg = 0;                            ///< acid or base that a kilogram of product takes up
    double standard_mol_kg = 0;                   ///< standard uncertainty
    double half_mol_kg = 0;                       ///< half width that holds nine times in ten
    std::array<double, 5> share_1{};              ///< of the variance: count, drop, titrant, sample, end
};

/// Reserve by the drops, and its uncertainty to first order.
///
///     r = N g c / m
///     u^2 = (c g / m)^2 a^2 / 3  +  r^2 (h_g^2 + h_c^2 + h_m^2) / 1.645^2  +  (h_end / 1.645)^2
///
/// @param t  drops from 0 on; everything else positive
/// @source jcgm100, 4.3.7 (even), 5.1.2 (first order)
/// @see docs/theory/drops.md
DropReserve reserve_from_drops(const DropTitration& t);

/// Half width that holds nine times in ten of a bell, in standard deviations.
inline constexpr double bell_90 = 1.6448536269514722;

}  // namespace hw::chem
