#include "core/sheet/codes.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "atlas/sheet_combined.hpp"
#include "atlas/sheet_statements.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

/// A code at this place of the text; `end` is put behind it. Empty without one.
/// @param letter  what a code without its letter gets, as in "P305+351": 0 for none
std::string code_at(const std::string& t, std::size_t at, std::size_t& end, char letter) {
    std::size_t i = at;
    std::string head;
    if (t.compare(i, 3, "EUH") == 0 || t.compare(i, 3, "euh") == 0) { head = "EUH"; i += 3; }
    else if (i < t.size() && (t[i] == 'H' || t[i] == 'P')) { head = std::string(1, t[i]); ++i; }
    else if (letter != 0) head = std::string(1, letter);
    else return {};
    if (i < t.size() && (t[i] == ' ' || t[i] == '-') && i + 1 < t.size() && is_digit(t[i + 1])) ++i;
    if (i + 3 > t.size() || !is_digit(t[i]) || !is_digit(t[i + 1]) || !is_digit(t[i + 2])) return {};
    const std::string number = t.substr(i, 3);
    i += 3;
    const char first = number[0];
    if (head == "H" && (first < '2' || first > '4')) return {};
    if (head == "P" && (first < '1' || first > '5')) return {};
    if (head == "P" && first == '1' && (number < "101" || number > "103")) return {};         // P100 is a filter against dust
    std::string suffix;
    if (head == "H")
        for (const std::string_view s : {"FD", "Fd", "Df", "fd", "F", "D", "f", "d", "i"})
            if (t.compare(i, s.size(), s) == 0 && (number == "360" || number == "361" || (s == "i" && (number == "350" || number == "340")))) { suffix = s; break; }
    if (head == "EUH" && i < t.size() && t[i] == 'A') suffix = "A";
    i += suffix.size();
    if (i < t.size() && (is_letter(t[i]) || is_digit(t[i]))) {
        // "H314Causes": the blank was lost
        const bool glued = head.size() == 1 && upper(t[i]) == t[i] && is_letter(t[i]) && i + 1 < t.size() && t[i + 1] >= 'a' && t[i + 1] <= 'z';
        if (!glued) return {};
    }
    end = i;
    return head + number + suffix;
}

bool known_combination(const std::string& code) {
    return std::any_of(atlas::sheet_combined.begin(), atlas::sheet_combined.end(), [&](const auto& row) { return row.code == code; });
}

/// A run's letters squeezed, with the place of each in the run.
struct Squeezed {
    std::string letters;
    std::vector<std::size_t> at;
};
Squeezed squeezed_run(const Run& run) {
    Squeezed out;
    // Fold word by word, so that each letter keeps the place where its word begins.
    std::size_t i = 0;
    while (i < run.text.size()) {
        std::size_t end = run.text.find(' ', i);
        if (end == std::string::npos) end = run.text.size();
        for (const char c : fold(std::string_view(run.text).substr(i, end - i)))
            if (is_letter(c) || is_digit(c)) { out.letters += c; out.at.push_back(i); }
        i = end + 1;
    }
    return out;
}

struct Worded {
    std::string code;
    std::size_t begin = 0, end = 0;        ///< in the squeezed letters
    bool condition = false;                ///< "IF IN EYES:" and its like, no statement alone
};

bool is_condition(std::string_view code) {
    static constexpr std::array<std::string_view, 14> conditions{"P301", "P302", "P303", "P304", "P305", "P306", "P308", "P332", "P333", "P337", "P342", "P370", "P371", "P364"};
    return std::find(conditions.begin(), conditions.end(), code) != conditions.end();
}

/// Where a telltale with gaps (`*`) begins and ends; npos without.
bool find_telltale(const std::string& text, std::string_view telltale, std::size_t from, std::size_t& begin, std::size_t& end) {
    constexpr std::size_t widest_gap = 110;      // letters: a list of organs or of chosen words
    const auto parts = split(telltale, '*');
    if (parts.empty()) return false;
    for (std::size_t at = text.find(parts[0], from); at != std::string::npos; at = text.find(parts[0], at + 1)) {
        std::size_t last = at + parts[0].size();
        bool whole = true;
        for (std::size_t k = 1; k < parts.size() && whole; ++k) {
            const std::size_t next = text.find(parts[k], last);
            whole = next != std::string::npos && next - last <= widest_gap;
            if (whole) last = next + parts[k].size();
        }
        if (whole) { begin = at; end = last; return true; }
    }
    return false;
}

std::vector<Worded> worded(const std::string& text, std::string_view language, const std::set<std::string>& kinds) {
    std::vector<Worded> all;
    for (const auto& row : atlas::sheet_statements) {
        if (row.language != language) continue;
        const std::string kind = row.code.starts_with("EUH") ? "EUH" : std::string(row.code.substr(0, 1));
        if (!kinds.contains(kind)) continue;
        for (const std::string_view telltale : split(row.telltales, ';')) {
            std::size_t from = 0, begin = 0, end = 0;
            while (find_telltale(text, telltale, from, begin, end)) {
                all.push_back({std::string(row.code), begin, end, is_condition(row.code)});
                from = end;
            }
        }
    }
    // The longest wording wins where two overlap; of two that begin alike the one without a gap.
    std::stable_sort(all.begin(), all.end(), [](const Worded& a, const Worded& b) { return a.end - a.begin > b.end - b.begin; });
    std::vector<Worded> kept;
    for (const Worded& w : all)
        if (std::none_of(kept.begin(), kept.end(), [&](const Worded& k) { return w.begin < k.end && k.begin < w.end; })) kept.push_back(w);
    std::sort(kept.begin(), kept.end(), [](const Worded& a, const Worded& b) { return a.begin < b.begin; });
    // Parts that follow one another directly and make a known combination are one statement.
    std::vector<Worded> out;
    for (std::size_t i = 0; i < kept.size();) {
        Worded one = kept[i];
        std::size_t used = 1;
        std::string chain = one.code;
        for (std::size_t k = i + 1; k < kept.size() && kept[k].begin <= kept[k - 1].end + 24; ++k) {
            chain += "+" + kept[k].code;
            if (known_combination(chain)) { one.code = chain; one.end = kept[k].end; one.condition = false; used = k - i + 1; }
        }
        if (!one.condition) out.push_back(one);
        i += used;
    }
    return out;
}

}  // namespace

