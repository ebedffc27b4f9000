// The two things that are read from a photograph's EXIF block: which way is up, and when it was taken.
#pragma once

#include <string>
#include <string_view>

namespace hw::photo {

struct Exif {
    int orientation = 1;   ///< 1 to 8 (tag 0x0112)
    std::string taken_at;  ///< tag 0x9003 as ISO 8601 without zone; empty when it is missing, blank or no date
};

/// Reads a TIFF structure (what follows "Exif\0\0" in a JPEG; the eXIf chunk of a PNG). Pure; never fails: what cannot be
/// read keeps its default. Every offset is checked against the size, and no directory is followed twice.
Exif parse_exif(std::string_view tiff);

/// "2024:05:17 10:11:12" as "2024-05-17T10:11:12"; empty for what is no date of the calendar.
std::string iso_date(std::string_view exif_date);

}  // namespace hw::photo
