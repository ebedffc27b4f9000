#include "desk/unknowns.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/builders.hpp"
#include "atlas/look_shifts.hpp"
#include "atlas/substances.hpp"
#include "core/belief/points.hpp"
#include "core/chem/batch.hpp"
#include "core/chem/builder.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/chem/solvents.hpp"
#include "desk/liquids.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

using belief::Spread;

constexpr double most_dry_kg_m2 = 5;
// Where there is a wiping every member keeps its moment, also one whose cloth takes next to nothing: all share their moments.
constexpr double least_wiped_1 = 1e-9, most_wiped_1 = 0.99;

Spread::Shape shape_of(std::string_view word) {
    if (word == "even") return Spread::Shape::Even;
    if (word == "tent") return Spread::Shape::Tent;
    if (word == "bell") return Spread::Shape::Bell;
    if (word == "ratio_bell") return Spread::Shape::RatioBell;
    throw Bug("no shape " + std::string(word));
}

Unknown from_row(std::string_view key) {
    const auto& row = unknown_row(key);
    Unknown u;
    u.key = std::string(row.key);
    u.group = std::string(row.group_key);
    u.name = std::string(row.plain_name);
    u.range = std::string(row.in_words);
    u.settled_by = std::string(row.settled_by);
    u.spread = {shape_of(row.shape), row.low_1, row.middle_1, row.high_1};
    if (u.spread.shape == Spread::Shape::RatioBell || row.how == "times") u.spread.least = 0;
    u.basis = {std::string(row.plain_name) + ": " + std::string(row.in_words), std::string(row.source), std::string(row.locator), standing_of(row.standing), "drawn"};
    return u;
}

bool has_solvent(const Liquid& liquid) {
    const auto there = chem::present(portions(liquid)).recognised;
    return std::any_of(there.begin(), there.end(), [](const chem::Recognised& r) { return chem::solvent_of(r.row).has_value(); });
}

/// Seconds until the drop darkens the leather at the figures of the class.
double drop_s(const leather::Hide& hide) { return threshold("drop_darkens").limit_g_m2 / 1000 * hide.finish_um * 1e-6 / hide.finish_water_kg_m_s; }

/// A drop that was read cuts the belief to the openings that give such a time. The class may be wrong, so it starts wider.
void cut_by_drop(Unknown& u, const Question& q) {
    if (q.leather.water_drop == WaterDrop::NotDone) return;
    constexpr std::array<double, 4> ends_s{0, 10, 120, 600};
    const auto bin = static_cast<std::size_t>(q.leather.water_drop) - 1;
    const double central = drop_s(q.hide);
    u = from_row("finish_drop");
    u.key = "finish";
    u.spread.most = bin == 0 ? std::numeric_limits<double>::infinity() : central / ends_s[bin];
    if (bin + 1 < ends_s.size()) u.spread.least = central / ends_s[bin + 1];
    u.basis.inputs = "water drop, read";
}

/// The pH that the liquid is known to have, and how near ingredients must come to explain it.
struct KnownPh {
    Spread spread;
    double low = 0, high = 0, fits = 0;
    std::string_view key;
};
std::optional<KnownPh> known_ph(const Liquid& liquid, const std::optional<double>& read_half = std::nullopt) {
    const bool read = liquid.read_ph.has_value();
    if (!read && !liquid.stated_ph) return std::nullopt;
    KnownPh k;
    k.key = read ? "read_ph" : "stated_ph";
    k.low = read ? *liquid.read_ph : *liquid.stated_ph;
    k.high = read ? *liquid.read_ph : liquid.stated_ph_to.value_or(*liquid.stated_ph);
    k.fits = threshold(read ? "fits_reading" : "fits_label").limit_ph;
    const auto& row = unknown_row(k.key);
    const double low = read && read_half ? -*read_half : row.low_1, high = read && read_half ? *read_half : row.high_1;
    k.spread = {Spread::Shape::Bell, std::min(k.low, (k.low + k.high) / 2 + low), (k.low + k.high) / 2, std::max(k.high, (k.low + k.high) / 2 + high), -1, 15};
    return k;
}
bool explains(const KnownPh& known, double ph) { return ph > known.low - known.fits && ph < known.high + known.fits; }

