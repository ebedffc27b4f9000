// rebalance: how to bring a leather back inside its window, or whether to leave it alone.
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
#include "desk/refine.hpp"
#include "desk/remedies.hpp"

namespace hw::desk {

enum class Way { LeaveAlone, WaitAndRead, BlotAndDry, RinseBlot, BufferedAcid, RaiseGently, VentSolvent, StopAndRefer };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Way> {
    static constexpr std::array<std::pair<desk::Way, std::string_view>, 8> names{
        {{desk::Way::LeaveAlone, "leave_alone"}, {desk::Way::WaitAndRead, "wait_and_read"}, {desk::Way::BlotAndDry, "blot_and_dry"}, {desk::Way::RinseBlot, "rinse_blot"},
         {desk::Way::BufferedAcid, "buffered_acid"}, {desk::Way::RaiseGently, "raise_gently"}, {desk::Way::VentSolvent, "vent_solvent"}, {desk::Way::StopAndRefer, "stop_and_refer"}}};
};

namespace hw::desk {

/// Where the leather should end.
struct Window {
    double low_ph = 3.5, high_ph = 5.5;
    std::string from;                             ///< "the piece's own sheltered reading", "the usual"
    Basis basis;
    bool of_readings = false;                     ///< with whatever the finish shifts them; else of the leather itself
};

struct RebalanceRequest {
    RefineRequest known;                          ///< what happened, what was read, what was done since
    double area_cm2 = 900;                        ///< of what would be treated, seam to seam
    std::vector<std::string> rinses;              ///< ids of the shelf; left out: everything there that may
    std::vector<std::string> asked;               ///< keys of atlas/remedies.csv: "may I …?"
    double chance_pct = 90;                       ///< wanted: of ending inside the window without passing a limit on the way
    std::optional<double> window_low_ph, window_high_ph; ///< left out: the sheltered reading first, then 3.5 to 5.5
    std::optional<double> pass_g_m2, day_g_m2;    ///< the shop's own moisture budget: of a pass, and net of blotting in 24 h
    bool still_wet = false;
    bool tacky = false;                           ///< fibres of a tissue stay on it
    bool spot_passed = false;                     ///< a hidden spot with this much water passed, dry
    double spot_g_m2 = 0;
    double fibre_weak_pct = 0;                    ///< of the thickness, where a probe goes in easily
    std::vector<std::string> history;             ///< keys of atlas/remedies.csv that were done already
    int members = 1024;                           ///< for what is proposed; fewer answer sooner and are marked preliminary
};

/// A rinse made for this leather.
struct RinsePlan {
    std::string liquid_id, liquid_name;
    std::string made_up;                          ///< for people: what it holds
    Number ph;                                    ///< of the liquid
    Number difference_figure;
    double g_m2 = 0;                              ///< of a pass
    int passes = 0;                               ///< all of them
    int days = 1;                                 ///< the passes fall on so many days, as many on each
    double dwell_s = 0;
    double blotted_pct = 0;
    double between_h = 0;                         ///< from pass to pass of a day
    Number pass_g, all_g;                         ///< for the real area
    Band dry_h;                                   ///< after the last pass, until dry to the touch
    Number takes_mmol_m2;                         ///< what one pass can take away or neutralise
};

struct WayAnswer {
    Way way = Way::LeaveAlone;
    std::string name;                             ///< for people
    std::string sentence;
    bool possible = true;
    std::string refused;                          ///< why it is out of the question
    bool recommended = false;
    std::optional<double> inside_surface_1, inside_depth_1; ///< chance of ending inside the window; empty: not computed
    std::optional<double> past_limit_1;           ///< chance of passing a limit anywhere at any time from now
    std::optional<double> ring_1, darkening_1;    ///< chance that the working rule for it is met
    Number moisture;                              ///< g/m², net of blotting, in the wettest 24 h
    double work_min = 0;
    double wait_h = 0;
    std::vector<std::string> uses_up;
    double loss_min = 0;                          ///< expected loss, in minutes of work
    std::optional<RinsePlan> rinse;
    std::vector<Fan> fans;                        ///< "surface" and "grain" along time from now, "depth_end"
    Basis basis;
};

/// One step of the bench card.
struct BenchStep {
    std::string title;                            ///< large: "Mist 3 g of water over the whole arm"
    std::string how;
    Number amount;                                ///< g on this area; unit empty: none
    double clock_s = 0;                           ///< 0: no clock
    std::string clock_name;                       ///< "leave it", "then wait"
    std::string caution;
    int pass = 0;                                 ///< which pass it belongs to; 0: none
    bool reading = false;                         ///< a reading is taken here
};

/// What the next reading should be, and what to do if it is not.
struct Expected {
    std::string kind, name;
    double at_h = 0;                              ///< after the first wetting
    Band reading;
    std::string if_higher, if_lower;
};

/// What lies on and in a panel.
struct LedgerRow {
    std::string name;                             ///< "alkali", "acetate", "surfactant", …
    Number left;                                  ///< mmol/m² or g/m²
    std::string from;                             ///< which liquids
    std::string may_not_meet;                     ///< empty: nothing
};

struct RebalanceAnswer {
    std::string sentence;                         ///< the plan in one sentence
    std::string how_sure;
    bool preliminary = false;                     ///< from fewer members than the full answer
    int members = 0;
    Window window;
    Number left;                                  ///< mmol/m² of alkali; below zero: acid
    std::string cannot;                           ///< why acid cannot undo the dose within the moisture; empty: it can, or there is none
    std::vector<WayAnswer> ways;                  ///< best first; refused last
    std::vector<BenchStep> card;                  ///< of the way that is recommended
    std::vector<Expected> expected;
    std::vector<LedgerRow> ledger;
    std::vector<RemedyAnswer> remedies;
    std::optional<Stop> stop;
    std::vector<Reason> reasons;
    std::vector<TestWorth> next;
    std::string next_sentence;
    RefineAnswer refined;                         ///< what the readings changed
    std::optional<Profile> section;               ///< of the middle member under the recommended way, from now
    std::vector<std::string> defaults_used;
    std::vector<std::string> cautions;
    std::vector<Basis> sources;
    std::string version;
};

/// Plans how to bring a leather back, doing nothing included.
///
/// @error as refine; InvalidInput  a rinse without composition, a window upside down
/// @error NotFound      no such rinse or remedy
/// @error NotConverged  cancelled by `progress`
/// @see docs/theory/rinse.md
Result<RebalanceAnswer> rebalance(const RebalanceRequest& request, Ports& ports, const Progress& progress = {});

template <class Visitor>
void describe(Visitor& visit, Window& w) {
    visit("low_ph", w.low_ph, About{});
    visit("high_ph", w.high_ph, About{});
    visit("from", w.from, About{});
    visit("basis", w.basis, About{});
    visit("of_readings", w.of_readings, About{.doc = "one of readings of the surface, with whatever the finish shifts them; else of the leather itself"});
}
template <class Visitor>
void describe(Visitor& visit, RebalanceRequest& r) {
    visit("known", r.known, About{.doc = "what happened, what was read, what was done since", .required = true});
    visit("area_cm2", r.area_cm2, About{.doc = "of what would be treated, seam to seam", .minimum = 1, .maximum = 100000});
    visit("rinses", r.rinses, About{.doc = "ids of the shelf; left out: everything there that may"});
    visit("asked", r.asked, About{.doc = "remedies asked about, of /api/remedies"});
    visit("chance_pct", r.chance_pct, About{.doc = "wanted: of ending inside the window without passing a limit on the way", .minimum = 50, .maximum = 99});
    visit("window_low_ph", r.window_low_ph, About{.doc = "left out: the sheltered reading first, then 3.5", .minimum = 3, .maximum = 8});
    visit("window_high_ph", r.window_high_ph, About{.minimum = 3, .maximum = 8});
    visit("pass_g_m2", r.pass_g_m2, About{.doc = "the shop's own moisture budget of a pass", .minimum = 1, .maximum = 200});
    visit("day_g_m2", r.day_g_m2, About{.doc = "net of blotting, in 24 h", .minimum = 1, .maximum = 500});
    visit("still_wet", r.still_wet, About{});
    visit("tacky", r.tacky, About{.doc = "fibres of a tissue stay on it"});
    visit("spot_passed", r.spot_passed, About{.doc = "a hidden spot with spot_g_m2 of water passed, dry"});
    visit("spot_g_m2", r.spot_g_m2, About{.minimum = 0, .maximum = 200});
    visit("fibre_weak_pct", r.fibre_weak_pct, About{.doc = "of the thickness, where a probe goes in easily", .minimum = 0, .maximum = 100});
    visit("history", r.history, About{.doc = "remedies that were done already, of /api/remedies"});
    visit("members", r.members, About{.doc = "fewer answer sooner and are marked preliminary", .minimum = 32, .maximum = 16384});
}
template <class Visitor>
void describe(Visitor& visit, RinsePlan& p) {
    visit("liquid_id", p.liquid_id, About{});
    visit("liquid_name", p.liquid_name, About{});
    visit("made_up", p.made_up, About{.doc = "what it holds"});
    visit("ph", p.ph, About{});
    visit("difference_figure", p.difference_figure, About{});
    visit("g_m2", p.g_m2, About{.doc = "of a pass"});
    visit("passes", p.passes, About{.doc = "all of them"});
    visit("days", p.days, About{.doc = "the passes fall on so many days, as many on each"});
    visit("dwell_s", p.dwell_s, About{});
    visit("blotted_pct", p.blotted_pct, About{});
    visit("between_h", p.between_h, About{.doc = "from pass to pass"});
    visit("pass_g", p.pass_g, About{.doc = "for the real area"});
    visit("all_g", p.all_g, About{});
    visit("dry_h", p.dry_h, About{.doc = "after the last pass, until dry to the touch"});
    visit("takes_mmol_m2", p.takes_mmol_m2, About{.doc = "what one pass can take away or neutralise"});
}
template <class Visitor>
void describe(Visitor& visit, WayAnswer& w) {
    visit("way", w.way, About{});
    visit("name", w.name, About{});
    visit("sentence", w.sentence, About{});
    visit("possible", w.possible, About{});
    visit("refused", w.refused, About{.doc = "why it is out of the question"});
    visit("recommended", w.recommended, About{});
    visit("inside_surface_1", w.inside_surface_1, About{.doc = "chance of ending inside the window; null: not computed"});
    visit("inside_depth_1", w.inside_depth_1, About{});
    visit("past_limit_1", w.past_limit_1, About{.doc = "chance of passing a limit anywhere at any time from now"});
    visit("ring_1", w.ring_1, About{});
    visit("darkening_1", w.darkening_1, About{});
    visit("moisture", w.moisture, About{.doc = "net of blotting, in the wettest 24 h"});
    visit("work_min", w.work_min, About{});
    visit("wait_h", w.wait_h, About{});
    visit("uses_up", w.uses_up, About{});
    visit("loss_min", w.loss_min, About{.doc = "expected loss, in minutes of work"});
    visit("rinse", w.rinse, About{});
    visit("fans", w.fans, About{.doc = "surface and grain along time from now, depth_end"});
    visit("basis", w.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, BenchStep& s) {
    visit("title", s.title, About{});
    visit("how", s.how, About{});
    visit("amount", s.amount, About{.doc = "g on this area; without a unit: none"});
    visit("clock_s", s.clock_s, About{.doc = "0: no clock"});
    visit("clock_name", s.clock_name, About{});
    visit("caution", s.caution, About{});
    visit("pass", s.pass, About{.doc = "which pass it belongs to; 0: none"});
    visit("reading", s.reading, About{.doc = "a reading is taken here"});
}
template <class Visitor>
void describe(Visitor& visit, Expected& e) {
    visit("kind", e.kind, About{});
    visit("name", e.name, About{});
    visit("at_h", e.at_h, About{.doc = "after the first wetting"});
    visit("reading", e.reading, About{});
    visit("if_higher", e.if_higher, About{});
    visit("if_lower", e.if_lower, About{});
}
template <class Visitor>
void describe(Visitor& visit, LedgerRow& r) {
    visit("name", r.name, About{});
    visit("left", r.left, About{});
    visit("from", r.from, About{.doc = "which liquids"});
    visit("may_not_meet", r.may_not_meet, About{});
}
template <class Visitor>
void describe(Visitor& visit, RebalanceAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("how_sure", a.how_sure, About{});
    visit("preliminary", a.preliminary, About{.doc = "from fewer members than the full answer"});
    visit("members", a.members, About{});
    visit("window", a.window, About{});
    visit("left", a.left, About{.doc = "of alkali; below zero: acid"});
    visit("cannot", a.cannot, About{.doc = "why acid cannot undo the dose within the moisture; may be empty"});
    visit("ways", a.ways, About{.doc = "best first; refused last"});
    visit("card", a.card, About{.doc = "bench steps of the way that is recommended"});
    visit("expected", a.expected, About{});
    visit("ledger", a.ledger, About{.doc = "what lies on and in the panel"});
    visit("remedies", a.remedies, About{});
    visit("stop", a.stop, About{});
    visit("reasons", a.reasons, About{});
    visit("next", a.next, About{.doc = "tests, best first"});
    visit("next_sentence", a.next_sentence, About{});
    visit("refined", a.refined, About{.doc = "what the readings changed"});
    visit("section", a.section, About{.doc = "of the middle member under the recommended way, from now"});
    visit("defaults_used", a.defaults_used, About{});
    visit("cautions", a.cautions, About{});
    visit("sources", a.sources, About{});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
