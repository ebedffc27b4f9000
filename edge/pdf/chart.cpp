// The chart of the shelf for the wall, and the page on which it stands how drops are counted.
#include <algorithm>

#include "desk/report.hpp"
#include "desk/words.hpp"
#include "edge/pdf/pages.hpp"

namespace hw::pdf {

namespace {

constexpr double edge = 30;                        // narrower than a page to read: it hangs

/// A small box whose filling grows with the grade: empty, a third, a question mark, two thirds, whole, whole and crossed.
void draw_mark(Sheet& sheet, Point at, double size, desk::Grade grade, bool faded) {
    const Colour dark = faded ? line : grade >= desk::Grade::Lasting && grade != desk::Grade::Unknown ? warn : ink;
    const auto filled = [&](double share) { sheet.fill({at.x, at.y + size * (1 - share)}, {size, size * share}, dark); };
    switch (grade) {
        case desk::Grade::StaysWithin: break;
        case desk::Grade::ComesBack: filled(1.0 / 3); break;
        case desk::Grade::Unknown: sheet.hatch(at, {size, size}, dark, 2.4, 0.5); break;
        case desk::Grade::Lasting: filled(2.0 / 3); break;
        case desk::Grade::Deep: filled(1); break;
        case desk::Grade::Stop:
            filled(1);
            sheet.stroke({at, {at.x + size, at.y + size}}, white, 1.2);
            sheet.stroke({{at.x + size, at.y}, {at.x, at.y + size}}, white, 1.2);
            break;
    }
    sheet.frame(at, {size, size}, dark, 0.8);
}

class ChartPages {
public:
    ChartPages(Sheet& sheet, const desk::TouchAnswer& a, const desk::ShelfMeetings& m, const std::string& at, int of) : sheet_(sheet), a_(a), m_(m), at_(at), of_(of) {
        wide_ = sheet.size().width - 2 * edge;
        foot_ = sheet.size().height - edge - 40;
        large_ = sheet.size().width > 1000;
    }

    void draw() {
        const std::size_t most = large_ ? 16 : 12;
        // Even blocks: thirteen are seven and six, not twelve and one.
        const std::size_t blocks = std::max<std::size_t>(1, (a_.columns.size() + most - 1) / most), each = (a_.columns.size() + blocks - 1) / blocks;
        for (std::size_t b = 0; b < blocks; ++b) {
            if (b > 0) sheet_.turn();
            block(b * each, std::min(a_.columns.size(), (b + 1) * each));
        }
        meetings();
        frame_end();
    }

private:
    [[nodiscard]] double small() const { return large_ ? 8.2 : 6.6; }

    double head() {
        double y = edge - 8;
        y += sheet_.text({edge, y}, wide_ * 0.7, "What may touch what", serif(large_ ? 22 : 16), "H1");
        Type right = label(small(), false, ink_soft);
        right.align = Align::Right;
        sheet_.text({edge + wide_ * 0.7, edge - 2}, wide_ * 0.3, date_words(at_), right);
        if (is_demo()) y += draw_demo_mark(sheet_, {edge, y}, wide_, 8) + 2;
        y += sheet_.text({edge, y + 2}, wide_, std::vector<Run>{{"Used like this:", true}, {a_.use_words + ".", false}, {"A test spot comes first.", true}}, label(large_ ? 10 : 8)) + 6;
        double x = edge;
        for (const auto& l : a_.legend) {
            draw_mark(sheet_, {x, y + 1}, small(), l.grade, false);
            Type t = label(small());
            t.lines = 3;
            const double share = wide_ / static_cast<double>(a_.legend.size());
            sheet_.text({x + small() + 3, y}, share - small() - 8, std::vector<Run>{{l.words + ":", true}, {l.meaning, false}}, t);
            x += share;
        }
        y += 3.6 * small() * 1.3;
        return y;
    }

    void frame_end() {
        const double y = sheet_.size().height - edge - 22;
        sheet_.stroke({{edge, y - 3}, {edge + wide_, y - 3}}, ink, 0.8);
        Type t = label(small(), false, ink_soft);
        t.lines = 2;
        std::string words;
        for (const auto& c : a_.cautions) words += (words.empty() ? "" : " ") + c;
        sheet_.text({edge, y}, wide_ - 90, words + " Pale and \u201cold\u201d: something changed since. \u201cFirst look\u201d: from few cases. Worked out by " + a_.version + "; every cell is a judgement with its own sources, on the page \u201cshelf, what may touch what\u201d.", t);
        t.align = Align::Right;
        sheet_.text({edge + wide_ - 85, y}, 85, "page " + std::to_string(sheet_.pages()) + " of " + (of_ > 0 ? std::to_string(of_) : "00"), t);
    }

