#include "core/treatment/harm.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "atlas/abrasives.hpp"
#include "atlas/complexing.hpp"
#include "atlas/finish_films.hpp"
#include "atlas/harm_constants.hpp"
#include "atlas/harm_limits.hpp"
#include "atlas/harm_tests.hpp"
#include "atlas/judging_thresholds.hpp"
#include "atlas/solvents.hpp"
#include "atlas/substances.hpp"
#include "atlas/volatiles.hpp"
#include "core/chem/hazards.hpp"
#include "core/chem/systems.hpp"
#include "core/diffusion/evaporation.hpp"
#include "core/treatment/moisture.hpp"

namespace hw::treatment {

namespace {

constexpr std::size_t none = HarmQuantities::none;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double weeks_a_year = 52, neutral_ph = 7;
constexpr double least_uptake_mol_m2 = 1e-4;  // a hide that has nothing left to give: the least amount that a reading sees

constexpr std::array<std::string_view, harm_quantities> names{
    "solvent_left_g_m2", "film_share_pct", "open_solvent_g_m2", "sticky_g_m2", "salts_g_m2", "free_fat_g_m2", "dye_solvent_g_m2",
    "dye_alkali_pct", "hypochlorite_mmol_m2", "peroxide_mmol_m2", "water_of_pass_1", "wetted_pct", "abrasive_pct", "abrasive_rubs_n",
    "rubs_n", "year_pct", "residue_many_g_m2", "complexed_pct", "chrome_alkali_ph"};
constexpr std::array<std::string_view, harm_kinds> kinds{"solvent", "residue", "colour", "water", "abrasion", "repeated", "tannage"};

/// What becomes of an ingredient when the water has gone.
enum class Fate { Leaves, Sticky, Salt };

bool one_of(std::string_view word, std::string_view list) {
    while (!list.empty()) {
        const auto cut = list.find(';');
        if (list.substr(0, cut) == word) return true;
        list = cut == std::string_view::npos ? std::string_view{} : list.substr(cut + 1);
    }
    return false;
}

Fate fate_of(std::size_t substance) {
    const auto& row = atlas::substances[substance];
    if (const auto solvent = chem::solvent_of(substance); solvent && row.kind != "humectant") return row.kind == "water" || chem::leaves(*solvent) ? Fate::Leaves : Fate::Sticky;
    if (one_of(row.kind, "water;alcohol;solvent;ammonia")) return row.name == "ammonium chloride" || row.name == "ammonium sulfate" ? Fate::Salt : Fate::Leaves;
    if (one_of(row.kind, "soap;anionic surfactant;amphoteric surfactant;nonionic surfactant;quaternary;hydrotrope;humectant;thickener;amine;urea;preservative")) return Fate::Sticky;
    for (const auto& gas : atlas::volatiles)
        if (gas.name == row.name) return Fate::Leaves;
    return Fate::Salt;
}

/// A limit with its words turned into numbers.
struct Limit {
    HarmKind kind;
    HarmQuantity quantity;
    HarmLevel level;
    double value;
};

template <std::size_t N>
std::size_t place_of(const std::array<std::string_view, N>& all, std::string_view word) {
    const auto at = std::find(all.begin(), all.end(), word);
    if (at == all.end()) throw Bug("harm_limits names what the code does not know: " + std::string(word));
    return static_cast<std::size_t>(at - all.begin());
}

Limit limit_of(const atlas::HarmLimitsRow& row) {
    const double all[] = {row.limit_g_m2, row.limit_mmol_m2, row.limit_pct, row.limit_1, row.limit_n, row.limit_ph};
    const auto* value = std::find_if(std::begin(all), std::end(all), [](double v) { return !std::isnan(v); });
    HW_EXPECTS(value != std::end(all));
    constexpr std::array<std::string_view, 4> levels{"caution", "comes_back", "lasting", "deep"};
    return {static_cast<HarmKind>(place_of(kinds, row.kind)), static_cast<HarmQuantity>(place_of(names, row.quantity)), static_cast<HarmLevel>(1 + place_of(levels, row.level)), *value};
}

/// Everything that depends on the atlas alone, worked out once.
struct Fixed {
    std::vector<Fate> fate;
    std::vector<Limit> limits;
    std::vector<std::size_t> complexing;           // systems
    std::size_t hypochlorite = chem::system_index("hypochlorite"), peroxide = chem::system_index("peroxide"), peracetate = chem::system_index("peracetate");
    double open_um = 0, unknown_pct = 0, chromium_mmol_g = 0, top_um = 0;
};

const Fixed& atlas_fixed() {
    static const Fixed f = [] {
        Fixed out;
        for (std::size_t i = 0; i < atlas::substances.size(); ++i) out.fate.push_back(fate_of(i));
        for (const auto& row : atlas::harm_limits) out.limits.push_back(limit_of(row));
        for (const auto& row : atlas::complexing) out.complexing.push_back(chem::system_index(row.system));
        for (const auto& row : atlas::judging_thresholds) {
            if (row.key == "open_finish") out.open_um = row.limit_um;
            if (row.key == "unknown_share") out.unknown_pct = row.limit_pct;
        }
        for (const auto& row : atlas::harm_constants) {
            if (row.key == "chromium") out.chromium_mmol_g = row.value_mmol_g;
            if (row.key == "top") out.top_um = row.value_um;
        }
        HW_EXPECTS(out.open_um > 0 && out.unknown_pct > 0 && out.chromium_mmol_g > 0 && out.top_um > 0);
        return out;
    }();
    return f;
}

bool applies(const atlas::HarmLimitsRow& row, const leather::Hide& hide) {
    if (row.tannage != "any" && row.tannage != hide.tannage_key) return false;
    if (row.applies_to == "any") return true;
    if (row.applies_to == "open") return is_open(hide);
    if (row.applies_to == "finished") return !is_open(hide);
    return one_of(hide.class_key, row.applies_to);
}

/// Strokes are asked for only where something cuts, the wetted depth only adds to the amount of water, and a liquid full of
/// alcohol has no pH to state: the rest of the kind answers without them.
bool may_be_missing(HarmQuantity q) { return q == HarmQuantity::Rubs || q == HarmQuantity::AbrasiveRubs || q == HarmQuantity::Wetted || q == HarmQuantity::ChromeAlkali; }

const std::string* abrasive_in(const chem::Totals& liquid) {
    for (const auto& name : liquid.unknown)
        for (const auto& row : atlas::abrasives)
            if (chem::names_word(name, row.fragment)) return &name;
    return nullptr;
}

double pass_share_1(const leather::Hide& hide, double water_g_m2) { return water_g_m2 / moisture_budget(hide.class_key).pass_g_m2; }

double wetted_pct(const leather::Hide& hide, double wetted_um) { return 100 * std::clamp(wetted_um / (hide.thickness_mm * 1000 - hide.finish_um), 0.0, 1.0); }

double apparent_pka(std::size_t substance, Temperature air) { return chem::pk_at(chem::system_index(atlas::substances[substance].system), air).back(); }

/// Residue of `uses` uses: each wipe takes the same share of what lay there before.
double after_uses(double fresh, double kept, double uses) { return kept >= 1 ? fresh * uses : fresh * (1 - std::pow(kept, uses)) / (1 - kept); }

std::string number(double v) {
    const double size = std::abs(v);
    char text[32];
    std::snprintf(text, sizeof text, "%.*f", size >= 10 || size == std::round(size) ? 0 : size >= 1 ? 1 : 2, v);
    return text;
}

std::string time_words(double s) {
    if (std::isnan(s)) return "a time not known";
    if (s < 5400) return number(std::max(1.0, std::round(s / 60))) + " min";
    if (s < 2 * 86400) return number(std::round(s / 3600)) + " h";
    return number(std::round(s / 86400)) + " days";
}

void put(std::string& text, std::string_view mark, const std::string& value) {
    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + value.size())) text.replace(at, mark.size(), value);
}

}  // namespace

