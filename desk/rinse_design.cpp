#include "desk/rinse_design.hpp"

#include <algorithm>
#include <cmath>

#include "core/belief/summary.hpp"
#include "desk/liquids.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// By its family; with a rinse that nobody knows the composition of nothing can be planned.
bool is_meant_as_rinse(const Liquid& l) { return l.family == "water" || ((l.family == "rinse" || l.family == "acid rinse") && !l.ingredients.empty()); }

std::string why(const treatment::Refusal& r) {
    const std::string what = r.what.empty() ? "" : " (" + r.what + ")";
    if (r.key == "complexes_tannage") return "it pulls at the chromium that tans this leather" + what;
    if (r.key == "too_acid") return "at pH " + fixed(r.value, 1) + " it is more acid than this leather may be, pH " + fixed(r.limit, 1);
    if (r.key == "free_strong_acid") return "it is a strong acid: its difference figure is " + fixed(r.value, 2);
    if (r.key == "too_alkaline") return "at pH " + fixed(r.value, 1) + " it brings alkali";
    if (r.key == "not_labelled") return "nobody knows what it holds";
    if (r.key == "unknown_parts") return fixed(r.value, 1) + " % of it is not known" + what;
    if (r.key == "leaves_residue") return "it leaves behind what a rinse is there to take away" + what;
    if (r.key == "solvent") return "it holds solvent" + what;
    return "it holds " + std::string(r.key) + what;
}

Reason reason_of(const ShelfRinse& s, const treatment::Refusal& r) {
    return {std::string(r.key), s.liquid.name + " is no rinse here: " + why(r) + ".", "note",
            {std::string(r.plain_name), std::string(r.source), std::string(r.locator), standing_of(r.standing), s.liquid.name}};
}

Result<ShelfRinse> as_rinse(const Liquid& liquid, const leather::Hide& hide, const std::vector<OnPiece>& on_piece, const Moisture& moisture, Temperature air) {
    ShelfRinse out;
    out.liquid = liquid;
    HW_TRY(totals, totals_of(liquid));
    out.totals = totals;
    out.water = liquid.family == "water";
    chem::Conditions c;
    c.water = air;
    HW_TRY(e, chem::equilibrium(totals, c));
    out.ph = e.ph;
    out.ionic_strength_mol_kg = e.ionic_strength_mol_kg;
    HW_TRY(difference, treatment::difference_figure(totals, c));
    out.difference_figure = difference;
    HW_TRY(refusals, treatment::why_not(totals, hide, {moisture.pass_g_m2 / 1000, liquid.label_known, air}));
    for (const auto& r : refusals) out.refused.push_back(reason_of(out, r));
    for (const auto& h : what_may_not_meet(on_piece, liquid)) {
        if (h.severity != chem::Severity::Stop) continue;
        const Stop stop = stop_from(h);
        out.refused.insert(out.refused.begin(), {"may_not_meet", liquid.name + " must not come onto this piece: " + stop.headline, "caution", stop.basis});
    }
    return out;
}

}  // namespace

double told_share(double share_1, std::size_t members) {
    const auto n = static_cast<double>(members);
    return (share_1 * n + 1) / (n + 2);
}

Result<std::vector<ShelfRinse>> shelf_rinses(const std::vector<std::string>& ids, const leather::Hide& hide, const std::vector<OnPiece>& on_piece, const Moisture& moisture, Temperature air, Store& store) {
    std::vector<Liquid> liquids;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        const std::string where = "rinses[" + std::to_string(i) + "]";
        auto one = store.liquid(ids[i]);
        if (!one.ok()) return Error{one.error().code, one.error().message, where};
        if (one->ingredients.empty() && one->family != "water")
            return Error{ErrorCode::InvalidInput, "Nobody can plan with a rinse whose composition is not given. Enter what \"" + one->name + "\" holds, or leave it out.", where};
        liquids.push_back(std::move(*one));
    }
    std::string after;
    for (bool more = ids.empty(); more;) {
        constexpr int at_a_time = 200;
        HW_TRY(page, store.liquids({after, at_a_time}));
        for (const auto& l : page)
            if (is_meant_as_rinse(l)) liquids.push_back(l);
        more = page.size() == static_cast<std::size_t>(at_a_time);
        if (more) after = page.back().id;
    }
    std::vector<ShelfRinse> out;
    for (const auto& l : liquids) {
        auto one = as_rinse(l, hide, on_piece, moisture, air);
        if (!one.ok()) return Error{one.error().code, one.error().message, "rinses"};
        out.push_back(std::move(*one));
    }
    return out;
}

