#include "desk/analyse.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/incompatible.hpp"
#include "atlas/solids.hpp"
#include "atlas/substances.hpp"
#include "atlas/volatiles.hpp"
#include "core/chem/drying_path.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/chem/systems.hpp"
#include "desk/liquids.hpp"
#include "desk/rules.hpp"
#include "desk/unknowns.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {


Reason reason(std::string kind, std::string sentence, std::string weight, Basis basis) {
    return {std::move(kind), std::move(sentence), std::move(weight), std::move(basis)};
}

/// Model error of a computed pH: 0.02 in dilute liquids, growing to 0.1 at 3 mol/kg, plus what unknown ingredients may do.
double ph_band(double ionic, double unknown_pct) { return 0.02 + 0.03 * std::min(ionic, 3.0) + (unknown_pct > 0 ? 0.3 + 0.1 * std::min(unknown_pct, 20.0) : 0); }

std::vector<DryingPoint> drying_points(const chem::Totals& liquid, const chem::Conditions& conditions) {
    std::vector<DryingPoint> out;
    const auto path = chem::drying_path(liquid, conditions, {});
    if (path.ok())
        for (const auto& p : *path) out.push_back({p.water_left_1, p.ph, p.ionic_strength_mol_kg, p.beyond_model});
    return out;
}

}  // namespace

std::vector<chem::Portion> portions(const Liquid& liquid, const std::vector<double>& low_to_high_1) {
    std::vector<chem::Portion> out;
    double sum = 0, least = 0;
    for (std::size_t k = 0; k < liquid.ingredients.size(); ++k) {
        const Ingredient& i = liquid.ingredients[k];
        auto content = i.content_pct;
        if (content && i.content_to_pct) *content += (k < low_to_high_1.size() ? low_to_high_1[k] : 0.5) * (*i.content_to_pct - *i.content_pct);
        out.push_back({i.name, i.cas, content, i.molality_mol_kg});
        sum += content.value_or(0);
        least += i.content_pct.value_or(0);
    }
    // Ranges may add up to more than there is room for: all of them give way alike.
    constexpr double room_pct = 99;
    if (sum > room_pct && least <= room_pct && sum > least)
        for (std::size_t k = 0; k < out.size(); ++k)
            if (liquid.ingredients[k].content_to_pct && out[k].content_pct) {
                const double low = *liquid.ingredients[k].content_pct;
                out[k].content_pct = low + (*out[k].content_pct - low) * (room_pct - least) / (sum - least);
            }
    return out;
}

/// Ranges are given from their lower to their upper end.
std::optional<Error> upside_down(const Liquid& liquid) {
    for (std::size_t k = 0; k < liquid.ingredients.size(); ++k) {
        const Ingredient& i = liquid.ingredients[k];
        const std::string where = "liquid.ingredients[" + std::to_string(k) + "].content_to_pct";
        if (i.content_to_pct && !i.content_pct) return Error{ErrorCode::InvalidInput, "Give the lower end of the range too; \"up to 5 %\" starts at 0.", where};
        if (i.content_to_pct && *i.content_to_pct < *i.content_pct) return Error{ErrorCode::InvalidInput, "The upper end of a range lies above its lower end. Swap them.", where};
    }
    if (liquid.stated_ph_to && !liquid.stated_ph) return Error{ErrorCode::InvalidInput, "Give the lower end of the stated pH too.", "liquid.stated_ph_to"};
    if (liquid.stated_ph_to && *liquid.stated_ph_to < *liquid.stated_ph) return Error{ErrorCode::InvalidInput, "The upper end of a range lies above its lower end. Swap them.", "liquid.stated_ph_to"};
    return std::nullopt;
}

Result<chem::Totals> totals_of(const Liquid& liquid) {
    if (const auto bad = upside_down(liquid)) return *bad;
    auto t = chem::totals(portions(liquid));
    if (!t.ok()) return Error{t.error().code, t.error().message, "liquid." + t.error().where};
    return t;
}

Result<Liquid> resolved(const Liquid& liquid, Store& store) {
    if (liquid.id.empty() || !liquid.ingredients.empty() || !liquid.name.empty()) return liquid;
    auto found = store.liquid(liquid.id);
    if (!found.ok()) return Error{found.error().code, found.error().message, "liquid.id"};
    return found;
}

