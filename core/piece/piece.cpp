#include "core/piece/piece.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>
#include <utility>

#include "atlas/piece_dimensions.hpp"
#include "atlas/piece_families.hpp"
#include "atlas/piece_options.hpp"
#include "atlas/piece_questions.hpp"
#include "base/spelling.hpp"
#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

constexpr double cm2_per_m2 = 1e4;

std::string in_words(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.4g", value);
    return text;
}

std::string nearest(std::string_view word, const std::vector<std::string_view>& known) {
    const auto best = std::min_element(known.begin(), known.end(), [&](auto a, auto b) { return letters_apart(word, a) < letters_apart(word, b); });
    return best == known.end() ? std::string() : std::string(*best);
}

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> out;
    while (!text.empty()) {
        const auto end = std::min(text.find(';'), text.size());
        out.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return out;
}

Family family_of(const atlas::PieceFamiliesRow& row) {
    Family out{row.key, row.plain_name, row.group_key, row.sides, row.source, row.locator, row.standing, {}, {}};
    for (const auto& d : atlas::piece_dimensions)
        if (d.family == row.key)
            out.dimensions.push_back({d.key, d.plain_name, d.value_cm, d.least_cm, d.most_cm, std::isnan(d.per_place_cm) ? 0 : d.per_place_cm, d.source, d.locator, d.standing});
    for (const auto& o : atlas::piece_options)
        if (o.family == row.key)
            out.options.push_back({o.key, o.plain_name, static_cast<int>(o.value_n), static_cast<int>(o.least_n), static_cast<int>(o.most_n), words_of(o.words), o.source, o.locator, o.standing});
    return out;
}

Result<Family> find_family(std::string_view key) {
    std::string names;
    for (const auto& row : atlas::piece_families) {
        if (row.key == key) return family_of(row);
        names += (names.empty() ? "" : ", ") + std::string(row.key);
    }
    return Error{ErrorCode::NotFound, "There is no family \"" + std::string(key) + "\". Use one of: " + names + "; or draw free panels.", "family"};
}

Result<Done> check_keys(const Family& family, const std::vector<Given>& given) {
    std::vector<std::string_view> known;
    for (const auto& d : family.dimensions) known.push_back(d.key);
    for (const auto& o : family.options) known.push_back(o.key);
    std::set<std::string> seen;
    for (const auto& g : given) {
        if (std::find(known.begin(), known.end(), g.key) == known.end())
            return Error{ErrorCode::InvalidInput, "\"" + g.key + "\" is no dimension or option of " + std::string(family.name) + ". Did you mean \"" + nearest(g.key, known) + "\"?", "dimensions." + g.key};
        if (!seen.insert(g.key).second) return Error{ErrorCode::InvalidInput, "\"" + g.key + "\" is given twice. Give it once.", "dimensions." + g.key};
        if (!std::isfinite(g.value_1)) return Error{ErrorCode::InvalidInput, "\"" + g.key + "\" must be a number.", "dimensions." + g.key};
    }
    return Done{};
}

const Given* given_for(const std::vector<Given>& given, std::string_view key) {
    const auto found = std::find_if(given.begin(), given.end(), [&](const Given& g) { return g.key == key; });
    return found == given.end() ? nullptr : &*found;
}

Result<double> option_value(const Option& o, const Given* given) {
    if (given == nullptr) return static_cast<double>(o.value);
    const std::string where = "options." + std::string(o.key);
    if (given->value_1 != std::round(given->value_1)) return Error{ErrorCode::InvalidInput, std::string(o.name) + " must be a whole number.", where};
    if (given->value_1 < o.least || given->value_1 > o.most)
        return Error{ErrorCode::OutOfRange, std::string(o.name) + " must be from " + std::to_string(o.least) + " to " + std::to_string(o.most) + ".", where};
    return given->value_1;
}

Result<double> dimension_value(const Dimension& d, const Given* given, double further_places) {
    const double more = d.per_place_cm * further_places;
    if (given == nullptr) return d.value_cm + more;
    if (given->value_1 < d.least_cm + more || given->value_1 > d.most_cm + more)
        return Error{ErrorCode::OutOfRange, std::string(d.name) + " must be from " + in_words(d.least_cm + more) + " to " + in_words(d.most_cm + more) + " cm; " + in_words(given->value_1) + " cm is given.", "dimensions." + std::string(d.key)};
    return given->value_1;
}

Result<Values> values_of(const Family& family, const std::vector<Given>& given) {
    HW_TRY(checked, check_keys(family, given));
    static_cast<void>(checked);
    std::vector<std::pair<std::string_view, double>> all;
    double further_places = 0;
    for (const auto& o : family.options) {
        HW_TRY(value, option_value(o, given_for(given, o.key)));
        all.emplace_back(o.key, value);
        if (o.key == "seats" || o.key == "return_seats") further_places += value - o.value;
    }
    for (const auto& d : family.dimensions) {
        double places = further_places;
        if (family.key == "corner_sofa") {  // the long side grows with its own places, the short side with its own
            const auto* run = given_for(given, d.key == "length" ? "return_seats" : "seats");
            const auto option = std::find_if(family.options.begin(), family.options.end(), [&](const Option& o) { return o.key == (d.key == "length" ? "return_seats" : "seats"); });
            places = run == nullptr ? 0 : run->value_1 - option->value;
        }
        HW_TRY(value, dimension_value(d, given_for(given, d.key), places));
        all.emplace_back(d.key, value);
    }
    return Values(std::move(all));
}

