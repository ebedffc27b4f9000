#include "desk/advise.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/advice_rules.hpp"
#include "atlas/cause_repairs.hpp"
#include "atlas/owner_wishes.hpp"
#include "atlas/repair_successes.hpp"
#include "atlas/repair_work.hpp"
#include "atlas/work_hours.hpp"
#include "core/belief/successes.hpp"
#include "core/belief/work_hours.hpp"
#include "desk/diagnose_net.hpp"
#include "desk/inspect.hpp"
#include "desk/judge.hpp"
#include "desk/rows.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool has(const std::vector<std::string>& all, std::string_view one) { return std::find(all.begin(), all.end(), one) != all.end(); }

Verdict verdict_of(std::string_view word) {
    for (const auto& [v, name] : EnumNames<Verdict>::names)
        if (name == word) return v;
    throw Bug("no verdict " + std::string(word));
}

/// How far a verdict goes: the piece takes that of the panel that goes furthest.
int reach(Verdict v) {
    switch (v) {
        case Verdict::LeaveAlone: return 0;
        case Verdict::Repairable: return 1;
        case Verdict::RepairWithLimits: return 2;
        case Verdict::WaitAndTest: return 3;
        case Verdict::ReplacePanel: return 4;
        case Verdict::NotRestorable: return 5;
        case Verdict::Refer: return 6;
    }
    return 0;
}

Reason reason_of(std::string_view rule, std::string inputs, std::string more = {}) {
    const auto& row = row_of(atlas::advice_rules, rule);
    return {std::string(row.key), std::string(row.sentence) + (more.empty() ? "" : " " + more), "decides",
            {std::string(row.sentence), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)}};
}

std::string repair_of(std::string_view cause) {
    for (const auto& row : atlas::cause_repairs)
        if (row.cause == cause) return std::string(row.repair);
    throw Bug("no repair for " + std::string(cause));
}

/// Half and eight in ten of such jobs.
struct Hours {
    std::optional<double> half, eighty;
    std::string from;                             ///< typed, or usual ranges; empty: not known
};

/// By the usual ranges of the parts of a job, on one panel; nothing where the table has no such job.
Hours usual_hours(std::string_view repair, double area_m2) {
    std::vector<belief::HourRange> parts;
    for (const auto& part : atlas::repair_work) {
        if (part.repair != repair) continue;
        const auto& row = row_of(atlas::work_hours, part.work);
        parts.push_back({row.low_h, row.high_h, part.times_n * (row.for_each == "m2" ? area_m2 : 1)});
    }
    if (parts.empty()) return {};
    const auto h = belief::work_hours(parts);
    if (!h.ok()) throw Bug("hours of " + std::string(repair));
    return {h->half_h, h->eight_in_ten_h, "usual ranges, common practice; what a job takes is an estimate"};
}

/// The request of a panel: what is known of the piece, under what was seen here.
DiagnoseRequest known_of(const AdviseRequest& r, const AdvisePanel& p) {
    DiagnoseRequest out = r.known;
    out.keep = false;
    if (!p.panels.empty()) out.panels = p.panels;
    out.saw.insert(out.saw.end(), p.saw.begin(), p.saw.end());
    const auto add = [&](const DamageReading& d) {
        out.readings.erase(std::remove_if(out.readings.begin(), out.readings.end(), [&](const DamageReading& o) { return o.kind == d.kind; }), out.readings.end());
        out.readings.push_back(d);
    };
    for (const auto& d : p.readings) add(d);
    const auto deep = std::max(p.weak_mm.value_or(-1), p.weak_seam_mm.value_or(-1));
    if (deep >= 0 && std::none_of(out.readings.begin(), out.readings.end(), [](const DamageReading& d) { return d.kind == "weak_depth"; })) add({"weak_depth", deep, std::nullopt});
    return out;
}

class Panel {
public:
    Panel(const AdviseRequest& r, const AdvisePanel& p, const DiagnoseAnswer& d) : r_(r), p_(p), d_(d) {
        out_.name = p.name;
        out_.cause = d.causes[0].key;
        out_.sure = d.sure;
    }

