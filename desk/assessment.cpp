#include "desk/assessment.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/leather_limits.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr double film_gone_kg_m2 = 1e-3;  // a thousandth of a millimetre: dry to the touch

Basis basis_of(const atlas::LeatherLimitsRow& row, const std::string& inputs) {
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), inputs};
}

/// How a pore limit was passed over depth and time. Depth counts from the top of the leather, below the finish.
void follow(const treatment::Exposure& e, double start_ph, LimitCheck& check, double& deepest_end_um, double& deepest_lasting_um) {
    const auto& s = e.section;
    deepest_end_um = deepest_lasting_um = 0;
    const double limit = check.limit.value;
    // A hide that lies at or beyond the limit already passes it only by going further than can be seen.
    const double seen = threshold("seen").limit_ph, line = check.upper ? std::max(limit, start_ph + seen) : std::min(limit, start_ph - seen);
    double extreme = start_ph;
    const double lasting_s = threshold("lasting").limit_s;
    for (std::size_t i = 0; i < s.top_m.size(); ++i) {
        if (e.layers[static_cast<std::size_t>(s.layer_of[i])].finish) continue;
        double lasted = 0, longest = 0, before = 0;
        const double bottom = s.bottom_m[i] * 1e6 - e.finish_um;
        for (std::size_t k = 0; k < e.ph.size(); ++k) {
            const double ph = e.ph[k][i];
            extreme = check.upper ? std::max(extreme, ph) : std::min(extreme, ph);
            const double past = check.upper ? ph - line : line - ph, step = k > 0 ? s.snapshots[k].at_s - s.snapshots[k - 1].at_s : 0;
            // Straight between the moments that are kept: the crossing itself counts, not the moment after it.
            if (past > 0) lasted += before > 0 ? step : step * past / (past - before);
            else if (before > 0) lasted += step * before / (before - past);
            longest = std::max(longest, lasted);
            before = past;
            if (past <= 0) { lasted = 0; continue; }
            check.passed = true;
            check.deepest_um = std::max(check.deepest_um, bottom);
            if (k + 1 == e.ph.size()) deepest_end_um = std::max(deepest_end_um, bottom);
        }
        check.longest_s = std::max(check.longest_s, longest);
        if (longest > lasting_s) deepest_lasting_um = std::max(deepest_lasting_um, bottom);
    }
    check.reached = number(extreme, 0.2, "pH", Standing::Derived, "estimate of the hide's buffering");
}

}  // namespace

Variant gentle_of(const GramsPer& per) {
    return {per.low_g / per.amount_g * case_shift("area").gentle_1, case_shift("wiped_left").gentle_1, case_shift("finish").gentle_1, case_shift("buffering").gentle_1, 0};
}

Variant harsh_of(const GramsPer& per) {
    return {per.high_g / per.amount_g * case_shift("area").harsh_1, case_shift("wiped_left").harsh_1, case_shift("finish").harsh_1, case_shift("buffering").harsh_1, 0};
}

std::string in_words(const Variant& v) {
    const auto part = [](double factor) { return fixed(std::abs(100 * (factor - 1)), 0) + (factor < 1 ? " % less" : " % more"); };
    const bool open = v.permeability > 1;
    return part(v.dose) + " laid on, " + part(v.wiped_kept) + " left by the cloth, finish " + fixed(open ? v.permeability : 1 / v.permeability, 0) + " times " + (open ? "more open" : "tighter") + ", hide buffers " + part(v.buffering);
}

