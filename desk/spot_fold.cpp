#include "desk/spot_fold.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/leather_classes.hpp"
#include "atlas/spot_places.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/rows.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr double hour_s = 3600;

std::string at_words(std::int64_t seconds) { return moment_words(moment(seconds)) + " UTC"; }

/// Whole minutes up: nobody is told a second too early.
std::int64_t later(std::int64_t from_s, double hours) {
    constexpr double minute_s = 60;
    return from_s + static_cast<std::int64_t>(std::ceil(hours * hour_s / minute_s) * minute_s);
}

std::string still(std::int64_t seconds) { return span(static_cast<double>(std::max<std::int64_t>(seconds, 60))); }

void add_reads(SpotNow& s, const std::vector<KeptEntry>& entries, const std::vector<EntryState>& states, std::int64_t dry_s, std::int64_t again_s) {
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& e = entries[i].entry;
        if (states[i] != EntryState::Stands || !e.spot_read || e.spot_read->spot != s.entry) continue;
        const std::int64_t read_s = parse_moment(e.at).value_or(0);
        SpotTime time;
        time.dry = e.spot_read->stage == SpotStage::Dry && read_s >= dry_s;
        time.tack_counts = !s.wait.tack_again || read_s >= again_s;
        time.why_not = e.spot_read->stage == SpotStage::Wet ? "It was read wet, and a spot is judged dry only." : "It was read too soon, and a spot is judged dry only: from " + at_words(dry_s) + " on.";
        s.reads.push_back({e.id, e.at, e.by, e.spot_read->stage, verdict_of(e.spot_read->signs, time), e.spot_read->photos});
    }
    std::stable_sort(s.reads.begin(), s.reads.end(), [](const SpotReadNow& a, const SpotReadNow& b) { return parse_moment(a.at) < parse_moment(b.at); });
}

void settle(SpotNow& s, std::int64_t dry_s, std::int64_t again_s, std::int64_t now_s) {
    bool judged = false, again = s.again_at.empty();
    std::string said, open;
    SpotMark worst = SpotMark::Pass;
    for (const auto& r : s.reads) {
        if (r.verdict.mark == SpotMark::NotJudged) {
            open = r.verdict.sentence;
            continue;
        }
        open.clear();
        judged = true;
        again = again || parse_moment(r.at).value_or(0) >= again_s;
        if (said.empty() || worse_of(worst, r.verdict.mark) == r.verdict.mark) said = r.verdict.sentence;
        worst = worse_of(worst, r.verdict.mark);
    }
    if (judged) s.mark = worst;
    if (judged && (again || worst == SpotMark::Fail)) {
        s.state = SpotState::Finished;
        s.sentence = said;
    } else if (judged) {
        s.state = now_s >= again_s ? SpotState::ReadAgainNow : SpotState::WaitsAgain;
        s.sentence = said + (now_s >= again_s ? " Read it again now: this is not the last word." : " Not the last word: read it again from " + at_words(again_s) + " on, in " + still(again_s - now_s) + ".");
    } else if (now_s >= dry_s) {
        s.state = SpotState::ReadNow;
        s.sentence = "Dry: read it now." + (open.empty() ? "" : " " + open);
    } else {
        s.state = SpotState::Drying;
        s.sentence = "Drying. Read it dry from " + at_words(dry_s) + " on, in " + still(dry_s - now_s) + "." + (open.empty() ? "" : " " + open);
    }
}

}  // namespace

bool same_product(const SpotNow& spot, const Liquid& liquid, double parts_water) { return spot.parts_water == parts_water && same_liquid(spot, liquid); }

bool same_liquid(const SpotNow& spot, const Liquid& liquid) {
    if (spot.kind != SpotKind::Product) return false;
    return liquid.id.empty() || spot.liquid_id.empty() ? spot.product == liquid.name : spot.liquid_id == liquid.id;
}

Liquid control_water() {
    Liquid water;
    water.name = "clean water";
    water.family = "water";
    water.standing = Standing::Derived;
    return water;
}

