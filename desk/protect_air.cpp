#include "desk/protect_air.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/explosive_limits.hpp"
#include "atlas/protect_figures.hpp"
#include "atlas/solvents.hpp"
#include "atlas/substances.hpp"
#include "atlas/vapour_limits.hpp"
#include "atlas/vapours.hpp"
#include "atlas/work_places.hpp"
#include "core/chem/solvents.hpp"
#include "desk/cautions.hpp"
#include "desk/liquids.hpp"
#include "desk/rows.hpp"
#include "desk/sheet_facts.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

const std::string upper_end = "at the upper end of what the sheets say, all of it going into the air";

template <class Rows>
const typename Rows::value_type* row_for(const Rows& rows, std::string_view substance) {
    for (const auto& row : rows)
        if (row.substance == substance) return &row;
    return nullptr;
}

bool gives_vapour(std::size_t substance) {
    const std::string_view name = atlas::substances[substance].name;
    const auto solvent = chem::solvent_of(substance);
    return (solvent && chem::leaves(*solvent) && name != "water") || row_for(atlas::vapour_limits, name) != nullptr || row_for(atlas::explosive_limits, name) != nullptr;
}

double density_g_ml(std::size_t substance) {
    const auto solvent = chem::solvent_of(substance);
    return solvent ? atlas::solvents[*solvent].density_g_cm3 : 1.0;
}

/// Shares by weight at their upper ends; more than the whole gives way alike.
std::vector<double> upper_pct(const ProductFacts& facts) {
    std::vector<double> out;
    double sum = 0;
    for (const auto& i : facts.ingredients) {
        out.push_back(std::clamp(i.high_pct.value_or(100), 0.0, 100.0));
        sum += out.back();
    }
    if (sum > 100)
        for (double& pct : out) pct *= 100 / sum;
    return out;
}

/// Each share by weight as high as it can be beside the least of the others. Together they may pass the whole: a bound for each.
std::vector<double> highest_pct(const ProductFacts& facts) {
    std::vector<double> out;
    double least = 0;
    for (const auto& i : facts.ingredients) least += i.low_pct.value_or(0);
    for (const auto& i : facts.ingredients) out.push_back(std::clamp(std::min(i.high_pct.value_or(100), 100 - (least - i.low_pct.value_or(0))), 0.0, 100.0));
    return out;
}

/// From the sheet, else volumes of the ingredients that are known beside water.
double density_of(const ProductFacts& facts, bool& taken) {
    const ProductFact& said = fact_of(facts, "density");
    if (said.low || said.high) return (said.low.value_or(*(said.high ? said.high : said.low)) + said.high.value_or(*(said.low ? said.low : said.high))) / 2;
    taken = true;
    const auto pct = upper_pct(facts);
    double volume = 0, sum = 0;
    for (std::size_t i = 0; i < pct.size(); ++i) {
        const auto substance = chem::find_substance(facts.ingredients[i].name, facts.ingredients[i].cas);
        volume += pct[i] / (substance ? density_g_ml(*substance) : 1.0);
        sum += pct[i];
    }
    return 100 / (volume + std::max(0.0, 100 - sum));
}

// ---- limits

std::string said_where(const ProductFacts& facts, const ProductLimit& l) { return "data sheet of " + facts.liquid.name + (l.page > 0 ? ", page " + std::to_string(l.page) : ""); }

struct Limits {
    std::vector<CountingLimit> own, printed;
};

CountingLimit counting(std::string span, std::string where, double ppm, Standing standing, Basis basis) { return {std::move(span), std::move(where), number(ppm, 0, "ppm", standing, "as printed"), std::move(basis)}; }

