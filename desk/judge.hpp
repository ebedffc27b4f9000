// judge: will this liquid hurt this leather, used this way? Answered from a solved depth profile.
#pragma once

#include "base/progress.hpp"
#include "base/result.hpp"
#include "desk/analyse.hpp"
#include "desk/belief.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

struct JudgeRequest {
    Liquid liquid;
    Leather leather;
    Use use;
    std::vector<std::string> meets;               ///< ids of liquids that it met or will meet on the piece, not rinsed between
    std::vector<std::string> said;                ///< fields of leather and use that somebody gave; empty: those that differ from the usual
    int members = 1024;                           ///< of the ensemble, a power of two
    bool keep = false;                            ///< store the judgement with its input and version
    std::string title;                            ///< for the list of kept judgements
    std::string piece, panel;                     ///< of a piece that is kept: its test spots speak too
};

/// A limit beside what the profile reached.
struct LimitCheck {
    std::string name;                             ///< "published upper limit, vegetable tanned"
    std::string quantity;                         ///< "pore_ph_max", "surface_ph_end", "extract_ph", "difference_figure"
    Number limit;
    Number reached;
    bool upper = true;                            ///< passed when reached > limit; else when reached < limit
    bool passed = false;
    bool decides = false;                         ///< trade custom is shown but does not decide
    double chance_1 = 0;                          ///< share of the members that pass it
    double deepest_um = 0;                        ///< how deep into the leather it was passed at any time
    double longest_s = 0;                         ///< for how long, anywhere
    Basis basis;
};

/// Alkali (or acid) left against what the hide can take up, mmol per m².
struct Balance {
    bool alkali = true;                           ///< false: the dose is acid
    Number applied;                               ///< laid on
    Number left;                                  ///< not wiped, rinsed or evaporated: on and in the leather at the end
    Number takes_finish;                          ///< what each layer can take up before its limit
    Number takes_grain;
    Number takes_corium;
    double limit_ph = 0;                          ///< the limit that the uptake is counted to
};

/// One layer of the section, from the surface down.
struct Layer {
    std::string name;                             ///< "film", "finish", "grain", "corium"
    double top_um = 0;
    double bottom_um = 0;
};

/// A moment of the story at which something was done.
struct Event {
    double at_s = 0;
    std::string name;                             ///< "wetted", "wiped", "rinsed", "dry", "next day"
};

/// The solved profile: ph[time][depth]. Depth counts from the top of the finish; the film is separate.
struct Profile {
    std::vector<Layer> layers;
    std::vector<double> depth_um;                 ///< cell centres
    std::vector<double> time_s;
    std::vector<std::vector<double>> ph;          ///< pore pH; [time][depth]
    std::vector<std::vector<double>> alkali_mol_kg;///< taken up by the leather, mol per kg dry leather; [time][depth]
    std::vector<std::vector<double>> water_pct;   ///< of dry leather; [time][depth]
    std::vector<double> film_ph;                  ///< per time; NaN sent as null once the film has gone
    std::vector<double> film_um;                  ///< thickness of the liquid film per time
    std::vector<double> surface_reading_ph;       ///< what a flat electrode would read, per time
    std::vector<Event> events;
    double mass_balance_error_1 = 0;              ///< relative, alkali and each weak acid, worst
};

/// Extract of the whole leather at the end, ISO 4045, against EN 13336.
struct ExtractCheck {
    Number ph_before;
    Number ph_after;
    Number difference_figure;
    bool difference_applies = false;              ///< only below pH 4 or above 10
    bool within_en13336 = false;
    Basis basis;
};

struct JudgeAnswer {
    std::string id;                               ///< set when kept
    Grade grade = Grade::Unknown;
    std::string advice;                           ///< the first line: what it comes to; empty in judgements kept before it was there
    std::vector<std::string> do_now;              ///< before it is used, and where it is on the leather already
    std::string sentence;                         ///< the verdict
    std::string how_sure;                         ///< one sentence
    std::string spots;                            ///< what the test spots of it on this leather say; empty: there is none
    Sure sure;                                    ///< what the members of the ensemble say
    std::vector<Harm> harms;                      ///< worst first
    std::vector<Reason> reasons;                  ///< strongest first
    std::optional<Stop> stop;
    AnalyseAnswer liquid;                         ///< as used, after dilution
    Leather leather;                              ///< as judged, priors filled in
    Use use;
    std::string leather_sentence;                 ///< "aniline, chrome tanned, 1.1 mm, prior of the class"
    Number leather_ph;                            ///< surface pH before
    Number dose;                                  ///< g/m2 laid on
    Balance balance;
    std::vector<LimitCheck> limits;
    Profile profile;
    ExtractCheck extract;
    NextTest next_test;
    std::vector<Basis> sources;
    std::vector<std::string> defaults_used;       ///< fields that the request left to their defaults or priors
    std::vector<std::string> cautions;
    std::string version;
};

Result<JudgeAnswer> judge(const JudgeRequest& request, Ports& ports);

