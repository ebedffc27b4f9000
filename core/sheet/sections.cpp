#include "core/sheet/sections.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "atlas/sheet_titles.hpp"
#include "base/spelling.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

struct Title {
    int number = 0;
    std::string language, squeezed;
};

const std::vector<Title>& titles() {
    static const std::vector<Title> all = [] {
        std::vector<Title> out;
        for (const auto& row : atlas::sheet_titles)
            out.push_back({static_cast<int>(row.section_1), std::string(row.language), squeeze(row.title)});
        return out;
    }();
    return all;
}

struct Candidate {
    int number = 0;
    double score = 0;
    std::size_t line = 0, lines = 1;
    std::set<std::string> languages;
};

/// What stands before the title: "SECTION 3:", "3.", "Abschnitt 3 -", letter-spaced or not.
struct Head {
    bool word = false, sub = false;
    int number = 0;
    std::string rest;              ///< squeezed, from behind the number
};

Head head_of(const std::string& text) {
    Head head;
    std::string tight;
    for (const char c : fold(text))
        if (c != ' ') tight += c;
    std::size_t at = 0;
    while (at < tight.size() && !is_letter(tight[at]) && !is_digit(tight[at])) ++at;
    for (const Phrase& p : phrases("word"))
        if (p.key == "section" && tight.compare(at, p.squeezed.size(), p.squeezed) == 0) {
            const std::size_t after = at + p.squeezed.size();
            std::size_t digit = after;
            while (digit < tight.size() && (tight[digit] == '.' || tight[digit] == ':' || tight[digit] == '-' || tight[digit] == degree || tight[digit] == 'n') && digit < after + 3) ++digit;
            if (digit < tight.size() && is_digit(tight[digit])) { head.word = true; at = digit; break; }
        }
    std::size_t end = at;
    while (end < tight.size() && is_digit(tight[end]) && end - at < 3) ++end;
    if (end > at && end - at <= 2) {
        head.number = std::stoi(tight.substr(at, end - at));
        head.sub = end + 1 < tight.size() && (tight[end] == '.' || tight[end] == ',') && is_digit(tight[end + 1]);
        if (head.sub && tight[end + 1] == '0' && (end + 2 >= tight.size() || !is_digit(tight[end + 2]))) { head.sub = false; end += 2; }      // "2.0 Hazards"
        at = end;
    }
    head.rest = squeeze(tight.substr(at));
    return head;
}

/// How well words fit a title: 1 the same, 0 not at all. `open`: the words may be the first line of a longer title.
/// `near`: a few letters may be wrong.
double fit(const std::string& words, const std::string& title, bool near, bool& open) {
    open = false;
    if (words == title) return 1;
    if (words.size() < 5) return 0;
    if (words.size() > title.size() && words.compare(0, title.size(), title) == 0 && title.size() >= 12)
        return words.size() - title.size() <= 6 || title.size() * 10 >= words.size() * 7 ? 0.9 : 0;
    if (words.size() < title.size() && title.compare(0, words.size(), words) == 0 && words.size() >= (near ? 5U : 8U)) { open = true; return 0.6 + 0.3 * static_cast<double>(words.size()) / static_cast<double>(title.size()); }
    if (near && title.size() >= 10 && words.size() + 3 >= title.size() && words.size() <= title.size() + 3 && letters_apart(words, title) * 8 <= title.size()) return 0.85;
    return 0;
}

/// A title in two languages, "Premiers secours / First aid measures": the first of them, squeezed, and its row. Both halves must be titles of
/// the same section, the second one at least its beginning, since it may go on below.
const Title* first_of_two(const std::string& text, std::string& squeezed) {
    const std::string p = plain(text);
    for (std::size_t at = p.find_first_of("/|-"); at != std::string::npos; at = p.find_first_of("/|-", at + 1)) {
        if (at == 0 || at + 2 >= p.size() || p[at - 1] != ' ' || p[at + 1] != ' ') continue;
        const std::string first = head_of(p.substr(0, at)).rest, second = squeeze(p.substr(at + 1));
        for (const Title& t : titles()) {
            bool open = false;
            if (t.squeezed.size() < 5 || first != t.squeezed) continue;
            for (const Title& other : titles())
                if (other.number == t.number && other.language != t.language && fit(second, other.squeezed, true, open) >= 0.6) { squeezed = first; return &t; }
        }
    }
    return nullptr;
}