/// Swaps the words for left and right, and counts numbered parts from the other end.
std::string twin_of(const std::string& code, int places) {
    std::string out;
    for (std::size_t from = 0; from <= code.size();) {
        const std::size_t end = std::min(code.find('-', from), code.size());
        std::string word = code.substr(from, end - from);
        const std::vector<std::pair<std::string, std::string>> pairs{{"L", "R"}, {"left", "right"}, {"RL", "RR"}, {"i", "o"}};
        for (const auto& [a, b] : pairs)
            if ((word == a || word == b) && (a != "i" || code[0] != 'R')) { word = word == a ? b : a; break; }
        const std::string stem = word.substr(0, 2);
        if (word.size() == 3 && (stem == "SC" || stem == "BC")) word = stem + std::to_string(places + 1 - (word[2] - '0'));
        out += (from > 0 ? "-" : "") + word;
        from = end + 1;
    }
    return out;
}

void name_twins(std::string_view family, const Values& values, std::vector<Panel>& panels) {
    if (family == "corner_sofa" || family == "steering_wheel" || family == "door_panel") return;
    int places = 1;
    for (const auto& o : atlas::piece_options)
        if (o.family == family && o.key == "seats") places = values.whole("seats");
    for (auto& panel : panels) {
        const std::string twin = twin_of(panel.code, places);
        if (twin != panel.code && std::any_of(panels.begin(), panels.end(), [&](const Panel& p) { return p.code == twin; })) panel.twin = twin;
    }
}

void ask_questions(std::string_view family, std::vector<Panel>& panels) {
    for (const auto& q : atlas::piece_questions)
        for (auto& panel : panels) {
            if ((q.family != family && q.family != "any") || q.panel != panel.code) continue;
            panel.questions.push_back({q.key, q.sentence, q.source, q.locator, q.standing});
            panel.possible_airbag |= q.key == "airbag";
            panel.possible_occupancy_sensor |= q.key == "occupancy_sensor";
            panel.possible_heater |= q.key == "heater";
            panel.often_other_material |= q.key == "other_material";
        }
}

void sum_areas(const Model& model, Drawing& drawing) {
    for (const auto& solid : model.solids)
        for (const auto& face : solid.faces) {
            if (face.panel == bare) continue;
            Panel& panel = drawing.panels[static_cast<std::size_t>(face.panel)];
            panel.area_cm2 += face.area_cm2;
            if (panel.welt_cm > 0) panel.welt_cm = face.round_cm;  // marked while building; panels with welt have one face
        }
    for (const auto& panel : drawing.panels) (panel.often_other_material ? drawing.other_m2 : drawing.area_m2) += panel.area_cm2 / cm2_per_m2;
}

}  // namespace

int Model::panel(const std::string& code, const std::string& name, const std::string& part) {
    const auto found = std::find_if(panels.begin(), panels.end(), [&](const Panel& p) { return p.code == code; });
    if (found != panels.end()) return static_cast<int>(found - panels.begin());
    Panel made;
    made.code = code;
    made.name = name;
    made.part = part;
    panels.push_back(std::move(made));
    return static_cast<int>(panels.size()) - 1;
}

Solid& Model::add(Solid solid) {
    solids.push_back(std::move(solid));
    return solids.back();
}

double Values::operator[](std::string_view key) const {
    for (const auto& [name, value] : all_)
        if (name == key) return value;
    throw Bug("no dimension or option " + std::string(key));
}

int Values::whole(std::string_view key) const { return static_cast<int>(std::lround((*this)[key])); }

std::vector<Family> families() {
    std::vector<Family> out;
    for (const auto& row : atlas::piece_families) out.push_back(family_of(row));
    return out;
}

Result<Drawing> drawing(std::string_view key, const std::vector<Given>& given) {
    HW_TRY(family, find_family(key));
    HW_TRY(values, values_of(family, given));
    for (const auto& r : relations(key, values))
        if (r.larger < r.smaller + r.gap) return Error{ErrorCode::OutOfRange, r.sentence, "dimensions." + r.field};
    const Model model = model_of(key, values);
    Drawing out;
    out.panels = model.panels;
    ask_questions(key, out.panels);
    name_twins(key, values, out.panels);
    sum_areas(model, out);
    for (const auto& look : model.looks) {
        HW_TRY(view, view_of(model, look));
        out.views.push_back(std::move(view));
    }
    View cushions = cushions_turned(model);
    if (!cushions.shapes.empty()) out.views.push_back(std::move(cushions));
    return out;
}

}  // namespace hw::piece