/// pH is not stated where alcohol takes the water's place, and nothing is added to what nobody knows.
bool has_ph(const Liquid& liquid, const chem::Totals& t) { return t.organic_pct <= threshold("no_ph_in_alcohol").limit_pct && liquid.label_known && !nothing_known(liquid); }

Result<double> ph_of(const chem::Totals& t, Temperature water) {
    chem::Conditions c;
    c.water = water;
    HW_TRY(e, chem::equilibrium(t, c));
    return e.ph;
}

std::size_t substance_of(const atlas::BuildersRow& row) {
    const auto found = chem::find_substance("", row.cas);
    if (!found) throw Bug("no substance for builder " + std::string(row.key));
    return *found;
}

double most_mol_kg(const atlas::BuildersRow& row, std::size_t substance) {
    return row.most_pct * 10 / atlas::substances[substance].molar_mass_g_mol / (1 - row.most_pct / 100);
}

/// The liquid with a builder that brings it to the pH; nothing when that builder cannot.
Result<std::optional<chem::Totals>> built(const chem::Totals& liquid, const atlas::BuildersRow& row, double ph, Temperature water) {
    const std::size_t substance = substance_of(row);
    HW_TRY(mol, chem::amount_to_ph(liquid, substance, ph, most_mol_kg(row, substance), water));
    if (!mol) return std::optional<chem::Totals>();
    return std::optional(chem::with_added(liquid, substance, *mol));
}

/// Weight of each builder for a liquid: by its use in the trade, and by how well it explains the reading in ten parts.
Result<std::vector<double>> builder_weights(const Liquid& liquid, const chem::Totals& neat, double ph, Temperature water) {
    std::vector<double> weights;
    const double reading_error = unknown_row("read_ph").high_1;
    for (const auto& row : atlas::builders) {
        HW_TRY(with, built(neat, row, ph, water));
        double weight = with ? row.weight_1 : 0;
        if (with && liquid.read_ph_tenfold) {
            HW_TRY(thin, ph_of(chem::diluted(*with, 9, 0), water));
            const double off = (thin - *liquid.read_ph_tenfold) / reading_error;
            weight *= std::max(1e-6, std::exp(-off * off / 2));
        }
        weights.push_back(weight);
    }
    return weights;
}

bool any(const std::vector<double>& weights) {
    return std::any_of(weights.begin(), weights.end(), [](double w) { return w > 0; });
}

}  // namespace

Result<Reconciled> reconciled(const Liquid& liquid, Temperature water) {
    HW_TRY(neat, totals_of(liquid));
    Reconciled out{neat, "", 7, 0, {}};
    const auto known = known_ph(liquid);
    if (!known || !has_ph(liquid, neat)) return out;
    HW_TRY(ph, ph_of(neat, water));
    out.ingredients_ph = ph;
    if (explains(*known, ph)) return out;
    HW_TRY(weights, builder_weights(liquid, neat, known->spread.middle, water));
    if (!any(weights)) return out;
    const auto heaviest = static_cast<std::size_t>(std::max_element(weights.begin(), weights.end()) - weights.begin());
    HW_TRY(with, built(neat, atlas::builders[heaviest], known->spread.middle, water));
    out.neat = *with;
    out.half_ph = (known->spread.high - known->spread.low) / 2;
    for (std::size_t k = 0; k < weights.size(); ++k) {
        if (k == heaviest || !(weights[k] > 0)) continue;
        HW_TRY(other, built(neat, atlas::builders[k], known->spread.middle, water));
        if (other) out.others.push_back(*other);
    }
    out.builder = std::string(atlas::builders[heaviest].plain_name);
    return out;
}

