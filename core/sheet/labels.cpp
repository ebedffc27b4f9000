#include "core/sheet/labels.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

constexpr std::size_t longest_label_words = 18;

/// A word, or a part of one that was printed together with its colon: "pH:12".
struct Token {
    std::string text;
    Word word;
};

std::vector<Token> tokens_of(const Cell& cell) {
    std::vector<Token> out;
    for (const Word& w : cell.words) {
        const std::string text = plain(w.text);
        const std::size_t colon = text.find(':');
        const bool inside = colon != std::string::npos && colon > 0 && colon + 1 < text.size() && is_letter(text[colon - 1]) && text[colon + 1] != '/';
        if (!inside) { out.push_back({text, w}); continue; }
        Word left = w, right = w;
        left.text = text.substr(0, colon + 1);
        right.text = text.substr(colon + 1);
        out.push_back({left.text, left});
        out.push_back({right.text, right});
    }
    return out;
}

bool is_bullet(const std::string& t) {
    if (t.empty()) return true;
    const bool letter = t.size() == 2 && is_letter(t[0]) && (t[1] == ')' || t[1] == '.');
    const bool sign = std::none_of(t.begin(), t.end(), [](char c) { return is_letter(c) || is_digit(c) || c == '%' || c == '<' || c == '>' || c == '='; }) && t != ":" && t.find("..") == std::string::npos;
    bool numbering = t.find('.') != std::string::npos && is_digit(t[0]);
    for (const char c : t) numbering = numbering && (is_digit(c) || c == '.' || c == ')');
    return letter || sign || numbering;
}

bool is_dots(const std::string& t) {
    return !t.empty() && std::all_of(t.begin(), t.end(), [](char c) { return c == '.' || c == '_'; });
}

bool opens_qualifier(const std::vector<Token>& t, std::size_t k) {
    static const std::set<std::string, std::less<>> starters{"at", "bei", "a", "as", "in", "@", "of", "dans", "en", "(at", "(bei", "des", "pur", "and/or", "/", "&"};
    if (k >= t.size()) return false;
    const std::string f = fold(t[k].text);
    return f.starts_with("(") || f.starts_with("[") || f.starts_with("@") || starters.contains(f) || (k > 0 && t[k - 1].text.ends_with(','));
}

/// Labels of a kind by their squeezed letters, and every beginning of one.
struct Book {
    std::map<std::string, std::vector<const Phrase*>, std::less<>> whole;
    std::set<std::string, std::less<>> beginnings;
};
const Book& book(std::string_view kind) {
    static std::map<std::string, Book, std::less<>> books = [] {
        std::map<std::string, Book, std::less<>> out;
        for (const std::string_view k : {"label", "column"}) {
            Book& b = out[std::string(k)];
            for (const Phrase& p : phrases(k)) {
                b.whole[p.squeezed].push_back(&p);
                for (std::size_t n = 5; n < p.squeezed.size(); ++n) b.beginnings.insert(p.squeezed.substr(0, n));
            }
        }
        return out;
    }();
    return books.find(kind)->second;
}

struct Match {
    std::size_t tokens = 0;                    ///< of the cell, bullets included; 0: none
    const std::vector<const Phrase*>* phrases = nullptr;
    std::size_t lines = 1;                     ///< the label runs over so many lines
};

Match match_of(const std::vector<Token>& t, const Book& b, std::string* whole_cell = nullptr) {
    Match match;
    std::size_t start = 0;
    while (start < t.size() && start < 2 && is_bullet(t[start].text)) ++start;
    std::string s;
    for (std::size_t k = start; k < t.size() && k < start + longest_label_words; ++k) {
        const std::string letters = squeeze(t[k].text);
        if (letters.empty() && !s.empty()) { if (t[k].text == ":") break; continue; }      // "<" belongs to the value, not to the label
        s += letters;
        const auto it = b.whole.find(s);
        if (it != b.whole.end()) { match.tokens = k + 1; match.phrases = &it->second; }
        if (t[k].text.ends_with(':') && it == b.whole.end() && match.tokens == 0 && k > start + 12) break;
    }
    if (whole_cell != nullptr) *whole_cell = s;
    return match;
}

std::vector<Word> words_from(const std::vector<Token>& t, std::size_t from) {
    std::vector<Word> out;
    for (std::size_t k = from; k < t.size(); ++k) out.push_back(t[k].word);
    return out;
}

std::string text_from(const std::vector<Token>& t, std::size_t from, std::size_t to) {
    std::string out;
    for (std::size_t k = from; k < to && k < t.size(); ++k) out += (out.empty() ? "" : " ") + t[k].text;
    return out;
}

