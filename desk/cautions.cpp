#include "desk/cautions.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "atlas/caution_names.hpp"
#include "atlas/cautions.hpp"
#include "atlas/moisture_budgets.hpp"
#include "atlas/substances.hpp"
#include "core/chem/hazards.hpp"
#include "desk/liquids.hpp"
#include "desk/rules.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

double content_pct(const chem::Totals& t, std::string_view kind) {
    double sum = 0;
    for (const auto& r : t.recognised)
        if (atlas::substances[r.row].kind == kind) sum += r.content_pct;
    return sum;
}

/// Whether a name holds one of the fragments, which a semicolon parts.
bool names_one_of(std::string name, std::string_view fragments) {
    std::transform(name.begin(), name.end(), name.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    for (std::string_view rest = fragments; !rest.empty();) {
        const auto cut = rest.find(';');
        if (name.find(rest.substr(0, cut)) != std::string::npos) return true;
        rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
    }
    return false;
}

/// Whether an ingredient is one that a caution is about: by a fragment of its name, a short name, or its number.
bool is_about(const atlas::CautionsRow& caution, const Ingredient& i) {
    if (names_one_of(i.name, caution.name_fragments)) return true;
    const auto cas = chem::parse_cas(i.cas);
    return std::any_of(atlas::caution_names.begin(), atlas::caution_names.end(), [&](const atlas::CautionNamesRow& row) {
        return row.caution == caution.key && ((!row.cas.empty() && cas.ok() && *cas == row.cas) || (!row.word.empty() && chem::names_word(i.name, row.word)));
    });
}

std::string called(const Ingredient& i) { return i.name.empty() ? "CAS " + i.cas : i.name; }

/// Per cent of the neat liquid that the tables do not know but whose name says the class: how strong it is nobody says, so it counts whole.
double named_pct(const Liquid& liquid, std::string_view hazard_class) {
    double sum = 0;
    for (const Ingredient& i : liquid.ingredients) {
        if (chem::find_substance(i.name, i.cas)) continue;
        const auto classes = chem::hazard_classes_by_name(i.name);
        if (std::find(classes.begin(), classes.end(), hazard_class) != classes.end()) sum += std::max(i.content_pct.value_or(0), i.content_to_pct.value_or(0));
    }
    return sum;
}

Stop water_stop(const std::string& why, Basis basis) {
    Stop s;
    s.kind = "no_water_on_decayed_leather";
    s.headline = "No water on this leather: " + why + ".";
    s.do_now = {"Keep it dry, out of sun and away from heat.", "Do not rub or flex it.", "Photograph it as it is and refer it to a leather conservator."};
    s.never = {"No liquid of any kind, no conditioner, no steam."};
    s.basis = std::move(basis);
    return s;
}

}  // namespace

std::optional<Stop> no_water(const Leather& leather, const leather::Hide& hide) {
    const Basis shrinks = basis_of_threshold("no_water_shrinkage", "shrinkage or look of the piece");
    if (leather.decayed) return water_stop("it is shrunken, gelatinised or powdering", shrinks);
    if (leather.shrinkage_c && *leather.shrinkage_c < threshold("no_water_shrinkage").limit_c) return water_stop("it shrinks at " + fixed(*leather.shrinkage_c, 0) + " °C", shrinks);
    // Rot begins at the surface, so the lower of two readings counts.
    const double read = std::min(leather.surface_ph.value_or(14), leather.extract_ph.value_or(14));
    if (read > threshold("no_water_ph").limit_ph) return std::nullopt;
    const Basis rots = basis_of_threshold("no_water_ph", "pH " + fixed(read, 1) + ", " + std::string(hide.tannage_name));
    if (hide.tannage_key == "vegetable") return water_stop("vegetable tanned at pH " + fixed(read, 1), rots);
    if (hide.tannage_key == "unknown") return water_stop("at pH " + fixed(read, 1) + " it may be decayed vegetable leather; find out the tannage first", rots);
    return std::nullopt;
}

std::optional<Stop> never_sprayed(const Liquid& liquid, const Use& use) {
    if (use.dose.amount != Amount::Sprays) return std::nullopt;
    for (const auto& row : atlas::cautions) {
        if (row.stops_spray != "yes") continue;
        for (const auto& part : liquid.ingredients)
            if (is_about(row, part))
                return Stop{"never_sprayed", "Do not spray it: it names " + called(part) + ".",
                            {"Do not open it here. If it was sprayed: everyone out, fresh air, windows open from outside.", "Tight chest, cough or burning eyes, also hours later: a doctor, and take the sheet along."},
                            {"Never sprayed in a home or a car.", "Never used without the protection that its sheet names."},
                            {std::string(row.sentence), std::string(row.source), std::string(row.locator), standing_of(row.standing), called(part)}};
    }
    return std::nullopt;
}

