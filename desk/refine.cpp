#include "desk/refine.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <map>

#include "atlas/decision_losses.hpp"
#include "atlas/misfits.hpp"
#include "core/belief/spread.hpp"
#include "desk/cautions.hpp"
#include "desk/known.hpp"
#include "desk/liquids.hpp"
#include "desk/next_best.hpp"
#include "desk/next_step.hpp"
#include "desk/question.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// Solved members, each with its weight; a member that could not be solved has none.
struct Weighted {
    const Solved& solved;
    std::vector<double> weight;
    double effective = 1;

    Band band(const std::function<double(std::size_t)>& of, std::string unit) const { return band_of_members(values(of), weight, effective, std::move(unit)); }
    std::vector<double> values(const std::function<double(std::size_t)>& of) const {
        std::vector<double> out;
        for (std::size_t i = 0; i < weight.size(); ++i) out.push_back(weight[i] > 0 ? of(i) : 0);
        return out;
    }
};

constexpr std::string_view of_class = "× its class";

double half_of(const Band& b) { return (b.high_90 - b.low_90) / 2; }

/// "17, 12 to 23", no more digits than the band has.
std::string in_words(const Band& b) {
    const double half = half_of(b);
    const std::string unit = b.unit.empty() || b.unit == "pH" ? "" : " " + b.unit;
    const bool tenths = b.unit == of_class || b.unit == "pH";
    const auto figure = [&](double v) { return tenths ? fixed(v, 1) : to_band(v, half); };
    const std::string low = figure(b.low_90), high = figure(b.high_90), middle = figure(b.median);
    if (low == high) return middle + unit;
    return middle + unit + " (" + low + " to " + high + ")";
}

// ---- what each member comes to now

double grain_ph(const Solved& s, std::size_t i, double grain_um) {
    double sum = 0, depth = 0, before = 0;
    for (std::size_t c = 0; c < s.depth_um.size() && s.depth_um[c] <= grain_um; ++c) {
        // A cell reaches as far below its middle as above it.
        const double thick = 2 * (s.depth_um[c] - before);
        sum += thick * static_cast<double>(s.outcomes[i].ph.back()[c]);
        depth += thick;
        before += thick;
    }
    return depth > 0 ? sum / depth : static_cast<double>(s.outcomes[i].ph.back().front());
}

double reached_um(const Solved& s, std::size_t i) {
    const double seen = threshold("reached").limit_ph;
    double depth = 0;
    for (std::size_t c = 0; c < s.depth_um.size(); ++c)
        if (std::abs(static_cast<double>(s.outcomes[i].ph.back()[c] - s.outcomes[i].ph.front()[c])) >= seen) depth = s.depth_um[c];
    return depth;
}

Basis of_members(std::string rule, const Learned& l) {
    return {std::move(rule), "own", "docs/theory/refine.md; docs/theory/observations.md", Standing::Derived, std::to_string(l.known.weighing.members) + " cases, worth " + fixed(std::max(1.0, l.known.weighing.effective), 0)};
}

// ---- changes

struct Quantity {
    std::string key, name, unit;
    std::function<double(const Solved&, std::size_t)> of;
};

std::vector<Quantity> quantities_of(const Learned& l) {
    const Question& q = l.happening.question;
    std::vector<Quantity> out;
    if (!q.nothing_laid) {
        out.push_back({"dose", "What came onto it", "g/m²", [](const Solved& s, std::size_t i) { return 1000 * s.draw.members[i].story.dose_kg_m2 * s.draw.members[i].story.repeats; }});
        out.push_back({"left", "Alkali left", "mmol/m²", [](const Solved& s, std::size_t i) { return 1000 * s.outcomes[i].left_mol_m2; }});
    }
    out.push_back({"start_ph", q.nothing_laid ? "The leather beside it" : "Where the leather started", "pH", [](const Solved& s, std::size_t i) { return s.draw.members[i].sheltered_ph; }});
    out.push_back({"surface_now", "Surface of the leather now", "pH", [](const Solved& s, std::size_t i) { return static_cast<double>(s.outcomes[i].surface_ph.back()); }});
    const double grain = q.hide.grain_um;
    out.push_back({"grain_now", "Grain now, on average", "pH", [grain](const Solved& s, std::size_t i) { return grain_ph(s, i, grain); }});
    if (!q.nothing_laid) out.push_back({"depth", "Depth that it has reached", "µm", reached_um});
    for (std::size_t d = 0; d < l.happening.unknowns.size(); ++d)
        if (l.happening.unknowns[d].key == "buffering") {
            const auto spread = l.happening.unknowns[d].spread;
            out.push_back({"buffering", "How much this hide takes up", std::string(of_class), [spread, d](const Solved& s, std::size_t i) { return belief::quantile(spread, s.draw.u[i][d]); }});
        }
    if (q.hide.finish_um > 0) out.push_back({"finish", "How open the finish is", std::string(of_class), [](const Solved& s, std::size_t i) { return s.draw.members[i].story.permeability_1; }});
    return out;
}

