// The end of the worker: what it found goes through the pipe, and the process ends.
#pragma once

#include <cstdint>
#include <string_view>

#include "edge/sheet/wire.hpp"

namespace hw::sheet_reader {

[[noreturn]] void answer(std::uint32_t pages, std::uint32_t attachments, std::string_view body);
[[noreturn]] void refuse(Refusal refusal, std::uint32_t pages = 0);

}  // namespace hw::sheet_reader