std::string crosslinker_named(const Liquid& liquid) {
    for (const auto& row : atlas::cautions)
        if (row.stops_spray == "yes")
            for (const auto& part : liquid.ingredients)
                if (is_about(row, part)) return called(part);
    return {};
}

std::vector<Reason> people_and_car(const chem::Totals& liquid, const Liquid& product, const leather::Hide& hide, std::optional<double> liquid_ph) {
    std::vector<Reason> out;
    for (const auto& row : atlas::cautions) {
        std::string inputs;
        if (row.applies_to == "leather") {
            if (row.leather_class != hide.class_key) continue;
            inputs = std::string(hide.class_name);
        } else if (!row.kinds.empty()) {
            double pct = 0;
            for (std::string_view rest = row.kinds; !rest.empty();) {
                const auto cut = rest.find(';');
                pct += content_pct(liquid, rest.substr(0, cut));
                rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
            }
            if (!(pct > row.over_pct)) continue;
            inputs = fixed(pct, 0) + " % of it";
        } else if (!row.name_fragments.empty()) {
            const auto named = std::find_if(product.ingredients.begin(), product.ingredients.end(), [&](const Ingredient& i) { return is_about(row, i); });
            if (named == product.ingredients.end()) continue;
            inputs = called(*named);
        } else {
            if (!liquid_ph || !(std::isnan(row.from_ph) ? *liquid_ph <= row.to_ph : *liquid_ph >= row.from_ph)) continue;
            inputs = "pH as used " + fixed(*liquid_ph, 1);
        }
        out.push_back({std::string(row.key), std::string(row.sentence), "caution", {"People and car parts first", std::string(row.source), std::string(row.locator), standing_of(row.standing), inputs}});
    }
    return out;
}

bool names_class(const Liquid& liquid, std::string_view hazard_class) {
    const auto is = [&](const std::vector<std::string_view>& classes) { return std::find(classes.begin(), classes.end(), hazard_class) != classes.end(); };
    const auto there = chem::present(portions(liquid));
    return std::any_of(there.recognised.begin(), there.recognised.end(), [&](const chem::Recognised& r) { return is(chem::hazard_classes(r.row)); }) ||
           std::any_of(there.unknown.begin(), there.unknown.end(), [&](const std::string& name) { return is(chem::hazard_classes_by_name(name)); });
}

std::optional<std::string_view> oxidiser_in(const Liquid& liquid, const chem::Totals& as_used, double parts_water) {
    for (const std::string_view kind : {"hypochlorite", "peroxide"})
        if (content_pct(as_used, kind) + named_pct(liquid, kind) / (1 + parts_water) > threshold(kind).limit_pct) return kind;
    return std::nullopt;
}

std::vector<Reason> not_computed(const Liquid& liquid, const leather::Hide& hide, double dose_g_m2, double liquid_ph) {
    std::vector<Reason> out;
    const bool open = hide.finish_um <= threshold("open_finish").limit_um;
    for (const auto& row : atlas::moisture_budgets) {
        if (row.leather_class != hide.class_key || dose_g_m2 <= row.pass_g_m2) continue;
        out.push_back({"more_than_a_pass", fixed(dose_g_m2, 0) + " g/m² at once is more than the " + fixed(row.pass_g_m2, 0) + " g/m² that custom allows in a pass on this leather: " +
                                               (open ? "a ring and moved dye are to be expected, whatever the pH." : "keep it out of seams and stitch holes."),
                       "caution", {"So much liquid in one pass", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(hide.class_name)}});
    }
    const bool amine = names_class(liquid, "ammonia") || names_class(liquid, "amine");
    const std::string_view softens = amine ? "amine_on_finish" : "finish_softens";
    if (hide.finish_um > 0 && liquid_ph > threshold(softens).limit_ph)
        out.push_back({"alkali_on_finish", "What alkali does to the finish film itself is not computed: water-borne films soften in it, in ammonia and amines most. Rub a hidden spot with a damp white cloth and look for colour.", "caution",
                       basis_of_threshold(softens, "pH as used " + fixed(liquid_ph, 1))});
    if (liquid_ph < threshold("acid_liquid").limit_ph)
        out.push_back({"liquid_below_floor", "At pH " + fixed(liquid_ph, 1) + " the liquid lies below the floor of pH " + fixed(threshold("acid_liquid").limit_ph, 1) + ": it is no rinse, and it can shift dye and attack metal parts.", "caution",
                       basis_of_threshold("acid_liquid", "pH as used " + fixed(liquid_ph, 1))});
    return out;
}

}  // namespace hw::desk
