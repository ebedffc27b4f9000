// A document to the facts of a sheet: lines, sections, then field by field.

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "core/sheet/codes.hpp"
#include "core/sheet/contradictions.hpp"
#include "core/sheet/dictionary.hpp"
#include "core/sheet/facts.hpp"
#include "core/sheet/ingredients.hpp"
#include "core/sheet/labels.hpp"
#include "core/sheet/letters.hpp"
#include "core/sheet/limits.hpp"
#include "core/sheet/quantities.hpp"
#include "core/sheet/sections.hpp"

namespace hw::sheet {

namespace {

double sure(Found found) {
    switch (found) {
        case Found::Colon: return confidence("label_colon");
        case Found::Cell: return confidence("label_cell");
        case Found::Below: return confidence("label_below");
        case Found::Loose: break;
    }
    return confidence("label_loose");
}

std::string trimmed(std::string s) {
    const std::size_t b = s.find_first_not_of(" ,;:-|"), e = s.find_last_not_of(" ,;:|");
    return b == std::string::npos || e == std::string::npos || e < b ? std::string{} : s.substr(b, e - b + 1);
}

std::string row_text(const std::vector<Word>& row) {
    std::string s;
    for (const Word& w : row) s += (s.empty() ? "" : " ") + plain(w.text);
    return s;
}

/// How the sheet writes decimals: by its figures of one or two decimals in sections 3 and 9, else by its language.
Decimal decimal_of(const Flow& flow, const std::string& language) {
    std::size_t points = 0, commas = 0;
    for (const Line& l : flow.lines)
        for (const Cell& c : l.cells)
            for (const Word& word : c.words) {
                const std::string w = plain(word.text);
                for (std::size_t i = 1; i + 1 < w.size(); ++i) {
                    if ((w[i] != '.' && w[i] != ',') || !is_digit(w[i - 1]) || !is_digit(w[i + 1])) continue;
                    std::size_t run = 0, marks = 0;
                    while (i + 1 + run < w.size() && is_digit(w[i + 1 + run])) ++run;
                    for (const char ch : w) marks += ch == '.' || ch == ',' ? 1 : 0;
                    if (run <= 2 && marks == 1 && w.find('/') == std::string::npos) ++(w[i] == '.' ? points : commas);
                }
            }
    // Numbers of subsections ("9.1") have a point in every language and are not counted against the comma.
    if (language == "en") return commas > 2 * points ? Decimal::Comma : Decimal::Point;
    return commas > 0 ? Decimal::Comma : Decimal::Point;
}

class Reader {
public:
    Reader(Flow flow, Sections sections, const Document& document) : flow_(std::move(flow)), sections_(std::move(sections)) {
        facts_.language = sections_.language.empty() ? "en" : sections_.language;
        facts_.language_confidence = sections_.language_share;
        decimal_ = decimal_of(flow_, facts_.language);
        month_first_ = us_dates(document);
    }

    Facts read() {
        section_texts();
        front_page();
        hazards();
        facts_.ingredients = ingredients_in(flow_, span(3).begin, span(3).end, decimal_);
        for (Ingredient& i : facts_.ingredients)
            if (!span(3).found) i.confidence *= confidence("no_section");
        bad_numbers();
        properties();
        const auto [b8, e8] = limit_lines();
        facts_.limits = limits_in(flow_, b8, e8, decimal_, facts_.ingredients);
        // Sheets that speak of protection first name their limits behind it.
        if (facts_.limits.empty() && span(8).found) facts_.limits = limits_in(flow_, span(8).begin, span(8).end, decimal_, facts_.ingredients);
        once_each(facts_.limits);
        handling();
        transport();
        facts_.contradictions = contradictions_in(facts_);
        return std::move(facts_);
    }

private:
    const Span& span(int n) const { return sections_.spans[static_cast<std::size_t>(n) - 1]; }

    std::vector<Labelled> labels(int section, std::initializer_list<std::string_view> keys) const {
        if (!span(section).found) return {};
        return labels_in(flow_.lines, span(section).begin, span(section).end, flow_.line_pt, "label", keys);
    }