bool starts_label(const Cell& cell, const Book& b) {
    const auto t = tokens_of(cell);
    const Match m = match_of(t, b);
    if (m.tokens == 0) return false;
    return m.tokens == t.size() || t[m.tokens - 1].text.ends_with(':') || t[m.tokens].text == ":" || is_dots(t[m.tokens].text);
}

/// Whether a line opens with words and a colon: a label, known or not.
bool opens_with_colon(const Line& line) {
    const auto& words = line.cells.front().words;
    for (std::size_t k = 0; k < words.size() && k < 6; ++k)
        if (words[k].text.ends_with(':')) return true;
    return line.cells.size() > 1 && line.cells[1].text.starts_with(':');
}

bool is_separator(const std::string& t) {
    return t == "|" || t == "\xC2\xB7" || t == "\xE2\x80\xA2" || t == "-" || t == ";" || t == "/";
}

/// Whether a word within a line begins where other lines of the page begin or have a cell: a value close behind a label set to the right.
bool value_aligned(const std::vector<Line>& lines, std::size_t at, const Word& word) {
    constexpr std::size_t enough = 4;          // words at one and the same place in as many lines are no accident
    std::size_t begun = 0, cells = 0;
    for (std::size_t i = at > 40 ? at - 40 : 0; i < lines.size() && i < at + 40; ++i) {
        if (i == at || lines[i].page != lines[at].page || lines[i].cells.front().x0 < lines[at].cells.front().x0 - 60) continue;
        for (const Cell& c : lines[i].cells) {
            cells += std::abs(c.x0 - word.x0) < 0.5 ? 1 : 0;
            for (const Word& w : c.words) begun += std::abs(w.x0 - word.x0) < 0.5 ? 1 : 0;
        }
    }
    return begun >= enough && cells >= 2;
}

/// Cells that hold several labels, "Revised: 3/2024 | Version 2", cut before each label but the first.
std::vector<Cell> cut_at_labels(const Cell& cell, const Book& b) {
    constexpr std::size_t longest = 160;       // letters: beyond is a sentence, and labels in sentences are none
    if (cell.text.size() > longest || cell.words.size() < 3) return {cell};
    const auto t = tokens_of(cell);
    std::vector<std::size_t> cuts;
    std::size_t label_end = 0;
    for (std::size_t k = 0; k < t.size(); ++k) {
        if (k < label_end || is_bullet(t[k].text)) continue;
        const Match m = match_of({t.begin() + static_cast<std::ptrdiff_t>(k), t.end()}, b);
        if (m.tokens == 0) continue;
        const std::size_t end = k + m.tokens;
        const bool colon = t[end - 1].text.ends_with(':') || (end < t.size() && t[end].text == ":");
        const bool behind = k > 0 && is_separator(t[k - 1].text);
        if (k > 0 && (colon || behind) && is_letter(t[k].text.empty() ? ' ' : t[k].text[0])) cuts.push_back(k);
        label_end = end;
    }
    if (cuts.empty()) return {cell};
    std::vector<Cell> out;
    cuts.push_back(t.size());
    std::size_t from = 0;
    for (const std::size_t cut : cuts) {
        std::vector<Word> words;
        std::size_t to = cut;
        while (to > from && cut < t.size() && is_separator(t[to - 1].text)) --to;
        for (std::size_t k = from; k < to; ++k) words.push_back(t[k].word);
        from = cut;
        if (words.empty()) continue;
        Line line = line_of(words, 1e9);
        out.push_back(line.cells.front());
    }
    return out;
}

}  // namespace

std::string Labelled::text() const {
    std::vector<std::string> rows;
    for (const auto& row : value) {
        std::string s;
        for (const Word& w : row) s += (s.empty() ? "" : " ") + plain(w.text);
        rows.push_back(s);
    }
    return joined(rows);
}

std::vector<Word> Labelled::words() const {
    std::vector<Word> out;
    for (const auto& row : value) out.insert(out.end(), row.begin(), row.end());
    return out;
}

bool is_label(std::string_view text) {
    Cell cell;
    for (const std::string_view w : split(text, ' ')) { Word word; word.text = std::string(w); cell.words.push_back(word); }
    return starts_label(cell, book("label"));
}