Limits limits_for(std::size_t substance, const std::string& cas, const std::vector<Planned>& items, const std::vector<OwnLimit>& own, Temperature air) {
    const auto& row = atlas::substances[substance];
    Limits out;
    for (const auto& l : own)
        if (l.cas == cas || l.cas == row.cas) {
            const double ppm = l.limit_ppm ? *l.limit_ppm : air::ppm_of(*l.limit_mg_m3, row.molar_mass_g_mol, air);
            out.own.push_back(counting(l.span, l.jurisdiction, ppm, Standing::Published, {"The shop's own limit outranks the tables", "own", l.source + ", " + l.dated, Standing::Published, l.substance}));
        }
    for (const auto& item : items)
        for (const auto& l : item.facts.limits) {
            const auto of = chem::find_substance(l.substance, l.cas);
            if (!of || *of != substance || l.value <= 0) continue;
            const double ppm = l.unit == "ppm" ? l.value : air::ppm_of(l.value, row.molar_mass_g_mol, air);
            out.printed.push_back(counting(l.span, l.jurisdiction.empty() ? "not said where" : l.jurisdiction, ppm, Standing::Published, {"A limit that the data sheet prints", "hcs", said_where(item.facts, l), Standing::Published, std::string(row.name)}));
        }
    for (const auto& l : atlas::vapour_limits)
        if (l.substance == row.name) out.printed.push_back(counting(std::string(l.span), std::string(l.jurisdiction), l.limit_ppm, standing_of(l.standing), basis_of_row(l, "A published limit for the air", std::string(row.name))));
    return out;
}

/// The one that counts: the lowest of the shop's own, else the lowest that is printed anywhere.
std::optional<CountingLimit> lowest(const Limits& limits, std::initializer_list<std::string_view> spans) {
    for (const auto* list : {&limits.own, &limits.printed}) {
        std::optional<CountingLimit> best;
        for (const auto& l : *list)
            if (std::find(spans.begin(), spans.end(), l.span) != spans.end() && (!best || l.ppm.value < best->ppm.value)) best = l;
        if (best) return best;
    }
    return std::nullopt;
}

// ---- one vapour

struct Part {
    double grams = 0, least_grams = 0;
    air::Release release;
};

struct Gas {
    std::size_t substance = 0;
    std::string name, cas;
    std::vector<Part> parts;
    double grams = 0, least_grams = 0;
    double per_limit = 0;                         ///< mg/m3 at the limit; 0: none
    double per_lel = 0;                           ///< mg/m3 at the lower explosive limit; 0: not known
    double per_short = 0;
};

double leaves_h(std::size_t substance, const Planned& item) {
    if (item.sprayed()) return 0;
    const auto solvent = chem::solvent_of(substance);
    const double rate = solvent ? atlas::solvents[*solvent].evaporation_rate_1 : 0;
    return rate > 0 ? safety_figure("film_gone") / 60 / rate : 0;
}

std::vector<Gas> gases_of(const std::vector<Planned>& items) {
    std::vector<Gas> out;
    for (const auto& item : items) {
        const auto pct = highest_pct(item.facts);
        for (std::size_t i = 0; i < pct.size(); ++i) {
            const auto& ingredient = item.facts.ingredients[i];
            const auto substance = chem::find_substance(ingredient.name, ingredient.cas);
            if (!substance || !gives_vapour(*substance) || pct[i] <= 0) continue;
            auto gas = std::find_if(out.begin(), out.end(), [&](const Gas& g) { return g.substance == *substance; });
            if (gas == out.end()) {
                const auto& row = atlas::substances[*substance];
                out.push_back({*substance, std::string(row.name), std::string(row.cas), {}, 0, 0, 0, 0, 0});
                gas = out.end() - 1;
            }
            Part p;
            p.grams = item.grams * pct[i] / 100;
            p.least_grams = std::min(p.grams, item.grams * ingredient.low_pct.value_or(0) / 100);
            p.release = {p.grams, item.item.over_min / 60, leaves_h(*substance, item)};
            gas->grams += p.grams;
            gas->least_grams += p.least_grams;
            gas->parts.push_back(p);
        }
    }
    return out;
}

