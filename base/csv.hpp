// Comma-separated values, RFC 4180, in and out.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace hw::csv {

/// Most bytes, rows and fields that are read.
inline constexpr std::size_t bytes_limit = 1 << 20, rows_limit = 20000, fields_limit = 64;

struct Row {
    int line = 0;                                 ///< of the file, from 1, where the row begins
    std::vector<std::string> fields;
};

/// Rows in their order, the first one too; empty lines and a byte-order mark are left out. CRLF and LF both end a row.
/// @error InvalidInput  an open or misplaced quotation mark, control characters; `where` is "line 3"
/// @error OutOfRange    too many bytes, rows or fields
Result<std::vector<Row>> parse(std::string_view text);

/// One row with its CRLF. Fields are quoted where they need it.
std::string written(const std::vector<std::string>& fields);

/// A field that no spreadsheet takes for a formula: an apostrophe goes before what begins with = + - @, a tab, a carriage
/// return or an apostrophe.
std::string guarded(std::string_view field);
/// Takes that apostrophe away again: unguarded(guarded(x)) is x for every x.
std::string unguarded(std::string_view field);

}  // namespace hw::csv
