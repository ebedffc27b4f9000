#include "core/sheet/table.hpp"

#include <algorithm>
#include <cmath>

#include "core/sheet/dictionary.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

namespace {

constexpr double river_em = 0.5;           // wider than a blank, narrower than the padding of two cells

struct HeadPiece {
    double x0 = 0, x1 = 0;
    std::set<std::string> keys;
    std::string text;
    std::size_t line = 0;
};

/// Words that may be the head of a column nobody asks for: few, without figures.
bool may_be_other_head(const Cell& cell) {
    return cell.words.size() <= 4 && cell.text.size() <= 32 && cell.text.size() > 1 && std::none_of(cell.text.begin(), cell.text.end(), [](char c) { return is_digit(c) || c == ':'; }) && std::any_of(cell.text.begin(), cell.text.end(), is_letter);
}

/// A line as heads of columns; empty when some of it is none. Beside two heads and more that are known, as many may be unknown.
std::vector<HeadPiece> head_pieces(const Line& line, const Heads& heads) {
    std::vector<HeadPiece> out;
    for (const Cell& cell : line.cells) {
        auto keys = heads(cell.text);
        // the end of a head that was broken within a word, beside other heads
        if (keys.empty() && line.cells.size() > 1 && squeeze(cell.text).size() <= 4 && std::none_of(cell.text.begin(), cell.text.end(), is_digit) && cell.text != "-") keys.insert("part");
        if (!keys.empty()) { out.push_back({cell.x0, cell.x1, std::move(keys), cell.text}); continue; }
        // Heads so close that they came as one cell.
        std::size_t at = 0;
        std::vector<HeadPiece> tiled;
        while (at < cell.words.size()) {
            std::size_t used = 0;
            HeadPiece piece;
            std::string text;
            for (std::size_t k = at; k < cell.words.size() && k < at + 10; ++k) {
                text += (text.empty() ? "" : " ") + plain(cell.words[k].text);
                auto found = heads(text);
                if (!found.empty()) { used = k - at + 1; piece = {cell.words[at].x0, cell.words[k].x1, std::move(found), text}; }
            }
            if (used == 0) { tiled.clear(); break; }
            tiled.push_back(piece);
            at += used;
        }
        if (tiled.empty()) {
            if (!may_be_other_head(cell)) return {};
            tiled.push_back({cell.x0, cell.x1, {"other"}, cell.text});
        }
        out.insert(out.end(), tiled.begin(), tiled.end());
    }
    std::set<std::string> known;
    std::size_t others = 0;
    for (const HeadPiece& p : out) {
        if (p.keys.contains("other")) ++others;
        else known.insert(p.keys.begin(), p.keys.end());
    }
    known.erase("part");
    known.erase("limit");
    if (others > 0 && (known.size() < 2 || others * 2 > out.size())) return {};
    return out;
}

/// Heads that stand over several columns, with the heads below that they cover: "8 h" over "ppm" and "mg/m3".
std::vector<std::pair<HeadPiece, std::vector<HeadPiece>>> take_groups(std::vector<HeadPiece>& heads) {
    std::vector<std::pair<HeadPiece, std::vector<HeadPiece>>> out;
    const auto middle = [](const HeadPiece& h) { return (h.x0 + h.x1) / 2; };
    const auto is_unit = [](const HeadPiece& h) { return h.keys.contains("ppm") || h.keys.contains("mg_m3"); };
    std::vector<HeadPiece> kept;
    // As many pairs of units below as there are limits above, in the same order: set to the left of their pair, or to its middle.
    std::vector<HeadPiece> units, limits;
    for (const HeadPiece& h : heads) {
        if (is_unit(h)) units.push_back(h);
        else if (h.keys.contains("limit")) limits.push_back(h);
    }
    const auto by_place = [](const HeadPiece& a, const HeadPiece& b) { return a.x0 < b.x0; };
    std::stable_sort(units.begin(), units.end(), by_place);
    std::stable_sort(limits.begin(), limits.end(), by_place);
    bool pairs = !limits.empty() && units.size() == 2 * limits.size();
    for (std::size_t i = 0; pairs && i < limits.size(); ++i) {
        const HeadPiece &a = units[2 * i], &b = units[2 * i + 1];
        pairs = a.line == b.line && limits[i].line < a.line && a.keys.contains("ppm") != b.keys.contains("ppm") && middle(limits[i]) > a.x0 - 6 && middle(limits[i]) < b.x1 + 6;
    }
    for (const HeadPiece& h : heads) {
        std::vector<HeadPiece> below;
        if (pairs && !is_unit(h) && h.keys.contains("limit")) {
            for (std::size_t i = 0; i < limits.size(); ++i)
                if (limits[i].x0 == h.x0 && limits[i].line == h.line) below = {units[2 * i], units[2 * i + 1]};
        } else
            for (const HeadPiece& o : heads)
                if (o.line == h.line + 1 && middle(o) > h.x0 - 2 && middle(o) < h.x1 + 2 && !o.keys.contains("part")) below.push_back(o);
        if (below.size() >= 2) out.emplace_back(h, below);
        else kept.push_back(h);
    }
    heads = std::move(kept);
    return out;
}

std::vector<Column> columns_of(std::vector<HeadPiece> heads, const std::vector<const Line*>& body, double size_pt) {
    struct Span { double x0, x1; };
    const auto groups = take_groups(heads);
    std::vector<Span> spans;
    for (const HeadPiece& h : heads) spans.push_back({h.x0, h.x1});
    for (const Line* line : body)
        for (const Cell& c : line->cells)
            for (const Word& w : c.words) spans.push_back({w.x0, w.x1});
    std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.x0 < b.x0; });
    std::vector<Column> columns;
    for (const Span& s : spans) {
        if (columns.empty() || s.x0 - columns.back().x1 > river_em * size_pt) columns.push_back({s.x0, s.x1, {}, {}});
        else columns.back().x1 = std::max(columns.back().x1, s.x1);
    }
    // Heads that share a column without standing over one another divide it.
    std::vector<Column> out;
    for (const Column& c : columns) {
        std::vector<HeadPiece> mine;
        for (const HeadPiece& h : heads)
            if ((h.x0 + h.x1) / 2 >= c.x0 && (h.x0 + h.x1) / 2 <= c.x1) mine.push_back(h);
        std::stable_sort(mine.begin(), mine.end(), [](const HeadPiece& a, const HeadPiece& b) { return a.x0 < b.x0; });
        std::vector<Column> parts;
        for (const HeadPiece& h : mine) {
            if (parts.empty() || h.x0 > parts.back().x1 - 2) {
                if (!parts.empty()) parts.back().x1 = h.x0 - 0.5;
                parts.push_back({parts.empty() ? c.x0 : h.x0 - 0.5, h.x1, {}, {}});
            }
            parts.back().x1 = std::max(parts.back().x1, h.x1);
            parts.back().keys.insert(h.keys.begin(), h.keys.end());
            parts.back().head += (parts.back().head.empty() ? "" : " ") + h.text;
        }
        if (parts.empty()) parts.push_back(c);
        parts.back().x1 = std::max(parts.back().x1, c.x1);
        out.insert(out.end(), parts.begin(), parts.end());
    }
    // A column without a head belongs to its nearer neighbour.
    for (std::size_t i = 0; i < out.size() && out.size() > 1;) {
        if (!out[i].head.empty()) { ++i; continue; }
        const double left = i > 0 ? out[i].x0 - out[i - 1].x1 : 1e9, right = i + 1 < out.size() ? out[i + 1].x0 - out[i].x1 : 1e9;
        Column& to = left <= right ? out[i - 1] : out[i + 1];
        to.x0 = std::min(to.x0, out[i].x0);
        to.x1 = std::max(to.x1, out[i].x1);
        out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
    }
    for (const auto& [group, below] : groups)
        for (const HeadPiece& h : below)
            for (Column& c : out)
                if ((h.x0 + h.x1) / 2 >= c.x0 && (h.x0 + h.x1) / 2 <= c.x1) { c.head = group.text + " " + c.head; c.keys.insert(group.keys.begin(), group.keys.end()); break; }
    return out;
}

