#include "desk/judge.hpp"

#include <algorithm>
#include <cmath>
#include <future>
#include <sstream>
#include <type_traits>

#include "desk/assessment.hpp"
#include "desk/cautions.hpp"
#include "desk/liquids.hpp"
#include "desk/next_step.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

/// Names of the fields whose value is that of a fresh struct.
class Defaults {
public:
    explicit Defaults(std::string prefix) : prefix_(std::move(prefix)) {}
    template <class T>
    void operator()(std::string_view name, T& member, const About&) {
        const std::string where = prefix_ + "." + std::string(name);
        if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T>) {
            std::ostringstream text;
            if constexpr (std::is_enum_v<T>) text << static_cast<int>(member);
            else text << member;
            values.push_back({where, text.str()});
        } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
            Defaults inner(where);
            describe(inner, member);
            values.insert(values.end(), inner.values.begin(), inner.values.end());
        }
    }
    std::vector<std::pair<std::string, std::string>> values;

private:
    std::string prefix_;
};

/// Fields of use that nobody gave, by what was said, else by what equals the usual.
std::vector<std::string> defaults_in(Use use, const std::vector<std::string>& said, const leather::Hide& hide) {
    Use fresh;
    Defaults now("use"), base("use");
    describe(now, use);
    describe(base, fresh);
    std::vector<std::string> out;
    for (std::size_t i = 0; i < now.values.size(); ++i)
        if (said.empty() ? now.values[i].second == base.values[i].second : std::find(said.begin(), said.end(), now.values[i].first) == said.end()) out.push_back(now.values[i].first);
    if (!hide.ph_read) out.push_back("leather.surface_ph");
    if (!hide.thickness_read) out.push_back("leather.thickness_mm");
    if (!hide.finish_read) out.push_back("leather.finish_um");
    return out;
}

std::string depth_words(double um) { return um < 1000 ? fixed(std::max(10.0, std::round(um / 10) * 10), 0) + " µm" : fixed(um / 1000, 1) + " mm"; }

/// What a drop on the surface would read at the end; where the buffer is used up, the amount instead of digits.
std::string reading_at_end(const Assessment& central, const Assessment& gentle, const Assessment& harsh, const Balance& balance) {
    const double end = central.exposure.surface_ph.back();
    const auto [low, high] = std::minmax({end, gentle.exposure.surface_ph.back(), harsh.exposure.surface_ph.back()});
    const std::string after = " After " + span(central.exposure.section.snapshots.back().at_s);
    const double before = central.exposure.surface_ph.front();
    if (std::max(std::abs(high - before), std::abs(low - before)) < 0.1) return after + " a drop on the surface would read as before, about pH " + fixed(before, 1) + ".";
    if (!leather::beyond_buffer(central.hide, end) && high - low < 0.5) return after + " a drop on the surface would read about pH " + fixed(end, 1) + ".";
    const std::string reads = high - low < 0.5 ? "around pH " + fixed(end, 0) : "anywhere from pH " + fixed(low, 1) + " to " + fixed(high, 1);
    const std::string why = leather::beyond_buffer(central.hide, end) ? ": the hide has little buffer left there, so the amount counts, " : "; left are ";
    return after + " a drop on the surface may read " + reads + why + to_band(balance.left.value, balance.left.plus_minus) + " ± " +
           to_band(balance.left.plus_minus, balance.left.plus_minus) + " mmol/m² of " + (balance.alkali ? "alkali" : "acid") + ".";
}

