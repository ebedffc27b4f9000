#include "desk/spot_liquid.hpp"

#include <algorithm>
#include <map>

#include "atlas/spot_rungs.hpp"
#include "atlas/spot_solvents.hpp"
#include "atlas/spot_waits.hpp"
#include "atlas/substances.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/treatment/dry.hpp"
#include "desk/cautions.hpp"
#include "desk/liquids.hpp"
#include "desk/rows.hpp"
#include "desk/rules.hpp"
#include "desk/unknowns.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool in_list(std::string_view list, std::string_view word) {
    while (!list.empty()) {
        const auto cut = list.find(';');
        if (list.substr(0, cut) == word) return true;
        list = cut == std::string_view::npos ? std::string_view{} : list.substr(cut + 1);
    }
    return false;
}

/// Per cent of the liquid that are solvents of each rung.
std::map<std::string, double, std::less<>> solvents_of(const chem::Totals& t) {
    std::map<std::string, double, std::less<>> out;
    for (const auto& r : t.recognised)
        for (const auto& row : atlas::spot_solvents)
            if (row.substance == atlas::substances[r.row].name) out[std::string(row.rung)] += r.content_pct;
    return out;
}

}  // namespace

const atlas::SpotRulesRow& spot_rule(std::string_view key) { return row_of(atlas::spot_rules, key); }

Result<Strength> strength_of(const Liquid& liquid, double parts_water, SpotPurpose purpose) {
    const Temperature room = Temperature::celsius(20);
    HW_TRY(recipe, reconciled(liquid, room));
    const chem::Totals t = chem::diluted(recipe.neat, parts_water, 0);
    Strength s;
    const auto solvents = solvents_of(t);
    for (const auto& [rung, pct] : solvents) s.solvent_pct += pct;
    if (!(t.organic_pct > threshold("no_ph_in_alcohol").limit_pct)) {
        chem::Conditions c;
        c.water = room;
        HW_TRY(e, chem::equilibrium(t, c));
        s.ph = e.ph;
    }
    const double share = spot_rule("solvent_share").limit_pct;
    const auto holds = [&](std::string_view rung) {
        const auto it = solvents.find(rung);
        return it != solvents.end() && it->second >= share;
    };
    const bool nothing = liquid.ingredients.empty() && t.unknown_pct == 0 && !nothing_known(liquid);
    const bool blind = !liquid.label_known || recipe.neat.unknown_pct > threshold("unknown_share").limit_pct || nothing_known(liquid);
    const bool bleaches = oxidiser_in(liquid, t, parts_water).has_value();
    std::string rung = "stronger", figures = s.ph ? "pH " + fixed(*s.ph, 1) + " as used" : "no pH to state in so much solvent";
    if (s.solvent_pct > 0) figures += ", solvents " + fixed(s.solvent_pct, s.solvent_pct < 1 ? 1 : 0) + " %";
    const bool clean = std::all_of(t.recognised.begin(), t.recognised.end(), [](const chem::Recognised& r) { return atlas::substances[r.row].system == "carbonate"; });
    if (bleaches) rung = "bleach";
    else if (blind) rung = "not_known", figures = liquid.label_known ? fixed(recipe.neat.unknown_pct, 0) + " % not known" : "no label";
    else if (holds("ester_ketone")) rung = "ester_ketone";
    else if (holds("hydrocarbon")) rung = "hydrocarbon";
    else if (holds("alcohol")) rung = "alcohol";
    else if ((nothing || clean) && recipe.builder.empty() && recipe.neat.unknown_pct == 0) rung = "water";
    else if (s.ph && *s.ph >= spot_rule("mild_from").limit_ph && *s.ph <= spot_rule("mild_to").limit_ph) rung = "mild";
    const auto& row = row_of(atlas::spot_rungs, rung);
    s.rung = rung;
    s.name = std::string(row.plain_name);
    s.step = static_cast<int>(row.step_n);
    s.why = std::string(row.why) + " (" + figures + ")";
    s.basis = {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), figures};
    if (bleaches) s.natures.emplace_back("bleach");
    if (holds("ester_ketone") || holds("hydrocarbon") || holds("alcohol")) s.natures.emplace_back("solvent");
    if (s.ph && *s.ph >= spot_rule("alkali_from").limit_ph) s.natures.emplace_back("alkali");
    if (purpose == SpotPurpose::Neutralise || (s.ph && *s.ph < spot_rule("mild_from").limit_ph && rung != "water")) s.natures.emplace_back("acid");
    if (purpose == SpotPurpose::Feed) s.natures.emplace_back("conditioner");
    if (purpose == SpotPurpose::Coat) s.natures.emplace_back("coat");
    // What is not known may be any of them: the wait of the slowest cleaner.
    if (blind) s.natures.insert(s.natures.end(), {"solvent", "alkali", "acid"});
    return s;
}

