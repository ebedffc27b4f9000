#include "desk/rebalance.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

#include "atlas/decision_losses.hpp"
#include "atlas/leather_limits.hpp"
#include "core/belief/summary.hpp"
#include "core/chem/systems.hpp"
#include "core/treatment/harm.hpp"
#include "core/treatment/moisture.hpp"
#include "desk/assessment.hpp"
#include "desk/cautions.hpp"
#include "desk/ensemble.hpp"
#include "desk/known.hpp"
#include "desk/liquids.hpp"
#include "desk/next_best.hpp"
#include "desk/plan.hpp"
#include "desk/question.hpp"
#include "desk/spot.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

constexpr double hour_s = 3600;
constexpr int quick_members = 64;                 ///< up to so many the answer is a first one

/// A part of the whole progress.
Progress part(const Progress& whole, double from, double to) {
    if (!whole) return {};
    return [&whole, from, to](double share, const char* doing) { return whole(from + share * (to - from), doing); };
}

double middle(std::vector<double> values) { return belief::quantiles(std::move(values), {0.5})[0]; }

std::vector<double> each(const Followed& f, const std::function<double(const Under&)>& of) {
    std::vector<double> out;
    for (const auto& m : f.members) out.push_back(of(m));
    return out;
}

// ---- what is asked

Liquid clean_water() {
    Liquid l;
    l.name = "water";
    l.family = "water";
    return l;
}

/// The sheltered reading: told, in the record of the panel, or taken of the leather before the liquid came. Where nothing came what
/// was told of the leather is the place itself.
std::optional<double> control_of(const RefineRequest& r, const std::vector<Sighted>& readings) {
    double sum = 0;
    int n = 0;
    for (const auto& reading : readings) {
        const bool of_leather = r.nothing_laid && reading.given == Sighted::none && reading.look.value_1 == r.happened.leather.surface_ph;
        if (reading.look.kind == "control_ph" && !of_leather) sum += reading.look.value_1, ++n;
    }
    return n > 0 ? std::optional(sum / n) : std::nullopt;
}

const atlas::LeatherLimitsRow& limit_row(std::string_view key) {
    for (const auto& row : atlas::leather_limits)
        if (row.key == key) return row;
    throw Bug("no row " + std::string(key));
}

double sound_from(const leather::Hide& hide) { return hide.tannage_key == "vegetable" ? plan_rule("vegetable_sound_from").limit_ph : plan_rule("sound_from").limit_ph; }

Window window_of(const RebalanceRequest& r, const std::vector<Sighted>& readings, const leather::Hide& hide) {
    Window w;
    const auto &low = limit_row("act_lower"), &high = limit_row("act_upper");
    w.low_ph = low.limit_ph;
    w.high_ph = high.limit_ph;
    w.from = "the usual";
    w.basis = {std::string(high.plain_name), std::string(high.source), std::string(high.locator), standing_of(high.standing), "no sheltered reading"};
    if (const auto control = control_of(r.known, readings)) {
        // Never below what sound leather may be, never above where a limit begins.
        const double half = plan_rule("window_half").limit_ph, top = hide.tannage_key == "vegetable" ? limit_row("vegetable_upper").limit_ph : limit_row("museum_upper").limit_ph;
        w.low_ph = std::min(std::max(*control - half, sound_from(hide)), top - half);
        w.high_ph = std::max(std::min(top, *control + half), w.low_ph + half);  // a sheltered place below sound leather is no aim
        w.from = "the piece's own sheltered reading, pH " + fixed(*control, 1);
        w.of_readings = true;
        w.basis = basis_of_plan_rule("window_half", w.from);
    }
    if (r.window_low_ph || r.window_high_ph) {
        w.low_ph = r.window_low_ph.value_or(w.low_ph);
        w.high_ph = r.window_high_ph.value_or(w.high_ph);
        w.from = "asked for";
        w.of_readings = true;  // a meter will be held against it
        w.basis = {"The window that was asked for", "own", "request", Standing::Measured, "window_low_ph, window_high_ph"};
    }
    return w;
}

Moisture moisture_of(const RebalanceRequest& r, const leather::Hide& hide, bool oil_rot) {
    Moisture m;
    const treatment::MoistureBudget budget = treatment::moisture_budget(hide.class_key);
    m.pass_g_m2 = budget.pass_g_m2;
    m.day_g_m2 = budget.net_24h_g_m2;
    m.basis = {"Moisture that custom allows in a pass, " + std::string(hide.class_name), std::string(budget.pass.source), std::string(budget.pass.locator), standing_of(budget.pass.standing), fixed(m.pass_g_m2, 0) + " g/m²"};
    m.day_basis = {"Moisture of 24 h, net of blotting, " + std::string(hide.class_name), std::string(budget.day.source), std::string(budget.day.locator), standing_of(budget.day.standing), fixed(m.day_g_m2, 0) + " g/m²"};
    if (r.pass_g_m2) {
        m.pass_g_m2 = *r.pass_g_m2;
        m.basis = {"The shop's own moisture budget of a pass", "own", "request", Standing::Measured, fixed(m.pass_g_m2, 0) + " g/m²"};
    }
    // Rotten fibre bears no more water than the spot that passed.
    if (oil_rot && r.spot_passed && r.spot_g_m2 > 0) m.pass_g_m2 = std::min(m.pass_g_m2, r.spot_g_m2);
    if (r.day_g_m2) {
        m.day_g_m2 = *r.day_g_m2;
        m.day_basis = {"The shop's own moisture budget of 24 h", "own", "request", Standing::Measured, fixed(m.day_g_m2, 0) + " g/m²"};
    }
    if (!r.known.nothing_laid && r.known.now_h < 24) {
        // What it got when it happened is water of this day too.
        const Use& use = r.known.happened.use;
        const double laid_g_m2 = use.dose.count * grams_per(use.dose.amount).amount_g / (use.dose.area_cm2 * 1e-4);
        m.used_g_m2 += use.repeats * (laid_g_m2 * (1 - use.wiped_off_pct / 100) + use.rinse.passes * use.rinse.water_g_m2 * (1 - use.rinse.blotted_pct / 100));
    }
    m.blotted_1 = plan_rule(treatment::is_open(hide) ? "blot_open" : "blot_finished").limit_pct / 100;
    for (const auto& p : r.known.passes)
        if (p.at_h > r.known.now_h - 24) m.used_g_m2 += p.g_m2 * (1 - p.blotted_pct / 100);
    return m;
}

