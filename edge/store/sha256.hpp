// The name of a file by its content.
#pragma once

#include <string>
#include <string_view>

namespace hw::store {

/// SHA-256 (FIPS 180-4) as 64 small hex digits.
std::string sha256(std::string_view bytes);

}  // namespace hw::store
