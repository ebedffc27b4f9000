// Text, tables and pictures that run on over pages with the same head and foot.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "edge/pdf/sheet.hpp"

namespace hw::pdf {

/// A column of a table; `share` of the width that is left after the fixed ones, or a width.
struct Column {
    std::string title;
    double width = 0;
    double share = 0;
    bool strong = false;
};

/// What is drawn in a cell under its text. @return its height
using CellPicture = std::function<double(Sheet&, Point at, double width, bool measure)>;
struct Cell {
    Cell(std::string text_) : text(std::move(text_)) {}  // NOLINT: implicit by intent
    Cell(std::string text_, CellPicture picture_) : text(std::move(text_)), picture(std::move(picture_)) {}
    std::string text;
    CellPicture picture;
};

class Flow {
public:
    /// @param frame  draws head and foot of the page that is being drawn
    Flow(Sheet& sheet, double top, double bottom, std::function<void()> frame);

    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double left() const;
    [[nodiscard]] double wide() const;
    void space(double height) { y_ += height; }
    /// A new page unless so much is left.
    void need(double height);
    /// A section heading that never stands alone at the foot; also in the outline.
    void heading(const std::string& text, double with = 60);
    void paragraph(const Words& words, const Type& type, double after = 3);
    void list(const std::vector<std::string>& items, const Type& type, Colour square);
    void table(const std::vector<Column>& columns, const std::vector<std::vector<Cell>>& rows);
    /// Draws at the place of a height that is known.
    void picture(double height, const std::function<void(Point)>& draw);

private:
    void turn();
    double table_row(const std::vector<double>& widths, const std::vector<Column>& columns, const std::vector<Cell>& cells, bool head, bool measure);

    Sheet& sheet_;
    double top_, bottom_, y_;
    std::function<void()> frame_;
};

}  // namespace hw::pdf