/// Everything that came onto the place, told or entered, each once.
/// @param before  of the record, before the mishap
Result<Residue> residue_on(const RebalanceRequest& r, const std::vector<Pass>& before, Ports& ports) {
    std::vector<Came> came;
    const bool open = is_open(r.known.happened.leather, ports.store);
    for (const Pass& pass : before) came.push_back(came_with(pass, open));
    if (!r.known.nothing_laid) {
        HW_TRY(product, resolved(r.known.happened.liquid, ports.store));
        came.push_back(as_used(product, r.known.happened.use, open));
        for (const auto& id : r.known.happened.meets)
            if (const auto other = ports.store.liquid(id); other.ok()) came.push_back({*other, 0, 1, 0});
    }
    // Nobody knows when: with the first.
    for (std::size_t i = 0; i < r.history.size(); ++i) {
        HW_TRY(liquid, remedy_liquid(r.history[i], "history[" + std::to_string(i) + "]"));
        if (liquid) came.push_back({*liquid, 0, 1, 0});
    }
    for (std::size_t i = 0; i < r.known.passes.size(); ++i) {
        const Pass& pass = r.known.passes[i];
        auto liquid = resolved(pass.liquid, ports.store);
        if (!liquid.ok()) return Error{liquid.error().code, liquid.error().message, "known.passes[" + std::to_string(i) + "]." + liquid.error().where};
        came.push_back(came_with(pass, open));
        came.back().liquid = *liquid;
    }
    return residue_of(std::move(came), r.known.now_h);
}

// ---- ways

struct Planner {
    Scene scene;
    const Known& known;
    const std::vector<ShelfRinse>& rinses;
    Progress progress;
    std::vector<std::size_t> all, few;
    std::vector<Looked> ways;
    bool quick = false, by_rule = false;          ///< waits because what is new is read again, not by its loss
    double left_mol_m2 = 0;                       ///< middle of the members, nothing done
    double grain_ph = 0, surface_ph = 0;          ///< the same, now, of the leather itself
    double shift_ph = 0;                          ///< the same, of a reading that is held against the window; 0 where the window is of the leather

    [[nodiscard]] double chance_1() const { return scene.request.chance_pct / 100; }
    /// The window as the leather itself has to meet it.
    [[nodiscard]] double low_ph() const { return scene.window.low_ph - shift_ph; }
    [[nodiscard]] double high_ph() const { return scene.window.high_ph - shift_ph; }
};

Looked looked(Way way) {
    Looked l;
    l.told.way = way;
    l.told.name = way_name(way);
    l.told.basis = {"Every member of what is known, solved from now on", "own", "docs/theory/plan.md", Standing::Derived, "members of what is known"};
    return l;
}

void refuse(Planner& p, Way way, std::string why, Basis basis) {
    Looked l = looked(way);
    l.told.possible = false;
    l.told.refused = std::move(why);
    l.told.basis = std::move(basis);
    l.told.loss_min = 0;
    p.ways.push_back(std::move(l));
}

/// The figures of a way that was followed.
void tell_figures(const Planner& p, Looked& l, double work_min) {
    const Followed& f = l.followed;
    const std::size_t n = f.members.size();
    const auto share = [&](auto holds) { return told_share(share_of(f, holds), n); };
    WayAnswer& w = l.told;
    w.inside_surface_1 = share([](const Under& u) { return u.inside_surface; });
    w.inside_depth_1 = share([](const Under& u) { return u.inside_depth; });
    w.past_limit_1 = share([](const Under& u) { return u.past_limit; });
    const bool wets = l.proposal && !l.proposal->layings.empty() && std::any_of(l.proposal->layings.begin(), l.proposal->layings.end(), [](const auto& x) { return x.kg_m2 > 0; });
    if (wets) {
        w.ring_1 = share([](const Under& u) { return u.ring; });
        w.darkening_1 = share([](const Under& u) { return u.darkens; });
    }
    w.work_min = work_min;
    w.wait_h = l.proposal->lasts_s() / hour_s;
    if (l.design) {
        const Band net = band_of(each(f, [&](const Under& u) { return u.net_g_m2 / l.design->days; }), "g/m²");
        w.moisture = number(net.median, std::max(1.0, (net.high_90 - net.low_90) / 2), "g/m²", Standing::Derived, "nine of ten members");
    } else w.moisture = number(0, 0, "g/m²", Standing::Derived, "nothing is laid on");
    l.losses_min = losses_of(f, work_min, w.wait_h);
    w.loss_min = mean_of(l.losses_min);
    l.reaches = share([](const Under& u) { return u.meets(); }) >= p.chance_1();
    w.fans = fans_of(f);
}

Result<Done> follow_way(Planner& p, Looked l, double work_min, double from, double to) {
    HW_TRY(f, follow(p.known, p.all, *l.proposal, p.scene.aim, part(p.progress, from, to)));
    l.followed = std::move(f);
    tell_figures(p, l, work_min);
    p.ways.push_back(std::move(l));
    return Done{};
}

RinsePlan plan_of(const Planner& p, const Looked& l) {
    const Design& d = *l.design;
    RinsePlan r;
    r.liquid_id = d.rinse->liquid.id;
    r.liquid_name = d.rinse->liquid.name;
    for (const auto& i : d.rinse->liquid.ingredients) r.made_up += (r.made_up.empty() ? "" : ", ") + (i.content_pct ? fixed(*i.content_pct, 2) + " % " : std::string()) + i.name;
    r.made_up = r.made_up.empty() ? "pure water" : r.made_up + " in water";
    r.ph = number(d.rinse->ph, d.rinse->water ? 1.0 : 0.05, "pH", Standing::Derived, d.rinse->water ? "pure water holds no pH: a breath moves it" : "model error of the activity coefficients");
    r.difference_figure = number(d.rinse->difference_figure, 0.02, "pH", Standing::Derived, "model error of the activity coefficients");
    r.g_m2 = d.g_m2;
    r.passes = d.passes();
    r.days = d.days;
    r.dwell_s = d.dwell_s;
    r.blotted_pct = 100 * d.blotted_1;
    r.between_h = plan_rule("between_passes").limit_min / 60;
    const auto grams = [&](double g) { return number(g, std::max(0.5, 0.1 * g), "g", Standing::Derived, "weighed out, and the area"); };
    r.pass_g = grams(d.g_m2 * p.scene.area_m2);
    r.all_g = grams(d.g_m2 * p.scene.area_m2 * d.passes());
    double begun_s = d.first_wait_s;
    for (const auto& laying : d.proposal.layings) begun_s += laying.lasts_s();
    r.dry_h = band_of(each(l.followed, [&](const Under& u) { return std::max(0.0, u.film_end_s - begun_s) / hour_s; }), "h");
    const double taken = 1000 * std::abs(p.left_mol_m2 - middle(each(l.followed, [](const Under& u) { return u.left_mol_m2; }))) / d.passes();
    r.takes_mmol_m2 = number(taken, std::max(0.1, 0.4 * taken), "mmol/m²", Standing::Derived, "middle case, with and without the passes");
    return r;
}

