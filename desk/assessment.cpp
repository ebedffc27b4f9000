#include "desk/assessment.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/leather_limits.hpp"
#include "core/treatment/moisture.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

Basis basis_of(const atlas::LeatherLimitsRow& row, const std::string& inputs) {
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), inputs};
}

/// How a pore limit was passed over depth and time. Depth counts from the top of the leather, below the finish.
Passage through_depth(const treatment::Exposure& e, double start_ph, double grain_um, double limit, bool upper) {
    Passage out;
    const auto& s = e.section;
    // A hide that lies at or beyond the limit already passes it only by going further than can be seen.
    static const double seen = threshold("seen").limit_ph, lasting_s = threshold("lasting").limit_s;
    const double line = upper ? std::max(limit, start_ph + seen) : std::min(limit, start_ph - seen);
    double lasting_um = 0;
    out.reached = start_ph;
    for (std::size_t i = 0; i < s.top_m.size(); ++i) {
        if (e.layers[static_cast<std::size_t>(s.layer_of[i])].finish) continue;
        double lasted = 0, longest = 0, before = 0;
        const double bottom = s.bottom_m[i] * 1e6 - e.finish_um;
        for (std::size_t k = 0; k < e.ph.size(); ++k) {
            const double ph = e.ph[k][i];
            out.reached = upper ? std::max(out.reached, ph) : std::min(out.reached, ph);
            const double past = upper ? ph - line : line - ph, step = k > 0 ? s.snapshots[k].at_s - s.snapshots[k - 1].at_s : 0;
            // Straight between the moments that are kept: the crossing itself counts, not the moment after it.
            if (past > 0) lasted += before > 0 ? step : step * past / (past - before);
            else if (before > 0) lasted += step * before / (before - past);
            longest = std::max(longest, lasted);
            before = past;
            if (past <= 0) { lasted = 0; continue; }
            out.passed = true;
            out.deepest_um = std::max(out.deepest_um, bottom);
            if (k + 1 == e.ph.size()) out.end_um = std::max(out.end_um, bottom);
        }
        out.longest_s = std::max(out.longest_s, longest);
        if (longest > lasting_s) lasting_um = std::max(lasting_um, bottom);
    }
    const double stays = std::max(out.end_um, lasting_um);
    if (out.passed) out.grade = stays <= 0 ? Grade::ComesBack : stays > grain_um ? Grade::Deep : Grade::Lasting;
    return out;
}

/// A surface reading is given to a tenth.
double as_read(double ph) { return std::round(ph * 10) / 10; }

bool free_acid(const leather::Extract& x) {
    static const leather::En13336 en = leather::en13336();
    return x.ph < en.difference_below_ph && x.difference > en.most_difference;
}

}  // namespace

std::vector<const atlas::LeatherLimitsRow*> limits_of(std::string_view tannage_key) {
    std::vector<const atlas::LeatherLimitsRow*> out;
    for (const auto& row : atlas::leather_limits)
        if (row.tannage == "any" || row.tannage == tannage_key) out.push_back(&row);
    return out;
}

Held held_against_limits(const treatment::Exposure& e, const leather::Hide& hide, const leather::Extract& before, const leather::Extract& after) {
    Held held;
    const auto count = [&](Passage p, bool decides) {
        // Of limits that give the same grade, the one passed deepest decides.
        const bool deeper = held.decides_at != Held::npos && p.grade == held.grade && p.deepest_um > held.passages[held.decides_at].deepest_um;
        if (decides && (p.grade > held.grade || deeper)) {
            held.grade = p.grade;
            held.end_um = p.end_um;
            held.decides_at = held.passages.size();
        }
        if (decides) held.deepest_um = std::max(held.deepest_um, p.deepest_um);
        held.passages.push_back(p);
    };
    for (const auto* row : limits_of(hide.tannage_key)) {
        const bool upper = row->side == "upper";
        Passage p;
        if (row->quantity == "pore") p = through_depth(e, hide.ph, hide.grain_um, row->limit_ph, upper);
        else if (row->quantity == "surface") {
            p.reached = e.surface_ph.back();
            p.passed = upper ? as_read(p.reached) > row->limit_ph : as_read(p.reached) < row->limit_ph;
        } else {
            p.reached = after.ph;
            p.passed = after.ph < row->limit_ph && before.ph >= row->limit_ph;
            if (p.passed) p.grade = Grade::Deep;
        }
        count(p, row->decides == "yes");
    }
    Passage difference;
    difference.reached = after.difference;
    difference.passed = free_acid(after) && !free_acid(before);
    if (difference.passed) difference.grade = Grade::Deep;
    count(difference, true);
    return held;
}

