#include "core/sheet/lines.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/sheet/letters.hpp"
#include "core/sheet/sections.hpp"

namespace hw::sheet {

namespace {

constexpr double cell_gap_em = 0.85;          // wider than a blank of justified type, narrower than the gap of two columns

double median(std::vector<double> v, double otherwise) {
    if (v.empty()) return otherwise;
    const auto middle = v.begin() + static_cast<std::ptrdiff_t>(v.size() / 2);
    std::nth_element(v.begin(), middle, v.end());
    return *middle;
}

double height_of(const Word& w) { return w.size_pt > 0 ? w.size_pt : (w.y1 - w.y0) * 0.8; }

/// The page with its words upright: where most letters are turned, the whole page is turned back.
Page upright(const Page& page) {
    std::array<std::size_t, 4> letters{};
    for (const Word& w : page.words) letters[static_cast<std::size_t>(((w.turned_deg % 360) + 360) % 360 / 90)] += w.text.size();
    const auto most = static_cast<std::size_t>(std::max_element(letters.begin(), letters.end()) - letters.begin());
    Page out{page.width, page.height, {}};
    if (most % 2 == 1) std::swap(out.width, out.height);
    for (Word w : page.words) {
        const Word o = w;
        if (most == 1) { w.x0 = o.y0; w.x1 = o.y1; w.y0 = page.width - o.x1; w.y1 = page.width - o.x0; }
        if (most == 2) { w.x0 = page.width - o.x1; w.x1 = page.width - o.x0; w.y0 = page.height - o.y1; w.y1 = page.height - o.y0; }
        if (most == 3) { w.x0 = page.height - o.y1; w.x1 = page.height - o.y0; w.y0 = o.x0; w.y1 = o.x1; }
        w.turned_deg = ((o.turned_deg - static_cast<int>(most) * 90) % 360 + 360) % 360;
        out.words.push_back(std::move(w));
    }
    return out;
}

/// Fonts drawn by procedures report a size and boxes that may be twice the real ones. Letters are about half as wide as their
/// type is high; where the words of one reported size are much narrower than that, size and boxes are set right from it.
void mend_sizes(std::vector<Page>& pages) {
    constexpr double usual_width = 0.5, least_width = 0.36;    // of a letter, in heights of the type; narrow faces have 0.4
    std::map<long, std::vector<double>> widths;
    const auto size_key = [](const Word& w) { return std::lround(w.size_pt * 10); };
    const auto letters = [](const Word& w) { return static_cast<double>(std::count_if(w.text.begin(), w.text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; })); };
    for (const Page& p : pages)
        for (const Word& w : p.words)
            if (w.size_pt > 0 && w.turned_deg == 0 && letters(w) >= 3) widths[size_key(w)].push_back((w.x1 - w.x0) / letters(w) / w.size_pt);
    std::map<long, double> factors;
    for (auto& [key, all] : widths) {
        const double width = median(all, usual_width);
        if (all.size() >= 3 && width < least_width) factors[key] = width / usual_width;
    }
    if (factors.empty()) return;
    for (Page& p : pages)
        for (Word& w : p.words) {
            const auto it = factors.find(size_key(w));
            if (it == factors.end()) continue;
            const double baseline = w.y0 + (w.y1 - w.y0) * 0.95 / 1.3;          // boxes reach 0.95 up and 0.35 down
            w.size_pt *= it->second;
            w.y0 = baseline - 0.95 * w.size_pt;
            w.y1 = baseline + 0.35 * w.size_pt;
        }
}

/// Without what is no text of the sheet: turned or very large letters of a watermark, and words printed twice over for weight.
std::vector<Word> readable(const Page& page, double size_pt) {
    std::vector<Word> out;
    for (const Word& w : page.words) {
        if (w.turned_deg != 0 || height_of(w) > 3.5 * size_pt || w.text.empty()) continue;
        const bool twice = std::any_of(out.rbegin(), out.rbegin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(out.size(), 40)), [&](const Word& o) {
            return o.text == w.text && std::abs(o.x0 - w.x0) < 1.5 && std::abs(o.y0 - w.y0) < 1.5;
        });
        if (!twice) out.push_back(w);
    }
    return out;
}

