// spot: tests on the piece. What to try where, mild first; when to read; what came of it, and what so few spots can show.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "desk/inspect.hpp"
#include "desk/ports.hpp"
#include "desk/rates.hpp"
#include "desk/rebalance.hpp"
#include "desk/spot_now.hpp"

namespace hw::desk {

enum class SpotOutcome { NotYet, Allowed, WithCaution, Not };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SpotOutcome> {
    static constexpr std::array<std::pair<desk::SpotOutcome, std::string_view>, 4> names{
        {{desk::SpotOutcome::NotYet, "not_yet"}, {desk::SpotOutcome::Allowed, "allowed"}, {desk::SpotOutcome::WithCaution, "with_caution"}, {desk::SpotOutcome::Not, "not"}}};
};

namespace hw::desk {

/// A product to be tried, as the job would use it.
struct SpotTry {
    Liquid liquid;
    double parts_water = 0;
    SpotPurpose purpose = SpotPurpose::Clean;
    double g_m2 = 30;
    double dwell_s = 120;
};
template <class Visitor>
void describe(Visitor& visit, SpotTry& t) {
    visit("liquid", t.liquid, About{.doc = "whole, or with only its id one of the shelf", .required = true});
    visit("parts_water", t.parts_water, About{.doc = "as in the job: parts of water to one part of product", .minimum = 0, .maximum = 10000});
    visit("purpose", t.purpose, About{.doc = "what it is used for"});
    visit("g_m2", t.g_m2, About{.doc = "what the swab leaves", .minimum = 1, .maximum = 500});
    visit("dwell_s", t.dwell_s, About{.doc = "as in the job, until it is blotted", .minimum = 0, .maximum = 86400});
}

struct SpotRequest {
    std::string piece;
    std::string panel;                            ///< only the class of this one; empty: all
    std::vector<SpotTry> products;                ///< to be tried; those that have spots already come by themselves
    std::optional<double> claim_pct;              ///< to be claimed: no more than this share of places fails
    SpotAir air;
    std::vector<Entry> entries;                   ///< spots made or read, agreed, taken back
};
template <class Visitor>
void describe(Visitor& visit, SpotRequest& r) {
    visit("piece", r.piece, About{.doc = "id", .required = true});
    visit("panel", r.panel, About{.doc = "only the class of this panel; left out: all classes"});
    visit("products", r.products, About{.doc = "to be tried; those that have spots already come by themselves"});
    visit("claim_pct", r.claim_pct, About{.doc = "to be claimed: no more than this share of such places fails", .minimum = 1, .maximum = 99});
    visit("air", r.air, About{.doc = "that the spots dry in"});
    visit("entries", r.entries, About{.doc = "what is new: did spot_made, spot_read, agreed or take_back"});
}

struct SpotPlace {
    std::string key, name, note;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, SpotPlace& p) {
    visit("key", p.key, About{});
    visit("name", p.name, About{});
    visit("note", p.note, About{});
    visit("basis", p.basis, About{});
}

/// A product on a class of panels.
struct SpotProduct {
    Liquid liquid;
    double parts_water = 0;
    SpotPurpose purpose = SpotPurpose::Clean;
    double g_m2 = 30, dwell_s = 120;
    int step = 0;                                 ///< mild first; 0: no spot of it
    std::string rung, why;
    Basis basis;
    SpotWait wait;
    SpotOutcome outcome = SpotOutcome::NotYet;
    std::string sentence;                         ///< the outcome and why
    std::string next;                             ///< what to do next with it
    SpotWhere next_where = SpotWhere::Hidden;
    bool may_make = false;                        ///< a spot can be made now
    int made = 0, passed = 0, caution = 0, failed = 0;
    int wanted = 0;                               ///< for the claim; 0: none was asked
    Bound bound;
    std::vector<BenchStep> card;                  ///< to be read from two metres
};
template <class Visitor>
void describe(Visitor& visit, SpotProduct& p) {
    visit("liquid", p.liquid, About{});
    visit("parts_water", p.parts_water, About{});
    visit("purpose", p.purpose, About{});
    visit("g_m2", p.g_m2, About{});
    visit("dwell_s", p.dwell_s, About{});
    visit("step", p.step, About{.doc = "mild first; 0: no spot of it"});
    visit("rung", p.rung, About{});
    visit("why", p.why, About{});
    visit("basis", p.basis, About{});
    visit("wait", p.wait, About{});
    visit("outcome", p.outcome, About{});
    visit("sentence", p.sentence, About{.doc = "the outcome and why"});
    visit("next", p.next, About{.doc = "what to do next with it"});
    visit("next_where", p.next_where, About{});
    visit("may_make", p.may_make, About{.doc = "a spot can be made now"});
    visit("made", p.made, About{});
    visit("passed", p.passed, About{.doc = "judged to the end"});
    visit("caution", p.caution, About{});
    visit("failed", p.failed, About{});
    visit("wanted", p.wanted, About{.doc = "good spots that the claim needs; 0: none was asked"});
    visit("bound", p.bound, About{});
    visit("card", p.card, About{.doc = "to be read from two metres"});
}

/// Panels that share kind, finish, wear and what they go through.
struct SpotClass {
    std::string zone, leather_class;
    std::vector<std::string> panels;              ///< that may be spotted
    std::vector<Reason> stops;                    ///< panels that may not, and why
    std::vector<std::string> ask_first;           ///< what must be looked for first
    std::vector<SpotPlace> places;                ///< hidden ones of the family
    std::optional<Stop> stop;                     ///< leather that takes no water
    std::vector<SpotProduct> products;            ///< mild first
    std::string controls;                         ///< how the two controls stand
};
template <class Visitor>
void describe(Visitor& visit, SpotClass& c) {
    visit("zone", c.zone, About{});
    visit("leather_class", c.leather_class, About{});
    visit("panels", c.panels, About{.doc = "codes of those that may be spotted"});
    visit("stops", c.stops, About{.doc = "panels that may not, and why"});
    visit("ask_first", c.ask_first, About{.doc = "what must be looked for first"});
    visit("places", c.places, About{.doc = "hidden places of the family"});
    visit("stop", c.stop, About{});
    visit("products", c.products, About{.doc = "mild first"});
    visit("controls", c.controls, About{.doc = "how the two controls stand"});
}

struct SpotAnswer {
    std::string piece, name;
    int last = 0;
    std::string sentence;                         ///< what is due first
    bool agreed_hidden = false, agreed_edge = false;
    std::string consent_hidden, consent_edge;     ///< word for word
    std::vector<std::string> disclosure;          ///< what must be told with it
    std::vector<SpotClass> classes;
    std::vector<SpotNow> spots;                   ///< oldest first
    std::vector<SignWords> signs;                 ///< what is read of a spot
    std::vector<Reason> notes;
    std::string now;                              ///< ISO 8601, UTC
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, SpotAnswer& a) {
    visit("piece", a.piece, About{});
    visit("name", a.name, About{});
    visit("last", a.last, About{.doc = "number of the last entry: to be sent back as seen"});
    visit("sentence", a.sentence, About{.doc = "what is due first"});
    visit("agreed_hidden", a.agreed_hidden, About{});
    visit("agreed_edge", a.agreed_edge, About{});
    visit("consent_hidden", a.consent_hidden, About{.doc = "what the owner agrees to, word for word"});
    visit("consent_edge", a.consent_edge, About{});
    visit("disclosure", a.disclosure, About{.doc = "what must be told with it"});
    visit("classes", a.classes, About{});
    visit("spots", a.spots, About{.doc = "oldest first"});
    visit("signs", a.signs, About{.doc = "what is read of a spot"});
    visit("notes", a.notes, About{});
    visit("now", a.now, About{.doc = "ISO 8601, UTC"});
    visit("version", a.version, About{});
}

/// Appends what is new, plans what is to be tried, and tells how every spot stands.
/// @error as inspect; NotFound "panel"; InvalidInput, NotFound "products[i].liquid…"
Result<SpotAnswer> spot(const SpotRequest& request, Ports& ports);

/// A spot that waits for somebody.
struct SpotDue {
    std::string piece, piece_name, spot, panel, panel_name, product, place;
    std::string what;                             ///< "Read it dry", "Read it again"
    std::string at;                               ///< ISO 8601, UTC
    bool due = false;                             ///< now
    std::string sentence;
    bool demo = false;
};
template <class Visitor>
void describe(Visitor& visit, SpotDue& d) {
    visit("piece", d.piece, About{.doc = "id"});
    visit("piece_name", d.piece_name, About{});
    visit("spot", d.spot, About{.doc = "id of the entry that made it"});
    visit("panel", d.panel, About{});
    visit("panel_name", d.panel_name, About{});
    visit("product", d.product, About{});
    visit("place", d.place, About{});
    visit("what", d.what, About{});
    visit("at", d.at, About{.doc = "ISO 8601, UTC"});
    visit("due", d.due, About{.doc = "now"});
    visit("sentence", d.sentence, About{});
    visit("demo", d.demo, About{});
}
/// Everything that waits to be read, the longest due first.
/// @error Unavailable  no records are joined in
Result<std::vector<SpotDue>> spots_due(Ports& ports);

/// Success rates over all pieces; those of the demo do not count.
Result<std::vector<RateRow>> spot_rates(Ports& ports);

/// What the spots say of a product on the class of a panel.
struct SpotsSay {
    int passed = 0, caution = 0, failed = 0;
    std::string failure;                          ///< sentence of the last that failed
    Bound bound;
};
SpotsSay spots_say(const InspectAnswer& piece, const std::string& panel, const Liquid& liquid, double parts_water);

/// Most water, g/m2 of a pass, that a spot on the class of a panel bore to the end, where none with as much or less failed; 0: none.
double water_borne_g_m2(const InspectAnswer& piece, const std::string& panel);

/// Names of the liquids of which a spot on the class of a panel failed.
std::vector<std::string> failed_on(const InspectAnswer& piece, const std::string& panel);

}  // namespace hw::desk