template <class Each>
double over_parts(const Gas& gas, const Each& each) {
    double sum = 0;
    for (const auto& p : gas.parts) sum += each(p);
    return sum;
}

double level(const Gas& g, const air::Room& room, double at_h) {
    return over_parts(g, [&](const Part& p) { return air::level_mg_m3(p.release, room, at_h); });
}

/// Sum over the gases of level over one of their limits.
double share_at(const std::vector<Gas>& gases, const air::Room& room, double at_h, double Gas::*limit) {
    double sum = 0;
    for (const auto& g : gases)
        if (g.*limit > 0) sum += level(g, room, at_h) / (g.*limit);
    return sum;
}

/// Times at which something is highest, the last of them where everything falls from then on.
std::vector<double> tops_of(const std::vector<Gas>& gases, const air::Room& room) {
    std::vector<double> out;
    for (const auto& g : gases)
        for (const auto& p : g.parts) {
            const double at = air::peak_h(p.release, room);
            if (std::isfinite(at)) out.push_back(at);
        }
    std::sort(out.begin(), out.end());
    return out;
}

/// Highest sum, its time looked for between and at the tops of the parts.
double highest(const std::vector<Gas>& gases, const air::Room& room, double Gas::*limit) {
    double most = 0;
    if (room.air_changes_per_h <= 0) {  // shut: it only rises, until all of it is in the air
        for (const auto& g : gases)
            if (g.*limit > 0) most += g.grams * 1e3 / room.volume_m3 / (g.*limit);
        return most;
    }
    const auto tops = tops_of(gases, room);
    constexpr int steps = 200;
    for (int i = 0; i <= steps && !tops.empty(); ++i) most = std::max(most, share_at(gases, room, tops.front() + (tops.back() - tops.front()) * i / steps, limit));
    for (const double at : tops) most = std::max(most, share_at(gases, room, at, limit));
    return most;
}

/// From when on the sum stays under a share of the limits, h; nothing: it never does.
std::optional<double> under_h(const std::vector<Gas>& gases, const air::Room& room, double share) {
    const auto tops = tops_of(gases, room);
    if (highest(gases, room, &Gas::per_limit) <= share) return 0.0;
    if (room.air_changes_per_h <= 0 || tops.empty()) return std::nullopt;
    const auto over = [&](double at) { return share_at(gases, room, at, &Gas::per_limit) > share; };
    double low = 0, high = tops.back();
    constexpr int steps = 400;
    for (int i = 0; i <= steps; ++i)
        if (over(tops.back() * i / steps)) low = tops.back() * i / steps;
    if (over(high)) {
        while (over(high)) {
            low = high;
            high = std::max(2 * high, high + 0.1);
            if (high > 1e5) return std::nullopt;
        }
    } else {
        high = std::min(high, low + tops.back() / steps);
    }
    for (int i = 0; i < 60; ++i) (over((low + high) / 2) ? low : high) = (low + high) / 2;
    return high;
}

std::string times_limit(double share) { return share >= 1 ? (share < 10 ? fixed(share, 1) : fixed(share, 0)) + " times the limit" : per_cent(share) + " of the limit"; }

