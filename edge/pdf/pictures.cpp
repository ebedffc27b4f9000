#include "edge/pdf/pictures.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "desk/report.hpp"
#include "desk/words.hpp"

namespace hw::pdf {

namespace {

using desk::Grade;

Type small(double size, Align align = Align::Left, bool strong = false) {
    Type t;
    t.size = size;
    t.align = align;
    t.strong = strong;
    t.leading = 1.2;
    return t;
}

/// A layer as drawn: `stretch` times thicker than the grain and the corium are.
struct Drawn {
    std::string name;
    double top_um = 0, bottom_um = 0, top = 0, bottom = 0, stretch = 1;
};

/// How deep anything moved by more than an electrode would see.
double reached_um(const desk::Profile& p) {
    double deepest = 0;
    const double before = p.ph.front().back();
    for (const auto& now : p.ph)
        for (std::size_t i = 0; i < now.size(); ++i)
            if (std::abs(now[i] - before) > 0.3) deepest = std::max(deepest, p.depth_um[i]);
    return deepest;
}

/// The layers that are shown: the grain alone where nothing lies deeper than its middle.
std::vector<desk::Layer> shown_layers(const desk::Profile& p) {
    std::vector<desk::Layer> all;
    double cut = std::numeric_limits<double>::infinity();
    for (const auto& l : p.layers) {
        if (l.name == "film" || !(l.bottom_um > l.top_um)) continue;
        if (l.name == "grain" && reached_um(p) < (l.top_um + l.bottom_um) / 2) cut = l.bottom_um;
        all.push_back(l);
    }
    std::erase_if(all, [cut](const desk::Layer& l) { return l.top_um >= cut; });
    return all;
}

std::vector<Drawn> stacked(const desk::Profile& p, std::size_t moment, double height) {
    const double film_um = moment < p.film_um.size() ? p.film_um[moment] : 0;
    const bool wet = film_um > 0.5;
    const double film_height = wet ? 0.09 * height : 0, thin = 0.1 * height;
    std::vector<Drawn> out;
    double true_um = 0, thin_count = 0;
    const auto layers = shown_layers(p);
    for (const auto& l : layers) (l.name == "finish" ? thin_count : true_um) += l.name == "finish" ? 1 : l.bottom_um - l.top_um;
    const double scale = (height - film_height - thin * thin_count) / std::max(true_um, 1e-9);
    double y = 0;
    if (wet) {
        out.push_back({"film", -film_um, 0, 0, film_height, 0});
        y = film_height;
    }
    for (const auto& l : layers) {
        const double um = l.bottom_um - l.top_um, tall = l.name == "finish" ? thin : um * scale;
        out.push_back({l.name, l.top_um, l.bottom_um, y, y + tall, tall / (um * scale)});
        y += tall;
    }
    return out;
}

Colour hide_tone(const std::string& layer) { return layer == "film" ? film : layer == "finish" ? finish : layer == "grain" ? grain : corium; }

/// A depth that is easy to say.
double round_depth(double um) {
    const double step = um >= 100 ? 50 : um >= 20 ? 10 : 5;
    return std::max(step, std::round(um / step) * step);
}

/// A figure beside the picture.
struct Station {
    double y = 0;
    std::vector<std::string> ph;                  ///< at each moment
    std::string where;
};

std::vector<Station> stations(const desk::Profile& p, const std::vector<std::size_t>& moments, const std::vector<Drawn>& layers) {
    const double zero = desk::leather_top_um(p);
    std::vector<Station> out;
    const auto add = [&](double y, double um, std::string where) {
        std::vector<std::string> ph;
        for (std::size_t m : moments) ph.push_back(desk::fixed(desk::ph_at(p, m, um), 1));
        out.push_back({y, std::move(ph), std::move(where)});
    };
    for (const auto& l : layers) {
        const double um = l.bottom_um - l.top_um, tall = l.bottom - l.top;
        if (l.name == "film") {
            std::vector<std::string> ph;
            for (std::size_t m : moments) ph.push_back(m < p.film_ph.size() && std::isfinite(p.film_ph[m]) ? desk::fixed(p.film_ph[m], 1) : "dry");
            out.push_back({(l.top + l.bottom) / 2, std::move(ph), "liquid on top"});
        } else if (l.name == "finish") {
            add((l.top + l.bottom) / 2, (l.top_um + l.bottom_um) / 2, "in the finish");
        } else {
            if (l.top_um <= zero) {
                const auto first = std::lower_bound(p.depth_um.begin(), p.depth_um.end(), l.top_um);
                add(l.top + 1, first == p.depth_um.end() ? l.top_um : *first, "top of the " + l.name);
            }
            const std::vector<double> parts = tall < 60 ? std::vector<double>{0.6} : tall < 110 ? std::vector<double>{0.35, 0.85} : std::vector<double>{0.22, 0.55, 0.92};
            for (double part : parts) {
                const double depth = round_depth(l.top_um + part * um - zero);
                add(l.top + (depth + zero - l.top_um) / um * tall, depth + zero, desk::depth_in_words(depth));
            }
        }
    }
    return out;
}

/// Moves places apart until each has `gap` to the next, in their order and inside [from, to].
std::vector<double> apart(const std::vector<Station>& stations, double gap, double from, double to) {
    std::vector<double> out;
    for (const auto& s : stations) out.push_back(std::max(s.y, out.empty() ? from : out.back() + gap));
    for (std::size_t i = out.size(); i-- > 0;) out[i] = std::min(out[i], i + 1 < out.size() ? out[i + 1] - gap : to);
    return out;
}

void draw_colours(Sheet& sheet, Point at, double width, const desk::Profile& p, std::size_t moment, const Drawn& l) {
    if (l.name == "film") {
        const double ph = moment < p.film_ph.size() ? p.film_ph[moment] : std::numeric_limits<double>::quiet_NaN();
        sheet.fill({at.x, at.y + l.top}, {width, l.bottom - l.top}, std::isfinite(ph) ? ph_colour(ph) : white);
        return;
    }
    // From above, each strip down to the layer's foot and the next one over it: no seam shows between two.
    const int strips = std::clamp(static_cast<int>(l.bottom - l.top), 1, 160);
    for (int i = 0; i < strips; ++i) {
        const double part = static_cast<double>(i) / strips, y = l.top + part * (l.bottom - l.top);
        sheet.fill({at.x, at.y + y}, {width, l.bottom - y}, ph_colour(desk::ph_at(p, moment, l.top_um + (part + 0.5 / strips) * (l.bottom_um - l.top_um))));
    }
}

int step_of(Grade g) { return g == Grade::Unknown || g == Grade::Stop ? -1 : static_cast<int>(g); }

/// Where a place lies along a fan, 0 to 1: what soaks in goes with the square root of time, and time by its logarithm.
double placed(bool depth, double at, double last) {
    if (!(last > 0)) return 0;
    const double v = std::clamp(at, 0.0, last);
    return depth ? std::sqrt(v / last) : std::log1p(v / 5) / std::log1p(last / 5);
}

/// Round places of the axis, so far apart that their words do not meet.
std::vector<double> fan_marks(bool depth, double last) {
    constexpr double apart = 0.14;
    const std::vector<double> all = depth ? std::vector<double>{0, 10, 50, 100, 250, 500, 1000, 1500, 2000, 3000, 4000, 6000} : std::vector<double>{0, 10, 60, 600, 3600, 21600, 86400, 259200, 604800, 2592000};
    std::vector<double> out;
    for (double m : all)
        if (m <= last * 1.001 && (out.empty() || placed(depth, m, last) - placed(depth, out.back(), last) > apart)) out.push_back(m);
    return out;
}

/// The points of a fan at which every figure is there.
std::vector<std::size_t> whole_points(const desk::Fan& f) {
    std::vector<std::size_t> out;
    const std::size_t n = std::min({f.at.size(), f.median.size(), f.low_50.size(), f.high_50.size(), f.low_90.size(), f.high_90.size()});
    for (std::size_t i = 0; i < n; ++i)
        if (std::isfinite(f.at[i]) && std::isfinite(f.median[i]) && std::isfinite(f.low_50[i]) && std::isfinite(f.high_50[i]) && std::isfinite(f.low_90[i]) && std::isfinite(f.high_90[i])) out.push_back(i);
    return out;
}

}  // namespace

void draw_section(Sheet& sheet, Point at, Size size, const desk::Profile& p, double type_size) {
    if (p.depth_um.empty() || p.ph.empty()) return;
    const std::size_t worst = desk::worst_moment(p), last = p.ph.size() - 1;
    std::vector<std::size_t> moments{worst};
    if (last != worst && worst != 0) moments.push_back(last);
    const double names = 5.6 * type_size, tone = 1.6 * type_size, lead = 10, head = 1.4 * type_size;
    const auto layers = stacked(p, worst, size.height - head);
    const auto said = stations(p, moments, layers);
    double figures = 0;
    for (const auto& s : said) figures = std::max(figures, lead + 2 + sheet.width(s.where, small(0.9 * type_size)));
    const double x = at.x + names + tone, y = at.y + head, width = size.width - names - tone - figures, half = width / static_cast<double>(moments.size());
    for (std::size_t m = 0; m < moments.size(); ++m)
        sheet.text({x + static_cast<double>(m) * half, at.y - 0.1 * type_size}, half, p.time_s[moments[m]] > 0 ? "after " + desk::span(p.time_s[moments[m]]) : "at the start", small(0.95 * type_size, Align::Centre, true));
    for (const auto& l : layers) {
        const double middle = y + (l.top + l.bottom) / 2;
        const bool stretched = l.stretch > 1.05;
        sheet.text({at.x, middle - (stretched ? 1.15 : 0.6) * type_size}, names - 4, l.name == "film" ? "liquid" : l.name, small(type_size, Align::Right, true));
        if (stretched) sheet.text({at.x, middle}, names - 4, "drawn ×" + desk::fixed(l.stretch, l.stretch < 9.5 ? 1 : 0), small(0.82 * type_size, Align::Right));
        sheet.fill({x - tone, y + l.top}, {tone, l.bottom - l.top}, hide_tone(l.name));
        if (l.name == "corium") sheet.hatch({x - tone, y + l.top}, {tone, l.bottom - l.top}, rgb(0x9a7347), 4, 0.5);
        for (std::size_t m = 0; m < moments.size(); ++m) draw_colours(sheet, {x + static_cast<double>(m) * half, y}, half, p, moments[m], l);
        if (l.top > 0) sheet.stroke({{x - tone, y + l.top}, {x + width, y + l.top}}, ink, 0.7);
    }
    const double foot = layers.empty() ? size.height - head : layers.back().bottom;
    if (moments.size() > 1) sheet.stroke({{x + half, y}, {x + half, y + foot}}, ink, 0.8);
    sheet.frame({x - tone, y}, {width + tone, foot}, ink, 0.8);
    const auto places = apart(said, 1.42 * type_size, 0.75 * type_size, foot - 0.75 * type_size);
    for (std::size_t i = 0; i < said.size(); ++i) {
        for (std::size_t m = 0; m < moments.size(); ++m) {
            const Type number = small(type_size, Align::Centre, true);
            const double wide = sheet.width(said[i].ph[m], number) + 6, from = x + (static_cast<double>(m) + 0.5) * half - wide / 2;
            sheet.fill({from, y + places[i] - 0.66 * type_size}, {wide, 1.32 * type_size}, white);
            sheet.text({from, y + places[i] - 0.6 * type_size}, wide, said[i].ph[m], number);
        }
        sheet.stroke({{x + width, y + said[i].y}, {x + width + 3, y + said[i].y}, {x + width + lead - 2, y + places[i]}}, ink, 0.6);
        sheet.text({x + width + lead, y + places[i] - 0.54 * type_size}, figures, said[i].where, small(0.9 * type_size));
    }
}

double draw_ph_key(Sheet& sheet, Point at, double width, double type_size) {
    constexpr int from = 2, to = 13, steps = 110;
    const double tall = 0.9 * type_size, lead = sheet.width("pH", small(type_size, Align::Left, true)) + 5, wide = width - lead;
    sheet.text({at.x, at.y - 0.15 * type_size}, lead, "pH", small(type_size, Align::Left, true));
    const double unit = wide / (to - from + 1);
    for (int i = 0; i < steps; ++i) {
        const double part = static_cast<double>(i) / steps;
        sheet.fill({at.x + lead + part * wide, at.y}, {wide * (1 - part), tall}, ph_colour(from - 0.5 + (part + 0.5 / steps) * (to - from + 1)));
    }
    sheet.frame({at.x + lead, at.y}, {wide, tall}, ink, 0.5);
    for (int ph = from; ph <= to; ++ph) sheet.text({at.x + lead + (ph - from) * unit, at.y + tall + 0.5}, unit, std::to_string(ph), small(0.86 * type_size, Align::Centre));
    return tall + 1.2 * type_size;
}

double draw_stair(Sheet& sheet, Point at, double width, Grade grade, double type_size) {
    const int here = step_of(grade);
    const double step = width / 4, rise = 0.55 * type_size, head = 0.75 * type_size;
    for (int i = 0; i < 4; ++i) {
        const double x = at.x + i * step, tall = 0.6 * type_size + i * rise;
        const bool is_here = i == here;
        sheet.fill({x + 0.5, at.y + head}, {step - 1, tall}, is_here ? ink : i < here ? line_faint : sunk);
        sheet.frame({x + 0.5, at.y + head}, {step - 1, tall}, is_here ? ink : line, 0.6);
        sheet.text({x, at.y + head + tall + 0.15 * type_size}, step, std::string(desk::grade_word(static_cast<Grade>(i))), small(type_size, Align::Centre, is_here));
    }
    sheet.stroke({{at.x, at.y + head}, {at.x + width, at.y + head}}, ink, 1.2);
    if (here >= 0) {
        const double x = at.x + (here + 0.5) * step;
        sheet.area({{x, at.y + head}, {x - 0.45 * type_size, at.y}, {x + 0.45 * type_size, at.y}}, ink);
    }
    return head + 0.6 * type_size + 3 * rise + 1.5 * type_size;
}

namespace {

constexpr Colour lasting_tone = rgb(0x8f5533);

/// The four fills of the grades: empty, hatched, brown, black with lines.
void fill_of_grade(Sheet& sheet, Point at, Size size, Grade g) {
    if (g == Grade::ComesBack) sheet.hatch(at, size, ink, 3.2, 0.9);
    if (g == Grade::Lasting) sheet.fill(at, size, lasting_tone);
    if (g == Grade::Deep) sheet.fill(at, size, ink);
    if (g == Grade::Unknown || g == Grade::Stop) sheet.hatch(at, size, line, 6, 0.5);
}

}  // namespace

double draw_chances(Sheet& sheet, Point at, double width, const std::vector<desk::Chance>& chances, double type_size) {
    const double tall = 1.7 * type_size;
    double from = 0;
    for (const auto& c : chances) {
        const double share = std::clamp(c.share_1, 0.0, 1.0 - from);
        fill_of_grade(sheet, {at.x + from * width, at.y}, {share * width, tall}, c.grade);
        if (from > 0) sheet.stroke({{at.x + from * width, at.y}, {at.x + from * width, at.y + tall}}, ink, 1);
        from += share;
    }
    for (int i = 1; i < 10; ++i) {
        sheet.stroke({{at.x + 0.1 * i * width, at.y}, {at.x + 0.1 * i * width, at.y + tall}}, white, 1.8);
        sheet.stroke({{at.x + 0.1 * i * width, at.y}, {at.x + 0.1 * i * width, at.y + tall}}, line, 0.5);
    }
    sheet.frame(at, {width, tall}, ink, 0.9);
    double y = at.y + tall + 0.5 * type_size;
    for (const auto& c : chances) {
        const double box = 0.9 * type_size;
        fill_of_grade(sheet, {at.x, y + 0.15 * type_size}, {1.6 * box, box}, c.grade);
        sheet.frame({at.x, y + 0.15 * type_size}, {1.6 * box, box}, ink, 0.6);
        const std::string share = desk::in_ten(c.share_1);
        y += sheet.text({at.x + 2.2 * box, y}, width - 2.2 * box, std::vector<Run>{{std::string(desk::grade_alone(c.grade)) + ":", true}, {share + " (" + desk::per_cent(c.share_1) + ")", false}}, small(type_size));
    }
    return y - at.y;
}

void draw_chance(Sheet& sheet, Point at, Size size, double passed_1, double lasting_1) {
    const double passed = std::clamp(passed_1, 0.0, 1.0), lasting = std::clamp(lasting_1, 0.0, passed);
    fill_of_grade(sheet, {at.x + lasting * size.width, at.y}, {(passed - lasting) * size.width, size.height}, Grade::ComesBack);
    sheet.fill(at, {lasting * size.width, size.height}, lasting_tone);
    for (int i = 1; i < 10; ++i) sheet.stroke({{at.x + 0.1 * i * size.width, at.y}, {at.x + 0.1 * i * size.width, at.y + size.height}}, line, 0.35);
    sheet.frame(at, size, ink, 0.7);
}

double draw_fan(Sheet& sheet, Point at, Size size, const desk::Fan& f, const std::vector<desk::LimitCheck>& limits, double grain_um) {
    const auto points = whole_points(f);
    if (points.size() < 2) return 0;
    const bool depth = f.along == "depth_um", is_ph = f.unit == "pH";
    constexpr double type_size = 7.5;
    const double left = 26, foot = 22, head = 3;
    const Size box{size.width - left - 4, size.height - foot - head};
    const Point corner{at.x + left, at.y + head};
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (std::size_t i : points) {
        low = std::min(low, f.low_90[i]);
        high = std::max(high, f.high_90[i]);
    }
    std::vector<const desk::LimitCheck*> near;
    for (const auto& l : limits)
        if (is_ph && l.decides && l.limit.unit == "pH" && l.quantity.find("inside the leather") != std::string::npos && l.limit.value > low - 1.2 && l.limit.value < high + 1.2) near.push_back(&l);
    for (const auto* l : near) {
        low = std::min(low, l->limit.value);
        high = std::max(high, l->limit.value);
    }
    double step = is_ph ? 1 : std::pow(10, std::floor(std::log10(std::max(high - low, 1e-12))));
    while ((high - low) / step > 6) step *= 2;
    while (!is_ph && (high - low) / step < 2.5) step /= 2;
    low = std::floor(low / step) * step;
    high = std::max(std::ceil(high / step) * step, low + step);
    double first = 0, last = 0;
    for (std::size_t i : points) last = std::max(last, f.at[i]);
    const auto x_of = [&](double v) { return corner.x + placed(depth, v, last) * box.width; };
    const auto y_of = [&](double v) { return corner.y + (1 - (v - low) / (high - low)) * box.height; };

    sheet.fill(corner, box, white);
    const auto band = [&](const std::vector<double>& under, const std::vector<double>& over, Colour colour) {
        std::vector<Point> edge;
        for (std::size_t i : points) edge.push_back({x_of(f.at[i]), y_of(over[i])});
        for (std::size_t k = points.size(); k-- > 0;) edge.push_back({x_of(f.at[points[k]]), y_of(under[points[k]])});
        sheet.area(edge, colour);
    };
    band(f.low_90, f.high_90, band_90);
    band(f.low_50, f.high_50, band_50);
    for (int k = 0; low + k * step <= high + 1e-9; ++k) {
        const double v = low + k * step;
        sheet.stroke({{corner.x, y_of(v)}, {corner.x + box.width, y_of(v)}}, line_faint, 0.4);
        sheet.text({at.x - 6, y_of(v) - 0.6 * type_size}, left - 2, desk::fixed(v, step < 1 ? static_cast<int>(std::ceil(-std::log10(step) - 1e-9)) : 0), small(type_size, Align::Right));
    }
    if (is_ph) {
        constexpr int strips = 60;
        for (int k = 0; k < strips; ++k) sheet.fill({corner.x - 4, corner.y + box.height * k / strips}, {4, box.height * (strips - k) / strips}, ph_colour(high - (k + 0.5) / strips * (high - low)));
    }
    std::vector<Point> middle;
    for (std::size_t i : points) middle.push_back({x_of(f.at[i]), y_of(f.median[i])});
    sheet.stroke(middle, ink, 1.5);
    for (const auto* l : near) sheet.stroke({{corner.x, y_of(l->limit.value)}, {corner.x + box.width, y_of(l->limit.value)}}, warn, 1, true);
    if (!near.empty()) {
        const auto* l = near.front();
        const std::string said = "limit pH " + desk::fixed(l->limit.value, 1);
        const double wide = sheet.width(said, small(type_size)) + 4, y = y_of(l->limit.value), x = corner.x + box.width - wide - 1;
        sheet.text({x, y - 1.35 * type_size > corner.y ? y - 1.3 * type_size : y + 1}, wide, said, [&] { Type t = small(type_size); t.colour = warn; return t; }());
    }
    if (depth && grain_um > 0 && grain_um < last) {
        sheet.stroke({{x_of(grain_um), corner.y}, {x_of(grain_um), corner.y + box.height}}, line, 0.7, true);
        sheet.text({x_of(grain_um) - 62, corner.y + box.height - 1.4 * type_size}, 60, "end of the grain", small(0.9 * type_size, Align::Right));
    }
    sheet.frame(corner, box, ink, 0.6);
    for (double m : fan_marks(depth, last)) {
        const double x = x_of(m);
        sheet.stroke({{x, corner.y + box.height}, {x, corner.y + box.height + 3}}, ink, 0.6);
        const std::string said = m <= first ? "0" : depth ? (m >= 1000 ? desk::fixed(m / 1000, std::fmod(m, 1000) > 0 ? 1 : 0) + " mm" : desk::fixed(m, 0) + " µm") : desk::span(m);
        const double wide = sheet.width(said, small(type_size));
        sheet.text({std::min(x - wide / 2, at.x + size.width - wide), corner.y + box.height + 3}, wide + 2, said, small(type_size));
    }
    sheet.text({corner.x, corner.y + box.height + 3 + 1.15 * type_size}, box.width, depth ? "depth below the top of the leather" : "time", small(0.94 * type_size, Align::Centre));
    return size.height;
}

double draw_balance(Sheet& sheet, Point at, double width, const desk::Balance& b) {
    constexpr double type_size = 8.5, row = 17, names = 150, bar = 10;
    struct Row {
        std::string name;
        const desk::Number* number;
        Colour colour;
    };
    const std::string what = b.alkali ? "alkali" : "acid";
    const std::vector<Row> rows{{what + " laid on", &b.applied, rgb(0x9db4be)}, {"of it left, in the end", &b.left, rgb(0x4a6f82)}, {"the finish takes up", &b.takes_finish, finish}, {"the grain takes up", &b.takes_grain, grain}, {"the corium takes up", &b.takes_corium, corium}};
    double most = 1e-9;
    for (const auto& r : rows) most = std::max(most, r.number->value + r.number->plus_minus);
    const double figures = 105, wide = width - names - figures - 12;
    double y = at.y;
    for (const auto& r : rows) {
        if (r.number->unit.empty()) continue;
        const double length = std::max(r.number->value, 0.0) / most * wide, band = r.number->plus_minus / most * wide, x = at.x + names;
        sheet.text({at.x, y + 1.5}, names - 8, r.name, small(type_size, Align::Right));
        sheet.fill({x, y + 2}, {length, bar}, r.colour);
        sheet.frame({x, y + 2}, {std::max(length, 0.4), bar}, ink, 0.6);
        if (band > 0.5) {
            const double from = std::max(length - band, 0.0), middle = y + 2 + bar / 2;
            sheet.stroke({{x + from, middle}, {x + length + band, middle}}, ink, 0.9);
            for (double end : {from, length + band}) sheet.stroke({{x + end, middle - 2.5}, {x + end, middle + 2.5}}, ink, 0.9);
        }
        sheet.text({x + wide + 8, y + 1.5}, figures + 4, desk::number_in_words(*r.number), small(type_size, Align::Left, true));
        y += row;
    }
    return y - at.y;
}

}  // namespace hw::pdf