Basis estimate_basis(std::string rule, std::string inputs) { return {std::move(rule), "own", "docs/theory/plan.md", Standing::Derived, std::move(inputs)}; }

std::vector<const ShelfRinse*> rinses_for(const Planner& p, Way way) {
    std::vector<const ShelfRinse*> out;
    for (const auto& r : p.rinses) {
        if (!r.refused.empty()) continue;
        const bool raises = !r.water && r.ph > p.grain_ph && r.ph <= std::min(p.high_ph(), plan_rule("raise_to").limit_ph);
        const bool acid = !r.water && r.ph < p.surface_ph;  // also above the window: what it comes to is computed
        if (way == Way::RinseBlot ? r.water : way == Way::VentSolvent ? r.water || acid : way == Way::BufferedAcid ? acid : raises) out.push_back(&r);
    }
    return out;
}

/// A way that lays something on: designed on a few members, followed on all.
Result<Done> rinse_way(Planner& p, Way way, double from, double to) {
    const auto rinses = rinses_for(p, way);
    const double now_h = p.scene.request.known.now_h, vent_s = way == Way::VentSolvent ? std::max(0.0, plan_rule("vent").limit_h - now_h) * hour_s : 0;
    Looked l = looked(way);
    std::optional<Design> design;
    if (!rinses.empty()) {
        const Progress searching = part(p.progress, from, from + 0.6 * (to - from));
        // Told between candidates too, so that a search can be ended.
        const Search search{p.known, p.scene.aim, p.scene.moisture, p.scene.area_m2, p.chance_1(), vent_s, p.quick, searching};
        HW_TRY(found, best_design(search, rinses, p.few));
        design = found;
    }
    if (way == Way::VentSolvent) {
        // Airing alone, and planned again when nothing sticks, unless the rinse after it is worth its work.
        Proposal wait;
        wait.rest_s = vent_s + plan_rule("rest").limit_h * hour_s;
        bool rinse = design.has_value();
        if (design) {
            HW_TRY(aired, follow(p.known, p.few, wait, p.scene.aim));
            HW_TRY(after, follow(p.known, p.few, design->proposal, p.scene.aim));
            const double alone = mean_of(losses_of(aired, plan_rule("reading_work").limit_min, wait.lasts_s() / hour_s));
            rinse = mean_of(losses_of(after, design->work_min, design->wait_h)) < alone;
        }
        if (!rinse) {
            l.proposal = wait;
            return follow_way(p, std::move(l), plan_rule("reading_work").limit_min, from, to);
        }
    }
    if (!design) {
        refuse(p, way, rinses.empty() ? "There is no liquid on the shelf that may be used for it here." : p.scene.moisture.used_g_m2 <= 0 ? "No pass stays within the moisture of a day, " + fixed(p.scene.moisture.day_g_m2, 0) + " g/m²." : "The moisture of today is used up: " + fixed(p.scene.moisture.used_g_m2, 0) + " g/m² of " + fixed(p.scene.moisture.day_g_m2, 0) + " g/m² stay in the leather already. Tomorrow.", p.scene.moisture.day_basis);
        return Done{};
    }
    l.design = design;
    l.proposal = design->proposal;
    HW_TRY(done, follow_way(p, std::move(l), design->work_min, from + 0.6 * (to - from), to));
    static_cast<void>(done);
    Looked& last = p.ways.back();
    last.told.rinse = plan_of(p, last);
    last.told.uses_up = {fixed(design->g_m2 * p.scene.area_m2 * design->passes(), 0) + " g of " + design->rinse->liquid.name, std::to_string(2 * design->passes()) + " white cloths"};
    return Done{};
}

/// What is referred loses what the table says of the state that it is in.
void refer_way(Planner& p, const Followed& left_alone) {
    constexpr std::array<std::string_view, 4> states{"within", "surface", "grain", "deep"};
    Looked l = looked(Way::StopAndRefer);
    for (const auto& m : left_alone.members)
        for (const auto& row : atlas::decision_losses)
            if (row.key == "refer" && row.state == states[static_cast<std::size_t>(m.ends)]) l.losses_min.push_back(row.loss_min);
    HW_EXPECTS(l.losses_min.size() == left_alone.members.size());
    l.told.loss_min = mean_of(l.losses_min);
    p.ways.push_back(std::move(l));
}