    /// Dates with the month in front: on sheets of the United States, told by their law or their paper.
    bool us_dates(const Document& document) const {
        if (facts_.language != "en" && facts_.language != "es") return false;
        bool american = false, european = false;
        for (const Line& l : flow_.lines) {
            const std::string f = fold(l.text);
            american = american || f.find("1910.1200") != std::string::npos || find_word(f, "osha") != std::string::npos;
            european = european || f.find("1907/2006") != std::string::npos || f.find("1272/2008") != std::string::npos || f.find("2020/878") != std::string::npos;
        }
        if (american != european) return american;
        const Page& p = document.pages.front();
        const double w = std::min(p.width, p.height), h = std::max(p.width, p.height);
        return std::abs(w - 612) < 3 && std::abs(h - 792) < 3 && facts_.language == "en";
    }

    void section_texts() {
        for (int n = 1; n <= 16; ++n) {
            Section& s = facts_.sections[static_cast<std::size_t>(n) - 1];
            s.number = n;
            if (!span(n).found) continue;
            std::vector<Word> title;
            for (std::size_t i = span(n).title; i < span(n).begin; ++i)
                for (const Cell& c : flow_.lines[i].cells) title.insert(title.end(), c.words.begin(), c.words.end());
            s.title = place_of(title);
            for (std::size_t i = span(n).begin; i < span(n).end; ++i) s.text += (s.text.empty() ? "" : "\n") + flow_.lines[i].text;
        }
    }

    /// The best labelled value of a key: the label that is named first in atlas, then the surest way of finding it.
    template <class Take>
    std::optional<Text> best_text(const std::vector<Labelled>& all, Take take) const {
        std::optional<Text> best;
        double best_score = -1e9;
        for (const Labelled& l : all) {
            if (l.value.empty()) continue;
            const std::optional<std::string> value = take(l);
            if (!value || value->empty()) continue;
            const double score = -static_cast<double>(l.rank) * 0.5 + (l.found == Found::Colon || l.found == Found::Cell ? 3 : l.found == Found::Below ? 0 : -3);
            if (score > best_score) { best_score = score; best = Text{*value, place_of(l.words()), sure(l.found)}; }
        }
        return best;
    }

    /// Whether the first line of a value runs so far to the right that the word which begins the second had no room on it.
    bool wrapped(const Labelled& l) const {
        const Word& last = l.value[0].back();
        const Word& next = l.value[1].front();
        double edge = 0;
        for (const Line& o : flow_.lines)
            if (o.page == last.page && o.x0 < last.x1 && o.x1 > last.x0 && o.cells.front().x0 > l.value[0].front().x0 - 0.45 * (last.x1 - l.value[0].front().x0) - 150) edge = std::max(edge, o.x1);
        return next.page == last.page && last.x1 + 0.25 * flow_.size_pt + (next.x1 - next.x0) > edge && next.y0 > last.y0 && row_text(l.value[1]).size() <= 40;
    }

