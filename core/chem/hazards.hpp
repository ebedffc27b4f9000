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

/// What to do about a hazard, people first, and what never to do. Nothing in it adds one thing to another.
struct Advice {
    std::vector<std::string> do_now;
    std::vector<std::string> never;
};

/// Hazard classes of a row of atlas::substances ("acid", "alcohol", ...); its kind is the first.
std::vector<std::string_view> hazard_classes(std::size_t substance);

/// Hazard classes that the name of an ingredient gives away when the ingredient itself is not known to us.
std::vector<std::string_view> hazard_classes_by_name(std::string_view ingredient);

/// Whether a whole word or words stand inside a name: "silica" is not in "silicate". @param word  small letters
bool names_word(std::string_view name, std::string_view word);

/// All pairs of the products together, and inside each, most severe first. Products used one after the other on a piece that
/// was not rinsed are products together.
///
/// Chlorine bleach stops on co-presence with acid, ammonia, amine, urea, alcohol, peroxide, sulfite or solvent, at any amount
/// and any pH: a local drop of acid is enough. A product without a label counts as possibly chlorine bleach, acid or ammonia
/// towards every other product, as far as the meeting would stop.
/// @source hatayama1980, chart; mmwr2020; wadoh
std::vector<Hazard> hazards(const std::vector<Product>& products);

/// Product of the meeting in words ("chlorine gas"), from atlas::incompatible.
std::string_view product_of(const Hazard& hazard);

/// Our own words; a stop puts people first.
Advice advice(const Hazard& hazard);

}  // namespace hw::chem
