// A piece on the bench: everything that was entered about it, entry by entry. Nothing is overwritten: an entry corrects,
// follows or takes back an earlier one, and what stands is folded from all of them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "desk/records.hpp"
#include "desk/spot_liquid.hpp"
#include "desk/spot_signs.hpp"

namespace hw::desk {

enum class Did { MakeUp, Panels, Condition, Mark, Reading, Photo, Said, Agreed, TakeBack, Laid, Identified, SpotMade, SpotRead };
enum class Wear { NotSaid, None, Light, Worn, Through };
enum class Exposure { NotSaid, Hidden, Seldom, Seat, Hands, Head, Sun };
enum class FreeShape { Rectangle, Trapezoid, Outline };
enum class SaidKind { Wish, History, Statement };
/// Where a spot lies: out of sight, or at the edge of the real damage.
enum class SpotWhere { Hidden, Edge };
/// What was laid on it: the product, or of the two controls clean water or nothing at all.
enum class SpotKind { Product, Water, Untouched };
enum class SpotStage { Wet, Dry };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Did> {
    static constexpr std::array<std::pair<desk::Did, std::string_view>, 13> names{
        {{desk::Did::MakeUp, "make_up"}, {desk::Did::Panels, "panels"}, {desk::Did::Condition, "condition"}, {desk::Did::Mark, "mark"}, {desk::Did::Reading, "reading"},
         {desk::Did::Photo, "photo"}, {desk::Did::Said, "said"}, {desk::Did::Agreed, "agreed"}, {desk::Did::TakeBack, "take_back"}, {desk::Did::Laid, "laid"},
         {desk::Did::Identified, "identified"},
         {desk::Did::SpotMade, "spot_made"}, {desk::Did::SpotRead, "spot_read"}}};
};
template <>
struct hw::EnumNames<hw::desk::Wear> {
    static constexpr std::array<std::pair<desk::Wear, std::string_view>, 5> names{
        {{desk::Wear::NotSaid, "not_said"}, {desk::Wear::None, "none"}, {desk::Wear::Light, "light"}, {desk::Wear::Worn, "worn"}, {desk::Wear::Through, "through"}}};
};
template <>
struct hw::EnumNames<hw::desk::Exposure> {
    static constexpr std::array<std::pair<desk::Exposure, std::string_view>, 7> names{
        {{desk::Exposure::NotSaid, "not_said"}, {desk::Exposure::Hidden, "hidden"}, {desk::Exposure::Seldom, "seldom"}, {desk::Exposure::Seat, "seat"},
         {desk::Exposure::Hands, "hands"}, {desk::Exposure::Head, "head"}, {desk::Exposure::Sun, "sun"}}};
};
template <>
struct hw::EnumNames<hw::desk::FreeShape> {
    static constexpr std::array<std::pair<desk::FreeShape, std::string_view>, 3> names{
        {{desk::FreeShape::Rectangle, "rectangle"}, {desk::FreeShape::Trapezoid, "trapezoid"}, {desk::FreeShape::Outline, "outline"}}};
};
template <>
struct hw::EnumNames<hw::desk::SaidKind> {
    static constexpr std::array<std::pair<desk::SaidKind, std::string_view>, 3> names{
        {{desk::SaidKind::Wish, "wish"}, {desk::SaidKind::History, "history"}, {desk::SaidKind::Statement, "statement"}}};
};

template <>
struct hw::EnumNames<hw::desk::SpotWhere> {
    static constexpr std::array<std::pair<desk::SpotWhere, std::string_view>, 2> names{{{desk::SpotWhere::Hidden, "hidden"}, {desk::SpotWhere::Edge, "edge"}}};
};
template <>
struct hw::EnumNames<hw::desk::SpotKind> {
    static constexpr std::array<std::pair<desk::SpotKind, std::string_view>, 3> names{{{desk::SpotKind::Product, "product"}, {desk::SpotKind::Water, "water"}, {desk::SpotKind::Untouched, "untouched"}}};
};
template <>
struct hw::EnumNames<hw::desk::SpotStage> {
    static constexpr std::array<std::pair<desk::SpotStage, std::string_view>, 2> names{{{desk::SpotStage::Wet, "wet"}, {desk::SpotStage::Dry, "dry"}}};
};

namespace hw::desk {

/// One measure or choice of a family, by its key in atlas/piece_dimensions.csv or atlas/piece_options.csv.
struct Measure {
    std::string key;
    double value_1 = 0;   ///< cm for a measure, a whole number for a choice
};
template <class Visitor>
void describe(Visitor& visit, Measure& m) {
    visit("key", m.key, About{.doc = "as width", .required = true});
    visit("value_1", m.value_1, About{.doc = "cm for a measure, a whole number for a choice", .minimum = 0, .maximum = 2000, .required = true});
}

/// A panel of a piece that no family draws.
struct FreePiece {
    std::string name;
    FreeShape shape = FreeShape::Rectangle;
    double width_cm = 0;               ///< trapezoid: the longer of the parallel sides
    double height_cm = 0;
    double top_cm = 0;                 ///< trapezoid: the other parallel side
    std::vector<double> outline_cm;    ///< outline: x, y, x, y … around it, not crossing itself
};
template <class Visitor>
void describe(Visitor& visit, FreePiece& f) {
    visit("name", f.name, About{.doc = "what it is called"});
    visit("shape", f.shape, About{});
    visit("width_cm", f.width_cm, About{.doc = "trapezoid: one of the parallel sides", .minimum = 0, .maximum = 1000});
    visit("height_cm", f.height_cm, About{.minimum = 0, .maximum = 1000});
    visit("top_cm", f.top_cm, About{.doc = "trapezoid: the other parallel side", .minimum = 0, .maximum = 1000});
    visit("outline_cm", f.outline_cm, About{.doc = "outline: x, y, x, y … around it, not crossing itself"});
}

struct MakeUp {
    std::string name;                       ///< what the shop calls it
    std::string family;                     ///< key of atlas/piece_families.csv, or "free"
    std::vector<Measure> measures;          ///< those that differ from the usual
    std::vector<FreePiece> free;            ///< of a free piece
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, MakeUp& m) {
    visit("name", m.name, About{.doc = "what the shop calls it"});
    visit("family", m.family, About{.doc = "one of /api/inspection_words, or free", .required = true});
    visit("measures", m.measures, About{.doc = "those that differ from the usual"});
    visit("free", m.free, About{.doc = "panels of a free piece"});
    visit("note", m.note, About{});
}

/// What panels are made of and go through. Panels with equal facts form a class. An empty word leaves what stood.
struct PanelFacts {
    std::vector<std::string> panels;
    std::string material;                   ///< leather class, or key of atlas/other_materials.csv
    std::string tannage;
    Wear wear = Wear::NotSaid;
    Exposure exposure = Exposure::NotSaid;
};
template <class Visitor>
void describe(Visitor& visit, PanelFacts& f) {
    visit("panels", f.panels, About{.doc = "codes of the panels", .required = true});
    visit("material", f.material, About{.doc = "leather class, or what it is instead; empty leaves what stood"});
    visit("tannage", f.tannage, About{.doc = "empty leaves what stood"});
    visit("wear", f.wear, About{.doc = "not_said leaves what stood"});
    visit("exposure", f.exposure, About{.doc = "not_said leaves what stood"});
}

struct Condition {
    std::vector<std::string> panels;
    std::string term;                       ///< key of atlas/condition_terms.csv
    int severity = 1;                       ///< 0 gone, 1 faint, 2 plain, 3 heavy, 4 failed
    std::optional<double> extent_pct;       ///< of each panel; or
    std::optional<double> extent_cm2;       ///< on each panel
    std::vector<std::string> photos;
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, Condition& c) {
    visit("panels", c.panels, About{.doc = "codes of the panels", .required = true});
    visit("term", c.term, About{.doc = "one of /api/inspection_words", .required = true});
    visit("severity", c.severity, About{.doc = "0 gone, 1 faint, 2 plain, 3 heavy, 4 failed", .minimum = 0, .maximum = 4});
    visit("extent_pct", c.extent_pct, About{.doc = "of each panel; left out with extent_cm2: all of it", .minimum = 0, .maximum = 100});
    visit("extent_cm2", c.extent_cm2, About{.doc = "on each panel, instead of extent_pct", .minimum = 0, .maximum = 100000});
    visit("photos", c.photos, About{.doc = "ids of photographs"});
    visit("note", c.note, About{});
}

/// A part that stops later steps.
struct Mark {
    std::vector<std::string> panels;
    std::string kind;                       ///< key of atlas/stop_marks.csv
    bool there = true;                      ///< false: looked for, and it is not there
    std::string note;                       ///< how that is known: a label, the manual
};
template <class Visitor>
void describe(Visitor& visit, Mark& m) {
    visit("panels", m.panels, About{.doc = "codes of the panels", .required = true});
    visit("kind", m.kind, About{.doc = "one of /api/inspection_words", .required = true});
    visit("there", m.there, About{.doc = "false: looked for, and it is not there"});
    visit("note", m.note, About{.doc = "how that is known: a label, the manual"});
}

struct Reading {
    std::string kind;                       ///< key of atlas/reading_kinds.csv
    std::string panel;
    std::string place;                      ///< in words
    std::vector<double> values;             ///< one for each place on the panel
    std::optional<double> control;          ///< the same where nobody ever touched or treated it
    std::string instrument;                 ///< id
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, Reading& r) {
    visit("kind", r.kind, About{.doc = "one of /api/inspection_words", .required = true});
    visit("panel", r.panel, About{.doc = "code; empty for the air of the room"});
    visit("place", r.place, About{.doc = "in words"});
    visit("values", r.values, About{.doc = "one for each place, in the unit of the kind", .required = true});
    visit("control", r.control, About{.doc = "the same where nobody ever touched or treated it"});
    visit("instrument", r.instrument, About{.doc = "id"});
    visit("note", r.note, About{});
}

struct PhotoShown {
    std::string photo;                      ///< id: SHA-256 of its bytes
    std::vector<std::string> panels;        ///< empty: the whole piece
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, PhotoShown& p) {
    visit("photo", p.photo, About{.doc = "id: SHA-256 of its bytes", .required = true});
    visit("panels", p.panels, About{.doc = "left out: the whole piece"});
    visit("note", p.note, About{});
}

/// Who said what: wishes in their order, history, statements. A fact told is not a fact found.
struct Said {
    SaidKind kind = SaidKind::Statement;
    std::string who;
    std::vector<std::string> wishes;        ///< keys of atlas/owner_wishes.csv, the first counts most
    std::string text;
};
template <class Visitor>
void describe(Visitor& visit, Said& s) {
    visit("kind", s.kind, About{});
    visit("who", s.who, About{.doc = "owner, retailer, insurer …"});
    visit("wishes", s.wishes, About{.doc = "words of /api/inspection_words, the first counts most"});
    visit("text", s.text, About{});
}

/// What was shown to the owner, word for word, and signed on the screen.
struct Agreed {
    std::string name;
    std::vector<std::string> sentences;
    std::vector<std::string> consents;
    std::vector<std::vector<double>> signature;   ///< strokes: x, y, x, y … in thousandths of the box
};
template <class Visitor>
void describe(Visitor& visit, Agreed& a) {
    visit("name", a.name, About{.doc = "who signed", .required = true});
    visit("sentences", a.sentences, About{.doc = "what was shown, word for word", .required = true});
    visit("consents", a.consents, About{.doc = "what was ticked, word for word"});
    visit("signature", a.signature, About{.doc = "strokes: x, y, x, y … in thousandths of the box"});
}

/// A liquid laid on and taken off again. The liquid is kept as it was: a shelf changes, a record does not.
struct Laid {
    std::vector<std::string> panels;
    Liquid liquid;                          ///< whole
    double g_m2 = 30;                       ///< laid on each panel
    double dwell_s = 60;
    double blotted_pct = 0;                 ///< share of what was on the surface that cloth or blotter took
    std::string note;
};
template <class Visitor>
void describe(Visitor& visit, Laid& l) {
    visit("panels", l.panels, About{.doc = "codes of the panels", .required = true});
    visit("liquid", l.liquid, About{.doc = "whole, or with only its id one of the shelf: kept whole", .required = true});
    visit("g_m2", l.g_m2, About{.doc = "laid on each panel", .minimum = 0.1, .maximum = 5000, .required = true});
    visit("dwell_s", l.dwell_s, About{.doc = "until it was taken off", .minimum = 0, .maximum = 86400});
    visit("blotted_pct", l.blotted_pct, About{.doc = "share of what was on the surface that was taken off", .minimum = 0, .maximum = 100});
    visit("note", l.note, About{});
}

/// What a test of the covering showed.
struct CoverSaw {
    std::string test;                       ///< key of atlas/identify_tests.csv
    std::vector<std::string> answers;       ///< keys of its answers: one of these was seen
    std::string panel;                      ///< code; empty: the place that is asked about
};
template <class Visitor>
void describe(Visitor& visit, CoverSaw& s) {
    visit("test", s.test, About{.doc = "one of /api/identify_words", .required = true});
    visit("answers", s.answers, About{.doc = "keys of its answers; several: one of these was seen", .required = true});
    visit("panel", s.panel, About{.doc = "code; left out: the place that is asked about"});
}

/// What the covering was found to be, how sure, and from what.
struct Identified {
    std::vector<std::string> panels;
    std::string kind;                       ///< key of atlas/identify_kinds.csv that led
    double chance_pct = 0, low_pct = 0, high_pct = 0;
    std::string tannage;                    ///< empty: not told
    std::string sentence;
    std::vector<CoverSaw> saw;
};
template <class Visitor>
void describe(Visitor& visit, Identified& i) {
    visit("panels", i.panels, About{.doc = "codes of the panels", .required = true});
    visit("kind", i.kind, About{.doc = "the kind that led, one of /api/identify_words", .required = true});
    visit("chance_pct", i.chance_pct, About{.doc = "of the family of that kind", .minimum = 0, .maximum = 100});
    visit("low_pct", i.low_pct, About{.doc = "5 % end of its band, from the uncertainty of the tables", .minimum = 0, .maximum = 100});
    visit("high_pct", i.high_pct, About{.doc = "95 % end", .minimum = 0, .maximum = 100});
    visit("tannage", i.tannage, About{.doc = "empty: not told"});
    visit("sentence", i.sentence, About{.doc = "as it was answered"});
    visit("saw", i.saw, About{.doc = "what it was found from"});
}

/// A test spot that was made. The liquid is kept as it was.
struct SpotMade {
    std::string panel;
    std::string place;                      ///< key of atlas/spot_places.csv, or in words
    SpotWhere where = SpotWhere::Hidden;
    SpotKind kind = SpotKind::Product;
    Liquid liquid;                          ///< whole; of a control nothing
    double parts_water = 0;                 ///< as in the job
    SpotPurpose purpose = SpotPurpose::Clean;
    std::string lot;
    double g_m2 = 30;
    double dwell_s = 120;                   ///< as in the job
    int strokes = 10;
    SpotAir air;
    std::vector<std::string> photos;
    std::string note;
    std::optional<double> dry_h;            ///< computed when it was entered: dry through after so long
};
template <class Visitor>
void describe(Visitor& visit, SpotMade& s) {
    visit("panel", s.panel, About{.doc = "code", .required = true});
    visit("place", s.place, About{.doc = "one of the places that spot proposes, or in words"});
    visit("where", s.where, About{.doc = "hidden, or at the edge of the real damage"});
    visit("kind", s.kind, About{.doc = "product, or a control: water, untouched"});
    visit("liquid", s.liquid, About{.doc = "whole, or with only its id one of the shelf: kept whole; left out for a control"});
    visit("parts_water", s.parts_water, About{.doc = "as in the job: parts of water to one part of product", .minimum = 0, .maximum = 10000});
    visit("purpose", s.purpose, About{.doc = "what it is used for: composition does not tell a conditioner or a coat"});
    visit("lot", s.lot, About{.doc = "on the bottle"});
    visit("g_m2", s.g_m2, About{.doc = "what the swab left", .minimum = 1, .maximum = 500});
    visit("dwell_s", s.dwell_s, About{.doc = "as in the job, until it was blotted", .minimum = 0, .maximum = 86400});
    visit("strokes", s.strokes, About{.doc = "of the swab, counted", .minimum = 0, .maximum = 200});
    visit("air", s.air, About{});
    visit("photos", s.photos, About{.doc = "ids of photographs"});
    visit("note", s.note, About{});
    visit("dry_h", s.dry_h, About{.doc = "filled in when it is entered: computed to be dry through after so long; left out where it was not computed", .minimum = 0, .maximum = 1000});
}

/// A reading of a spot.
struct SpotRead {
    std::string spot;                       ///< id of the entry that made it
    SpotStage stage = SpotStage::Dry;
    SpotSigns signs;
    std::vector<std::string> photos;
};
template <class Visitor>
void describe(Visitor& visit, SpotRead& s) {
    visit("spot", s.spot, About{.doc = "id of the entry that made it", .required = true});
    visit("stage", s.stage, About{.doc = "wet: kept and never judged"});
    visit("signs", s.signs, About{.required = true});
    visit("photos", s.photos, About{.doc = "ids of photographs"});
}

/// One entry. Exactly the part that `did` names is filled.
struct Entry {
    std::string id;                         ///< UUID, made where it was typed: sent twice it is kept once
    std::string at;                         ///< ISO 8601, UTC, by the clock of the device
    std::string device;                     ///< of which device
    int seen = 0;                           ///< number of the last entry of this piece that the device knew
    Did did = Did::Condition;
    std::string corrects;                   ///< id of the entry that was wrong
    std::string follows;                    ///< id of the condition that this one saw again later
    std::string takes_back;                 ///< id of the entry that never was
    std::string by;                         ///< who, filled in at the door
    std::optional<MakeUp> make_up;
    std::optional<PanelFacts> facts;
    std::optional<Condition> condition;
    std::optional<Mark> mark;
    std::optional<Reading> reading;
    std::optional<PhotoShown> photo;
    std::optional<Said> said;
    std::optional<Agreed> agreed;
    std::optional<Laid> laid;
    std::optional<Identified> identified;
    std::optional<SpotMade> spot_made;
    std::optional<SpotRead> spot_read;
};
template <class Visitor>
void describe(Visitor& visit, Entry& e) {
    visit("id", e.id, About{.doc = "UUID, made where it was typed: sent twice it is kept once; left out: made here"});
    visit("at", e.at, About{.doc = "ISO 8601, UTC; left out: now"});
    visit("device", e.device, About{.doc = "which device"});
    visit("seen", e.seen, About{.doc = "number of the last entry of this piece that the device knew", .minimum = 0});
    visit("did", e.did, About{.doc = "names the one part that is filled", .required = true});
    visit("corrects", e.corrects, About{.doc = "id of the entry that was wrong"});
    visit("follows", e.follows, About{.doc = "id of the condition that this one saw again later"});
    visit("takes_back", e.takes_back, About{.doc = "id of the entry that never was"});
    visit("by", e.by, About{.doc = "who; filled in at the door"});
    visit("make_up", e.make_up, About{});
    visit("facts", e.facts, About{});
    visit("condition", e.condition, About{});
    visit("mark", e.mark, About{});
    visit("reading", e.reading, About{});
    visit("photo", e.photo, About{});
    visit("said", e.said, About{});
    visit("agreed", e.agreed, About{});
    visit("laid", e.laid, About{});
    visit("identified", e.identified, About{});
    visit("spot_made", e.spot_made, About{});
    visit("spot_read", e.spot_read, About{});
}

/// An entry as kept: with its number in the order of arrival.
struct KeptEntry {
    int number = 0;
    std::string by_id;
    Entry entry;
};

/// A row in the list of pieces.
struct PieceRow {
    std::string id;
    std::string name;
    std::string family;
    std::string changed_at;                 ///< ISO 8601, UTC
    int entries = 0;
    bool demo = false;
};
template <class Visitor>
void describe(Visitor& visit, PieceRow& r) {
    visit("id", r.id, About{});
    visit("name", r.name, About{});
    visit("family", r.family, About{});
    visit("changed_at", r.changed_at, About{.doc = "ISO 8601, UTC"});
    visit("entries", r.entries, About{.doc = "how many entries were made"});
    visit("demo", r.demo, About{});
}

}  // namespace hw::desk
