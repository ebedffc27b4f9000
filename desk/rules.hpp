// The stated numbers that judge turns on, each a row with its source: thresholds, and how far each unknown may lie off.
#pragma once

#include <string>
#include <string_view>

#include "atlas/judging_thresholds.hpp"
#include "atlas/unknowns.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// Row of atlas/judging_thresholds.csv. An unknown key is a bug.
const atlas::JudgingThresholdsRow& threshold(std::string_view key);
Basis basis_of_threshold(std::string_view key, std::string inputs);

/// Row of atlas/unknowns.csv. An unknown key is a bug.
const atlas::UnknownsRow& unknown_row(std::string_view key);

/// Grams of one spray, wipe or gram, and how far they may lie apart.
struct GramsPer {
    double amount_g = 1, low_g = 1, high_g = 1;
    Standing standing = Standing::Derived;
    std::string source, locator;
};
GramsPer grams_per(Amount amount);

}  // namespace hw::desk
