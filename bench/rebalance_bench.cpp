// Question: does the plan of `rebalance` do better than always acid, always water, or never, on leather that is not the one of
// its model? Size: 200 seeded cases. What happens to them is solved by another model than the plan's: twice the cells at a
// hundredth of the tolerance, constants outside the nine tenths that the plan believes in, other binding sites, another ionic
// strength, a dose told wrong by a factor of two. The plan hears what a restorer would: the story, a reading of the place, one of
// a sheltered place, at times one of the product. Losses are the desk's own (docs/theory/plan.md), so a plan that makes them small
// wins by them partly by construction: what plainly happened stands beside them, and what the plan had told of its own chances.
//   --cases N  --members M  --seed S  --threads T  --case K (that one alone)  --no-loop
#include <sched.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <csignal>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "atlas/decision_losses.hpp"
#include "atlas/leather_limits.hpp"
#include "atlas/look_shifts.hpp"
#include "core/belief/spread.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/treatment/harm.hpp"
#include "core/treatment/moisture.hpp"
#include "desk/demo.hpp"
#include "desk/looks.hpp"
#include "desk/plan.hpp"
#include "desk/question.hpp"
#include "desk/rules.hpp"
#include "desk/words.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;
using belief::Spread;

constexpr double hour_s = 3600, week_s = 168 * hour_s;
/// Losses no further apart than the work of a reading are a tie: what is left alone and what is read again first.
double tie_min() { return plan_rule("reading_work").limit_min + 1e-6; }
constexpr double truth_mesh_1 = 2, truth_tolerance_1 = 1e-4;

// ---- draws

class Luck {
public:
    explicit Luck(std::uint64_t seed) : engine_(seed) { engine_.discard(16); }
    double even() { return (static_cast<double>(engine_() >> 12) + 0.5) * 0x1p-52; }
    double even(double low, double high) { return low + (high - low) * even(); }
    double log_even(double low, double high) { return std::exp(even(std::log(low), std::log(high))); }
    double bell(double sd) { return belief::quantile({Spread::Shape::Bell, -half_90_1 * sd, 0, half_90_1 * sd}, even()); }
    double of(const Spread& s) { return belief::quantile(s, even()); }
    /// Outside the nine tenths: below the 5 % point or above the 95 % one, either side alike, to a thousandth at the far end.
    double outside(const Spread& s) {
        const double tail = even(0.001, 0.05);
        return belief::quantile(s, even() < 0.5 ? tail : 1 - tail);
    }
    /// A factor between `least` and `most`, or one over it.
    double either(double least, double most) {
        const double factor = log_even(least, most);
        return even() < 0.5 ? 1 / factor : factor;
    }
    template <class T, std::size_t n>
    const T& one_of(const std::array<T, n>& of_these) { return of_these[static_cast<std::size_t>(even() * n)]; }

private:
    std::mt19937_64 engine_;
};

Spread spread_of(const char* key) {
    const auto& row = unknown_row(key);
    const auto shape = row.shape == "tent" ? Spread::Shape::Tent : row.shape == "ratio_bell" ? Spread::Shape::RatioBell : Spread::Shape::Bell;
    return {shape, row.low_1, row.middle_1, row.high_1};
}

// ---- the desk

struct Desk {
    Desk() {
        for (const auto& l : demo_liquids())
            if (!store.keep_liquid(l).ok()) throw Bug("the shelf takes no demo liquid");
    }
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
};

template <class T>
T must(Result<T> r, const char* what) {
    if (!r.ok()) throw Bug(std::string(what) + ": " + r.error().message + " at " + r.error().where);
    return std::move(*r);
}

// ---- a case: what is told, and what is so

struct Case {
    int number = 0;
    RebalanceRequest told;
    double told_g_m2 = 0, area_m2 = 0.09;
    // What is so.
    leather::Hide hide;                           ///< `ph` is where it starts, and where the sheltered place stays
    treatment::Story story;
    chem::Totals liquid;                          ///< as used
    double neat_ph = 7;
    double shift_ph = 0;                          ///< of every surface reading, by the finish
    double hand_1 = 1;                            ///< what the blotting leaves, against the usual
    double grain_water_1 = 1, grain_solute_1 = 1, ionic_1 = 1;
};

struct Product {
    const char* id;
    bool sprayed;
};
// Eight of ten alkaline. Bleach and what has no label stop every plan before it begins: they are not asked here.
constexpr std::array<Product, 10> products{{{"demo_all_purpose", true}, {"demo_concentrate", false}, {"demo_degreaser", true}, {"demo_glass_amine", true}, {"demo_saddle_soap", false}, {"demo_ammonia", false}, {"demo_lye", false}, {"demo_baking_soda", false}, {"demo_vinegar", false}, {"demo_acid_rinse", false}}};
constexpr std::array<const char*, 7> classes{"aniline", "refined_aniline", "nubuck", "semi_aniline", "pigmented_furniture", "pigmented_automotive", "corrected_grain"};
constexpr std::array<const char*, 3> tannages{"chrome", "chrome", "vegetable"};

double limit_of(std::string_view key) {
    for (const auto& row : atlas::leather_limits)
        if (row.key == key) return row.limit_ph;
    throw Bug("no limit " + std::string(key));
}

