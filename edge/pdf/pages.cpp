#include "edge/pdf/pages.hpp"

#include <array>
#include <charconv>

#include "desk/report.hpp"

namespace hw::pdf {

Type label(double size, bool strong, Colour colour) {
    Type t;
    t.size = size;
    t.strong = strong;
    t.colour = colour;
    return t;
}

Type serif(double size, bool strong, Colour colour) {
    Type t;
    t.face = Face::Serif;
    t.size = size;
    t.strong = strong;
    t.colour = colour;
    t.leading = 1.2;
    return t;
}

std::string date_words(const std::string& iso) {
    constexpr std::array<std::string_view, 12> months{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"};
    if (iso.size() < 16) return iso;
    int month = 0, day = 0;
    std::from_chars(iso.data() + 5, iso.data() + 7, month);
    std::from_chars(iso.data() + 8, iso.data() + 10, day);
    if (month < 1 || month > 12 || day < 1) return iso;
    return std::to_string(day) + " " + std::string(months[static_cast<std::size_t>(month - 1)]) + " " + iso.substr(0, 4) + ", " + iso.substr(11, 5) + " UTC";
}

AboutFile about(const desk::KeptJudgement& k, const char* kind) {
    return {(k.row.title.empty() ? k.request.liquid.name + " on " + k.request.leather.name : k.row.title) + " (" + kind + ")", std::string("Judgement of a liquid on a leather, ") + kind, k.row.kept_at};
}

double bullets(Sheet& sheet, Point at, double width, const std::vector<std::string>& items, const Type& type, double gap, Colour square) {
    const double indent = 1.1 * type.size, side = 0.3 * type.size;
    double y = at.y;
    sheet.open("L");
    for (const auto& item : items) {
        sheet.fill({at.x + 0.15 * type.size, y + type.size * type.leading / 2 - side / 2}, {side, side}, square);
        y += sheet.text({at.x + indent, y}, width - indent, item, type, "LI") + gap;
    }
    sheet.close("L");
    return items.empty() ? 0 : y - gap - at.y;
}

double draw_demo_mark(Sheet& sheet, Point at, double width, double size) {
    const double tall = 2 * size;
    sheet.fill(at, {width, tall}, accent_wash);
    sheet.frame(at, {width, tall}, accent, 1);
    Type t = label(size, true, accent);
    t.align = Align::Centre;
    sheet.text({at.x, at.y + 0.32 * size}, width, std::string(desk::demo_mark), t);
    return tall;
}

double draw_stop(Sheet& sheet, Point at, double width, const desk::Stop& stop, double size) {
    const double pad = 1.1 * size, inner = width - 2 * pad - 6;
    const Type head = serif(2 * size, true, warn), big = serif(1.5 * size), now = label(1.1 * size);
    const auto draw = [&](Sheet& on, bool measure) {
        double y = at.y + pad;
        const double x = at.x + pad + 6;
        const auto set = [&](const std::string& text, const Type& type, const char* tag) { return measure ? on.height(text, type, inner) : on.text({x, y}, inner, text, type, tag); };
        const auto list = [&](const std::vector<std::string>& items, Colour square) {
            double sum = 0;
            if (!measure) return bullets(on, {x, y}, inner, items, now, 0.35 * size, square);
            for (const auto& i : items) sum += on.height(i, now, inner - 1.1 * now.size) + 0.35 * size;
            return items.empty() ? 0 : sum - 0.35 * size;
        };
        y += set("STOP", head, "H1") + 0.1 * size;
        y += set(stop.headline, big, "P") + 0.7 * size;
        y += set("Do this now", label(1.1 * size, true), "H2") + 0.2 * size;
        y += list(stop.do_now, ink) + 0.7 * size;
        if (!stop.never.empty()) {
            y += set("Never", label(1.1 * size, true, warn), "H2") + 0.2 * size;
            y += list(stop.never, warn);
        }
        return y + pad - at.y;
    };
    const double tall = draw(sheet, true);
    sheet.fill(at, {width, tall}, warn_wash);
    sheet.frame(at, {width, tall}, warn, 1.5);
    sheet.fill(at, {6, tall}, warn);
    draw(sheet, false);
    return tall;
}

}  // namespace hw::pdf