Result<std::vector<SpotNow>> spots_now(const std::vector<KeptEntry>& entries, const std::vector<EntryState>& states, const std::vector<PanelNow>& panels, std::int64_t now_s) {
    std::vector<SpotNow> out;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& e = entries[i].entry;
        if (states[i] != EntryState::Stands || !e.spot_made) continue;
        const SpotMade& m = *e.spot_made;
        SpotNow s;
        s.entry = e.id;
        s.panel = s.panel_name = m.panel;
        for (const auto& p : panels)
            if (p.code == m.panel) s.panel_name = p.name, s.zone = p.zone, s.leather_class = p.leather.leather_class;
        s.place = name_in(atlas::spot_places, m.place);
        s.where = m.where;
        s.kind = m.kind;
        const Liquid liquid = m.kind == SpotKind::Product ? m.liquid : control_water();
        s.liquid_id = liquid.id;
        s.product = m.kind == SpotKind::Untouched ? "left alone" : liquid.name;
        s.family = liquid.family;
        s.parts_water = m.parts_water;
        s.purpose = m.purpose;
        s.lot = m.lot;
        s.g_m2 = m.g_m2;
        s.at = e.at;
        s.by = e.by;
        if (m.kind == SpotKind::Untouched) {
            s.state = SpotState::Finished;
            s.sentence = "Left alone: what the spots beside it are compared with.";
            out.push_back(std::move(s));
            continue;
        }
        HW_TRY(strength, strength_of(liquid, m.parts_water, m.purpose));
        s.wait = wait_of(strength, s.leather_class, m.dry_h);
        const std::int64_t made_s = parse_moment(e.at).value_or(now_s), dry_s = later(made_s, s.wait.judge_h), again_s = later(made_s, s.wait.again_h);
        s.dry_at = moment(dry_s);
        if (s.wait.again_h > 0) s.again_at = moment(again_s);
        add_reads(s, entries, states, dry_s, again_s);
        settle(s, dry_s, again_s, now_s);
        out.push_back(std::move(s));
    }
    std::stable_sort(out.begin(), out.end(), [](const SpotNow& a, const SpotNow& b) { return parse_moment(a.at) < parse_moment(b.at); });
    return out;
}

Result<SpotMade> made_ready(const SpotMade& told, const InspectAnswer& piece, Ports& ports) {
    SpotMade out = told;
    if (told.kind == SpotKind::Product) {
        auto whole = resolved(told.liquid, ports.store);
        if (!whole.ok()) return Error{whole.error().code, whole.error().message, "spot_made." + whole.error().where};
        out.liquid = std::move(*whole);
        if (const auto stop = meeting_stop(out.liquid, {}, ports.store)) return Error{ErrorCode::Conflict, "No spot of it: " + stop->headline, "spot_made.liquid"};
    }
    const auto panel = std::find_if(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == told.panel; });
    if (panel == piece.panels.end()) return out;  // a panel that the drawing no longer has
    if (told.where == SpotWhere::Edge) {
        const bool passed = std::any_of(piece.spots.begin(), piece.spots.end(), [&](const SpotNow& s) {
            return same_product(s, out.liquid, out.parts_water) && s.zone == panel->zone && s.where == SpotWhere::Hidden && s.state == SpotState::Finished && s.mark != SpotMark::Fail;
        });
        if (!passed) return Error{ErrorCode::Conflict, "First a hidden spot of it on this class of panels, read dry to the end. Then one at the edge of the damage.", "spot_made.where"};
    }
    if (find_row(atlas::leather_classes, panel->leather.leather_class) == nullptr || told.kind == SpotKind::Untouched) return out;
    const Leather& l = panel->leather;
    auto hide = leather::hide(l.leather_class, l.tannage.empty() ? "unknown" : l.tannage, {l.thickness_mm, l.finish_um, l.surface_ph, l.extract_ph, l.shrinkage_c});
    if (!hide.ok()) return out;
    // A spot that cannot be computed waits as custom has it.
    if (const auto dry = dry_of(*hide, told.g_m2, told.dwell_s, told.air); dry.ok()) out.dry_h = dry->through_h.value_or(spot_rule("longest_wait").limit_h);
    return out;
}

}  // namespace hw::desk
