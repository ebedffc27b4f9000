// Pieces that belong to no family: flat panels measured one by one, laid out in rows.
#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double least_side_cm = 0.5, most_side_cm = 1000;

double turn(Point2 a, Point2 b, Point2 c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

bool within(Point2 a, Point2 b, Point2 p) {
    return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y && p.y <= std::max(a.y, b.y);
}

bool meet(Point2 a, Point2 b, Point2 c, Point2 d) {
    const double abc = turn(a, b, c), abd = turn(a, b, d), cda = turn(c, d, a), cdb = turn(c, d, b);
    if (((abc > 0) != (abd > 0)) && ((cda > 0) != (cdb > 0)) && abc != 0 && abd != 0 && cda != 0 && cdb != 0) return true;
    return (abc == 0 && within(a, b, c)) || (abd == 0 && within(a, b, d)) || (cda == 0 && within(c, d, a)) || (cdb == 0 && within(c, d, b));
}

Result<Done> check_side(double side, const std::string& where) {
    if (!std::isfinite(side)) return Error{ErrorCode::InvalidInput, "A side must be a number.", where};
    if (side < least_side_cm || side > most_side_cm) return Error{ErrorCode::OutOfRange, "A side must be from 0.5 to 1000 cm.", where};
    return Done{};
}

Result<std::vector<Point2>> checked_outline(const std::vector<Point2>& outline, const std::string& where) {
    if (outline.size() < 3) return Error{ErrorCode::InvalidInput, "An outline needs at least three points.", where};
    double low_x = outline[0].x, high_x = low_x, low_y = outline[0].y, high_y = low_y;
    for (const auto& p : outline) {
        if (!std::isfinite(p.x) || !std::isfinite(p.y)) return Error{ErrorCode::InvalidInput, "Every point must be a pair of numbers.", where};
        low_x = std::min(low_x, p.x);
        high_x = std::max(high_x, p.x);
        low_y = std::min(low_y, p.y);
        high_y = std::max(high_y, p.y);
    }
    if (!is_simple(outline)) return Error{ErrorCode::InvalidInput, "The outline crosses or touches itself. Give its points in order, each once.", where};
    HW_TRY(width, check_side(high_x - low_x, where));
    HW_TRY(height, check_side(high_y - low_y, where));
    static_cast<void>(width);
    static_cast<void>(height);
    return outline;
}

Result<std::vector<Point2>> outline_of(const FreePanel& panel, const std::string& where) {
    if (panel.shape == "outline") return checked_outline(panel.outline, where + ".outline");
    if (panel.shape != "rectangle" && panel.shape != "trapezoid")
        return Error{ErrorCode::InvalidInput, "There is no shape \"" + panel.shape + "\". Use one of: rectangle, trapezoid, outline.", where + ".shape"};
    const bool rectangle = panel.shape == "rectangle";
    HW_TRY(a, check_side(panel.a_cm, where + ".a_cm"));
    HW_TRY(b, check_side(panel.b_cm, where + ".b_cm"));
    static_cast<void>(a);
    static_cast<void>(b);
    if (rectangle) return std::vector<Point2>{{0, 0}, {panel.a_cm, 0}, {panel.a_cm, panel.b_cm}, {0, panel.b_cm}};
    HW_TRY(h, check_side(panel.h_cm, where + ".h_cm"));
    static_cast<void>(h);
    const double in = (panel.a_cm - panel.b_cm) / 2;
    return std::vector<Point2>{{0, 0}, {panel.a_cm, 0}, {panel.a_cm - in, panel.h_cm}, {in, panel.h_cm}};
}

/// One panel placed on the sheet; rows are about as wide as the whole is high.
struct Rows {
    double limit, left = 0, top = 0, row = 0;
    void place(View& view, std::size_t panel, const std::vector<Point2>& outline) {
        double low_x = outline[0].x, high_x = low_x, low_y = outline[0].y, high_y = low_y;
        for (const auto& p : outline) {
            low_x = std::min(low_x, p.x);
            high_x = std::max(high_x, p.x);
            low_y = std::min(low_y, p.y);
            high_y = std::max(high_y, p.y);
        }
        const double width = high_x - low_x, height = high_y - low_y, gap = 0.06 * limit;
        if (left > 0 && left + width > limit) { left = 0; top += row + gap; row = 0; }
        Shape shape;
        shape.panel = panel;
        for (const auto& p : outline) shape.outline.push_back({left + p.x - low_x, top + high_y - p.y});
        shape.lines.push_back(shape.outline);
        shape.lines[0].push_back(shape.outline[0]);
        shape.light_1 = 0.85;
        view.shapes.push_back(std::move(shape));
        left += width + gap;
        row = std::max(row, height);
    }
};

}  // namespace

double signed_area(const std::vector<Point2>& outline) {
    double sum = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const Point2 a = outline[i], b = outline[(i + 1) % outline.size()];
        sum += a.x * b.y - b.x * a.y;
    }
    return sum / 2;
}

bool is_simple(const std::vector<Point2>& outline) {
    const std::size_t n = outline.size();
    if (n < 3) return false;
    for (std::size_t i = 0; i < n; ++i) {
        const Point2 a = outline[i], b = outline[(i + 1) % n], c = outline[(i + 2) % n];
        if (a.x == b.x && a.y == b.y) return false;
        // Back along the same edge.
        if (turn(a, b, c) == 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0) return false;
        for (std::size_t k = i + 2; k < n; ++k)
            if ((k + 1) % n != i && meet(a, b, outline[k], outline[(k + 1) % n])) return false;
    }
    return true;
}

Result<Drawing> drawing_of_free(const std::vector<FreePanel>& panels) {
    if (panels.empty()) return Error{ErrorCode::InvalidInput, "Give at least one panel.", "panels"};
    Drawing out;
    std::vector<std::vector<Point2>> outlines;
    std::set<std::string> codes;
    double sum_cm2 = 0, widest = 0;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        const std::string where = "panels[" + std::to_string(i) + "]";
        HW_TRY(outline, outline_of(panels[i], where));
        Panel panel;
        panel.code = panels[i].code.empty() ? "P" + std::to_string(i + 1) : panels[i].code;
        panel.name = panels[i].name.empty() ? "Panel " + std::to_string(i + 1) : panels[i].name;
        panel.part = "free";
        panel.area_cm2 = std::abs(signed_area(outline));
        if (!codes.insert(panel.code).second) return Error{ErrorCode::InvalidInput, "The code \"" + panel.code + "\" stands twice. Give each panel its own.", where + ".code"};
        const auto [low, high] = std::minmax_element(outline.begin(), outline.end(), [](Point2 a, Point2 b) { return a.x < b.x; });
        widest = std::max(widest, high->x - low->x);
        sum_cm2 += panel.area_cm2;
        out.panels.push_back(std::move(panel));
        outlines.push_back(outline);
    }
    View view{"flat", "Laid out flat", 0, 0, {}};
    Rows rows{std::max(widest, 1.3 * std::sqrt(sum_cm2))};
    for (std::size_t i = 0; i < outlines.size(); ++i) rows.place(view, i, outlines[i]);
    fit(view);
    out.views.push_back(std::move(view));
    out.area_m2 = sum_cm2 / 1e4;
    return out;
}

}  // namespace hw::piece
