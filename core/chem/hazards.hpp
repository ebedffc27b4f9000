// Products that must not meet: by what they contain, whatever pH is predicted.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/chem/composition.hpp"

namespace hw::chem {

enum class Severity { Stop, Caution, Note };

/// Two things that must not meet.
struct Hazard {
    std::size_t row = 0;                         ///< in atlas::incompatible
    Severity severity = Severity::Note;
    bool from_unknown = false;                   ///< one side is only possibly there: unlabelled or unknown product
};

/// One product that touches the piece, not rinsed off before the next.
struct Product {
    const Totals* liquid = nullptr;
    bool label_known = true;
};

/// All pairs of the products together, and inside each.
///
/// Chlorine bleach stops on co-presence with acid, ammonia, amine, urea, alcohol, peroxide or sulfite, at any amount and any
/// pH: a local drop of acid is enough. A product without a label counts as possibly chlorine bleach.
/// @source hatayama1980, chart; mmwr2020; wadoh
std::vector<Hazard> hazards(const std::vector<Product>& products);

}  // namespace hw::chem