/// "m" with a small raised 3 behind it is one word. Small figures behind other words are notes and stay apart.
std::vector<Word> with_powers(std::vector<Word> words) {
    std::vector<Word> out;
    for (Word& w : words) {
        const bool small = w.text.size() <= 2 && std::all_of(w.text.begin(), w.text.end(), is_digit);
        Word* base = nullptr;
        if (small)
            for (Word& o : words)
                if (&o != &w && height_of(o) > 1.2 * height_of(w) && std::abs(o.x1 - w.x0) < 0.3 * height_of(o) && o.y0 < w.y1 && w.y0 < o.y1 && !o.text.empty() && (o.text.back() == 'm' || o.text.back() == 'M')) base = &o;
        if (base == nullptr) { out.push_back(w); continue; }
        const auto copy = std::find_if(out.begin(), out.end(), [&](const Word& o) { return o.x0 == base->x0 && o.y0 == base->y0; });
        base->text += w.text;
        base->x1 = std::max(base->x1, w.x1);
        if (copy != out.end()) *copy = *base;
    }
    return out;
}

/// Words grouped by height, from top to bottom.
std::vector<std::vector<Word>> rows_of(std::vector<Word> words) {
    std::stable_sort(words.begin(), words.end(), [](const Word& a, const Word& b) { return a.y0 + a.y1 < b.y0 + b.y1; });
    std::vector<std::vector<Word>> rows;
    std::vector<double> middles, heights;
    for (Word& w : words) {
        const double middle = (w.y0 + w.y1) / 2, height = w.y1 - w.y0;
        std::size_t best = rows.size();
        for (std::size_t k = rows.size(); k-- > 0 && k + 4 > rows.size();) {
            if (std::abs(middle - middles[k]) < 0.32 * std::min(height, heights[k])) { best = k; break; }
        }
        if (best == rows.size()) { rows.emplace_back(); middles.push_back(middle); heights.push_back(height); }
        rows[best].push_back(std::move(w));
    }
    for (auto& row : rows) std::stable_sort(row.begin(), row.end(), [](const Word& a, const Word& b) { return a.x0 < b.x0; });
    return rows;
}

/// The gap between two columns of a page: its place, and where the lines right of it begin. 0: one column.
struct Gutter {
    double x = 0, start = 0;
};

/// Whether a row runs through the gap. A narrow blank there counts as none only where the word behind it begins as the lines
/// of the right column do.
bool crosses(const std::vector<Word>& row, const Gutter& g) {
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (row[i].x0 < g.x - 1 && row[i].x1 > g.x + 1) return true;
        if (i + 1 >= row.size() || row[i].x1 > g.x + 1 || row[i + 1].x0 < g.x - 1) continue;
        const double gap = (row[i + 1].x0 - row[i].x1) / std::min(height_of(row[i]), height_of(row[i + 1]));
        if (gap < (g.start > 0 && std::abs(row[i + 1].x0 - g.start) < 2 ? 0.3 : 0.7)) return true;
    }
    return false;
}