Result<Assessment> assess(const chem::Totals& liquid, const Leather& leather, treatment::Story story, const Variant& v) {
    Assessment a;
    HW_TRY(hide, leather::hide(leather.leather_class, leather.tannage,
                               {leather.thickness_mm, leather.finish_um, leather.surface_ph, leather.extract_ph, leather.shrinkage_c}));
    hide.ph += v.ph_shift;
    hide.sites = leather::binding_sites(hide.tannage_key, v.buffering);
    story.dose_kg_m2 *= v.dose;
    story.wiped_1 = std::clamp(1 - (1 - story.wiped_1) * v.wiped_kept, 0.0, 0.99);
    story.permeability_1 *= v.permeability;
    HW_TRY(exposure, treatment::exposure(liquid, hide, story));
    a.exposure = exposure;
    a.hide = hide;
    HW_TRY(before, leather::extract(hide, 0));
    HW_TRY(after, leather::extract(hide, exposure.taken_up_mol_kg, exposure.carried_mol_kg));
    a.before = before;
    a.after = after;

    const double surface_end = exposure.surface_ph.back();
    std::size_t worst = Assessment::npos;
    for (const auto& row : atlas::leather_limits) {
        if (row.tannage != "any" && row.tannage != hide.tannage_key) continue;
        LimitCheck c;
        c.name = std::string(row.plain_name);
        c.upper = row.side == "upper";
        c.decides = row.decides == "yes";
        c.limit = number(row.limit_ph, 0, "pH", standing_of(row.standing), "as stated");
        c.basis = basis_of(row, std::string(hide.tannage_name) + ", start pH " + fixed(hide.ph, 1));
        Grade grade = Grade::StaysWithin;
        double end_um = 0;
        if (row.quantity == "pore") {
            c.quantity = c.upper ? "highest pH inside the leather" : "lowest pH inside the leather";
            double lasting_um = 0;
            follow(exposure, hide.ph, c, end_um, lasting_um);
            if (c.passed) {
                const double stays = std::max(end_um, lasting_um);
                grade = stays <= 0 ? Grade::ComesBack : stays > hide.grain_um ? Grade::Deep : Grade::Lasting;
                if (c.decides) a.deepest_um = std::max(a.deepest_um, c.deepest_um);
            }
        } else if (row.quantity == "surface") {
            c.quantity = "surface reading at the end";
            c.reached = number(surface_end, 0.3, "pH", Standing::Derived, "estimate of the hide's buffering and of the drop");
            const bool before_beyond = c.upper ? exposure.surface_ph.front() > row.limit_ph : exposure.surface_ph.front() < row.limit_ph;
            const double read = std::round(surface_end * 10) / 10;  // a surface reading is given to a tenth
            c.passed = c.upper ? read > row.limit_ph : read < row.limit_ph;
            if (before_beyond && std::abs(surface_end - exposure.surface_ph.front()) < 0.1) c.basis.inputs += "; it lay beyond this before";
        } else {
            c.quantity = "extract of the whole leather";
            c.reached = number(after.ph, 0.2, "pH", Standing::Derived, "estimate of the hide's buffering");
            c.passed = after.ph < row.limit_ph && before.ph >= row.limit_ph;
            if (c.passed) grade = Grade::Deep;
        }
        // Of limits that give the same grade, the one passed deepest decides.
        const bool deeper = worst != Assessment::npos && grade == a.grade && c.deepest_um > a.limits[worst].deepest_um;
        if (c.decides && (grade > a.grade || deeper)) {
            a.grade = grade;
            a.end_um = end_um;
            worst = a.limits.size();
        }
        a.limits.push_back(std::move(c));
    }
    LimitCheck difference;
    difference.name = "Difference figure of the extract, when it lies below pH 4";
    difference.quantity = "difference figure";
    const leather::En13336 en = leather::en13336();
    difference.limit = number(en.most_difference, 0, "pH", Standing::Published, "as stated");
    difference.reached = number(after.difference, 0.1, "pH", Standing::Estimate, "estimate of the leather's soluble acids");
    difference.decides = true;
    const auto free_acid = [&](const leather::Extract& x) { return x.ph < en.difference_below_ph && x.difference > en.most_difference; };
    difference.passed = free_acid(after) && !free_acid(before);
    difference.basis = {"Upholstery leather: a difference figure above 0.7 means free strong acid", "eu2016_1332", "Appendix II, EN 13336", Standing::Published, "extract pH " + fixed(after.ph, 1)};
    if (difference.passed && a.grade < Grade::Deep) {
        a.grade = Grade::Deep;
        a.end_um = 0;
        worst = a.limits.size();
    }
    a.limits.push_back(difference);
    a.decides_at = worst;
    return a;
}

const LimitCheck* past_before(const Assessment& a) {
    for (const auto& l : a.limits) {
        const double start = l.quantity == "extract of the whole leather" ? a.before.ph : a.hide.ph;
        if (l.decides && l.limit.unit == "pH" && l.quantity != "difference figure" && (l.upper ? start > l.limit.value : start < l.limit.value)) return &l;
    }
    return nullptr;
}

Profile profile_of(const Assessment& a) {
    const auto& e = a.exposure;
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
        const bool film = s.film_kg_m2 > film_gone_kg_m2;
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
