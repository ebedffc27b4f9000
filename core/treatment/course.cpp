#include "core/treatment/course.hpp"

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

/// Carbonate, then the other systems by their molality in the liquid that holds most of them.
std::vector<std::size_t> travelling(const std::vector<const chem::Totals*>& liquids, double least_share, std::vector<std::string>& left_out) {
    const std::size_t carbonate = chem::system_index("carbonate"), systems = chem::acid_systems().size();
    std::vector<double> most(systems, 0.0);
    std::vector<bool> counts(systems, false);
    for (const chem::Totals* liquid : liquids) {
        double all = std::abs(liquid->strong_charge_mol_kg());
        for (double mol : liquid->system_mol_kg) all += mol;
        for (std::size_t s = 0; s < systems; ++s) {
            most[s] = std::max(most[s], liquid->system_mol_kg[s]);
            if (liquid->system_mol_kg[s] > std::max(1e-7, least_share * all)) counts[s] = true;
        }
    }
    std::vector<std::size_t> order;
    for (std::size_t s = 0; s < systems; ++s)
        if (s != carbonate && counts[s]) order.push_back(s);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return most[a] > most[b]; });
    while (order.size() > static_cast<std::size_t>(diffusion::max_components) - 1) {
        left_out.push_back(std::string(chem::acid_systems()[order.back()].name));
        order.pop_back();
    }
    order.insert(order.begin(), carbonate);
    return order;
}

/// The liquids that a laying takes, in the order of the course.
std::vector<const chem::Totals*> used(const Course& course) {
    std::vector<bool> taken(course.liquids.size(), false);
    for (const Laying& laying : course.layings) {
        HW_EXPECTS(laying.liquid < course.liquids.size());
        taken[laying.liquid] = true;
    }
    std::vector<const chem::Totals*> out;
    for (std::size_t i = 0; i < taken.size(); ++i)
        if (taken[i]) out.push_back(&course.liquids[i]);
    return out;
}

diffusion::Component component(std::size_t system, Temperature air, double ionic, double co2_atm) {
    const auto k = chem::conditional_constants(system, air, ionic);
    diffusion::Component c;
    const auto& sys = chem::acid_systems()[system];
    c.name = std::string(sys.name);
    c.top_charge = sys.top_charge;
    c.log_k = k.log_k;
    c.d_m2_s = chem::diffusion_25(system) * chem::diffusion_scale(air);
    if (const auto row = chem::volatile_of_system(sys.name)) {
        c.neutral_form = sys.top_charge;  // the form that has lost its charge
        c.film_velocity_m_s = chem::loss_velocity(*row, air).in(metres_per_second);
        c.pore_exchange_per_s = pore_exchange_per_s / std::max(1.0, chem::henry_1(*row, air));
    }
    if (sys.name == "carbonate") {
        c.air_mol_m3 = chem::co2_in_balance_mol_m3(air, co2_atm);
        c.hydroxide_rate_m3_mol_s = chem::co2_hydroxide_rate_m3_mol_s(air);
    }
    return c;
}

std::optional<Error> refused(const Course& course) {
    const auto bad = [](const char* what) { return Error{ErrorCode::InvalidInput, std::string(what), "course"}; };
    if (!(course.first_wait_s >= 0)) return bad("A wait cannot be shorter than nothing.");
    for (const Laying& l : course.layings) {
        if (l.liquid >= course.liquids.size()) return bad("A step lays on a liquid that is not listed.");
        if (!(l.kg_m2 >= 0)) return bad("An amount cannot be less than nothing.");
        if (!(l.taken_off_1 >= 0 && l.taken_off_1 <= 1)) return bad("What is taken off is a share from 0 to 1.");
        if (!(l.dwell_s >= 0 && l.then_s >= 0 && l.press_s >= 0)) return bad("A wait cannot be shorter than nothing.");
    }
    return std::nullopt;
}

}  // namespace

bool takes_off(const Laying& laying) { return laying.taken_off_1 > 0 || !laying.off_name.empty(); }

double soaked_kg_m3(const leather::Hide& hide) { return 1000 * pores_filled_1 * (1 - hide.dry_density_kg_m3 / true_density_kg_m3); }

Course course_of(const chem::Totals& liquid, const Story& story) {
    Course out;
    out.liquids = {liquid, chem::tap_water(story.rinse_hardness_mg_l)};
    out.air = story.air;
    out.humidity_1 = story.humidity_1;
    out.air_speed_m_s = story.air_speed_m_s;
    out.permeability_1 = story.permeability_1;
    for (int i = 0; i < story.repeats; ++i) {
        out.layings.push_back({0, story.dose_kg_m2, story.dwell_s, story.wiped_1, i == 0 ? "wetted" : "wetted again", story.wiped_1 > 0 ? "wiped" : "", 0});
        for (int r = 0; r < story.rinse_passes; ++r) out.layings.push_back({1, story.rinse_kg_m2, story.rinse_wait_s, story.rinse_blotted_1, "rinsed", "blotted", 0});
        out.layings.back().then_s = i + 1 < story.repeats ? story.interval_s : story.rest_s;
    }
    return out;
}