/// Where the leather should end, by the rule of the plan but from what the sheltered place is, not from what was read there.
Window true_window(const Case& c) {
    const bool vegetable = c.hide.tannage_key == "vegetable";
    const double half = plan_rule("window_half").limit_ph, sound = plan_rule(vegetable ? "vegetable_sound_from" : "sound_from").limit_ph;
    Window w;
    const double top = limit_of(vegetable ? "vegetable_upper" : "museum_upper");
    w.low_ph = std::min(std::max(c.hide.ph - half, sound), top - half);
    w.high_ph = std::max(std::min(top, c.hide.ph + half), w.low_ph + half);
    return w;
}

double read(Luck& luck, double is, const char* kind, double shift) {
    return std::round(10 * (is + shift + luck.bell(look_kind(kind)->half_1 / half_90_1))) / 10;
}

Look look(const char* kind, double value, double at_h) {
    Look l;
    l.kind = kind;
    l.value_1 = value;
    l.at_h = at_h;
    return l;
}

Case drawn(int number, Luck& luck, Desk& desk) {
    Case c;
    c.number = number;
    RefineRequest& known = c.told.known;
    Leather& leather = known.happened.leather;
    leather.leather_class = luck.one_of(classes);
    leather.tannage = luck.one_of(tannages);
    const Product product = luck.one_of(products);
    Liquid sheet = must(desk.store.liquid(product.id), "shelf");
    known.happened.liquid = sheet;

    // Told: how much on how large a place, how long, how much was wiped off, how long ago.
    Use& use = known.happened.use;
    use.dose.area_cm2 = std::round(luck.log_even(300, 4000) / 100) * 100;
    c.area_m2 = use.dose.area_cm2 * 1e-4;
    use.dose.amount = product.sprayed ? Amount::Sprays : Amount::Grams;
    const GramsPer per = grams_per(use.dose.amount);
    use.dose.count = std::max(1.0, std::round(luck.log_even(15, 150) * c.area_m2 / per.amount_g));
    use.dwell_s = luck.one_of(std::array{60.0, 120.0, 300.0, 600.0});
    use.wiped_off_pct = luck.one_of(std::array{0.0, 30.0, 50.0, 80.0});
    known.now_h = luck.one_of(std::array{2.0, 6.0, 24.0, 48.0, 72.0, 120.0});
    c.told.area_cm2 = use.dose.area_cm2;
    c.told_g_m2 = use.dose.count * per.amount_g / c.area_m2;

    // So: the dose, a factor of two from what was told (one standard deviation of its logarithm), the pull and the area beside.
    c.story = must(story_of(use), "story");
    c.story.dose_kg_m2 *= std::exp(luck.bell(std::log(2.0)));
    if (product.sprayed) c.story.dose_kg_m2 *= luck.of({Spread::Shape::Tent, per.low_g / per.amount_g, 1, per.high_g / per.amount_g});
    c.story.dose_kg_m2 /= luck.of(spread_of("area"));
    const Spread wiped = spread_of("wiped");
    if (c.story.wiped_1 > 0) c.story.wiped_1 = std::clamp(1 - (1 - c.story.wiped_1) * luck.of(wiped), 0.0, 0.99);
    c.hand_1 = luck.of(wiped);                    // the plan believes that this hand is the one that wiped
    c.story.humidity_1 = std::clamp(c.story.humidity_1 + luck.of(spread_of("humidity")), 0.2, 0.8);
    c.story.air_speed_m_s *= luck.of(spread_of("air_speed"));
    for (auto& i : sheet.ingredients) i.content_pct = *i.content_pct * luck.even(0.8, 1.2);  // batches differ
    const chem::Totals neat = must(reconciled(sheet, c.story.air), "liquid").neat;
    c.liquid = chem::diluted(neat, use.parts_water, use.hardness_mg_l);
    c.neat_ph = must(chem::equilibrium(neat, {}), "liquid").ph;

    // So: the leather, every constant outside the nine tenths that are believed of it.
    c.hide = must(leather::hide(leather.leather_class, leather.tannage, {}), "hide");
    c.hide.thickness_mm *= luck.outside(spread_of("thickness"));
    c.hide.finish_water_kg_m_s *= luck.outside(spread_of("finish"));
    c.hide.finish_solute_1 = std::min(0.5, c.hide.finish_solute_1 * luck.outside(spread_of("finish")));  // the plan moves both by one factor
    c.hide.sites = leather::binding_sites(c.hide.tannage_key, luck.outside(spread_of("buffering")));
    for (auto& site : c.hide.sites) site.amount_mol_kg *= luck.even(0.85, 1.15), site.pka_1 += luck.bell(0.15);
    c.grain_water_1 = luck.either(1.5, 3);        // these three the plan takes as they are
    c.grain_solute_1 = luck.either(1.3, 2);
    c.ionic_1 = luck.even(1, 3);                  // salts of leather and residue thicken as it dries
    Spread start = spread_of("start_told");
    for (double* end : {&start.low, &start.middle, &start.high}) *end += c.hide.ph;
    start.least = c.hide.tannage_key == "vegetable" ? plan_rule("vegetable_sound_from").limit_ph : plan_rule("sound_from").limit_ph;  // sound before it happened
    start.most = 5.5;
    c.hide.ph = luck.of(start);
    for (const auto& row : atlas::look_shifts)
        if (row.leather_class == c.hide.class_key) c.shift_ph = luck.of({Spread::Shape::Bell, -row.half_ph, 0, row.half_ph});
    return c;
}

// ---- what happens

double ionic_of(const chem::Totals& liquid) { return must(chem::equilibrium(liquid, {}), "liquid").ionic_strength_mol_kg; }