Stop stop_from(const chem::Hazard& hazard) {
    const auto& row = atlas::incompatible[hazard.row];
    Stop s;
    s.kind = std::string(row.class_a) + "_with_" + std::string(row.class_b);
    s.headline = (hazard.from_unknown ? "One product has no known label, so it counts as possibly dangerous with the other. " : "") + std::string(row.sentence);
    const chem::Advice what_to_do = chem::advice(hazard);
    s.do_now = what_to_do.do_now;
    s.never = what_to_do.never;
    s.basis = {"Products that must not meet stop on presence, whatever pH is computed", std::string(row.source), std::string(row.locator),
               standing_of(row.standing), std::string(row.class_a) + " and " + std::string(row.class_b)};
    return s;
}

std::optional<Stop> meeting_stop(const Liquid& liquid, const std::vector<std::string>& meets, Store& store) {
    std::vector<chem::Totals> contents{chem::present(portions(liquid))};
    std::vector<bool> labels{liquid.label_known};
    for (const auto& id : meets)
        if (const auto other = store.liquid(id); other.ok()) {
            contents.push_back(chem::present(portions(*other)));
            labels.push_back(other->label_known);
        }
    std::vector<chem::Product> products;
    for (std::size_t i = 0; i < contents.size(); ++i) products.push_back({&contents[i], labels[i]});
    for (const auto& hazard : chem::hazards(products))
        if (hazard.severity == chem::Severity::Stop) return stop_from(hazard);
    return std::nullopt;
}

bool nothing_known(const Liquid& liquid) {
    const bool said = !liquid.label_known || liquid.stated_ph || !liquid.name.empty() || !liquid.ingredients.empty();
    return said && liquid.family != "water" && chem::present(portions(liquid)).recognised.empty();
}

