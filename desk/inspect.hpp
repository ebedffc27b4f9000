// inspect: what is on the bench, panel by panel, from everything that was entered about it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/piece.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"
#include "desk/spot_now.hpp"

namespace hw::desk {

struct InspectRequest {
    std::string piece;                      ///< UUID, made where it was typed; empty with entries: a new one
    std::vector<Entry> entries;             ///< what is new; none: only to look
};
template <class Visitor>
void describe(Visitor& visit, InspectRequest& r) {
    visit("piece", r.piece, About{.doc = "UUID, made where it was typed; left out with entries: a new piece"});
    visit("entries", r.entries, About{.doc = "what is new; none: only to look"});
}

/// An outline on a drawing. `points`: x, y, x, y … in units of its view; what comes later lies in front.
struct DrawnShape {
    std::string panel;                      ///< code; empty: frame or foot
    std::vector<double> points;
    std::vector<std::vector<double>> lines; ///< seams and silhouette: x, y, x, y …
    double light_1 = 1;
};
template <class Visitor>
void describe(Visitor& visit, DrawnShape& s) {
    visit("panel", s.panel, About{.doc = "code; empty: frame or foot"});
    visit("points", s.points, About{.doc = "x, y, x, y … in units of the view"});
    visit("lines", s.lines, About{.doc = "seams and silhouette: x, y, x, y …"});
    visit("light_1", s.light_1, About{.doc = "0 turned from the light, 1 facing it"});
}
struct DrawnView {
    std::string key, name;
    double width_1 = 0, height_1 = 0;
    std::vector<DrawnShape> shapes;
};
template <class Visitor>
void describe(Visitor& visit, DrawnView& v) {
    visit("key", v.key, About{});
    visit("name", v.name, About{});
    visit("width_1", v.width_1, About{.doc = "of the box that holds the shapes"});
    visit("height_1", v.height_1, About{});
    visit("shapes", v.shapes, About{.doc = "in the order to paint"});
}

/// The index of one panel at a time.
struct TrendPoint {
    std::string at;
    double index_1 = 100;
};
template <class Visitor>
void describe(Visitor& visit, TrendPoint& t) {
    visit("at", t.at, About{});
    visit("index_1", t.index_1, About{.doc = "100 = nothing seen"});
}

struct PanelNow {
    std::string code, name, part;
    Number area;                            ///< cm², between the seams
    double welt_cm = 0;
    std::string zone;                       ///< name of its class; empty while nothing is known
    std::string material, tannage;
    Wear wear = Wear::NotSaid;
    Exposure exposure = Exposure::NotSaid;
    bool often_other_material = false;
    std::vector<std::string> conditions;    ///< ids of entries that stand
    std::vector<std::string> readings, photos, marks;
    Number index;                           ///< 100 = nothing seen
    std::vector<TrendPoint> trend;
    std::vector<Reason> questions;          ///< what commonly sits behind it and was not looked for yet
    bool in_conflict = false;
    Leather leather;                        ///< as `judge` takes it, with what was read on this panel
};
template <class Visitor>
void describe(Visitor& visit, PanelNow& p) {
    visit("code", p.code, About{});
    visit("name", p.name, About{});
    visit("part", p.part, About{});
    visit("area", p.area, About{.doc = "between the seams"});
    visit("welt_cm", p.welt_cm, About{.doc = "sewn round it"});
    visit("zone", p.zone, About{.doc = "its class; empty while nothing is known of it"});
    visit("material", p.material, About{});
    visit("tannage", p.tannage, About{});
    visit("wear", p.wear, About{});
    visit("exposure", p.exposure, About{});
    visit("often_other_material", p.often_other_material, About{.doc = "commonly cloth, foam or plastic: not counted in the area of the piece"});
    visit("conditions", p.conditions, About{.doc = "ids of entries that stand"});
    visit("readings", p.readings, About{.doc = "ids of entries that stand"});
    visit("photos", p.photos, About{.doc = "ids of entries that stand"});
    visit("marks", p.marks, About{.doc = "kinds of parts that are there and stop later steps"});
    visit("index", p.index, About{.doc = "condition: 100 = nothing seen; for a trend, never for a price"});
    visit("trend", p.trend, About{.doc = "the index after each time it was looked at"});
    visit("questions", p.questions, About{.doc = "what commonly sits behind it and was not looked for yet"});
    visit("in_conflict", p.in_conflict, About{.doc = "two devices said different things without knowing of each other"});
    visit("leather", p.leather, About{.doc = "as judge takes it, with what was read on this panel"});
}

/// Panels that share what they are made of, their wear and what they go through.
struct Zone {
    std::string name;
    std::vector<std::string> panels;
    double area_m2 = 0;
};
template <class Visitor>
void describe(Visitor& visit, Zone& z) {
    visit("name", z.name, About{});
    visit("panels", z.panels, About{.doc = "codes"});
    visit("area_m2", z.area_m2, About{});
}

enum class EntryState { Stands, Corrected, SeenAgain, TakenBack };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::EntryState> {
    static constexpr std::array<std::pair<desk::EntryState, std::string_view>, 4> names{
        {{desk::EntryState::Stands, "stands"}, {desk::EntryState::Corrected, "corrected"}, {desk::EntryState::SeenAgain, "seen_again"}, {desk::EntryState::TakenBack, "taken_back"}}};
};

namespace hw::desk {

struct EntryNow {
    int number = 0;
    EntryState state = EntryState::Stands;
    std::string sentence;                   ///< what was done, for people
    bool mine = true;                       ///< who asks may take it back
    std::vector<std::string> lost_panels;   ///< codes that the drawing no longer has
    Entry entry;
};
template <class Visitor>
void describe(Visitor& visit, EntryNow& e) {
    visit("number", e.number, About{.doc = "in the order of arrival"});
    visit("state", e.state, About{});
    visit("sentence", e.sentence, About{.doc = "what was done"});
    visit("mine", e.mine, About{.doc = "who asks may take it back"});
    visit("lost_panels", e.lost_panels, About{.doc = "codes that the drawing no longer has"});
    visit("entry", e.entry, About{});
}

struct ReadingNow {
    std::string entry;                      ///< id
    std::string kind, name, panel, place;
    Number value;
    std::optional<Number> against_control;  ///< value less control
    int places = 0;
    std::string at;
    bool trusted = true;
    std::string trust;                      ///< of its instrument, for people
};
template <class Visitor>
void describe(Visitor& visit, ReadingNow& r) {
    visit("entry", r.entry, About{.doc = "id"});
    visit("kind", r.kind, About{});
    visit("name", r.name, About{});
    visit("panel", r.panel, About{});
    visit("place", r.place, About{});
    visit("value", r.value, About{.doc = "mean, with a 90 % band"});
    visit("against_control", r.against_control, About{.doc = "value less control"});
    visit("places", r.places, About{});
    visit("at", r.at, About{});
    visit("trusted", r.trusted, About{.doc = "false: no calibration stands behind it"});
    visit("trust", r.trust, About{});
}

/// Two devices that did not know of each other said different things: both stand here until somebody chooses.
struct Clash {
    std::string about;                      ///< for people
    std::vector<std::string> entries;       ///< ids, the earlier one first; the later one is shown until it is settled
};
template <class Visitor>
void describe(Visitor& visit, Clash& c) {
    visit("about", c.about, About{});
    visit("entries", c.entries, About{.doc = "ids; the last one is shown until it is settled"});
}

struct InspectAnswer {
    std::string piece, name, family_name;
    int last = 0;                           ///< number of the last entry: to be sent back as `seen`
    MakeUp make_up;
    Number area;                            ///< m², of leather
    std::vector<DrawnView> views;
    std::vector<PanelNow> panels;
    std::vector<Zone> zones;
    std::vector<ReadingNow> readings;
    std::vector<Reason> stops;              ///< parts that stop later steps, and what must be referred
    std::vector<SpotNow> spots;             ///< oldest first
    std::vector<Clash> clashes;
    std::vector<std::string> missing;       ///< what a whole inspection would still want, the first counts most
    std::vector<std::string> disclosure;    ///< what the owner must be told before work
    std::vector<std::string> consents;      ///< what the owner may tick
    std::string agreed;                     ///< who signed when, and whether something changed since; empty = nobody yet
    bool put_away = false;                  ///< not in the list of pieces any more; everything about it is kept
    std::vector<EntryNow> entries;          ///< newest first
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, InspectAnswer& a) {
    visit("piece", a.piece, About{.doc = "id"});
    visit("name", a.name, About{});
    visit("family_name", a.family_name, About{});
    visit("last", a.last, About{.doc = "number of the last entry: to be sent back as seen"});
    visit("make_up", a.make_up, About{});
    visit("area", a.area, About{.doc = "of leather, between the seams"});
    visit("views", a.views, About{});
    visit("panels", a.panels, About{});
    visit("zones", a.zones, About{});
    visit("readings", a.readings, About{});
    visit("stops", a.stops, About{.doc = "parts that stop later steps, and what must be referred"});
    visit("spots", a.spots, About{.doc = "test spots that stand, oldest first"});
    visit("clashes", a.clashes, About{});
    visit("missing", a.missing, About{.doc = "what a whole inspection would still want"});
    visit("disclosure", a.disclosure, About{.doc = "what the owner must be told before work"});
    visit("consents", a.consents, About{.doc = "what the owner may tick"});
    visit("agreed", a.agreed, About{.doc = "who signed when, and whether something changed since"});
    visit("put_away", a.put_away, About{.doc = "not in the list of pieces any more; everything about it is kept"});
    visit("entries", a.entries, About{.doc = "newest first"});
    visit("version", a.version, About{});
}

/// Appends entries to a piece, if any, and says what stands now.
/// @error InvalidInput  an entry whose part is missing or does not fit its word, a time that cannot be read
/// @error NotFound      no such piece; a panel, term, kind, material, wish or entry that is not there
/// @error OutOfRange    a measure or reading outside its range
/// @error Conflict      an id used for something else; somebody else's entry taken back
/// @error Unavailable   no records are joined in
Result<InspectAnswer> inspect(const InspectRequest& request, Ports& ports);

/// Whether a part marked on a panel stops a step ("stitch", "glue", "soak" …, words of atlas/stop_marks.csv); the reason
/// when it does.
std::optional<Reason> what_stops(const InspectAnswer& piece, std::string_view panel, std::string_view step);

/// The words to choose from.
struct Word {
    std::string key, name, group, note, unit;
    double least_1 = 0, most_1 = 0;
    int places = 0;
    bool calibrated = false;
};
template <class Visitor>
void describe(Visitor& visit, Word& w) {
    visit("key", w.key, About{});
    visit("name", w.name, About{});
    visit("group", w.group, About{.doc = "of a condition or material its kind; of a reading what it is read of: panel or room"});
    visit("note", w.note, About{});
    visit("unit", w.unit, About{});
    visit("least_1", w.least_1, About{.doc = "in the unit, where there is a range"});
    visit("most_1", w.most_1, About{});
    visit("places", w.places, About{.doc = "how many places are read"});
    visit("calibrated", w.calibrated, About{.doc = "its instrument needs a calibration"});
}
/// A measure or choice of a family.
struct FamilyMeasure {
    std::string key, name;
    double usual_1 = 0, least_1 = 0, most_1 = 0;
    double per_place_1 = 0;                 ///< is added to all three for each place beyond the usual number
    std::vector<std::string> words;         ///< of a choice; 1 is the first
    bool whole = false;                     ///< a count or choice, not cm
};
template <class Visitor>
void describe(Visitor& visit, FamilyMeasure& m) {
    visit("key", m.key, About{});
    visit("name", m.name, About{});
    visit("usual_1", m.usual_1, About{});
    visit("least_1", m.least_1, About{});
    visit("most_1", m.most_1, About{});
    visit("per_place_1", m.per_place_1, About{.doc = "is added to all three for each place beyond the usual number"});
    visit("words", m.words, About{.doc = "of a choice; 1 is the first"});
    visit("whole", m.whole, About{.doc = "a count or choice, not cm"});
}
struct PieceFamily {
    std::string key, name, group, sides;
    std::vector<FamilyMeasure> measures;
};
template <class Visitor>
void describe(Visitor& visit, PieceFamily& f) {
    visit("key", f.key, About{});
    visit("name", f.name, About{});
    visit("group", f.group, About{.doc = "furniture or car"});
    visit("sides", f.sides, About{.doc = "what left and right mean"});
    visit("measures", f.measures, About{});
}
struct InspectionWords {
    std::vector<PieceFamily> families;
    std::vector<Word> terms, readings, marks, materials, tannages, wishes;
};
template <class Visitor>
void describe(Visitor& visit, InspectionWords& w) {
    visit("families", w.families, About{});
    visit("terms", w.terms, About{.doc = "of condition"});
    visit("readings", w.readings, About{});
    visit("marks", w.marks, About{.doc = "parts that stop later steps"});
    visit("materials", w.materials, About{});
    visit("tannages", w.tannages, About{});
    visit("wishes", w.wishes, About{});
}
InspectionWords inspection_words();

}  // namespace hw::desk
