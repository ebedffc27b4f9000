// refine: what readings change about what happened to a leather, whether they fit each other, and which to take next.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/progress.hpp"
#include "base/result.hpp"
#include "desk/judge.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A product titrated at the bench by drops of a weak acid: millilitres only, with eye protection and an open window.
struct DropCount {
    double product_ml = 1;                        ///< neat
    std::string acid = "acetic acid";             ///< name of a row of atlas/substances.csv
    double acid_pct = 5;                          ///< by weight, in water
    double drop_ml = 0.05;
    double end_ph = 5.5;                          ///< at which the strip or meter said stop
};

/// One reading, by a kind of atlas/look_kinds.csv.
struct Look {
    std::string kind;                             ///< "surface_ph", "control_ph", "extract_ph", "product_ph", "product_ph_tenfold", "product_drops", "weight_used", "cloth_weight", "rinse_conductivity", "water_drop", "thickness"
    double value_1 = 0;                           ///< in the unit of the kind
    std::optional<double> plus_minus_1;           ///< half width of its 90 % band; left out: the kind's own
    double at_h = 0;                              ///< after the first wetting; not read where the kind has no time
    int pass = 0;                                 ///< rinse_conductivity: of which pass, 1 the first
    std::optional<DropCount> drops;               ///< product_drops: how it was done
    std::string note;
};

/// Something laid on and taken off again since: a rinse, a buffer, clean water.
struct Pass {
    Liquid liquid;                                ///< whole, or with only its id one of the shelf
    double g_m2 = 30;                             ///< laid on
    double dwell_s = 60;
    double blotted_pct = 60;                      ///< share of what is on the surface
    double at_h = 24;                             ///< begun so long after the first wetting
};

/// What the shop has to read with.
struct ShopTest {
    std::string name;                             ///< of atlas/bench_tests.csv
    bool have = true;
    std::optional<double> minutes;                ///< of work; left out: the usual
};

struct RefineRequest {
    JudgeRequest happened;                        ///< what was told: liquid, leather, use; readings of the leather itself go into `readings`
    bool nothing_laid = false;                    ///< no liquid did it: skin oil, sweat or age; `happened.liquid` is not read
    std::vector<Look> readings;
    std::vector<Pass> passes;                     ///< what was done since
    double now_h = 24;                            ///< hours since the first wetting
    std::string piece, panel;                     ///< takes readings of the panel too
    std::vector<ShopTest> bench;                  ///< left out: as the shop keeps it, else the usual
    int members = 1024;                           ///< a power of two
};

/// A quantity before and after the readings.
struct Change {
    std::string key;                              ///< "dose", "left", "start_ph", "finish", "surface_now", "grain_now", "depth", "buffering"
    std::string name;                             ///< for people
    Band before, after;
    std::string sentence;
    Basis basis;
};

/// One reading against what was expected of it.
struct ReadingFit {
    std::string kind, name;
    Number read;
    Band expected_before;                         ///< of the reading, its own error included, before any reading
    Band expected_others;                         ///< by all other readings
    double surprise_1 = 1;                        ///< chance of a reading at least as far out, by all other readings
    bool fits = true;
    std::string sentence;
    Basis basis;
};

/// Things that cannot all be so.
struct Misfit {
    std::string sentence;                         ///< "The dose that was told and the pH that was read do not fit."
    std::vector<std::string> between;             ///< names of what does not fit
    std::vector<std::string> may_mean;            ///< likeliest first
    Basis basis;
};

/// A test that could be done next, and what it is worth.
struct TestWorth {
    std::string name;                             ///< of atlas/bench_tests.csv
    std::string how;
    double work_min = 0;                          ///< minutes of work
    double wait_h = 0;
    std::string harm;                             ///< what it does to the piece; empty: nothing
    double saved_min = 0;                         ///< expected loss that it saves, in minutes of work, before its own cost
    double plus_minus_min = 0;
    double saved_per_min_1 = 0;                   ///< saved for each minute of work
    double changes_1 = 0;                         ///< chance that it changes what is best
    bool worth_it = false;                        ///< saves more than it costs, beyond the error
    bool have = true;                             ///< the shop has what it takes
    std::string sentence;                         ///< why, in one sentence
    Basis basis;
};

