// Numbers in sentences, and the version that answers.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/belief.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A value with so many decimals, decimal point, no trailing noise.
std::string fixed(double value, int decimals);

/// A value with as many decimals as its band supports: the last digit shown is of the size of the band.
std::string to_band(double value, double plus_minus);

/// Seconds in words: "2 min", "3 h", "1 day".
std::string span(double seconds);

Number number(double value, double plus_minus, std::string unit, Standing standing, std::string band_from);

inline constexpr std::string_view program_version = "hidewright 0.1.0";
/// The number alone: what follows the name.
inline constexpr std::string_view version_number = program_version.substr(program_version.find(' ') + 1);

/// A grade on its scale: "stays within", "comes back", "lasts", "goes deep", "not known", "stop".
std::string_view grade_word(Grade grade);

/// A grade where it stands alone, so that it says of what: "no limit passed", "past a limit for a while" …
std::string_view grade_alone(Grade grade);
/// Of a kind of harm, whose grade is that of the middle case: "no limit passed in most cases" where others pass it.
std::string grade_alone(const Harm& harm);

/// "a, b, c"; with `most`, "a, b and 3 more".
std::string listed(const std::vector<std::string>& items, std::size_t most = std::string::npos);

/// A sentence as a clause: small first letter, no full stop at its end.
std::string as_clause(std::string sentence);

/// A share in words: "about 7 in 10", without more digits than the members of an ensemble bear.
std::string in_ten(double share_1);

/// A share in per cent; decimals only where it lies so near to none or all that whole ones would hide it.
std::string per_cent(double share_1);

/// What a standing means to people: "published", "trade custom, no source", "worked out".
std::string_view standing_words(Standing standing);

/// A factor in words, one digit: "4", "300", "5 thousand", "2 million".
std::string times_words(double factor);

}  // namespace hw::desk