Design design_of(const ShelfRinse& rinse, int a_day, int days, double g_m2, double dwell_s, double blotted_1, double first_wait_s, double area_m2) {
    static const double between_s = 60 * plan_rule("between_passes").limit_min, rest_s = 3600 * plan_rule("rest").limit_h;
    Design d;
    d.rinse = &rinse;
    d.a_day = a_day;
    d.days = days;
    d.g_m2 = g_m2;
    d.dwell_s = dwell_s;
    d.blotted_1 = blotted_1;
    d.first_wait_s = first_wait_s;
    Proposal& p = d.proposal;
    p.liquids.push_back(rinse.totals);
    p.ionic_strength_mol_kg = rinse.ionic_strength_mol_kg;
    p.first_wait_s = first_wait_s;
    p.rest_s = rest_s;
    for (int day = 1; day <= days; ++day)
        for (int pass = 1; pass <= a_day; ++pass) {
            const bool last_of_day = pass == a_day, last = last_of_day && day == days;
            p.layings.push_back({0, g_m2 / 1000, dwell_s, blotted_1, "rinsed", "blotted", last ? 0 : last_of_day ? rest_s : between_s, press_s()});
        }
    d.work_min = d.passes() * (plan_rule("pass_work").limit_min + plan_rule("pass_work_m2").limit_min * area_m2 + dwell_s / 60) + days * plan_rule("reading_work").limit_min;
    d.wait_h = p.lasts_s() / 3600;
    return d;
}

namespace {

/// The best of what was looked at.
struct Best {
    std::optional<Design> design;
    double loss_min = 0;
    bool reaches = false;
};

/// Takes a design where it is better. @return share of what it lays on that stays
double weigh_up(const Search& s, Design d, const Followed& f, Best& best) {
    std::vector<double> net;
    for (const auto& m : f.members) net.push_back(m.net_g_m2 / d.days);
    d.day_net_g_m2 = belief::quantiles(net, {0.95})[0];
    const double kept_1 = d.day_net_g_m2 / (d.a_day * d.g_m2);
    if (d.day_net_g_m2 > s.moisture.left_g_m2()) return kept_1;
    // So few members cannot tell a chance as high as may be asked for: all of them but their own doubt is enough here.
    const double wanted = std::min(s.chance_1, told_share(1, f.members.size()));
    const bool reaches = told_share(share_of(f, [](const Under& u) { return u.meets(); }), f.members.size()) >= wanted - 1e-9;
    const double loss = mean_of(losses_of(f, d.work_min, d.wait_h));
    if (!best.design || (reaches != best.reaches ? reaches : loss < best.loss_min)) best = {d, loss, reaches};
    return kept_1;
}

/// A liquid at one amount: passes are added while the moisture of a day bears them.
struct Line {
    const ShelfRinse* rinse = nullptr;
    double g_m2 = 0;
    double kept_1 = 0;                            ///< of what is laid on
};

/// The last laying of each day.
std::vector<std::size_t> days_of(const Design& d) {
    std::vector<std::size_t> out;
    for (int day = 1; day <= d.days; ++day) out.push_back(static_cast<std::size_t>(day * d.a_day - 1));
    return out;
}

}  // namespace

Result<std::optional<Design>> best_design(const Search& s, const std::vector<const ShelfRinse*>& rinses, const std::vector<std::size_t>& members) {
    const std::vector<double> shares = s.quick ? std::vector<double>{0.75} : std::vector<double>{0.5, 1.0};
    const int most_a_day = s.quick ? 3 : 6, most_days = s.quick ? 1 : 3;
    constexpr double usual_dwell_s = 60;
    const auto design = [&](const Line& l, int a_day, int days, double dwell_s) { return design_of(*l.rinse, a_day, days, l.g_m2, dwell_s, s.moisture.blotted_1, s.first_wait_s, s.area_m2); };
    std::vector<Line> lines;
    for (const ShelfRinse* rinse : rinses)
        for (double share : shares) lines.push_back({rinse, share * s.moisture.pass_g_m2, 1 - s.moisture.blotted_1});  // stays as usual, until it has been seen
    Best best;
    for (int a_day = 1; a_day <= most_a_day; ++a_day) {
        lines.erase(std::remove_if(lines.begin(), lines.end(), [&](const Line& l) { return a_day * l.g_m2 * l.kept_1 > s.moisture.left_g_m2(); }), lines.end());
        if (lines.empty()) break;
        // More days begin with the fewer: one story tells all of them.
        std::vector<Candidate> candidates;
        for (const Line& l : lines) {
            const Design longest = design(l, a_day, most_days, usual_dwell_s);
            candidates.push_back({longest.proposal, days_of(longest)});
        }
        HW_TRY(followed, follow_all(s.known, members, candidates, s.aim, s.progress));
        for (std::size_t i = 0; i < lines.size(); ++i)
            for (int days = 1; days <= most_days; ++days) {
                const double kept = weigh_up(s, design(lines[i], a_day, days, usual_dwell_s), followed[i][static_cast<std::size_t>(days - 1)], best);
                if (days == 1) lines[i].kept_1 = kept;
            }
    }
    if (!best.design || s.quick) return best.design;
    // The clock is tuned afterwards.
    const Line found{best.design->rinse, best.design->g_m2, 0};
    std::vector<Design> others;
    std::vector<Candidate> candidates;
    for (double dwell_s : {20.0, 180.0}) {
        others.push_back(design(found, best.design->a_day, best.design->days, dwell_s));
        candidates.push_back({others.back().proposal, {others.back().proposal.layings.size() - 1}});
    }
    HW_TRY(followed, follow_all(s.known, members, candidates, s.aim, s.progress));
    for (std::size_t i = 0; i < others.size(); ++i) weigh_up(s, others[i], followed[i].front(), best);
    return best.design;
}

}  // namespace hw::desk
