// How far two words lie apart: for "did you mean".
#pragma once

#include <cstddef>
#include <string_view>

namespace hw {

/// Letters to put in, drop or change to make one word of the other (bytes, so an umlaut counts as two).
std::size_t letters_apart(std::string_view a, std::string_view b);

}  // namespace hw