std::size_t column_at(const std::vector<Column>& columns, const Word& w) {
    const double middle = (w.x0 + w.x1) / 2;
    std::size_t best = 0;
    double distance = 1e9;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        const double d = middle < columns[c].x0 ? columns[c].x0 - middle : middle > columns[c].x1 ? middle - columns[c].x1 : 0;
        if (d < distance) { distance = d; best = c; }
    }
    return best;
}

Row row_of(const std::vector<const Line*>& lines, const std::vector<Column>& columns) {
    Row row;
    row.cells.resize(columns.size());
    for (const Line* line : lines) {
        std::vector<std::vector<Word>> parts(columns.size());
        for (const Cell& c : line->cells)
            for (const Word& w : c.words) parts[column_at(columns, w)].push_back(w);
        for (std::size_t c = 0; c < columns.size(); ++c)
            if (!parts[c].empty()) row.cells[c].push_back(std::move(parts[c]));
    }
    return row;
}

/// Lines of one page as rows: cut at every gap above a threshold, the threshold chosen so that the rows look like rows.
/// @param goes_on  the table began on an earlier page: the first piece may belong to the last row there
std::vector<Row> rows_of(const Table& table, const std::vector<const Line*>& lines, const Judge& judge, bool goes_on) {
    struct Group { std::vector<const Line*> lines; double y0, y1; };
    std::vector<Group> groups;
    for (const Line* line : lines) {
        const double inset = 0.12 * (line->y1 - line->y0);
        const double y0 = line->y0 + inset, y1 = line->y1 - inset;
        if (!groups.empty() && y0 < groups.back().y1) { groups.back().lines.push_back(line); groups.back().y1 = std::max(groups.back().y1, y1); }
        else groups.push_back({{line}, y0, y1});
    }
    const auto worth = [&](const Row& r, bool first) {
        const double j = judge(table, r);
        return goes_on && first && j < 0 && j > -1.5 ? 0 : j;
    };
    std::vector<double> gaps;
    for (std::size_t i = 1; i < groups.size(); ++i) gaps.push_back(groups[i].y0 - groups[i - 1].y1);
    std::vector<double> thresholds = gaps;
    std::sort(thresholds.begin(), thresholds.end());
    thresholds.push_back(1e9);
    double best = -1e9;
    bool clear = false;
    std::vector<Row> out;
    double last = -1e9;
    for (const double t : thresholds) {
        if (t - last < 0.25) continue;         // the same gap as before, but for rounding
        last = t;
        std::vector<Row> rows;
        std::vector<const Line*> now;
        double score = 0;
        for (std::size_t i = 0; i < groups.size(); ++i) {
            if (i > 0 && gaps[i - 1] >= t - 0.12) { rows.push_back(row_of(now, table.columns)); now.clear(); }
            now.insert(now.end(), groups[i].lines.begin(), groups[i].lines.end());
        }
        rows.push_back(row_of(now, table.columns));
        for (const Row& r : rows) score += worth(r, &r == &rows.front());
        if (score > best + 1e-9) {
            // Clear: every gap between rows is wider than every gap within one.
            double cut_least = 1e9, inner_most = 0;
            for (const double g : gaps) (g >= t - 0.12 ? cut_least : inner_most) = g >= t - 0.12 ? std::min(cut_least, g) : std::max(inner_most, g);
            const bool valid = std::all_of(rows.begin(), rows.end(), [&](const Row& r) { return worth(r, &r == &rows.front()) >= 0; });
            clear = valid && (rows.size() == 1 || cut_least - inner_most >= 1 || inner_most == 0);
            best = score;
            out = std::move(rows);
        }
    }
    const std::size_t n = groups.size();
    if (clear || n < 2 || n > 150) return out;
    // No gap tells the rows apart: the best sum of judgements over all ways to cut, by dynamic programming; where two ways are
    // as good, the wider gap.
    constexpr std::size_t longest_row = 16;
    const double narrow = *std::min_element(gaps.begin(), gaps.end());
    std::vector<double> sum(n + 1, -1e9);
    std::vector<std::size_t> from(n + 1, 0);
    sum[0] = 0;
    const auto between = [&](std::size_t b, std::size_t e) {
        std::vector<const Line*> mine;
        for (std::size_t i = b; i < e; ++i) mine.insert(mine.end(), groups[i].lines.begin(), groups[i].lines.end());
        return row_of(mine, table.columns);
    };
    for (std::size_t e = 1; e <= n; ++e)
        for (std::size_t b = e > longest_row ? e - longest_row : 0; b < e; ++b) {
            const double gap = b > 0 ? std::min(0.3, 0.15 * (gaps[b - 1] - narrow)) : 0;
            const double s = sum[b] + worth(between(b, e), b == 0) + gap;
            if (s > sum[e] + 1e-9) { sum[e] = s; from[e] = b; }
        }
    if (sum[n] <= best) return out;
    std::vector<Row> cut;
    for (std::size_t e = n; e > 0; e = from[e]) cut.push_back(between(from[e], e));
    std::reverse(cut.begin(), cut.end());
    return cut;
}

}  // namespace