/// A story as it really goes on.
struct Story {
    treatment::Course course;
    double at_s = 0;                              ///< it has gone so far
    double ionic_mol_kg = 0;
    double laid_g_m2 = 0;                         ///< water laid on since the plan began
};

Story begun(const Case& c) {
    Story s;
    s.course = treatment::course_of(c.liquid, c.story);
    s.ionic_mol_kg = ionic_of(c.liquid);
    s.at_s = c.told.known.now_h * hour_s;
    s.course.layings.back().then_s = s.at_s - c.story.dwell_s;
    return s;
}

void go_on(Story& s, const Case& c, const Proposal& p) {
    auto& layings = s.course.layings;
    const double before = p.layings.empty() ? p.lasts_s() : std::max(1.0, p.first_wait_s);
    layings.back().then_s += before;
    s.at_s += before;
    const std::size_t first = s.course.liquids.size();
    s.course.liquids.insert(s.course.liquids.end(), p.liquids.begin(), p.liquids.end());
    s.ionic_mol_kg = std::max(s.ionic_mol_kg, p.ionic_strength_mol_kg);
    for (treatment::Laying l : p.layings) {
        s.laid_g_m2 += 1000 * l.kg_m2 * p.liquids[l.liquid].water_kg_kg;
        l.liquid += first;
        l.taken_off_1 = std::clamp(1 - (1 - l.taken_off_1) * c.hand_1, 0.0, 0.99);
        s.at_s += l.lasts_s();
        layings.push_back(std::move(l));
    }
    if (p.layings.empty()) return;
    layings.back().then_s += p.rest_s;
    s.at_s += p.rest_s;
}

/// A moment that ends no wait becomes one that does: every wait ends with a snapshot.
void cut_at(std::vector<diffusion::Stage>& stages, double moment_s) {
    double t = 0;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const double ends = t + stages[i].duration_s;  // a Lay or a Wipe takes none
        if (stages[i].kind == diffusion::Stage::Kind::Wait && t < moment_s - 1e-6 && moment_s + 1e-6 < ends) {
            diffusion::Stage rest = stages[i];
            rest.duration_s = ends - moment_s;
            stages[i].duration_s = moment_s - t;
            stages.insert(stages.begin() + static_cast<std::ptrdiff_t>(i) + 1, rest);
            return;
        }
        t = ends;
    }
}

/// The story solved by the other model, left alone until `until_s`.
treatment::Exposure happened(const Story& s, const Case& c, double until_s, const std::vector<double>& moments) {
    treatment::Course course = s.course;
    course.layings.back().then_s += std::max(0.0, until_s - s.at_s);
    treatment::Setting x = treatment::setting(course, c.hide, c.ionic_1 * std::max(0.1, s.ionic_mol_kg), 2e-4);
    for (auto& layer : x.layers) {
        if (layer.finish) continue;
        layer.water_conductivity_kg_m_s *= c.grain_water_1;
        layer.solute_share_1 = std::min(0.5, layer.solute_share_1 * c.grain_solute_1);
    }
    for (double moment : moments) cut_at(x.stages, moment);
    x.options.mesh_1 = truth_mesh_1;
    x.options.tolerance_1 = truth_tolerance_1;
    x.options.max_time_steps = 100000;
    x.options.lean = true;
    auto section = must(diffusion::run_section(x.components, x.layers, x.stages, x.options), "section");
    return treatment::solved(x, c.hide, std::move(section));
}

std::size_t at_or_before(const treatment::Exposure& e, double moment_s) {
    std::size_t k = 0;
    while (k + 1 < e.section.snapshots.size() && e.section.snapshots[k + 1].at_s <= moment_s * (1 + 1e-9) + 1e-6) ++k;
    return k;
}

struct Score {
    Under end, told_end;                          ///< against the window that is right, and the one that the plan told
    bool week_surface = false, week_grain = false;///< inside, a week after the plan was asked for
    double work_min = 0, wait_h = 0, loss_min = 0, told_loss_min = 0;
    int passes = 0;
    bool referred = false;
    std::string words;
};

double refer_loss(Ends ends) {
    constexpr std::array<std::string_view, 4> states{"within", "surface", "grain", "deep"};
    for (const auto& row : atlas::decision_losses)
        if (row.key == "refer" && row.state == states[static_cast<std::size_t>(ends)]) return row.loss_min;
    throw Bug("no loss of a state that is referred");
}

Score scored(const Story& s, const Case& c, const Window& told, double work_min, double wait_h, std::string words) {
    const double now_s = c.told.known.now_h * hour_s;
    const treatment::Exposure e = happened(s, c, now_s + week_s, {now_s, s.at_s});
    const std::size_t now = at_or_before(e, now_s), end = at_or_before(e, s.at_s), week = e.section.snapshots.size() - 1;
    const double pass_g_m2 = treatment::moisture_budget(c.hide.class_key).pass_g_m2;
    const bool open = treatment::is_open(c.hide), vegetable = c.hide.tannage_key == "vegetable";
    const Window right = true_window(c);
    Score out;
    const Aim aim{right.low_ph, right.high_ph, pass_g_m2, open, vegetable};
    out.end = under_of(e, c.hide, now, end, aim, 0);
    out.end.net_g_m2 += s.laid_g_m2;
    out.told_end = under_of(e, c.hide, now, end, {told.low_ph, told.high_ph, pass_g_m2, open, vegetable, told.of_readings}, c.shift_ph);
    const Under later = under_of(e, c.hide, now, week, aim, 0);
    out.week_surface = later.inside_surface;
    out.week_grain = later.inside_depth;
    out.work_min = work_min;
    out.wait_h = wait_h;
    out.loss_min = losses_of({{}, {}, {out.end}}, work_min, wait_h).front();
    out.told_loss_min = losses_of({{}, {}, {out.told_end}}, work_min, wait_h).front();
    out.words = std::move(words);
    return out;
}

