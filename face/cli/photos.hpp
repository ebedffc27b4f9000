// The verb `photos`: list them, show or save one, add files.
#pragma once

#include <string>
#include <vector>

#include "desk/ports.hpp"

namespace hw::cli {

/// @return  one line per photograph
std::string line_of(const desk::Photo& photo);
std::string text_of(const desk::Photo& photo);

/// @error InvalidInput
Result<desk::PhotoSize> parse_photo_size(const std::string& word);

/// Reads a file of this machine and keeps it, or finds it kept already.
Result<desk::Photo> add_photo(const std::string& file, desk::Photos& photos);

}  // namespace hw::cli
