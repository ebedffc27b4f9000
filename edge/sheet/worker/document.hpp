// Foreign bytes to words, or to the picture of a page. Runs behind the filter and nowhere else.
#pragma once

#include <cstdint>
#include <string_view>

namespace hw::sheet_reader {

/// Lets the library set itself up, before the doors are shut. @param draws  whether a page will be drawn
void warm_up(bool draws);

[[noreturn]] void answer_words(std::string_view bytes);
[[noreturn]] void answer_page(std::string_view bytes, std::uint32_t page, std::uint32_t dpi);

}  // namespace hw::sheet_reader