/// Every way, followed or refused.
Result<Done> look_at_ways(Planner& p) {
    const auto& r = p.scene.request;
    const auto& rule = [](const char* key) -> const atlas::PlanRulesRow& { return plan_rule(key); };
    // Left alone: also what there is now.
    Looked alone = looked(Way::LeaveAlone);
    alone.proposal = Proposal{};
    alone.proposal->rest_s = rule("wait").limit_h * hour_s;
    HW_TRY(first, follow_way(p, std::move(alone), 0, 0.3, 0.4));
    static_cast<void>(first);
    const Followed now = p.ways.front().followed;
    p.left_mol_m2 = middle(each(now, [](const Under& u) { return u.left_mol_m2; }));
    p.grain_ph = middle(each(now, [](const Under& u) { return static_cast<double>(u.grain_ph.front()); }));
    p.surface_ph = middle(each(now, [](const Under& u) { return static_cast<double>(u.surface_ph.front()) - u.shift_ph; }));
    if (p.scene.window.of_readings) p.shift_ph = middle(each(now, [](const Under& u) { return u.shift_ph; }));
    p.scene.acid = std::min(p.surface_ph, p.grain_ph) < p.low_ph();
    p.few = standing_for(now, p.quick ? 8 : 16);

    Looked wait = p.ways.front();
    wait.told.way = Way::WaitAndRead;
    wait.told.name = way_name(Way::WaitAndRead);
    tell_figures(p, wait, rule("reading_work").limit_min);
    p.ways.push_back(std::move(wait));

    if (r.still_wet) {
        Looked blot = looked(Way::BlotAndDry);
        Proposal q;
        q.liquids.push_back(chem::tap_water(0));
        q.layings.push_back({0, 0, 0, rule("blot_off").limit_pct / 100, "", "blotted", 0, press_s()});
        q.rest_s = rule("rest").limit_h * hour_s;
        blot.proposal = q;
        HW_TRY(done, follow_way(p, std::move(blot), rule("pass_work").limit_min + rule("pass_work_m2").limit_min * p.scene.area_m2, 0.4, 0.45));
        static_cast<void>(done);
    } else refuse(p, Way::BlotAndDry, "It is dry: there is nothing to blot.", estimate_basis("Blotting takes what is still on the surface", "still_wet"));

    const bool prints = r.tacky;
    const Basis airing = basis_of_plan_rule("vent", r.tacky ? "fibres of a tissue stay on it" : "nothing sticks to it");
    const bool unproved = p.scene.oil_rot && !r.spot_passed;
    const std::string prove = "Leather that skin oil has rotted gets no more water than a hidden spot has borne. Make the spot first, read it dry, and say how many g/m² it bore.";
    const Basis spot{"Skin-oil rot is treated at the moisture of a spot that passed", "own", "ruling of this project: rotten fibre bears less water than sound", Standing::Estimate, "spot_passed"};
    if (prints) {
        for (Way way : {Way::RinseBlot, Way::BufferedAcid, Way::RaiseGently}) refuse(p, way, "The finish is still soft: a cloth would print into it and lift it. Let it air first; nothing is stripped either before that.", airing);
        HW_TRY(done, rinse_way(p, Way::VentSolvent, 0.45, 0.95));
        static_cast<void>(done);
        refer_way(p, now);
        return Done{};
    }
    refuse(p, Way::VentSolvent, "Nothing sticks to it: there is no solvent to wait for.", airing);

    const bool alkali = p.surface_ph > p.high_ph() || p.grain_ph > p.high_ph();
    if (unproved) {
        refuse(p, Way::RinseBlot, prove, spot);
        refuse(p, Way::RaiseGently, prove, spot);
    } else {
        HW_TRY(done, rinse_way(p, Way::RinseBlot, 0.45, 0.6));
        static_cast<void>(done);
    }
    if (!alkali) refuse(p, Way::BufferedAcid, "Surface and grain lie no higher than they should: an acid could only take them lower.", estimate_basis("A weak acid takes up alkali; on sound or acid leather it only does harm", "surface pH " + fixed(p.surface_ph, 1)));
    else {
        HW_TRY(done, rinse_way(p, Way::BufferedAcid, 0.6, 0.8));
        static_cast<void>(done);
    }
    const double sound = sound_from(p.scene.hide);
    const char* sound_key = p.scene.hide.tannage_key == "vegetable" ? "vegetable_sound_from" : "sound_from";
    if (std::min(p.surface_ph, p.grain_ph) >= sound)
        refuse(p, Way::RaiseGently, "From pH " + fixed(sound, 1) + " on leather is sound as it is. Trade custom likes 4.5 to 5, without a source: nothing is raised for that.", basis_of_plan_rule(sound_key, "surface pH " + fixed(p.surface_ph, 1) + ", grain " + fixed(p.grain_ph, 1)));
    else if (!unproved) {
        HW_TRY(done, rinse_way(p, Way::RaiseGently, 0.6, 0.9));
        static_cast<void>(done);
    }
    refer_way(p, now);
    return Done{};
}

Looked* way_named(std::vector<Looked>& ways, Way way) {
    for (auto& w : ways)
        if (w.told.way == way) return &w;
    return nullptr;
}

/// The least expected loss. The chance that was asked for rules what a rinse is made of, not whether it pays: a way that reaches it
/// for a ring and an hour is no better than leaving alone what comes right by itself (docs/reference/bench-rebalance.md).
Looked& chosen(Planner& p) {
    const auto& r = p.scene.request;
    if (r.fibre_weak_pct > plan_rule("weak_deep").limit_pct) return *way_named(p.ways, Way::StopAndRefer);
    Looked* best = nullptr;
    for (auto& l : p.ways) {
        // Referring is for what a rule stops: by its price alone it could win wherever little can be done.
        if (!l.told.possible || l.told.way == Way::StopAndRefer) continue;
        if (best == nullptr || l.told.loss_min < best->told.loss_min) best = &l;
    }
    // Tack goes by airing, whatever the figures say; and what is new is looked at again before it is left alone.
    if (Looked* vent = way_named(p.ways, Way::VentSolvent); r.tacky && vent != nullptr) best = vent;
    if (best->told.way == Way::LeaveAlone && !r.known.nothing_laid && r.known.now_h < plan_rule("wait").limit_h) {
        best = way_named(p.ways, Way::WaitAndRead);
        p.by_rule = true;
    }
    return *best;
}

// ---- words

std::string grams_words(double g) { return fixed(g, g < 10 ? 1 : 0) + " g"; }

std::string passes_words(const Design& d) {
    const std::string passes = std::to_string(d.a_day) + (d.a_day == 1 ? " pass of " : " passes of ") + fixed(d.g_m2, 0) + " g/m² " + d.rinse->liquid.name;
    return d.days > 1 ? passes + " on each of " + std::to_string(d.days) + " days" : passes;
}

std::string each_time(const Design& d) { return d.passes() > 1 ? " each time" : ""; }

std::string inside_words(const Scene& s, const Looked& l) {
    const std::size_t n = l.followed.members.size();
    const double meets = told_share(share_of(l.followed, [](const Under& u) { return u.meets(); }), n);
    return "In " + in_ten(meets) + " of the cases that fit what is known it ends between pH " + fixed(s.window.low_ph, 1) + " and " + fixed(s.window.high_ph, 1) + ", on the surface and in the grain, with no limit passed.";
}

void tell_sentences(Planner& p) {
    for (auto& l : p.ways) {
        WayAnswer& w = l.told;
        if (!w.possible) {
            w.sentence = w.refused;
            continue;
        }
        const std::string inside = l.proposal ? " " + inside_words(p.scene, l) : "";
        switch (w.way) {
            case Way::LeaveAlone: w.sentence = "Lay nothing on it." + inside; break;
            case Way::WaitAndRead: w.sentence = "Keep it dry and read it again in " + span(l.proposal->lasts_s()) + "." + (p.by_rule ? " What is new is read again before it is left alone; the reading is all that it costs more." : "") + inside; break;
            case Way::BlotAndDry: w.sentence = "Blot what is still on it and let it dry." + inside; break;
            case Way::VentSolvent: w.sentence = "Let it air until nothing sticks" + (l.design ? ", then " + passes_words(*l.design) + ", blotted" + each_time(*l.design) : std::string()) + "." + inside; break;
            case Way::RinseBlot: w.sentence = passes_words(*l.design) + ", blotted" + each_time(*l.design) + "." + inside; break;
            case Way::BufferedAcid: w.sentence = passes_words(*l.design) + ", to carry what is left to the leather's own reserve; no cure for a soak." + inside; break;
            case Way::RaiseGently: w.sentence = passes_words(*l.design) + ", to lift it a little, never to neutral." + inside; break;
            case Way::StopAndRefer: w.sentence = "Stop, and refer it: a conservator, or a new panel."; break;
        }
    }
}