/// What is not known to be vapour or not.
void say_unknown(const std::vector<Planned>& items, SafetyAir& out) {
    std::vector<std::string> names;
    double grams = 0;
    bool by_voc = false;
    for (const auto& item : items) {
        const auto pct = upper_pct(item.facts);
        double unknown = 0, known = 0;
        for (std::size_t i = 0; i < pct.size(); ++i) {
            const auto& ingredient = item.facts.ingredients[i];
            Liquid alone;
            alone.ingredients = {{ingredient.name, ingredient.cas, 1.0, std::nullopt, std::nullopt}};
            const auto substance = chem::find_substance(ingredient.name, ingredient.cas);
            if (substance) known += gives_vapour(*substance) ? item.grams * ingredient.low_pct.value_or(0) / 100 : 0;
            else if (crosslinker_named(alone).empty()) {
                unknown += item.grams * pct[i] / 100;
                names.push_back(ingredient.name.empty() ? ingredient.cas : ingredient.name);
            }
        }
        const bool water = item.facts.liquid.family == "water" || chem::names_word(item.facts.liquid.name, "water");
        if (item.facts.ingredients.empty() && !water) {
            unknown = item.grams;
            names.push_back(item.facts.liquid.name.empty() ? "a liquid without a name" : item.facts.liquid.name);
        }
        const ProductFact& voc = fact_of(item.facts, "voc");
        if (unknown > 0 && voc.high) {
            const double all = voc.unit == "%" ? item.grams * *voc.high / 100 : voc.unit == "g/l" ? item.ml * *voc.high / 1000 : voc.unit == "lb/gal" ? item.ml * *voc.high * 0.1198264 : unknown;
            unknown = std::clamp(all - known, 0.0, unknown);
            by_voc = true;
        }
        grams += unknown;
    }
    if (names.empty()) return;
    out.unknown_g = number(grams, 0, "g", Standing::Estimate, by_voc ? "what the sheet's volatile organic compounds leave room for" : "as if all of it could go into the air");
    out.unknown = "Whether " + listed(names, 3) + (names.size() == 1 ? " gives" : " give") + " off vapour is not known: at most " + fixed(grams, grams < 10 ? 1 : 0) + " g " + (by_voc ? "by the volatile organic compounds of the sheet." : "if all of it did.") + " No limit is held against it.";
}

Vapour vapour_of(const Gas& g, const std::vector<Planned>& items, const Space& space, const std::vector<OwnLimit>& own) {
    const auto& row = atlas::substances[g.substance];
    const double m = row.molar_mass_g_mol, v = space.room.volume_m3, density = density_g_ml(g.substance);
    const auto ppm = [&](double mg_m3) { return number(air::ppm_of(mg_m3, m, space.air), air::ppm_of(mg_m3, m, space.air) * (g.grams > 0 ? (g.grams - g.least_grams) / 2 / g.grams : 0), "ppm", Standing::Derived, upper_end); };
    Vapour out;
    out.name = g.name;
    out.cas = g.cas;
    out.planned_g = number(g.grams, (g.grams - g.least_grams) / 2, "g", Standing::Derived, "at the upper end of what the sheets say");
    out.planned_ml = number(g.grams / density, (g.grams - g.least_grams) / 2 / density, "ml", Standing::Derived, "at the upper end of what the sheets say");
    const Limits limits = limits_for(g.substance, g.cas, items, own, space.air);
    out.limit = lowest(limits, {"shift"});
    out.short_limit = lowest(limits, {"short", "ceiling"});
    for (const auto* list : {&limits.own, &limits.printed})
        for (const auto& l : *list) {
            const auto is = [&](const std::optional<CountingLimit>& c) { return c && c->where == l.where && c->span == l.span && c->ppm.value == l.ppm.value; };
            if (!is(out.limit) && !is(out.short_limit) && std::none_of(out.others.begin(), out.others.end(), [&](const CountingLimit& o) { return o.where == l.where && o.span == l.span && o.ppm.value == l.ppm.value; })) out.others.push_back(l);
        }
    if (const auto* lel = row_for(atlas::explosive_limits, g.name)) {
        out.lel = number(lel->lel_pct, 0, "% by volume", standing_of(lel->standing), "as printed");
        out.lel_basis = basis_of_row(*lel, "Lower explosive limit", g.name);
    }
    if (const auto* vapour = row_for(atlas::vapours, g.name)) out.saturated_ppm = number(vapour->vapour_pa / 101325 * 1e6, 0, "ppm", standing_of(vapour->standing), "vapour pressure at 20 °C over that of the air");
    if (!space.computed) return out;
    out.closed_ppm = ppm(g.grams * 1e3 / v);
    if (out.limit) out.ml_to_limit = number(air::grams_for(out.limit->ppm.value, v, m, space.air) / density, 0, "ml", Standing::Derived, "all of it in the closed space");
    if (out.lel) out.ml_to_lel = number(air::grams_for(out.lel->value * 1e4 * safety_figure("lel_share") / 100, v, m, space.air) / density, 0, "ml", Standing::Derived, "all of it in the closed space");
    std::vector<Gas> alone{g};
    alone[0].per_limit = 1;
    out.peak_ppm = ppm(highest(alone, space.room, &Gas::per_limit));
    out.worst_15_min_ppm = ppm(over_parts(g, [&](const Part& p) { return air::worst_mean_mg_m3(p.release, space.room, safety_figure("short_min") / 60); }));
    out.shift_mean_ppm = ppm(over_parts(g, [&](const Part& p) { return air::worst_mean_mg_m3(p.release, space.room, safety_figure("shift_h")); }));
    out.slow = out.saturated_ppm && out.closed_ppm.value > out.saturated_ppm->value;
    if (out.limit) {
        const double rate = over_parts(g, [](const Part& p) { return p.grams / std::max(p.release.over_h, 0.25); });
        out.flow_m3_h = number(air::dilution_m3_h(rate, out.limit->ppm.value, m, space.air, space.mixing_1), 0, "m³/h", Standing::Derived, "a steady release; at once counts as a quarter of an hour");
    }
    return out;
}