    [[nodiscard]] bool is_demo() const {
        return std::any_of(a_.rows.begin(), a_.rows.end(), [](const desk::TouchRow& r) { return r.id.rfind("demo_", 0) == 0; });
    }

    double column_heads(double y, std::size_t from, std::size_t to) {
        Type t = label(small(), true);
        t.lines = 4;
        double tall = sheet_.height("Liquid", t, names_);
        for (std::size_t j = from; j < to; ++j) tall = std::max(tall, sheet_.height(a_.columns[j].name, t, each_ - 4));
        sheet_.open("TR");
        sheet_.text({edge, y}, names_, "Liquid", t, "TH");
        for (std::size_t j = from; j < to; ++j) sheet_.text({edge + names_ + each_ * static_cast<double>(j - from) + 2, y}, each_ - 4, a_.columns[j].name, t, "TH");
        sheet_.close("TR");
        y += tall + 3;
        sheet_.stroke({{edge, y}, {edge + wide_, y}}, ink, 1);
        return y + 2;
    }

    void block(std::size_t from, std::size_t to) {
        names_ = large_ ? 190 : 128;
        each_ = to > from ? (wide_ - names_) / static_cast<double>(to - from) : 1;
        double y = column_heads(head(), from, to);
        Type name = label(small() + 0.6, true);
        name.lines = 2;
        sheet_.open("Table");
        for (std::size_t i = 0; i < a_.rows.size(); ++i) {
            double tall = sheet_.height(a_.rows[i].name, name, names_ - 6);
            for (std::size_t j = from; j < to; ++j) tall = std::max(tall, sheet_.height(words_of(cell(i, j)), cell_type(cell(i, j)), each_ - small() - 8));
            tall += 5;
            if (y + tall > foot_) {
                frame_end();
                sheet_.close("Table");
                sheet_.turn();
                y = column_heads(head(), from, to);
                sheet_.open("Table");
            }
            sheet_.open("TR");
            sheet_.text({edge, y + 2}, names_ - 6, a_.rows[i].name, name, "TH");
            for (std::size_t j = from; j < to; ++j) {
                const auto& c = cell(i, j);
                const double x = edge + names_ + each_ * static_cast<double>(j - from);
                if (c.state != desk::CellState::NotComputed) draw_mark(sheet_, {x + 2, y + 3}, small() - 0.5, c.grade, c.state == desk::CellState::Stale);
                sheet_.text({x + small() + 5, y + 2}, each_ - small() - 8, words_of(c), cell_type(c), "TD");
            }
            sheet_.close("TR");
            y += tall;
            sheet_.stroke({{edge, y - 1}, {edge + wide_, y - 1}}, line_faint, 0.5);
        }
        sheet_.close("Table");
        y_ = y;
        if (to < a_.columns.size()) frame_end();
    }

    [[nodiscard]] const desk::TouchCell& cell(std::size_t i, std::size_t j) const { return a_.cells[i * a_.columns.size() + j]; }
    [[nodiscard]] static std::string words_of(const desk::TouchCell& c) {
        switch (c.state) {
            case desk::CellState::NotComputed: return "–";
            case desk::CellState::Stale: return "old: " + c.words;
            case desk::CellState::Preliminary: return c.words + " (first look)";
            case desk::CellState::Computed: return c.words;
        }
        throw Bug("a state without words");
    }
    [[nodiscard]] Type cell_type(const desk::TouchCell& c) const {
        Type t = label(small(), c.grade == desk::Grade::Stop, c.state == desk::CellState::Stale ? line : c.grade == desk::Grade::Stop ? warn : ink);
        t.lines = 4;
        return t;
    }