std::vector<std::string> Row::lines(std::size_t column) const {
    std::vector<std::string> out;
    if (column >= cells.size()) return out;
    for (const auto& line : cells[column]) {
        std::string s;
        for (const Word& w : line) s += (s.empty() ? "" : " ") + plain(w.text);
        out.push_back(s);
    }
    return out;
}

std::string Row::text(std::size_t column, bool chemical) const { return joined(lines(column), chemical); }

std::vector<Word> Row::words(std::size_t column) const {
    std::vector<Word> out;
    if (column < cells.size())
        for (const auto& line : cells[column]) out.insert(out.end(), line.begin(), line.end());
    return out;
}

std::vector<Word> Row::words() const {
    std::vector<Word> out;
    for (std::size_t c = 0; c < cells.size(); ++c) {
        const auto some = words(c);
        out.insert(out.end(), some.begin(), some.end());
    }
    return out;
}

std::size_t Table::at(std::string_view key) const {
    for (std::size_t c = 0; c < columns.size(); ++c)
        if (columns[c].keys.contains(std::string(key))) return c;
    return columns.size();
}

namespace {
/// Whether words of another head stand in the text too.
bool names_another(const std::string& text, std::string_view kind, const std::string& key) {
    const std::string f = fold(text);
    for (const Phrase& p : phrases(kind))
        if (p.key != key && p.squeezed.size() >= (key == "cas" || key == "reach" ? 2U : 3U) && !(key == "codes" && (p.key == "name" || p.key == "identifiers")) && find_word(f, p.folded) != std::string::npos) return true;
    return false;
}
}  // namespace