// ---- policies

enum Policy { ThePlan, AlwaysAcid, AlwaysWater, Never, TheLoop, policies };
constexpr std::array<const char*, policies> policy_names{"the plan", "always acid", "always water", "never", "plan, read, plan again"};

ShelfRinse shelf_rinse(const std::string& id, Desk& desk) {
    ShelfRinse r;
    r.liquid = must(desk.store.liquid(id), "shelf");
    if (r.liquid.family == "water") {
        r.totals = chem::tap_water(0);
        r.water = true;
    } else r.totals = must(reconciled(r.liquid, Temperature::celsius(20)), "rinse").neat;
    const auto e = must(chem::equilibrium(r.totals, {}), "rinse");
    r.ph = e.ph;
    r.ionic_strength_mol_kg = e.ionic_strength_mol_kg;
    return r;
}

/// What custom does, whatever was read: three passes of 30 g/m2, or of what the class bears, a minute each, blotted.
Design by_custom(const ShelfRinse& rinse, const Case& c) {
    const double g_m2 = std::min(30.0, treatment::moisture_budget(c.hide.class_key).pass_g_m2);
    return design_of(rinse, 3, 1, g_m2, 60, plan_rule(treatment::is_open(c.hide) ? "blot_open" : "blot_finished").limit_pct / 100, 0, c.area_m2);
}

const WayAnswer& way_of(const RebalanceAnswer& a, std::optional<Way> which) {
    for (const auto& w : a.ways)
        if (which ? w.way == *which : w.recommended) return w;
    throw Bug("a way is missing");
}

std::string_view word_of(Way way) {
    for (const auto& [value, name] : EnumNames<Way>::names)
        if (value == way) return name;
    throw Bug("a way without a word");
}

/// What the answer says to do. `passes`: as they are told the next time, begun at `from_h`.
struct ToDo {
    Proposal proposal;
    double work_min = 0;
    std::vector<Pass> passes;
    bool nothing_more = false, refer = false;
    std::string words;
};
ToDo to_do(const WayAnswer& w, bool first_day_only, double from_h, double area_m2, Desk& desk) {
    ToDo out;
    out.words = std::string(word_of(w.way));
    out.proposal.rest_s = plan_rule("wait").limit_h * hour_s;
    switch (w.way) {
        case Way::LeaveAlone: out.nothing_more = true; return out;
        case Way::StopAndRefer: out.refer = out.nothing_more = true; return out;
        case Way::WaitAndRead: out.work_min = w.work_min; return out;
        case Way::BlotAndDry:
            out.work_min = w.work_min;
            out.proposal.liquids.push_back(chem::tap_water(0));
            out.proposal.layings.push_back({0, 0, 0, plan_rule("blot_off").limit_pct / 100, "", "blotted", 0, press_s()});
            out.proposal.rest_s = plan_rule("rest").limit_h * hour_s;
            out.passes.emplace_back();            // told as a blotting with next to no water before it
            out.passes.back().liquid.id = "demo_water";
            out.passes.back().g_m2 = 0.1;
            out.passes.back().dwell_s = 1;
            out.passes.back().blotted_pct = plan_rule("blot_off").limit_pct;
            out.passes.back().at_h = from_h + 1 / hour_s;
            return out;
        default: break;
    }
    if (!w.rinse) throw Bug("a way without a rinse: " + out.words);
    const RinsePlan& r = *w.rinse;
    static std::vector<std::unique_ptr<ShelfRinse>> kept;  // designs point to it
    kept.push_back(std::make_unique<ShelfRinse>(shelf_rinse(r.liquid_id, desk)));
    const int days = first_day_only ? 1 : r.days, a_day = r.passes / r.days;
    const Design d = design_of(*kept.back(), a_day, days, r.g_m2, r.dwell_s, r.blotted_pct / 100, 0, area_m2);
    out.proposal = d.proposal;
    out.work_min = d.work_min;
    out.words += " " + std::to_string(a_day) + " x " + fixed(r.g_m2, 0) + " g/m2 " + r.liquid_id + (days > 1 ? " on " + std::to_string(days) + " days" : "");
    double t_s = from_h * hour_s + 1;
    for (const auto& l : d.proposal.layings) {
        Pass p;
        p.liquid.id = r.liquid_id;
        p.g_m2 = r.g_m2;
        p.dwell_s = r.dwell_s;
        p.blotted_pct = r.blotted_pct;
        p.at_h = t_s / hour_s;
        t_s += l.lasts_s();
        out.passes.push_back(p);
    }
    return out;
}

/// A chance that was told, and whether it came so.
struct Told {
    double chance_1 = 0;
    bool came = false, came_right = false;        ///< in the window as told; in the one that is right
};

struct Played {
    Case c;
    std::array<std::optional<Score>, policies> scores;
    std::string read, plan_sentence, ways;         ///< `ways`: what the plan expected of each
    std::string acid;                             ///< whether a buffer was among the ways, or why not
    bool still_wet = false;
    std::array<Told, 4> of_plan{}, of_nothing{};  ///< inside at the surface, inside in the grain, past a limit, ring
    double told_loss_min = 0, told_alone_min = 0; ///< expected by the plan, of its way and of leaving alone
    bool plan_told = false;                       ///< the plan told chances
};

