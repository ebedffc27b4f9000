// Letters as sheets print them: ligatures, accents, dashes and signs made plain, numbers with either decimal mark.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hw::sheet {

/// UTF-8 with ligatures opened, dashes as `-`, unusual blanks as blanks, quotes as `'`, `≥ ≤` as `>= <=`, raised digits as
/// digits, soft hyphens dropped. Letters and their case stay.
std::string plain(std::string_view utf8);

/// One byte a letter, for comparing: plain, lower case, accents taken off, the degree sign as `degree`, anything else that is
/// not ASCII dropped.
std::string fold(std::string_view utf8);
inline constexpr char degree = '\xB0';

/// Only the letters, digits, `%` and `#` of fold(): blanks, hyphens and letter-spacing make no difference.
std::string squeeze(std::string_view utf8);

bool is_digit(char c);
bool is_letter(char c);      ///< a to z in either case

/// How the sheet writes the decimal mark where a number could be read in two ways: "1.200".
enum class Decimal { Point, Comma };

/// A number in a text, with its place there. A comma or point before exactly three digits is a mark of thousands where the
/// sheet uses the other one for decimals; blanks within a number are not read.
struct Number {
    double value = 0;
    std::size_t begin = 0, end = 0;
};
/// The next number at or after `from`; a hyphen before it counts as minus only where nothing stands before the hyphen but
/// blanks, a bracket or a comparison sign.
std::optional<Number> next_number(std::string_view folded, std::size_t from, Decimal decimal);

/// Words of a cell of atlas/sheet_words.csv, which are separated by `|`.
std::vector<std::string_view> split(std::string_view list, char separator);

/// Position of `word` in `folded` where no letter or digit touches it; npos without.
std::size_t find_word(std::string_view folded, std::string_view word, std::size_t from = 0);

}  // namespace hw::sheet