std::set<std::string> head_keys(const std::string& text, std::string_view kind) {
    std::string bare;
    int depth = 0;
    for (const char c : text) {
        if (c == '(' || c == '[') ++depth;
        if (depth == 0) bare += c;
        if ((c == ')' || c == ']') && depth > 0) --depth;
    }
    const std::string whole = squeeze(text), s = squeeze(bare);
    std::set<std::string> exact, part;
    if (whole.empty()) return exact;
    for (const Phrase& p : phrases(kind)) {
        const std::string& q = p.squeezed;
        if (whole == q || (s == q && !s.empty())) exact.insert(p.key);
        else if ((whole.size() >= 4 || (whole.size() >= 3 && whole.find('%') != std::string::npos)) && q.size() > whole.size() && (q.starts_with(whole) || q.ends_with(whole))) part.insert(p.key);
        else if ((p.key == "codes" || p.key == "range" || p.key == "cas" || p.key == "reach") && q.size() >= 3 && s.starts_with(q) && !names_another(text, kind, p.key) && s.size() < q.size() + 48 && std::none_of(text.begin(), text.end(), [](char c) { return c == ':'; }) && !(p.key == "cas" && s.size() > q.size() + 6) && (q != "hazard" && q != "range"))
            part.insert(p.key);
    }
    return exact.empty() ? part : exact;
}

