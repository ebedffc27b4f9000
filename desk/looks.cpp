#include "desk/looks.hpp"

#include <algorithm>
#include <cmath>

#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool is_ratio(const atlas::LookKindsRow& kind) { return kind.scale == "ratio"; }

std::string error_words(const atlas::LookKindsRow& kind) {
    std::string out;
    const std::string unit = kind.unit.empty() ? "" : " " + std::string(kind.unit);
    if (!std::isnan(kind.half_1)) out = "± " + fixed(kind.half_1, kind.half_1 < 1 ? (kind.half_1 * 10 == std::round(kind.half_1 * 10) ? 1 : 2) : 0) + unit;
    if (std::isnan(kind.half_times_1)) return out;
    const std::string times = is_ratio(kind) ? "a factor of " + fixed(kind.half_times_1, 1) : "± " + fixed(100 * (kind.half_times_1 - 1), 0) + " %";
    return out.empty() ? times : out + " and " + times;
}

}  // namespace

const atlas::LookKindsRow* look_kind(std::string_view key) {
    for (const auto& row : atlas::look_kinds)
        if (row.key == key) return &row;
    return nullptr;
}

std::vector<LookKind> look_kinds() {
    std::vector<LookKind> out;
    for (const auto& row : atlas::look_kinds)
        out.push_back({std::string(row.key), std::string(row.plain_name), std::string(row.unit), row.lowest_1, row.highest_1, error_words(row), row.when == "time", row.key == "product_drops", row.when == "pass", std::string(row.how),
                       {std::string(row.plain_name) + ": " + error_words(row), std::string(row.source), std::string(row.locator), standing_of(row.standing), ""}});
    return out;
}

double in_scale(const atlas::LookKindsRow& kind, double value) { return is_ratio(kind) ? std::log(std::max(value, kind.lowest_1)) : value; }
double from_scale(const atlas::LookKindsRow& kind, double scaled) { return is_ratio(kind) ? std::exp(scaled) : scaled; }

double own_sd(const atlas::LookKindsRow& kind, const Look& look, double expected, double more) {
    if (is_ratio(kind)) {
        // When leather looks darker is known within a factor, however well the clock was read.
        const double factor = look.plus_minus_1 ? 1 + *look.plus_minus_1 / std::max(look.value_1, kind.lowest_1) : 1;
        return std::log(std::max(kind.half_times_1, factor)) / half_90_1;
    }
    double half = look.plus_minus_1.value_or(kind.half_1);
    if (!look.plus_minus_1 && !std::isnan(kind.half_times_1)) half = std::hypot(half, expected * (kind.half_times_1 - 1));
    // A band of no width at all would make one reading infinitely sure.
    constexpr double finest_1 = 0.05;
    return std::hypot(std::max(half, finest_1 * kind.half_1), more) / half_90_1;
}

}  // namespace hw::desk