namespace {

Result<AnalyseAnswer> computed(AnalyseRequest request, const Liquid& liquid, Ports& ports) {
    if (const auto bad = out_of_range(request)) return *bad;
    request.liquid = liquid;
    // A pH that was stated or read outranks ingredients that do not explain it: a sheet names what is hazardous, not what is in it.
    HW_TRY(recipe, reconciled(liquid, Temperature::celsius(request.liquid_c)));
    const chem::Totals t = chem::diluted(recipe.neat, request.parts_water, request.hardness_mg_l);
    const bool built = !recipe.builder.empty();
    chem::Conditions c;
    c.water = Temperature::celsius(request.liquid_c);
    c.open_to_air = request.air == AirContact::Open;

    AnalyseAnswer a;
    a.version = std::string(program_version);
    a.liquid = liquid.name;
    a.target_ph = request.target_ph;
    a.unknown_pct = t.unknown_pct;
    const bool alcohol = t.organic_pct > threshold("no_ph_in_alcohol").limit_pct;
    a.ph_refused = alcohol || nothing_known(liquid);
    chem::Conditions with_solids = c;
    with_solids.solids = t.calcium_mol_kg + t.magnesium_mol_kg > 0;
    HW_TRY(e, chem::equilibrium(t, with_solids));
    const double band = std::max(ph_band(e.ionic_strength_mol_kg, t.unknown_pct), recipe.half_ph);
    const std::string model = built ? "the pH that was stated or read, and its error" : t.unknown_pct > 0 ? "model error plus ingredients not known to us" : "model error of the activity coefficients";
    a.ph = number(e.ph, band, "pH", Standing::Derived, model);
    a.ionic_strength = number(e.ionic_strength_mol_kg, 0.02 * e.ionic_strength_mol_kg + 1e-4, "mol/kg", Standing::Derived, "amounts as given");
    a.buffer_capacity = number(e.buffer_mol_kg_ph, 0.05 * e.buffer_mol_kg_ph, "mol/kg per pH", Standing::Derived, "constants and amounts as given");
    HW_TRY(ra, chem::reserve_alkalinity_ml(t, c));
    HW_TRY(alkaline, chem::alkaline_reserve_g_100g(t, c));
    HW_TRY(acid, chem::acid_reserve_g_100g(t, c));
    HW_TRY(to_target, chem::acid_to_ph(t, request.target_ph, chem::closed(c)));
    const double rest = 0.02 + (t.unknown_pct > 0 ? 0.3 : 0);
    const double reserve = 1000 * to_target * t.water_kg_kg;
    // What makes the pH is not known where the sheet leaves it out: the band reaches to the other builders that could.
    double ra_off = 0, alkaline_off = 0, acid_off = 0, reserve_off = 0;
    for (const auto& neat : recipe.others) {
        const chem::Totals other = chem::diluted(neat, request.parts_water, request.hardness_mg_l);
        HW_TRY(ra_of, chem::reserve_alkalinity_ml(other, c));
        HW_TRY(alkaline_of, chem::alkaline_reserve_g_100g(other, c));
        HW_TRY(acid_of, chem::acid_reserve_g_100g(other, c));
        HW_TRY(to_target_of, chem::acid_to_ph(other, request.target_ph, chem::closed(c)));
        ra_off = std::max(ra_off, std::abs(ra_of - ra));
        alkaline_off = std::max(alkaline_off, std::abs(alkaline_of - alkaline));
        acid_off = std::max(acid_off, std::abs(acid_of - acid));
        reserve_off = std::max(reserve_off, std::abs(1000 * to_target_of * other.water_kg_kg - reserve));
    }
    const Standing standing = built ? Standing::Estimate : Standing::Derived;
    const std::string amounts = built ? "whatever else could make that pH" : "amounts as given";
    a.reserve_alkalinity = number(ra, std::max({0.1, rest * std::abs(ra), ra_off}), "mL", standing, built ? amounts : "to the nearest 0.1 mL by the method, 2 % of the amounts");
    a.alkaline_reserve = number(alkaline, std::max({0.005, rest * alkaline, alkaline_off}), "g NaOH/100 g", standing, amounts);
    a.acid_reserve = number(acid, std::max({0.005, rest * acid, acid_off}), "g NaOH/100 g", standing, amounts);
    a.reserve_to_target = number(reserve, std::max({0.1, rest * std::abs(reserve), reserve_off}), "mmol/kg", standing, amounts);

    // Titration between pH 2 and 12, closed form in pH.
    for (double ph = 2; ph <= 12.001; ph += 0.25)
        if (const auto added = chem::acid_to_ph(t, ph, chem::closed(c)); added.ok()) a.titration.push_back({*added, ph});
    std::sort(a.titration.begin(), a.titration.end(), [](const auto& x, const auto& y) { return x.added_mol_kg < y.added_mol_kg; });
    a.drying = drying_points(t, c);

    for (const auto& row : atlas::volatiles) {
        double pct = 0;
        for (const auto& r : t.recognised) {
            const auto& sub = atlas::substances[r.row];
            if (sub.name == row.name || (!row.system.empty() && row.system != "carbonate" && sub.system == row.system)) pct += r.content_pct;
        }
        if (!(pct > 0)) continue;
        const chem::DryingFilm film;
        const Duration third = chem::loss_time(static_cast<std::size_t>(&row - atlas::volatiles.data()), c.water, film.thickness, film.sides);
        Volatile v{std::string(row.name), pct, third.in(seconds), "", {"Two-film transfer of the neutral form into still air", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.name)}};
        v.remark = third > film.dries ? "leaves more slowly than the water: the residue keeps it" : "leaves while the film dries";
        a.leaves.push_back(v);
    }
    std::sort(a.leaves.begin(), a.leaves.end(), [](const auto& x, const auto& y) { return x.time_to_third_s < y.time_to_third_s; });
    for (const auto& p : e.solids) {
        const auto& row = atlas::solids[p.row];
        if (p.mol_kg <= 0) continue;
        a.solids.push_back({std::string(row.plain_name.empty() ? row.name : row.plain_name), p.saturation_index, p.mol_kg,
                            {"Forms where the ion product passes the solubility product", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.name)}});
    }

    // Meetings: inside this liquid, and with those it is used beside.
    std::vector<Liquid> others;
    std::vector<chem::Totals> other_totals;
    for (std::size_t i = 0; i < request.meets.size(); ++i) {
        auto other = ports.store.liquid(request.meets[i]);
        if (!other.ok()) return Error{other.error().code, other.error().message, "meets[" + std::to_string(i) + "]"};
        HW_TRY(ot, totals_of(*other));
        others.push_back(*other);
        other_totals.push_back(ot);
    }
    std::vector<chem::Product> products{{&t, liquid.label_known}};
    for (std::size_t i = 0; i < others.size(); ++i) products.push_back({&other_totals[i], others[i].label_known});
    for (const auto& h : chem::hazards(products)) {
        if (h.severity == chem::Severity::Stop) { a.stops.push_back(stop_from(h)); continue; }
        const auto& row = atlas::incompatible[h.row];
        // Alkali and acid in one bottle have met already: the heat is over. The warning is for two bottles.
        if (products.size() == 1 && row.class_a == "strong alkali" && row.class_b == "acid") continue;
        a.reasons.push_back(reason("must_not_meet", std::string(row.sentence), h.severity == chem::Severity::Caution ? "caution" : "note",
                                   {"Ingredients that work against each other", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.class_a) + ", " + std::string(row.class_b)}));
    }
    const Basis own{"Computed from the composition by the charge balance", "goldberg2002", "acid constants", Standing::Derived, "ingredients, temperature, air"};
    if (nothing_known(liquid))
        a.reasons.push_back(reason("nothing_known", liquid.stated_ph ? "The label says pH " + fixed(*liquid.stated_ph, 1) + " and names nothing that would explain it: how much acid or alkali stands behind it is not known." : "Nothing is known of what is in it: it may be anything, lye or acid among them.", "caution", basis_of_threshold("unknown_share", "no ingredients")));
    if (alcohol)
        a.reasons.insert(a.reasons.begin(), reason("no_ph_in_alcohol", "More than 20 % alcohol and solvent: the pH scale of water does not hold, so no pH is stated.", "caution", {"The pH scale is defined in water", "buck2002", "section 2", Standing::Published, "alcohol and solvent " + fixed(t.organic_pct, 0) + " %"}));
    if (t.unknown_pct > 0) {
        std::string names;
        for (const auto& n : t.unknown) names += (names.empty() ? "" : ", ") + n;
        a.reasons.push_back(reason("unknown_part", fixed(t.unknown_pct, 1) + " % is not known to us (" + names + "). The bands are wider for it; read the pH of the liquid.", "caution", {"What is not in the tables is not guessed", "own", "substances table", Standing::Estimate, names}));
    }
    if (built)
        a.reasons.push_back(reason("label_disagrees", std::string(liquid.read_ph ? "It was read at pH " + fixed(*liquid.read_ph, 1) : "The label says pH " + fixed(*liquid.stated_ph, 1)) + ", the ingredients alone give " + fixed(recipe.ingredients_ph, 1) + ". Something is missing on the sheet: it is taken as " + recipe.builder + " here." + (liquid.read_ph ? "" : " Read the pH."), "caution", own));
    else if (liquid.stated_ph && request.parts_water == 0 && !a.ph_refused && std::abs(*liquid.stated_ph - e.ph) > band + threshold("label_differs").limit_ph)
        a.reasons.push_back(reason("label_disagrees", "The label says pH " + fixed(*liquid.stated_ph, 1) + ", the ingredients give " + to_band(e.ph, band) + ". Something is missing on the sheet: read the pH.", "caution", own));
    if (e.beyond_model)
        a.reasons.push_back(reason("beyond_model", "More than 3 mol/kg of ions: the figures are banded, not exact.", "caution", {"The activity model holds to about 3 mol/kg", "grenthe1992", "appendix B", Standing::Published, "ionic strength"}));
    if (!a.solids.empty() && a.solids.front().name == "lime soap")
        a.reasons.push_back(reason("lime_soap", "Hard water turns part of the soap into lime soap, a dull film.", "note", a.solids.front().basis));
    const double steps = std::abs(e.ph - request.target_ph);
    if (!a.ph_refused)
        a.reasons.push_back(reason("factor_of_ten", "Its pH lies " + fixed(steps, 1) + " units from " + fixed(request.target_ph, 1) + ": each unit is a factor of ten in acidity, " + (steps > threshold("close_by").limit_ph ? "about " + times_words(std::pow(10, steps)) + " times here." : "so they are close."), "note", {"pH is a tenfold scale", "buck2002", "definition", Standing::Published, "pH and target"}));

    if (!a.stops.empty()) a.sentence = "Stop. " + a.stops.front().headline;
    else if (nothing_known(liquid)) a.sentence = "Not known: nothing on it says what is inside. Read its pH as used, and again in ten parts of water.";
    else if (a.ph_refused) a.sentence = "Mostly alcohol or solvent: no pH can be stated. What matters is what it does to the finish; try it on a hidden spot.";
    else if (std::abs(reserve) < threshold("next_to_none").limit_mmol_kg) a.sentence = "pH " + to_band(e.ph, band) + ", with next to no reserve: it cannot move a hide far.";
    else a.sentence = "pH " + to_band(e.ph, band) + "; each kilogram holds " + to_band(std::abs(reserve), a.reserve_to_target.plus_minus) + " mmol of " + (reserve > 0 ? "alkali" : "acid") + " against a leather at pH " + fixed(request.target_ph, 1) + ".";
    return a;
}

}  // namespace

Result<AnalyseAnswer> analyse(const AnalyseRequest& request, Ports& ports) {
    HW_TRY(liquid, resolved(request.liquid, ports.store));
    // What must not meet is said first, also where the rest cannot be computed.
    const auto stop = meeting_stop(liquid, request.meets, ports.store);
    auto answer = computed(request, liquid, ports);
    if (answer.ok() || !stop) return answer;
    AnalyseAnswer only;
    only.version = std::string(program_version);
    only.liquid = liquid.name;
    only.ph_refused = true;
    only.target_ph = request.target_ph;
    only.stops = {*stop};
    only.sentence = "Stop. " + stop->headline;
    return only;
}

}  // namespace hw::desk
