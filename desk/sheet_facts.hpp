// What core/sheet has read, as people are shown it; and what people type, as the same.
#pragma once

#include <string>

#include "base/result.hpp"
#include "core/sheet/facts.hpp"
#include "desk/digest.hpp"

namespace hw::desk {

/// Below this chance a person should look (core/sheet/facts.hpp).
inline constexpr double look_below_1 = 0.8;

/// A number without noise: "12.6", "0.05", "1200".
std::string plain(double value);

/// Groups, ingredients and contradictions of what was read.
void show_facts(const sheet::Facts& facts, FactFrom from, DigestAnswer& into);

/// An answer with every fact that can be typed and nothing in any.
void show_nothing(DigestAnswer& into);

/// The row of an ingredient that nobody has said anything of.
SheetIngredient empty_ingredient(std::size_t index);

/// Puts what somebody typed into a fact, checked; what was there stays as what the sheet says.
/// @error InvalidInput  it cannot be that; the message says what can; `where` is "value"
Result<Done> put_typed(SheetFact& fact, const std::string& typed, CorrectedBy how);

}  // namespace hw::desk
