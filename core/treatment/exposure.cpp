#include "core/treatment/exposure.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/judging_thresholds.hpp"
#include "core/chem/systems.hpp"
#include "core/chem/volatility.hpp"
#include "core/diffusion/evaporation.hpp"

namespace hw::treatment {

namespace {

/// Finish thickness that halves how freely the pores breathe: film and pores are resistances in series.
double half_breath_um() {
    for (const auto& row : atlas::judging_thresholds)
        if (row.key == "half_breath") return row.limit_um;
    throw Bug("no row half_breath");
}

// Breathing of dry pores: carbon dioxide within a minute or so, others slowed by their solubility. Estimate.
constexpr double pore_exchange_per_s = 0.02;
constexpr double finish_full_kg_m3 = 100, finish_ambient_kg_m3 = 20;  // water in a swollen and a dry film: estimate
constexpr double grain_solute_share = 0.19;   // pore share to the power 1.5, halved for woven fibres (Bruggeman): estimate
constexpr double solute_exponent = 10.0 / 3;  // millington1961
constexpr double true_density_kg_m3 = 1450, pores_filled_1 = 0.9;

std::vector<std::size_t> travelling(const chem::Totals& liquid, double least_share, std::vector<std::string>& left_out) {
    std::vector<std::size_t> order;
    const std::size_t carbonate = chem::system_index("carbonate");
    double all = std::abs(liquid.strong_charge_mol_kg());
    for (double mol : liquid.system_mol_kg) all += mol;
    for (std::size_t s = 0; s < liquid.system_mol_kg.size(); ++s)
        if (s != carbonate && liquid.system_mol_kg[s] > std::max(1e-7, least_share * all)) order.push_back(s);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return liquid.system_mol_kg[a] > liquid.system_mol_kg[b]; });
    while (order.size() > static_cast<std::size_t>(diffusion::max_components) - 1) {
        left_out.push_back(std::string(chem::acid_systems()[order.back()].name));
        order.pop_back();
    }
    order.insert(order.begin(), carbonate);
    return order;
}

diffusion::Component component(std::size_t system, const Story& story, double ionic, double co2_atm) {
    const auto k = chem::conditional_constants(system, story.air, ionic);
    diffusion::Component c;
    const auto& sys = chem::acid_systems()[system];
    c.name = std::string(sys.name);
    c.top_charge = sys.top_charge;
    c.log_k = k.log_k;
    c.d_m2_s = chem::diffusion_25(system) * chem::diffusion_scale(story.air);
    if (const auto row = chem::volatile_of_system(sys.name)) {
        c.neutral_form = sys.top_charge;  // the form that has lost its charge
        c.film_velocity_m_s = chem::loss_velocity(*row, story.air).in(metres_per_second);
        c.pore_exchange_per_s = pore_exchange_per_s / std::max(1.0, chem::henry_1(*row, story.air));
    }
    if (sys.name == "carbonate") {
        c.air_mol_m3 = chem::co2_in_balance_mol_m3(story.air, co2_atm);
        c.hydroxide_rate_m3_mol_s = chem::co2_hydroxide_rate_m3_mol_s(story.air);
    }
    return c;
}

}  // namespace

