#include "core/treatment/moisture.hpp"

#include <algorithm>
#include <vector>

#include "atlas/moisture_budgets.hpp"
#include "atlas/moisture_days.hpp"

namespace hw::treatment {

namespace {

template <class Table>
const auto& row_of(const Table& table, std::string_view leather_class) {
    for (const auto& row : table)
        if (row.leather_class == leather_class) return row;
    throw Bug("no moisture budget for " + std::string(leather_class));
}

const diffusion::Layer& layer_of(const Exposure& e, std::size_t cell) { return e.layers[static_cast<std::size_t>(e.section.layer_of[cell])]; }

}  // namespace

MoistureBudget moisture_budget(std::string_view leather_class) {
    const auto& pass = row_of(atlas::moisture_budgets, leather_class);
    const auto& day = row_of(atlas::moisture_days, leather_class);
    return {pass.pass_g_m2, day.net_24h_g_m2, {pass.source, pass.locator, pass.standing}, {day.source, day.locator, day.standing}};
}

double grain_holds_g_m2(const leather::Hide& hide) { return (soaked_kg_m3(hide) - hide.dry_density_kg_m3 * leather::ambient_water_kg_kg(0.5)) * hide.grain_um * 1e-3; }

double wetted_um(const Exposure& e, double from_s) {
    double deepest = 0;
    for (const auto& s : e.section.snapshots) {
        if (s.at_s < from_s) continue;
        for (std::size_t i = 0; i < s.liquid_kg_m3.size(); ++i) {
            const auto& layer = layer_of(e, i);
            if (!layer.finish && s.liquid_kg_m3[i] > (layer.water_ambient_kg_m3 + layer.water_full_kg_m3) / 2) deepest = std::max(deepest, e.section.bottom_m[i] * 1e6 - e.finish_um);
        }
    }
    return deepest;
}

double surface_wet_s(const Exposure& e, double from_s) {
    double wet = 0;
    const auto& snapshots = e.section.snapshots;
    for (std::size_t k = 1; k < snapshots.size(); ++k)
        if (snapshots[k].at_s > from_s && snapshots[k].film_kg_m2 > film_gone_kg_m2) wet += snapshots[k].at_s - snapshots[k - 1].at_s;
    return wet;
}

double most_water_g_m2(const Exposure& e, double from_s) {
    double most = 0;
    for (const auto& s : e.section.snapshots) {
        if (s.at_s < from_s) continue;
        double kg = s.film_kg_m2;
        for (std::size_t i = 0; i < s.liquid_kg_m3.size(); ++i) kg += (s.liquid_kg_m3[i] - layer_of(e, i).water_ambient_kg_m3) * (e.section.bottom_m[i] - e.section.top_m[i]);
        most = std::max(most, 1000 * kg);
    }
    return most;
}

Moisture moisture(const Course& course, const Exposure& e, std::size_t from_laying) {
    constexpr double day_s = 86400;
    Moisture out;
    struct Moved {
        double at_s, g_m2;
    };
    std::vector<Moved> moved;
    double t = course.first_wait_s, from_s = 0;
    std::size_t wipe = 0;
    for (std::size_t i = 0; i < course.layings.size(); ++i) {
        const Laying& l = course.layings[i];
        const bool counts = i >= from_laying;
        if (i == from_laying && i > 0) from_s = t;
        const double water = 1000 * l.kg_m2 * course.liquids[l.liquid].water_kg_kg;
        if (counts) {
            moved.push_back({t, water});
            out.pass_g_m2 = std::max(out.pass_g_m2, water);
        }
        t += l.dwell_s;
        if (takes_off(l)) {
            t += l.press_s;
            HW_EXPECTS(wipe < e.section.wiped_off.size());
            if (counts) moved.push_back({t, -1000 * e.section.wiped_off[wipe].water_kg_m2});
            ++wipe;
        }
        t += l.then_s;
    }
    out.wetted_um = wetted_um(e, from_s);
    out.surface_wet_s = surface_wet_s(e, from_s);
    out.most_water_g_m2 = most_water_g_m2(e, from_s);
    for (const Moved& first : moved) {
        double net = 0;
        for (const Moved& m : moved)
            if (m.at_s >= first.at_s && m.at_s < first.at_s + day_s) {
                net += m.g_m2;
                out.net_24h_g_m2 = std::max(out.net_24h_g_m2, net);
            }
    }
    return out;
}

}  // namespace hw::treatment
