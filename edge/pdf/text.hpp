// Foreign text made fit to be set: nothing in it can break a line, a direction or a page.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hw::pdf {

/// Valid UTF-8 on one line: control characters, direction marks and invisible characters are left out, white space
/// becomes single spaces, no letter carries more than two marks, and what is longer than `most` characters ends in "…".
std::string fit(std::string_view text, std::size_t most = 600);

/// Keeps a number and its unit on one line: "30 µm", "pH 4.6", "6 ± 1".
std::string glued(std::string text);

/// Where units with a stroke stand ("mmol/m²"), from and to in bytes: a line must not end inside them.
std::vector<std::pair<std::size_t, std::size_t>> whole_units(const std::string& text);

}  // namespace hw::pdf