Setting setting(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double ionic_strength_mol_kg, double least_share_1) {
    Setting out;
    const double co2_atm = chem::Conditions{}.co2_atm, ionic = std::clamp(ionic_strength_mol_kg, 0.1, 1.0);
    out.ionic_strength_mol_kg = ionic;
    out.systems = travelling(liquid, least_share_1, out.left_out);
    std::vector<diffusion::Component>& components = out.components;
    for (std::size_t s : out.systems) components.push_back(component(s, story, ionic, co2_atm));
    const auto first = chem::conditional_constants(out.systems[0], story.air, ionic);
    out.ph_minus_x = first.ph_minus_x;

    diffusion::Options& o = out.options;
    o.log_kw_1 = first.log_kw;
    o.background_mol_m3 = 1000 * ionic / 2;
    o.evaporation_kg_m2_s = diffusion::evaporation_kg_m2_s(story.air, story.humidity_1, story.air_speed_m_s);
    const double warm = chem::diffusion_scale(story.air);
    for (double* d : {&o.d_strong_cation_m2_s, &o.d_strong_anion_m2_s, &o.d_hydrogen_m2_s, &o.d_hydroxide_m2_s}) *d *= warm;

    // The hide, in balance with the air: pKa on the x scale, carbonate as the air gives it.
    const double start_x = hide.ph - out.ph_minus_x;
    auto sites = hide.sites;
    for (auto& site : sites) site.pka_1 -= out.ph_minus_x;
    std::vector<double> start(components.size(), 0.0);
    {
        double weight = 1, sum = 1;
        for (double k : components[0].log_k) sum += weight *= std::pow(10.0, k + start_x);
        start[0] = components[0].air_mol_m3 * sum;
    }
    if (hide.finish_um > 0) {
        diffusion::Layer film;
        film.name = "finish";
        film.finish = true;
        film.thickness_m = hide.finish_um * 1e-6;
        film.cells = 10;
        film.dry_density_kg_m3 = 0;
        film.water_ambient_kg_m3 = finish_ambient_kg_m3;
        film.water_full_kg_m3 = finish_full_kg_m3;
        film.water_conductivity_kg_m_s = hide.finish_water_kg_m_s * story.permeability_1;
        film.solute_share_1 = std::min(0.5, hide.finish_solute_1 * story.permeability_1);
        film.solute_exponent_1 = 2;
        film.air_share_1 = 0;
        film.start_x = start_x;
        film.start_mol_m3 = start;
        out.layers.push_back(film);
    }
    diffusion::Layer grain;
    grain.name = "grain";
    grain.thickness_m = hide.grain_um * 1e-6;
    grain.cells = 30;
    grain.growth_1 = 1.07;
    grain.dry_density_kg_m3 = hide.dry_density_kg_m3;
    grain.water_ambient_kg_m3 = hide.dry_density_kg_m3 * leather::ambient_water_kg_kg(story.humidity_1);
    grain.water_full_kg_m3 = 1000 * pores_filled_1 * (1 - hide.dry_density_kg_m3 / true_density_kg_m3);
    grain.water_conductivity_kg_m_s = hide.grain_water_kg_m_s;
    grain.water_exponent_1 = hide.grain_water_exponent_1;
    grain.solute_share_1 = grain_solute_share;
    grain.solute_exponent_1 = solute_exponent;
    grain.air_share_1 = 1 / (1 + hide.finish_um / half_breath_um());
    grain.sites = sites;
    grain.start_x = start_x;
    grain.start_mol_m3 = start;
    out.layers.push_back(grain);
    diffusion::Layer corium = grain;
    corium.name = "corium";
    corium.thickness_m = std::max(hide.thickness_mm * 1e-3 - hide.grain_um * 1e-6 - hide.finish_um * 1e-6, 1e-4);
    corium.cells = 18;
    corium.growth_1 = 1.12;
    out.layers.push_back(corium);

    auto laid = [&](const chem::Totals& t) {
        diffusion::LaidLiquid l;
        for (std::size_t s : out.systems) l.total_mol_m3.push_back(1000 * t.system_mol_kg[s]);
        l.strong_mol_m3 = 1000 * (t.strong_charge_mol_kg() + 2 * (t.calcium_mol_kg + t.magnesium_mol_kg));
        return l;
    };
    using Kind = diffusion::Stage::Kind;
    std::vector<diffusion::Stage>& stages = out.stages;
    const chem::Totals water = chem::tap_water(story.rinse_hardness_mg_l);
    for (int i = 0; i < story.repeats; ++i) {
        diffusion::Stage lay{Kind::Lay, i == 0 ? "wetted" : "wetted again", story.dose_kg_m2 * liquid.water_kg_kg, laid(liquid), 0, 0};
        stages.push_back(lay);
        stages.push_back({Kind::Wait, "", 0, {}, 0, story.dwell_s});
        if (story.wiped_1 > 0) stages.push_back({Kind::Wipe, "wiped", 0, {}, story.wiped_1, 0});
        for (int r = 0; r < story.rinse_passes; ++r) {
            stages.push_back({Kind::Lay, "rinsed", story.rinse_kg_m2, laid(water), 0, 0});
            stages.push_back({Kind::Wait, "", 0, {}, 0, story.rinse_wait_s});
            stages.push_back({Kind::Wipe, "blotted", 0, {}, story.rinse_blotted_1, 0});
        }
        stages.push_back({Kind::Wait, "", 0, {}, 0, i + 1 < story.repeats ? story.interval_s : story.rest_s});
    }
    return out;
}