    void front_page() {
        // Product and supplier: section 1, else what stands before it.
        const auto name_like = [&](const Labelled& l) -> std::optional<std::string> {
            std::string text = row_text(l.value[0]);
            // a name that goes on below, in the column of values
            if (l.value.size() >= 2 && l.key == "product" && ((l.found == Found::Cell && l.value.size() == 2) || wrapped(l))) text = joined({text, row_text(l.value[1])});
            if (is_label(text) || text.size() < 2 || text.ends_with(':')) return std::nullopt;
            if (std::none_of(text.begin(), text.end(), is_letter)) return std::nullopt;
            if (l.found == Found::Loose && (l.rank > 2 || text.size() > 60 || !(text[0] >= 'A' && text[0] <= 'Z'))) return std::nullopt;
            return trimmed(text);
        };
        const std::size_t end1 = span(1).found ? span(1).end : std::min<std::size_t>(flow_.lines.size(), 60);
        const std::size_t begin1 = span(1).found ? span(1).begin : 0;
        auto product = labels_in(flow_.lines, begin1, end1, flow_.line_pt, "label", {"product"});
        facts_.product = best_text(product, name_like);
        if (!facts_.product) facts_.product = best_text(labels_in(flow_.lines, 0, sections_.front, flow_.line_pt, "label", {"product"}), name_like);
        auto supplier = labels_in(flow_.lines, begin1, end1, flow_.line_pt, "label", {"supplier"});
        facts_.supplier = best_text(supplier, name_like);
        if (!facts_.supplier) facts_.supplier = best_text(labels_in(flow_.lines, 0, sections_.front, flow_.line_pt, "label", {"supplier"}), name_like);

        // UFI: sixteen letters and figures in four groups, wherever it stands.
        for (std::size_t n = 0; n < flow_.lines.size(); ++n) {
            const Line& l = flow_.lines[n];
            const std::string t = plain(l.text);
            const auto named = [&](std::size_t k) { return k < flow_.lines.size() && says(fold(flow_.lines[k].text), "label", "ufi"); };
            if (t.size() < 19 || !(named(n) || named(n - 1) || named(n + 1))) continue;      // the label may stand above or half a line below
            for (std::size_t i = 0; i + 19 <= t.size(); ++i) {
                bool is = i == 0 || !(is_letter(t[i - 1]) || is_digit(t[i - 1]));
                for (std::size_t k = 0; is && k < 19; ++k) {
                    const char c = t[i + k];
                    is = k % 5 == 4 ? c == '-' : is_digit(c) || (c >= 'A' && c <= 'Z');
                }
                if (!is || facts_.ufi) continue;
                std::vector<Word> words;
                for (const Cell& c : l.cells) for (const Word& w : c.words) if (w.text.find(t.substr(i, 19)) != std::string::npos) words.push_back(w);
                facts_.ufi = Text{t.substr(i, 19), place_of(words), confidence("label_colon")};
            }
        }
        dates();
    }

