// Shuts the worker off from the machine before it looks at a single foreign byte.
#pragma once

namespace hw::sheet_reader {

/// What of the machine is left open.
enum class Needs {
    Nothing,   ///< words are in the file
    Typefaces  ///< a page that brings no typeface of its own is drawn with those of this machine
};

/// Opens what the library would open later: typefaces, and the tables of the character sets. Before `lock_in`.
void prepare(Needs needs);

/// @return  false where the system cannot do it: nothing may be read then
bool lock_in(Needs needs, unsigned long cpu_s);

}  // namespace hw::sheet_reader
