#include "desk/judge.hpp"

#include <algorithm>
#include <cmath>

#include "core/chem/solvents.hpp"
#include "desk/advice.hpp"
#include "desk/assessment.hpp"
#include "desk/cautions.hpp"
#include "desk/ensemble.hpp"
#include "desk/harms.hpp"
#include "desk/liquids.hpp"
#include "desk/next_step.hpp"
#include "desk/question.hpp"
#include "desk/spot.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

std::string depth_words(double um) { return um < 1000 ? fixed(std::max(10.0, std::round(um / 10) * 10), 0) + " µm" : fixed(um / 1000, 1) + " mm"; }

/// What a drop on the surface would read at the end; where the buffer is used up, the amount instead of digits.
std::string reading_at_end(const Assessment& typical, const Band& reading, const Balance& balance) {
    const double end = typical.exposure.surface_ph.back(), low = reading.low_90, high = reading.high_90;
    const std::string after = " After " + span(typical.exposure.section.snapshots.back().at_s);
    const double before = typical.exposure.surface_ph.front();
    if (std::abs(end - before) < threshold("seen").limit_ph) return after + " a drop on the surface would read as before, about pH " + fixed(before, 1) + ".";
    const bool beyond = leather::beyond_buffer(typical.hide, end);
    if (!beyond && high - low < 0.5) return after + " a drop on the surface would read about pH " + fixed(end, 1) + ".";
    const std::string reads = high - low < 0.5 ? "around pH " + fixed(end, 0) : "anywhere from pH " + fixed(low, 1) + " to " + fixed(high, 1);
    const std::string why = beyond ? ": the hide has little buffer left there, so the amount counts, " : "; left are ";
    return after + " a drop on the surface may read " + reads + why + to_band(balance.left.value, balance.left.plus_minus) + " ± " +
           to_band(balance.left.plus_minus, balance.left.plus_minus) + " mmol/m² of " + (balance.alkali ? "alkali" : "acid") + ".";
}

/// An assessment that tells what the ensemble found of the same member, solved more coarsely.
Assessment told_by(Assessment a, const Held& held) {
    a.grade = held.grade;
    a.deepest_um = held.deepest_um;
    a.end_um = held.end_um;
    a.decides_at = held.decides_at;
    for (std::size_t i = 0; i < a.limits.size(); ++i) {
        const Passage& p = held.passages[i];
        a.limits[i].passed = p.passed;
        a.limits[i].deepest_um = p.deepest_um;
        a.limits[i].longest_s = p.longest_s;
        a.limits[i].reached.value = p.reached;
    }
    return a;
}

/// The member that the sentences and the picture are about: everything at its best single figure, unless that comes to another
/// grade than `target`; then the one of that grade nearest to the middle of everything.
Result<Assessment> typical_of(const Ensemble& e, std::vector<Grade> by_ph, Grade target, Assessment central) {
    const std::size_t nearest = nearest_of(e, by_ph, target);
    std::optional<Assessment> first;
    // Solved finely a member may fall on the other side of a line again; then the next one is asked.
    constexpr int most_asked = 4;
    for (int asked = 0; asked < most_asked && central.grade != target; ++asked) {
        const std::size_t near = nearest_of(e, by_ph, target);
        if (near == by_ph.size()) break;
        const Member& m = e.draw.members[near];
        HW_TRY(other, assess(e.draw.liquids[m.liquid].as_used, m.hide, m.story));
        if (other.grade == target) return other;
        if (!first) first = std::move(other);
        by_ph[near] = Grade::Unknown;
    }
    // None of them does: the sentence is that of the nearest, as it fell in the ensemble.
    if (first) return told_by(std::move(*first), e.outcomes[nearest].held);
    return central;
}

Band surface_at_end(const Ensemble& e) {
    std::vector<double> ph;
    for (const auto& o : e.outcomes) ph.push_back(static_cast<double>(o.surface_ph.back()));
    return band_of(ph, "pH");
}