std::string change_sentence(const Change& c, const Learned& l, const Band* left) {
    const bool ph = c.after.unit == "pH";
    const bool thin = (c.key == "surface_now" || c.key == "grain_now") && left != nullptr && leather::beyond_buffer(l.happening.question.hide, c.after.median);
    if (thin) return c.name + ": around pH " + fixed(c.after.median, 0) + ". The hide has next to no buffer there, so the amount counts: " + in_words(*left) + ".";
    const std::string now = in_words(c.after), before = in_words(c.before);
    const std::string start = c.name + ": " + (ph ? "pH " : "") + now;
    return now == before ? start + ", as before the readings." : start + "; before the readings " + (ph ? "pH " : "") + before + ".";
}

/// How far readings moved and narrowed it.
double moved(const Change& c) {
    const double before = half_of(c.before), after = half_of(c.after);
    if (!(before > 0)) return 0;
    return std::abs(c.after.median - c.before.median) / before + std::abs(std::log(std::max(after, 1e-3 * before) / before));
}

std::vector<Change> changes_of(const Learned& l, const Weighted& before, const Weighted& after) {
    std::vector<Change> out;
    for (const auto& q : quantities_of(l)) {
        Change c;
        c.key = q.key;
        c.name = q.name;
        c.before = before.band([&](std::size_t i) { return q.of(before.solved, i); }, q.unit);
        c.after = after.band([&](std::size_t i) { return q.of(after.solved, i); }, q.unit);
        if (q.key == "left" && c.after.median < 0) {
            c.name = "Acid left";
            for (Band* b : {&c.before, &c.after}) *b = {-b->median, -b->high_50, -b->low_50, -b->high_90, -b->low_90, b->unit};
        }
        c.basis = of_members("Over the cases that fit what was told and read", l);
        out.push_back(std::move(c));
    }
    const auto left = std::find_if(out.begin(), out.end(), [](const Change& c) { return c.key == "left"; });
    const std::optional<Band> amount = left == out.end() ? std::nullopt : std::optional(left->after);
    for (auto& c : out) c.sentence = change_sentence(c, l, amount ? &*amount : nullptr);
    std::stable_sort(out.begin(), out.end(), [](const Change& a, const Change& b) { return moved(a) > moved(b); });
    return out;
}

// ---- readings against what was expected

Band unscaled(const atlas::LookKindsRow& kind, Band b) {
    for (double* v : {&b.median, &b.low_50, &b.high_50, &b.low_90, &b.high_90}) *v = from_scale(kind, *v);
    b.unit = std::string(kind.unit);
    return b;
}

ReadingFit fit_of(const Sighted& r) {
    ReadingFit f;
    f.kind = r.look.kind;
    f.name = std::string(r.kind->plain_name);
    const double half = r.kind->scale == "ratio" ? r.look.value_1 * (r.kind->half_times_1 - 1) : half_90_1 * own_sd(*r.kind, r.look, r.look.value_1);
    f.read = number(r.look.value_1, half, std::string(r.kind->unit), Standing::Measured, r.look.plus_minus_1 ? "as given with the reading" : "its own error, by the kind of reading");
    f.basis = {std::string(r.kind->plain_name) + ": own error", std::string(r.kind->source), std::string(r.kind->locator), standing_of(r.kind->standing), r.look.note};
    return f;
}