/// How the update was computed.
struct Weighing {
    int members = 0;
    double effective = 0;                         ///< number of members that the weights were worth
    bool rejuvenated = false;                     ///< drawn anew from the prior by all readings, since the weights had collapsed
    int steps = 0;
    double accepted_1 = 0;
};

struct RefineAnswer {
    std::string sentence;                         ///< what is known now
    std::string how_sure;
    std::vector<Change> changes;                  ///< what changed most first
    std::vector<ReadingFit> readings;             ///< in the order given
    std::vector<Misfit> misfits;
    std::vector<Chance> chances_before, chances_after; ///< grades of what happened
    std::vector<Fan> fans;                        ///< "surface_before", "surface_after" along time; "depth_now_before", "depth_now_after"
    std::vector<TestWorth> next;                  ///< best first
    std::string next_sentence;                    ///< what to do next, or that no test would change the decision
    std::optional<Stop> stop;
    std::vector<Reason> reasons;
    Weighing weighing;
    std::vector<std::string> defaults_used;
    std::vector<std::string> cautions;
    std::vector<Basis> sources;
    std::string version;
};

/// Weighs what may have happened by everything that was read. All readings together from the prior: their order cannot matter.
///
/// @error InvalidInput  a reading without its kind, of a kind that needs a time or a pass that is not there; drops of a product
///                      that holds or may hold chlorine bleach, sulfite or sulfide (`where` names the reading)
/// @error NotFound      no such kind, liquid, piece, panel
/// @error OutOfRange    outside the range of its kind
/// @see docs/theory/refine.md
Result<RefineAnswer> refine(const RefineRequest& request, Ports& ports, const Progress& progress = {});