void Run::add(const Word& word, std::string_view printed) {
    if (!text.empty()) { text += ' '; word_at.push_back(words.size() - 1); }
    words.push_back(word);
    text += printed;
    word_at.resize(text.size(), words.size() - 1);
}

std::vector<Word> Run::between(std::size_t begin, std::size_t end) const {
    std::vector<Word> out;
    for (std::size_t i = begin, last = words.size(); i < end && i < word_at.size(); ++i)
        if (text[i] != ' ' && word_at[i] != last) { last = word_at[i]; out.push_back(words[last]); }
    return out;
}

Run run_of(const std::vector<Line>& lines, std::size_t begin, std::size_t end) {
    Run run;
    for (std::size_t i = begin; i < end; ++i)
        for (const Cell& c : lines[i].cells)
            for (const Word& w : c.words) run.add(w, plain(w.text));
    return run;
}

Run run_of(const std::vector<Word>& words) {
    Run run;
    for (const Word& w : words) run.add(w, plain(w.text));
    return run;
}

namespace {
/// "H315: 1 % <= C < 5 %": from which share a statement holds; the substance itself has another one.
bool is_specific_limit(const std::string& text, std::size_t end) {
    while (end < text.size() && text[end] == ' ') ++end;
    if (end >= text.size() || text[end] != ':') return false;
    const std::string tail = text.substr(end + 1, 20);
    for (std::size_t c = tail.find('C'); c != std::string::npos; c = tail.find('C', c + 1)) {
        std::size_t next = c + 1;
        while (next < tail.size() && tail[next] == ' ') ++next;
        if ((c == 0 || tail[c - 1] == ' ') && next < tail.size() && (tail[next] == '<' || tail[next] == '>')) return true;
    }
    return false;
}
}  // namespace

std::vector<Text> printed_codes(const Run& run) {
    std::vector<Text> out;
    const std::string& t = run.text;
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (i > 0 && (is_letter(t[i - 1]) || is_digit(t[i - 1]))) continue;
        std::size_t end = 0;
        std::string code = code_at(t, i, end, 0);
        if (code.empty()) continue;
        const char letter = code[0] == 'E' ? 'E' : code[0];
        for (;;) {
            std::size_t k = end;
            while (k < t.size() && t[k] == ' ') ++k;
            const bool plus = k < t.size() && t[k] == '+', slash = k < t.size() && t[k] == '/';
            if (!plus && !slash) break;
            ++k;
            while (k < t.size() && t[k] == ' ') ++k;
            std::size_t next_end = 0;
            const std::string next = code_at(t, k, next_end, letter == 'E' ? '\0' : letter);
            if (next.empty() || next[0] != code[0]) break;
            // a slash joins only what the regulation joins
            if (slash) {
                const bool begins = std::any_of(atlas::sheet_combined.begin(), atlas::sheet_combined.end(), [&](const auto& row) { return row.code.starts_with(code + "+" + next); });
                if (!begins) break;
            }
            code += "+" + next;
            end = next_end;
        }
        if (!is_specific_limit(t, end)) out.push_back({code, place_of(run.between(i, end)), confidence("code_printed")});
        i = end - 1;
    }
    return out;
}

std::vector<Fact<Code>> codes_in(const Run& run, std::string_view language) {
    struct At { std::size_t word; Fact<Code> fact; };
    std::vector<Fact<Code>> out;
    std::set<std::string> seen, silent{"H", "P", "EUH"};
    const auto printed = printed_codes(run);
    for (const Text& c : printed) {
        silent.erase(c.value[0] == 'E' ? "EUH" : c.value.substr(0, 1));
        if (seen.insert(c.value).second) out.push_back({{c.value, false, std::string(wording_of(c.value, language))}, c.place, c.confidence});
    }
    if (silent.empty()) return out;
    const Squeezed squeezed = squeezed_run(run);
    for (const Worded& w : worded(squeezed.letters, language, silent)) {
        if (!seen.insert(w.code).second) continue;
        const std::size_t begin = squeezed.at[w.begin];
        std::size_t end = squeezed.at[w.end - 1];
        end = run.text.find(' ', end);
        if (end == std::string::npos) end = run.text.size();
        out.push_back({{w.code, true, std::string(wording_of(w.code, language))}, place_of(run.between(begin, end)), confidence("code_worded")});
    }
    std::stable_sort(out.begin(), out.end(), [](const Fact<Code>& a, const Fact<Code>& b) {
        if (a.place.page != b.place.page) return a.place.page < b.place.page;
        return false;      // within a page the printed ones come first; the regulation gives no order to the rest
    });
    return out;
}

std::string_view wording_of(std::string_view code, std::string_view language) {
    for (const auto& row : atlas::sheet_statements)
        if (row.code == code && row.language == language) return row.wording;
    return {};
}

}  // namespace hw::sheet