void tell(ReadingFit& f, double fits_from) {
    f.fits = f.surprise_1 >= fits_from;
    const bool ph = f.read.unit == "pH";
    const std::string unit = ph || f.read.unit.empty() ? "" : " " + f.read.unit;
    const double half = std::max(half_of(f.expected_others), 1e-6);
    const auto figure = [&](double v) { return ph ? fixed(v, 1) : to_band(v, half); };
    const bool inside = f.read.value >= f.expected_others.low_90 && f.read.value <= f.expected_others.high_90;
    f.sentence = f.name + (ph ? " " : ": ") + to_band(f.read.value, std::min(f.read.plus_minus, 1.0)) + unit + ". By everything else " + figure(f.expected_others.low_90) + " to " + figure(f.expected_others.high_90) + unit + " was expected in nine cases of ten: " +
                 (!f.fits ? "it does not fit." : inside ? "it fits." : "it lies farther out, but may fit.");
}

/// pH of the product as its sheet gives it, with the error of the sheet; nothing where there is none to expect.
Result<std::optional<std::vector<Sight>>> by_sheet(const Learned& l, const Sighted& r) {
    const Question& q = l.happening.by_sheet;
    HW_TRY(totals, totals_of(q.liquid));
    if (totals.organic_pct > threshold("no_ph_in_alcohol").limit_pct || nothing_known(q.liquid)) return std::optional<std::vector<Sight>>();
    constexpr std::size_t few = 128;
    Solved s;
    HW_TRY(drawn, draw(q, few));
    s.draw = std::move(drawn);
    s.settled.assign(s.draw.members.size(), true);
    HW_TRY(sights, sights_of(l.happening, s, r.look));
    // Ingredients explain a pH within this; a label that is stated is drawn with its own error already.
    const double sheet = q.liquid.stated_ph ? 0 : threshold("fits_reading").limit_ph / half_90_1;
    for (auto& sight : sights) sight.sd = std::hypot(sight.sd, sheet);
    return std::optional(std::move(sights));
}

/// Readings of the product: members are drawn to fit them, so they are held against the sheet, and against each other.
Result<Done> against_sheet(const Learned& l, std::size_t at, ReadingFit& f) {
    const auto& readings = l.happening.readings;
    const Sighted& r = readings[at];
    HW_TRY(sights, by_sheet(l, r));
    if (!sights) {
        f.sentence = f.name + " " + fixed(r.look.value_1, 1) + ". Nothing could be expected of it: too little is known of what is in it, or alcohol takes the place of water.";
        return Done{};
    }
    const std::vector<double> even(sights->size(), 1.0);
    f.expected_before = band_of_reading(*sights, even);
    f.expected_before.unit = "pH";
    f.surprise_1 = chance_of(r.evidence, *sights, even);
    f.expected_others = f.expected_before;
    double sum = 0, weight = 0;
    for (std::size_t k = 0; k < readings.size(); ++k) {
        if (k == at || readings[k].look.kind != r.look.kind) continue;
        const double sd = own_sd(*readings[k].kind, readings[k].look, readings[k].look.value_1);
        sum += readings[k].look.value_1 / (sd * sd);
        weight += 1 / (sd * sd);
    }
    if (weight > 0) {
        const std::vector<Sight> others{{sum / weight, std::hypot(1 / std::sqrt(weight), own_sd(*r.kind, r.look, r.look.value_1))}};
        f.expected_others = band_of_reading(others, {1.0});
        f.expected_others.unit = "pH";
        f.surprise_1 = std::min(f.surprise_1, chance_of(r.evidence, others, {1.0}));
    }
    tell(f, threshold("does_not_fit").limit_pct / 100);
    return Done{};
}

/// In the order of their own.
Result<std::vector<ReadingFit>> fits_of(const Learned& l) {
    const double fits_from = threshold("does_not_fit").limit_pct / 100;
    std::vector<ReadingFit> out;
    std::size_t weighed = 0;
    for (std::size_t r = 0; r < l.happening.readings.size(); ++r) {
        const Sighted& s = l.happening.readings[r];
        ReadingFit f = fit_of(s);
        if (s.drawn_from) {
            HW_TRY(done, against_sheet(l, r, f));
            static_cast<void>(done);
        } else {
            const Fit& fit = l.weighed.fits[weighed++];
            f.expected_before = unscaled(*s.kind, fit.before);
            f.expected_others = unscaled(*s.kind, fit.others);
            f.surprise_1 = fit.chance_others_1;
            tell(f, fits_from);
        }
        out.push_back(std::move(f));
    }
    return out;
}

// ---- misfits

const atlas::MisfitsRow& misfit_row(std::string_view group, std::string_view side) {
    for (const auto& row : atlas::misfits)
        if (row.group_key == group && row.side == side) return row;
    throw Bug("no misfit " + std::string(group) + ", " + std::string(side));
}

