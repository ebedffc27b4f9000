#include "core/sheet/ingredients.hpp"

#include <algorithm>
#include <map>

#include "core/sheet/codes.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/labels.hpp"
#include "core/sheet/quantities.hpp"
#include "core/sheet/table.hpp"

namespace hw::sheet {

namespace {

/// Groups of digits joined by hyphens, as "01-2119486455-28-XXXX", with their places. A last group of four X counts as one.
struct Chain {
    std::vector<std::string> groups;
    std::size_t begin = 0, end = 0;
};
std::vector<Chain> chains_of(std::string_view t) {
    std::vector<Chain> out;
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (!is_digit(t[i]) || (i > 0 && (is_digit(t[i - 1]) || is_letter(t[i - 1]) || t[i - 1] == '-'))) continue;
        Chain chain;
        chain.begin = i;
        for (;;) {
            std::size_t end = i;
            while (end < t.size() && (is_digit(t[end]) || ((t[end] == 'X' || t[end] == 'x') && !chain.groups.empty()))) ++end;
            if (end == i) break;
            chain.groups.emplace_back(t.substr(i, end - i));
            i = end;
            // a hyphen, with a blank behind it where a line was broken there
            std::size_t next = i;
            if (next < t.size() && t[next] == '-') {
                ++next;
                if (next < t.size() && (is_digit(t[next]) || t[next] == 'X' || t[next] == 'x')) { i = next; continue; }
            }
            break;
        }
        chain.end = i;
        const bool glued = i < t.size() && (is_letter(t[i]) || (t[i] == '-' && i + 1 < t.size() && is_letter(t[i + 1])));
        if (chain.groups.size() > 1 && !glued) out.push_back(std::move(chain));
    }
    return out;
}

std::string text_of(const Chain& c) {
    std::string out;
    for (const auto& g : c.groups) out += (out.empty() ? "" : "-") + g;
    return out;
}

bool sizes(const Chain& c, std::initializer_list<std::size_t> want) {
    if (c.groups.size() != want.size()) return false;
    std::size_t i = 0;
    for (const std::size_t n : want)
        if (c.groups[i++].size() != n) return false;
    return true;
}
bool is_cas(const Chain& c) { return c.groups.size() == 3 && c.groups[0].size() >= 2 && c.groups[0].size() <= 7 && c.groups[1].size() == 2 && c.groups[2].size() == 1; }
bool is_ec(const Chain& c) { return sizes(c, {3, 3, 1}); }
bool is_index(const Chain& c) { return sizes(c, {3, 3, 2, 1}); }
bool is_reach(const Chain& c) { return (c.groups.size() == 3 || c.groups.size() == 4) && c.groups[0].size() == 2 && c.groups[1].size() == 10 && c.groups[2].size() == 2; }

bool says_secret(std::string_view text) { return says(fold(text), "value", "trade_secret"); }

std::string strip(std::string s, std::string_view junk = " ,;:-|/*") {
    const std::size_t b = s.find_first_not_of(junk);
    if (b == std::string::npos) return {};
    return s.substr(b, s.find_last_not_of(" ,;:-|*") - b + 1);
}

/// The name in a text: what stands before identifiers, their labels, codes and classes. A name may hold digits and hyphens.
std::string name_in(const std::string& text) {
    std::size_t end = text.size();
    for (const Chain& c : chains_of(text))
        if (is_cas(c) || is_ec(c) || is_index(c) || is_reach(c)) end = std::min(end, c.begin);
    std::string folded;                                // kept byte for byte: only ASCII is lowered
    for (const char c : text) folded += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    for (const Phrase& p : phrases("class")) {
        const std::size_t at = find_word(folded, p.folded);
        if (at != std::string::npos && at > 0) end = std::min(end, at);
    }
    const Run run = [&] { Run r; Word w; r.add(w, text); return r; }();
    for (const Text& c : printed_codes(run)) {
        const std::size_t at = text.find(c.value.substr(0, c.value.find('+')));
        if (at != std::string::npos) end = std::min(end, at);
    }
    for (const std::string_view label : {"cas", "einecs", "elincs", "reach", "ec:", "eg:", "ec no", "eg-nr", "n.\xC2\xB0 c", "n\xC2\xB0 c"}) {
        const std::size_t at = find_word(folded, label);
        if (at != std::string::npos) end = std::min(end, at);
    }
    // "Contains: acetone": the name begins behind the colon
    std::size_t begin = 0;
    for (const std::string_view opening : {"contains", "contient", "contiene", "enth\xC3\xA4lt"})
        if (folded.starts_with(opening) && folded.find(':') != std::string::npos && folded.find(':') <= opening.size() + 1) begin = folded.find(':') + 1;
    std::string name = end > begin ? strip(text.substr(begin, end - begin)) : std::string{};
    while (!name.empty() && (name.back() == '(' || name.back() == '[')) name = strip(name.substr(0, name.size() - 1));
    return name;
}

/// The words that make up a text, for its place.
std::vector<Word> words_with(const std::vector<Word>& words, std::string_view part) {
    std::vector<Word> out;
    const std::string wanted = squeeze(part);
    for (const Word& w : words) {
        const std::string s = squeeze(w.text);
        if (!s.empty() && (wanted.find(s) != std::string::npos || s.find(wanted) != std::string::npos)) out.push_back(w);
    }
    return out.empty() ? words : out;
}

struct Raw {
    std::string name_text;                 ///< where the name stands
    std::string ids;                       ///< everything
    std::string range_text;
    std::vector<Word> name_words, range_words, all;
    bool by_volume = false;
};

std::optional<Ingredient> ingredient_of(const Raw& raw, std::string_view way, Decimal decimal) {
    Ingredient it;
    const double sure = confidence(way);
    it.place = place_of(raw.all);
    it.name = {name_in(raw.name_text), place_of(raw.name_words.empty() ? raw.all : raw.name_words), sure};
    const Identifiers ids = identifiers_in(raw.ids);
    for (const std::string& cas : ids.cas) {
        const Text text{cas, place_of(words_with(raw.all, cas)), std::min(sure, confidence("check_digit"))};
        if (cas_is_right(cas)) { if (!it.cas) it.cas = text; }
        else if (!it.bad_cas) it.bad_cas = text;
    }
    const auto number = [&](const std::string& n) -> std::optional<Text> {
        if (n.empty()) return std::nullopt;
        return Text{n, place_of(words_with(raw.all, n)), sure};
    };
    it.ec = number(ids.ec);
    it.reach = number(ids.reach);
    it.index = number(ids.index);
    if (auto r = range_of(raw.range_text, decimal)) {
        r->by_volume = r->by_volume || raw.by_volume;
        it.range = Fact<Range>{*r, place_of(raw.range_words.empty() ? raw.all : raw.range_words), sure};
    }
    it.trade_secret = says_secret(raw.ids) || says_secret(raw.range_text);
    std::vector<Text> codes = printed_codes(run_of(raw.all));
    for (const Text& c : codes) {
        if (c.value[0] == 'P') continue;
        if (std::none_of(it.codes.begin(), it.codes.end(), [&](const Text& o) { return o.value == c.value; })) it.codes.push_back(c);
    }
    it.confidence = std::min({it.name.value.empty() ? 0.5 : it.name.confidence, it.cas ? it.cas->confidence : 0.9 * sure, it.range ? it.range->confidence : 0.9 * sure});
    const bool anything = it.cas || it.bad_cas || it.range || it.trade_secret;
    if (!anything || (it.name.value.empty() && !it.cas)) return std::nullopt;
    return it;
}

double judge_row(const Table& table, const Row& row, Decimal decimal) {
    std::size_t cas = 0, ranges = 0, secrets = 0;
    double top = 1e9, anchor = 1e9;
    const std::size_t at = table.at("range"), name = table.at("name");
    const bool single = table.columns.size() == 1;
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
        const std::string text = row.text(c);
        for (const auto& line : row.cells[c]) top = std::min(top, line.front().y0);
        std::size_t found = 0;
        for (const Chain& chain : chains_of(text)) found += is_cas(chain) ? 1 : 0;
        cas += found;
        const auto anchor_at = [&](auto&& is_one) {
            const auto lines = row.lines(c);
            std::size_t k = 0;
            while (k < lines.size() && !is_one(lines[k])) ++k;
            anchor = std::min(anchor, row.cells[c][k < lines.size() ? k : 0].front().y0);
        };
        if (found > 0) anchor_at([](const std::string& l) { const auto all = chains_of(l); return std::any_of(all.begin(), all.end(), is_cas); });
        if (says_secret(text)) { ++secrets; anchor_at([](const std::string& l) { return says_secret(l); }); }
        if (c != at || single) continue;
        if (text.ends_with('-')) return -0.7;          // "10 -" without its other end
        if (range_of(text, decimal)) ++ranges;
        else for (const auto& line : row.lines(c)) ranges += range_of(line, decimal) ? 1 : 0;
        if (ranges > 0) anchor = std::min(anchor, row.cells[c].front().front().y0);
    }
    if (single) return static_cast<double>(cas + secrets);
    if (cas > 1 || ranges > 1) return -1.5 * static_cast<double>(std::max(cas, ranges) - 1);
    const bool named = name >= row.cells.size() || !row.cells[name].empty();
    double score = cas == 1 && ranges == 1 ? 1 : ranges == 1 && secrets > 0 ? 0.9 : cas == 1 && secrets > 0 ? 0.9 : ranges == 1 ? 0.3 : cas == 1 ? 0.2 : secrets > 0 ? 0.3 : -0.6;
    if (!named) score -= 0.5;
    if (score > 0 && anchor - top < 3) score += 0.1;
    return score;
}

