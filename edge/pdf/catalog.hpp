// What the drawing library does not write into a PDF by itself.
#pragma once

#include <string>

#include "base/result.hpp"

namespace hw::pdf {

/// Adds to the document's catalogue its language (en-GB), that it is tagged, and that viewers show its title: an
/// incremental update as in ISO 32000-1, 7.5.6, after the bytes that the library wrote.
///
/// @error Unavailable  the file is not laid out as the library lays it out
Result<std::string> with_language(std::string pdf);

}  // namespace hw::pdf
