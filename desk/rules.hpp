// The stated numbers that judge turns on, each a row with its source: thresholds, and how far a gentle or harsh reading moves.
#pragma once

#include <string>
#include <string_view>

#include "atlas/case_shifts.hpp"
#include "atlas/judging_thresholds.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// Row of atlas/judging_thresholds.csv. An unknown key is a bug.
const atlas::JudgingThresholdsRow& threshold(std::string_view key);
Basis basis_of_threshold(std::string_view key, std::string inputs);

/// Row of atlas/case_shifts.csv. An unknown key is a bug.
const atlas::CaseShiftsRow& case_shift(std::string_view key);

/// Grams of one spray, wipe or gram, and how far they may lie apart.
struct GramsPer {
    double amount_g = 1, low_g = 1, high_g = 1;
    Standing standing = Standing::Derived;
};
GramsPer grams_per(Amount amount);

}  // namespace hw::desk
