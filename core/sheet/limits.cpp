#include "core/sheet/limits.hpp"

#include <algorithm>
#include <array>

#include "core/sheet/dictionary.hpp"
#include "core/sheet/ingredients.hpp"
#include "core/sheet/quantities.hpp"
#include "core/sheet/table.hpp"

namespace hw::sheet {

namespace {

/// Key of the phrase of a kind that stands last before `until`, or first behind it when none does.
std::string key_near(std::string_view folded, std::string_view kind, std::size_t until) {
    std::string before, after;
    std::size_t last = 0, length = 0, first = std::string::npos;
    for (const Phrase& p : phrases(kind)) {
        for (std::size_t at = find_word(folded, p.folded); at != std::string::npos; at = find_word(folded, p.folded, at + 1)) {
            if (at < until) {
                // a longer phrase that holds this one is meant
                if (before.empty() || at + p.folded.size() > last + length) { before = p.key; last = at; length = p.folded.size(); }
            } else if (at < first) { first = at; after = p.key; }
        }
    }
    return before.empty() ? after : before;
}

/// Whose limit it is: a country or an authority that is named, else the name of the limit, which belongs to one of them.
std::string whose(std::string_view folded, std::size_t until) {
    const std::string named = key_near(folded, "jurisdiction", until);
    return named.empty() ? key_near(folded, "limit_name", until) : named;
}

bool is_ppm(const std::string& unit) { return unit == "ppm" || unit == "ml/m3"; }

std::string name_of(const std::string& text) {
    std::string name = text.substr(0, text.find("(CAS"));
    const Identifiers ids = identifiers_in(name);
    if (!ids.cas.empty()) name = name.substr(0, name.find(ids.cas[0]));
    const std::size_t b = name.find_first_not_of(" ,;:-|"), e = name.find_last_not_of(" ,;:-|(");
    return b == std::string::npos || e < b ? std::string{} : name.substr(b, e - b + 1);
}

std::string cas_of(const std::string& text, const std::vector<Ingredient>& known) {
    for (const std::string& cas : identifiers_in(text).cas)
        if (cas_is_right(cas)) return cas;
    const std::string s = squeeze(text);
    if (s.size() < 4) return {};
    std::string best;
    std::size_t length = 0;
    for (const Ingredient& i : known) {
        const std::string n = squeeze(i.name.value);
        if (i.cas && n.size() >= 4 && n.size() > length && (s.starts_with(n) || n.starts_with(s))) { best = i.cas->value; length = n.size(); }
    }
    return best;
}

/// The kind named right behind a value ("500 ppm STEL"), unless it is the label of the next one ("STEL: 750 ppm").
std::string kind_behind(std::string_view s, const Quantity& q) {
    std::size_t at = q.end;
    while (at < s.size() && s[at] == ' ') ++at;
    at += q.unit.size();
    while (at < s.size() && (s[at] == ' ' || s[at] == '(' || s[at] == ')')) ++at;
    for (const Phrase& p : phrases("kind")) {
        if (s.compare(std::min(at, s.size()), p.folded.size(), p.folded) != 0) continue;
        std::size_t after = at + p.folded.size();
        if (after < s.size() && (is_letter(s[after]) || is_digit(s[after]))) continue;
        while (after < s.size() && s[after] == ' ') ++after;
        const bool label = after < s.size() && (s[after] == ':' || is_digit(s[after]) || s[after] == '(' || s[after] == '=');
        if (!label) return p.key;
    }
    return {};
}

/// Limits in a piece of text: each kind named takes the values behind it.
struct Context {
    std::string cas, substance, jurisdiction, kind;
    bool beside = false;               ///< the jurisdiction stands in the same row and outranks the name of the limit
};
void read_text(const std::string& text, Context& context, const std::vector<Word>& words, double sure, Decimal decimal, std::vector<Fact<Limit>>& out) {
    const std::string s = fold(text);
    std::vector<Quantity> values;
    for (const Quantity& q : quantities(s, decimal))
        if (is_ppm(q.unit) || q.unit == "mg/m3") values.push_back(q);
    for (std::size_t i = 0; i < values.size();) {
        // "20 ppm / 98 mg/m3": figures of both units without a word between them are one limit.
        std::size_t k = i + 1;
        const auto close = [&](std::size_t n) {
            const std::size_t from = s.find(values[n - 1].unit, values[n - 1].end);
            const std::string_view between = std::string_view(s).substr(0, values[n].begin).substr(from == std::string::npos || from > values[n].begin ? values[n - 1].end : from + values[n - 1].unit.size());
            return std::none_of(between.begin(), between.end(), is_letter);
        };
        while (k < values.size() && k < i + 2 && is_ppm(values[k].unit) != is_ppm(values[i].unit) && close(k)) ++k;
        std::string kind = kind_behind(s, values[k - 1]);
        if (kind.empty()) kind = kind_behind(s, values[i]);
        if (kind.empty()) kind = key_near(s, "kind", values[i].begin);
        std::string jurisdiction = key_near(s, "jurisdiction", values[i].begin);
        if (jurisdiction.empty() && (context.jurisdiction.empty() || !context.beside)) jurisdiction = whose(s, values[i].begin);
        if (!jurisdiction.empty()) context.jurisdiction = jurisdiction;
        Limit limit{context.cas, context.substance, context.jurisdiction, kind.empty() ? (context.kind.empty() ? "twa" : context.kind) : kind, {}, {}};
        for (std::size_t n = i; n < k; ++n) (is_ppm(values[n].unit) ? limit.ppm : limit.mg_m3) = values[n].value;
        // "TWA: 400 ppm TWA: 980 mg/m3": the same limit in its other unit
        if (!out.empty() && i > 0 && out.back().value.cas == limit.cas && out.back().value.kind == limit.kind && out.back().value.jurisdiction == limit.jurisdiction && (!out.back().value.ppm || !limit.ppm) && (!out.back().value.mg_m3 || !limit.mg_m3)) {
            if (limit.ppm) out.back().value.ppm = limit.ppm;
            if (limit.mg_m3) out.back().value.mg_m3 = limit.mg_m3;
        } else out.push_back({limit, place_of(words), sure});
        i = k;
    }
}

std::set<std::string> heads_of(const std::string& text) {
    const std::string s = squeeze(text), f = fold(text);
    if (s.empty() || s.size() > 60) return {};
    std::set<std::string> keys;
    const bool ppm = find_word(f, "ppm") != std::string::npos || find_word(f, "ml/m3") != std::string::npos, mg = f.find("mg/m3") != std::string::npos || f.find("mg/ m3") != std::string::npos || f == "m3" || f == "mg/";
    // "12 ppm" and "TWA: 5" are values, no heads; the figures of a head are those of "8 h", "15 min" and "m3".
    if (text.find(':') != std::string::npos) return {};
    for (const Quantity& q : quantities(f, Decimal::Point))
        if (is_ppm(q.unit) || q.unit == "mg/m3" || (q.value != 8 && q.value != 15)) return {};
    // "ppm (mg/m3)", "ml/m3 / mg/m3": one head over both figures; with a blank only they are two heads, to be taken apart.
    if (ppm && mg) {
        const std::size_t a = std::min(f.find("ppm"), f.find("ml/m3")), b = f.find("mg/m3"), end = a < b ? a + (f.compare(a, 3, "ppm") == 0 ? 3 : 5) : b + 5;
        const std::string_view between = b == std::string::npos ? std::string_view{} : std::string_view(f).substr(end, std::max(a, b) - end);
        const bool joint = !between.empty() && between.size() <= 4 && between.find_first_not_of(" ") != std::string_view::npos && std::none_of(between.begin(), between.end(), [](char c) { return is_letter(c) || is_digit(c); });
        if (!joint) return {};
        return a < b ? std::set<std::string>{"ppm", "both"} : std::set<std::string>{"mg_m3", "both"};
    }
    if (ppm && f.find("mg/") != std::string::npos) return {};
    if (ppm) keys.insert("ppm");
    if (mg) keys.insert("mg_m3");
    for (const auto* kind : {"column", "limit_head"})
        for (const std::string& k : head_keys(text, kind))
            if (k != "range" && k != "codes" && k != "index") keys.insert(k);
    const bool bare_kind = [&] {
        for (const Phrase& p : phrases("kind")) if (s == p.squeezed || (p.squeezed.size() >= 3 && s.starts_with(p.squeezed) && s.size() <= p.squeezed.size() + 6)) return true;
        for (const Phrase& p : phrases("limit_name")) if (s.starts_with(p.squeezed) && s.size() <= p.squeezed.size() + 6) return true;
        for (const Phrase& p : phrases("jurisdiction")) if (p.squeezed.size() >= 2 && s.starts_with(p.squeezed) && s.size() <= p.squeezed.size() + 14) return true;
        return false;
    }();
    if (bare_kind) keys.insert("limit");
    if (s.size() <= 40 && !key_near(f, "kind", std::string::npos).empty())          // "Limit value, 8 hours"
        for (const Phrase* p : phrases("limit_head", "value"))
            if (p->squeezed.size() >= 5 && s.starts_with(p->squeezed)) keys.insert("limit");
    return keys;
}

/// "1 900" as the only figure of a line of a cell: a blank before three digits is a mark of thousands there. "400 500" may be two figures and
/// stays as it is: a limit read too high is worse than one not read.
std::string without_blanks(const std::string& cell) {
    const auto begin = std::find_if(cell.begin(), cell.end(), is_digit);
    auto end = begin;
    std::size_t group = 0, groups = 0;
    std::string digits;
    for (auto it = begin; it != cell.end() && (is_digit(*it) || *it == ' '); ++it) {
        if (is_digit(*it)) { digits += *it; ++group; end = it + 1; continue; }
        if (group == 0 || group > 3 || (groups == 0 && group > 2) || (groups > 0 && group != 3)) return cell;
        ++groups;
        group = 0;
    }
    if (groups > 0 && group == 0) { --groups; group = 3; }      // a blank before the unit
    if (groups == 0 || group != 3 || std::any_of(end, cell.end(), [](char c) { return is_digit(c) && c != '3'; })) return cell;
    return std::string(cell.begin(), begin) + digits + std::string(end, cell.end());
}

/// "STEL (mg/m3): 980", "STEL (mg/m3) 980": the unit behind its figure.
std::string with_unit_of_label(const std::string& text) {
    if (text.size() > 60) return text;
    for (const std::string_view unit : {"mg/m\xC2\xB3", "mg/m3", "ppm", "ml/m\xC2\xB3", "ml/m3"}) {
        const std::size_t at = text.find(unit);
        if (at == 0 || at == std::string::npos || (text[at - 1] != '(' && text[at - 1] != '[')) continue;
        std::size_t end = at + unit.size();
        if (end >= text.size() || (text[end] != ')' && text[end] != ']')) return text;
        std::string rest = text.substr(end + 1);
        const std::size_t b = rest.find_first_not_of(" :");
        if (b == std::string::npos || !is_digit(rest[b]) || std::any_of(rest.begin(), rest.end(), is_letter)) return text;
        return text.substr(0, at - 1) + rest + " " + std::string(unit);
    }
    return text;
}

/// Without the words of a kind, whose figures ("8 h", "15 min") are no values.
std::string without_kinds(std::string folded) {
    for (const Phrase& p : phrases("kind"))
        for (std::size_t at = find_word(folded, p.folded); at != std::string::npos; at = find_word(folded, p.folded, at + 1)) folded.replace(at, p.folded.size(), p.folded.size(), ' ');
    return folded;
}

bool is_value(const std::string& text, Decimal decimal) {
    return !quantities(fold(text), decimal).empty() && identifiers_in(text).cas.empty();
}

/// Names set to the middle of the rows they belong to are moved up to the first of them. A table is set so where its first row has no name: the
/// names then stand in the middle of their rows, so that as many rows follow a name as stand above it.
void lift_names(std::vector<Line>& lines, Decimal decimal) {
    const auto is_head = [](const Line& l) { return l.cells.size() >= 2 && std::all_of(l.cells.begin(), l.cells.end(), [](const Cell& c) { return !heads_of(c.text).empty(); }); };
    const auto has_figures = [&](const Line& l) { return std::any_of(l.cells.begin(), l.cells.end(), [&](const Cell& c) { return is_value(c.text, decimal); }); };
    for (std::size_t head = 0; head < lines.size(); ++head) {
        if (!is_head(lines[head]) || (head + 1 < lines.size() && is_head(lines[head + 1]))) continue;
        const double edge = lines[head].x0;
        const auto nameless = [&](std::size_t i) { return i < lines.size() && lines[i].page == lines[head].page && lines[i].x0 > edge + 20 && lines[i].cells.size() >= 2 && has_figures(lines[i]); };
        std::size_t first = head + 1;
        if (!nameless(first)) continue;
        while (first < lines.size()) {
            std::size_t name = first;
            while (nameless(name)) ++name;
            const std::size_t above = name - first;
            if (name >= lines.size() || above == 0 || lines[name].page != lines[head].page || lines[name].x0 > edge + 6) break;
            std::size_t below = 0;
            while (below < above && nameless(name + 1 + below)) ++below;
            if (below != above) break;
            const double values = lines[first].x0;
            std::vector<Word> up, stay;
            for (const Cell& c : lines[name].cells)
                for (const Word& w : c.words) (w.x1 < values ? up : stay).push_back(w);
            const double shift = lines[first].y0 - lines[name].y0;
            for (Word& w : up) { w.y0 += shift; w.y1 += shift; }
            for (const Cell& c : lines[first].cells) up.insert(up.end(), c.words.begin(), c.words.end());
            lines[first] = line_of(up, 0.85);
            first = name + 1 + below;
            if (!stay.empty()) { lines[name] = line_of(stay, 0.85); continue; }
            lines[name].cells.clear();         // nothing is left of it
        }
    }
}

}  // namespace

std::vector<Fact<Limit>> limits_in(const Flow& flow, std::size_t begin, std::size_t end, Decimal decimal, const std::vector<Ingredient>& known) {
    std::vector<Fact<Limit>> out;
    std::vector<bool> used(flow.lines.size(), false);
    const auto is_stop = [](const std::string& text) {
        const std::string f = fold(text);
        for (const Phrase& p : phrases("limit_stop")) if (find_word(f, p.folded) != std::string::npos || find_word(f, p.folded + "s") != std::string::npos) return true;
        return false;
    };
    const auto value_column = [](const Column& c) { return c.keys.contains("ppm") || c.keys.contains("mg_m3") || c.keys.contains("value") || c.keys.contains("limit"); };
    const Judge judge = [&](const Table& t, const Row& r) {
        if (t.columns.size() == 1) {           // a line by itself: a row names a substance by its number, or gives a value with its unit
            if (!identifiers_in(r.text(0)).cas.empty()) return 1.0;
            for (const Quantity& q : quantities(fold(r.text(0)), decimal)) if (is_ppm(q.unit) || q.unit == "mg/m3") return 1.0;
            return -1.0;
        }
        std::size_t most = 0, named = 0, cas = 0;
        for (std::size_t c = 0; c < t.columns.size(); ++c) {
            if (value_column(t.columns[c])) {
                std::size_t n = 0;
                for (const std::string& line : r.lines(c)) n += is_value(line, decimal) ? 1 : 0;
                // a value may be wrapped: "STEL (15 min): 50 ppm," over "242 mg/m3"
                most = std::max(most, t.columns[c].keys.contains("value") && n > 0 && r.lines(c).size() <= 3 ? std::size_t{1} : n);
            } else named += r.cells[c].empty() ? 0 : 1;
            cas += identifiers_in(r.text(c)).cas.size();
        }
        if (cas > 1 || most > 1) return -1.5 * static_cast<double>(std::max(cas, most) - 1);
        return most == 0 ? -0.6 : named > 0 ? 1.0 : -0.3;
    };
    // A line at the left edge that only names a country or an authority says whose the rows below are; it is no row and no part of one.
    double edge = 1e9;
    for (std::size_t i = begin; i < end; ++i) edge = std::min(edge, flow.lines[i].x0);
    std::vector<std::string> group(flow.lines.size());
    std::vector<Line> rows_only;
    std::vector<std::size_t> printed;              // the line each of them is
    for (std::size_t i = begin; i < end; ++i) {
        const Line& line = flow.lines[i];
        const std::string f = fold(line.text);
        const bool alone = line.cells.size() == 1 && line.x0 < edge + 6 && line.cells[0].words.size() <= 6 && quantities(f, decimal).size() <= 1 && key_near(f, "kind", std::string::npos).empty() && heads_of(line.text).size() <= 1 && identifiers_in(line.text).cas.empty();
        if (alone) group[i] = whose(f, std::string::npos);
        if (group[i].empty()) { rows_only.push_back(line); printed.push_back(i); }
    }
    lift_names(rows_only, decimal);
    for (std::size_t i = rows_only.size(); i-- > 0;)
        if (rows_only[i].cells.empty()) {
            rows_only.erase(rows_only.begin() + static_cast<std::ptrdiff_t>(i));
            used[printed[i]] = true;
            printed.erase(printed.begin() + static_cast<std::ptrdiff_t>(i));
        }
    const auto group_over = [&](const Row& row, std::size_t first) {
        const std::vector<Word> words = row.words();
        std::string found;
        for (std::size_t i = first; i < end && !words.empty(); ++i)
            if (!group[i].empty() && (flow.lines[i].page < words.front().page || (flow.lines[i].page == words.front().page && flow.lines[i].y0 < words.front().y0))) found = group[i];
        return found;
    };
    for (Table& table : tables_in(rows_only, 0, rows_only.size(), flow.size_pt, heads_of, judge)) {
        const std::size_t table_end = table.end > table.begin ? printed[table.end - 1] + 1 : printed[table.begin];
        table.begin = printed[table.begin];
        table.end = table_end;
        const bool valued = std::any_of(table.columns.begin(), table.columns.end(), value_column);
        if (!valued) continue;
        bool stop = table.begin > begin && is_stop(flow.lines[table.begin - 1].text);
        for (const Column& c : table.columns) stop = stop || is_stop(c.head);
        for (std::size_t i = table.begin; i < table.end; ++i) used[i] = true;
        if (stop) continue;
        std::string group_before;
        Context context;
        // Whose limits they are may stand in a line above the table.
        for (std::size_t i = table.begin; i-- > begin && i + 4 > table.begin && context.jurisdiction.empty() && !used[i];) context.jurisdiction = whose(fold(flow.lines[i].text), std::string::npos);
        for (const Row& row : table.rows) {
            std::string all;
            for (std::size_t c = 0; c < table.columns.size(); ++c) all += (c > 0 ? " | " : "") + row.text(c);
            if (is_stop(all)) continue;
            if (const std::string over = group_over(row, table.begin); !over.empty() && over != group_before) context.jurisdiction = group_before = over;
            const std::size_t name = table.at("name");
            const std::string name_text = name < table.columns.size() ? row.text(name) : std::string{};
            const std::string cas = cas_of(identifiers_in(all).cas.empty() ? name_text : all, known);
            if (!cas.empty() || !name_text.empty()) context = {cas, name_of(name_text), context.jurisdiction, {}, false};
            // Words beside the values say whose limit and which kind it is.
            std::string beside;
            for (std::size_t c = 0; c < table.columns.size(); ++c)
                if (c != name && !value_column(table.columns[c])) beside += " " + row.text(c);
            std::string own_place = whose(fold(beside), std::string::npos);
            for (std::size_t c = 0; c < table.columns.size() && own_place.empty(); ++c)          // "DE" alone in its cell
                if (c != name && !value_column(table.columns[c]))
                    for (const Phrase& p : phrases("country_code"))
                        if (squeeze(row.text(c)) == p.squeezed) own_place = p.key;
            const std::string own_kind = key_near(fold(beside), "kind", std::string::npos);
            std::vector<Fact<Limit>> mine;
            for (std::size_t c = 0; c < table.columns.size(); ++c) {
                const Column& column = table.columns[c];
                if (!value_column(column) || row.cells[c].empty()) continue;
                const std::string head = fold(column.head), text = row.lines(c).size() == 1 ? without_blanks(row.text(c)) : row.text(c), cell = fold(text);
                std::string kind = key_near(cell, "kind", 0), place = key_near(cell, "jurisdiction", 0);
                if (place.empty() && own_place.empty()) place = whose(cell, 0);
                if (kind.empty()) kind = !own_kind.empty() ? own_kind : key_near(head, "kind", std::string::npos);
                if (kind.empty())              // a head broken within a word: "Kurzzeitw" over "ert"
                    for (const Phrase& p : phrases("kind"))
                        if (kind.empty() && p.squeezed.size() >= 5 && squeeze(column.head).find(p.squeezed) != std::string::npos) kind = p.key;
                if (place.empty()) place = !own_place.empty() ? own_place : whose(head, std::string::npos);
                if (!place.empty()) context.jurisdiction = place;
                context.kind = kind;
                const bool unit_in_cell = [&] { for (const Quantity& q : quantities(cell, decimal)) if (is_ppm(q.unit) || q.unit == "mg/m3") return true; return false; }();
                if (unit_in_cell) {
                    Context here = context;
                    here.jurisdiction = place.empty() ? context.jurisdiction : place;
                    here.beside = !own_place.empty();
                    read_text(text, here, row.words(c), confidence("row_header"), decimal, mine);
                    continue;
                }
                if (!column.keys.contains("ppm") && !column.keys.contains("mg_m3")) continue;
                // One figure a line where each line names its kind ("8 h: 200" over "15 min: 400"), else one in all.
                std::vector<std::string> parts = row.lines(c);
                if (parts.size() > 1 && !std::all_of(parts.begin(), parts.end(), [](const std::string& l) { return !key_near(fold(l), "kind", 0).empty(); })) parts = {text};
                for (const std::string& part : parts) {
                    const std::string own = key_near(fold(part), "kind", 0), k = !own.empty() ? own : kind.empty() ? "twa" : kind;
                    const std::string figures = without_kinds(fold(without_blanks(part)));
                    const auto number = next_number(figures, 0, decimal);
                    if (!number) continue;
                    const std::string whom = place.empty() ? context.jurisdiction : place;
                    auto it = std::find_if(mine.begin(), mine.end(), [&](const Fact<Limit>& f) { return f.value.kind == k && f.value.jurisdiction == whom; });
                    if (it == mine.end()) {
                        mine.push_back({{context.cas, context.substance, whom, k, {}, {}}, place_of(row.words()), confidence("row_header")});
                        it = mine.end() - 1;
                    }
                    (column.keys.contains("ppm") ? it->value.ppm : it->value.mg_m3) = number->value;
                    if (column.keys.contains("both"))
                        if (const auto second = next_number(figures, number->end, decimal)) (column.keys.contains("ppm") ? it->value.mg_m3 : it->value.ppm) = second->value;
                }
            }
            out.insert(out.end(), mine.begin(), mine.end());
        }
    }
    // What no table holds: lines one after the other, a substance named above its limits.
    Context context;
    std::string heading;                   // whose limits the following ones are, said above the substances
    std::size_t told = 0;                  // limits before the substance at hand
    bool stopped = false;
    for (std::size_t i = begin; i < end; ++i) {
        if (used[i]) continue;
        const Line& line = flow.lines[i];
        std::string text;
        for (const Cell& c : line.cells) text += (text.empty() ? "" : " ") + without_blanks(c.text);
        text = with_unit_of_label(text);
        const std::string f = fold(text);
        if (is_stop(text)) { stopped = true; continue; }
        std::vector<Word> words;
        for (const Cell& c : line.cells) words.insert(words.end(), c.words.begin(), c.words.end());
        bool valued = false;
        for (const Quantity& q : quantities(f, decimal)) valued = valued || is_ppm(q.unit) || q.unit == "mg/m3";
        const std::string cas = cas_of(text, known);
        if (!cas.empty()) { context = {cas, name_of(text), heading, {}, false}; told = out.size(); stopped = false; }
        if (stopped) continue;
        const std::string place = whose(f, std::string::npos), kind = key_near(f, "kind", std::string::npos);
        // A limit broken over two lines: the second begins with a figure or a unit and names nobody else.
        const std::size_t last_value = [&] { std::size_t at = 0; for (const Quantity& q : quantities(f, decimal)) if (is_ppm(q.unit) || q.unit == "mg/m3") at = q.end; return at; }();
        const bool kind_hangs = !key_near(std::string_view(f).substr(last_value), "kind", std::string::npos).empty();     // named at the end, its value below
        if ((cas.empty() || kind_hangs) && (valued || !place.empty() || !kind.empty()) && i + 1 < end && !used[i + 1]) {
            const std::string next = fold(flow.lines[i + 1].text);
            const auto q = quantities(next, decimal);
            const bool opens = next.starts_with("mg/m3") || next.starts_with("ppm") || next.starts_with("m3") || next.starts_with("ml/m3") || (!q.empty() && q[0].begin <= 2 && (is_ppm(q[0].unit) || q[0].unit == "mg/m3"));
            if (opens && next.size() < 60 && whose(next, std::string::npos).empty() && identifiers_in(next).cas.empty()) {
                text = joined({text, flow.lines[i + 1].text});
                for (const Cell& c : flow.lines[i + 1].cells) words.insert(words.end(), c.words.begin(), c.words.end());
                used[i + 1] = true;
                valued = true;
            }
        }
        if (!valued) {
            if (!place.empty() && text.size() < 60) {
                context.jurisdiction = place;
                if ((context.cas.empty() && context.substance.empty()) || out.size() > told) heading = place;
            }
            if (!kind.empty() && text.size() < 60) context.kind = kind;
            continue;
        }
        if (context.cas.empty() && context.substance.empty()) continue;
        if (!cas.empty()) text = text.substr(std::min(text.size(), text.find(cas) == std::string::npos ? 0 : text.find(cas) + cas.size()));
        read_text(text, context, words, confidence("row_sentence"), decimal, out);
    }
    // Where the section names one country or authority only, limits that name none are its.
    std::set<std::string> named;
    for (std::size_t i = begin; i < end; ++i) {
        const std::string f = fold(flow.lines[i].text);
        for (const auto* words : {"jurisdiction", "limit_name"})
            for (const Phrase& p : phrases(words))
                if (!is_stop(f) && find_word(f, p.folded) != std::string::npos) named.insert(p.key);
    }
    if (named.size() == 1)
        for (Fact<Limit>& l : out)
            if (l.value.jurisdiction.empty()) { l.value.jurisdiction = *named.begin(); l.confidence = std::min(l.confidence, confidence("label_loose")); }
    return out;
}

}  // namespace hw::sheet
