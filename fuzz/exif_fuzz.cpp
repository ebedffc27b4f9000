// Any bytes as a TIFF structure: an orientation from 1 to 8 and a date of the calendar or none, never a read beyond the end.
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string_view>

#include "edge/photo/exif.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    // A copy of its own, so that a sanitizer sees every byte read beyond it.
    const auto copy = std::make_unique<char[]>(size);
    for (std::size_t i = 0; i < size; ++i) copy[i] = static_cast<char>(data[i]);
    const auto exif = hw::photo::parse_exif({copy.get(), size});
    if (exif.orientation < 1 || exif.orientation > 8) std::abort();
    if (!exif.taken_at.empty() && (exif.taken_at.size() != 19 || exif.taken_at[10] != 'T')) std::abort();
    return 0;
}