namespace {

/// How far a finish of this class may shift a surface reading.
double shift_half(std::string_view leather_class) {
    for (const auto& row : atlas::look_shifts)
        if (row.leather_class == leather_class) return row.half_ph;
    throw Bug("no shift of " + std::string(leather_class));
}

/// The amount: the area, what one pull or wipe gives, how it was told, what the cloth took.
void add_dose(std::vector<Unknown>& out, const Question& q) {
    out.push_back(from_row("area"));
    const GramsPer per = grams_per(q.use.dose.amount);
    if (q.use.dose.amount != Amount::Grams) {
        Unknown dose;
        dose.key = dose.group = "dose";
        dose.name = "how much came onto the leather";
        dose.range = fixed(per.low_g, 1) + " to " + fixed(per.high_g, 1) + " g with each " + (q.use.dose.amount == Amount::Sprays ? "pull" : "wipe");
        dose.settled_by = "Weigh what was used";
        dose.spread = {Spread::Shape::Tent, per.low_g / per.amount_g, 1, per.high_g / per.amount_g};
        dose.basis = {dose.name + ": " + dose.range, per.source, per.locator, per.standing, "drawn"};
        out.push_back(dose);
    }
    if (q.told) out.push_back(from_row("told"));
    if (q.story.wiped_1 > 0) out.push_back(from_row("wiped"));
}

}  // namespace

std::vector<Unknown> unknowns_of(const Question& q) {
    std::vector<Unknown> out;
    if (!q.nothing_laid) add_dose(out, q);
    if (q.hide.finish_um > 0) {
        out.push_back(from_row("finish"));
        cut_by_drop(out.back(), q);
    }
    if (!q.hide.thickness_read) out.push_back(from_row("thickness"));
    out.push_back(from_row("buffering"));
    Unknown start;
    start.key = start.group = "start_ph";
    start.name = "where this hide starts";
    start.range = "pH " + fixed(q.hide.ph - q.hide.ph_spread, 1) + " to " + fixed(q.hide.ph + q.hide.ph_spread, 1);
    start.settled_by = !q.hide.ph_read ? "Surface pH" : q.hide.ph_spread >= 0.5 ? "Small extract" : "";
    start.spread = {Spread::Shape::Bell, q.hide.ph - q.hide.ph_spread, q.hide.ph, q.hide.ph + q.hide.ph_spread, 1.5, 12};
    start.basis = {start.name + ": " + start.range, "own", q.hide.ph_read ? "error of a reading through this finish" : "atlas/tannages.csv, spread of the tannage", q.hide.ph_read ? Standing::Measured : Standing::Estimate, "drawn"};
    if (q.told) {
        const std::string settled_by = std::string(unknown_row("start_told").settled_by);
        start = from_row("start_told");
        start.key = "start_ph";
        start.settled_by = settled_by;
        for (double* end : {&start.spread.low, &start.spread.middle, &start.spread.high}) *end += q.hide.ph;
        start.spread.least = 1.5;
        start.spread.most = 12;
    }
    out.push_back(start);
    if (q.told) {
        Unknown shift = from_row("shift");
        const double half = shift_half(q.hide.class_key);
        shift.spread.low = -half;
        shift.spread.high = half;
        shift.range = "within " + fixed(half, 1) + " on a finish like this";
        out.push_back(shift);
    }
    if (q.nothing_laid) out.push_back(from_row("worn"));
    out.push_back(from_row("humidity"));
    out.push_back(from_row("air_speed"));
    if (q.nothing_laid) return out;
    for (std::size_t i = 0; i < q.liquid.ingredients.size(); ++i)
        if (q.liquid.ingredients[i].content_to_pct) {
            out.push_back(from_row("ingredients"));
            out.back().ingredient = i;
        }
    if (const auto known = known_ph(q.liquid, q.read_ph_half)) {
        out.push_back(from_row(known->key));
        out.back().spread = known->spread;
        out.push_back(from_row("builder"));
    }
    if (has_solvent(q.liquid)) {
        out.push_back(from_row("solvent_activity"));
        if (q.hide.finish_um > 0)
            for (const char* key : {"film", "film_radius", "film_release"}) out.push_back(from_row(key));
    }
    return out;
}