Result<Extracts> extracts(const leather::Hide& hide, const treatment::Exposure& e) {
    // Without the extract's own acids the shift is the farthest it can be; both limits lie below pH 4.
    static const double near_ph = leather::en13336().difference_below_ph + 0.5;
    const double acid_mol_kg = e.left_mol_m2 / e.dry_kg_m2, held = diffusion::bound_alkali(hide.sites, hide.ph);
    leather::Extract untouched;
    untouched.ph = hide.ph;
    if (acid_mol_kg >= 0 || diffusion::bound_alkali(hide.sites, near_ph) < held + acid_mol_kg) return Extracts{untouched, untouched};
    HW_TRY(before, leather::extract(hide, 0));
    HW_TRY(after, leather::extract(hide, e.taken_up_mol_kg, e.carried_mol_kg));
    return Extracts{before, after};
}

Result<Assessment> assess(const chem::Totals& liquid, const leather::Hide& hide, const treatment::Story& story) {
    Assessment a;
    HW_TRY(exposure, treatment::exposure(liquid, hide, story));
    a.exposure = exposure;
    a.hide = hide;
    HW_TRY(before, leather::extract(hide, 0));
    HW_TRY(after, leather::extract(hide, exposure.taken_up_mol_kg, exposure.carried_mol_kg));
    a.before = before;
    a.after = after;
    const Held held = held_against_limits(exposure, hide, before, after);
    a.grade = held.grade;
    a.deepest_um = held.deepest_um;
    a.end_um = held.end_um;
    a.decides_at = held.decides_at;
    const auto rows = limits_of(hide.tannage_key);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& row = *rows[i];
        const Passage& p = held.passages[i];
        LimitCheck c;
        c.name = std::string(row.plain_name);
        c.upper = row.side == "upper";
        c.decides = row.decides == "yes";
        c.limit = number(row.limit_ph, 0, "pH", standing_of(row.standing), "as stated");
        c.basis = basis_of(row, std::string(hide.tannage_name) + ", start pH " + fixed(hide.ph, 1));
        c.passed = p.passed;
        c.deepest_um = p.deepest_um;
        c.longest_s = p.longest_s;
        c.reached = number(p.reached, 0.2, "pH", Standing::Derived, "estimate of the hide's buffering");
        if (row.quantity == "pore") c.quantity = c.upper ? "highest pH inside the leather" : "lowest pH inside the leather";
        else if (row.quantity == "surface") {
            c.quantity = "surface reading at the end";
            const double start = exposure.surface_ph.front();
            if ((c.upper ? start > row.limit_ph : start < row.limit_ph) && std::abs(p.reached - start) < 0.1) c.basis.inputs += "; it lay beyond this before";
        } else c.quantity = "extract of the whole leather";
        a.limits.push_back(std::move(c));
    }
    LimitCheck difference;
    difference.name = "Difference figure of the extract, when it lies below pH 4";
    difference.quantity = "difference figure";
    difference.limit = number(leather::en13336().most_difference, 0, "pH", Standing::Published, "as stated");
    difference.reached = number(after.difference, 0.1, "pH", Standing::Estimate, "estimate of the leather's soluble acids");
    difference.decides = true;
    difference.passed = held.passages.back().passed;
    const auto& row = threshold("en13336_difference");
    difference.basis = {"Upholstery leather: a difference figure above " + fixed(row.limit_ph, 1) + " means free strong acid", std::string(row.source), std::string(row.locator), standing_of(row.standing), "extract pH " + fixed(after.ph, 1)};
    a.limits.push_back(difference);
    return a;
}

const LimitCheck* past_before(const Assessment& a) {
    for (const auto& l : a.limits) {
        const double start = l.quantity == "extract of the whole leather" ? a.before.ph : a.hide.ph;
        if (l.decides && l.limit.unit == "pH" && l.quantity != "difference figure" && (l.upper ? start > l.limit.value : start < l.limit.value)) return &l;
    }
    return nullptr;
}

