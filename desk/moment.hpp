// Times as they are written: ISO 8601, UTC.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace hw::desk {

/// Seconds since 1970 of "2026-01-02T03:04:05Z" (a fraction of a second may stand before the Z) or "2026-01-02".
/// Nothing when it is no such time.
std::optional<std::int64_t> parse_moment(std::string_view text);
/// The other way: "2026-01-02T03:04:05Z".
std::string moment(std::int64_t seconds);
/// "2026-01-02 03:04", for people.
std::string moment_words(std::string_view at);

}  // namespace hw::desk