    Result<PanelAdvice> answer() {
        decide();
        // A fold takes no filler for long: less is promised there.
        if (p_.flex == "fold" && (out_.verdict == Verdict::Repairable || out_.verdict == Verdict::RepairWithLimits)) {
            out_.verdict = Verdict::RepairWithLimits;
            out_.reasons.push_back(reason_of("fold", "flex"));
            out_.reasons.back().weight = "adds";
        }
        if (const auto fine = options(); !fine.ok()) return fine.error();
        side_by_side();
        out_.sentence = out_.name + ": " + out_.reasons.front().sentence;
        return std::move(out_);
    }

private:
    bool likely(std::string_view cause) const {
        for (const auto& c : d_.causes)
            if (c.key == cause) return d_.sure != HowSure::CannotTell && c.chance.value >= damage_figure("supported");
        return false;
    }
    /// Share of the covering that is of a group.
    double of_group(std::string_view group) const {
        double sum = 0;
        for (const auto& c : d_.covering)
            if (const auto g = covering_group(c.key); g.ok() && *g == group) sum += c.chance_1;
        return sum;
    }
    bool on_film() const {
        constexpr double mostly = 0.5;
        return of_group("film") + of_group("bonded") + of_group("textile") > mostly;
    }
    std::optional<double> share_of(const std::optional<double>& weak) const {
        if (!weak || !p_.thickness_mm) return std::nullopt;
        return *weak / *p_.thickness_mm;
    }
    void rule(std::string_view key, std::string inputs, std::string more = {}) {
        if (out_.reasons.empty()) out_.verdict = verdict_of(row_of(atlas::advice_rules, key).verdict);
        out_.reasons.push_back(reason_of(key, std::move(inputs), std::move(more)));
        if (out_.reasons.size() > 1) out_.reasons.back().weight = "adds";
    }

    /// The rules in their order: people and law of the trade first, then what cannot be mended, then what is not worth it.
    void decide() {
        const bool mould = likely("mould");
        if (r_.sewage) rule("sewage", "sewage");
        if (p_.airbag) rule("airbag", "airbag");
        if (mould && ((r_.mould_m2 && *r_.mould_m2 > damage_figure("mould_refer_m2")) || r_.hidden_mould)) rule("mould_large", "area of mould");
        if (likely("red_rot")) rule("red_rot", "cause");
        const bool failing = likely("film_hydrolysis") || likely("plasticiser");
        constexpr double mostly = 0.5;
        if (failing && of_group("bonded") + of_group("textile") > mostly) rule("film_failing", "covering, cause");
        if (p_.film_lifts) rule("film_lifts", "film lifts");
        if (p_.gelatinised) rule("gelatinised", "shrunken or glassy");
        if (p_.rotted_through) rule("through", "rotted through");
        const double limit = damage_figure("weak_share");
        const auto deep = share_of(p_.weak_mm), seam = share_of(p_.weak_seam_mm);
        if (seam && *seam > limit) rule("weak_seam", "depth at the seam, thickness", "Weak " + to_band(100 * *seam, 5) + " % of the thickness at the seam" + (deep ? ", " + to_band(100 * *deep, 5) + " % over most of it." : "."));
        if (deep && *deep > limit) rule("weak_depth", "depth, thickness", "Weak " + to_band(100 * *deep, 5) + " % of the thickness.");
        if (p_.tear_to_seam) rule("tear_seam", "tear");
        if (p_.tape_failed_again) rule("tape_again", "tape after strengthening");
        if (p_.repair_h && p_.panel_h && *p_.panel_h > 0 && *p_.repair_h / *p_.panel_h > damage_figure("ratio_replace"))
            rule("ratio", "hours of repair, hours of a new panel", "Repair over replacement is " + to_band(*p_.repair_h / *p_.panel_h, 0.01) + ", from " + to_band(damage_figure("ratio_replace"), 0.01) + " a new panel is advised.");
        if (likely("made_so")) rule("maker_first", "cause");
        if (!out_.reasons.empty()) return;
        constexpr double vented_h = 72;
        if (std::none_of(d_.heard.begin(), d_.heard.end(), [](const SignSeen& h) { return h.saw == Saw::There; }) && !d_.heard.empty()) return rule(on_film() ? "sound_film" : "sound", "signs looked for");
        if (d_.sure == HowSure::CannotTell) return rule("cannot_tell", "cause", d_.tests.empty() ? "" : "Next: " + d_.tests[0].name + ".");
        if (likely("solvent") && p_.hours_since && *p_.hours_since < vented_h) return rule("wait_solvent", "hours since");
        if (likely("bloom") && d_.causes[0].key == "bloom") return rule("bloom_only", "cause");
        if (deep || seam) return rule("conflict_seam", "depth, thickness");
        const auto& c = d_.causes[0];
        const std::string repair = recommended();
        const auto& row = row_of(atlas::repair_successes, repair);
        out_.verdict = !on_film() && row.good_n / (row.good_n + row.bad_n) >= damage_figure("repairable_from") ? Verdict::Repairable : Verdict::RepairWithLimits;
        out_.reasons.push_back({"cause", std::string(row.plain_name) + ". " + c.treatment, "decides", c.basis});
    }