Setting setting(const Course& course, const leather::Hide& hide, double ionic_strength_mol_kg, double least_share_1) {
    Setting out;
    const double co2_atm = chem::Conditions{}.co2_atm, ionic = std::clamp(ionic_strength_mol_kg, 0.1, 1.0);
    out.ionic_strength_mol_kg = ionic;
    out.systems = travelling(used(course), least_share_1, out.left_out);
    std::vector<diffusion::Component>& components = out.components;
    for (std::size_t s : out.systems) components.push_back(component(s, course.air, ionic, co2_atm));
    const auto first = chem::conditional_constants(out.systems[0], course.air, ionic);
    out.ph_minus_x = first.ph_minus_x;

    diffusion::Options& o = out.options;
    o.log_kw_1 = first.log_kw;
    o.background_mol_m3 = 1000 * ionic / 2;
    o.evaporation_kg_m2_s = diffusion::evaporation_kg_m2_s(course.air, course.humidity_1, course.air_speed_m_s);
    const double warm = chem::diffusion_scale(course.air);
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
        film.water_conductivity_kg_m_s = hide.finish_water_kg_m_s * course.permeability_1;
        film.solute_share_1 = std::min(0.5, hide.finish_solute_1 * course.permeability_1);
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
    grain.water_ambient_kg_m3 = hide.dry_density_kg_m3 * leather::ambient_water_kg_kg(course.humidity_1);
    grain.water_full_kg_m3 = soaked_kg_m3(hide);
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
    if (course.first_wait_s > 0) stages.push_back({Kind::Wait, "", 0, {}, 0, course.first_wait_s});
    for (const Laying& laying : course.layings) {
        const chem::Totals& liquid = course.liquids[laying.liquid];
        stages.push_back({Kind::Lay, laying.name, laying.kg_m2 * liquid.water_kg_kg, laid(liquid), 0, 0});
        stages.push_back({Kind::Wait, "", 0, {}, 0, laying.dwell_s});
        if (takes_off(laying) && laying.press_s > 0) stages.push_back({Kind::Press, "", 0, {}, 0, laying.press_s});
        if (takes_off(laying)) stages.push_back({Kind::Wipe, laying.off_name, 0, {}, laying.taken_off_1, 0});
        if (laying.then_s > 0) stages.push_back({Kind::Wait, "", 0, {}, 0, laying.then_s});
    }
    return out;
}

chem::Totals taken_off_liquid(const Setting& setting, const diffusion::WipedOff& off) {
    HW_EXPECTS(off.water_kg_m2 > 0 && off.total_mol_m2.size() == setting.systems.size());
    chem::Totals out = chem::tap_water(0);
    for (std::size_t k = 0; k < setting.systems.size(); ++k) out.system_mol_kg[setting.systems[k]] = std::max(0.0, off.total_mol_m2[k]) / off.water_kg_m2;
    (off.strong_mol_m2 > 0 ? out.sodium_mol_kg : out.chloride_mol_kg) = std::abs(off.strong_mol_m2) / off.water_kg_m2;
    return out;
}

Result<Exposure> exposure(const Course& course, const leather::Hide& hide, double tolerance_1, double mesh_1, const Progress& progress) {
    if (auto bad = refused(course)) return *bad;
    chem::Conditions in_bottle;
    in_bottle.water = course.air;
    double ionic = 0;
    for (const chem::Totals* liquid : used(course)) {
        HW_TRY(bottle, chem::equilibrium(*liquid, in_bottle));
        ionic = std::max(ionic, bottle.ionic_strength_mol_kg);
    }
    Setting s = setting(course, hide, ionic);
    s.options.tolerance_1 = tolerance_1;
    s.options.mesh_1 = mesh_1;
    HW_TRY(section, diffusion::run_section(s.components, s.layers, s.stages, s.options, progress));
    Exposure out = solved(s, hide, std::move(section));
    for (const Laying& laying : course.layings) {
        const chem::Totals& liquid = course.liquids[laying.liquid];
        HW_TRY(to_hide, alkali_to_hide_mol_kg(liquid, hide, course.air));
        out.applied_mol_m2 += to_hide * laying.kg_m2 * liquid.water_kg_kg;
    }
    return out;
}

}  // namespace hw::treatment