namespace {

Result<std::vector<double>> weights_of(const Question& q, const std::optional<KnownPh>& known, const chem::Totals& central) {
    if (!known || !has_ph(q.liquid, central)) return std::vector<double>{};
    return builder_weights(q.liquid, central, known->spread.middle, q.story.air);
}

/// Everything of one member but its liquid.
Member member_of(const Question& q, const std::vector<Unknown>& unknowns, const std::vector<double>& u) {
    Member m{q.hide, q.story};
    double buffering = 1, worn = 0;
    for (std::size_t d = 0; d < unknowns.size(); ++d) {
        const Unknown& unknown = unknowns[d];
        const auto value = [&] { return belief::quantile(unknown.spread, u[d]); };
        if (unknown.key == "area") m.area_1 = value(), m.story.dose_kg_m2 /= m.area_1;
        else if (unknown.key == "told") m.story.dose_kg_m2 *= value();
        else if (unknown.key == "shift") m.shift_ph = value();
        else if (unknown.key == "worn") worn = value();
        else if (unknown.key == "dose") m.story.dose_kg_m2 *= value();
        else if (unknown.key == "wiped") m.story.wiped_1 = std::clamp(1 - (1 - m.story.wiped_1) * value(), least_wiped_1, most_wiped_1);
        else if (unknown.key == "finish") m.story.permeability_1 *= value();
        else if (unknown.key == "thickness") m.hide.thickness_mm *= value();
        else if (unknown.key == "buffering") buffering = value();
        else if (unknown.key == "start_ph") m.hide.ph = value();
        else if (unknown.key == "humidity") m.story.humidity_1 = std::clamp(m.story.humidity_1 + value(), 0.05, 0.95);
        else if (unknown.key == "air_speed") m.story.air_speed_m_s *= value();
        else if (unknown.key == "film") m.film_u = u[d];
        else if (unknown.key == "film_radius") m.film_radius_1 = value();
        else if (unknown.key == "film_release") m.film_release_1 = value();
        else if (unknown.key == "solvent_activity") m.solvent_activity_1 = value();
        else if (unknown.group != "liquid") throw Bug("no member draws " + unknown.key);
    }
    m.story.dose_kg_m2 = std::min(m.story.dose_kg_m2, most_dry_kg_m2);
    m.sheltered_ph = m.hide.ph;
    if (q.nothing_laid) m.hide.ph = std::clamp(m.hide.ph + worn, 1.5, 12.0);
    m.hide.sites = leather::binding_sites(m.hide.tannage_key, buffering);
    return m;
}

/// The neat liquid of one member: ranges drawn, then reconciled with the pH that is known.
Result<chem::Totals> liquid_of(const Question& q, const std::vector<Unknown>& unknowns, const std::vector<double>& u, const std::optional<KnownPh>& known, const std::vector<double>& weights) {
    std::vector<double> place(q.liquid.ingredients.size(), 0.5);
    double target = 7, which = 0.5;
    for (std::size_t d = 0; d < unknowns.size(); ++d) {
        if (unknowns[d].key == "ingredients") place[unknowns[d].ingredient] = u[d];
        else if (known && unknowns[d].key == known->key) target = belief::quantile(unknowns[d].spread, u[d]);
        else if (unknowns[d].key == "builder") which = u[d];
    }
    auto neat = chem::totals(portions(q.liquid, place));
    if (!neat.ok()) return Error{neat.error().code, neat.error().message, "liquid." + neat.error().where};
    if (!known || !has_ph(q.liquid, *neat)) return neat;
    HW_TRY(ph, ph_of(*neat, q.story.air));
    if (explains(*known, ph)) return neat;
    // A builder that cannot reach this member's pH gives way to the next one.
    std::vector<double> left = weights;
    while (any(left)) {
        const std::size_t k = belief::pick(left, which);
        HW_TRY(with, built(*neat, atlas::builders[k], target, q.story.air));
        if (with) return *with;
        left[k] = 0;
    }
    return neat;
}

/// pH and ionic strength of many liquids: side by side, or one by one where they are too strong for the batch's tables.
Result<std::vector<MemberLiquid>> with_ph(std::vector<chem::Totals> neat, const Use& use, Temperature water) {
    chem::Conditions c;
    c.water = water;
    std::vector<chem::Totals> totals;
    for (const auto& n : neat) totals.push_back(chem::diluted(n, use.parts_water, use.hardness_mg_l));
    std::vector<MemberLiquid> out;
    const auto batch = chem::equilibria(totals, c);
    for (std::size_t i = 0; i < totals.size(); ++i) {
        MemberLiquid m{std::move(totals[i])};
        m.neat = std::move(neat[i]);
        if (batch.ok()) {
            m.ph = batch->ph[i];
            m.ionic_strength_mol_kg = batch->ionic_strength_mol_kg[i];
        } else {
            HW_TRY(e, chem::equilibrium(m.as_used, c));
            m.ph = e.ph;
            m.ionic_strength_mol_kg = e.ionic_strength_mol_kg;
        }
        out.push_back(std::move(m));
    }
    return out;
}

}  // namespace