/// What stays, with the spread of the members.
void band_from_members(Number& left, const Ensemble& e) {
    std::vector<double> mmol;
    for (const auto& o : e.outcomes) mmol.push_back(1000 * std::abs(o.left_mol_m2));
    const Band band = band_of(mmol, left.unit);
    left.plus_minus = std::max(least_mmol_m2, (band.high_90 - band.low_90) / 2);
    left.band_from = "nine of ten members";
}

/// The share of members that pass a limit, and the spread of what they reach.
void band_from_members(LimitCheck& check, const Ensemble& e, std::size_t limit) {
    std::vector<double> reached;
    double passed = 0;
    for (const auto& o : e.outcomes) {
        reached.push_back(o.held.passages[limit].reached);
        passed += o.held.passages[limit].passed;
    }
    const Band band = band_of(reached, "pH");
    check.chance_1 = passed / static_cast<double>(e.outcomes.size());
    check.reached.plus_minus = std::max((band.high_90 - band.low_90) / 2, 0.05);
    check.reached.band_from = "nine of ten members";
}

std::string inside_name(bool up) { return std::string("the ") + (up ? "highest" : "lowest") + " pH inside the leather"; }

std::vector<double> farthest_of(const Ensemble& e) {
    std::vector<double> out;
    for (const auto& o : e.outcomes) out.push_back(o.farthest_ph);
    return out;
}

/// What a member comes to, in a clause. @param by_ph  the pH inside decides; @param past  it lay past a limit before
std::string grade_clause(Grade g, bool by_ph, bool past) {
    switch (g) {
        case Grade::StaysWithin: return past ? "it goes no further" : "it stays within the limits";
        case Grade::ComesBack: return by_ph ? "a limit is passed for a while" : "it comes back by itself";
        case Grade::Lasting: return by_ph ? "a limit is passed for over an hour" : "something stays";
        case Grade::Deep: return by_ph ? "a limit is passed at depth" : "it goes deep";
        case Grade::Unknown:
        case Grade::Stop: break;
    }
    throw Bug("a member comes to none of these");
}

/// What each member comes to when every kind that one use does is counted.
std::vector<Grade> worst_of_members(const std::vector<HarmOverMembers>& harms, std::size_t members) {
    std::vector<Grade> out(members, Grade::StaysWithin);
    for (const auto& h : harms) {
        if (!h.counts) continue;
        for (std::size_t i = 0; i < h.grades.size(); ++i) out[i] = std::max(out[i], h.grades[i]);
    }
    return out;
}

/// The kind by which most members come to the grade or beyond it; of equals the first, which is what the pH does.
HarmOverMembers* deciding(std::vector<HarmOverMembers>& harms, Grade grade) {
    HarmOverMembers* best = nullptr;
    std::ptrdiff_t most = 0;
    if (grade == Grade::StaysWithin) return nullptr;
    for (auto& h : harms) {
        if (!h.counts) continue;
        const auto n = std::count_if(h.grades.begin(), h.grades.end(), [&](Grade g) { return g >= grade; });
        if (n > most) most = n, best = &h;
    }
    return best;
}

Basis unknowns_basis(std::string_view key) {
    const auto& row = unknown_row(key);
    return {std::string(row.plain_name), std::string(row.source), std::string(row.locator), standing_of(row.standing), std::string(row.in_words)};
}

/// Nobody has a figure below which a bleaching agent is good for leather: every case comes to something that stays, at the least.
void keep_off(std::vector<HarmOverMembers>& harms, std::size_t members, std::string_view oxidiser) {
    const auto colour = std::find_if(harms.begin(), harms.end(), [](const HarmOverMembers& h) { return h.told.kind == "colour"; });
    HW_EXPECTS(colour != harms.end());
    const bool said = !colour->grades.empty() && colour->told.grade >= Grade::Lasting;
    colour->grades.resize(members, Grade::Lasting);
    for (Grade& g : colour->grades) g = std::max(g, Grade::Lasting);
    const bool figures = colour->reached.size() == members;
    tell(*colour, figures ? colour->reached : std::vector<double>(members, 0.0), figures ? colour->told.reached.unit : "");
    if (said) return;
    const auto& row = threshold(oxidiser);
    const std::string what = oxidiser == "peroxide" ? "peroxide" : "chlorine bleach";
    colour->told.sentence = "It holds more than " + fixed(row.limit_pct, 2) + " % of " + what + ": dye and fibre are oxidised, and it shows fully only after days.";
    colour->told.limit = std::string(row.plain_name) + " (" + fixed(row.limit_pct, 2) + " %)";
    colour->told.basis = basis_of_threshold(oxidiser, "ingredients");
}

