#include "core/treatment/rinse.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/complexing.hpp"
#include "atlas/judging_thresholds.hpp"
#include "atlas/leather_limits.hpp"
#include "atlas/substances.hpp"
#include "core/chem/hazards.hpp"

namespace hw::treatment {

namespace {

const atlas::JudgingThresholdsRow& threshold(std::string_view key) {
    for (const auto& row : atlas::judging_thresholds)
        if (row.key == key) return row;
    throw Bug("no row " + std::string(key));
}

const atlas::LeatherLimitsRow& limit_row(const std::string& key) {
    for (const auto& row : atlas::leather_limits)
        if (row.key == key) return row;
    throw Bug("no row " + key);
}

template <class Row>
Refusal refusal(std::string_view key, const Row& row, double value, double limit, std::string_view unit, std::string what = {}) {
    return {key, std::move(what), value, limit, unit, row.plain_name, row.source, row.locator, row.standing};
}

/// Weight per cent of what belongs to a group, and the name of the largest of it.
struct Share {
    double pct = 0, most_pct = 0;
    std::string most;
    void add(double of_it_pct, std::string_view name) {
        pct += of_it_pct;
        if (of_it_pct > most_pct) most_pct = of_it_pct, most = name;
    }
};

template <class Belongs>
Share share_of(const chem::Totals& liquid, Belongs belongs) {
    Share out;
    for (const auto& r : liquid.recognised)
        if (belongs(r.row)) out.add(r.content_pct, atlas::substances[r.row].name);
    return out;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) { return std::find(words.begin(), words.end(), word) != words.end(); }

bool complexes(std::size_t substance) {
    const std::string_view system = atlas::substances[substance].system;
    return std::any_of(atlas::complexing.begin(), atlas::complexing.end(), [&](const auto& row) { return row.system == system; });
}

/// What an ingredient that is not known to us gives away by its name.
const std::string* named(const chem::Totals& liquid, std::string_view hazard_class) {
    for (const auto& name : liquid.unknown) {
        const auto classes = chem::hazard_classes_by_name(name);
        if (std::find(classes.begin(), classes.end(), hazard_class) != classes.end()) return &name;
    }
    return nullptr;
}

}  // namespace

Result<double> pass_capacity_mol_m2(const chem::Totals& rinse, double kg_m2, double from_ph, double to_ph, const chem::Conditions& conditions) {
    HW_TRY(from, chem::acid_to_ph(rinse, from_ph, chem::closed(conditions)));
    HW_TRY(to, chem::acid_to_ph(rinse, to_ph, chem::closed(conditions)));
    return kg_m2 * rinse.water_kg_kg * (from - to);
}

double passes_to_neutralise(double dose_mol_m2, double capacity_mol_m2) {
    if (dose_mol_m2 == 0) return 0;
    const double passes = dose_mol_m2 / capacity_mol_m2;
    return passes > 0 ? passes : std::numeric_limits<double>::infinity();
}

double left_after_blotting(double dose_mol_m2, double blotted_1, double passes) { return dose_mol_m2 * std::pow(1 - blotted_1, passes); }

Result<double> self_buffering_ph(const leather::Hide& hide, double dose_mol_m2, double depth_um) {
    if (!(depth_um > 0)) return Error{ErrorCode::InvalidInput, "A dose needs a depth to spread through.", "depth_um"};
    const double leather_um = hide.thickness_mm * 1000 - hide.finish_um;
    const double wanted = dose_mol_m2 / (hide.dry_density_kg_m3 * std::min(depth_um, leather_um) * 1e-6);  // mol per kg
    double low = 0, high = 14;
    if (!(leather::alkali_between(hide, hide.ph, low) <= wanted && wanted <= leather::alkali_between(hide, hide.ph, high)))
        return Error{ErrorCode::OutOfRange, "So much spread through so little leather is more than its groups can hold.", "dose_mol_m2"};
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (leather::alkali_between(hide, hide.ph, middle) < wanted ? low : high) = middle;
    }
    return (low + high) / 2 - hide.ph;
}