std::array<Told, 4> told_of_way(const WayAnswer& w, const Score& s) {
    return {{{*w.inside_surface_1, s.told_end.inside_surface, s.end.inside_surface}, {*w.inside_depth_1, s.told_end.inside_depth, s.end.inside_depth}, {*w.past_limit_1, s.told_end.past_limit, s.end.past_limit}, {w.ring_1.value_or(0), s.end.ring, s.end.ring}}};
}

Score referred(const Score& never, const WayAnswer& w) {
    Score s = never;
    s.loss_min = refer_loss(never.end.ends);
    s.told_loss_min = refer_loss(never.told_end.ends);
    s.work_min = 0;
    s.referred = true;
    s.words = std::string(word_of(w.way));
    return s;
}

struct Settings {
    int cases = 200, members = 64, only = -1, threads = 0;
    std::uint64_t seed = 1;
    bool loop = true;
};

/// The first day of the plan, a reading, and the plan again: three rounds at most.
Score looped(const Case& c, const RebalanceRequest& asked, const RebalanceAnswer& first, const Score& never, Luck& luck, Desk& desk) {
    Story s = begun(c);
    RebalanceRequest r = asked;
    RebalanceAnswer a = first;
    double work_min = 0;
    int passes = 0;
    std::string words;
    for (int round = 1; round <= 3; ++round) {
        const WayAnswer& w = way_of(a, std::nullopt);
        const ToDo todo = to_do(w, true, r.known.now_h, c.area_m2, desk);
        words += (round > 1 ? "; " : "") + todo.words;
        if (todo.refer && round == 1) return referred(never, w);
        if (todo.refer) work_min += refer_loss(Ends::Within);  // packing and carriage, whatever was done before
        if (todo.nothing_more) {
            if (round == 1) go_on(s, c, todo.proposal);
            break;
        }
        go_on(s, c, todo.proposal);
        work_min += todo.work_min;
        passes += static_cast<int>(todo.passes.size());
        if (round == 3) break;
        const treatment::Exposure e = happened(s, c, s.at_s, {});
        r.known.now_h = s.at_s / hour_s;
        r.known.passes.insert(r.known.passes.end(), todo.passes.begin(), todo.passes.end());
        r.known.readings.push_back(look("surface_ph", read(luck, e.surface_ph.back(), "surface_ph", c.shift_ph), r.known.now_h));
        r.still_wet = false;
        words += ", reads " + fixed(r.known.readings.back().value_1, 1);
        a = must(rebalance(r, desk.ports), "plan again");
    }
    Score out = scored(s, c, first.window, work_min, s.at_s / hour_s - c.told.known.now_h, words);
    out.passes = passes;
    return out;
}

Played played(int number, const Settings& settings) {
    Luck luck(settings.seed * 1000003 + static_cast<std::uint64_t>(number));
    Desk desk;
    Played out;
    out.c = drawn(number, luck, desk);
    Case& c = out.c;
    RebalanceRequest& r = c.told;
    r.members = settings.members;
    {
        const Story s = begun(c);
        const treatment::Exposure e = happened(s, c, s.at_s, {});
        const double surface = read(luck, e.surface_ph.back(), "surface_ph", c.shift_ph), control = read(luck, c.hide.ph, "control_ph", c.shift_ph);
        r.known.readings = {look("surface_ph", surface, r.known.now_h), look("control_ph", control, 0)};
        out.read = "surface " + fixed(surface, 1) + " (is " + fixed(e.surface_ph.back(), 1) + "), sheltered " + fixed(control, 1) + " (is " + fixed(c.hide.ph, 1) + ")";
        if (luck.even() < 0.3) {
            r.known.readings.push_back(look("product_ph", read(luck, c.neat_ph, "product_ph", 0), 0));
            out.read += ", product " + fixed(r.known.readings.back().value_1, 1);
        }
        out.still_wet = r.still_wet = e.section.snapshots.back().film_kg_m2 > treatment::film_gone_kg_m2;
    }
    const RebalanceAnswer a = must(rebalance(r, desk.ports), "plan");
    out.plan_sentence = a.sentence;
    for (const auto& w : a.ways) out.ways += (out.ways.empty() ? "" : "; ") + std::string(word_of(w.way)) + " " + (w.possible ? fixed(w.loss_min, 0) + " min" : "refused: " + w.refused);
    const WayAnswer& buffer = way_of(a, Way::BufferedAcid);
    out.acid = buffer.possible ? "may" : buffer.refused.substr(0, 34);
    const auto play = [&](const Proposal& p, double work_min, std::string words) {
        Story s = begun(c);
        go_on(s, c, p);
        Score score = scored(s, c, a.window, work_min, p.lasts_s() / hour_s, std::move(words));
        score.passes = static_cast<int>(p.layings.size());
        return score;
    };
    Proposal wait;
    wait.rest_s = plan_rule("wait").limit_h * hour_s;
    out.scores[Never] = play(wait, 0, "nothing");
    const ShelfRinse acid = shelf_rinse("demo_rinse_acetate", desk), water = shelf_rinse("demo_water", desk);
    const Design acids = by_custom(acid, c), waters = by_custom(water, c);
    out.scores[AlwaysAcid] = play(acids.proposal, acids.work_min, "3 passes of demo_rinse_acetate");
    out.scores[AlwaysWater] = play(waters.proposal, waters.work_min, "3 passes of water");
    const WayAnswer& best = way_of(a, std::nullopt);
    const ToDo todo = to_do(best, false, r.known.now_h, c.area_m2, desk);
    out.scores[ThePlan] = todo.refer ? referred(*out.scores[Never], best) : play(todo.proposal, todo.work_min, todo.words);
    if (const WayAnswer& alone = way_of(a, Way::LeaveAlone); alone.inside_surface_1) {
        out.of_nothing = told_of_way(alone, *out.scores[Never]);
        out.told_alone_min = alone.loss_min;
    }
    if (best.inside_surface_1) {
        out.plan_told = true;
        out.of_plan = told_of_way(best, *out.scores[ThePlan]);
        out.told_loss_min = best.loss_min;
    }
    if (settings.loop) out.scores[TheLoop] = looped(c, r, a, *out.scores[Never], luck, desk);
    return out;
}