    std::string recommended() const {
        if (on_film()) return "film_top";
        const std::string of_cause = repair_of(d_.causes[0].key);
        return of_cause.empty() ? "panel" : of_cause;
    }

    /// As typed, else by the usual ranges.
    Hours hours_of(std::string_view repair) const {
        const auto& half = repair == "panel" ? p_.panel_h : p_.repair_h;
        const auto& eighty = repair == "panel" ? p_.panel_80_h : p_.repair_80_h;
        if (half) return {half, eighty, "as typed"};
        return usual_hours(repair, p_.area_m2.value_or(damage_figure("usual_panel_m2")));
    }

    /// Repair against a new panel where nobody typed both hours. Usual ranges are too wide to decide by: they are shown beside the rule.
    void side_by_side() {
        if ((p_.repair_h && p_.panel_h) || on_film()) return;
        if (out_.verdict != Verdict::Repairable && out_.verdict != Verdict::RepairWithLimits && out_.verdict != Verdict::ReplacePanel) return;
        const std::string repair = repair_of(d_.causes[0].key);
        if (repair.empty() || repair == "panel" || p_.gelatinised || p_.rotted_through || p_.film_lifts) return;
        const Hours mend = hours_of(repair), fresh = hours_of("panel");
        if (!mend.half || !fresh.half || !mend.eighty || !fresh.eighty || *fresh.half <= 0) return;
        const double low = *mend.half / *fresh.eighty, high = *mend.eighty / *fresh.half, limit = damage_figure("ratio_replace");
        const std::string share = to_band(low, 0.05) + " to " + to_band(high, 0.05);
        out_.reasons.push_back(reason_of("ratio_usual", "hours as typed or usual, area",
                                         to_band(*mend.half, 0.1) + " to " + to_band(*mend.eighty, 0.1) + " h against " + to_band(*fresh.half, 0.1) + " to " + to_band(*fresh.eighty, 0.1) + " h, a share of " + share + ". From " + to_band(limit, 0.01) +
                                             " (common practice) a new panel is advised: " +
                                             (low >= limit ? "these hours speak for the new panel." : high < limit ? "these hours speak for the repair." : "these hours do not decide; count them for this piece.")));
        out_.reasons.back().weight = "adds";
    }

