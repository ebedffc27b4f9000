#include "desk/rules.hpp"

#include "atlas/doses.hpp"
#include "desk/rows.hpp"

namespace hw::desk {

const atlas::JudgingThresholdsRow& threshold(std::string_view key) { return row_of(atlas::judging_thresholds, key); }

Basis basis_of_threshold(std::string_view key, std::string inputs) {
    const auto& row = threshold(key);
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

const atlas::UnknownsRow& unknown_row(std::string_view key) { return row_of(atlas::unknowns, key); }

GramsPer grams_per(Amount amount) {
    constexpr std::array<std::string_view, 3> keys{"grams", "sprays", "cloth_wipes"};
    const auto& row = row_of(atlas::doses, keys[static_cast<std::size_t>(amount)]);
    return {row.amount_g, row.low_g, row.high_g, standing_of(row.standing), std::string(row.source), std::string(row.locator)};
}

}  // namespace hw::desk