std::optional<Number> minutes(std::optional<double> hours, const char* from) {
    if (!hours || !std::isfinite(*hours)) return std::nullopt;
    return number(*hours * 60, 0, "min", Standing::Derived, from);
}

std::string air_words(const SafetyAir& a, const Space& space) {
    if (!space.computed) return "Outdoors the air is not computed.";
    if (a.vapours.empty()) return a.unknown.empty() ? "Nothing that is planned is known to give off vapour that has a limit." : "The air cannot be computed: what gives off vapour is not known.";
    const bool none = std::none_of(a.vapours.begin(), a.vapours.end(), [](const Vapour& v) { return v.limit || v.short_limit; });
    const auto& worst = a.worst_15_of_short.value > a.peak_of_limit.value ? a.worst_15_of_short : a.peak_of_limit;
    const std::string most = &worst == &a.peak_of_limit ? "at its highest it comes to " : "its worst 15 minutes come to ";
    std::string out;
    if (none) out = "No limit was found for what goes into the air, so it is not judged.";
    else if (a.over_limit) out = "The air passes the number of a limit: " + most + times_limit(worst.value) + (space.shut && a.closed_of_limit.value > 0 ? ", and to " + times_limit(a.closed_of_limit.value) + " if all of it stays inside." : ".");
    else if (a.over_closed && space.shut) out = "If all of it stays inside, the air comes to " + times_limit(a.closed_of_limit.value) + ".";
    else out = "The air stays under the limits that were found: " + most + times_limit(worst.value) + ".";
    std::vector<std::string> without;
    for (const auto& v : a.vapours)
        if (!v.limit && !v.short_limit && !none) without.push_back(v.name);
    if (!without.empty()) out += " For " + listed(without, 3) + " no limit was found.";
    return out;
}

}  // namespace

double safety_figure(std::string_view key) { return row_of(atlas::protect_figures, key).value_1; }
Basis basis_of_figure(std::string_view key, std::string inputs) {
    const auto& row = row_of(atlas::protect_figures, key);
    return basis_of_row(row, row.plain_name, std::move(inputs));
}

