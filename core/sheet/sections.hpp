// The sixteen titles of a sheet, whatever they look like.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "core/sheet/lines.hpp"

namespace hw::sheet {

/// Lines of one section in Flow::lines: title from `title` up to `begin`, text from there up to `end`.
struct Span {
    bool found = false;
    std::size_t title = 0, begin = 0, end = 0;
};

struct Sections {
    std::array<Span, 16> spans;            ///< [0] is section 1
    std::size_t front = 0;                 ///< lines before the first title
    int count = 0;
    std::string language;                  ///< of most titles; empty without
    double language_share = 0;
};

Sections sections_of(const Flow& flow);

/// Whether a line by itself reads like a numbered title, or the first line of one.
bool may_be_title(const std::string& text);

}  // namespace hw::sheet