    void dates() {
        // The front, heads and feet, section 1 and section 16, in this order.
        std::vector<std::vector<Line>> areas;
        areas.emplace_back(flow_.lines.begin(), flow_.lines.begin() + static_cast<std::ptrdiff_t>(sections_.front));
        for (const Line& l : flow_.furniture) areas.push_back({l});
        for (const int n : {1, 16})
            if (span(n).found) areas.emplace_back(flow_.lines.begin() + static_cast<std::ptrdiff_t>(span(n).begin), flow_.lines.begin() + static_cast<std::ptrdiff_t>(span(n).end));
        if (!span(16).found && !flow_.lines.empty()) areas.emplace_back(flow_.lines.end() - static_cast<std::ptrdiff_t>(std::min<std::size_t>(12, flow_.lines.size())), flow_.lines.end());
        const bool month_first = month_first_ && !day_first_seen();
        const auto letter_or_number = [](const std::string& text) -> std::string {       // "B", "05-B", at the beginning
            std::size_t at = 0;
            while (at < text.size() && (text[at] == ' ' || text[at] == ':' || text[at] == '.')) ++at;
            const std::size_t begin = at;
            while (at < text.size() && (is_digit(text[at]) || (text[at] == '.' && at + 1 < text.size() && is_digit(text[at + 1])))) ++at;
            if (at - begin > 5) return {};
            if (at > begin && at + 1 < text.size() && text[at] == '-' && text[at + 1] >= 'A' && text[at + 1] <= 'Z') at += 2;
            else if (at == begin && at < text.size() && text[at] >= 'A' && text[at] <= 'Z') ++at;
            const bool ends = at == text.size() || text[at] == ' ' || text[at] == ',' || text[at] == ';' || text[at] == ')' || (text[at] == '.' && at + 1 == text.size());
            return at > begin && ends ? text.substr(begin, at - begin) : std::string{};
        };
        std::size_t best_rank = 1000, version_rank = 1000;
        for (const auto& area : areas) {
            for (const Labelled& l : labels_in(area, 0, area.size(), flow_.line_pt, "label", {"revision_date", "replaced_date", "revision"})) {
                if (l.value.empty() || l.key == "replaced_date") continue;
                const std::string text = row_text(l.value[0]);
                const bool near = l.found != Found::Below || text.size() < 40;
                if (!near) continue;
                // "Revision: 12.03.2024" is a date, "Revised 3" none
                const std::string first = text.substr(0, 34);
                const auto date = date_of(first, month_first);
                if (date && l.rank + (l.key == "revision" ? 3 : 0) < best_rank) {
                    best_rank = l.rank + (l.key == "revision" ? 3 : 0);
                    facts_.revision_date = Text{*date, place_of(l.value[0]), sure(l.found)};
                }
                // "31 August 2022, version 3": the number behind the date, with its own label
                if (date && l.key == "revision_date")
                    for (const Phrase* p : phrases("label", "revision")) {
                        const std::string f = fold(text);
                        const std::size_t at = find_word(f, p->folded), after = at == std::string::npos ? at : at + p->folded.size();
                        if (at == std::string::npos || at == 0 || f.size() != text.size()) continue;
                        const std::string number = letter_or_number(text.substr(after));
                        if (number.empty() || p->rank + 20 >= version_rank) continue;
                        version_rank = p->rank + 20;
                        facts_.revision = Text{number, place_of(l.value[0]), sure(l.found)};
                    }
                if (l.key == "revision") {
                    std::string number;
                    std::size_t at = 0;
                    while (at < text.size() && !is_digit(text[at])) ++at;
                    const std::string before = fold(text.substr(0, at));
                    while (at < text.size() && (is_digit(text[at]) || (text[at] == '.' && at + 1 < text.size() && is_digit(text[at + 1])))) number += text[at++];
                    const bool is_date = date_of(text.substr(0, std::min<std::size_t>(text.size(), 16)), month_first) && (number.size() > 5 || (at < text.size() && (text[at] == '/' || text[at] == '-' || text[at] == '.' || text[at] == ' ')) ) && date_of(text.substr(0, 12), month_first);
                    const bool clean = before.find_first_not_of(" v.:#nro-\xB0") == std::string::npos;
                    const std::string lettered = letter_or_number(text);
                    if (!lettered.empty() && lettered.back() >= 'A' && lettered.back() <= 'Z' && l.found != Found::Loose && l.rank < version_rank) {
                        version_rank = l.rank;
                        facts_.revision = Text{lettered, place_of(l.value[0]), sure(l.found)};
                        continue;
                    }
                    if (!number.empty() && number.size() <= 7 && !is_date && clean && l.rank < version_rank) {
                        version_rank = l.rank;
                        facts_.revision = Text{number, place_of(l.value[0]), sure(l.found)};
                    }
                }
            }
        }
        if (!facts_.revision) revision_in_furniture(letter_or_number);
    }

    /// A head or foot of pages that names the revision among other words: "Works Ltd. Oil 3 rev. 05-B 2023-04-05".
    template <class Take>
    void revision_in_furniture(Take take) {
        for (const Line& l : flow_.furniture)
            for (const Cell& c : l.cells)
                for (std::size_t k = 0; k + 1 < c.words.size() && !facts_.revision; ++k)
                    for (const Phrase* p : phrases("label", "revision"))
                        if (fold(c.words[k].text) == p->folded && !facts_.revision)
                            if (const std::string number = take(plain(c.words[k + 1].text)); !number.empty()) facts_.revision = Text{number, place_of({c.words[k], c.words[k + 1]}), confidence("label_loose")};
    }

    /// A date on the sheet whose first figure cannot be a month.
    bool day_first_seen() const {
        const auto seen = [](const std::vector<Line>& lines) {
            for (const Line& l : lines)
                for (const Cell& c : l.cells)
                    for (const Word& w : c.words) {
                        const std::string& t = w.text;
                        const std::size_t slash = t.find('/');
                        if (slash != 2 || t.size() < 8 || !is_digit(t[0]) || !is_digit(t[1]) || t[5] != '/') continue;
                        if (std::stoi(t.substr(0, 2)) > 12) return true;
                    }
            return false;
        };
        return seen(flow_.lines) || seen(flow_.furniture);
    }