Result<Space> space_of(const SafetyPlace& place, std::vector<std::string>& defaults) {
    const auto* row = find_row(atlas::work_places, place.key);
    if (row == nullptr) {
        std::vector<std::string> keys;
        for (const auto& r : atlas::work_places) keys.emplace_back(r.key);
        return Error{ErrorCode::NotFound, "There is no place \"" + place.key + "\". Use " + listed(keys) + ".", "place.key"};
    }
    Space s;
    s.kind = std::string(row->kind);
    s.told.key = std::string(row->key);
    s.told.name = std::string(row->plain_name);
    s.air = Temperature::celsius(place.air_c);
    const int sides = static_cast<int>(place.length_m.has_value()) + static_cast<int>(place.width_m.has_value()) + static_cast<int>(place.height_m.has_value());
    if (sides != 0 && sides != 3) return Error{ErrorCode::InvalidInput, "Give length, width and height, or the volume.", "place.length_m"};
    s.computed = !std::isnan(row->volume_m3) || place.volume_m3 || sides == 3;
    if (!s.computed) return s;
    const Standing taken = standing_of(row->standing);
    const bool told_volume = place.volume_m3 || sides == 3;
    const double volume = place.volume_m3 ? *place.volume_m3 : sides == 3 ? *place.length_m * *place.width_m * *place.height_m : row->volume_m3;
    s.told.volume = number(volume, 0, "m³", told_volume ? Standing::Measured : taken, told_volume ? "told" : "usual for the place");
    if (!told_volume) defaults.push_back(s.told.name + ": " + plain(volume) + " m³, as is usual. Measure length, width and height for this one.");
    const bool usual_air = !place.air_changes_per_h && !place.clears_min;
    s.changes_per_h = place.air_changes_per_h ? *place.air_changes_per_h : std::isnan(row->air_changes_per_h) ? 0 : row->air_changes_per_h;
    s.mixing_1 = place.mixing_1 ? *place.mixing_1 : std::isnan(row->mixing_1) ? 1 : row->mixing_1;
    s.mixing_told = place.mixing_1 || place.clears_min;
    if (place.clears_min) {
        // Measured with smoke in this very room: mixing is in it.
        s.clears_h = *place.clears_min / 60;
        s.mixing_1 = 1;
        s.changes_per_h = -std::log(safety_figure("clear_to") / 100) / *s.clears_h;
    }
    if (!s.mixing_told && s.mixing_1 > safety_figure("mixing_whole"))
        defaults.push_back("Mixing of the air: slowed " + plain(s.mixing_1) + " times; known are " + plain(safety_figure("mixing_whole")) + " (at once) to " + plain(safety_figure("mixing_poor")) + " (very poorly).");
    if (usual_air) defaults.push_back("Air changes: " + plain(s.changes_per_h) + " in an hour, as is usual there. A smoke test tells how long this one takes to clear.");
    s.told.air_changes = number(s.changes_per_h, 0, "per hour", usual_air ? taken : place.clears_min ? Standing::Measured : Standing::Measured, usual_air ? "usual for the place" : place.clears_min ? "from the measured clearing time" : "told");
    s.told.mixing = number(s.mixing_1, 0, "", place.clears_min || place.mixing_1 ? Standing::Measured : taken, place.clears_min ? "in the measured clearing time" : place.mixing_1 ? "told" : "usual for the place");
    s.room = {volume, s.changes_per_h / s.mixing_1};
    s.shut = s.told.key == "closed_car" || (s.told.key == "home_room" && usual_air);
    return s;
}

