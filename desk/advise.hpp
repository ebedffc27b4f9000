// advise: repair, repair with limits, a new panel, not restorable, refer, wait, or leave alone; panel by panel, with reasons.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "desk/diagnose.hpp"

namespace hw::desk {

enum class Verdict { Repairable, RepairWithLimits, ReplacePanel, NotRestorable, Refer, WaitAndTest, LeaveAlone };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Verdict> {
    static constexpr std::array<std::pair<desk::Verdict, std::string_view>, 7> names{
        {{desk::Verdict::Repairable, "repairable"}, {desk::Verdict::RepairWithLimits, "repair_with_limits"}, {desk::Verdict::ReplacePanel, "replace_panel"}, {desk::Verdict::NotRestorable, "not_restorable"},
         {desk::Verdict::Refer, "refer"}, {desk::Verdict::WaitAndTest, "wait_and_test"}, {desk::Verdict::LeaveAlone, "leave_alone"}}};
};

namespace hw::desk {

/// What is known of one panel, or of panels that are alike.
struct AdvisePanel {
    std::string name;
    std::vector<std::string> panels;              ///< codes, of a piece
    std::vector<SignSeen> saw;                    ///< here, beside what counts for the piece
    std::vector<DamageReading> readings;
    std::optional<double> thickness_mm, weak_mm, weak_seam_mm; ///< how deep a pin goes in; over most of it, and at the seam
    bool tear_to_seam = false, tape_failed_again = false, film_lifts = false, rotted_through = false, gelatinised = false;
    bool airbag = false;                          ///< behind this seam or cover
    std::optional<double> repair_h, repair_80_h, panel_h, panel_80_h; ///< half and eight in ten jobs take no longer
    std::string flex;                             ///< still, bend or fold; empty: not said
    std::optional<double> area_m2;                ///< of the panel; left out: what is usual
    std::optional<double> hours_since;            ///< since a solvent may have come on
};
template <class Visitor>
void describe(Visitor& visit, AdvisePanel& p) {
    visit("name", p.name, About{.doc = "of the panel, for people", .required = true});
    visit("panels", p.panels, About{.doc = "codes, of a piece"});
    visit("saw", p.saw, About{.doc = "here, beside what counts for the piece"});
    visit("readings", p.readings, About{});
    visit("thickness_mm", p.thickness_mm, About{.minimum = 0.3, .maximum = 6});
    visit("weak_mm", p.weak_mm, About{.doc = "how deep a pin goes in, over most of it", .minimum = 0, .maximum = 6});
    visit("weak_seam_mm", p.weak_seam_mm, About{.doc = "the same at the seam", .minimum = 0, .maximum = 6});
    visit("tear_to_seam", p.tear_to_seam, About{});
    visit("tape_failed_again", p.tape_failed_again, About{.doc = "tape lifts fibre after strengthening once"});
    visit("film_lifts", p.film_lifts, About{.doc = "a film is cracked through and lifts"});
    visit("rotted_through", p.rotted_through, About{});
    visit("gelatinised", p.gelatinised, About{.doc = "shrunken or glassy by heat"});
    visit("airbag", p.airbag, About{.doc = "sits behind this seam or cover"});
    visit("repair_h", p.repair_h, About{.doc = "half of such jobs take no longer", .minimum = 0, .maximum = 1000});
    visit("repair_80_h", p.repair_80_h, About{.doc = "eight in ten take no longer", .minimum = 0, .maximum = 1000});
    visit("panel_h", p.panel_h, About{.doc = "of a new panel, half take no longer", .minimum = 0, .maximum = 1000});
    visit("panel_80_h", p.panel_80_h, About{.doc = "of a new panel, eight in ten take no longer", .minimum = 0, .maximum = 1000});
    visit("flex", p.flex, About{.doc = "how the place moves in use: still, bend or fold; left out: not said"});
    visit("area_m2", p.area_m2, About{.doc = "for the usual hours; left out: what is usual", .minimum = 0.01, .maximum = 10});
    visit("hours_since", p.hours_since, About{.doc = "since a solvent may have come on", .minimum = 0, .maximum = 100000});
}

/// The shop's own results of a kind of repair.
struct OwnResults {
    std::string repair;                           ///< key of atlas/repair_successes.csv
    int good = 0, bad = 0;
};
template <class Visitor>
void describe(Visitor& visit, OwnResults& o) {
    visit("repair", o.repair, About{.doc = "rinse, recolour, degrease, patch, panel, remove_stain, dry_clean_mould, film_top or patch_paint", .required = true});
    visit("good", o.good, About{.minimum = 0, .maximum = 100000});
    visit("bad", o.bad, About{.minimum = 0, .maximum = 100000});
}

struct AdviseRequest {
    DiagnoseRequest known;
    std::vector<AdvisePanel> panels;              ///< empty: one, from what is known
    std::optional<double> mould_m2;
    bool sewage = false, hidden_mould = false;
    std::optional<double> whole_share_1;          ///< whole work over the price of a comparable new piece
    std::vector<std::string> wishes;              ///< keys of atlas/owner_wishes.csv
    std::vector<OwnResults> own;
};
template <class Visitor>
void describe(Visitor& visit, AdviseRequest& r) {
    visit("known", r.known, About{.doc = "as diagnose takes it", .required = true});
    visit("panels", r.panels, About{.doc = "left out: one, from what is known"});
    visit("mould_m2", r.mould_m2, About{.minimum = 0, .maximum = 1000});
    visit("sewage", r.sewage, About{});
    visit("hidden_mould", r.hidden_mould, About{});
    visit("whole_share_1", r.whole_share_1, About{.doc = "whole work over the price of a comparable new piece", .minimum = 0, .maximum = 100});
    visit("wishes", r.wishes, About{.doc = "words of /api/inspection_words, the first counts most"});
    visit("own", r.own, About{.doc = "the shop's own results; starting counts otherwise"});
}

/// One thing that can be done, what it promises and for how long.
struct AdviseOption {
    std::string key, name, promise, chance;       ///< chance in words with its counts and interval, never a bare share
    bool recommended = false;
    double months_low = 0, months_high = 0;
    std::optional<double> hours, hours_80;        ///< half and eight in ten such jobs take no longer
    std::string hours_from;                       ///< typed, or usual ranges
    std::optional<double> months_for_hour;        ///< expected months of life for an hour of work
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, AdviseOption& o) {
    visit("key", o.key, About{});
    visit("name", o.name, About{});
    visit("promise", o.promise, About{});
    visit("chance", o.chance, About{.doc = "counts and 90 % interval"});
    visit("recommended", o.recommended, About{});
    visit("months_low", o.months_low, About{.doc = "how long it may last"});
    visit("months_high", o.months_high, About{});
    visit("hours", o.hours, About{.doc = "half of such jobs take no longer"});
    visit("hours_80", o.hours_80, About{.doc = "eight in ten take no longer"});
    visit("hours_from", o.hours_from, About{.doc = "where they come from; empty: no hours known"});
    visit("months_for_hour", o.months_for_hour, About{.doc = "expected months of life for an hour of work"});
    visit("basis", o.basis, About{});
}

struct PanelAdvice {
    std::string name;
    Verdict verdict = Verdict::WaitAndTest;
    std::string sentence;
    std::string cause;                            ///< key of the first cause
    HowSure sure = HowSure::CannotTell;
    std::vector<Reason> reasons;                  ///< what decides first
    std::vector<AdviseOption> options;
};
template <class Visitor>
void describe(Visitor& visit, PanelAdvice& p) {
    visit("name", p.name, About{});
    visit("verdict", p.verdict, About{});
    visit("sentence", p.sentence, About{});
    visit("cause", p.cause, About{});
    visit("sure", p.sure, About{});
    visit("reasons", p.reasons, About{.doc = "what decides first"});
    visit("options", p.options, About{});
}

struct AdviseAnswer {
    std::string sentence;
    Verdict verdict = Verdict::WaitAndTest;       ///< of the piece: the one that goes furthest
    std::vector<PanelAdvice> panels;
    std::vector<std::string> first, never, out_of_reach;
    std::vector<SeparatingTest> tests;
    std::string owner;
    std::string kept, version;
};
template <class Visitor>
void describe(Visitor& visit, AdviseAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("verdict", a.verdict, About{.doc = "of the piece: the one that goes furthest"});
    visit("panels", a.panels, About{});
    visit("first", a.first, About{.doc = "people before leather"});
    visit("never", a.never, About{});
    visit("out_of_reach", a.out_of_reach, About{.doc = "wishes that cannot be met, and why"});
    visit("tests", a.tests, About{.doc = "as diagnose says for the first panel"});
    visit("owner", a.owner, About{});
    visit("kept", a.kept, About{.doc = "id of the entry"});
    visit("version", a.version, About{});
}

/// @error as diagnose; NotFound  a wish or repair that is not there  @error InvalidInput  weak depth without thickness, another word for flex
Result<AdviseAnswer> advise(const AdviseRequest& request, Ports& ports);

}  // namespace hw::desk