/// What is not known of a liquid, by name: "5 % of it is not known (perfume)".
std::string not_known_of(const chem::Totals& neat) {
    std::string names;
    for (const auto& n : neat.unknown) names += (names.empty() ? "" : ", ") + n;
    return fixed(neat.unknown_pct, neat.unknown_pct < 1 ? 1 : 0) + " % of it is not known" + (names.empty() ? "" : " (" + names + ")");
}

/// A drop tells how open a finish is; where there is none it cuts no belief, and that is said.
Reason drop_without_finish(WaterDrop drop) {
    const bool at_once = drop == WaterDrop::Seconds10;
    return {"drop_without_finish", at_once ? "Leather without a finish takes a drop at once: the water drop that was read fits, and changes no figure." : "Leather without a finish takes a drop at once, but this one stood: look again whether the class is right. The reading changes no figure here.",
            at_once ? "note" : "caution", unknowns_basis("finish_drop")};
}

/// Worst first: what decides, then by grade, then by chance; what is not known stands before what stays within.
bool worse(const Harm& x, const Harm& y) {
    const auto rank = [](const Harm& h) { return h.grade == Grade::Unknown ? 0.5 : static_cast<double>(h.grade); };
    if (x.decides != y.decides) return x.decides;
    if (rank(x) != rank(y)) return rank(x) > rank(y);
    return x.chance_1.value_or(0) > y.chance_1.value_or(0);
}

/// A share that is told.
double named_from_1() { return threshold("told_share").limit_pct / 100; }

/// From the mildest to the gravest grade that enough cases come to: an answer that most cases do not come to is none.
std::string from_to(const Sure& sure) {
    std::vector<Grade> told;
    for (const auto& c : sure.chances)
        if (c.share_1 >= named_from_1()) told.push_back(c.grade);
    HW_EXPECTS(!told.empty());
    return "Cannot be told yet; from \"" + std::string(grade_alone(told.front())) + "\" to \"" + std::string(grade_alone(told.back())) + "\". With every figure at its best guess: ";
}

/// How far the cases agree; where nobody said the amounts, only for those that were assumed.
std::string agreement(double answer_1, const std::string& assumed) {
    const bool settled = is_settled(answer_1), fairly = 100 * answer_1 >= threshold("fairly_sure").limit_pct;
    if (assumed.empty()) return settled ? "Settled as far as this computation goes" : fairly ? "Fairly sure" : "Not settled";
    return std::string(settled ? "Settled only" : fairly ? "Fairly sure only" : "Not settled, even") + " if the amounts are as assumed (" + assumed + ")";
}

/// @param assumed  amounts that nobody said
/// @param beside  kinds that go farther than the answer stand beside it
std::string how_sure(const Sure& sure, const std::string& assumed, Grade answer, bool by_ph, bool past, bool beside) {
    std::string out = agreement(sure.answer_1, assumed) + ": in " + in_ten(sure.answer_1) + " of the cases that fit what is known " + grade_clause(answer, by_ph, past);
    // Every other grade that one case in twenty comes to, and what stays also where only its grades together come to so many.
    double stays = 0;
    for (const auto& c : sure.chances) {
        if (c.grade == answer) continue;
        if (c.share_1 >= named_from_1()) out += ", in " + in_ten(c.share_1) + " " + grade_clause(c.grade, false, past);
        else if (c.grade >= Grade::Lasting) stays += c.share_1;
    }
    if (stays >= named_from_1()) out += ", in " + in_ten(stays) + " something stays or it goes deep";
    out += ".";
    if (beside) out += " What the answer says to mind is not in this count.";
    if (!is_settled(sure.answer_1) && !sure.influences.empty() && sure.influences.front().share_1 > 2 * sure.influences.front().plus_minus_1) out += " It turns most on " + sure.influences.front().name + ".";
    return out;
}

