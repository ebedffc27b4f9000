// Which kind of picture a file is, by its first bytes.
#pragma once

#include <string_view>

#include "base/result.hpp"

namespace hw::photo {

enum class Kind { Jpeg, Png };

/// @error InvalidInput  neither JPEG nor PNG; the message says what it is, where that is known, and the remedy
Result<Kind> kind_of(std::string_view first_bytes);

}  // namespace hw::photo