Result<Planned> planned_of(const PlannedItem& item, std::size_t index, std::vector<std::string>& defaults, Ports& ports) {
    const std::string where = "items[" + std::to_string(index) + "].";
    if (item.ml.has_value() == item.grams.has_value()) return Error{ErrorCode::InvalidInput, item.ml ? "Give millilitres or grams, not both." : "Say how much is planned: millilitres or grams.", where + "ml"};
    auto facts = product_facts(item.liquid, ports);
    if (!facts.ok()) return Error{facts.error().code, facts.error().message, where + facts.error().where};
    if (const auto bad = upside_down(facts->liquid)) return Error{bad->code, bad->message, where + bad->where};
    Planned out;
    out.item = item;
    out.facts = *facts;
    for (auto& i : out.facts.ingredients)
        if (i.said_by == SaidBy::Shelf && !i.low_pct)
            for (const auto& of : facts->liquid.ingredients)
                if (of.name == i.name && of.molality_mol_kg)
                    if (const auto substance = chem::find_substance(of.name, of.cas)) {
                        const double kg_kg = *of.molality_mol_kg * atlas::substances[*substance].molar_mass_g_mol / 1000;
                        i.low_pct = i.high_pct = 100 * kg_kg / (1 + kg_kg);
                    }
    out.as_sheet = out.facts.liquid;
    out.as_sheet.ingredients.clear();
    const auto pct = upper_pct(out.facts);
    for (std::size_t i = 0; i < pct.size(); ++i) out.as_sheet.ingredients.push_back({out.facts.ingredients[i].name, out.facts.ingredients[i].cas, pct[i], std::nullopt, std::nullopt});
    const double density = density_of(out.facts, out.density_taken);
    const double product_share = 1 / (1 + item.parts_water);
    out.ml = item.ml ? *item.ml * product_share : *item.grams * product_share / density;
    out.grams = out.ml * density;
    if (out.density_taken && item.ml && std::abs(density - 1) > 1e-9) defaults.push_back("Density of " + out.facts.liquid.name + ": " + fixed(density, 2) + " g/ml, from its ingredients.");
    return out;
}

