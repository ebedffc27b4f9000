// Rows of the atlas by their key.
#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "base/result.hpp"
#include "base/source.hpp"

namespace hw::desk {

/// The row of a key that somebody gave; null where there is none.
template <class Rows>
auto find_row(const Rows& rows, std::string_view key) -> const typename Rows::value_type* {
    for (const auto& row : rows)
        if (row.key == key) return &row;
    return nullptr;
}

/// The row of a key that was checked before. An unknown key is a bug.
template <class Rows>
auto row_of(const Rows& rows, std::string_view key) -> const typename Rows::value_type& {
    const auto* row = find_row(rows, key);
    if (row == nullptr) throw Bug("no row " + std::string(key));
    return *row;
}

/// What people call a key; the key itself where there is no row.
template <class Rows>
std::string name_in(const Rows& rows, std::string_view key) {
    const auto* row = find_row(rows, key);
    return row == nullptr ? std::string(key) : std::string(row->plain_name);
}

/// What a finding stands on, from the row that it was taken from.
template <class Row>
Basis basis_of_row(const Row& row, std::string_view rule, std::string inputs = {}) {
    return {std::string(rule), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
}

}  // namespace hw::desk