std::vector<Labelled> labels_in(const std::vector<Line>& printed, std::size_t begin, std::size_t end, double line_pt,
                                std::string_view kind, const std::vector<std::string_view>& keys) {
    static const std::set<std::string_view> wordy{"product", "supplier", "revision_date", "replaced_date", "revision", "signal_word", "storage", "disposal", "incompatible", "state", "name"};
    const Book& b = book(kind);
    std::vector<Line> lines(printed.begin(), printed.begin() + static_cast<std::ptrdiff_t>(end));
    for (std::size_t i = begin; i < end; ++i) {
        std::vector<Cell> cells;
        for (const Cell& c : lines[i].cells)
            for (Cell& part : cut_at_labels(c, b)) cells.push_back(std::move(part));
        lines[i].cells = std::move(cells);
    }
    std::vector<Labelled> out;
    for (std::size_t i = begin; i < end; ++i) {
        const Line& line = lines[i];
        for (std::size_t c = 0; c < line.cells.size(); ++c) {
            const Cell& cell = line.cells[c];
            std::vector<Token> t = tokens_of(cell);
            std::string whole;
            Match m = match_of(t, b, &whole);
            // A label over several lines of its column, also where its first line alone would be another one. It may end in
            // the middle of its last line, with the value behind it.
            const Cell* value_cell = &cell;
            std::size_t value_line = i, value_c = c;
            if (b.beginnings.contains(whole)) {
                std::string s = whole;
                double y = cell.y1;
                bool done = false;
                for (std::size_t k = 1; k <= 5 && i + k < end && !done; ++k) {
                    const Line& below = lines[i + k];
                    if (below.page != line.page || below.y0 - y > 0.9 * line_pt) break;
                    const auto it = std::find_if(below.cells.begin(), below.cells.end(), [&](const Cell& o) { return std::abs(o.x0 - cell.x0) < 4; });
                    if (it == below.cells.end()) continue;
                    const auto more = tokens_of(*it);
                    for (std::size_t n = 0; n < more.size() && n < 10; ++n) {
                        s += squeeze(more[n].text);
                        const auto found = b.whole.find(s);
                        if (found == b.whole.end()) continue;
                        if (n + 1 == more.size()) { m = {t.size(), &found->second, k + 1}; done = true; }
                        else if (more[n].text.ends_with(':') || more[n + 1].text == ":" || is_dots(more[n + 1].text) || more[n].text.ends_with("..")) {
                            m = {n + 1, &found->second, 1};
                            t = more;
                            value_cell = &*it;
                            value_line = i + k;
                            value_c = static_cast<std::size_t>(it - below.cells.begin());
                            done = true;
                        }
                        if (done) break;
                    }
                    y = it->y1;
                    if (!done && !b.beginnings.contains(s)) break;
                }
            }
            if (m.tokens == 0) continue;
            const Line& value_row = lines[value_line];
            const Phrase* phrase = nullptr;
            for (const Phrase* p : *m.phrases)
                if (keys.empty() || std::find(keys.begin(), keys.end(), p->key) != keys.end())
                    if (phrase == nullptr || p->rank < phrase->rank) phrase = p;
            if (phrase == nullptr) continue;
            Labelled found;
            found.key = phrase->key;
            found.rank = phrase->rank;
            found.line = value_line;
            const bool is_wordy = wordy.contains(phrase->key);

            std::size_t at = m.tokens;
            bool colon = t[at - 1].text.ends_with(':') || t[at - 1].text.ends_with("..");
            if (!colon && opens_qualifier(t, at)) {
                std::size_t k = at;
                while (k < t.size() && k < at + 12 && !t[k].text.ends_with(':') && !is_dots(t[k].text)) ++k;
                if (k < t.size() && (t[k].text.ends_with(':') || is_dots(t[k].text))) { found.qualifier = text_from(t, at, k + 1); at = k + 1; colon = true; }
                else if (value_c + 1 < value_row.cells.size()) { found.qualifier = text_from(t, at, t.size()); at = t.size(); }
                else if (t[at].text.front() == '(' || t[at].text.front() == '[') {
                    k = at;
                    while (k < t.size() && t[k].text.find_first_of(")]") == std::string::npos) ++k;
                    if (k < t.size()) { found.qualifier = text_from(t, at, k + 1); at = k + 1; }
                }
            }
            while (at < t.size() && (t[at].text == ":" || t[at].text == "=" || is_dots(t[at].text) || (t[at].text == "-" && at + 1 < t.size()))) { colon = true; ++at; }
            if (at < t.size() && !colon && !is_wordy && value_c + 1 < value_row.cells.size()) {
                // more words of the label, the value in the next cell
                const std::string rest = text_from(t, at, t.size());
                if (std::none_of(rest.begin(), rest.end(), is_digit) && t.size() - at <= 6 && std::any_of(value_row.cells[value_c + 1].text.begin(), value_row.cells[value_c + 1].text.end(), is_digit)) {
                    found.qualifier += rest;
                    at = t.size();
                }
            }
            double value_x = value_cell->x0;
            std::size_t last = value_line + m.lines - 1;
            if (at < t.size()) {
                found.found = colon ? Found::Colon : value_aligned(lines, value_line, t[at].word) ? Found::Cell : Found::Loose;
                auto words = words_from(t, at);
                while (words.size() > 1 && is_dots(words.front().text)) words.erase(words.begin());
                found.value.push_back(words);
                if (!is_wordy)         // the unit may stand in a cell of its own
                    for (std::size_t n = value_c + 1; n < value_row.cells.size() && !starts_label(value_row.cells[n], b) && !value_row.cells[n].text.ends_with(':'); ++n)
                        found.beside.insert(found.beside.end(), value_row.cells[n].words.begin(), value_row.cells[n].words.end());
            } else {
                for (std::size_t r = value_line; r <= last && r < end; ++r) {
                    const Line& row = lines[r];
                    std::vector<Word> words;
                    bool first = true;
                    for (std::size_t n = 0; n < row.cells.size(); ++n) {
                        const Cell& o = row.cells[n];
                        if (o.x0 < value_cell->x1 - 1 || (r == value_line && n <= value_c)) continue;
                        if (first && (o.text.ends_with(':') && starts_label(o, b))) break;
                        if (!first && (is_wordy || starts_label(o, b) || o.text.ends_with(':'))) break;
                        if (o.text == ":") continue;
                        if (first && found.value.empty()) value_x = o.x0;
                        auto& to = first ? words : found.beside;
                        first = false;
                        to.insert(to.end(), o.words.begin(), o.words.end());
                    }
                    if (!words.empty()) found.value.push_back(words);
                }
                found.found = Found::Cell;
                if (!found.value.empty() && found.value[0].size() > 1 && found.value[0][0].text == ":") found.value[0].erase(found.value[0].begin());
                if (found.value.empty() && m.lines == 1) {
                    // Cells set to their middle: the lines of the value stand above and below the height of the label.
                    const double middle = (value_row.y0 + value_row.y1) / 2;
                    const auto lone = [&](std::size_t r) { return r >= begin && r < end && lines[r].page == value_row.page && lines[r].cells.front().x0 > value_cell->x1 + 2; };
                    const auto height = [&](std::size_t r) { return (lines[r].y0 + lines[r].y1) / 2; };
                    std::size_t up = 0, down = 0;
                    while (lone(value_line - 1 - up) && middle - height(value_line - 1 - up) < (static_cast<double>(up) + 0.75) * line_pt) ++up;
                    while (lone(value_line + 1 + down) && height(value_line + 1 + down) - middle < (static_cast<double>(down) + 0.75) * line_pt) ++down;
                    if (up > 0 && down > 0) up = down = std::min(up, down);
                    else { up = std::min<std::size_t>(up, 1); down = std::min<std::size_t>(down, 1); }
                    for (std::size_t r = value_line - up; r <= value_line + down; ++r) {
                        if (r == value_line) continue;
                        value_x = lines[r].cells.front().x0;
                        found.value.push_back(lines[r].cells.front().words);
                    }
                    last += down;
                }
            }
            const bool beside = found.found == Found::Cell && !found.value.empty();
            if (found.value.empty()) { found.found = Found::Below; value_x = value_cell->x0; }
            double y = lines[std::min(last, end - 1)].y1;
            int page = lines[std::min(last, end - 1)].page;
            const bool more_labels = found.found != Found::Below && !beside && value_c + 1 < value_row.cells.size();
            for (std::size_t r = last + 1; r < end && found.value.size() < 14 && !more_labels; ++r) {
                const Line& row = lines[r];
                const bool same_page = row.page == page;
                if (same_page && row.y0 - y > (found.value.empty() ? 1.4 : 0.75) * line_pt) break;
                if (!same_page && !found.value.empty() && found.found != Found::Below) break;
                auto it = row.cells.begin();
                if (beside) {
                    while (it != row.cells.end() && it->x0 < value_x - 3) ++it;
                    if (it == row.cells.end() || std::abs(it->x0 - value_x) > 4 || it != row.cells.begin()) break;
                } else if (std::abs(it->x0 - value_x) > 16 && it->x0 < value_x) break;
                if (starts_label(*it, b) || (found.value.size() >= 1 && opens_with_colon(row))) break;
                std::vector<Word> words;
                for (; it != row.cells.end(); ++it) {
                    words.insert(words.end(), it->words.begin(), it->words.end());
                    if (is_wordy && found.found != Found::Below) break;
                }
                found.value.push_back(words);
                y = row.y1;
                page = row.page;
            }
            out.push_back(std::move(found));
        }
    }
    return out;
}

}  // namespace hw::sheet
