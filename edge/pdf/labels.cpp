// Labels for bottles: name, lot, last day, hazards in words, and a code that a camera opens the product by.
#include <algorithm>

#include "edge/pdf/pages.hpp"

namespace hw::pdf {

namespace {

constexpr int across = 2, down = 6;
constexpr double pad = 9, quiet_modules = 4;

/// One run of dark squares in a row is one box: neighbouring boxes would leave hairlines between them.
void draw_code(Sheet& sheet, Point at, double side, const std::vector<std::string>& squares) {
    const double module = side / (static_cast<double>(squares.size()) + 2 * quiet_modules);
    sheet.open("Figure");
    for (std::size_t y = 0; y < squares.size(); ++y)
        for (std::size_t x = 0; x < squares[y].size();) {
            std::size_t run = 0;
            while (x + run < squares[y].size() && squares[y][x + run] == '1') ++run;
            if (run > 0) sheet.fill({at.x + (static_cast<double>(x) + quiet_modules) * module, at.y + (static_cast<double>(y) + quiet_modules) * module}, {static_cast<double>(run) * module, module}, rgb(0x000000));
            x += run + 1;
        }
    sheet.close("Figure");
}

Type lines(Type type, int most) {
    type.lines = most;
    return type;
}

void draw_label(Sheet& sheet, Point at, Size size, const desk::ShelfLabel& l) {
    const double code = l.squares.empty() ? 0 : std::min(size.height - 2 * pad, 92.0), wide = size.width - 2 * pad - code;
    if (code > 0) draw_code(sheet, {at.x + size.width - code - pad / 2, at.y + pad}, code, l.squares);
    const double x = at.x + pad;
    double y = at.y + pad;
    y += sheet.text({x, y}, wide, l.name, lines(serif(12), 2), "H2") + 1;
    if (!l.code.empty()) y += sheet.text({x, y}, wide, std::vector<Run>{{"Lot", false}, {l.code, true}}, lines(label(9.5), 1));
    if (!l.code.empty() || !l.last_day.empty()) y += sheet.text({x, y}, wide, l.last_day.empty() ? Words("Last day not known") : Words(std::vector<Run>{{"Use by", false}, {l.last_day, true}}), lines(label(9.5), 1)) + 2;
    // The warnings take what is left of the height; what does not fit ends in "…" and stands on the product's page.
    std::string all;
    for (const auto& w : l.warnings) all += (all.empty() ? "" : " ") + w + (w.back() == '.' ? "" : ".");
    const double size_pt = 8.5, line_height = 1.3 * size_pt, foot = l.demo ? 10 : 0;
    const int room = static_cast<int>((at.y + size.height - pad - foot - y) / line_height);
    if (room > 0) sheet.text({x, y}, wide, all, lines(label(size_pt, false, warn), room));
    if (l.demo) sheet.text({x, at.y + size.height - pad - 8}, wide, "Demo: invented", lines(label(7, true, ink_soft), 1));
}

}  // namespace

Result<std::string> label_pages(const std::vector<desk::ShelfLabel>& labels, const std::string& at, desk::Paper paper) {
    Sheet sheet(paper, {"Labels for the shelf", "Labels", at}, false);
    const Size page = sheet.size();
    const Size one{(page.width - 2 * margin) / across, (page.height - 2 * margin) / down};
    const std::size_t a_page = static_cast<std::size_t>(across * down);
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const std::size_t place = i % a_page;
        if (i > 0 && place == 0) sheet.turn();
        if (place == 0) {
            for (int c = 0; c <= across; ++c) sheet.stroke({{margin + c * one.width, margin - 12}, {margin + c * one.width, page.height - margin + 12}}, line_faint, 0.5, true);
            for (int r = 0; r <= down; ++r) sheet.stroke({{margin - 12, margin + r * one.height}, {page.width - margin + 12, margin + r * one.height}}, line_faint, 0.5, true);
        }
        draw_label(sheet, {margin + static_cast<double>(place % across) * one.width, margin + static_cast<double>(place / across) * one.height}, one, labels[i]);
    }
    return sheet.finish();
}

}  // namespace hw::pdf