/// Why no rinse can raise it within the moisture; empty where it can, or where nothing may be used for it.
Result<std::string> cannot_raise(const Planner& p) {
    const ShelfRinse* best = nullptr;
    double most = 0;
    const double g = p.scene.moisture.pass_g_m2 / 2;
    chem::Conditions c;
    c.water = p.known.question.story.air;
    for (const ShelfRinse* r : rinses_for(p, Way::RaiseGently)) {
        HW_TRY(takes, treatment::pass_capacity_mol_m2(r->totals, g / 1000, r->ph, std::max(p.grain_ph, p.low_ph()), c));
        if (-takes > most) most = -takes, best = r;
    }
    if (best == nullptr) return std::string();
    leather::Hide hide = p.scene.hide;
    const double needs = hide.dry_density_kg_m3 * hide.grain_um * 1e-6 * leather::alkali_between(hide, p.grain_ph, p.low_ph()), passes = treatment::passes_to_neutralise(needs, most);
    const int allowed = static_cast<int>(std::floor(p.scene.moisture.left_g_m2() / g + 1e-9));
    if (!(passes > allowed)) return std::string();
    return "The grain alone would need " + fixed(1000 * needs, 0) + " mmol/m² of alkali to come to pH " + fixed(p.low_ph(), 1) + ": " + fixed(std::ceil(passes), 0) + " passes of " + best->liquid.name + " at " + fixed(g, 0) + " g/m². The moisture of a day allows " + std::to_string(allowed) + ". A rinse can lift the surface a little; it cannot turn the leather round.";
}

/// Why acid cannot undo the dose within the moisture; empty where it can, or where there is none.
Result<std::string> cannot_of(const Planner& p) {
    constexpr double least_mol_m2 = 5e-4;
    if (p.scene.acid && !p.known.question.hide.sites.empty()) return cannot_raise(p);
    if (p.left_mol_m2 < least_mol_m2 || p.surface_ph <= p.high_ph()) return std::string();
    const ShelfRinse* best = nullptr;
    double most = 0;
    const double g = p.scene.moisture.pass_g_m2 / 2;  // an even mist, as it is usually laid on
    chem::Conditions c;
    c.water = p.known.question.story.air;
    for (const ShelfRinse* r : rinses_for(p, Way::BufferedAcid)) {
        HW_TRY(takes, treatment::pass_capacity_mol_m2(r->totals, g / 1000, r->ph, p.high_ph(), c));
        if (takes > most) most = takes, best = r;
    }
    if (best == nullptr) return std::string("No acid can be used here. Rinsing and the leather's own reserve have to do the work.");
    const double needed = treatment::passes_to_neutralise(p.left_mol_m2, most);
    // What is to act has to stay: nothing of it is counted as blotted off.
    const int allowed = static_cast<int>(std::floor(p.scene.moisture.left_g_m2() / g + 1e-9));
    if (needed <= allowed) return std::string();
    return fixed(std::ceil(needed), 0) + " passes of " + best->liquid.name + " at " + fixed(g, 0) + " g/m² would be needed to take up the " + fixed(1000 * p.left_mol_m2, p.left_mol_m2 < 0.01 ? 1 : 0) + " mmol/m² of alkali that are left; the moisture of a day allows " + std::to_string(allowed) +
           ". An acid mist cannot undo a soak: rinsing and blotting take what still moves, and the leather's own reserve takes the rest as it spreads; a few passes of a weak buffer carry it there, no more.";
}

std::vector<LedgerRow> ledger_of(const Planner& p, const std::vector<OnPiece>& on_piece) {
    std::vector<LedgerRow> out;
    const auto& f = p.ways.front().followed;
    std::string from;
    for (const auto& thing : on_piece)
        if (counts(thing) && thing.liquid.family != "water") from += (from.empty() ? "" : ", ") + thing.liquid.name;
    const auto number_of = [&](const std::vector<double>& values, const std::string& unit) {
        const Band b = band_of(values, unit);
        return number(b.median, std::max(0.1, (b.high_90 - b.low_90) / 2), unit, Standing::Derived, "nine of ten members");
    };
    std::string not_with;
    {
        std::vector<std::string> words;
        for (const char* key : {"vinegar", "ammonia", "alcohol", "bleach", "hydrogen_peroxide"}) {
            const auto liquid = remedy_liquid(key, "");
            const auto met = what_may_not_meet(on_piece, **liquid);
            if (std::any_of(met.begin(), met.end(), [](const chem::Hazard& h) { return h.severity == chem::Severity::Stop; })) words.push_back(std::string((*liquid)->ingredients.front().name));
        }
        for (const auto& w : words) not_with += (not_with.empty() ? "" : ", ") + w;
    }
    const double least = 1e-3 * least_mmol_m2;
    const auto left = each(f, [](const Under& u) { return u.left_mol_m2; });
    if (std::abs(middle(left)) > least) {
        const bool alkali = middle(left) > 0;
        out.push_back({alkali ? "alkali" : "acid", number_of(each(f, [](const Under& u) { return 1000 * std::abs(u.left_mol_m2); }), "mmol/m²"), from, alkali ? "soap, alkaline cleaners" : "acids"});
    }
    for (std::size_t s = 0; s < chem::acid_systems().size(); ++s) {
        const auto carried = each(f, [&](const Under& u) { return s < u.carried_mol_m2.size() ? 1000 * u.carried_mol_m2[s] : 0.0; });
        const auto& name = chem::acid_systems()[s].name;
        if (name != "carbonate" && middle(carried) > least_mmol_m2) out.push_back({std::string(name), number_of(carried, "mmol/m²"), from, ""});
    }
    double surfactant = 0;
    std::string whose;
    for (std::size_t i = 0; i < on_piece.size(); ++i) {
        if (!counts(on_piece[i]) || !whose.empty() || p.known.question.nothing_laid || on_piece[i].liquid.name != p.known.question.liquid.name) continue;
        const auto t = chem::present(portions(on_piece[i].liquid));
        for (const auto& r : t.recognised)
            for (const auto c : chem::hazard_classes(r.row))
                if (c.find("surfactant") != std::string_view::npos || c == "soap" || c == "quaternary") {
                    surfactant += r.content_pct / 100 * 1000 * p.known.question.story.dose_kg_m2 / (1 + p.known.question.use.parts_water) * on_piece[i].left_1;
                    whose = on_piece[i].liquid.name;
                    break;
                }
    }
    if (surfactant > 0) out.push_back({"washing agents", number(surfactant, 0.5 * surfactant, "g/m²", Standing::Estimate, "content of the sheet, and how much was wiped off"), whose, ""});
    if (!not_with.empty()) out.push_back({"what must not meet", number(0, 0, "", Standing::Derived, "by presence alone, whatever the amount"), from, not_with});
    return out;
}