Result<SpotDry> dry_of(const leather::Hide& hide, double g_m2, double dwell_s, const SpotAir& air) {
    treatment::Story story;
    story.dose_kg_m2 = g_m2 / 1000;
    story.dwell_s = std::max(1.0, dwell_s);
    story.wiped_1 = 0;  // what the blotting takes makes it sooner
    story.air = Temperature::celsius(air.air_c);
    story.humidity_1 = air.humidity_pct / 100;
    story.air_speed_m_s = air.air_speed_m_s;
    story.rest_s = spot_rule("longest_wait").limit_h * 3600;
    // So much water that what the room air itself may bring or take hides it.
    constexpr double ordinary_1 = 0.5;
    const double above_kg_kg = leather::ambient_water_kg_kg(ordinary_1 + spot_rule("dry_left").limit_pct / 100) - leather::ambient_water_kg_kg(ordinary_1);
    HW_TRY(dry, treatment::dry(hide, story, above_kg_kg));
    SpotDry out;
    out.touch_h = dry.touch_s / 3600;
    if (dry.in_time) out.through_h = dry.through_s / 3600;
    return out;
}

SpotWait wait_of(const Strength& strength, std::string_view leather_class, std::optional<double> through_h) {
    SpotWait w;
    std::vector<const atlas::SpotWaitsRow*> rows;
    for (const auto& row : atlas::spot_waits) {
        const bool applies = row.goes_by == "class" ? in_list(row.holds_for, leather_class)
                                                    : std::any_of(strength.natures.begin(), strength.natures.end(), [&](const std::string& n) { return in_list(row.holds_for, n); });
        if (!applies) continue;
        rows.push_back(&row);
        w.judge_h = std::max(w.judge_h, row.judge_h);
        w.again_h = std::max(w.again_h, row.again_h);
        w.tack_again = w.tack_again || row.key == "solvent";
    }
    const double custom_h = w.judge_h;
    w.judge_h = std::max(custom_h, through_h.value_or(0));
    for (const auto* row : rows) {
        std::vector<std::string> when;
        if (row->judge_h > 0) when.push_back("not before " + span(3600 * row->judge_h));
        if (row->again_h > 0) when.push_back("again after " + span(3600 * row->again_h));
        w.reasons.push_back({std::string(row->key), std::string(row->plain_name) + ": " + listed(when) + ". " + std::string(row->reason), row->judge_h >= w.judge_h ? "decides" : "adds",
                             {std::string(row->plain_name) + ": " + listed(when), std::string(row->source), std::string(row->locator), standing_of(row->standing), std::string(leather_class)}});
    }
    if (through_h)
        w.reasons.push_back({"computed", "Computed for this leather, amount and air: dry through after " + span(3600 * *through_h) + (*through_h > custom_h ? ", later than custom has it." : "; custom waits longer."), *through_h > custom_h ? "decides" : "adds",
                             {std::string(spot_rule("dry_left").plain_name), "own", "docs/theory/spots.md", Standing::Derived, "solved in depth, " + fixed(spot_rule("dry_left").limit_pct, 0) + " % of humidity"}});
    // What is dry only then was read late enough.
    if (w.again_h <= w.judge_h) w.again_h = 0, w.tack_again = false;
    std::stable_sort(w.reasons.begin(), w.reasons.end(), [](const Reason& a, const Reason& b) { return (a.weight == "decides") > (b.weight == "decides"); });
    return w;
}

}  // namespace hw::desk