/// Where a page is set in two columns, the middle of the gap between them; 0 for one column.
///
/// A table of labels and values leaves a gap as well. The columns of a newspaper are told from it by lines that begin at one
/// and the same place right of the gap and run on as densely as those on the left: many rows have text on both sides, no
/// alignment of heights between the two sides, and the right side alone fills a large part of its width.
/// @param strict  ask for running text on both sides; without, the caller has seen a title of a section on the right
Gutter gutter_of(const std::vector<std::vector<Word>>& rows, double width, bool strict) {
    std::vector<Gutter> best;          // the places that divide equally well: the middle one is taken
    long best_score = 0;
    for (double x = 0.42 * width; x <= 0.58 * width; x += 2) {
        std::size_t left = 0, right = 0, both = 0, across = 0, full_left = 0, full_right = 0, aligned = 0, cells_left = 0, cells_right = 0;
        double right_edge = 0, right_start = width, left_start = width, left_edge = 0;
        for (const auto& row : rows) {
            if (crosses(row, {x, 0})) continue;
            for (const Word& w : row) {
                if (w.x0 > x) { right_edge = std::max(right_edge, w.x1); right_start = std::min(right_start, w.x0); }
                else { left_start = std::min(left_start, w.x0); left_edge = std::max(left_edge, w.x1); }
            }
        }
        for (const auto& row : rows) {
            if (crosses(row, {x, right_start})) { ++across; continue; }
            double l = 0, r = 0, r0 = width;
            bool gap_left = false, gap_right = false;
            for (const Word& w : row) {
                if (w.x0 > x) { gap_right = gap_right || (r > 0 && w.x0 - r > cell_gap_em * height_of(w)); r = std::max(r, w.x1); r0 = std::min(r0, w.x0); }
                else { gap_left = gap_left || (l > 0 && w.x0 - l > cell_gap_em * height_of(w)); l = std::max(l, w.x1); }
            }
            cells_left += gap_left ? 1 : 0;
            cells_right += gap_right ? 1 : 0;
            if (l > 0) ++left;
            if (r > 0) ++right;
            if (l > 0 && r > 0) ++both;
            if (l > left_start + 0.8 * (left_edge - left_start)) ++full_left;
            if (r > right_start + 0.8 * (right_edge - right_start) && r0 < right_start + 3) ++full_right;
            if (r > 0 && r0 < right_start + 3) ++aligned;
        }
        const bool dense = full_left >= 4 && full_right >= 4 && full_left * 5 >= left && full_right * 5 >= right;
        const bool wide = right_edge - right_start > 0.33 * width && left_edge - left_start > 0.33 * width;
        if ((strict && (!dense || !wide)) || left < 8 || right < 8 || across * 10 > 3 * rows.size() || aligned * 10 < right * 6) continue;
        if (cells_left * 10 > left * 4 || cells_right * 10 > right * 4) continue;          // a wide table
        const long score = static_cast<long>(left + right) - 4 * static_cast<long>(across);
        if (best.empty() || score > best_score) { best_score = score; best = {{x, right_start}}; }
        else if (score == best_score) best.push_back({x, right_start});
    }
    return best.empty() ? Gutter{} : best[best.size() / 2];
}

std::string words_of(const std::vector<Word>& row, double x, bool right) {
    std::string out;
    for (const Word& w : row)
        if ((w.x0 > x) == right) out += (out.empty() ? "" : " ") + w.text;
    return out;
}

/// One gap for the whole sheet, taken on trust: the place with most titles beside it and fewest rows across it. x 0: none with a title.
Gutter trusted_gutter(const std::vector<std::vector<std::vector<Word>>>& rows_by_page, double width, Setting setting) {
    const bool sides = setting == Setting::SideHeads;
    Gutter best;
    long most = 0;
    for (double x = (sides ? 0.1 : 0.35) * width; x <= (sides ? 0.42 : 0.65) * width; x += 3) {
        long titles = 0, across = 0, beside = 0;
        for (const auto& rows : rows_by_page)
            for (const auto& row : rows) {
                if (crosses(row, {x, 0})) { ++across; continue; }
                titles += may_be_title(words_of(row, x, !sides)) ? 1 : 0;
                beside += row.front().x0 < x && row.back().x0 > x ? 1 : 0;
            }
        const long score = 10 * titles - across;
        if (titles >= 3 && beside >= 3 && score > most) { most = score; best = {x, 0}; }
    }
    return best;
}

void number_lines(Flow& flow, std::vector<Line>&& lines) {
    for (Line& l : lines) flow.lines.push_back(std::move(l));
}

/// The wording of a line without its digits: heads and feet of pages differ in the page number only.
std::string stamp(const Line& line) {
    std::string out;
    for (const char c : squeeze(line.text))
        if (!is_digit(c)) out += c;
    return out;
}

}  // namespace

Place place_of(const std::vector<Word>& words) {
    Place place;
    for (const Word& w : words) {
        if (!place.words.empty()) place.words += ' ';
        place.words += w.text;
        if (place.page == 0) { place.page = w.page; place.x0 = w.x0; place.y0 = w.y0; place.x1 = w.x1; place.y1 = w.y1; }
        else if (w.page == place.page) {
            place.x0 = std::min(place.x0, w.x0); place.y0 = std::min(place.y0, w.y0);
            place.x1 = std::max(place.x1, w.x1); place.y1 = std::max(place.y1, w.y1);
        }
    }
    return place;
}