Misfit misfit(std::string_view group, std::string_view side, std::vector<std::string> readings, std::string inputs) {
    const auto& row = misfit_row(group, side);
    Misfit m;
    m.sentence = std::string(row.sentence);
    if (group != "readings") m.between.push_back(std::string(row.plain_name));
    m.between.insert(m.between.end(), readings.begin(), readings.end());
    for (std::string_view meaning : {row.first_meaning, row.second_meaning, row.third_meaning})
        if (!meaning.empty()) m.may_mean.emplace_back(meaning);
    m.basis = {m.sentence, std::string(row.source), std::string(row.locator), standing_of(row.standing), std::move(inputs)};
    return m;
}

/// The belief that readings pulled farthest from where it was, in standard deviations; its side is that of what it makes.
struct Pulled {
    std::string group = "any";
    double by = 0;
};
Pulled farthest_pull(const Learned& l) {
    Pulled out;
    for (std::size_t d = 0; d < l.happening.unknowns.size(); ++d) {
        const Unknown& u = l.happening.unknowns[d];
        static constexpr std::array<std::string_view, 9> told{"dose", "wiping", "finish", "start_ph", "shift", "worn", "liquid", "thickness", "area"};
        if (u.key == "builder" || std::find(told.begin(), told.end(), u.group) == told.end()) continue;
        const double by = u.key == "area" ? -l.weighed.pull[d] : l.weighed.pull[d];
        if (std::abs(by) > std::abs(out.by)) out = {u.group, by};
    }
    return out;
}

std::vector<Misfit> misfits_of(const Learned& l, const std::vector<ReadingFit>& fits) {
    const double fits_from = threshold("does_not_fit").limit_pct / 100;
    const double far = belief::quantile({belief::Spread::Shape::Bell, -half_90_1, 0, half_90_1}, 1 - fits_from / 2);
    const Pulled pulled = farthest_pull(l);
    const auto side = [](double by) { return by > 0 ? "more" : "less"; };
    std::vector<Misfit> out;
    std::vector<std::size_t> weighed;  // index among all readings
    for (std::size_t r = 0; r < fits.size(); ++r)
        if (!l.happening.readings[r].drawn_from) weighed.push_back(r);
    const auto add_name = [&](std::vector<std::string>& names, std::size_t r) {
        const std::string name = fits[r].name + " " + to_band(fits[r].read.value, std::min(fits[r].read.plus_minus, 1.0));
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    };
    // What was told against what was read: a reading that lies outside what was told alone, or a belief that all readings together
    // pulled farther than it reaches.
    std::vector<std::string> against_told;
    for (std::size_t k = 0; k < weighed.size(); ++k)
        if (l.weighed.fits[k].chance_before_1 < fits_from) add_name(against_told, weighed[k]);
    const bool pulled_far = std::abs(pulled.by) > far;
    std::vector<Disagreement> pairs = l.weighed.disagreements;
    if (pulled_far)
        for (const auto& pair : pairs)
            if (fits[weighed[pair.a]].kind != fits[weighed[pair.b]].kind) {
                add_name(against_told, weighed[pair.a]);
                add_name(against_told, weighed[pair.b]);
            }
    if (!against_told.empty() || pulled_far) {
        if (against_told.empty())
            for (std::size_t r : weighed) add_name(against_told, r);
        // Half a standard deviation is no pull: then nothing stands out.
        const bool stands_out = std::abs(pulled.by) > 0.5;
        out.push_back(misfit(stands_out ? pulled.group : "any", stands_out ? side(pulled.by) : "more", against_told, "pulled by " + fixed(std::abs(pulled.by), 1) + " standard deviations"));
    }
    for (const auto& pair : pairs) {
        const bool told = pulled_far && fits[weighed[pair.a]].kind != fits[weighed[pair.b]].kind;
        if (told) continue;
        std::vector<std::string> names;
        add_name(names, weighed[pair.a]);
        add_name(names, weighed[pair.b]);
        out.push_back(misfit("readings", "more", names, "chance of the farther one by all others " + per_cent(std::min(fits[weighed[pair.a]].surprise_1, fits[weighed[pair.b]].surprise_1))));
    }
    // Readings that do not fit, and neither what was told nor a single other reading explains it.
    if (out.empty())
        for (std::size_t k = 0; k < weighed.size(); ++k)
            if (!fits[weighed[k]].fits) out.push_back(misfit("any", "more", {fits[weighed[k]].name}, "chance by all others " + per_cent(fits[weighed[k]].surprise_1)));
    for (std::size_t r = 0; r < fits.size(); ++r) {
        if (fits[r].fits || !l.happening.readings[r].drawn_from) continue;
        const bool among_readings = fits[r].expected_others.median != fits[r].expected_before.median;
        if (among_readings) out.push_back(misfit("readings", "more", {fits[r].name + " " + fixed(fits[r].read.value, 1)}, "other readings of the product"));
        else out.push_back(misfit("liquid", side(std::abs(fits[r].read.value - 7) - std::abs(fits[r].expected_before.median - 7)), {fits[r].name + " " + fixed(fits[r].read.value, 1)}, "the sheet gives " + in_words(fits[r].expected_before)));
    }
    return out;
}

