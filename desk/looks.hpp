// Kinds of reading, and what one reading is worth: its value in the scale of its kind, and its own error.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "atlas/look_kinds.hpp"
#include "base/result.hpp"
#include "desk/refine.hpp"

namespace hw::desk {

/// A kind of reading, for whoever chooses one.
struct LookKind {
    std::string key, name, unit;
    double least_1 = 0, most_1 = 0;
    std::string error;                            ///< half width of its 90 % band, in words
    bool needs_time = false;
    bool needs_drops = false;
    bool needs_pass = false;
    std::string how;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, LookKind& k) {
    visit("key", k.key, About{});
    visit("name", k.name, About{});
    visit("unit", k.unit, About{});
    visit("least_1", k.least_1, About{.doc = "in the unit"});
    visit("most_1", k.most_1, About{});
    visit("error", k.error, About{.doc = "half width of its 90 % band, in words"});
    visit("needs_time", k.needs_time, About{});
    visit("needs_drops", k.needs_drops, About{});
    visit("needs_pass", k.needs_pass, About{});
    visit("how", k.how, About{});
    visit("basis", k.basis, About{});
}
std::vector<LookKind> look_kinds();

/// Row of atlas/look_kinds.csv, if there is one.
const atlas::LookKindsRow* look_kind(std::string_view key);

/// What a member expects of a reading, in the scale of its kind, and how far a reading may lie off: 90 % bands of a normal error.
struct Sight {
    double expected = 0, sd = 1;
};

/// Reading scales: as it is, or its logarithm where errors are factors.
double in_scale(const atlas::LookKindsRow& kind, double value);
double from_scale(const atlas::LookKindsRow& kind, double scaled);

/// The reading's own error where a member expects `expected` (in its unit).
/// @param more  a further half width, in the unit
double own_sd(const atlas::LookKindsRow& kind, const Look& look, double expected, double more = 0);

/// Half width of a 90 % band in standard deviations.
inline constexpr double half_90_1 = 1.6448536269514722;

}  // namespace hw::desk