std::string_view harm_quantity_name(HarmQuantity quantity) { return names[static_cast<std::size_t>(quantity)]; }
HarmQuantity harm_limit_quantity(std::size_t limit) { return atlas_fixed().limits.at(limit).quantity; }

std::string_view harm_quantity_unit(HarmQuantity quantity) {
    constexpr std::array<std::array<std::string_view, 2>, 6> units{{{"_mmol_m2", "mmol/m²"}, {"_g_m2", "g/m²"}, {"_pct", "%"}, {"_n", "strokes"}, {"_ph", "pH"}, {"_1", "times"}}};
    const std::string_view name = harm_quantity_name(quantity);
    for (const auto& [ending, unit] : units)
        if (name.ends_with(ending)) return unit;
    throw Bug("a quantity without a unit: " + std::string(name));
}

std::string_view harm_kind_key(HarmKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::string_view harm_level_words(HarmLevel level) {
    switch (level) {
        case HarmLevel::Within: return "within its limits";
        case HarmLevel::Caution: return "take care";
        case HarmLevel::ComesBack: return "comes back by itself";
        case HarmLevel::Lasting: return "stays until somebody mends it";
        case HarmLevel::Deep: return "stays, below the surface too";
        case HarmLevel::Unknown: break;
    }
    return "not known: do the test";
}

double share_kept_1(const Story& story) { return (1 - story.wiped_1) * std::pow(1 - story.rinse_blotted_1, story.rinse_passes); }

HarmQuantities harm_quantities_of(const HarmInput& in) {
    const Fixed& f = atlas_fixed();
    const auto& liquid = in.liquid;
    const auto& hide = in.hide;
    const auto& story = in.story;
    const bool open = is_open(hide);
    HarmQuantities q;
    q.value.fill(nan);
    const auto set = [&](HarmQuantity which, double value) { q.value[static_cast<std::size_t>(which)] = value; };
    const double dose = story.dose_kg_m2 * 1000, kept = std::clamp(std::isnan(in.kept_1) ? share_kept_1(story) : in.kept_1, 0.0, 1.0);
    const double uses = std::max(1, story.repeats), water = dose * liquid.water_kg_kg;

    // Solvents: the last use.
    chem::DryingOf d;
    d.dose_g_m2 = dose;
    d.dwell_s = story.dwell_s;
    d.kept_1 = kept;
    d.humidity_1 = story.humidity_1;
    d.air = story.air;
    d.radius_1 = in.radius_1;
    d.release_1 = in.release_1;
    d.activity_1 = in.activity_1;
    const auto film = chem::finish_film(in.film_kind);
    HW_EXPECTS(film || in.film_kind.empty());
    if (film) {
        d.film = *film;
        d.finish_um = hide.finish_um;
    }
    // What the film really did, when the section says so; else the room air.
    const double wet_after_s = in.surface_wet_s - story.dwell_s * (1 - kept);
    d.water_loss_g_m2_s = wet_after_s > 0 && kept * water > 0 ? kept * water / wet_after_s : 1000 * diffusion::evaporation_kg_m2_s(story.air, std::min(story.humidity_1, 0.95), story.air_speed_m_s);
    q.solvents = chem::solvent_residue(liquid, d);
    if (film || q.solvents.count == 0 || open) {
        const bool softens = film && q.solvents.red_1 < 1;  // false for NaN: nothing is left
        set(HarmQuantity::SolventLeft, softens ? q.solvents.left_g_m2 : 0);
        set(HarmQuantity::FilmShare, 100 * q.solvents.film_share_1);
    }

    // Ingredients, by what becomes of them.
    double sticky = 0, salts = 0, soap_acid = 0, solvents = 0, dye_solvents = 0, most_sticky = 0, most_open = 0;
    const double lies_at = open ? hide.ph : in.liquid_ph;
    for (const auto& r : liquid.recognised) {
        const auto& row = atlas::substances[r.row];
        const double laid = dose * r.content_pct / 100;
        const bool solvent = row.kind == "solvent";
        if (solvent || row.kind == "alcohol") {
            if (solvent) solvents += laid;
            dye_solvents += laid;
            if (laid > most_open) { most_open = laid; q.most_open = r.row; }
        }
        if (f.fate[r.row] == Fate::Leaves) continue;
        const double left = laid * kept;
        (f.fate[r.row] == Fate::Sticky ? sticky : salts) += left;
        if (f.fate[r.row] == Fate::Sticky && left > most_sticky) { most_sticky = left; q.most_sticky = r.row; }
        if (row.kind == "soap" && lies_at < apparent_pka(r.row, story.air)) soap_acid += left;
    }
    set(HarmQuantity::OpenSolvent, solvents * uses);
    set(HarmQuantity::DyeSolvent, dye_solvents * uses);
    set(HarmQuantity::Sticky, after_uses(sticky, kept, uses));
    set(HarmQuantity::Salts, after_uses(salts, kept, uses));
    set(HarmQuantity::FreeFat, after_uses(soap_acid, kept, uses));
    set(HarmQuantity::ResidueMany, kept < 1 ? sticky / (1 - kept) : sticky * weeks_a_year);

    // Oxidisers act before they are wiped off.
    const auto laid_mmol = [&](std::size_t system) { return liquid.system_mol_kg[system] * water * uses; };  // mol/kg times g/m2 is mmol/m2
    set(HarmQuantity::Hypochlorite, laid_mmol(f.hypochlorite));
    set(HarmQuantity::Peroxide, laid_mmol(f.peroxide) + laid_mmol(f.peracetate));

    // Alkali against what holds dye, and against the year.
    if (!std::isnan(in.alkali_left_mol_m2)) {
        const double top = leather::alkali_between(hide, hide.ph, neutral_ph) * hide.dry_density_kg_m3 * f.top_um * 1e-6;
        set(HarmQuantity::DyeAlkali, 100 * std::max(0.0, in.alkali_left_mol_m2) / std::max(top, least_uptake_mol_m2));
        if (!std::isnan(in.alkali_takes_grain_mol_m2)) set(HarmQuantity::Year, 100 * weeks_a_year * std::abs(in.alkali_left_mol_m2) / uses / std::max(in.alkali_takes_grain_mol_m2, least_uptake_mol_m2));
    }

    set(HarmQuantity::WaterOfPass, pass_share_1(hide, water));
    if (!std::isnan(in.wetted_to_um)) set(HarmQuantity::Wetted, wetted_pct(hide, in.wetted_to_um));

    const bool abrasive = abrasive_in(liquid) != nullptr;
    set(HarmQuantity::Abrasive, abrasive ? liquid.unknown_pct : in.abrasive_tool ? 100 : 0);
    if (abrasive || in.abrasive_tool) set(HarmQuantity::AbrasiveRubs, in.rubs_n);
    set(HarmQuantity::Rubs, in.rubs_n);

    double complexing = 0, most_complexing = 0;
    for (std::size_t i = 0; i < f.complexing.size(); ++i) {
        const double mmol = laid_mmol(f.complexing[i]) * kept;
        complexing += mmol;
        if (mmol > most_complexing) { most_complexing = mmol; q.most_complexing = i; }
    }
    set(HarmQuantity::Complexed, 100 * complexing / (f.chromium_mmol_g * 1000 * hide.dry_density_kg_m3 * hide.grain_um * 1e-6));
    set(HarmQuantity::ChromeAlkali, in.liquid_ph);
    return q;
}

bool is_open(const leather::Hide& hide) { return hide.finish_um <= atlas_fixed().open_um; }

std::array<HarmMeasure, harm_kinds> harms(const HarmInput& in) { return harms(in, harm_quantities_of(in)); }

namespace {

/// Quantities against every limit that applies to a hide; a kind stays open where one of its quantities is missing.
struct AgainstLimits {
    std::array<HarmMeasure, harm_kinds> measures;
    std::array<bool, harm_kinds> open_question{};
};

AgainstLimits against_limits(const leather::Hide& hide, const HarmQuantities& q) {
    const Fixed& f = atlas_fixed();
    AgainstLimits out;
    std::array<double, harm_kinds> nearest{};
    nearest.fill(-1);
    for (std::size_t k = 0; k < harm_kinds; ++k) {
        out.measures[k].kind = all_harm_kinds[k];
        out.measures[k].clears_s = nan;
    }
    for (std::size_t i = 0; i < f.limits.size(); ++i) {
        const Limit& limit = f.limits[i];
        if (!applies(atlas::harm_limits[i], hide)) continue;
        HarmMeasure& m = out.measures[static_cast<std::size_t>(limit.kind)];
        double& near = nearest[static_cast<std::size_t>(limit.kind)];
        const double value = q[limit.quantity];
        if (std::isnan(value)) {
            if (!may_be_missing(limit.quantity)) out.open_question[static_cast<std::size_t>(limit.kind)] = true;
            continue;
        }
        const bool passed = value > limit.value;
        const HarmLevel level = passed ? limit.level : HarmLevel::Within;
        const double ratio = limit.value > 0 ? value / limit.value : value > 0 ? 1 : 0;
        if (level < m.level || (level == m.level && ratio <= near)) continue;
        m.level = level;
        m.acts = m.acts || passed;
        m.limit = i;
        m.measure = value;
        m.limit_value = limit.value;
        near = ratio;
    }
    return out;
}

}  // namespace

std::array<HarmMeasure, harm_kinds> harms(const HarmInput& in, const HarmQuantities& q) {
    const Fixed& f = atlas_fixed();
    auto [out, open_question] = against_limits(in.hide, q);
    const bool liquid_unknown = !in.label_known || in.liquid.unknown_pct > f.unknown_pct;
    for (HarmMeasure& m : out) {
        const auto k = static_cast<std::size_t>(m.kind);
        const bool of_the_liquid = m.kind == HarmKind::Solvent || m.kind == HarmKind::Residue || m.kind == HarmKind::Colour || m.kind == HarmKind::Tannage || m.kind == HarmKind::Repeated;
        m.known = !(open_question[k] || (of_the_liquid && liquid_unknown) || (m.kind == HarmKind::Abrasion && m.acts && std::isnan(in.rubs_n)));
        // What is known already passes a limit for good: what is not known cannot mend it.
        if (!m.known && m.level < HarmLevel::Lasting && m.kind != HarmKind::Abrasion) m.level = HarmLevel::Unknown;
        if (m.kind == HarmKind::Solvent && m.acts && m.level == HarmLevel::ComesBack) m.clears_s = chem::vented_s(q.solvents, m.limit_value);
    }
    return out;
}

HarmMeasure water_harm(const leather::Hide& hide, double water_of_pass_g_m2, double wetted_to_um) {
    HarmQuantities q;
    q.value.fill(nan);
    q.value[static_cast<std::size_t>(HarmQuantity::WaterOfPass)] = pass_share_1(hide, water_of_pass_g_m2);
    q.value[static_cast<std::size_t>(HarmQuantity::Wetted)] = wetted_pct(hide, wetted_to_um);
    return against_limits(hide, q).measures[static_cast<std::size_t>(HarmKind::Water)];
}

std::string harm_sentence(const HarmMeasure& m, const HarmInput& in, const HarmQuantities& q) {
    if (m.limit == HarmMeasure::none) return m.known ? "Nothing in it does this." : "Not known: " + std::string(atlas::harm_tests[harm_test(m.kind, in.hide)].name) + " tells.";
    const auto& row = atlas::harm_limits[m.limit];
    std::string text(m.acts ? row.sentence : row.below);
    std::string what = "it";
    const Limit limit = atlas_fixed().limits[m.limit];
    if (limit.quantity == HarmQuantity::SolventLeft || limit.quantity == HarmQuantity::FilmShare) {
        if (q.solvents.count > 0) {
            std::size_t most = q.solvents.most;
            if (limit.quantity == HarmQuantity::FilmShare)
                for (std::size_t i = 0; i < q.solvents.count; ++i)
                    if (q.solvents.parts[i].laid_g_m2 > q.solvents.parts[most].laid_g_m2) most = i;
            what = atlas::solvents[q.solvents.parts[most].solvent].name;
        }
    } else if (m.kind == HarmKind::Residue && q.most_sticky != none) what = atlas::substances[q.most_sticky].name;
    else if ((limit.quantity == HarmQuantity::OpenSolvent || limit.quantity == HarmQuantity::DyeSolvent) && q.most_open != none) what = atlas::substances[q.most_open].name;
    else if (m.kind == HarmKind::Tannage && q.most_complexing != none) what = atlas::complexing[q.most_complexing].plain_name;
    else if (m.kind == HarmKind::Abrasion) {
        const std::string* named = abrasive_in(in.liquid);
        what = named != nullptr ? *named : "the tool";
    }
    const auto film = chem::finish_film(in.film_kind);
    put(text, "{m}", number(m.measure));
    put(text, "{limit}", number(m.limit_value));
    put(text, "{what}", what);
    put(text, "{film}", film ? std::string(atlas::finish_films[*film].plain_name) : "the finish");
    put(text, "{clears}", time_words(m.clears_s));
    put(text, "{uses}", m.measure > 0 ? number(std::max(1.0, std::round(100 * weeks_a_year / m.measure))) : "many");
    if (!m.known && m.kind != HarmKind::Abrasion) text = (m.level == HarmLevel::Unknown ? "Not all of it is known. Of what is known: " : "") + text;
    return text;
}

std::size_t harm_test(HarmKind kind, const leather::Hide& hide) {
    std::size_t any = none;
    for (std::size_t i = 0; i < atlas::harm_tests.size(); ++i) {
        const auto& row = atlas::harm_tests[i];
        if (row.kind != harm_kind_key(kind)) continue;
        if (row.applies_to == (is_open(hide) ? "open" : "finished")) return i;
        if (row.applies_to == "any") any = i;
    }
    HW_EXPECTS(any != none);
    return any;
}

}  // namespace hw::treatment