std::vector<Ingredient> from_tables(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal) {
    std::vector<Ingredient> out;
    const auto heads = [](const std::string& text) { return head_keys(text, "column"); };
    const auto judge = [&](const Table& t, const Row& r) { return judge_row(t, r, decimal); };
    for (const Table& table : tables_in(flow.lines, begin, end, flow.size_pt, heads, judge)) {
        const std::size_t range = table.at("range"), none = table.columns.size();
        std::size_t name = table.at("name");
        const std::size_t cas = std::min(table.at("cas"), table.at("identifiers"));
        if (range == none && cas == none) continue;
        if (name == none)      // the column with most letters that is no other
            for (std::size_t c = 0, most = 0; c < none; ++c) {
                std::size_t letters = 0;
                for (const Row& r : table.rows) for (const char ch : name_in(r.text(c))) letters += is_letter(ch) ? 1 : 0;
                if (c != range && letters > most) { most = letters; name = c; }
            }
        if (name == none) name = 0;
        for (const Row& row : table.rows) {
            Raw raw;
            raw.all = row.words();
            raw.name_words = row.words(name);
            std::vector<std::string> name_lines;
            for (const std::string& line : row.lines(name)) {
                // the classification may stand under the name in the same column
                const std::string one = name_in(line);
                if (!name_lines.empty() && one != strip(line, " ") && (one.empty() || !printed_codes([&] { Run r; Word w; r.add(w, line); return r; }()).empty())) break;
                bool is_class = false;
                for (const Phrase& p : phrases("class")) is_class = is_class || fold(line).starts_with(p.folded);
                if (is_class && !name_lines.empty()) break;
                name_lines.push_back(line);
            }
            raw.name_text = joined(name_lines, true);
            if (range != none) {
                raw.range_text = row.text(range);
                raw.range_words = row.words(range);
                const std::string head = fold(table.columns[range].head);
                raw.by_volume = says(head, "word", "by_volume");
                if (range == name || !range_of(raw.range_text, decimal)) {
                    // A figure broken within, or a note behind the figures: the first line that is a range, if no other holds figures.
                    std::string glued;
                    for (const std::string& line : row.lines(range)) glued += line;
                    std::vector<std::string> figures;
                    for (const std::string& line : row.lines(range))
                        if (std::any_of(line.begin(), line.end(), is_digit)) figures.push_back(line);
                    if (range != name && range_of(glued, decimal)) raw.range_text = glued;
                    else if (figures.size() == 1 || range == name)
                        for (const std::string& line : figures)
                            if (range_of(line, decimal)) { raw.range_text = line; break; }
                }
            } else
                for (std::size_t c = 0; c < none; ++c)
                    if (row.text(c).find('%') != std::string::npos && range_of(row.text(c), decimal)) { raw.range_text = row.text(c); raw.range_words = row.words(c); }
            for (std::size_t c = 0; c < none; ++c) raw.ids += (c > 0 ? " | " : "") + row.text(c);
            if (auto it = ingredient_of(raw, "row_header", decimal)) out.push_back(std::move(*it));
        }
    }
    return out;
}

