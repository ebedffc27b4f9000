// What waits to be done, as a file that a calendar reads.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/spot.hpp"

namespace hw::codec {

/// One line of content, folded: no line is longer than 75 octets, and no character is cut in two.
/// @source rfc5545, 3.1
std::string folded(std::string_view line);

/// Text as a value: backslash, comma, semicolon and line breaks escaped.
/// @source rfc5545, 3.3.11
std::string escaped(std::string_view text);

/// An iCalendar file, times in UTC, one event of a quarter of an hour for each spot; the same spot keeps its UID. No alarms.
/// @param now  ISO 8601, UTC: when it was made
/// @source rfc5545, 3.6.1
std::string calendar_written(const std::vector<desk::SpotDue>& due, std::string_view now);

}  // namespace hw::codec