// ---- tables

double mean(const std::vector<double>& v) {
    double sum = 0;
    for (double x : v) sum += x;
    return v.empty() ? 0 : sum / static_cast<double>(v.size());
}
/// Standard error of the mean.
double error_of(const std::vector<double>& v) {
    if (v.size() < 2) return 0;
    const double m = mean(v);
    double sum = 0;
    for (double x : v) sum += (x - m) * (x - m);
    return std::sqrt(sum / static_cast<double>(v.size() - 1) / static_cast<double>(v.size()));
}
std::vector<double> each(const std::vector<Played>& all, Policy p, const std::function<double(const Score&)>& of) {
    std::vector<double> out;
    for (const auto& x : all)
        if (x.scores[p]) out.push_back(of(*x.scores[p]));
    return out;
}
double share(const std::vector<Played>& all, Policy p, const std::function<bool(const Score&)>& of) {
    return mean(each(all, p, [&](const Score& s) { return of(s) ? 1.0 : 0.0; }));
}

void print_losses(const std::vector<Played>& all) {
    std::printf("\nLoss, minutes of work (the desk's own table), and what the plan wins, ties (within %.0f min, a reading) and loses against it:\n", tie_min());
    std::printf("  %-24s %8s %8s %8s   %5s %5s %5s   %s\n", "", "mean", "median", "worst", "wins", "ties", "loses", "plan is better by, mean ± standard error");
    for (int p = 0; p < policies; ++p) {
        auto losses = each(all, static_cast<Policy>(p), [](const Score& s) { return s.loss_min; });
        if (losses.empty()) continue;
        std::sort(losses.begin(), losses.end());
        std::printf("  %-24s %8.1f %8.1f %8.1f", policy_names[static_cast<std::size_t>(p)], mean(losses), losses[losses.size() / 2], losses.back());
        if (p == ThePlan) {
            std::printf("\n");
            continue;
        }
        int wins = 0, ties = 0, loses = 0;
        std::vector<double> better;
        for (const auto& x : all) {
            const double d = x.scores[static_cast<std::size_t>(p)]->loss_min - x.scores[ThePlan]->loss_min;
            better.push_back(d);
            ++(d > tie_min() ? wins : d < -tie_min() ? loses : ties);
        }
        std::printf("   %5d %5d %5d   %+.1f ± %.1f\n", wins, ties, loses, mean(better), error_of(better));
    }
    std::printf("  against the window that the plan told instead of the right one:");
    for (int p = 0; p < policies; ++p)
        if (all.front().scores[static_cast<std::size_t>(p)]) std::printf(" %s %.1f;", policy_names[static_cast<std::size_t>(p)], mean(each(all, static_cast<Policy>(p), [](const Score& s) { return s.told_loss_min; })));
    std::printf("\n");
}

void print_plain(const std::vector<Played>& all) {
    std::printf("\nWhat plainly happened, of 100 (window: half a unit around where the sheltered place is; a limit: passed on the way and not before):\n");
    std::printf("  %-24s %8s %8s %8s %8s %8s %8s %8s | %8s %8s | %8s %8s %8s\n", "", "surface", "grain", "both", "limit", "still", "ring", "darkens", "surface", "grain", "g/m2", "work,", "passes");
    std::printf("  %-24s %8s %8s %8s %8s %8s %8s %8s | %17s | %8s %8s\n", "", "inside", "inside", "inside", "passed", "past one", "", "", "after a week", "stay", "min");
    for (int i = 0; i < policies; ++i) {
        const auto p = static_cast<Policy>(i);
        if (!all.front().scores[static_cast<std::size_t>(i)]) continue;
        const auto pct = [&](const std::function<bool(const Score&)>& of) { return 100 * share(all, p, of); };
        std::printf("  %-24s %8.1f %8.1f %8.1f %8.1f %8.1f %8.1f %8.1f | %8.1f %8.1f | %8.1f %8.1f %8.1f\n", policy_names[static_cast<std::size_t>(i)], pct([](const Score& s) { return s.end.inside_surface; }), pct([](const Score& s) { return s.end.inside_depth; }),
                    pct([](const Score& s) { return s.end.inside_surface && s.end.inside_depth; }), pct([](const Score& s) { return s.end.passes_on_the_way; }), pct([](const Score& s) { return s.end.past_limit; }), pct([](const Score& s) { return s.end.ring; }),
                    pct([](const Score& s) { return s.end.darkens; }), pct([](const Score& s) { return s.week_surface; }), pct([](const Score& s) { return s.week_grain; }), mean(each(all, p, [](const Score& s) { return s.end.net_g_m2; })),
                    mean(each(all, p, [](const Score& s) { return s.work_min; })), mean(each(all, p, [](const Score& s) { return static_cast<double>(s.passes); })));
    }
}