std::string verdict(const Assessment& a, Grade grade) {
    if (grade == Grade::StaysWithin && past_before(a) != nullptr) return "Goes no further: the leather lay past pH " + fixed(past_before(a)->limit.value, 1) + " before, and used this way it is not taken further from it.";
    if (grade == Grade::StaysWithin) return "Stays within the limits: used this way, no limit is passed inside the leather.";
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
    if (names_class(liquid, "hypochlorite") || !liquid.label_known)
        out.insert(out.begin(), "Never put an acid, ammonia or alcohol on top of it: it contains, or may contain, chlorine bleach.");
    return out;
}

Result<SpotsSay> spots_of(const JudgeRequest& request, Ports& ports) {
    HW_TRY(piece, inspect({request.piece, {}}, ports));
    if (std::none_of(piece.panels.begin(), piece.panels.end(), [&](const PanelNow& p) { return p.code == request.panel; }))
        return Error{ErrorCode::NotFound, "This piece has no panel \"" + request.panel + "\".", "panel"};
    return spots_say(piece, request.panel, request.liquid, request.use.parts_water);
}

/// A spot that failed was seen on this leather and outranks what is computed. One that passed rules out next to nothing: it
/// changes no grade.
void add_spots(JudgeAnswer& a, const SpotsSay& say) {
    const Basis seen{"A test spot on this class of panels, read dry", "own", "docs/theory/spots.md", Standing::Measured, std::to_string(say.bound.n) + " judged to the end"};
    if (say.failed > 0) {
        a.spots = "A test spot of it failed on this leather. " + say.failure;
        a.grade = a.grade == Grade::Deep ? Grade::Deep : Grade::Lasting;
        a.sentence = "A test spot of it failed on this leather: that outranks what is computed. " + say.failure + " Computed: " + a.sentence;
        a.how_sure = "It was seen on the leather itself. " + a.how_sure;
        a.advice = "Keep it off this leather: a test spot of it failed.";
        a.do_now.insert(a.do_now.begin(), "Lay none of it on this class of panels. Try something milder, on a spot of its own.");
        for (auto& r : a.reasons)
            if (r.weight == "decides") r.weight = "adds";
        a.reasons.insert(a.reasons.begin(), {"spot_failed", a.spots, "decides", seen});
    } else if (say.passed + say.caution > 0) {
        a.spots = say.bound.sentence;
        a.reasons.push_back({"spot_passed", "Test spots of it on this leather: " + a.spots + " What is computed stands beside it, unchanged.", say.caution > 0 ? "caution" : "note", seen});
    }
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
    a.advice = advice(a);
    a.do_now = do_now(a);
    return a;
}

}  // namespace