SafetyAir air_of(const std::vector<Planned>& items, const Space& space, const std::vector<OwnLimit>& own) {
    SafetyAir out;
    auto gases = gases_of(items);
    say_unknown(items, out);
    for (auto& g : gases) {
        out.vapours.push_back(vapour_of(g, items, space, own));
        const auto& v = out.vapours.back();
        const double m = atlas::substances[g.substance].molar_mass_g_mol;
        if (v.limit) g.per_limit = air::mg_m3_of(v.limit->ppm.value, m, space.air);
        if (v.short_limit) g.per_short = air::mg_m3_of(v.short_limit->ppm.value, m, space.air);
        if (v.lel) g.per_lel = air::mg_m3_of(v.lel->value * 1e4, m, space.air);
    }
    out.computed = space.computed && !gases.empty();
    const auto share = [](double value, const char* from) { return number(value, 0, "of the limits", Standing::Derived, from); };
    const auto lel = [](double value) { return number(100 * value, 0, "% of the lower explosive limit", Standing::Derived, upper_end); };
    if (out.computed) {
        double closed = 0, closed_lel = 0, shift = 0, shorts = 0, flow = 0, mol = 0;
        std::vector<air::Part> mixture;
        bool all_lel = true;
        for (std::size_t i = 0; i < gases.size(); ++i) {
            const auto& g = gases[i];
            const auto& v = out.vapours[i];
            const double mg_m3 = g.grams * 1e3 / space.room.volume_m3;
            if (g.per_limit > 0) closed += mg_m3 / g.per_limit;
            if (g.per_lel > 0) closed_lel += mg_m3 / g.per_lel;
            if (v.limit) shift += v.shift_mean_ppm.value / v.limit->ppm.value;
            if (v.short_limit) shorts += v.worst_15_min_ppm.value / v.short_limit->ppm.value;
            if (v.flow_m3_h) flow += v.flow_m3_h->value;
            mol += v.closed_ppm.value;
            all_lel = all_lel && v.lel;
        }
        for (const auto& v : out.vapours)
            if (v.lel) mixture.push_back({v.closed_ppm.value / mol, v.lel->value});
        out.closed_of_limit = share(closed, "all of it in the closed space");
        out.peak_of_limit = share(highest(gases, space.room, &Gas::per_limit), "highest with the air changes");
        out.shift_of_limit = share(shift, "mean of 8 hours for somebody who stays");
        out.worst_15_of_short = share(shorts, "worst 15 minutes against limits of 15 minutes");
        out.closed_of_lel = lel(closed_lel);
        out.peak_of_lel = lel(highest(gases, space.room, &Gas::per_lel));
        if (all_lel && mol > 0) out.mixture_lel = number(air::mixture_lel_pct(mixture), 0, "% by volume", Standing::Derived, "Le Chatelier's rule");
        out.over_limit = out.peak_of_limit.value > 1 || out.worst_15_of_short.value > 1;
        out.over_closed = closed > 1;
        if (flow > 0) {
            out.flow_m3_h = number(flow, 0, "m³/h", Standing::Derived, "sum over the vapours, mixing factor in it");
            out.flow_changes = number(flow / space.room.volume_m3, 0, "per hour", Standing::Derived, "the same as changes of this space");
        }
        const double clear = space.clears_h ? *space.clears_h : air::clearing_h(safety_figure("clear_to") / 100, space.changes_per_h, space.mixing_1);
        out.clears_min = minutes(clear, "from the end to a hundredth");
        out.under_limit_min = minutes(under_h(gases, space.room, 1), "from the start");
        out.back_home_min = minutes(under_h(gases, space.room, safety_figure("home_share") / 100), "from the start");
        if (!space.mixing_told && space.mixing_1 > safety_figure("mixing_whole")) {
            air::Room whole = space.room;
            whole.air_changes_per_h = space.changes_per_h / safety_figure("mixing_whole");
            out.clears_least_min = minutes(air::clearing_h(safety_figure("clear_to") / 100, space.changes_per_h, safety_figure("mixing_whole")), "from the end to a hundredth, air that mixes at once");
            out.back_home_least_min = minutes(under_h(gases, whole, safety_figure("home_share") / 100), "from the start, air that mixes at once");
        }
        double longest = 0;
        for (const auto& i : items) longest = std::max(longest, i.item.over_min);
        const double horizon = std::clamp(out.back_home_min ? out.back_home_min->value * 1.1 : 480.0, longest + 30, std::max(480.0, longest + 30));
        constexpr int points = 60;
        for (int i = 0; i <= points; ++i) {
            const double at = horizon * i / points;
            out.curve.push_back({at, share_at(gases, space.room, at / 60, &Gas::per_limit), share_at(gases, space.room, at / 60, &Gas::per_lel)});
        }
    }
    out.sentence = air_words(out, space);
    return out;
}

std::optional<Flash> flash_of(const std::vector<Planned>& items) {
    std::optional<Flash> out;
    for (const auto& item : items) {
        const ProductFact& said = fact_of(item.facts, "flash_point");
        const auto low = said.low ? said.low : said.high;
        if (low) {
            if (!out || *low < out->celsius) out = Flash{*low, item.facts.liquid.name, {"Flash point of the data sheet", "hcs", "section 9" + std::string(said.page > 0 ? ", page " + std::to_string(said.page) : ""), Standing::Published, said.value}};
            continue;
        }
        if (!said.value.empty()) continue;
        const auto pct = highest_pct(item.facts);
        for (std::size_t i = 0; i < pct.size(); ++i) {
            const auto substance = chem::find_substance(item.facts.ingredients[i].name, item.facts.ingredients[i].cas);
            if (!substance || pct[i] / (1 + item.item.parts_water) <= safety_figure("diluted_fire")) continue;
            const auto* row = row_for(atlas::vapours, atlas::substances[*substance].name);
            if (row != nullptr && (!out || row->flash_c < out->celsius)) out = Flash{row->flash_c, std::string(row->substance), basis_of_row(*row, "Flash point of an ingredient; the mixture may flash higher", item.facts.liquid.name)};
        }
    }
    return out;
}

}  // namespace hw::desk