    void hazards() {
        if (!span(2).found) return;
        facts_.codes = codes_in(run_of(flow_.lines, span(2).begin, span(2).end), facts_.language);
        const auto take = [&](const std::string& text) -> std::string {
            const std::string f = trimmed(fold(text));
            for (const auto& [key, value] : {std::pair{"signal_danger", "danger"}, {"signal_warning", "warning"}})
                for (const Phrase* p : phrases("value", key))
                    if (p->language == facts_.language && find_word(f, p->folded) == 0) return value;
            for (const Phrase* p : phrases("value", "none"))
                if (find_word(f, p->folded) == 0) return "none";
            return {};
        };
        for (const Labelled& l : labels(2, {"signal_word"})) {
            if (l.value.empty()) continue;
            const std::string word = take(row_text(l.value[0]));
            if (!word.empty()) { facts_.signal_word = Text{word, place_of(l.value[0]), sure(l.found)}; return; }
        }
        // Alone on its line or in its cell, as next to a pictogram.
        for (std::size_t i = span(2).begin; i < span(2).end; ++i)
            for (const Cell& c : flow_.lines[i].cells) {
                const std::string s = squeeze(c.text);
                for (const auto& [key, value] : {std::pair{"signal_danger", "danger"}, {"signal_warning", "warning"}})
                    for (const Phrase* p : phrases("value", key))
                        if (p->language == facts_.language && s == p->squeezed && !facts_.signal_word) facts_.signal_word = Text{value, place_of(c.words), confidence("no_label")};
            }
        if (facts_.signal_word) return;
        for (std::size_t i = span(2).begin; i < span(2).end; ++i) {
            const std::string f = fold(flow_.lines[i].text);
            for (const Phrase* p : phrases("value", "none"))
                if (p->folded.find("signal") != std::string::npos || p->folded.find("advertencia") != std::string::npos || p->folded.find("avertissement") != std::string::npos)
                    if (find_word(f, p->folded) != std::string::npos) { facts_.signal_word = Text{"none", place_of(flow_.lines[i].cells.front().words), confidence("no_label")}; return; }
        }
    }

    void bad_numbers() {
        std::set<std::string> seen;
        for (const Ingredient& i : facts_.ingredients)
            if (i.bad_cas && seen.insert(i.bad_cas->value).second) facts_.bad_cas.push_back(*i.bad_cas);
        for (const int n : {3, 8}) {
            if (!span(n).found) continue;
            for (std::size_t i = span(n).begin; i < span(n).end; ++i)
                for (const Cell& c : flow_.lines[i].cells)
                    for (const std::string& cas : identifiers_in(c.text).cas)
                        if (!cas_is_right(cas) && seen.insert(cas).second) facts_.bad_cas.push_back({cas, place_of(c.words), confidence("check_digit")});
        }
    }