Line line_of(std::vector<Word> words, double gap_em) {
    Line line;
    line.page = words.front().page;
    line.bold = true;
    std::vector<double> sizes;
    // Letters set wide apart come as words of one letter: their gaps are not those of cells.
    std::size_t single = 0;
    for (const Word& w : words) single += w.text.size() <= 2 ? 1 : 0;
    const bool spaced = words.size() >= 6 && single * 10 >= words.size() * 8;
    for (Word& w : words) {
        sizes.push_back(height_of(w));
        line.bold = line.bold && w.bold;
        const double gap = line.cells.empty() ? 0 : w.x0 - line.cells.back().x1;
        if (line.cells.empty() || gap > (spaced ? 3 : gap_em) * height_of(w)) line.cells.push_back({w.x0, w.y0, w.x1, w.y1, {}, {}});
        Cell& cell = line.cells.back();
        cell.x1 = std::max(cell.x1, w.x1); cell.y0 = std::min(cell.y0, w.y0); cell.y1 = std::max(cell.y1, w.y1);
        if (!cell.words.empty()) cell.text += ' ';
        cell.text += plain(w.text);
        cell.words.push_back(std::move(w));
    }
    line.x0 = line.cells.front().x0; line.y0 = line.cells.front().y0; line.x1 = line.cells.back().x1; line.y1 = line.cells.front().y1;
    for (const Cell& c : line.cells) {
        line.y0 = std::min(line.y0, c.y0); line.y1 = std::max(line.y1, c.y1);
        if (!line.text.empty()) line.text += ' ';
        line.text += c.text;
    }
    line.size_pt = median(sizes, 9);
    return line;
}