Profile profile_of(const treatment::Exposure& e) {
    Profile p;
    for (std::size_t l = 0; l < e.layers.size(); ++l) {
        Layer layer{e.layers[l].name, 1e300, 0};
        for (std::size_t i = 0; i < e.section.top_m.size(); ++i)
            if (e.section.layer_of[i] == static_cast<int>(l)) {
                layer.top_um = std::min(layer.top_um, e.section.top_m[i] * 1e6);
                layer.bottom_um = std::max(layer.bottom_um, e.section.bottom_m[i] * 1e6);
            }
        p.layers.push_back(layer);
    }
    for (std::size_t i = 0; i < e.section.top_m.size(); ++i) p.depth_um.push_back((e.section.top_m[i] + e.section.bottom_m[i]) / 2 * 1e6);
    for (std::size_t k = 0; k < e.section.snapshots.size(); ++k) {
        const auto& s = e.section.snapshots[k];
        p.time_s.push_back(s.at_s);
        p.ph.push_back(e.ph[k]);
        p.alkali_mol_kg.push_back(s.bound_mol_kg);
        std::vector<double> water;
        for (std::size_t i = 0; i < s.liquid_kg_m3.size(); ++i) {
            const double dry = e.layers[static_cast<std::size_t>(e.section.layer_of[i])].dry_density_kg_m3;
            // A finish film has no fibres to count against; its water is given per litre of film.
            water.push_back(100 * s.liquid_kg_m3[i] / (dry > 0 ? dry : 1000));
        }
        p.water_pct.push_back(water);
        const bool film = s.film_kg_m2 > treatment::film_gone_kg_m2;
        p.film_ph.push_back(film ? e.film_ph[k] : std::numeric_limits<double>::quiet_NaN());
        p.film_um.push_back(s.film_kg_m2 * 1000);
        p.surface_reading_ph.push_back(e.surface_ph[k]);
    }
    for (const auto& event : e.section.events) p.events.push_back({event.at_s, event.name});
    for (std::size_t k = 1; k < p.film_um.size(); ++k)
        if (std::isnan(p.film_ph[k]) && !std::isnan(p.film_ph[k - 1])) { p.events.push_back({p.time_s[k], "dry"}); break; }
    if (p.time_s.back() > 86400) p.events.push_back({86400, "next day"});
    std::stable_sort(p.events.begin(), p.events.end(), [](const Event& x, const Event& y) { return x.at_s < y.at_s; });
    p.mass_balance_error_1 = e.section.ledger.worst_balance_1;
    return p;
}

Balance balance_of(const Assessment& a) {
    const auto& e = a.exposure;
    Balance b;
    b.alkali = e.applied_mol_m2 >= 0;
    // The nearest limit that still lies ahead; else the one passed last, to which nothing is left.
    std::optional<double> ahead, passed;
    for (const auto& l : a.limits) {
        if (!l.decides || l.upper != b.alkali || l.quantity.find("inside") == std::string::npos) continue;
        const double limit = l.limit.value;
        const bool lies_ahead = b.alkali ? limit > a.hide.ph : limit < a.hide.ph;
        std::optional<double>& best = lies_ahead ? ahead : passed;
        if (!best || ((limit < *best) == (lies_ahead == b.alkali))) best = limit;
    }
    b.limit_ph = ahead.value_or(passed.value_or(b.alkali ? 14 : 0));
    const double per_kg = std::max(0.0, (b.alkali ? 1 : -1) * leather::alkali_between(a.hide, a.hide.ph, b.limit_ph));
    const double grain_kg = a.hide.dry_density_kg_m3 * a.hide.grain_um * 1e-6, corium_kg = e.dry_kg_m2 - grain_kg;
    // Less than the smallest amount moves the top 50 µm of leather by 0.01 pH: no meter sees it.
    auto mmol = [](double mol, double share, const char* why) { return number(1000 * mol, std::max(least_mmol_m2, 1000 * std::abs(mol) * share), "mmol/m²", Standing::Derived, why); };
    b.applied = mmol(std::abs(e.applied_mol_m2), 0.3, "amount laid on");
    b.left = mmol(std::abs(e.left_mol_m2), 0.4, "amount laid on and share wiped off");
    b.takes_finish = number(0, 0, "mmol/m²", Standing::Estimate, "a film is taken to bind none");
    b.takes_grain = mmol(grain_kg * per_kg, 0.3, "estimate of the hide's buffering");
    b.takes_corium = mmol(corium_kg * per_kg, 0.3, "estimate of the hide's buffering");
    return b;
}

}  // namespace hw::desk