    /// The first labelled value of a key in section 9 that can be read. The lines of a wrapped value are tried together too.
    template <class Parse>
    auto property(const std::vector<Labelled>& all, std::string_view key, Parse parse) const {
        using Value = typename decltype(parse(std::string{}, std::string{}))::value_type;
        std::optional<Fact<Value>> best;
        std::size_t best_rank = 1000;
        for (const Labelled& l : all) {
            if (l.key != key || l.value.empty() || l.rank >= best_rank) continue;
            const std::string first = row_text(l.value[0]);
            // conditions may stand with the label or in a cell behind the value
            const std::string conditions = l.qualifier + (l.beside.empty() ? "" : " " + row_text(l.beside));
            auto value = parse(first, conditions);
            std::size_t rows = 1;
            // A value over two lines: "98 -" above "104 °C", or the conditions under the value.
            if (l.value.size() > 1 && (!value || first.ends_with('-') || first.ends_with('/') || row_text(l.value[1]).starts_with('(') || l.found == Found::Cell)) {
                const auto longer = parse(first.ends_with('/') ? first + row_text(l.value[1]) : first + " " + row_text(l.value[1]), conditions);
                if (longer) { value = longer; rows = 2; }
            }
            // The value in one cell, its unit in the next.
            if (!value && !l.beside.empty()) value = parse(first + " " + row_text(l.beside), l.qualifier);
            // The unit with the label: "Flash point (°C): 53".
            if (!value && !l.qualifier.empty() && std::any_of(first.begin(), first.end(), is_digit)) {
                std::string unit = l.qualifier;
                for (char& c : unit) if (c == '(' || c == ')' || c == '[' || c == ']' || c == ':' || c == ',') c = ' ';
                value = parse(first + " " + unit, {});
            }
            if (!value) continue;
            best_rank = l.rank;
            std::vector<Word> words;
            for (std::size_t r = 0; r < rows; ++r) words.insert(words.end(), l.value[r].begin(), l.value[r].end());
            best = Fact<Value>{*value, place_of(words), sure(l.found)};
        }
        return best;
    }

    void properties() {
        const auto all = labels(9, {"ph", "state", "density", "flash_point", "boiling", "vapour_pressure", "voc"});
        facts_.ph = property(all, "ph", [&](const std::string& v, const std::string& q) { return ph_of(v, q, decimal_); });
        if (facts_.ph && facts_.ph->value.unclear) facts_.ph->confidence = std::min(facts_.ph->confidence, confidence("condition_unclear"));
        facts_.flash_point = property(all, "flash_point", [&](const std::string& v, const std::string&) { return flash_point_of(v, decimal_); });
        facts_.boiling_c = property(all, "boiling", [&](const std::string& v, const std::string&) { return boiling_of(v, decimal_); });
        facts_.vapour_pressure_hpa = property(all, "vapour_pressure", [&](const std::string& v, const std::string&) { return vapour_pressure_of(v, decimal_); });
        facts_.density = property(all, "density", [&](const std::string& v, const std::string& q) { return density_of(v, q, decimal_); });
        facts_.voc = property(all, "voc", [&](const std::string& v, const std::string& q) { return voc_of(v, q, decimal_); });
        for (const int n : {15, 3, 2, 16}) {
            if (facts_.voc) break;
            facts_.voc = property(labels(n, {"voc"}), "voc", [&](const std::string& v, const std::string& q) { return voc_of(v, q, decimal_); });
        }
        const auto state_of = [](const std::string& v, const std::string&) -> std::optional<std::string> {
            const std::string f = fold(v);
            std::size_t first = std::string::npos;
            std::string best;
            for (const Phrase& p : phrases("state")) {                 // longest first: "cream paste" before "paste"
                const std::size_t at = find_word(f, p.folded);
                if (at != std::string::npos && at < first) { first = at; best = p.key; }
            }
            if (best.empty()) return std::nullopt;
            return best;
        };
        facts_.state = property(all, "state", state_of);
    }

    /// Section 8 up to the words about personal protection, which name no limits of substances.
    std::pair<std::size_t, std::size_t> limit_lines() const {
        std::size_t end = span(8).begin;
        for (; end < span(8).end; ++end) {
            const Line& line = flow_.lines[end];
            if (end == span(8).begin || line.text.size() > 100) continue;
            const std::string s = squeeze(line.text);
            if (plain(line.text).starts_with("8.2")) break;
            const auto headings = phrases("word", "protection");
            if (std::any_of(headings.begin(), headings.end(), [&](const Phrase* p) { return s == p->squeezed; })) break;
        }
        return {span(8).begin, end};
    }