Flow flow_of(const Document& document, Setting setting) {
    Flow flow;
    std::vector<Page> pages;
    std::vector<double> sizes;
    for (const Page& p : document.pages) pages.push_back(upright(p));
    mend_sizes(pages);
    for (const Page& p : pages)
        for (const Word& w : p.words)
            if (w.turned_deg == 0) sizes.push_back(height_of(w));
    flow.size_pt = median(sizes, 9);

    std::vector<std::vector<Line>> by_page;
    // Columns are believed only where a title of a section stands at the head of a right one somewhere on the sheet.
    std::vector<std::vector<std::vector<Word>>> rows_by_page;
    std::vector<Gutter> gutters;
    bool title_right = false;
    for (const Page& p : pages) {
        rows_by_page.push_back(rows_of(with_powers(readable(p, flow.size_pt))));
        const auto titled = [&](const Gutter& g) {
            if (g.x <= 0) return false;
            return std::any_of(rows_by_page.back().begin(), rows_by_page.back().end(), [&](const std::vector<Word>& row) {
                std::string right;
                for (const Word& w : row)
                    if (w.x0 > g.x) right += (right.empty() ? "" : " ") + w.text;
                return !right.empty() && may_be_title(right);
            });
        };
        gutters.push_back(gutter_of(rows_by_page.back(), p.width, true));
        if (gutters.back().x <= 0) {
            const Gutter loose = gutter_of(rows_by_page.back(), p.width, false);
            if (titled(loose)) gutters.back() = loose;
        }
        title_right = title_right || titled(gutters.back());
    }
    // A page with few lines shows no columns of its own: it has those of the others, where nothing crosses their gap.
    for (std::size_t n = 0; n < pages.size(); ++n) {
        const auto other = std::find_if(gutters.begin(), gutters.end(), [](const Gutter& g) { return g.x > 0; });
        if (gutters[n].x > 0 || other == gutters.end()) continue;
        std::size_t across = 0, right = 0;
        for (const auto& row : rows_by_page[n]) {
            if (crosses(row, *other)) ++across;
            else right += row.back().x0 > other->x ? 1 : 0;
        }
        if (right >= 2 && across * 4 <= rows_by_page[n].size()) gutters[n] = *other;
    }
    if (setting != Setting::AsSeen && !pages.empty()) {
        gutters.assign(pages.size(), trusted_gutter(rows_by_page, pages.front().width, setting));
        title_right = true;
    }
    for (std::size_t n = 0; n < pages.size(); ++n) {
        const auto& rows = rows_by_page[n];
        const Gutter gutter = title_right ? gutters[n] : Gutter{};
        std::vector<Line> lines, left, right;
        const auto close_band = [&] {
            for (auto* side : {&left, &right}) {
                for (Line& l : *side) lines.push_back(std::move(l));
                side->clear();
            }
        };
        for (const auto& row : rows) {
            if (gutter.x <= 0) { lines.push_back(line_of(row, cell_gap_em)); continue; }
            if (crosses(row, gutter)) { close_band(); lines.push_back(line_of(row, cell_gap_em)); continue; }
            std::vector<Word> a, b;
            for (const Word& w : row) (w.x0 > gutter.x ? b : a).push_back(w);
            if (setting == Setting::SideHeads && !a.empty() && may_be_title(words_of(row, gutter.x, false))) close_band();       // a head and what stands beside it
            if (!a.empty()) left.push_back(line_of(a, cell_gap_em));
            if (!b.empty()) right.push_back(line_of(b, cell_gap_em));
        }
        close_band();
        by_page.push_back(std::move(lines));
    }

    // Heads and feet: the same wording, but for digits, in the same height near the edge of several pages.
    struct Seen { std::size_t pages = 0; double y = 0; };
    std::map<std::string, std::vector<Seen>> seen;
    const auto at_edge = [&](std::size_t page, const Line& l) {
        return l.y1 < 0.13 * pages[page].height || l.y0 > 0.88 * pages[page].height;
    };
    for (std::size_t p = 0; p < by_page.size(); ++p)
        for (const Line& l : by_page[p]) {
            if (!at_edge(p, l)) continue;
            auto& all = seen[stamp(l)];
            const auto it = std::find_if(all.begin(), all.end(), [&](const Seen& s) { return std::abs(s.y - l.y0) < 4; });
            if (it == all.end()) all.push_back({1, l.y0});
            else ++it->pages;
        }
    std::vector<double> steps;
    for (std::size_t p = 0; p < by_page.size(); ++p) {
        std::vector<Line> kept;
        for (Line& l : by_page[p]) {
            bool furniture = false;
            if (at_edge(p, l) && by_page.size() > 1)
                for (const Seen& s : seen[stamp(l)])
                    furniture = furniture || (std::abs(s.y - l.y0) < 4 && s.pages >= 2 && s.pages * 10 >= by_page.size() * 4);
            if (!furniture) { kept.push_back(std::move(l)); continue; }
            const bool known = std::any_of(flow.furniture.begin(), flow.furniture.end(), [&](const Line& o) { return o.text == l.text; });
            if (!known) flow.furniture.push_back(std::move(l));
        }
        for (std::size_t i = 1; i < kept.size(); ++i) {
            const double step = kept[i].y0 - kept[i - 1].y0;
            if (step > 0.8 * flow.size_pt && step < 2.5 * flow.size_pt) steps.push_back(step);
        }
        number_lines(flow, std::move(kept));
    }
    flow.line_pt = median(steps, 1.3 * flow.size_pt);
    return flow;
}

std::string joined(const std::vector<std::string>& lines, bool chemical) {
    std::string out;
    for (const std::string& line : lines) {
        if (line.empty()) continue;
        if (!out.empty()) {
            const char last = out.back(), first = line.front();
            const char before = out.size() > 1 ? out[out.size() - 2] : ' ';
            if (last == '-' && before != ' ') {
                const bool cut = !is_digit(before) && (first >= 'a' && first <= 'z') && !chemical;
                if (cut) out.pop_back();
            } else if (first == '-' && line.size() > 1 && is_digit(line[1]) && is_digit(last)) {
                // a number broken before its hyphen
            } else if (last == '/' && before != ' ') {
                // goes on without a blank
            } else out += ' ';
        }
        out += line;
    }
    return out;
}

}  // namespace hw::sheet