Result<double> difference_figure(const chem::Totals& liquid, const chem::Conditions& conditions) {
    HW_TRY(whole, chem::equilibrium(liquid, chem::closed(conditions)));
    HW_TRY(tenth, chem::equilibrium(chem::diluted(liquid, 9, 0), chem::closed(conditions)));
    return std::abs(tenth.ph - whole.ph);
}

Result<std::vector<Refusal>> why_not(const chem::Totals& rinse, const leather::Hide& hide, const RinseUse& use) {
    std::vector<Refusal> out;
    const auto& unknown = threshold("unknown_part");
    if (!use.label_known) out.push_back(refusal("not_labelled", unknown, 100, unknown.limit_pct, "%"));
    else if (rinse.unknown_pct > unknown.limit_pct) out.push_back(refusal("unknown_parts", unknown, rinse.unknown_pct, unknown.limit_pct, "%", rinse.unknown.empty() ? "" : rinse.unknown.front()));

    const auto kind = [](std::size_t substance) { return atlas::substances[substance].kind; };
    const auto& trace = threshold("rinse_trace");
    for (std::string_view harsh : {"hypochlorite", "peroxide", "sulfite", "sulfide"}) {
        const Share share = share_of(rinse, [&](std::size_t s) { return kind(s) == harsh; });
        // By its name alone, how much there is of it is not known: any is too much.
        if (const auto* name = named(rinse, harsh)) out.push_back(refusal(harsh, trace, std::max(rinse.unknown_pct, share.pct), trace.limit_pct, "%", *name));
        else if (share.pct > trace.limit_pct) out.push_back(refusal(harsh, trace, share.pct, trace.limit_pct, "%", share.most));
    }
    const auto& solvent = threshold("rinse_solvent");
    if (const Share s = share_of(rinse, [&](std::size_t i) { return is_one_of(kind(i), {"solvent", "alcohol"}); }); s.pct > solvent.limit_pct) out.push_back(refusal("solvent", solvent, s.pct, solvent.limit_pct, "%", s.most));
    const auto& residue = threshold("rinse_residue");
    const Share sticky = share_of(rinse, [&](std::size_t i) {
        return is_one_of(kind(i), {"soap", "anionic surfactant", "amphoteric surfactant", "nonionic surfactant", "quaternary", "hydrotrope", "humectant", "thickener"});
    });
    if (sticky.pct > residue.limit_pct) out.push_back(refusal("leaves_residue", residue, sticky.pct, residue.limit_pct, "%", sticky.most));

    if (is_one_of(hide.tannage_key, {"chrome", "unknown"})) {
        const auto& metal = threshold("rinse_complexing");
        if (const Share s = share_of(rinse, complexes); s.pct > metal.limit_pct) out.push_back(refusal("complexes_tannage", metal, s.pct, metal.limit_pct, "%", s.most));
    }

    // Beyond so much alcohol there is no pH to state; the solvent has been refused above.
    if (rinse.organic_pct > threshold("no_ph_in_alcohol").limit_pct) return out;
    chem::Conditions in_bottle;
    in_bottle.water = use.water;
    HW_TRY(bottle, chem::equilibrium(rinse, in_bottle));
    const auto& floor = limit_row("floor_" + std::string(hide.tannage_key));
    if (bottle.ph < floor.limit_ph) out.push_back(refusal("too_acid", floor, bottle.ph, floor.limit_ph, "pH"));
    const auto& swelling = limit_row("swelling_upper");
    if (bottle.ph > swelling.limit_ph) {
        HW_TRY(alkali, chem::acid_to_ph(rinse, hide.ph, in_bottle));
        if (1000 * alkali * use.kg_m2 * rinse.water_kg_kg > threshold("residue").limit_mmol_m2) out.push_back(refusal("too_alkaline", swelling, bottle.ph, swelling.limit_ph, "pH"));
    }
    if (bottle.ph < threshold("en13336_free").limit_ph) {
        const auto& free = threshold("en13336_difference");
        HW_TRY(difference, difference_figure(rinse, in_bottle));
        if (difference > free.limit_ph) out.push_back(refusal("free_strong_acid", free, difference, free.limit_ph, "pH"));
    }
    return out;
}

}  // namespace hw::treatment