    static void once_each(std::vector<Fact<Limit>>& limits) {
        std::vector<Fact<Limit>> out;
        for (Fact<Limit>& l : limits) {
            const auto same = std::find_if(out.begin(), out.end(), [&](const Fact<Limit>& o) {
                return o.value.cas == l.value.cas && (!l.value.cas.empty() || o.value.substance == l.value.substance) && o.value.jurisdiction == l.value.jurisdiction && o.value.kind == l.value.kind;
            });
            if (same == out.end()) { out.push_back(std::move(l)); continue; }
            if (!same->value.mg_m3) same->value.mg_m3 = l.value.mg_m3;
            if (!same->value.ppm) same->value.ppm = l.value.ppm;
        }
        limits = std::move(out);
    }

    void handling() {
        const auto text_of = [](const Labelled& l) -> std::optional<std::string> {
            const std::string t = trimmed(l.text());
            return t.size() < 3 ? std::nullopt : std::optional(t);
        };
        facts_.incompatible = best_text(labels(10, {"incompatible"}), text_of);
        facts_.storage = best_text(labels(7, {"storage"}), text_of);
        facts_.disposal = best_text(labels(13, {"disposal"}), text_of);
        if (!facts_.disposal && span(13).found && span(13).end > span(13).begin) {
            std::vector<std::string> lines;
            std::vector<Word> words;
            for (std::size_t i = span(13).begin; i < span(13).end; ++i) {
                lines.push_back(flow_.lines[i].text);
                for (const Cell& c : flow_.lines[i].cells) words.insert(words.end(), c.words.begin(), c.words.end());
            }
            facts_.disposal = Text{joined(lines), place_of(words), confidence("no_label")};
        }
    }

    void transport() {
        if (!span(14).found) return;
        Transport& t = facts_.transport;
        const auto digits4 = [](const std::string& text) -> std::optional<std::string> {
            const std::string f = fold(text);
            for (std::size_t i = 0; i + 4 <= f.size(); ++i) {
                bool four = true;
                for (std::size_t k = 0; k < 4; ++k) four = four && is_digit(f[i + k]);
                if (!four || (i > 0 && (is_digit(f[i - 1]) || f[i - 1] == '.')) || (i + 4 < f.size() && is_digit(f[i + 4]))) continue;
                return f.substr(i, 4);
            }
            return std::nullopt;
        };
        const auto class_in = [](const std::string& text) -> std::optional<std::string> {
            for (std::size_t i = 0; i < text.size(); ++i) {
                if (text[i] < '1' || text[i] > '9' || (i > 0 && (is_digit(text[i - 1]) || text[i - 1] == '.'))) continue;
                std::string out(1, text[i]);
                std::size_t k = i + 1;
                if (k + 1 < text.size() && text[k] == '.' && is_digit(text[k + 1]) && text[k + 1] <= '6') { out += text.substr(k, 2); k += 2; }
                if (k < text.size() && is_digit(text[k])) { i = k; continue; }
                return out;
            }
            return std::nullopt;
        };
        const auto group_in = [](const std::string& text) -> std::optional<std::string> {
            for (const std::string_view g : {"III", "II", "I"})
                if (find_word(text, g) != std::string::npos) return std::string(g);
            return std::nullopt;
        };
        const auto all = labels(14, {"un", "ship_name", "transport_class", "packing_group"});
        for (const Labelled& l : all) {
            if (l.value.empty()) continue;
            const std::string text = row_text(l.value[0]);
            const Place place = place_of(l.value[0]);
            if (l.key == "un" && !t.un) { if (auto v = digits4(text)) t.un = Text{*v, place, sure(l.found)}; }
            if (l.key == "transport_class" && !t.transport_class) { if (auto v = class_in(text)) t.transport_class = Text{*v, place, sure(l.found)}; }
            if (l.key == "packing_group" && !t.packing_group) { if (auto v = group_in(text)) t.packing_group = Text{*v, place, sure(l.found)}; }
            if (l.key == "ship_name" && !t.name && l.found != Found::Loose) t.name = Text{trimmed(text), place, sure(l.found)};
        }
        // "UN 1263, PAINT, 3, II" in one line.
        for (std::size_t i = span(14).begin; i < span(14).end && (!t.un || !t.transport_class); ++i) {
            std::string text = flow_.lines[i].text;
            std::string f = fold(text);
            std::size_t at = find_word(f, "un");
            while (at != std::string::npos && !(at + 2 < f.size() && (is_digit(f[at + 2]) || (at + 3 < f.size() && is_digit(f[at + 3]))))) at = find_word(f, "un", at + 1);
            if (at == std::string::npos) {
                for (std::size_t k = 0; k + 6 <= f.size() && at == std::string::npos; ++k)
                    if (f.compare(k, 2, "un") == 0 && is_digit(f[k + 2]) && (k == 0 || !is_letter(f[k - 1]))) at = k;
            }
            if (at == std::string::npos) continue;
            const auto un = digits4(f.substr(at, 9));
            if (!un) continue;
            if (!t.un) t.un = Text{*un, place_of(flow_.lines[i].cells.front().words), confidence("no_label")};
            const auto take = [&](const std::string& whole) {
                const auto parts = split(whole, ',');
                for (std::size_t k = 1; k < parts.size(); ++k) {
                    const std::string part = trimmed(std::string(parts[k]));
                    if (!t.transport_class && part.size() <= 8 && !part.empty() && (is_digit(part[0]) || part[0] == '(') && !digits4(part))
                        if (auto v = class_in(part)) t.transport_class = Text{*v, place_of(flow_.lines[i].cells.front().words), confidence("no_label")};
                    if (!t.packing_group && part.size() <= 12 && k > 1) if (auto v = group_in(part)) t.packing_group = Text{*v, place_of(flow_.lines[i].cells.front().words), confidence("no_label")};
                }
            };
            // The line may be broken; the next one, which may be another statement, is only asked when the class is missing.
            take(text);
            if (!t.transport_class && i + 1 < span(14).end) take(text + " " + flow_.lines[i + 1].text);
        }
        if (!t.un) {
            const std::string f = fold(facts_.sections[13].text);
            t.not_dangerous = says(f, "value", "not_dangerous");
        }
    }