void print_groups(const std::vector<Played>& all, const char* title, const std::function<std::string(const Played&)>& group) {
    std::vector<std::string> names;
    for (const auto& x : all)
        if (std::find(names.begin(), names.end(), group(x)) == names.end()) names.push_back(group(x));
    std::sort(names.begin(), names.end());
    std::printf("\nMean loss %s:\n  %-34s %6s", title, "", "cases");
    for (const char* name : policy_names) std::printf(" %12.12s", name);
    std::printf("   plan against never: wins ties loses\n");
    for (const auto& name : names) {
        std::vector<Played> some;
        for (const auto& x : all)
            if (group(x) == name) some.push_back(x);
        std::printf("  %-34s %6zu", name.c_str(), some.size());
        for (int p = 0; p < policies; ++p) std::printf(" %12.1f", mean(each(some, static_cast<Policy>(p), [](const Score& s) { return s.loss_min; })));
        int wins = 0, loses = 0;
        for (const auto& x : some) {
            const double d = x.scores[Never]->loss_min - x.scores[ThePlan]->loss_min;
            wins += d > tie_min(), loses += d < -tie_min();
        }
        std::printf("   %d %d %d\n", wins, static_cast<int>(some.size()) - wins - loses, loses);
    }
}

constexpr std::array<const char*, 4> end_words{"within", "surface", "grain", "deep"};

std::string ends_words(const Score& s) {
    return std::string(end_words[static_cast<std::size_t>(s.end.ends)]) + ", surface " + fixed(s.end.surface_ph.front(), 1) + " to " + fixed(s.end.surface_ph.back(), 1) + ", grain " + fixed(s.end.grain_ph.front(), 1) + " to " + fixed(s.end.grain_ph.back(), 1) +
           (s.end.ring ? ", ring" : "") + (s.end.passes_on_the_way ? ", passes a limit" : "") + ", loss " + fixed(s.loss_min, 0) + " (" + s.words + ")";
}

void print_case(const Played& x) {
    const Case& c = x.c;
    const Window right = true_window(c);
    std::printf("  case %d: %s %s, %.0f cm2, %s, told %.0f g/m2, was %.0f, dwell %.0f s, wiped %.0f %%, after %.0f h%s\n", c.number, std::string(c.hide.tannage_key).c_str(), std::string(c.hide.class_key).c_str(), c.told.area_cm2, c.told.known.happened.liquid.id.c_str(), c.told_g_m2,
                1000 * c.story.dose_kg_m2, c.story.dwell_s, 100 * c.story.wiped_1, c.told.known.now_h, x.still_wet ? ", still wet" : "");
    std::printf("    read %s; right window %.1f to %.1f; finish shifts readings by %+.1f\n    \"%s\"\n", x.read.c_str(), right.low_ph, right.high_ph, c.shift_ph, x.plan_sentence.c_str());
    std::printf("    ways: %s\n", x.ways.c_str());
    if (x.plan_told) std::printf("    told: inside %.2f at the surface, %.2f in the grain, past a limit %.2f, ring %.2f, loss %.0f min (left alone: inside %.2f, %.2f, past a limit %.2f, loss %.0f min)\n", x.of_plan[0].chance_1, x.of_plan[1].chance_1, x.of_plan[2].chance_1, x.of_plan[3].chance_1, x.told_loss_min,
                    x.of_nothing[0].chance_1, x.of_nothing[1].chance_1, x.of_nothing[2].chance_1, x.told_alone_min);
    for (int p = 0; p < policies; ++p)
        if (const auto& s = x.scores[static_cast<std::size_t>(p)]) std::printf("    %-24s %s\n", policy_names[static_cast<std::size_t>(p)], ends_words(*s).c_str());
}

void print_worst(std::vector<Played> all) {
    const auto regret = [](const Played& x) { return x.scores[ThePlan]->loss_min - std::min({x.scores[Never]->loss_min, x.scores[AlwaysAcid]->loss_min, x.scores[AlwaysWater]->loss_min}); };
    std::stable_sort(all.begin(), all.end(), [&](const Played& a, const Played& b) { return regret(a) > regret(b); });
    std::printf("\nThe worst five for the plan, by what the best of the three others would have saved:\n");
    for (std::size_t i = 0; i < std::min<std::size_t>(5, all.size()) && regret(all[i]) > tie_min(); ++i) {
        std::printf("  %.0f min:\n", regret(all[i]));
        print_case(all[i]);
    }
}

void print_chances(const char* title, const std::vector<Told>& told, bool in_right_window) {
    if (told.empty()) return;
    const auto came = [&](const Told& t) { return in_right_window ? t.came_right : t.came; };
    double brier = 0, base = 0;
    for (const auto& t : told) brier += std::pow(t.chance_1 - came(t), 2), base += came(t);
    const auto n = static_cast<double>(told.size());
    base /= n;
    std::printf("  %-44s Brier %.3f; of the bare share %.2f: %.3f |", title, brier / n, base, base * (1 - base));
    constexpr std::array ends{0.1, 0.3, 0.5, 0.7, 0.9, 1.01};
    double from = 0;
    for (double to : ends) {
        double sum = 0, so = 0;
        int count = 0;
        for (const auto& t : told)
            if (t.chance_1 >= from && t.chance_1 < to) sum += t.chance_1, so += came(t), ++count;
        if (count > 0) std::printf("  %.2f: %.2f (%d)", sum / count, so / count, count);
        from = to;
    }
    std::printf("\n");
}

