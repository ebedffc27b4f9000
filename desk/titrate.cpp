#include "desk/titrate.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/titration_spreads.hpp"
#include "core/chem/drop_titration.hpp"
#include "core/chem/equilibrium.hpp"
#include "desk/cautions.hpp"
#include "desk/happening.hpp"
#include "desk/liquids.hpp"
#include "desk/rows.hpp"
#include "desk/unknowns.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr double naoh_g_mol = 39.997;             // formula and molar mass
constexpr double most_base_pct = 0.5;             // a tenth normal solution is 0.4 %: strong enough, and no lye
constexpr double d1121_end_ph = 5.5, d1121_ml = 10, d1121_mol_l = 0.1;

const atlas::TitrationSpreadsRow& spread(std::string_view key) { return row_of(atlas::titration_spreads, key); }
Basis basis_of(const atlas::TitrationSpreadsRow& row, std::string inputs) { return {"How far " + std::string(row.plain_name) + " may lie off", std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)}; }

/// Why no base goes into a product; empty: it may.
std::string no_base(const Liquid& l) {
    if (!l.label_known || nothing_known(l)) return "Without a label, or with nothing known of it, it may hold chlorine bleach: nothing is counted into it. Read its pH instead, neat and one part in ten.";
    for (const auto& [kind, name] : {std::pair{"hypochlorite", "chlorine bleach"}, {"sulfite", "sulfite"}, {"sulfide", "sulfide"}})
        if (names_class(l, kind)) return std::string("It holds, or may hold, ") + name + ". Nothing is counted into it. Read its pH instead, neat and one part in ten.";
    if (names_class(l, "ammonia")) return "It holds ammonia or an ammonium salt: alkali drives ammonia gas out of it. Read its pH instead.";
    return "";
}

std::vector<std::string> steps_of(const TitrateRequest& r) {
    const DropCount& d = r.drops;
    const std::string what = r.base ? "sodium hydroxide solution" : d.acid + " solution";
    return {"Eye protection on. Gloves on. Window open. Millilitres only, in a small glass.",
            "Read the label of the product again. Chlorine bleach, sulfite, sulfide, or no label: stop here.",
            r.sample_g ? "Weigh " + fixed(*r.sample_g, 2) + " g of the product into the glass." : "Put " + fixed(d.product_ml, 1) + " mL of the product into the glass with a syringe.",
            "Hold the dropper upright. Let one drop of the " + fixed(d.acid_pct, d.acid_pct < 1 ? 1 : 0) + " % " + what + " fall, swirl, wait three seconds.",
            "Count every drop. Touch a strip, or the meter, every few drops; near the end after each one.",
            "Stop at pH " + fixed(d.end_ph, 1) + ". Write down how many drops it took.",
            "Do it twice. If the two differ by more than two drops and a tenth, do it a third time.",
            "Count ten drops onto a scale once: their weight in grams, divided by ten, is one drop in millilitres.",
            "Rinse the glass with plenty of water. Nothing of it goes back into a bottle."};
}

/// What a kilogram of the drops brings up to a pH, thinned by the product: a weak acid gives only part of itself.
Result<double> brought_mol_kg(const TitrateRequest& r, double product_g_per_g, double end_ph) {
    HW_TRY(drops, chem::totals({{r.base ? "sodium hydroxide" : r.drops.acid, "", r.drops.acid_pct, std::nullopt}}));
    const chem::Totals mixed = chem::diluted(drops, product_g_per_g, 0);
    HW_TRY(needs, chem::acid_to_ph(mixed, end_ph));
    return (r.base ? 1 : -1) * needs * mixed.water_kg_kg * (1 + product_g_per_g);
}

/// Acid (or with `base` base) that the sheet's ingredients take up to a pH, mol per kg of product.
std::optional<double> by_sheet(const Liquid& l, bool base, double end_ph) {
    if (nothing_known(l)) return std::nullopt;
    const auto known = reconciled(l, Temperature::celsius(25));
    if (!known.ok()) return std::nullopt;
    const auto needs = chem::acid_to_ph(known->neat, end_ph);
    if (!needs.ok()) return std::nullopt;
    return (base ? -1 : 1) * *needs * known->neat.water_kg_kg;
}

}  // namespace

