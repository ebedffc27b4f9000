// meet: which of these must never meet, in a bottle, on a shelf or one after the other on a piece, and who says so.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "core/chem/hazards.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A liquid that comes, and what is done before the next one does.
struct MeetThing {
    Liquid liquid;                                ///< whole, or with only its id one of the shelf
    double wiped_pct = 0;                         ///< share of what is on the surface that a cloth takes
    int rinses = 0;                               ///< with clean water, each blotted
    double blotted_pct = 60;                      ///< share that the blotting of a rinse takes
    double hours = 0;                             ///< then it dries, before the next comes
};

struct MeetRequest {
    std::vector<MeetThing> things;                ///< in the order in which they come
    std::string piece;                            ///< what its record says was laid on the panel came before
    std::string panel;
    std::string tannage;                          ///< of the leather it is on; empty: none, or not known
};

/// Two that should not meet, or one that holds both.
struct Meeting {
    std::string severity;                         ///< "stop", "caution" or "note"
    std::string one, other;                       ///< names; equal where one product holds both
    bool from_unknown = false;                    ///< one side is only possibly there
    bool on_record = false;                       ///< both were laid on already: what met stays met
    double left_pct = 100;                        ///< of the earlier one, when the later comes
    std::string gives;                            ///< "chlorine gas"
    std::string sentence;
    Basis basis;
};

/// What still lies there after everything that was told.
struct StillThere {
    std::string name;
    double left_pct = 0;
    bool counts = false;
};

struct MeetAnswer {
    std::string sentence;
    std::optional<Stop> stop;                     ///< of the gravest; people first
    std::vector<Meeting> meetings;                ///< most severe first
    std::vector<StillThere> there;                ///< of a sequence
    std::vector<Reason> leather;                  ///< what the leather says to them
    std::string version;
};

/// One rule as it stands on this shelf.
struct ShelfRule {
    std::string severity;
    std::string one_class, other_class;           ///< "chlorine bleach", "acids"
    std::vector<std::string> ones, others;        ///< names of the liquids that hold them, or may
    bool from_unknown = false;                    ///< only by bottles without a label
    std::string gives;
    std::string sentence;
    Basis basis;
};

/// Where to keep what, one class after the other.
struct StorageAdvice {
    std::string name;                             ///< of the class
    std::vector<std::string> liquids;
    std::string advice;
    Basis basis;
};

struct ShelfMeetings {
    std::string sentence;
    std::vector<ShelfRule> rules;                 ///< most severe first
    std::vector<StorageAdvice> storage;
    std::string version;
};

/// Which of the things meet that must not. Things between which nothing was done are together; else each comes onto what the
/// wiping, rinsing and drying before left of the earlier ones. What met stays met, whatever was done later.
/// @error InvalidInput  "things": none, or more than 20
/// @error NotFound      "things[i].liquid.id", "piece"
/// @see chem::hazards, desk/ledger.hpp
Result<MeetAnswer> meet(const MeetRequest& request, Ports& ports);

/// The same of everything on the shelf, by class.
Result<ShelfMeetings> shelf_meetings(Ports& ports);
/// Of these liquids.
ShelfMeetings meetings_of(const std::vector<Liquid>& liquids);

/// Every liquid of a store, page by page.
Result<std::vector<Liquid>> whole_shelf(Store& store);

template <class Visitor>
void describe(Visitor& visit, MeetThing& t) {
    visit("liquid", t.liquid, About{.doc = "whole, or with only its id one of the shelf", .required = true});
    visit("wiped_pct", t.wiped_pct, About{.doc = "share of what is on the surface that a cloth takes afterwards", .minimum = 0, .maximum = 99});
    visit("rinses", t.rinses, About{.doc = "with clean water afterwards, each blotted", .minimum = 0, .maximum = 20});
    visit("blotted_pct", t.blotted_pct, About{.doc = "share that the blotting of a rinse takes", .minimum = 0, .maximum = 99});
    visit("hours", t.hours, About{.doc = "then it dries, before the next comes", .minimum = 0, .maximum = 87600});
}
template <class Visitor>
void describe(Visitor& visit, MeetRequest& r) {
    visit("things", r.things, About{.doc = "in the order in which they come", .required = true});
    visit("piece", r.piece, About{.doc = "id: what its record says was laid on the panel came before"});
    visit("panel", r.panel, About{.doc = "code of the panel"});
    visit("tannage", r.tannage, About{.doc = "of the leather it is on; empty: none, or not known"});
}
template <class Visitor>
void describe(Visitor& visit, Meeting& m) {
    visit("severity", m.severity, About{.doc = "stop, caution or note"});
    visit("one", m.one, About{});
    visit("other", m.other, About{.doc = "the same where one product holds both"});
    visit("from_unknown", m.from_unknown, About{.doc = "one side is only possibly there"});
    visit("on_record", m.on_record, About{.doc = "both were laid on already: what met stays met"});
    visit("left_pct", m.left_pct, About{.doc = "of the earlier one, when the later comes"});
    visit("gives", m.gives, About{});
    visit("sentence", m.sentence, About{});
    visit("basis", m.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, StillThere& t) {
    visit("name", t.name, About{});
    visit("left_pct", t.left_pct, About{});
    visit("counts", t.counts, About{.doc = "it still counts as being there"});
}
template <class Visitor>
void describe(Visitor& visit, MeetAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("stop", a.stop, About{.doc = "of the gravest; people first"});
    visit("meetings", a.meetings, About{.doc = "most severe first"});
    visit("there", a.there, About{.doc = "what still lies there after everything that was told"});
    visit("leather", a.leather, About{});
    visit("version", a.version, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfRule& r) {
    visit("severity", r.severity, About{.doc = "stop, caution or note"});
    visit("one_class", r.one_class, About{});
    visit("other_class", r.other_class, About{});
    visit("ones", r.ones, About{.doc = "names of the liquids that hold it, or may"});
    visit("others", r.others, About{});
    visit("from_unknown", r.from_unknown, About{.doc = "only by bottles without a label"});
    visit("gives", r.gives, About{});
    visit("sentence", r.sentence, About{});
    visit("basis", r.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, StorageAdvice& s) {
    visit("name", s.name, About{.doc = "of the class"});
    visit("liquids", s.liquids, About{});
    visit("advice", s.advice, About{});
    visit("basis", s.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfMeetings& m) {
    visit("sentence", m.sentence, About{});
    visit("rules", m.rules, About{.doc = "most severe first"});
    visit("storage", m.storage, About{});
    visit("version", m.version, About{});
}

}  // namespace hw::desk