void print_calibration(const std::vector<Played>& all) {
    std::vector<double> told, came, alone, alone_came;
    for (const auto& x : all) {
        if (!x.plan_told) continue;
        told.push_back(x.told_loss_min), came.push_back(x.scores[ThePlan]->told_loss_min), alone.push_back(x.told_alone_min), alone_came.push_back(x.scores[Never]->told_loss_min);
    }
    std::printf("\nLoss that the plan expected of its way: %.1f, came %.1f ± %.1f; of leaving alone: %.1f, came %.1f ± %.1f (window as told)\n", mean(told), mean(came), error_of(came), mean(alone), mean(alone_came), error_of(alone_came));
    constexpr std::array<const char*, 4> what{"inside at the surface", "inside in the grain", "past a limit", "ring"};
    std::printf("\nChances that were told, and how often it came so. Each group of cases as told: came (cases)\n");
    for (bool right : {false, true})
        for (std::size_t k = 0; k < what.size(); ++k) {
            std::vector<Told> plan, nothing;
            for (const auto& x : all) {
                if (x.plan_told && x.of_plan[k].chance_1 > 0) plan.push_back(x.of_plan[k]);
                if (x.of_nothing[k].chance_1 > 0) nothing.push_back(x.of_nothing[k]);
            }
            if (right && k >= 2) continue;        // limits and rings know no window
            const std::string window = k >= 2 ? "" : right ? ", right window" : ", window as told";
            print_chances((std::string("plan, ") + what[k] + window).c_str(), plan, right);
            print_chances((std::string("left alone, ") + what[k] + window).c_str(), nothing, right);
        }
}

Settings parsed(int argc, char** argv) {
    Settings s;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word == "--no-loop") {
            s.loop = false;
            continue;
        }
        const long long value = i + 1 < argc ? std::atoll(argv[i + 1]) : -1;
        if (value < 0) std::fprintf(stderr, "%s needs a number\n", word.c_str()), std::exit(2);
        ++i;
        if (word == "--cases") s.cases = static_cast<int>(value);
        else if (word == "--members") s.members = static_cast<int>(value);
        else if (word == "--seed") s.seed = static_cast<std::uint64_t>(value);
        else if (word == "--threads") s.threads = static_cast<int>(value);
        else if (word == "--case") s.only = static_cast<int>(value);
        else std::fprintf(stderr, "unknown word %s\n", word.c_str()), std::exit(2);
    }
    return s;
}

/// The desk takes as many threads as there are processors: fewer processors are fewer threads.
void keep_to(int threads) {
    cpu_set_t may, some;
    if (threads <= 0 || sched_getaffinity(0, sizeof may, &may) != 0) return;
    CPU_ZERO(&some);
    for (int i = CPU_SETSIZE - 1; i >= 0 && CPU_COUNT(&some) < threads; --i)
        if (CPU_ISSET(i, &may)) CPU_SET(i, &some);
    if (sched_setaffinity(0, sizeof some, &some) != 0) std::fprintf(stderr, "could not keep to %d threads\n", threads);
}

}  // namespace

namespace {
volatile std::sig_atomic_t enough = 0;
}

int main(int argc, char** argv) {
    const Settings settings = parsed(argc, argv);
    // Asked to end, it tells what it has.
    for (int signal : {SIGINT, SIGTERM}) std::signal(signal, [](int) { enough = 1; });
    keep_to(settings.threads);
    std::vector<Played> all;
    int failed = 0;
    for (int i = settings.only >= 0 ? settings.only : 1; enough == 0 && (settings.only >= 0 ? i == settings.only : i <= settings.cases); ++i) {
        try {
            all.push_back(played(i, settings));
        } catch (const Bug& bug) {
            ++failed;
            std::printf("case %d could not be played: %s\n", i, bug.what());
            continue;
        }
        const auto& x = all.back();
        std::fprintf(stderr, "%d of %d  %s %s %s:", i, settings.cases, std::string(x.c.hide.tannage_key).c_str(), std::string(x.c.hide.class_key).c_str(), x.c.told.known.happened.liquid.id.c_str());
        for (const auto& s : x.scores)
            if (s) std::fprintf(stderr, " %.0f", s->loss_min);
        std::fprintf(stderr, "  %s\n", x.scores[ThePlan]->words.c_str());
    }
    if (all.empty()) return 1;
    std::printf("%zu cases, %d members, seed %llu; %d could not be played\n", all.size(), settings.members, static_cast<unsigned long long>(settings.seed), failed);
    if (settings.only >= 0) {
        print_case(all.front());
        return 0;
    }
    print_losses(all);
    print_plain(all);
    print_groups(all, "by leather", [](const Played& x) { return std::string(x.c.hide.class_key); });
    print_groups(all, "by tannage", [](const Played& x) { return std::string(x.c.hide.tannage_key); });
    print_groups(all, "by product", [](const Played& x) { return x.c.told.known.happened.liquid.id; });
    print_groups(all, "by where it ends left alone", [](const Played& x) { return std::string(end_words[static_cast<std::size_t>(x.scores[Never]->end.ends)]); });
    print_groups(all, "by whether a buffer may", [](const Played& x) { return x.acid; });
    print_groups(all, "by what the plan said", [](const Played& x) { return x.scores[ThePlan]->words.substr(0, x.scores[ThePlan]->words.find(' ')); });
    print_calibration(all);
    print_worst(all);
}