// ---- chances and fans

std::vector<Chance> chances_of(const Weighted& w) {
    double sum = 0;
    for (double v : w.weight) sum += v;
    std::vector<Chance> out;
    for (const auto& [grade, word] : EnumNames<Grade>::names) {
        double share = 0;
        for (std::size_t i = 0; i < w.weight.size(); ++i)
            if (w.weight[i] > 0 && w.solved.outcomes[i].held.grade == grade) share += w.weight[i] / sum;
        if (share > 0) out.push_back({grade, share});
    }
    return out;
}

void add_five(Fan& f, const Band& b) {
    f.median.push_back(b.median);
    f.low_50.push_back(b.low_50);
    f.high_50.push_back(b.high_50);
    f.low_90.push_back(b.low_90);
    f.high_90.push_back(b.high_90);
}

void add_fans(std::vector<Fan>& out, const Weighted& w, const std::string& which, const std::string& in_title) {
    Fan surface, depth;
    surface.key = "surface_" + which;
    surface.title = "Surface of the leather since it happened, " + in_title;
    surface.along = "time_s";
    depth.key = "depth_now_" + which;
    depth.title = "pH through the leather now, " + in_title;
    depth.along = "depth_um";
    surface.unit = depth.unit = "pH";
    for (std::size_t k = 0; k < w.solved.moment_s.size(); ++k) {
        if (!surface.at.empty() && w.solved.moment_s[k] <= surface.at.back()) continue;
        surface.at.push_back(w.solved.moment_s[k]);
        add_five(surface, w.band([&](std::size_t i) { return static_cast<double>(w.solved.outcomes[i].surface_ph[k]); }, "pH"));
    }
    for (std::size_t c = 0; c < w.solved.depth_um.size(); ++c) {
        depth.at.push_back(w.solved.depth_um[c]);
        add_five(depth, w.band([&](std::size_t i) { return static_cast<double>(w.solved.outcomes[i].ph.back()[c]); }, "pH"));
    }
    out.push_back(std::move(surface));
    out.push_back(std::move(depth));
}

// ---- what to do next

/// How far past a limit a member lies now: "within", "surface", "grain", "deep".
std::string_view state_now(const Outcome& o, const leather::Hide& hide, bool nothing_laid) {
    const auto rows = limits_of(hide.tannage_key);
    double end_um = 0;
    bool surface = false, start_past = false;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const auto& row = *rows[r];
        const bool upper = row.side == "upper";
        if (row.quantity == "pore" && row.decides == "yes") {
            end_um = std::max(end_um, o.held.passages[r].end_um);
            start_past = start_past || (upper ? hide.ph > row.limit_ph : hide.ph < row.limit_ph);
        }
        if (row.key == "act_upper" || row.key == "act_lower") surface = surface || o.held.passages[r].passed;
    }
    // Where wear alone did it the whole thickness counts: nobody knows how deep it goes.
    if (nothing_laid && start_past) return "deep";
    if (end_um > hide.grain_um) return "deep";
    return end_um > 0 ? "grain" : surface ? "surface" : "within";
}

struct Decision {
    std::vector<std::string> actions;
    std::vector<std::vector<double>> loss_min;    ///< [action][member of known]
    std::size_t best = 0;
};