Result<TitrateAnswer> titrate(const TitrateRequest& given, Ports& ports) {
    TitrateRequest request = given;
    // The usual drops of acid are no base.
    if (request.base && request.drops.acid == DropCount{}.acid) request.drops.acid = "sodium hydroxide", request.drops.acid_pct = std::min(request.drops.acid_pct, 0.4);
    if (const auto bad = out_of_range(request)) return *bad;
    HW_TRY(liquid, resolved(request.liquid, ports.store));
    request.liquid = liquid;
    if (const auto bad = upside_down(liquid)) return *bad;

    TitrateAnswer a;
    a.version = std::string(program_version);
    a.liquid = liquid.name;
    a.base = request.base;
    a.done = request;
    a.never = {"Never with chlorine bleach, sulfite, sulfide, or a product without a label.", "Never more than a few millilitres, never in a closed bottle.", "Never pour acid and alkali together to see what happens: one drop at a time."};
    a.refused = request.base ? no_base(liquid) : no_drops(liquid, request.drops);
    if (!a.refused.empty() && !request.base && a.refused.rfind("Only a weak acid", 0) == 0) return Error{ErrorCode::InvalidInput, a.refused, "drops.acid"};
    if (!a.refused.empty()) {
        a.sentence = "No drops into this one. " + a.refused;
        return a;
    }
    if (request.base && (request.drops.acid != "sodium hydroxide" || request.drops.acid_pct > most_base_pct)) return Error{ErrorCode::InvalidInput, "Only thin sodium hydroxide is counted into an acid product: 0.4 %, bought ready made, and never more than 0.5 %.", "drops.acid"};
    a.steps = steps_of(request);
    if (!request.count_1) {
        a.sentence = std::string("Count drops of ") + (request.base ? "thin sodium hydroxide" : "weak acid") + " into " + (request.sample_g ? fixed(*request.sample_g, 2) + " g" : fixed(request.drops.product_ml, 1) + " mL") + " of it until pH " + fixed(request.drops.end_ph, 1) + ".";
        return a;
    }

    const double count = *request.count_1, sample_g = request.sample_g.value_or(request.drops.product_ml), drop_g = request.drops.drop_ml, end = request.drops.end_ph;
    // Thinned as it is at the end; without a drop as it would be with one.
    const double thinned = sample_g / (std::max(count, 1.0) * drop_g), strip = spread("strip").half_ph;
    HW_TRY(titrant, brought_mol_kg(request, thinned, end));
    HW_TRY(early, brought_mol_kg(request, thinned, end + strip));
    HW_TRY(late, brought_mol_kg(request, thinned, end - strip));
    if (!(titrant > 0)) return Error{ErrorCode::OutOfRange, "At pH " + fixed(end, 1) + " these drops bring nothing. Count to another end.", "drops.end_ph"};
    const auto sheet = by_sheet(liquid, request.base, end), sheet_early = by_sheet(liquid, request.base, end + strip), sheet_late = by_sheet(liquid, request.base, end - strip);

    chem::DropTitration t;
    t.drops_1 = count;
    t.drop_g = drop_g;
    t.titrant_mol_kg = titrant;
    t.sample_g = sample_g;
    t.count_half_1 = spread("count").half_drops_1;
    t.drop_half_1 = spread("drop").half_pct / 100;
    t.titrant_half_1 = spread("strength").half_pct / 100;
    t.sample_half_1 = spread(request.sample_g ? "sample_weighed" : "sample").half_pct / 100;
    // The strip errs one way for both: the drops bring another share of themselves, the product takes up another amount.
    const double of_drops = count * drop_g / sample_g * (early - late) / 2, of_product = sheet_early && sheet_late ? (*sheet_early - *sheet_late) / 2 : 0;
    t.end_half_mol_kg = std::abs(of_drops - of_product);
    const auto r = chem::reserve_from_drops(t);

    a.counted = true;
    const std::string from = "drops, their size and strength, the sample and the strip; nine times in ten";
    a.reserve = number(r.mol_kg, r.half_mol_kg, "mol/kg", Standing::Measured, from);
    a.as_naoh = number(r.mol_kg * naoh_g_mol / 10, r.half_mol_kg * naoh_g_mol / 10, "g NaOH/100 g", Standing::Measured, from);
    // A gram of product is taken as a millilitre, as everywhere at this bench.
    const double ml_per_mol_kg = d1121_ml * 1e-3 / d1121_mol_l * 1e3;
    const bool is_d1121 = !request.base && std::abs(end - d1121_end_ph) < 0.05;
    if (is_d1121) a.reserve_alkalinity = number(r.mol_kg * ml_per_mol_kg, r.half_mol_kg * ml_per_mol_kg, "mL", Standing::Measured, from);
    const auto share = [&](std::string_view key, std::size_t i, std::string half) { a.shares.push_back({std::string(spread(key).plain_name), std::move(half), r.share_1[i], basis_of(spread(key), "drops counted " + fixed(count, 0))}); };
    share("count", 0, "± 1 drop");
    share("drop", 1, "± " + fixed(100 * t.drop_half_1, 0) + " %");
    share("strength", 2, "± " + fixed(100 * t.titrant_half_1, 0) + " %");
    share(request.sample_g ? "sample_weighed" : "sample", 3, "± " + fixed(100 * t.sample_half_1, 0) + " %");
    share("strip", 4, "± " + fixed(strip, 1) + " pH");
    std::stable_sort(a.shares.begin(), a.shares.end(), [](const TitrateShare& x, const TitrateShare& y) { return x.share_1 > y.share_1; });

    if (request.base) a.reasons.push_back({"own_definition", "Acid reserve is our own measure: the base that a kilogram takes up to pH " + fixed(end, 1) + ". No standard defines it.", "note", {"Acid reserve, own definition", "own", "docs/theory/drops.md", Standing::Derived, "end pH " + fixed(end, 1)}});
    else if (is_d1121) a.reasons.push_back({"reserve_alkalinity", "Reserve alkalinity: millilitres of 0.100 N hydrochloric acid that 10 mL of product take to pH 5.5. One mol/kg is 100 mL.", "note", {"Reserve alkalinity", "astm_d1121", "definition: 10 mL sample, 0.100 N acid, pH 5.5", Standing::Published, "a gram of product taken as a millilitre"}});
    else a.reasons.push_back({"other_end", "It was counted to pH " + fixed(end, 1) + ", not 5.5: this is no reserve alkalinity by the standard.", "note", {"Reserve alkalinity", "astm_d1121", "definition: 10 mL sample, 0.100 N acid, pH 5.5", Standing::Published, "end pH " + fixed(end, 1)}});
    if (!request.base) a.reasons.push_back({"weak_acid", "At pH " + fixed(end, 1) + " a kilogram of these drops brings " + fixed(titrant, 2) + " mol of acid: a weak acid keeps a part of itself.", "note", {"Charge balance of the drops at the end", "goldberg2002", "acid constants", Standing::Derived, request.drops.acid + " " + fixed(request.drops.acid_pct, 1) + " %"}});
    a.reasons.push_back({"beside", "This reading stands beside the liquid. A judgement works with what the sheet says is in it; give the drops as a reading in \"what the readings change\" and they are weighed there.", "note", {"A reserve alone does not say which alkali it is", "own", "docs/theory/drops.md", Standing::Derived, "drops"}});
    if (sheet) {
        a.by_composition = number(*sheet, std::max(0.02 * std::abs(*sheet), 0.001), "mol/kg", Standing::Derived, "amounts as given on the sheet");
        const double apart = std::abs(r.mol_kg - *sheet);
        a.against_sheet = apart <= r.half_mol_kg + a.by_composition->plus_minus ? "It agrees with what the sheet says is in it." : r.mol_kg > *sheet ? "It holds more than the ingredients on the sheet explain: something is missing there." : "It holds less than the ingredients on the sheet would give: it may be old, thinned, or not what the label says.";
    }
    a.sentence = "A kilogram takes up " + to_band(r.mol_kg, r.half_mol_kg) + " ± " + to_band(r.half_mol_kg, r.half_mol_kg) + " mol of " + (request.base ? "base" : "acid") + " to pH " + fixed(end, 1) + ", as much as " + to_band(a.as_naoh.value, a.as_naoh.plus_minus) + " ± " + to_band(a.as_naoh.plus_minus, a.as_naoh.plus_minus) + " g of sodium hydroxide in 100 g" +
                 (request.base ? " would take from it." : " would.");
    return a;
}

}  // namespace hw::desk