void add_source(std::vector<Basis>& list, const Basis& b) {
    if (b.source.empty()) return;
    for (const auto& x : list)
        if (x.source == b.source && x.rule == b.rule) return;
    list.push_back(b);
}

void add_reasons(Planner& p, const Looked& best, std::vector<Reason>& out) {
    const auto& r = p.scene.request;
    out.push_back({"window", "It should end between pH " + fixed(p.scene.window.low_ph, 1) + " and " + fixed(p.scene.window.high_ph, 1) + " (" + p.scene.window.from + "), within " + fixed(plan_rule("window_half").limit_ph, 1) + " of a sheltered place where one was read.", "decides", p.scene.window.basis});
    const auto& custom = limit_row("trade_upper");
    out.push_back({"trade_custom", "Beside it: " + as_clause(std::string(custom.plain_name)) + ". No source is known for it; sound leather lies lower too.", "note", {std::string(custom.plain_name), std::string(custom.source), std::string(custom.locator), standing_of(custom.standing), "shown, does not decide"}});
    out.push_back({"depth", "Depth means the mean of the grain, " + fixed(p.scene.hide.grain_um, 0) + " µm; a limit counts wherever and whenever it is passed.", "note", estimate_basis("What is counted as depth", std::string(p.scene.hide.class_name))});
    out.push_back({"moisture", "At most " + fixed(p.scene.moisture.pass_g_m2, 0) + " g/m² in a pass.", "adds", p.scene.moisture.basis});
    out.push_back({"moisture_day", "At most " + fixed(p.scene.moisture.day_g_m2, 0) + " g/m² may stay in 24 h, net of blotting.", "adds", p.scene.moisture.day_basis});
    if (best.design && best.told.ring_1)
        out.push_back({"ring", "A ring is possible: " + in_ten(*best.told.ring_1) + " by the working rule, and more where it is not laid on evenly from seam to seam. It may not look as it did before.", "caution", basis_of_plan_rule("ring_share", fixed(p.scene.moisture.pass_g_m2, 0) + " g/m² of a pass")});
    const bool vegetable = p.scene.hide.tannage_key == "vegetable" || p.scene.hide.tannage_key == "unknown";
    if (vegetable) {
        out.push_back({"doubt", "Published doubt: a library that had advised to neutralise old leather did not advise it again. Its pH differs from place to place, the effect does not last, and no benefit was seen against blackening.", "caution", {"Neutralising old vegetable leather is in doubt", "kb_later", "summary of why it was not issued again", Standing::Published, std::string(p.scene.hide.tannage_name)}});
        out.push_back({"water_blackens", "Water on acid-decayed vegetable leather blackens and stiffens it before a buffer can help.", "caution", {"Water on decayed vegetable leather", "rsc2006", "p. 117", Standing::Published, std::string(p.scene.hide.tannage_name)}});
    }
    if (best.design && p.scene.aim.open)
        out.push_back({"blotting", "A dry cloth pressed on for half a minute draws water out of open leather too, as far as the leather lets it go: counted as the section keeps it. Custom says " + fixed(plan_rule("blot_open").limit_pct, 0) + " % of a pass.", "note", basis_of_plan_rule("blot_press", "no finish")});
    if (p.scene.oil_rot)
        out.push_back({"skin_oil", "Skin oil and sweat do this over years; how much acid cannot be worked out from a dose. The reading is the evidence.", "note", {"Acid from skin oil is a slow outcome without a rate law", "own", "ruling of this project", Standing::Estimate, "nothing_laid"}});
    if (r.fibre_weak_pct > 0) {
        const bool deep = r.fibre_weak_pct > plan_rule("weak_deep").limit_pct;
        out.push_back({"weak_fibre", "The fibre is weak through " + fixed(r.fibre_weak_pct, 0) + " % of the thickness. " + (deep ? "That depth, at the seam above all, decides: chemistry gives no strength back, so a new panel comes first." : "Probe the stitch line too: the depth there decides between repair and a new panel. Chemistry gives no strength back."), deep ? "decides" : "adds", basis_of_plan_rule("weak_deep", fixed(r.fibre_weak_pct, 0) + " %")});
    }
    if (r.tacky) out.push_back({"tacky", "It is sticky: solvent is still in the finish. Much of that comes back by airing; whatever is stripped before is lost.", "decides", basis_of_plan_rule("vent", "tissue test")});
    for (const auto& rinse : p.rinses)
        for (const auto& reason : rinse.refused) out.push_back(reason);
    out.push_back({"no_rate_law", "A chance here is the chance that a stated limit is passed or a window met. Nobody has published how fast leather is harmed at a pH.", "note", {"No rate law exists for leather damage against pH, temperature and time", "own", "docs/theory/ensemble.md", Standing::Derived, "every figure here"}});
}

std::string plan_sentence(const Planner& p, const Looked& best) {
    const WayAnswer& w = best.told;
    std::string out;
    switch (w.way) {
        case Way::LeaveAlone: out = best.reaches ? "Leave it alone: it is where it should be, or comes there by itself." : "Leave it alone: nothing that could be laid on it would be worth its own risk."; break;
        case Way::WaitAndRead: out = "Wait, keep it dry, and read it again in " + span(best.proposal->lasts_s()) + "."; break;
        case Way::BlotAndDry: out = "Blot it off, let it dry, and read it tomorrow."; break;
        case Way::VentSolvent: out = "Let it air first; strip nothing before nothing sticks" + (best.design ? ". Then rinse and blot: " + passes_words(*best.design) : std::string(". Then read it and plan again")) + "."; break;
        case Way::RinseBlot: out = "Rinse and blot: " + passes_words(*best.design) + ", " + grams_words(best.design->g_m2 * p.scene.area_m2) + each_time(*best.design) + " on this area. Read it dry after 24 h."; break;
        case Way::BufferedAcid: out = "A weak buffer, and no more than that: " + passes_words(*best.design) + ", " + grams_words(best.design->g_m2 * p.scene.area_m2) + each_time(*best.design) + " on this area. Read it dry after 24 h."; break;
        case Way::RaiseGently: out = "Raise it a little: " + passes_words(*best.design) + ", " + grams_words(best.design->g_m2 * p.scene.area_m2) + each_time(*best.design) + " on this area. Read it dry after 24 h."; break;
        case Way::StopAndRefer: out = p.scene.request.fibre_weak_pct > plan_rule("weak_deep").limit_pct ? "Stop: the fibre is weak too deep. A new panel comes before any chemistry." : "Stop here and refer it."; break;
    }
    return out;
}

