// H, P and EUH statements, by their codes or by the regulation's wording.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/sheet/facts.hpp"
#include "core/sheet/lines.hpp"

namespace hw::sheet {

/// Running text that knows which word each of its letters came from.
struct Run {
    std::string text;
    std::vector<std::size_t> word_at;          ///< for each byte of text, index into words; for blanks the word before
    std::vector<Word> words;

    void add(const Word& word, std::string_view printed);
    [[nodiscard]] std::vector<Word> between(std::size_t begin, std::size_t end) const;
};
Run run_of(const std::vector<Line>& lines, std::size_t begin, std::size_t end);
Run run_of(const std::vector<Word>& words);

/// Codes printed as such, in order, repeated ones too; combined ones with `+`.
std::vector<Text> printed_codes(const Run& run);

/// Codes of a section, each once, in the order of the sheet: the printed ones, and for a kind of statement (H, EUH, P) of
/// which no code is printed at all, those whose wording stands there.
std::vector<Fact<Code>> codes_in(const Run& run, std::string_view language);

}  // namespace hw::sheet