    Flow flow_;
    Sections sections_;
    Facts facts_;
    Decimal decimal_ = Decimal::Point;
    bool month_first_ = false;
};

std::size_t words_in(const Document& document) {
    std::size_t n = 0;
    for (const Page& p : document.pages)
        for (const Word& w : p.words) n += w.text.empty() ? 0 : 1;
    return n;
}

}  // namespace

namespace {
/// Lines and titles, as the pages show them; where that gives too few titles, as the setting that gives most.
std::pair<Flow, Sections> laid_out(const Document& document) {
    Flow flow = flow_of(document);
    Sections sections = sections_of(flow);
    for (const Setting setting : {Setting::Columns, Setting::SideHeads}) {
        if (sections.count >= static_cast<int>(rule("least_titles"))) break;
        Flow other = flow_of(document, setting);
        Sections found = sections_of(other);
        if (found.count > sections.count) { flow = std::move(other); sections = std::move(found); }
    }
    return {std::move(flow), std::move(sections)};
}
}  // namespace

Kind kind_of(const Document& document) {
    if (document.pages.empty() || static_cast<double>(words_in(document)) < rule("least_words") * static_cast<double>(document.pages.size())) return Kind::NoText;
    return laid_out(document).second.count >= static_cast<int>(rule("least_titles")) ? Kind::Sheet : Kind::NotASheet;
}

Result<Facts> read(const Document& document) {
    if (document.pages.empty() || static_cast<double>(words_in(document)) < rule("least_words") * static_cast<double>(document.pages.size()))
        return Error{ErrorCode::InvalidInput, "This file holds pictures of pages, no words that can be read. Type in what you need from it, or ask the supplier for the original file.", "sheet.no_text"};
    auto [flow, sections] = laid_out(document);
    if (sections.count < static_cast<int>(rule("least_titles")))
        return Error{ErrorCode::InvalidInput, "This does not look like a safety data sheet: too few of its sixteen section titles stand in it. Ask the supplier for the safety data sheet.", "sheet.not_a_sheet"};
    return Reader(std::move(flow), std::move(sections), document).read();
}

}  // namespace hw::sheet