std::string how_sure_of(const Planner& p, const Looked& best) {
    if (!best.proposal) return "This does not rest on the chances.";
    std::string out = inside_words(p.scene, best);
    if (!best.reaches) {
        out += " That is less than the " + fixed(p.scene.request.chance_pct, 0) + " % that were asked for: ";
        const auto reaching = std::find_if(p.ways.begin(), p.ways.end(), [](const Looked& l) { return l.told.possible && l.proposal && l.reaches; });
        if (reaching == p.ways.end()) out += std::string("no way within floor and moisture reaches them. ") + (best.design ? "Do the first day, read, and plan again." : "What could be laid on would not pay for its own risk.");
        else out += reaching->told.name + " would reach them, at more than it saves: it comes to " + fixed(reaching->told.loss_min, 0) + " min of work in the mean against " + fixed(best.told.loss_min, 0) + ", ring and watching included.";
    }
    if (p.quick) out += " First answer, from few cases.";
    return out;
}

/// What is done, after "it is best to".
std::string act_of(Way way) {
    switch (way) {
        case Way::BlotAndDry: return "blot it and let it dry";
        case Way::RinseBlot: return "rinse and blot it";
        case Way::BufferedAcid: return "lay on a weak buffer";
        case Way::RaiseGently: return "raise it a little";
        default: return way_name(way);
    }
}

/// Tests by what they save of a wrong choice between the ways that can be done.
void tell_next(const Planner& p, const Looked& best, const RefineRequest& request, Ports& ports, RebalanceAnswer& a) {
    const auto bench = bench_of(request.bench, ports);
    if (!bench.ok() || !best.proposal) return;
    std::vector<std::vector<double>> losses;
    std::vector<std::string> actions;
    for (const auto& l : p.ways) {
        if (!l.told.possible || !l.proposal) continue;
        if (best.told.way == Way::WaitAndRead && l.told.way == Way::LeaveAlone) continue;  // the same but for the reading, which a rule asks for
        losses.push_back(l.losses_min);
        actions.push_back(act_of(l.told.way));
    }
    a.next = best_tests(p.known, losses, actions, *bench);
    a.next_sentence = next_sentence(a.next, act_of(best.told.way));
}

/// What cannot all be so comes before what follows from it; the last reading is told as it is, since the forecast is in doubt.
void tell_misfit(const RefineRequest& known, const Planner& p, const Looked& best, const std::vector<Misfit>& misfits, RebalanceAnswer& a) {
    const Window& window = p.scene.window;
    const Misfit& first = misfits.front();
    std::string what = first.sentence;
    if (!first.between.empty()) what += " Between: " + listed(first.between) + ".";
    if (!first.may_mean.empty()) what += " It may mean: " + listed(first.may_mean) + ".";
    a.sentence = "Read the place again before anything else: " + as_clause(first.sentence) + ". If it all stands: " + as_clause(a.sentence) + ".";
    std::string sure = "Not to be relied on yet. " + what;
    const Look* last = nullptr;
    for (const auto& reading : known.readings)
        if (reading.kind == "surface_ph" && (last == nullptr || reading.at_h >= last->at_h)) last = &reading;
    if (last != nullptr && last->value_1 >= window.low_ph && last->value_1 <= window.high_ph) sure += " The last reading itself, pH " + fixed(last->value_1, 1) + ", lies where it should end.";
    a.how_sure = sure + (best.proposal ? " By the forecast: " + as_clause(inside_words(p.scene, best)) + "." : "");
    a.reasons.insert(a.reasons.begin(), {"misfit", what, "decides", first.basis});
}

/// An answer that comes before any figure.
RebalanceAnswer stopped(const Stop& stop, bool refer) {
    RebalanceAnswer a;
    a.version = std::string(program_version);
    a.stop = stop;
    a.sentence = stop.headline;
    a.how_sure = "This does not depend on the figures.";
    a.reasons.push_back({stop.kind, stop.headline, "decides", stop.basis});
    a.sources.push_back(stop.basis);
    a.cautions = {"People before leather."};
    for (const auto& [way, word] : EnumNames<Way>::names) {
        WayAnswer w;
        w.way = way;
        w.name = way_name(way);
        w.basis = stop.basis;
        w.recommended = way == Way::StopAndRefer;
        w.possible = w.recommended;
        w.refused = w.possible ? "" : stop.headline;
        w.sentence = w.possible ? (refer ? "Stop, keep it dry, and refer it." : "Stop. People first; the leather can wait.") : w.refused;
        if (w.recommended) a.ways.insert(a.ways.begin(), w);
        else a.ways.push_back(w);
    }
    for (const auto& line : stop.do_now) {
        BenchStep s;
        s.title = line;
        a.card.push_back(s);
    }
    if (!stop.never.empty() && !a.card.empty()) a.card.back().caution = stop.never.front();
    return a;
}

std::optional<Error> bad(const RebalanceRequest& r) {
    if (const auto outside = out_of_range(r)) return *outside;
    if (r.spot_passed && !(r.spot_g_m2 > 0)) return Error{ErrorCode::InvalidInput, "Say how many g/m² of water the spot bore; a plan lays on no more than that.", "spot_g_m2"};
    if (r.window_low_ph.value_or(0) >= r.window_high_ph.value_or(14)) return Error{ErrorCode::InvalidInput, "The lower end of the window lies below its upper end. Swap them.", "window_low_ph"};
    return std::nullopt;
}

Result<std::vector<RemedyAnswer>> remedies_of(const RebalanceRequest& r, const std::vector<OnPiece>& on_piece) {
    std::vector<RemedyAnswer> out;
    for (std::size_t i = 0; i < r.asked.size(); ++i) {
        HW_TRY(one, remedy_answer(r.asked[i], on_piece, "asked[" + std::to_string(i) + "]"));
        out.push_back(one);
    }
    return out;
}

/// What the test spots of the record say to a plan.
struct FromSpots {
    std::vector<Reason> reasons;
    std::vector<std::string> failed;              ///< names of liquids
};

/// Where nothing else was told, the water that a test spot on the class of this panel bore counts.
Result<FromSpots> take_spots(RebalanceRequest& request, Ports& ports) {
    FromSpots out;
    if (request.known.piece.empty()) return out;
    HW_TRY(piece, inspect({request.known.piece, {}}, ports));
    const Basis seen{"A test spot on this class of panels, read dry", "own", "docs/theory/spots.md", Standing::Measured, request.known.panel};
    if (const double borne = water_borne_g_m2(piece, request.known.panel); borne > 0 && !request.spot_passed) {
        request.spot_passed = true;
        request.spot_g_m2 = borne;
        out.reasons.push_back({"spot_passed", "From the record: a spot of clean water bore " + fixed(borne, 0) + " g/m² in a pass, read dry. One good spot proves little.", "note", seen});
    }
    for (const auto& name : failed_on(piece, request.known.panel)) {
        out.failed.push_back(name);
        out.reasons.push_back({"spot_failed", "From the record: a test spot of " + name + " failed on this class of panels. Lay none of it on.", "caution", seen});
    }
    return out;
}

