#include "edge/pdf/flow.hpp"

#include <algorithm>

#include "edge/pdf/pages.hpp"

namespace hw::pdf {

namespace {

constexpr int cell_lines = 40;                     // so that a row is never taller than a page
constexpr double cell_size = 8.2, cell_pad = 3, column_gap = 8;

std::vector<double> widths_of(const std::vector<Column>& columns, double wide) {
    double fixed = column_gap * static_cast<double>(columns.size() - 1), shares = 0;
    for (const auto& c : columns) {
        fixed += c.width;
        shares += c.share;
    }
    std::vector<double> out;
    for (const auto& c : columns) out.push_back(c.share > 0 ? (wide - fixed) * c.share / shares : c.width);
    return out;
}

}  // namespace

Flow::Flow(Sheet& sheet, double top, double bottom, std::function<void()> frame) : sheet_(sheet), top_(top), bottom_(bottom), y_(top), frame_(std::move(frame)) { frame_(); }

double Flow::left() const { return margin; }
double Flow::wide() const { return sheet_.size().width - 2 * margin; }

void Flow::turn() {
    sheet_.turn();
    frame_();
    y_ = top_;
}

void Flow::need(double height) {
    if (y_ + height > bottom_ && y_ > top_) turn();
}

void Flow::heading(const std::string& text, double with) {
    const Type type = serif(14);
    if (y_ > top_) y_ += 11;
    need(sheet_.height(text, type, wide()) + with);
    sheet_.bookmark(text, y_ - 6);
    y_ += sheet_.text({left(), y_}, wide(), text, type, "H2") + 2;
    sheet_.stroke({{left(), y_}, {left() + wide(), y_}}, line, 0.7);
    y_ += 5;
}

void Flow::paragraph(const Words& words, const Type& type, double after) {
    need(sheet_.height(words, type, wide()));
    y_ += sheet_.text({left(), y_}, wide(), words, type) + after;
}

void Flow::list(const std::vector<std::string>& items, const Type& type, Colour square) {
    for (const auto& item : items) {
        need(sheet_.height(item, type, wide() - 1.1 * type.size));
        y_ += bullets(sheet_, {left(), y_}, wide(), {item}, type, 0, square) + 2.5;
    }
}

void Flow::picture(double height, const std::function<void(Point)>& draw) {
    need(height);
    sheet_.open("Figure");
    draw({left(), y_});
    sheet_.close("Figure");
    y_ += height;
}

double Flow::table_row(const std::vector<double>& widths, const std::vector<Column>& columns, const std::vector<Cell>& cells, bool head, bool measure) {
    double tall = 0, x = left();
    if (!measure) sheet_.open("TR");
    for (std::size_t i = 0; i < cells.size(); ++i) {
        Type type = label(cell_size, head || columns[i].strong, head ? ink_soft : ink);
        type.lines = cell_lines;
        double here = 0;
        if (!cells[i].text.empty()) here = measure ? sheet_.height(cells[i].text, type, widths[i]) : sheet_.text({x, y_ + cell_pad}, widths[i], cells[i].text, type, head ? "TH" : "TD");
        if (cells[i].picture) here += cells[i].picture(sheet_, {x, y_ + cell_pad + here}, widths[i], measure);
        tall = std::max(tall, here);
        x += widths[i] + column_gap;
    }
    if (!measure) sheet_.close("TR");
    return tall + 2 * cell_pad;
}

void Flow::table(const std::vector<Column>& columns, const std::vector<std::vector<Cell>>& rows) {
    const auto widths = widths_of(columns, wide());
    std::vector<Cell> titles;
    for (const auto& c : columns) titles.emplace_back(c.title);
    const double head = table_row(widths, columns, titles, true, true);
    const auto begin = [&] {
        sheet_.open("Table");
        sheet_.fill({left() - 4, y_}, {wide() + 8, head}, sunk);
        table_row(widths, columns, titles, true, false);
        y_ += head;
    };
    need(head + (rows.empty() ? 0 : table_row(widths, columns, rows.front(), false, true)));
    begin();
    for (const auto& row : rows) {
        const double tall = table_row(widths, columns, row, false, true);
        if (y_ + tall > bottom_ && y_ > top_ + head) {
            sheet_.close("Table");
            turn();
            begin();
        }
        table_row(widths, columns, row, false, false);
        y_ += tall;
        sheet_.stroke({{left() - 4, y_}, {left() + wide() + 4, y_}}, line_faint, 0.6);
    }
    sheet_.close("Table");
    y_ += 5;
}

}  // namespace hw::pdf