Result<JudgeAnswer> judge(const JudgeRequest& given, Ports& ports) {
    HW_TRY(asked, asked_of(given, ports));
    const JudgeRequest& request = asked.request;
    const Liquid& liquid = request.liquid;
    const leather::Hide& hide = asked.hide;
    for (const auto& stop : {asked.stop, asked.no_water})
        if (stop) return kept(request, stopped(request, *stop, ports), ports);
    const Use& use = request.use;

    AnalyseRequest as_used{liquid, use.parts_water, use.hardness_mg_l, use.air_c, AirContact::Closed, 4.5, request.meets};
    as_used.target_ph = std::clamp(hide.ph, 2.0, 12.0);
    HW_TRY(analysis, analyse(as_used, ports));
    HW_TRY(recipe, reconciled(liquid, Temperature::celsius(use.air_c)));
    const chem::Totals t = chem::diluted(recipe.neat, use.parts_water, use.hardness_mg_l);

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

    HW_TRY(story, story_of(use));
    const Question question{liquid, request.leather, use, hide, story};
    HW_TRY(ensemble, solve_ensemble(question, request.members));
    std::vector<Grade> by_ph;
    for (const auto& o : ensemble.outcomes) by_ph.push_back(o.held.grade);
    HW_TRY(central, assess(t, hide, story));

    // What the pH of the leather does not tell, and what nothing tells.
    const bool alcohol = t.organic_pct > threshold("no_ph_in_alcohol").limit_pct;
    const double softening = hide.finish_um > 0 ? chem::softening_pct(t, hide.class_key) : 0;
    const bool near_film = softening > threshold("solvent_near_film").limit_pct;
    const auto oxidiser = oxidiser_in(liquid, t, use.parts_water);
    // Water makes little of what is not known, it does not make it known: the neat liquid counts.
    const double unknown_pct = recipe.neat.unknown_pct;
    const bool blind = !liquid.label_known || unknown_pct > threshold("unknown_share").limit_pct || nothing_known(liquid);
    auto harms = harms_of(question, ensemble, central, !alcohol && !blind);
    if (oxidiser) keep_off(harms, ensemble.outcomes.size(), *oxidiser);
    const std::vector<Grade> of_members = worst_of_members(harms, ensemble.outcomes.size());
    a.grade = blind && !oxidiser ? Grade::Unknown : middle_grade(of_members);
    // What alcohol does to finish and dye rests on estimates, and what is not known of a liquid is not in the figures: they may
    // speak against it, not for it.
    const bool spared = !blind && a.grade < Grade::Lasting;
    const bool part_unknown = spared && unknown_pct > threshold("unknown_part").limit_pct, only_a_spot_tells = spared && !part_unknown && (alcohol || near_film);
    if (part_unknown || only_a_spot_tells) a.grade = Grade::Unknown;
    HarmOverMembers* decides = a.grade == Grade::Unknown ? nullptr : deciding(harms, a.grade);
    const bool by_ph_alone = decides == nullptr || decides->told.kind == "alkali" || decides->told.kind == "acid";
    // An answer that most cases do not come to has no typical case: the best single figures speak, and say that they do.
    const bool torn = a.grade != Grade::Unknown && 2 * std::count(of_members.begin(), of_members.end(), a.grade) < static_cast<std::ptrdiff_t>(of_members.size());
    const Grade target = torn ? central.grade : by_ph_alone && a.grade != Grade::Unknown ? a.grade : middle_grade(by_ph);
    HW_TRY(typical, typical_of(ensemble, by_ph, target, std::move(central)));
    const Band reading = surface_at_end(ensemble);
    std::vector<double> doses;
    for (const auto& m : ensemble.draw.members) doses.push_back(1000 * m.story.dose_kg_m2);
    const Band dose = band_of(doses, "g/m²");
    const bool weighed = use.dose.amount == Amount::Grams;
    const GramsPer per = grams_per(use.dose.amount);
    a.dose = number(story.dose_kg_m2 * 1000, (dose.high_90 - dose.low_90) / 2, "g/m²", weighed ? Standing::Derived : per.standing,
                    weighed ? "weighed amount, and the area" : "what one " + std::string(use.dose.amount == Amount::Sprays ? "pull" : "wipe") + " gives, " + fixed(per.low_g, 1) + " to " + fixed(per.high_g, 1) + " g, and the area");

    a.profile = profile_of(typical.exposure);
    a.balance = balance_of(typical);
    band_from_members(a.balance.left, ensemble);
    a.limits = typical.limits;
    for (std::size_t l = 0; l < a.limits.size(); ++l) band_from_members(a.limits[l], ensemble, l);
    a.extract.ph_before = number(typical.before.ph, hide.ph_spread, "pH", hide.ph_read ? Standing::Measured : Standing::Estimate, "the hide's own pH");
    a.extract.ph_after = number(typical.after.ph, hide.ph_spread + 0.1, "pH", Standing::Derived, "the hide's own pH and its buffering");
    a.extract.difference_figure = number(typical.after.difference, 0.1, "pH", Standing::Estimate, "estimate of the leather's soluble acids");
    a.extract.difference_applies = typical.after.difference_applies;
    a.extract.within_en13336 = typical.after.within_en13336;
    a.extract.basis = {"Extract 1:20 of the whole leather, then diluted tenfold", "iso4045", "clauses 7 and 8", Standing::Published, "taken up " + fixed(1000 * typical.exposure.taken_up_mol_kg, 0) + " mmol per kg"};

    // Why: the deciding limit, then what it is made of.
    const Basis solved{"Solved depth profile: film, finish, grain and corium over time", "own", "docs/theory/transport.md", Standing::Derived, a.leather_sentence + "; " + to_band(a.dose.value, a.dose.plus_minus) + " g/m²"};
    if (typical.decides() != nullptr) {
        const LimitCheck& l = *typical.decides();
        a.reasons.push_back({"limit_passed", l.name + " (pH " + fixed(l.limit.value, 1) + "): it reaches pH " + fixed(l.reached.value, 1) + (l.deepest_um > 0 ? ", passed down to " + depth_words(l.deepest_um) + " for " + span(l.longest_s) : std::string()) + ".", "decides", l.basis});
        if (typical.end_um <= 0 && l.longest_s > threshold("lasting").limit_s)
            a.reasons.push_back({"lasting", "It comes back in the end, but more than " + span(threshold("lasting").limit_s) + " past a limit is not counted as a while.", "adds", basis_of_threshold("lasting", span(l.longest_s))});
    } else {
        const bool up = a.balance.alkali;
        double farthest = hide.ph;
        for (const auto& l : typical.limits)
            if (l.upper == up && l.quantity.find("inside the leather") != std::string::npos) farthest = up ? std::max(farthest, l.reached.value) : std::min(farthest, l.reached.value);
        a.reasons.push_back({"no_limit_passed", std::string("The ") + (up ? "highest" : "lowest") + " pH anywhere inside the leather is " + fixed(farthest, 1) + ".", "decides", solved});
    }
    if (const LimitCheck* l = past_before(typical))
        a.reasons.push_back({"past_before", l->name + " (pH " + fixed(l->limit.value, 1) + "): the leather lies past it before anything is laid on.", "adds", l->basis});
    {
        const Balance& b = a.balance;
        const double share = b.takes_grain.value > 0 ? b.left.value / b.takes_grain.value : 0;
        const bool nothing = b.applied.value < least_mmol_m2;
        const std::string left = b.left.value < least_mmol_m2 ? "less than 0.1" : to_band(b.left.value, b.left.plus_minus);
        a.reasons.push_back({"reserve_against_hide", nothing ? "Next to no acid or alkali is laid on, counted to the leather's own pH." : left + " mmol/m² of " + (b.alkali ? "alkali" : "acid") + " stay, of " + to_band(b.applied.value, b.applied.plus_minus) + " laid on; " + (b.takes_grain.value > 0 ? "the grain takes up about " + to_band(b.takes_grain.value, b.takes_grain.plus_minus) + " before pH " + fixed(b.limit_ph, 1) + (share > 1 ? ": more than it can hold." : ".") : "the hide lies past pH " + fixed(b.limit_ph, 1) + " already."), "adds",
                             {"Alkali left against the hide's own buffering", "bowes1948", "titration of collagen", Standing::Derived, "groups of collagen, share of collagen, thickness of the grain"}});
    }
    const double film_end = typical.exposure.section.ledger.in_film_strong_mol_m2 * 1000;
    if (film_end > threshold("residue").limit_mmol_m2 && hide.finish_um > threshold("open_finish").limit_um)
        a.reasons.push_back({"residue_on_finish", "About " + fixed(film_end, film_end < 1 ? 1 : 0) + " mmol/m² of alkali dry on the finish and wait for the next damp cloth.", "adds", solved});
    if (1000 * story.dose_kg_m2 > threshold("runs_off").limit_g_m2) a.reasons.push_back({"more_than_holds", "So much runs off or soaks through seams; the figure counts it as lying on the surface.", "caution", basis_of_threshold("runs_off", fixed(1000 * story.dose_kg_m2, 0) + " g/m²")});
    if (request.leather.water_drop != WaterDrop::NotDone && hide.finish_um <= 0) a.reasons.push_back(drop_without_finish(request.leather.water_drop));
    for (const auto& left_out : typical.exposure.left_out) a.reasons.push_back({"left_out", "Too little to follow separately: " + left_out + ".", "note", solved});

    if (blind) {
        // The profile of what little is known would read as harmless.
        a.profile = {};
        a.balance = {};
        a.limits.clear();
        a.extract = {};
        a.reasons.clear();
    }
    if (part_unknown || only_a_spot_tells || (alcohol && !blind)) {
        a.reasons.front().sentence = (alcohol ? "As if it were water: " : part_unknown ? "Of what is known alone: " : "By its pH alone: ") + a.reasons.front().sentence;
        for (auto& l : a.limits) l.decides = false;
    }
    if (alcohol || part_unknown || only_a_spot_tells || !by_ph_alone)
        for (auto& r : a.reasons) r.weight = "note";
    if (!by_ph_alone) a.reasons.push_back({decides->told.kind, decides->told.sentence, "decides", decides->told.basis});
    if (!recipe.builder.empty())
        a.reasons.push_back({"builder", "The ingredients alone give pH " + fixed(recipe.ingredients_ph, 1) + ". Something else must make the pH that is stated or was read: it is taken as " + recipe.builder + " here, and as other builders in the other cases." + (liquid.read_ph ? "" : " Read it in the bottle."), "adds", unknowns_basis("builder")});
    if (blind) a.reasons.push_back({"not_known", liquid.label_known ? "Too much of it is not known to judge by." : "Without a label it may be anything, chlorine bleach among them.", oxidiser ? "adds" : "decides", basis_of_threshold("unknown_share", fixed(unknown_pct, 0) + " % not known, label " + (liquid.label_known ? "known" : "not known"))});
    if (part_unknown) a.reasons.push_back({"not_known", not_known_of(recipe.neat) + ": it may be what decides, so no figure clears the rest.", "decides", basis_of_threshold("unknown_part", fixed(unknown_pct, 1) + " % not known")});
    if (only_a_spot_tells && alcohol) a.reasons.push_back({"solvent", "It is mostly alcohol or solvent: finishes and dyes differ too much in what they bear for figures to clear it.", "decides", basis_of_threshold("no_ph_in_alcohol", "alcohol and solvent " + fixed(t.organic_pct, 0) + " %")});
    else if (only_a_spot_tells) a.reasons.push_back({"solvent", fixed(softening, 0) + " % of it are solvents that soften a finish like this: what they do is too little known for figures to clear it.", "decides", basis_of_threshold("solvent_near_film", fixed(softening, 1) + " % of solvents that soften a finish of this class")});
    if (oxidiser) a.reasons.push_back({"oxidiser", "It bleaches: dye and fibre are attacked by oxidation. Keep it off leather.", "caution", basis_of_threshold(*oxidiser, "ingredients")});
    for (auto& r : not_computed(liquid, hide, a.dose.value, analysis.ph_refused ? 7 : analysis.ph.value)) a.reasons.push_back(std::move(r));
    for (auto& r : people_and_car(t, liquid, hide, analysis.ph_refused ? std::nullopt : std::optional(analysis.ph.value))) a.reasons.push_back(std::move(r));
    for (const auto& r : analysis.reasons)
        if (r.weight == "caution" && (recipe.builder.empty() || r.kind != "label_disagrees")) a.reasons.push_back(r);  // said once, as the builder
    strongest_first(a.reasons);

    if (blind) {
        a.sentence = oxidiser ? "Keep it off: it bleaches dye and fibre, and how far cannot be told from what is known." : "Cannot be told: too much of it is not known. Read the liquid first.";
        a.how_sure = oxidiser ? "This does not depend on the figures." : "Not sure enough to answer: the deciding part is outside the computation.";
        a.next_test = test_named(oxidiser ? "Compare with a sheltered place" : "Read the liquid");
    } else if (part_unknown) {
        a.sentence = "Cannot be told: " + not_known_of(recipe.neat) + ", and what is not known clears nothing. " + (liquid.read_ph ? "Do the hidden spot first." : "Read the liquid, then do the hidden spot.");
        a.how_sure = "Not sure enough to answer: a part that may decide is outside the computation.";
        a.next_test = test_named(liquid.read_ph ? "Hidden spot" : "Read the liquid");
    } else if (only_a_spot_tells) {
        a.sentence = std::string("pH cannot tell: ") + (alcohol ? "it is mostly alcohol or solvent, and what that does to finish and dye decides." : "it holds solvents that soften a finish like this, and what they do decides.") + " Do the hidden spot first.";
        a.how_sure = "Not sure enough to answer: what is computed of solvents rests on estimates.";
        a.next_test = test_named("Hidden spot");
    } else {
        const std::string finish = finish_not_judged(a) ? " The finish itself was not judged." : "";
        const std::string inside = alcohol ? "" : verdict(typical, typical.grade) + (by_ph_alone ? finish : "") + reading_at_end(typical, reading, a.balance);
        if (oxidiser) a.sentence = "Keep it off: it bleaches dye and fibre. ";
        if (by_ph_alone) a.sentence += inside;
        else a.sentence += decides->told.name + " decides. " + decides->told.sentence + finish + (inside.empty() ? "" : " Inside the leather: " + inside);
        const bool up = hide.ph < analysis.ph.value;
        if (decides != nullptr) a.sure = sure_of(ensemble, of_members, a.grade, decides->reached, by_ph_alone ? inside_name(decides->told.kind == "alkali") : "what decides (" + as_clause(decides->told.name) + ")");
        else a.sure = sure_of(ensemble, of_members, a.grade, farthest_of(ensemble), inside_name(up));
        if (cannot_be_told(a.sure)) a.sentence = from_to(a.sure) + a.sentence;
        if (oxidiser) a.next_test = test_named("Compare with a sheltered place");
        else if (!by_ph_alone) a.next_test = decides->told.test;
        else a.next_test = next_test(a.sure);
    }
    for (auto& h : harms) {
        // Of a liquid nobody knows only what already speaks against it is told.
        if ((blind || part_unknown) && h.told.grade != Grade::Lasting && h.told.grade != Grade::Deep) continue;
        h.told.decides = &h == decides && a.grade != Grade::StaysWithin;
        a.harms.push_back(std::move(h.told));
    }
    std::stable_sort(a.harms.begin(), a.harms.end(), worse);
    const auto graver = graver_than_answer(a);
    if (!graver.empty()) a.sentence += " But mind: " + in_clauses(graver) + ".";
    if (a.sure.members > 0) a.how_sure = how_sure(a.sure, assumed_amounts(a), a.grade, by_ph_alone, by_ph_alone && past_before(typical) != nullptr, !graver.empty());

    a.advice = advice(a);
    a.do_now = do_now(a);
    if (!request.piece.empty()) {
        HW_TRY(spots, spots_of(request, ports));
        add_spots(a, spots);
    }

    for (const auto& r : a.reasons) add_source(a.sources, r.basis);
    for (const auto& l : a.limits) add_source(a.sources, l.basis);
    if (!a.extract.basis.source.empty()) add_source(a.sources, a.extract.basis);
    for (const auto& h : a.harms) add_source(a.sources, h.basis);
    for (const auto& i : a.sure.influences) add_source(a.sources, i.basis);
    return kept(request, std::move(a), ports);
}

}  // namespace hw::desk