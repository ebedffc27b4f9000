#include "core/sheet/dictionary.hpp"

#include <algorithm>
#include <map>

#include "atlas/sheet_confidence.hpp"
#include "atlas/sheet_rules.hpp"
#include "atlas/sheet_words.hpp"
#include "base/result.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

using Kinds = std::map<std::string, std::vector<Phrase>, std::less<>>;

Kinds folded_words() {
    Kinds out;
    for (const auto& row : atlas::sheet_words) {
        std::size_t rank = 0;
        for (const std::string_view word : split(row.words, '|'))
            out[std::string(row.kind)].push_back({std::string(row.key), std::string(row.language), fold(word), squeeze(word), rank++});
    }
    for (auto& [kind, list] : out)
        std::stable_sort(list.begin(), list.end(), [](const Phrase& a, const Phrase& b) { return a.squeezed.size() > b.squeezed.size(); });
    return out;
}

}  // namespace

const std::vector<Phrase>& phrases(std::string_view kind) {
    static const Kinds kinds = folded_words();
    const auto it = kinds.find(kind);
    HW_EXPECTS(it != kinds.end());
    return it->second;
}

std::vector<const Phrase*> phrases(std::string_view kind, std::string_view key) {
    std::vector<const Phrase*> out;
    for (const Phrase& p : phrases(kind))
        if (p.key == key) out.push_back(&p);
    return out;
}

bool says(std::string_view folded, std::string_view kind, std::string_view key) {
    for (const Phrase& p : phrases(kind))
        if (p.key == key && find_word(folded, p.folded) != std::string_view::npos) return true;
    return false;
}

double rule(std::string_view key) {
    for (const auto& row : atlas::sheet_rules)
        if (row.key == key) return row.value_1;
    throw Bug("no such rule in atlas/sheet_rules.csv: " + std::string(key));
}

double confidence(std::string_view way) {
    for (const auto& row : atlas::sheet_confidence)
        if (row.key == way) return row.confidence_1;
    throw Bug("no such way of reading in atlas/sheet_confidence.csv: " + std::string(way));
}

}  // namespace hw::sheet