    Result<Done> add(std::string_view key, bool best) {
        const auto& row = row_of(atlas::repair_successes, key);
        double good = row.good_n, bad = row.bad_n;
        int own = 0;
        for (const auto& o : r_.own)
            if (o.repair == key) { good += o.good; bad += o.bad; own += o.good + o.bad; }
        HW_TRY(band, belief::success_band({good, bad}));
        AdviseOption o;
        o.key = row.key;
        o.name = row.plain_name;
        o.promise = row.promise;
        o.chance = "Works in " + to_band(100 * band.low_1, 5) + " to " + to_band(100 * band.high_1, 5) + " of 100 such jobs (90 % interval; " +
                   (own > 0 ? std::to_string(own) + " of the shop's own and " : std::string("no results of the shop's own yet, ")) + std::to_string(static_cast<int>(row.good_n + row.bad_n)) + " starting counts).";
        o.recommended = best;
        o.months_low = row.months_low_n;
        o.months_high = row.months_high_n;
        const Hours hours = hours_of(key);
        o.hours = hours.half;
        o.hours_80 = hours.eighty;
        o.hours_from = hours.from;
        if (hours.half && *hours.half > 0) o.months_for_hour = band.mean_1 * (row.months_low_n + row.months_high_n) / 2 / *hours.half;
        o.basis = {"Starting counts, the shop's own added", std::string(row.source), std::string(row.locator), standing_of(row.standing), "results"};
        out_.options.push_back(std::move(o));
        return Done{};
    }

    Result<Done> options() {
        switch (out_.verdict) {
            case Verdict::Repairable:
            case Verdict::RepairWithLimits: return add(recommended(), true);
            case Verdict::ReplacePanel: {
                if (const auto fine = add("panel", true); !fine.ok()) return fine;
                // A repair is offered beside it where something is left to repair.
                const bool gone = p_.gelatinised || p_.rotted_through || p_.film_lifts;
                const std::string repair = repair_of(d_.causes[0].key);
                if (gone || repair.empty() || repair == "panel") return Done{};
                return add(repair, false);
            }
            case Verdict::NotRestorable: return add("patch_paint", false);
            default: return Done{};
        }
    }

    const AdviseRequest& r_;
    const AdvisePanel& p_;
    const DiagnoseAnswer& d_;
    PanelAdvice out_;
};

std::string words_of(Verdict v) {
    switch (v) {
        case Verdict::Repairable: return "It can be repaired.";
        case Verdict::RepairWithLimits: return "It can be repaired, with limits.";
        case Verdict::ReplacePanel: return "A new panel is advised.";
        case Verdict::NotRestorable: return "Not restorable.";
        case Verdict::Refer: return "Refer: this is for somebody else.";
        case Verdict::WaitAndTest: return "Wait, and do the named test first.";
        case Verdict::LeaveAlone: return "Leave it alone.";
    }
    return {};
}

void wishes(AdviseAnswer& a, const AdviseRequest& r) {
    const auto any = [&](Verdict v) { return std::any_of(a.panels.begin(), a.panels.end(), [&](const PanelAdvice& p) { return p.verdict == v; }); };
    const auto caused = [&](std::string_view cause) { return std::any_of(a.panels.begin(), a.panels.end(), [&](const PanelAdvice& p) { return p.cause == cause; }); };
    for (const auto& w : r.wishes) {
        if (w == "like_before") a.out_of_reach.emplace_back("As near to before as it goes: no repair brings back what it was; the options say what each brings.");
        if (w == "patina" && (any(Verdict::ReplacePanel) || caused("alkaline") || caused("body_oil"))) a.out_of_reach.emplace_back("Keep the patina: what is done here changes it.");
        if (w == "fast" && (any(Verdict::WaitAndTest) || any(Verdict::ReplacePanel) || caused("solvent") || caused("mould"))) a.out_of_reach.emplace_back("Back soon: drying, venting or a new panel takes days.");
        if (w == "one_stain" && caused("water_ring")) a.out_of_reach.emplace_back("Take out one stain: a ring is treated over its whole panel, never alone.");
        if ((w == "even" || w == "colour" || w == "resale") && any(Verdict::NotRestorable)) a.out_of_reach.emplace_back("Any new colour: it lifts with the film beneath.");
        if (w == "set" && (any(Verdict::ReplacePanel) || caused("light"))) a.out_of_reach.emplace_back("Must match a set: new leather or colour is matched to the aged body, not to what it once was; offer the whole set.");
    }
}

}  // namespace

