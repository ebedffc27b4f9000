// The short-lived process in which foreign pictures are read. The program starts itself again with a verb that no help
// shows; `main` hands that over before it does anything else.
#pragma once

#include <string_view>

namespace hw::photo {

inline constexpr const char* child_verb = "read-photo";

/// Whether this process was started to read one photograph.
bool is_child(int argc, char** argv);

/// Locks itself in, reads the photograph on descriptor 0, answers on descriptor 1, and ends the process.
/// @param inside  for tests: called with the bytes once everything is locked; the program itself gives none
[[noreturn]] void child(char** argv, void (*inside)(std::string_view bytes) = nullptr);

}  // namespace hw::photo
