// The tables of atlas that a reader of sheets needs, folded once.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hw::sheet {

/// One word or phrase of atlas/sheet_words.csv.
struct Phrase {
    std::string key, language;
    std::string folded, squeezed;
    std::size_t rank = 0;          ///< place in its cell: the first is the most telling
};

/// All phrases of a kind ("label", "column", "value", "state", "kind", "jurisdiction", "word", "month", "class"), longest first.
const std::vector<Phrase>& phrases(std::string_view kind);

/// Phrases of one key, longest first.
std::vector<const Phrase*> phrases(std::string_view kind, std::string_view key);

/// Whether one of the phrases of a key stands in the folded text as a word of its own.
bool says(std::string_view folded, std::string_view kind, std::string_view key);

/// A number of atlas/sheet_rules.csv, and the confidence of a way of reading in atlas/sheet_confidence.csv.
double rule(std::string_view key);
double confidence(std::string_view way);

}  // namespace hw::sheet