Result<AdviseAnswer> advise(const AdviseRequest& request, Ports& ports) {
    for (std::size_t i = 0; i < request.wishes.size(); ++i)
        if (find_row(atlas::owner_wishes, request.wishes[i]) == nullptr) return Error{ErrorCode::NotFound, "There is no wish \"" + request.wishes[i] + "\".", "wishes[" + std::to_string(i) + "]"};
    for (std::size_t i = 0; i < request.own.size(); ++i)
        if (find_row(atlas::repair_successes, request.own[i].repair) == nullptr || request.own[i].good < 0 || request.own[i].bad < 0)
            return Error{ErrorCode::NotFound, "There is no repair \"" + request.own[i].repair + "\" with such counts.", "own[" + std::to_string(i) + "]"};
    std::vector<AdvisePanel> panels = request.panels;
    if (panels.empty()) { panels.emplace_back(); panels.back().name = "The damage"; }
    if (!request.known.piece.empty()) {
        HW_TRY(piece, inspect({request.known.piece, {}}, ports));
        for (auto& p : panels)
            for (const auto& now : piece.panels)
                if (has(p.panels.empty() ? request.known.panels : p.panels, now.code) && has(now.marks, "airbag_seam")) p.airbag = true;
    }
    AdviseAnswer a;
    a.version = std::string(program_version);
    std::vector<std::string> about{"any"};
    for (std::size_t i = 0; i < panels.size(); ++i) {
        const auto& p = panels[i];
        if ((p.weak_mm || p.weak_seam_mm) && !p.thickness_mm) return Error{ErrorCode::InvalidInput, "A weak depth needs the thickness it is part of.", "panels[" + std::to_string(i) + "].thickness_mm"};
        if (!p.flex.empty() && p.flex != "still" && p.flex != "bend" && p.flex != "fold") return Error{ErrorCode::InvalidInput, "Say how the place moves in use: still, bend or fold.", "panels[" + std::to_string(i) + "].flex"};
        HW_TRY(d, diagnose(known_of(request, p), ports));
        HW_TRY(advice, Panel(request, p, d).answer());
        for (const auto& s : d.first)
            if (!has(a.first, s)) a.first.push_back(s);
        for (const auto& s : d.never)
            if (!has(a.never, s)) a.never.push_back(s);
        if (p.airbag) about.emplace_back("airbag");
        if (i == 0) a.tests = d.tests;
        if (i == 0 || !has({a.owner}, d.owner)) a.owner += (a.owner.empty() ? "" : " ") + p.name + ": " + d.owner;
        a.panels.push_back(std::move(advice));
    }
    for (const auto& s : never_about(about))
        if (!has(a.never, s)) a.never.push_back(s);
    const auto furthest = std::max_element(a.panels.begin(), a.panels.end(), [](const PanelAdvice& x, const PanelAdvice& y) { return reach(x.verdict) < reach(y.verdict); });
    a.verdict = furthest->verdict;
    if (a.panels.size() == 1) a.sentence = words_of(a.verdict) + " " + furthest->sentence;
    else
        for (const auto& p : a.panels) a.sentence += (a.sentence.empty() ? "" : " ") + p.name + ": " + words_of(p.verdict);
    if (request.whole_share_1 && *request.whole_share_1 >= damage_figure("whole_low"))
        a.out_of_reach.push_back("The whole work comes to " + to_band(100 * *request.whole_share_1, 5) + " % of a comparable new piece; from 40 to 60 % that is said before work begins.");
    wishes(a, request);
    if (request.known.keep) {
        if (request.known.piece.empty()) return Error{ErrorCode::InvalidInput, "Name the piece that the answer is to be kept with.", "known.piece"};
        Entry e;
        e.did = Did::Said;
        e.said = Said{SaidKind::Statement, "advise", {}, a.sentence};
        HW_TRY(kept, inspect({request.known.piece, {e}}, ports));
        if (!kept.entries.empty()) a.kept = kept.entries.front().entry.id;
    }
    return a;
}

}  // namespace hw::desk
