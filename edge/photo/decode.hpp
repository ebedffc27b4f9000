// Foreign bytes to a picture. Runs in the child and nowhere else: whatever goes wrong ends the process with an answer.
#pragma once

#include <string_view>

#include "edge/photo/wire.hpp"

namespace hw::photo {

/// Reads a photograph, makes its copies, writes the answer to the pipe, and ends the process.
[[noreturn]] void decode_and_answer(std::string_view bytes);

/// Writes a refusal to the pipe and ends the process.
[[noreturn]] void refuse(Refusal refusal);

/// Lets the picture libraries ask for what they want to know of the processor, before the doors are shut.
void warm_up();

}  // namespace hw::photo
