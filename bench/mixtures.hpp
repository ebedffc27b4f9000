// Random liquids for the benches, and how much processor time a piece of work takes.
#pragma once

#include <cmath>
#include <ctime>
#include <random>
#include <string_view>
#include <vector>

#include "core/chem/composition.hpp"
#include "core/chem/systems.hpp"

namespace hw::bench {

/// Amount between 10^low and 10^high mol/kg, even in its logarithm.
inline double log_even(std::mt19937_64& random, double low, double high) {
    return std::pow(10.0, std::uniform_real_distribution<double>(low, high)(random));
}

/// Some of `systems`, each present with chance one half, strong acid or base, inert salt; 1e-6 to 3 mol/kg each. Strong
/// ions are named by kind only (no sodium), so that no specific interaction or ion pair enters, unless `salts`.
inline chem::Totals random_liquid(std::mt19937_64& random, const std::vector<std::size_t>& systems, bool salts) {
    chem::Totals t;
    t.system_mol_kg.assign(chem::acid_systems().size(), 0.0);
    std::bernoulli_distribution half(0.5);
    const double top = 0.4771212547196624;  // log10 of 3 mol/kg
    for (std::size_t s : systems)
        if (half(random)) t.system_mol_kg[s] = log_even(random, -6, top);
    if (half(random)) (salts ? t.sodium_mol_kg : t.other_cation_mol_kg) += log_even(random, -6, top);
    if (half(random)) (salts ? t.chloride_mol_kg : t.other_anion_mol_kg) += log_even(random, -6, top);
    if (half(random)) {
        const double salt = log_even(random, -6, top);
        (salts ? t.potassium_mol_kg : t.other_cation_mol_kg) += salt;
        (salts ? t.chloride_mol_kg : t.other_anion_mol_kg) += salt;
    }
    return t;
}

/// Processor time of one call, s: what the thread used itself, so that a busy machine disturbs less.
template <class Work>
double seconds_of(Work&& work) {
    const std::clock_t start = std::clock();
    work();
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

}  // namespace hw::bench