std::vector<Candidate> candidates_of(const Flow& flow) {
    std::vector<Candidate> out;
    for (std::size_t i = 0; i < flow.lines.size(); ++i) {
        const Line& line = flow.lines[i];
        Head head = head_of(line.text);
        if (head.sub || head.number > 16 || line.text.size() > 220) continue;
        // A number that stands alone in its line, with the title on the next one.
        std::size_t lines = 1;
        if (head.rest.empty() && (head.number > 0) && i + 1 < flow.lines.size() && flow.lines[i + 1].page == line.page) {
            const Head next = head_of(flow.lines[i + 1].text);
            if (next.number == 0 && std::abs(flow.lines[i + 1].y0 - line.y0) < 2.2 * flow.line_pt) { head.rest = next.rest; lines = 2; }
        }
        const Title* doubled = first_of_two(flow.lines[i + lines - 1].text, head.rest);
        Candidate best;
        for (const Title& t : titles()) {
            bool open = false;
            if (doubled != nullptr && t.number != doubled->number) continue;
            double score = fit(head.rest, t.squeezed, head.number == t.number, open);
            std::size_t used = lines;
            if (open) {        // the title may go on below
                std::string longer = head.rest;
                for (std::size_t k = 1; k <= 3 && i + lines - 1 + k < flow.lines.size(); ++k) {
                    const Line& below = flow.lines[i + lines - 1 + k];
                    longer += squeeze(below.text);
                    bool still = false;
                    const double whole = fit(longer, t.squeezed, head.number == t.number, still);
                    if (whole >= 0.85 && !still) { score = 0.98; used = lines + k; break; }
                    if (whole == 0) break;
                }
            }
            if (score == 0) continue;
            double total = score * 4;
            const bool stands_out = line.bold || line.size_pt > flow.size_pt * 1.04;
            const bool same = head.number == t.number;
            if (head.number > 0) total += same ? 4 : -2;
            if (head.word) total += 2;
            if (head.number == 0) {
                const bool upper = std::none_of(line.text.begin(), line.text.end(), [](char c) { return c >= 'a' && c <= 'z'; });
                if (score < 0.97) continue;
                if (t.squeezed.size() < 14 && !(line.bold || line.size_pt > flow.size_pt * 1.04 || upper)) continue;
                total += upper ? 1 : 0;
            } else if (!same && !head.word) continue;
            if (stands_out) total += 0.5;
            if (line.text.size() > 3 && is_digit(line.text.back()) && head.number > 0) total -= 3;      // a table of contents
            if (total > best.score + 1e-9) best = {t.number, total, i, used, {t.language}};
            else if (total > best.score - 1e-9 && best.number == t.number) best.languages.insert(t.language);
        }
        if (best.number == 0 && head.word && head.number > 0 && line.bold) best = {head.number, 3, i, lines, {}};
        if (best.number > 0) out.push_back(best);
    }
    return out;
}

}  // namespace

bool may_be_title(const std::string& text) {
    const Head head = head_of(text);
    if (head.sub) return false;
    bool open = false;
    return std::any_of(titles().begin(), titles().end(), [&](const Title& t) {
        const double score = fit(head.rest, t.squeezed, head.number == t.number, open);
        return t.squeezed.size() >= 10 && (head.number == t.number ? score >= 0.6 : head.number == 0 && score >= 0.97);
    });
}

Sections sections_of(const Flow& flow) {
    const std::vector<Candidate> all = candidates_of(flow);
    // The best row of titles with growing numbers.
    std::vector<double> best(all.size());
    std::vector<std::size_t> before(all.size(), all.size());
    std::size_t last = all.size();
    for (std::size_t i = 0; i < all.size(); ++i) {
        best[i] = all[i].score;
        for (std::size_t k = 0; k < i; ++k)
            if (all[k].number < all[i].number && best[k] + all[i].score > best[i]) { best[i] = best[k] + all[i].score; before[i] = k; }
        if (last == all.size() || best[i] > best[last]) last = i;
    }
    std::vector<std::size_t> chosen;
    for (std::size_t i = last; i < all.size(); i = before[i]) chosen.push_back(i);
    // A title out of its order, as sections 2 and 3 of older sheets.
    std::array<bool, 17> have{};
    for (const std::size_t i : chosen) have[static_cast<std::size_t>(all[i].number)] = true;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (!have[static_cast<std::size_t>(all[i].number)] && all[i].score >= 6) { have[static_cast<std::size_t>(all[i].number)] = true; chosen.push_back(i); }
    std::sort(chosen.begin(), chosen.end());

    Sections out;
    std::map<std::string, double> languages;
    for (std::size_t c = 0; c < chosen.size(); ++c) {
        const Candidate& it = all[chosen[c]];
        Span& span = out.spans[static_cast<std::size_t>(it.number) - 1];
        span = {true, it.line, it.line + it.lines, c + 1 < chosen.size() ? all[chosen[c + 1]].line : flow.lines.size()};
        for (const std::string& l : it.languages) languages[l] += 1.0 / static_cast<double>(it.languages.size());
        ++out.count;
    }
    out.front = chosen.empty() ? flow.lines.size() : all[chosen[0]].line;
    double sum = 0;
    for (const auto& [language, share] : languages) {
        sum += share;
        if (out.language.empty() || share > languages[out.language]) out.language = language;
    }
    out.language_share = sum > 0 ? languages[out.language] / sum : 0;
    return out;
}

}  // namespace hw::sheet