    /// The box of what must never meet: hard stops, then where to keep what.
    void meetings() {
        if (m_.rules.empty() && m_.storage.empty()) return;
        const double size = large_ ? 9 : 7.4;
        std::vector<std::string> stops, keep;
        for (const auto& r : m_.rules) {
            if (r.severity != "stop") continue;
            stops.push_back(r.sentence + " " + desk::listed(r.ones, 4) + " — with — " + desk::listed(r.others, 4) + (r.from_unknown ? " (possibly)" : "") + ".");
        }
        for (const auto& s : m_.storage) keep.push_back(s.advice + " (" + desk::listed(s.liquids, 4) + ")");
        const double gap = 18, column = (wide_ - gap - 20) / 2;
        const Type t = label(size);
        const auto height = [&](const std::vector<std::string>& items) {
            double sum = 0;
            for (const auto& i : items) sum += sheet_.height(i, t, column - 1.1 * size) + 1;
            return sum;
        };
        const double tall = std::max(height(stops), height(keep)) + 4 * size + 12;
        double y = y_ + 10;
        if (y + tall > foot_) {
            frame_end();
            sheet_.turn();
            y = head();
        }
        sheet_.frame({edge, y}, {wide_, tall}, warn, 2);
        sheet_.text({edge + 10, y + 5}, column, "Must never meet: in a bottle, a bucket, a cloth, or on a piece", serif(1.4 * size, true, warn), "H2");
        sheet_.text({edge + 10 + column + gap, y + 5}, column, "Where to keep them", serif(1.4 * size), "H2");
        bullets(sheet_, {edge + 10, y + 5 + 2.6 * size}, column, stops, t, 1, warn);
        bullets(sheet_, {edge + 10 + column + gap, y + 5 + 2.6 * size}, column, keep, t, 1, ink);
    }

    Sheet& sheet_;
    const desk::TouchAnswer& a_;
    const desk::ShelfMeetings& m_;
    const std::string& at_;
    int of_;
    double wide_ = 0, foot_ = 0, names_ = 0, each_ = 0, y_ = 0;
    bool large_ = false;
};

/// @return how far the last line lies above the foot; below 0 it does not fit
double draw_drops(Sheet& sheet, const desk::TitrateAnswer& a, const std::string& at, double size) {
    const double wide = sheet.size().width - 2 * margin, foot = sheet.size().height - margin - 40;
    double y = margin - 10;
    Type right = label(8.5, false, ink_soft);
    right.align = Align::Right;
    sheet.text({margin, y}, wide, date_words(at), right);
    y += sheet.text({margin, y + 10}, wide, "Counting drops: " + a.liquid, serif(1.7 * size), "H1") + 14;
    y += sheet.text({margin, y}, wide, a.sentence, serif(1.15 * size, false)) + 0.8 * size;
    int n = 0;
    for (const auto& step : a.steps) {
        sheet.text({margin, y}, 2 * size, std::to_string(++n), serif(1.3 * size, true, accent));
        y += sheet.text({margin + 2 * size, y + 0.1 * size}, wide - 2 * size, step, label(size)) + 0.45 * size;
    }
    y += 0.3 * size;
    const double from = y;
    y += sheet.text({margin + 10, y}, wide - 10, "Never", serif(1.3 * size, true, warn), "H2") + 2;
    y += bullets(sheet, {margin + 10, y}, wide - 10, a.never, label(size, true), 0.3 * size, warn);
    sheet.fill({margin, from}, {4, y - from}, warn);
    y += size;
    for (const char* field : {"Drops, first time", "Drops, second time", "Ten drops weigh, g", "Date and name"}) {
        sheet.text({margin, y}, 0.45 * wide, field, label(size));
        sheet.stroke({{margin + 0.42 * wide, y + 1.3 * size}, {margin + wide, y + 1.3 * size}}, ink, 0.8);
        y += 2.1 * size;
    }
    sheet.text({margin, foot + 12}, wide, a.version + " · the product's own data sheet and your local rules come first", label(8, false, ink_soft));
    return foot - y;
}

}  // namespace

Result<std::string> chart_pages(const desk::TouchAnswer& chart, const desk::ShelfMeetings& meetings, const std::string& at, desk::WallPaper paper) {
    const AboutFile file{"What may touch what", "Chart of the shelf for the wall", at};
    int pages = 0;
    {
        Sheet trial(size_of(paper), file, true);
        ChartPages(trial, chart, meetings, at, 0).draw();
        pages = trial.pages();
    }
    Sheet sheet(size_of(paper), file, false);
    ChartPages(sheet, chart, meetings, at, pages).draw();
    return sheet.finish();
}

Result<std::string> drops_page(const desk::TitrateAnswer& how, const std::string& at, desk::Paper paper) {
    constexpr double largest = 15, smallest = 9, step = 0.5;
    const AboutFile file{"Counting drops", "How drops are counted into a product", at};
    for (double size = largest; size >= smallest; size -= step) {
        {
            Sheet trial(paper, file, true);
            if (draw_drops(trial, how, at, size) < 0) continue;
        }
        Sheet sheet(paper, file, false);
        draw_drops(sheet, how, at, size);
        return sheet.finish();
    }
    return Error{ErrorCode::OutOfRange, "There is more to say than one page can hold. Shorten the name of the product.", "liquid.name"};
}

}  // namespace hw::pdf