/// Blocks of labels: "Name: ... CAS No.: ... Content: ...". The label that comes first opens each block.
std::vector<Ingredient> from_blocks(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal) {
    std::vector<Ingredient> out;
    const auto all = labels_in(flow.lines, begin, end, flow.line_pt, "column");
    std::string opener;
    std::map<std::string, const Labelled*> block;
    std::vector<std::map<std::string, const Labelled*>> blocks;
    for (const Labelled& l : all) {
        if (l.value.empty()) continue;
        if (opener.empty()) opener = l.key;
        if (block.contains(l.key) && (l.key == opener || l.key == "cas" || l.key == "range")) { blocks.push_back(block); block.clear(); }
        block.emplace(l.key, &l);
    }
    blocks.push_back(block);
    for (auto& b : blocks) {
        const bool has_id = b.contains("cas") || b.contains("identifiers"), has_range = b.contains("range");
        if (!has_id && !has_range) continue;
        if (has_range && !has_id && !range_of(b["range"]->text(), decimal)) continue;
        Raw raw;
        for (const auto& [key, l] : b) {
            const auto words = l->words();
            raw.all.insert(raw.all.end(), words.begin(), words.end());
            if (key != "name" && key != "range") raw.ids += " | " + l->text();
        }
        std::stable_sort(raw.all.begin(), raw.all.end(), [](const Word& x, const Word& y) { return x.page != y.page ? x.page < y.page : x.y0 < y.y0 - 2; });
        if (b.contains("name")) {
            std::vector<std::string> lines;
            for (const auto& row : b["name"]->value) {
                std::string s;
                for (const Word& w : row) s += (s.empty() ? "" : " ") + plain(w.text);
                lines.push_back(s);
            }
            raw.name_text = joined(lines, true);
            raw.name_words = b["name"]->words();
        }
        if (has_range) {
            std::string first;
            for (const Word& w : b["range"]->value[0]) first += (first.empty() ? "" : " ") + plain(w.text);
            raw.range_text = range_of(b["range"]->text(), decimal) ? b["range"]->text() : first;
            raw.range_words = b["range"]->words();
            raw.by_volume = says(fold(b["range"]->qualifier), "word", "by_volume");
        }
        if (auto it = ingredient_of(raw, "row_block", decimal)) out.push_back(std::move(*it));
    }
    return out;
}