Decision decision_of(const Learned& l) {
    Decision d;
    std::map<std::string_view, std::size_t> at;
    std::vector<std::map<std::string_view, double>> loss;
    for (const auto& row : atlas::decision_losses) {
        const auto [it, fresh] = at.emplace(row.key, d.actions.size());
        if (fresh) {
            d.actions.emplace_back(row.plain_name);
            loss.emplace_back();
        }
        loss[it->second][row.state] = row.loss_min;
    }
    d.loss_min.resize(d.actions.size());
    std::vector<double> sum(d.actions.size(), 0.0);
    for (std::size_t i : l.known.solved_as) {
        const auto state = state_now(l.after.outcomes[i], l.after.draw.members[i].hide, l.happening.question.nothing_laid);
        for (std::size_t a = 0; a < d.actions.size(); ++a) {
            d.loss_min[a].push_back(loss[a].at(state));
            sum[a] += loss[a].at(state);
        }
    }
    d.best = static_cast<std::size_t>(std::min_element(sum.begin(), sum.end()) - sum.begin());
    return d;
}

// ---- words

const Change* change_named(const RefineAnswer& a, std::string_view key) {
    for (const auto& c : a.changes)
        if (c.key == key) return &c;
    return nullptr;
}

std::string what_is_known(const RefineAnswer& a, const Learned& l) {
    const Change* surface = change_named(a, "surface_now");
    const Change* start = change_named(a, "start_ph");
    if (l.happening.question.nothing_laid) return "The place lies at pH " + in_words(surface->after) + ", the leather beside it at pH " + in_words(start->after) + ".";
    const Change* left = change_named(a, "left");
    const Change* depth = change_named(a, "depth");
    if (left->after.high_90 < least_mmol_m2) return "Next to nothing is left that holds the leather away from its own pH.";
    const std::string amount = in_words(left->after) + (left->name == "Acid left" ? " of acid" : " of alkali") + (left->after.low_90 < least_mmol_m2 ? " may be left" : " are left") + " on and in the leather";
    const std::string how_deep = depth->after.high_90 < 1 ? "; it has not moved inside" : "; it has moved down to " + in_words(depth->after);
    const bool thin = leather::beyond_buffer(l.happening.question.hide, surface->after.median);
    return amount + how_deep + "." + (thin ? "" : " The surface lies at pH " + in_words(surface->after) + ".");
}

std::string how_sure(const RefineAnswer& a) {
    if (!a.misfits.empty()) return "Not to be relied on yet: " + as_clause(a.misfits.front().sentence) + ". Settle that first.";
    if (a.readings.empty()) return "Nothing was read: this is what was told, alone.";
    std::string out = a.readings.size() == 1 ? "The reading fits what was told." : (a.readings.size() == 2 ? std::string("Both") : "All " + std::to_string(a.readings.size())) + " readings fit what was told and each other.";
    if (a.chances_after.empty()) return out;
    const auto most = std::max_element(a.chances_after.begin(), a.chances_after.end(), [](const Chance& x, const Chance& y) { return x.share_1 < y.share_1; });
    const auto was = std::find_if(a.chances_before.begin(), a.chances_before.end(), [&](const Chance& c) { return c.grade == most->grade; });
    return out + " By its pH, \"" + std::string(grade_word(most->grade)) + "\" in " + in_ten(most->share_1) + " of the cases that fit; before the readings in " + in_ten(was == a.chances_before.end() ? 0 : was->share_1) + ".";
}

std::vector<std::string> cautions_of(const Question& q, bool drops) {
    std::vector<std::string> out;
    if (!q.nothing_laid && (names_class(q.liquid, "hypochlorite") || !q.liquid.label_known)) out.push_back("Never put an acid, ammonia or alcohol on top of it: it contains, or may contain, chlorine bleach.");
    if (drops) out.push_back("Drops of acid: eye protection, open window, millilitres only, never on the leather.");
    out.push_back("A drop of water may leave a ring: read in a hidden place first.");
    out.push_back("A passed limit is not proof of damage: nobody has published how fast leather is harmed at a pH.");
    if (q.nothing_laid) out.push_back("How fast skin oil and sweat turn leather sour is not published: what is read counts, nothing is computed from use.");
    return out;
}

RefineAnswer stopped(const Learned& l) {
    RefineAnswer a;
    a.version = std::string(program_version);
    a.stop = l.happening.stop;
    a.sentence = a.stop->headline;
    a.how_sure = "This does not depend on the figures.";
    a.next_sentence = "People first. Nothing is read or laid on until this is settled.";
    a.reasons.push_back({a.stop->kind, a.stop->headline, "decides", a.stop->basis});
    a.sources.push_back(a.stop->basis);
    a.cautions = cautions_of(l.happening.question, false);
    return a;
}