template <class Visitor>
void describe(Visitor& visit, DropCount& d) {
    visit("product_ml", d.product_ml, About{.doc = "neat", .minimum = 0.1, .maximum = 20});
    visit("acid", d.acid, About{.doc = "name of a weak acid"});
    visit("acid_pct", d.acid_pct, About{.doc = "by weight, in water", .minimum = 0.1, .maximum = 10});
    visit("drop_ml", d.drop_ml, About{.minimum = 0.01, .maximum = 0.2});
    visit("end_ph", d.end_ph, About{.doc = "at which it was stopped", .minimum = 4, .maximum = 10});
}
template <class Visitor>
void describe(Visitor& visit, Look& l) {
    visit("kind", l.kind, About{.doc = "one of /api/look_kinds", .required = true});
    visit("value_1", l.value_1, About{.doc = "in the unit of the kind", .required = true});
    visit("plus_minus_1", l.plus_minus_1, About{.doc = "half width of its 90 % band; left out: that of the kind", .minimum = 0});
    visit("at_h", l.at_h, About{.doc = "hours after the first wetting", .minimum = 0, .maximum = 8760});
    visit("pass", l.pass, About{.doc = "rinse_conductivity: of which pass, 1 the first", .minimum = 0, .maximum = 40});
    visit("drops", l.drops, About{.doc = "product_drops: how it was done"});
    visit("note", l.note, About{});
}
template <class Visitor>
void describe(Visitor& visit, Pass& p) {
    visit("liquid", p.liquid, About{.doc = "whole, or with only its id one of the shelf", .required = true});
    visit("g_m2", p.g_m2, About{.doc = "laid on", .minimum = 0.1, .maximum = 1000});
    visit("dwell_s", p.dwell_s, About{.minimum = 1, .maximum = 86400});
    visit("blotted_pct", p.blotted_pct, About{.doc = "share of what is on the surface", .minimum = 0, .maximum = 99});
    visit("at_h", p.at_h, About{.doc = "begun so long after the first wetting", .minimum = 0, .maximum = 8760});
}
template <class Visitor>
void describe(Visitor& visit, ShopTest& t) {
    visit("name", t.name, About{.required = true});
    visit("have", t.have, About{.doc = "the shop has what it takes"});
    visit("minutes", t.minutes, About{.doc = "of work; left out: the usual", .minimum = 0, .maximum = 600});
}
template <class Visitor>
void describe(Visitor& visit, RefineRequest& r) {
    visit("happened", r.happened, About{.doc = "what was told: liquid, leather and use", .required = true});
    visit("nothing_laid", r.nothing_laid, About{.doc = "no liquid did it: skin oil, sweat or age"});
    visit("readings", r.readings, About{});
    visit("passes", r.passes, About{.doc = "what was done since"});
    visit("now_h", r.now_h, About{.doc = "hours since the first wetting", .minimum = 0, .maximum = 8760});
    visit("piece", r.piece, About{.doc = "takes readings of this piece too"});
    visit("panel", r.panel, About{.doc = "and this panel"});
    visit("bench", r.bench, About{.doc = "left out: as the shop keeps it, else the usual"});
    visit("members", r.members, About{.doc = "of the ensemble, a power of two", .minimum = 32, .maximum = 16384});
}
template <class Visitor>
void describe(Visitor& visit, Change& c) {
    visit("key", c.key, About{});
    visit("name", c.name, About{});
    visit("before", c.before, About{});
    visit("after", c.after, About{});
    visit("sentence", c.sentence, About{});
    visit("basis", c.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, ReadingFit& f) {
    visit("kind", f.kind, About{});
    visit("name", f.name, About{});
    visit("read", f.read, About{});
    visit("expected_before", f.expected_before, About{.doc = "of the reading, before any reading"});
    visit("expected_others", f.expected_others, About{.doc = "by all other readings"});
    visit("surprise_1", f.surprise_1, About{.doc = "chance of a reading at least as far out, by all others"});
    visit("fits", f.fits, About{});
    visit("sentence", f.sentence, About{});
    visit("basis", f.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Misfit& m) {
    visit("sentence", m.sentence, About{});
    visit("between", m.between, About{.doc = "names of what does not fit"});
    visit("may_mean", m.may_mean, About{.doc = "likeliest first"});
    visit("basis", m.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, TestWorth& t) {
    visit("name", t.name, About{});
    visit("how", t.how, About{});
    visit("work_min", t.work_min, About{.doc = "minutes of work"});
    visit("wait_h", t.wait_h, About{});
    visit("harm", t.harm, About{.doc = "what it does to the piece; may be empty"});
    visit("saved_min", t.saved_min, About{.doc = "expected loss that it saves, in minutes of work, before its own cost"});
    visit("plus_minus_min", t.plus_minus_min, About{});
    visit("saved_per_min_1", t.saved_per_min_1, About{.doc = "saved for each minute of work"});
    visit("changes_1", t.changes_1, About{.doc = "chance that it changes what is best"});
    visit("worth_it", t.worth_it, About{.doc = "saves more than it costs, beyond the error"});
    visit("have", t.have, About{.doc = "the shop has what it takes"});
    visit("sentence", t.sentence, About{});
    visit("basis", t.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Weighing& w) {
    visit("members", w.members, About{});
    visit("effective", w.effective, About{.doc = "number of members that the weights were worth"});
    visit("rejuvenated", w.rejuvenated, About{.doc = "drawn anew from the prior by all readings"});
    visit("steps", w.steps, About{});
    visit("accepted_1", w.accepted_1, About{});
}
template <class Visitor>
void describe(Visitor& visit, RefineAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("how_sure", a.how_sure, About{});
    visit("changes", a.changes, About{.doc = "what changed most first"});
    visit("readings", a.readings, About{.doc = "in the order given"});
    visit("misfits", a.misfits, About{.doc = "things that cannot all be so"});
    visit("chances_before", a.chances_before, About{});
    visit("chances_after", a.chances_after, About{});
    visit("fans", a.fans, About{.doc = "surface_before, surface_after, depth_now_before, depth_now_after"});
    visit("next", a.next, About{.doc = "best first"});
    visit("next_sentence", a.next_sentence, About{});
    visit("stop", a.stop, About{});
    visit("reasons", a.reasons, About{});
    visit("weighing", a.weighing, About{});
    visit("defaults_used", a.defaults_used, About{});
    visit("cautions", a.cautions, About{});
    visit("sources", a.sources, About{});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