std::vector<Table> tables_in(const std::vector<Line>& lines, std::size_t begin, std::size_t end, double size_pt, const Heads& heads, const Judge& judge) {
    std::vector<Table> out;
    std::size_t i = begin;
    while (i < end) {
        // A zone of lines that are heads and nothing else.
        std::vector<HeadPiece> zone;
        std::set<std::string> keys;
        std::size_t k = i;
        double left = 1e9, right = 0;
        while (k < end && lines[k].page == lines[i].page) {
            auto pieces = head_pieces(lines[k], heads);
            if (pieces.empty()) break;
            for (HeadPiece& p : pieces) p.line = k;
            for (const HeadPiece& p : pieces) { left = std::min(left, p.x0); right = std::max(right, p.x0); keys.insert(p.keys.begin(), p.keys.end()); }
            keys.erase("part");
            keys.erase("other");
            if (keys.empty()) break;
            zone.insert(zone.end(), pieces.begin(), pieces.end());
            ++k;
        }
        if (zone.size() < 2 || keys.size() < 2 || right - left < 40) { ++i; continue; }
        Table table;
        table.begin = i;
        std::vector<const Line*> body;
        std::size_t e = k;
        std::vector<double> starts;
        for (const HeadPiece& p : zone) starts.push_back(p.x0);
        std::sort(starts.begin(), starts.end());
        for (; e < end; ++e) {
            const Line& line = lines[e];
            const auto again = head_pieces(line, heads);
            std::set<std::string> again_keys;
            for (const HeadPiece& p : again) again_keys.insert(p.keys.begin(), p.keys.end());
            const bool is_head = !again.empty() && std::all_of(again.begin(), again.end(), [&](const HeadPiece& p) {
                return std::any_of(zone.begin(), zone.end(), [&](const HeadPiece& z) { return z.text == p.text && std::abs(z.x0 - p.x0) < 6; });
            });
            if (is_head) continue;                                         // the heads repeated on the next page
            again_keys.erase("part");
            again_keys.erase("other");
            const bool heads_again = again_keys.contains("name") || again_keys.contains("cas") || again_keys.contains("range") || again_keys.contains("ppm") || again_keys.contains("mg_m3");
            if (again.size() >= 2 && again_keys.size() >= 2 && heads_again) break;        // another table
            if (says(fold(line.text), "word", "after_table")) break;
            // A sentence below the last row: words with a full stop, without figures, from the edge of the table.
            if (!body.empty() && line.cells.size() == 1 && line.cells[0].words.size() >= 6 && std::abs(line.x0 - starts.front()) < 12 && line.text.ends_with('.') && line.text[0] >= 'A' && line.text[0] <= 'Z' && std::none_of(line.text.begin(), line.text.end(), is_digit) && line.page == body.back()->page && line.y0 > body.back()->y0 + 2) break;
            // A paragraph runs through the columns without a gap.
            if (line.cells.size() == 1 && line.x0 < starts.front() + 12) {
                std::size_t run = 0;
                for (std::size_t c = 1; c < starts.size(); ++c) {
                    if (starts[c] - starts[c - 1] < 12) continue;
                    run += line.x0 < starts[c] - 2 && line.x1 > starts[c] + 12 ? 1 : 0;
                }
                Table probe;
                probe.columns = {{0, 1e9, keys, "all"}};
                const bool anchor = judge(probe, row_of({&line}, probe.columns)) > 0;
                if (run >= 1 && !anchor && line.text.size() > 24) break;
            }
            body.push_back(&line);
        }
        table.end = e;
        if (body.empty()) { i = k; continue; }
        table.columns = columns_of(zone, body, size_pt);
        for (Column& c : table.columns)            // "TWA mg/" over "m3" is one head
            for (const std::string& key : heads(c.head)) c.keys.insert(key);
        std::size_t at = 0;
        while (at < body.size()) {
            std::size_t stop = at;
            std::vector<const Line*> page;
            while (stop < body.size() && body[stop]->page == body[at]->page) page.push_back(body[stop++]);
            std::stable_sort(page.begin(), page.end(), [](const Line* a, const Line* b) { return a->y0 < b->y0; });
            auto rows = rows_of(table, page, judge, !table.rows.empty());
            for (std::size_t r = 0; r < rows.size(); ++r) {
                // What a page begins with and is no row of its own goes on with the last row of the page before.
                const bool continued = r == 0 && !table.rows.empty() && judge(table, rows[r]) < 0;
                if (!continued) { table.rows.push_back(std::move(rows[r])); continue; }
                for (std::size_t c = 0; c < table.columns.size(); ++c)
                    for (auto& line : rows[r].cells[c]) table.rows.back().cells[c].push_back(std::move(line));
            }
            at = stop;
        }
        out.push_back(std::move(table));
        i = std::max(e, k);
    }
    return out;
}

}  // namespace hw::sheet
