// The program that reads data sheets for hidewright, one sheet each time it is started.
//
//   hidewright-sheet words CPU_S            every word with its box, and what XML is attached
//   hidewright-sheet page CPU_S PAGE DPI    one page as a PNG
//
// The bytes come on descriptor 0, the answer (edge/sheet/wire.hpp) goes to descriptor 1. It is a program of its own for two
// reasons: what it reads may be hostile, and the library that reads it is under another licence than hidewright.
#pragma once

#include <string_view>

namespace hw::sheet_reader {

/// Locks itself in, reads, answers, and ends the process.
/// @param inside  for tests: called with the bytes once everything is locked; the program itself gives none
[[noreturn]] void work(int argc, char** argv, void (*inside)(std::string_view bytes) = nullptr);

}  // namespace hw::sheet_reader