/// Sentences or rows without heads: each CAS number opens an item, the name stands before it or right behind.
std::vector<Ingredient> from_sentences(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal) {
    std::vector<Ingredient> out;
    struct Item { std::vector<const Line*> lines; bool has = false; };
    std::vector<Item> items;
    for (std::size_t i = begin; i < end; ++i) {
        const Line& line = flow.lines[i];
        bool cas = false;
        for (const Chain& c : chains_of(line.text)) cas = cas || is_cas(c);
        cas = cas || (says_secret(line.text) && line.text.find('%') != std::string::npos);
        static const std::string bullets = "\xE2\x80\xA2";
        const bool bullet = line.text.starts_with(bullets) || line.text.starts_with("- ") || line.text.starts_with("* ") || line.text.starts_with("\xEF\x82\xB7") || line.text.starts_with("\xE2\x97\x8F") || line.text.starts_with("\xE2\x96\xAA");
        const bool apart = i > begin && line.page == flow.lines[i - 1].page && line.y0 - flow.lines[i - 1].y0 > 1.35 * flow.line_pt;
        const bool below_heading = i > begin && flow.lines[i - 1].text.size() < 60 && flow.lines[i - 1].text.starts_with("3.") && is_digit(flow.lines[i - 1].text[std::min<std::size_t>(2, flow.lines[i - 1].text.size() - 1)]);
        if (items.empty() || bullet || apart || below_heading || (cas && items.back().has)) items.emplace_back();
        items.back().lines.push_back(&line);
        items.back().has = items.back().has || cas;
    }
    for (const Item& item : items) {
        if (!item.has) continue;
        Raw raw;
        std::vector<std::string> lines;
        for (const Line* l : item.lines) {
            lines.push_back(l->text);
            for (const Cell& c : l->cells) raw.all.insert(raw.all.end(), c.words.begin(), c.words.end());
        }
        const std::string text = joined(lines, true);
        raw.ids = text;
        raw.name_text = text.substr(std::min(text.size(), text.find_first_not_of(" -*\xE2\x80\xA2\xEF\x82\xB7")));
        // The range: the longest end of the text, or piece between other marks, that is one.
        std::size_t after = 0;
        for (const Chain& c : chains_of(text))
            if (is_cas(c) || is_ec(c) || is_index(c) || is_reach(c)) after = std::max(after, c.end);
        const std::string tail = text.substr(after), head = text.substr(0, after);
        const auto take = [&](const std::string& from) {
            for (std::size_t b = 0; b < from.size() && raw.range_text.empty(); ++b) {
                if (b > 0 && from[b - 1] != ' ' && from[b - 1] != ':' && from[b - 1] != '(' && from[b - 1] != ',') continue;
                for (std::size_t n = std::min<std::size_t>(from.size() - b, 24); n > 0; --n) {
                    const std::string piece = from.substr(b, n);
                    const bool marked = piece.find('%') != std::string::npos || from.find('%') == std::string::npos;
                    if (!is_digit(piece.front()) && piece.front() != '<' && piece.front() != '>') break;
                    if (b + n < from.size() && (is_digit(from[b + n]) || is_letter(from[b + n]))) continue;
                    if (marked && range_of(piece, decimal)) { raw.range_text = piece; break; }
                }
            }
        };
        take(tail);
        if (raw.range_text.empty()) take(head);
        if (!raw.range_text.empty()) raw.range_words = words_with(raw.all, raw.range_text);
        if (name_in(raw.name_text).empty()) {          // numbers first, name behind
            std::string rest = tail;
            const std::size_t at = raw.range_text.empty() ? std::string::npos : rest.find(raw.range_text);
            if (at != std::string::npos) rest = at > 3 ? rest.substr(0, at) : rest.substr(at + raw.range_text.size());
            rest = strip(rest, " ,;:-|/*)");
            raw.name_text = rest;
        }
        if (auto it = ingredient_of(raw, "row_sentence", decimal)) out.push_back(std::move(*it));
    }
    return out;
}