std::string verdict(const Assessment& a, Grade grade) {
    if (grade == Grade::StaysWithin && past_before(a) != nullptr) return "Goes no further: the leather lay past pH " + fixed(past_before(a)->limit.value, 1) + " before, and used this way it is not taken further from it.";
    if (grade == Grade::StaysWithin) return "Stays within: used this way, no limit is passed inside the leather.";
    HW_EXPECTS(a.decides() != nullptr);
    const LimitCheck& limit = *a.decides();
    const std::string where = grade == Grade::Deep ? "deep in the leather" : "in the grain", rest = span(a.exposure.section.snapshots.back().at_s);
    switch (grade) {
        case Grade::ComesBack: return "Passes a limit for a while and comes back: down to " + depth_words(limit.deepest_um) + ", for " + span(limit.longest_s) + " at most.";
        case Grade::Lasting:
        case Grade::Deep:
            if (limit.deepest_um <= 0) return "The extract of the whole leather leaves the limit: it comes to " + fixed(limit.reached.value, 1) + ", the limit is " + fixed(limit.limit.value, 1) + ".";
            if (a.end_um > 0) return "Passes a limit " + where + " and is still past it after " + rest + ", down to " + depth_words(a.end_um) + ".";
            return "Passes a limit " + where + ", down to " + depth_words(limit.deepest_um) + ", for " + span(limit.longest_s) + ", and is back inside after " + rest + ".";
        case Grade::StaysWithin:
        case Grade::Unknown:
        case Grade::Stop: break;
    }
    throw Bug("this grade has no sentence of its own");
}

void strongest_first(std::vector<Reason>& reasons) {
    constexpr std::array<std::string_view, 4> order{"decides", "adds", "caution", "note"};
    const auto rank = [&](const Reason& r) { return std::find(order.begin(), order.end(), r.weight) - order.begin(); };
    std::stable_sort(reasons.begin(), reasons.end(), [&](const Reason& x, const Reason& y) { return rank(x) < rank(y); });
}

void add_source(std::vector<Basis>& list, const Basis& b) {
    for (const auto& x : list)
        if (x.source == b.source && x.rule == b.rule) return;
    list.push_back(b);
}

Result<JudgeAnswer> kept(const JudgeRequest& request, JudgeAnswer answer, Ports& ports) {
    if (!request.keep) return answer;
    HW_TRY(id, ports.store.keep_judgement(request, answer, ports.clock.now_utc()));
    answer.id = id;
    return answer;
}

std::vector<std::string> usual_cautions(const Liquid& liquid) {
    std::vector<std::string> out{"Try it on a hidden spot first, and read it dry.", "The product's own data sheet and your local rules come first.",
                                 "A passed limit is not proof of damage: nobody has published how fast leather is harmed at a pH."};
    if (names_kind(liquid, "hypochlorite") || !liquid.label_known)
        out.insert(out.begin(), "Never put an acid, ammonia or alcohol on top of it: it contains, or may contain, chlorine bleach.");
    return out;
}

/// An answer that is a stop: nothing of it depends on a figure.
JudgeAnswer stopped(const JudgeRequest& request, const Stop& stop, Ports& ports) {
    JudgeAnswer a;
    a.version = std::string(program_version);
    a.grade = Grade::Stop;
    a.stop = stop;
    a.sentence = stop.headline;
    a.how_sure = "This does not depend on the figures.";
    a.reasons.push_back({stop.kind, stop.headline, "decides", stop.basis});
    a.sources.push_back(stop.basis);
    a.cautions = usual_cautions(request.liquid);
    a.leather = request.leather;
    a.use = request.use;
    a.liquid.liquid = request.liquid.name;
    a.liquid.version = a.version;
    a.liquid.ph_refused = true;
    AnalyseRequest as_used{request.liquid, request.use.parts_water, request.use.hardness_mg_l, request.use.air_c, AirContact::Closed, 4.5, request.meets};
    if (auto liquid = analyse(as_used, ports); liquid.ok()) a.liquid = std::move(*liquid);
    return a;
}

}  // namespace