Exposure solved(const Setting& setting, const leather::Hide& hide, diffusion::SectionResult section) {
    Exposure out;
    out.section = std::move(section);
    out.layers = setting.layers;
    out.left_out = setting.left_out;
    out.ph_minus_x = setting.ph_minus_x;
    out.ionic_strength_mol_kg = setting.ionic_strength_mol_kg;
    out.evaporation_kg_m2_s = setting.options.evaporation_kg_m2_s;
    out.finish_um = hide.finish_um;
    for (const auto& layer : out.layers) out.dry_kg_m2 += layer.dry_density_kg_m3 * layer.thickness_m;
    for (const auto& s : out.section.snapshots) {
        std::vector<double> row;
        for (double x : s.x) row.push_back(x + out.ph_minus_x);
        out.ph.push_back(row);
        out.film_ph.push_back(s.film_x + out.ph_minus_x);
        out.surface_ph.push_back(s.reading_x + out.ph_minus_x);
    }
    const auto& ledger = out.section.ledger;
    const double gained = ledger.in_leather_strong_mol_m2 + ledger.in_film_strong_mol_m2;
    out.taken_up_mol_kg = gained / out.dry_kg_m2;
    // Counted like the dose: what is left, at the hide's own pH.
    out.left_mol_m2 = gained;
    out.carried_mol_kg.assign(chem::acid_systems().size(), 0.0);
    for (std::size_t k = 0; k < setting.systems.size(); ++k) {
        const double mol = ledger.gained_mol_m2[k];
        out.left_mol_m2 += mol * diffusion::mean_charge(setting.components[k], hide.ph - out.ph_minus_x);
        out.carried_mol_kg[setting.systems[k]] = std::max(0.0, mol / out.dry_kg_m2);
    }
    return out;
}

Result<Exposure> exposure(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double tolerance_1, double mesh_1, const Progress& progress) {
    chem::Conditions in_bottle;
    in_bottle.water = story.air;
    HW_TRY(bottle, chem::equilibrium(liquid, in_bottle));
    Setting s = setting(liquid, hide, story, bottle.ionic_strength_mol_kg);
    s.options.tolerance_1 = tolerance_1;
    s.options.mesh_1 = mesh_1;
    HW_TRY(section, diffusion::run_section(s.components, s.layers, s.stages, s.options, progress));
    Exposure out = solved(s, hide, std::move(section));
    // The dose counted to the hide's own pH: what the hide would have to take up in the end.
    // In the room, where what would stay as bicarbonate in a bottle leaves as carbon dioxide.
    chem::Conditions in_room = in_bottle;
    in_room.open_to_air = true;
    HW_TRY(to_hide, chem::acid_to_ph(liquid, hide.ph, in_room));
    out.applied_mol_m2 = to_hide * story.dose_kg_m2 * liquid.water_kg_kg * story.repeats;
    return out;
}

}  // namespace hw::treatment