void add_source(std::vector<Basis>& list, const Basis& b) {
    if (b.source.empty()) return;
    for (const auto& x : list)
        if (x.source == b.source && x.rule == b.rule) return;
    list.push_back(b);
}

}  // namespace

Result<RefineAnswer> refine(const RefineRequest& request, Ports& ports, const Progress& progress) {
    HW_TRY(l, learned_from(request, ports, progress));
    return told_of(l, request, ports);
}

Result<RefineAnswer> told_of(const Learned& l, const RefineRequest& request, Ports& ports) {
    if (l.happening.stop) return stopped(l);
    const Question& q = l.happening.question;
    RefineAnswer a;
    a.version = std::string(program_version);
    a.weighing = l.known.weighing;
    Weighted before{l.before, std::vector<double>(l.before.settled.size(), 0.0), static_cast<double>(std::count(l.before.settled.begin(), l.before.settled.end(), true))};
    for (std::size_t i = 0; i < before.weight.size(); ++i) before.weight[i] = l.before.settled[i] ? 1 : 0;
    const Weighted after{l.after, l.weighed.after.weight_1, l.weighed.after.effective};

    a.changes = changes_of(l, before, after);
    HW_TRY(fits, fits_of(l));
    a.misfits = misfits_of(l, fits);
    // Told in the order given; those of the leather and the piece after them.
    const auto& readings = l.happening.readings;
    std::vector<std::size_t> order(readings.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return readings[x].given < readings[y].given; });
    for (std::size_t i : order) a.readings.push_back(fits[i]);
    if (!q.nothing_laid) {
        a.chances_before = chances_of(before);
        a.chances_after = chances_of(after);
    }
    add_fans(a.fans, before, "before", "as told");
    add_fans(a.fans, after, "after", "with the readings");

    const Decision decision = decision_of(l);
    HW_TRY(bench, bench_of(request.bench, ports));
    a.next = best_tests(l.known, decision.loss_min, decision.actions, bench);
    a.next_sentence = next_sentence(a.next, decision.actions[decision.best]);

    a.sentence = what_is_known(a, l);
    a.how_sure = how_sure(a);
    for (const auto& m : a.misfits) a.reasons.push_back({"misfit", m.sentence, "decides", m.basis});
    if (std::any_of(readings.begin(), readings.end(), [](const Sighted& r) { return r.drawn_from; }))
        a.reasons.push_back({"product_read", "The pH that was read of the product goes before its label: every case is drawn to fit it, and it is held against the sheet.", "note", of_members("Readings of the product", l)});
    if (l.known.weighing.rejuvenated) a.reasons.push_back({"drawn_anew", "Few of the cases fitted all readings, so cases were drawn anew by all of them together.", "note", of_members("Drawn anew from what was believed, by all readings", l)});
    for (const auto& n : l.happening.notes) a.reasons.push_back(n);
    a.defaults_used = defaults_in(q.use, request.happened.said, q.hide);
    // A reading that is weighed is no default.
    for (const auto& [kind, field] : {std::pair{"control_ph", "leather.surface_ph"}, {"extract_ph", "leather.surface_ph"}, {"thickness", "leather.thickness_mm"}})
        if (std::any_of(readings.begin(), readings.end(), [k = std::string_view(kind)](const Sighted& r) { return r.look.kind == k; }))
            a.defaults_used.erase(std::remove(a.defaults_used.begin(), a.defaults_used.end(), field), a.defaults_used.end());
    a.cautions = cautions_of(q, std::any_of(readings.begin(), readings.end(), [](const Sighted& r) { return r.look.kind == "product_drops"; }));
    for (const auto& c : a.changes) add_source(a.sources, c.basis);
    for (const auto& f : a.readings) add_source(a.sources, f.basis);
    for (const auto& m : a.misfits) add_source(a.sources, m.basis);
    for (const auto& u : l.happening.unknowns) add_source(a.sources, u.basis);
    for (const auto& r : a.reasons) add_source(a.sources, r.basis);
    for (const auto& t : a.next) add_source(a.sources, t.basis);
    return a;
}

}  // namespace hw::desk