Result<JudgeAnswer> judge(const JudgeRequest& given, Ports& ports) {
    JudgeRequest request = given;
    HW_TRY(liquid, resolved(request.liquid, ports.store));
    request.liquid = liquid;
    // Hard stops come before any computation, and before any other fault of the request.
    if (const auto stop = meeting_stop(liquid, request.meets, ports.store)) return kept(request, stopped(request, *stop, ports), ports);
    if (const auto stop = never_sprayed(liquid, request.use)) return kept(request, stopped(request, *stop, ports), ports);
    if (const auto bad = out_of_range(request)) return *bad;
    if (!request.leather.id.empty() && request.leather.leather_class.empty()) {
        auto found = ports.store.leather(request.leather.id);
        if (!found.ok()) return Error{found.error().code, found.error().message, "leather.id"};
        request.leather = *found;
    }
    if (request.leather.tannage.empty()) request.leather.tannage = "unknown";
    const Use& use = request.use;
    if (!(use.dose.count > 0)) return Error{ErrorCode::InvalidInput, "Say how much was or will be used; nothing cannot be judged.", "use.dose.count"};

    AnalyseRequest as_used{liquid, use.parts_water, use.hardness_mg_l, use.air_c, AirContact::Closed, 4.5, request.meets};
    HW_TRY(hide, leather::hide(request.leather.leather_class, request.leather.tannage,
                               {request.leather.thickness_mm, request.leather.finish_um, request.leather.surface_ph, request.leather.extract_ph, request.leather.shrinkage_c}));
    if (const auto stop = no_water(request.leather, hide)) return kept(request, stopped(request, *stop, ports), ports);
    as_used.target_ph = std::clamp(hide.ph, 2.0, 12.0);
    HW_TRY(analysis, analyse(as_used, ports));
    HW_TRY(neat, totals_of(liquid));
    const chem::Totals t = chem::diluted(neat, use.parts_water, use.hardness_mg_l);

    JudgeAnswer a;
    a.version = std::string(program_version);
    a.liquid = analysis;
    a.leather = request.leather;
    a.leather.thickness_mm = hide.thickness_mm;
    a.leather.finish_um = hide.finish_um;
    a.use = use;
    a.defaults_used = defaults_in(use, request.said, hide);
    a.leather_sentence = std::string(hide.class_name) + ", " + std::string(hide.tannage_name) + ", " + fixed(hide.thickness_mm, 1) + " mm, finish about " + fixed(hide.finish_um, 0) + " µm";
    a.leather_ph = number(hide.ph, hide.ph_spread, "pH", hide.ph_read ? Standing::Measured : Standing::Estimate, hide.ph_read ? "reading on this finish" : "spread of the tannage");
    a.cautions = usual_cautions(liquid);

    treatment::Story story;
    const GramsPer per = grams_per(use.dose.amount);
    const double grams = use.dose.count * per.amount_g;
    story.dose_kg_m2 = grams / 1000 / (use.dose.area_cm2 * 1e-4);
    if (story.dose_kg_m2 > 5) return Error{ErrorCode::OutOfRange, "That is more than 5 litres on a square metre. Check amount and area.", "use.dose.count"};
    story.dwell_s = use.dwell_s;
    story.wiped_1 = use.wiped_off_pct / 100;
    story.rinse_passes = use.rinse.passes;
    story.rinse_kg_m2 = use.rinse.water_g_m2 / 1000;
    story.rinse_blotted_1 = use.rinse.blotted_pct / 100;
    story.rinse_wait_s = use.rinse.wait_s;
    story.rinse_hardness_mg_l = use.rinse.hardness_mg_l;
    story.repeats = use.repeats;
    story.interval_s = use.interval_h * 3600;
    story.rest_s = use.rest_h * 3600;
    story.air = Temperature::celsius(use.air_c);
    story.humidity_1 = use.humidity_pct / 100;
    story.air_speed_m_s = use.air_speed_m_s;
    const Variant gentle_reading = gentle_of(per), harsh_reading = harsh_of(per);
    a.dose = number(story.dose_kg_m2 * 1000, story.dose_kg_m2 * 500 * (harsh_reading.dose - gentle_reading.dose), "g/m²", use.dose.amount == Amount::Grams ? Standing::Derived : per.standing,
                    use.dose.amount == Amount::Grams ? "weighed amount, and the area" : "what one " + std::string(use.dose.amount == Amount::Sprays ? "pull" : "wipe") + " gives, " + fixed(per.low_g, 1) + " to " + fixed(per.high_g, 1) + " g, and the area");

    // Readings of what is not known, independent of each other: solved side by side.
    auto later = [&](const Variant& v) { return std::async(std::launch::async, [&, v] { return assess(t, request.leather, story, v); }); };
    auto gentle_run = later(gentle_reading), harsh_run = later(harsh_reading);
    std::vector<OpenQuestion> questions = open_questions(use, hide, harsh_reading, analysis.ph.value > hide.ph);
    std::vector<std::future<Result<Assessment>>> question_runs;
    for (const auto& q : questions) question_runs.push_back(later(q.harsh));
    HW_TRY(central, assess(t, request.leather, story, {}));
    HW_TRY(gentle, gentle_run.get());
    HW_TRY(harsh, harsh_run.get());
    auto add_case = [&](const char* name, const std::string& differs, const Assessment& x) {
        a.cases.push_back({name, differs, x.grade, x.deepest_um, x.exposure.surface_ph.back()});
    };
    add_case("central", "best single figures", central);
    add_case("gentle", in_words(gentle_reading), gentle);
    add_case("harsh", in_words(harsh_reading), harsh);

    a.profile = profile_of(central);
    a.balance = balance_of(central);
    a.limits = central.limits;
    a.grade = central.grade;
    a.extract.ph_before = number(central.before.ph, hide.ph_spread, "pH", hide.ph_read ? Standing::Measured : Standing::Estimate, "the hide's own pH");
    a.extract.ph_after = number(central.after.ph, hide.ph_spread + 0.1, "pH", Standing::Derived, "the hide's own pH and its buffering");
    a.extract.difference_figure = number(central.after.difference, 0.1, "pH", Standing::Estimate, "estimate of the leather's soluble acids");
    a.extract.difference_applies = central.after.difference_applies;
    a.extract.within_en13336 = central.after.within_en13336;
    a.extract.basis = {"Extract 1:20 of the whole leather, then diluted tenfold", "iso4045", "clauses 7 and 8", Standing::Published, "taken up " + fixed(1000 * central.exposure.taken_up_mol_kg, 0) + " mmol per kg"};

    // Why: the deciding limit, then what it is made of.
    const Basis solved{"Solved depth profile: film, finish, grain and corium over time", "own", "docs/theory/transport.md", Standing::Derived, a.leather_sentence + "; " + to_band(a.dose.value, a.dose.plus_minus) + " g/m²"};
    if (central.decides() != nullptr) {
        const LimitCheck& l = *central.decides();
        a.reasons.push_back({"limit_passed", l.name + " (pH " + fixed(l.limit.value, 1) + "): it reaches pH " + fixed(l.reached.value, 1) + (l.deepest_um > 0 ? ", passed down to " + depth_words(l.deepest_um) + " for " + span(l.longest_s) : std::string()) + ".", "decides", l.basis});
        if (central.end_um <= 0 && l.longest_s > threshold("lasting").limit_s)
            a.reasons.push_back({"lasting", "It comes back in the end, but more than " + span(threshold("lasting").limit_s) + " past a limit is not counted as a while.", "adds", basis_of_threshold("lasting", span(l.longest_s))});
    } else {
        const bool up = a.balance.alkali;
        double farthest = hide.ph;
        for (const auto& l : central.limits)
            if (l.upper == up && l.quantity.find("inside the leather") != std::string::npos) farthest = up ? std::max(farthest, l.reached.value) : std::min(farthest, l.reached.value);
        a.reasons.push_back({"no_limit_passed", std::string("The ") + (up ? "highest" : "lowest") + " pH anywhere inside the leather is " + fixed(farthest, 1) + ".", "decides", solved});
    }
    if (const LimitCheck* l = past_before(central))
        a.reasons.push_back({"past_before", l->name + " (pH " + fixed(l->limit.value, 1) + "): the leather lies past it before anything is laid on.", "adds", l->basis});
    {
        const Balance& b = a.balance;
        const double share = b.takes_grain.value > 0 ? b.left.value / b.takes_grain.value : 0;
        const bool nothing = b.applied.value < least_mmol_m2;
        const std::string left = b.left.value < least_mmol_m2 ? "less than 0.1" : to_band(b.left.value, b.left.plus_minus);
        a.reasons.push_back({"reserve_against_hide", nothing ? "Next to no acid or alkali is laid on, counted to the leather's own pH." : left + " mmol/m² of " + (b.alkali ? "alkali" : "acid") + " stay, of " + to_band(b.applied.value, b.applied.plus_minus) + " laid on; " + (b.takes_grain.value > 0 ? "the grain takes up about " + to_band(b.takes_grain.value, b.takes_grain.plus_minus) + " before pH " + fixed(b.limit_ph, 1) + (share > 1 ? ": more than it can hold." : ".") : "the hide lies past pH " + fixed(b.limit_ph, 1) + " already."), "adds",
                             {"Alkali left against the hide's own buffering", "bowes1948", "titration of collagen", Standing::Derived, "groups of collagen, share of collagen, thickness of the grain"}});
    }
    const double film_end = central.exposure.section.ledger.in_film_strong_mol_m2 * 1000;
    if (film_end > threshold("residue").limit_mmol_m2 && hide.finish_um > threshold("open_finish").limit_um)
        a.reasons.push_back({"residue_on_finish", "About " + fixed(film_end, film_end < 1 ? 1 : 0) + " mmol/m² of alkali dry on the finish and wait for the next damp cloth.", "adds", solved});
    if (1000 * story.dose_kg_m2 > threshold("runs_off").limit_g_m2) a.reasons.push_back({"more_than_holds", "So much runs off or soaks through seams; the figure counts it as lying on the surface.", "caution", basis_of_threshold("runs_off", fixed(1000 * story.dose_kg_m2, 0) + " g/m²")});
    for (const auto& left_out : central.exposure.left_out) a.reasons.push_back({"left_out", "Too little to follow separately: " + left_out + ".", "note", solved});

    // What the model cannot say. Where it decides, the limits only add.
    const bool alcohol = t.alcohol_pct > threshold("no_ph_in_alcohol").limit_pct;
    const bool solvent = alcohol || contains_kind(t, "solvent", threshold("solvent").limit_pct) || contains_kind(t, "alcohol", threshold("alcohol").limit_pct);
    const bool oxidiser = contains_kind(t, "hypochlorite", threshold("hypochlorite").limit_pct) || contains_kind(t, "peroxide", threshold("peroxide").limit_pct);
    const bool blind = !liquid.label_known || t.unknown_pct > threshold("unknown_share").limit_pct || nothing_known(liquid);
    if (alcohol || ((blind || oxidiser) && a.grade < Grade::Lasting)) a.grade = Grade::Unknown;
    const std::string outside = a.grade == Grade::Unknown ? "decides" : "caution";
    if (a.grade == Grade::Unknown) a.reasons.front().weight = "note";
    if (blind && a.grade == Grade::Unknown) {
        // The profile of what little is known would read as harmless.
        a.profile = {};
        a.balance = {};
        a.limits.clear();
        a.extract = {};
        a.cases.clear();
        a.reasons.clear();
    }
    if (alcohol) {
        a.reasons.front().sentence = "As if it were water: " + a.reasons.front().sentence;
        for (auto& r : a.reasons) r.weight = "note";
        for (auto& l : a.limits) l.decides = false;
    }
    if (blind) a.reasons.push_back({"not_known", liquid.label_known ? "Too much of it is not known to judge by." : "Without a label it may be anything, chlorine bleach among them.", outside, basis_of_threshold("unknown_share", fixed(t.unknown_pct, 0) + " % not known, label " + (liquid.label_known ? "known" : "not known"))});
    if (solvent) a.reasons.push_back({"solvent", "It carries solvent: what that does to the finish is not computed here. Test a hidden spot, and read it after 24 h.", outside, {"Solvent action on a finish needs its own test", "own", "not part of this computation", Standing::Estimate, "solvent and alcohol content"}});
    if (oxidiser) a.reasons.push_back({"oxidiser", "It bleaches: dye and fibre are attacked by oxidation, which is not computed here. Keep it off leather.", outside, basis_of_threshold(contains_kind(t, "hypochlorite", threshold("hypochlorite").limit_pct) ? "hypochlorite" : "peroxide", "ingredients")});
    for (auto& r : not_computed(t, hide, use, a.dose.value, analysis.ph_refused ? 7 : analysis.ph.value)) a.reasons.push_back(std::move(r));
    for (auto& r : people_and_car(t, liquid, hide, analysis.ph_refused ? std::nullopt : std::optional(analysis.ph.value))) a.reasons.push_back(std::move(r));
    for (const auto& r : analysis.reasons)
        if (r.weight == "caution") a.reasons.push_back(r);
    strongest_first(a.reasons);
    if (a.grade != Grade::Unknown) a.sentence = (oxidiser ? "Keep it off: it bleaches dye and fibre. " : "") + verdict(central, a.grade) + reading_at_end(central, gentle, harsh, a.balance);
    else if (oxidiser) a.sentence = "Keep it off: it bleaches dye and fibre, and how far cannot be told from what is known.";
    else if (alcohol) a.sentence = "pH cannot tell: it is mostly alcohol, and what that does to finish and dye decides. Do the hidden spot first.";
    else a.sentence = "Cannot be told: too much of it is not known. Read the liquid first.";

    std::vector<Assessment> answers;
    for (auto& run : question_runs) {
        HW_TRY(x, run.get());
        answers.push_back(std::move(x));
    }
    if (a.grade == Grade::Unknown) a.how_sure = "Not sure enough to answer: the deciding part is outside the computation.";
    else {
        const auto other = std::find_if(answers.begin(), answers.end(), [&](const Assessment& x) { return x.grade != central.grade; });
        const bool past = past_before(central) != nullptr;
        auto words = [past](Grade g) { return g == Grade::StaysWithin ? (past ? "it goes no further" : "it stays within") : g == Grade::ComesBack ? "a limit is passed for a while" : g == Grade::Lasting ? "a limit is passed in the grain for over an hour" : "a limit is passed at depth"; };
        if (gentle.grade == central.grade && harsh.grade == central.grade)
            a.how_sure = other == answers.end() ? "The answer stays the same in the gentle and in the harsh reading of what is not known."
                                                : "Not settled: it turns on " + questions[static_cast<std::size_t>(other - answers.begin())].test.settles + "; at the far end of what is usual " + words(other->grade) + ".";
        else a.how_sure = std::string("Not settled: in the gentle reading ") + words(gentle.grade) + ", in the harsh one " + words(harsh.grade) + ".";
    }

    if (blind) a.next_test = {"Read the liquid", 5, "what the sheet leaves out", "Dip a pH strip or a meter into it as used, and again in ten parts of water; note both."};
    else if (oxidiser) a.next_test = {"Compare with a sheltered place", 1440, "whether colour has gone already", "If it is on the leather: blot, let it dry for 24 h, then compare colour with a sheltered place and rub lightly with a white cloth. If it is not: do not try it."};
    else if (solvent && a.grade != Grade::Lasting && a.grade != Grade::Deep) a.next_test = hidden_spot();
    else a.next_test = next_test(questions, answers, central);

    for (const auto& r : a.reasons) add_source(a.sources, r.basis);
    for (const auto& l : a.limits) add_source(a.sources, l.basis);
    if (!a.extract.basis.source.empty()) add_source(a.sources, a.extract.basis);
    add_source(a.sources, {"Gentle and harsh readings move amount, wiping, finish and buffering by stated shares", "own", "atlas/case_shifts.csv, atlas/doses.csv: starting values", Standing::Estimate, in_words(harsh_reading)});
    return kept(request, std::move(a), ports);
}

}  // namespace hw::desk