template <class Visitor>
void describe(Visitor& visit, JudgeRequest& r) {
    visit("liquid", r.liquid, About{.required = true});
    visit("leather", r.leather, About{.required = true});
    visit("use", r.use, About{});
    visit("meets", r.meets, About{.doc = "ids of liquids that it met or will meet on the piece, not rinsed between"});
    visit("said", r.said, About{.doc = "fields of leather and use that somebody gave; left out, those present in the request"});
    visit("members", r.members, About{.doc = "members of the ensemble, a power of two; few answer sooner and less surely", .minimum = 32, .maximum = 16384});
    visit("keep", r.keep, About{.doc = "store the judgement with its input and version"});
    visit("title", r.title, About{.doc = "for the list of kept judgements"});
    visit("piece", r.piece, About{.doc = "id of a piece that is kept; with panel its test spots of this liquid speak too"});
    visit("panel", r.panel, About{.doc = "code of the panel; spots count for its class"});
}
template <class Visitor>
void describe(Visitor& visit, LimitCheck& l) {
    visit("name", l.name, About{});
    visit("quantity", l.quantity, About{});
    visit("limit", l.limit, About{});
    visit("reached", l.reached, About{});
    visit("upper", l.upper, About{.doc = "passed when reached is above the limit; else when below"});
    visit("passed", l.passed, About{});
    visit("decides", l.decides, About{.doc = "trade custom is shown but does not decide"});
    visit("chance_1", l.chance_1, About{.doc = "share of the members that pass it"});
    visit("deepest_um", l.deepest_um, About{});
    visit("longest_s", l.longest_s, About{});
    visit("basis", l.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Balance& b) {
    visit("alkali", b.alkali, About{.doc = "false: the dose is acid"});
    visit("applied", b.applied, About{});
    visit("left", b.left, About{});
    visit("takes_finish", b.takes_finish, About{});
    visit("takes_grain", b.takes_grain, About{});
    visit("takes_corium", b.takes_corium, About{});
    visit("limit_ph", b.limit_ph, About{});
}
template <class Visitor>
void describe(Visitor& visit, Layer& l) {
    visit("name", l.name, About{});
    visit("top_um", l.top_um, About{});
    visit("bottom_um", l.bottom_um, About{});
}
template <class Visitor>
void describe(Visitor& visit, Event& e) {
    visit("at_s", e.at_s, About{});
    visit("name", e.name, About{});
}
template <class Visitor>
void describe(Visitor& visit, Profile& p) {
    visit("layers", p.layers, About{});
    visit("depth_um", p.depth_um, About{});
    visit("time_s", p.time_s, About{});
    visit("ph", p.ph, About{.doc = "pore pH, [time][depth]"});
    visit("alkali_mol_kg", p.alkali_mol_kg, About{.doc = "taken up, mol per kg dry leather, [time][depth]"});
    visit("water_pct", p.water_pct, About{.doc = "of dry leather, [time][depth]"});
    visit("film_ph", p.film_ph, About{.doc = "null once the film has gone"});
    visit("film_um", p.film_um, About{});
    visit("surface_reading_ph", p.surface_reading_ph, About{.doc = "flat electrode and a stated drop of water"});
    visit("events", p.events, About{});
    visit("mass_balance_error_1", p.mass_balance_error_1, About{});
}
template <class Visitor>
void describe(Visitor& visit, ExtractCheck& e) {
    visit("ph_before", e.ph_before, About{});
    visit("ph_after", e.ph_after, About{});
    visit("difference_figure", e.difference_figure, About{});
    visit("difference_applies", e.difference_applies, About{.doc = "only below pH 4 or above 10"});
    visit("within_en13336", e.within_en13336, About{});
    visit("basis", e.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, JudgeAnswer& a) {
    visit("id", a.id, About{.doc = "set when kept"});
    visit("grade", a.grade, About{});
    visit("advice", a.advice, About{.doc = "the first line; empty in judgements kept before it was there"});
    visit("do_now", a.do_now, About{.doc = "before it is used, and where it is on the leather already"});
    visit("sentence", a.sentence, About{});
    visit("how_sure", a.how_sure, About{});
    visit("spots", a.spots, About{.doc = "what test spots of it on this leather say; empty: there is none"});
    visit("sure", a.sure, About{});
    visit("harms", a.harms, About{.doc = "worst first"});
    visit("reasons", a.reasons, About{});
    visit("stop", a.stop, About{});
    visit("liquid", a.liquid, About{});
    visit("leather", a.leather, About{});
    visit("use", a.use, About{});
    visit("leather_sentence", a.leather_sentence, About{});
    visit("leather_ph", a.leather_ph, About{.doc = "surface pH before"});
    visit("dose", a.dose, About{});
    visit("balance", a.balance, About{});
    visit("limits", a.limits, About{});
    visit("profile", a.profile, About{});
    visit("extract", a.extract, About{});
    visit("next_test", a.next_test, About{});
    visit("sources", a.sources, About{});
    visit("defaults_used", a.defaults_used, About{});
    visit("cautions", a.cautions, About{});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
