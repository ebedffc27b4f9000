// The typefaces of the print, from inside the program.
#pragma once

#include <mutex>

typedef struct _PangoFontMap PangoFontMap;        // as pango declares it: its headers stay in .cpp files

namespace hw::pdf {

/// A map with nothing in it but the typefaces inside the program: no file of this machine takes part.
/// Made once, for one thread at a time. @return null when the system gives no memory for them
PangoFontMap* typefaces();

/// Held by whoever draws.
std::mutex& one_at_a_time();

}  // namespace hw::pdf