std::size_t worth(const std::vector<Ingredient>& all) {
    std::size_t n = 0;
    for (const Ingredient& i : all) n += (i.cas || i.bad_cas || i.trade_secret ? 2U : 0U) + (i.range ? 2U : 0U) + (i.name.value.empty() ? 0U : 1U);
    return n;
}

}  // namespace

Identifiers identifiers_in(std::string_view text) {
    Identifiers out;
    for (const Chain& c : chains_of(text)) {
        if (is_cas(c)) out.cas.push_back(text_of(c));
        else if (is_ec(c) && out.ec.empty()) out.ec = text_of(c);
        else if (is_index(c) && out.index.empty()) out.index = text_of(c);
        else if (is_reach(c) && out.reach.empty()) {
            Chain known = c;               // "-XXXX" stands for the holder, whom the sheet does not name
            if (known.groups.size() == 4 && known.groups[3].find_first_not_of("Xx") == std::string::npos) known.groups.pop_back();
            out.reach = text_of(known);
        }
    }
    return out;
}

bool cas_is_right(std::string_view cas) {
    const auto chains = chains_of(cas);
    if (chains.size() != 1 || !is_cas(chains[0]) || chains[0].begin != 0 || chains[0].end != cas.size() || chains[0].groups[0][0] == '0') return false;
    const std::string digits = chains[0].groups[0] + chains[0].groups[1];
    int sum = 0;
    for (std::size_t i = 0; i < digits.size(); ++i) sum += static_cast<int>(digits.size() - i) * (digits[i] - '0');
    return sum % 10 == chains[0].groups[2][0] - '0';
}

std::vector<Ingredient> ingredients_in(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal) {
    // Each way of reading is tried; the one that accounts for most is taken, tables before blocks before sentences.
    auto best = from_tables(flow, begin, end, decimal);
    for (auto* other : {&from_blocks, &from_sentences}) {
        auto now = (*other)(flow, begin, end, decimal);
        if (worth(now) > worth(best)) best = std::move(now);
    }
    // An ingredient named twice, in a second table of limits or classes: the first stays, what it lacks is added.
    std::vector<Ingredient> out;
    for (Ingredient& i : best) {
        const auto same = std::find_if(out.begin(), out.end(), [&](const Ingredient& o) { return i.cas && o.cas && i.cas->value == o.cas->value && (!i.range || !o.range); });
        if (same == out.end()) { out.push_back(std::move(i)); continue; }
        if (!same->range) same->range = i.range;
        for (const Text& c : i.codes)
            if (std::none_of(same->codes.begin(), same->codes.end(), [&](const Text& o) { return o.value == c.value; })) same->codes.push_back(c);
    }
    return out;
}

}  // namespace hw::sheet