Member member_at(const Question& q, const std::vector<double>& u) { return member_of(q, unknowns_of(q), u); }

Result<chem::Totals> totals_at(const Question& q, const std::vector<double>& u) {
    const auto known = known_ph(q.liquid, q.read_ph_half);
    HW_TRY(central, totals_of(q.liquid));
    HW_TRY(weights, weights_of(q, known, central));
    HW_TRY(neat, liquid_of(q, unknowns_of(q), u, known, weights));
    return chem::diluted(neat, q.use.parts_water, q.use.hardness_mg_l);
}

namespace {

/// Whether every member has the same liquid.
Result<bool> one_liquid(const Question& q, const std::optional<KnownPh>& known, const chem::Totals& central) {
    if (q.nothing_laid) return true;
    if (std::any_of(q.liquid.ingredients.begin(), q.liquid.ingredients.end(), [](const Ingredient& i) { return i.content_to_pct.has_value(); })) return false;
    if (!known || !has_ph(q.liquid, central)) return true;
    HW_TRY(ph, ph_of(central, q.story.air));
    return explains(*known, ph);
}

}  // namespace

Result<Draw> draw_at(const Question& q, std::vector<Unknown> unknowns, std::vector<std::vector<double>> u) {
    Draw out{std::move(unknowns), std::move(u), {}, {}};
    for (const auto& point : out.u) out.members.push_back(member_of(q, out.unknowns, point));
    const auto known = known_ph(q.liquid, q.read_ph_half);
    HW_TRY(central, totals_of(q.liquid));
    HW_TRY(weights, weights_of(q, known, central));
    HW_TRY(one, one_liquid(q, known, central));
    std::vector<chem::Totals> neat;
    for (std::size_t i = 0; i < (one ? 1 : out.u.size()); ++i) {
        HW_TRY(liquid, liquid_of(q, out.unknowns, out.u[i], known, weights));
        neat.push_back(std::move(liquid));
        if (!one) out.members[i].liquid = i;
    }
    HW_TRY(liquids, with_ph(std::move(neat), q.use, q.story.air));
    out.liquids = std::move(liquids);
    return out;
}

Result<Draw> draw(const Question& q, std::size_t count) {
    std::vector<Unknown> unknowns = unknowns_of(q);
    HW_TRY(points, belief::even_points(count, unknowns.size()));
    HW_TRY(out, draw_at(q, std::move(unknowns), std::move(points)));
    HW_TRY(central, totals_of(q.liquid));
    HW_TRY(one, one_liquid(q, known_ph(q.liquid, q.read_ph_half), central));
    // Where nothing of the liquid varies it is no unknown.
    if (one) {
        std::vector<std::size_t> keep;
        for (std::size_t d = 0; d < out.unknowns.size(); ++d)
            if (out.unknowns[d].group != "liquid") keep.push_back(d);
        std::vector<Unknown> left;
        for (std::size_t d : keep) left.push_back(out.unknowns[d]);
        for (auto& u : out.u) {
            std::vector<double> now;
            for (std::size_t d : keep) now.push_back(u[d]);
            u = std::move(now);
        }
        out.unknowns = std::move(left);
    }
    return out;
}

}  // namespace hw::desk