BenchStep stop_step(const std::string& liquid) {
    BenchStep s;
    s.title = "Stop: " + liquid + " failed on a spot";
    s.how = "A test spot of it failed on this leather, read dry. Do not work this card. Choose another rinse and plan again.";
    s.caution = "A spot that failed outranks what is computed.";
    return s;
}

}  // namespace

Result<RebalanceAnswer> rebalance(const RebalanceRequest& given, Ports& ports, const Progress& progress) {
    RebalanceRequest request = given;
    request.known.members = request.members;
    request.known.happened.members = request.members;
    // People first: what has met, and what is asked for, before any other fault of the request.
    HW_TRY(before, passes_of_panel(request.known, ports));
    HW_TRY(residue, residue_on(request, before, ports));
    const std::vector<OnPiece>& on_piece = residue.there;
    HW_TRY(remedies, remedies_of(request, on_piece));
    if (residue.met) {
        RebalanceAnswer a = stopped(stop_from(*residue.met), false);
        a.remedies = remedies;
        return a;
    }
    HW_TRY(from_spots, take_spots(request, ports));
    if (const auto wrong = bad(request)) return *wrong;
    JudgeRequest about = request.known.happened;
    if (request.known.nothing_laid) about.liquid = clean_water();
    auto asked = asked_of(about, ports);
    if (!asked.ok()) return Error{asked.error().code, asked.error().message, asked.error().where == "members" ? "members" : "known.happened." + asked.error().where};
    if (const auto& stop = asked->stop ? asked->stop : asked->no_water) {
        RebalanceAnswer a = stopped(*stop, !asked->stop);
        a.remedies = remedies;
        return a;
    }

    HW_TRY(learned, learned_from(request.known, ports, part(progress, 0, 0.3)));
    const Known& known = learned.known;
    if (known.stop) {
        RebalanceAnswer a = stopped(*known.stop, false);
        a.remedies = remedies;
        return a;
    }
    if (const auto& stop = learned.happening.no_water) {
        RebalanceAnswer a = stopped(*stop, true);
        a.remedies = remedies;
        return a;
    }
    const leather::Hide& hide = known.question.hide;
    const bool oil_rot = request.known.nothing_laid && hide.tannage_key != "vegetable";
    const Window window = window_of(request, learned.happening.readings, hide);
    if (!(window.low_ph < window.high_ph)) return Error{ErrorCode::InvalidInput, "The window would reach from pH " + fixed(window.low_ph, 1) + " to " + fixed(window.high_ph, 1) + ". Give its other end too.", request.window_low_ph ? "window_low_ph" : "window_high_ph"};
    const Moisture moisture = moisture_of(request, hide, oil_rot);
    if (moisture.pass_g_m2 > moisture.day_g_m2) return Error{ErrorCode::InvalidInput, "A pass of " + fixed(moisture.pass_g_m2, 0) + " g/m² is more than the " + fixed(moisture.day_g_m2, 0) + " g/m² of a day. Lower it, or give your own figure of a day too.", request.pass_g_m2 ? "pass_g_m2" : "day_g_m2"};
    // A ring comes by what custom knows of it, whatever the shop allows itself.
    const Aim aim{window.low_ph, window.high_ph, treatment::moisture_budget(hide.class_key).pass_g_m2, treatment::is_open(hide), hide.tannage_key == "vegetable", window.of_readings};
    HW_TRY(rinses, shelf_rinses(request.rinses, hide, on_piece, moisture, known.question.story.air, ports.store));
    Planner p{Scene{request, hide, aim, window, moisture, request.area_cm2 * 1e-4, false, oil_rot}, known, rinses, progress, {}, {}, {}, request.members <= quick_members, false, 0, 0, 0, 0};
    p.all.resize(known.members.size());
    std::iota(p.all.begin(), p.all.end(), std::size_t{0});
    HW_TRY(looked_at, look_at_ways(p));
    static_cast<void>(looked_at);
    Looked& best = chosen(p);
    tell_sentences(p);
    best.told.recommended = true;

    RebalanceAnswer a;
    a.version = std::string(program_version);
    a.preliminary = p.quick;
    a.members = static_cast<int>(known.members.size());
    a.window = window;
    a.remedies = remedies;
    a.sentence = plan_sentence(p, best);
    a.how_sure = how_sure_of(p, best);
    const Band left = band_of(each(p.ways.front().followed, [](const Under& u) { return 1000 * u.left_mol_m2; }), "mmol/m²");
    a.left = number(left.median, std::max(least_mmol_m2, (left.high_90 - left.low_90) / 2), "mmol/m²", Standing::Derived, "nine of ten members");
    HW_TRY(cannot, cannot_of(p));
    a.cannot = cannot;
    a.card = card_of(p.scene, best);
    for (const auto& failed : from_spots.failed)
        if (best.design && best.design->rinse->liquid.name == failed) a.card.insert(a.card.begin(), stop_step(failed));
    a.reasons = from_spots.reasons;
    a.expected = expected_of(p.scene, best);
    a.ledger = ledger_of(p, on_piece);
    add_reasons(p, best, a.reasons);
    if (best.proposal) {
        const std::size_t typical = standing_for(p.ways.front().followed, 1).front();
        HW_TRY(section, section_of(known, typical, *best.proposal));
        a.section = section;
    }
    HW_TRY(refined, told_of(learned, request.known, ports));
    a.refined = refined;
    if (!refined.misfits.empty()) tell_misfit(request.known, p, best, refined.misfits, a);
    tell_next(p, best, request.known, ports, a);
    for (const auto& n : known.notes) a.reasons.push_back(n);
    a.defaults_used = refined.defaults_used;
    a.cautions = {"Gloves, and open windows while anything is sprayed.", "The product's own data sheet and your local rules come first.", "A hidden spot first, read dry. It may not come back as it was.", "Stop when colour comes off, a ring shows or the leather stiffens, and plan again."};
    for (auto& l : p.ways) {
        add_source(a.sources, l.told.basis);
        a.ways.push_back(l.told);
    }
    std::stable_sort(a.ways.begin(), a.ways.end(), [](const WayAnswer& x, const WayAnswer& y) {
        if (x.recommended != y.recommended) return x.recommended;
        if (x.possible != y.possible) return x.possible;
        return x.possible && x.loss_min < y.loss_min;
    });
    for (const auto& reason : a.reasons) add_source(a.sources, reason.basis);
    for (const auto& remedy : a.remedies) add_source(a.sources, remedy.basis);
    return a;
}

}  // namespace hw::desk
