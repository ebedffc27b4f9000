// shelf: what stands there, what has to be seen to first, and every bottle's story as entries. A product is a liquid and what the
// shop keeps of it. An entry is appended once and never changed; what stands is folded from all of them, in whatever order they came.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/digest.hpp"
#include "desk/records.hpp"
#include "desk/sheet_changes.hpp"

namespace hw::desk {

struct Ports;

/// What an entry did. Fact says one thing of a product, or of a lot.
enum class ShelfDid { Fact, Received, Opened, Used, Counted, ThrownAway, Mixed, Told, TakeBack };

/// What has to be seen to, the first first.
enum class ToSeeKind { PastUse, BelowMinimum, Reorder, EndsSoon, TellPeople, OldSheet, NoSheet, Nothing };

/// What decides a lot's last day.
enum class LastDayBy { NotKnown, Printed, Opened, Kept };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::ShelfDid> {
    static constexpr std::array<std::pair<desk::ShelfDid, std::string_view>, 9> names{
        {{desk::ShelfDid::Fact, "fact"}, {desk::ShelfDid::Received, "received"}, {desk::ShelfDid::Opened, "opened"}, {desk::ShelfDid::Used, "used"}, {desk::ShelfDid::Counted, "counted"},
         {desk::ShelfDid::ThrownAway, "thrown_away"}, {desk::ShelfDid::Mixed, "mixed"}, {desk::ShelfDid::Told, "told"}, {desk::ShelfDid::TakeBack, "take_back"}}};
};
template <>
struct hw::EnumNames<hw::desk::ToSeeKind> {
    static constexpr std::array<std::pair<desk::ToSeeKind, std::string_view>, 8> names{
        {{desk::ToSeeKind::PastUse, "past_use"}, {desk::ToSeeKind::BelowMinimum, "below_minimum"}, {desk::ToSeeKind::Reorder, "reorder"}, {desk::ToSeeKind::EndsSoon, "ends_soon"},
         {desk::ToSeeKind::TellPeople, "tell_people"}, {desk::ToSeeKind::OldSheet, "old_sheet"}, {desk::ToSeeKind::NoSheet, "no_sheet"}, {desk::ToSeeKind::Nothing, "nothing"}}};
};
template <>
struct hw::EnumNames<hw::desk::LastDayBy> {
    static constexpr std::array<std::pair<desk::LastDayBy, std::string_view>, 4> names{
        {{desk::LastDayBy::NotKnown, "not_known"}, {desk::LastDayBy::Printed, "printed"}, {desk::LastDayBy::Opened, "opened"}, {desk::LastDayBy::Kept, "kept"}}};
};

namespace hw::desk {

struct ShelfEntry {
    std::string id;                               ///< made by who sends it, so that the same is kept once
    ShelfDid did = ShelfDid::Fact;
    std::string product;                          ///< id of the liquid
    std::string lot;                              ///< id of the entry that received it; empty on one that receives
    std::string at;                               ///< when it was done; empty: now
    std::string by;                               ///< filled in
    std::string key, value;                       ///< of a fact; an empty value takes back what was said before
    CorrectedBy how = CorrectedBy::Typed;         ///< of a fact
    std::string code, expiry, place;              ///< of a lot that is received
    std::optional<double> amount;                 ///< in the product's unit: received, used, counted, mixed; thrown away (else all)
    std::string piece;                            ///< it was used for
    std::string sheet, person;                    ///< who was told of which sheet: id and name
    std::string takes_back;                       ///< id of the entry
    std::string note;
};

struct KeptShelfEntry {
    std::string by_id;
    std::string kept_at;
    ShelfEntry entry;
};

/// A product by its name only.
struct ShelfName {
    std::string id, name;
    bool demo = false;
};

struct ShelfRequest {
    std::vector<ShelfEntry> entries;              ///< of one product or of several; all or none are taken
};

/// One thing that is known of a product.
struct ShelfFact {
    std::string key, name;
    std::string value;                            ///< as typed; empty: nobody said
    std::string words;                            ///< with its unit, for people
    FactFrom from = FactFrom::Typed;
    std::string said;                             ///< who and when, or which sheet
    std::string otherwise;                        ///< what weaker sources say
};

struct LotNow {
    std::string id, code, place;
    std::string received, opened, expiry;         ///< days, ISO 8601; empty: not, or not said
    double left = 0;
    std::string left_words;
    LastDayBy by = LastDayBy::NotKnown;
    std::string last_day;                         ///< it may still be used on this day; empty: not known
    std::string sentence;                         ///< the last day, and what decides it
    bool past = false, soon = false;
    bool finished = false;                        ///< nothing left, or thrown away
    std::string note;                             ///< the book does not come out
};

struct ToSee {
    ToSeeKind kind = ToSeeKind::Nothing;
    std::string product, name;                    ///< of the one product, or of the first of several
    std::string lot;
    std::string sentence;
    int products = 1;                             ///< it is said of so many
};

struct ShelfRow {
    std::string product, name, kind;
    ToSeeKind first = ToSeeKind::Nothing;
    std::vector<std::string> to_see;              ///< in sentences
    std::string in_hand;                          ///< that may be used, in words
    std::string take_next;                        ///< which lot, in words; empty: none
    int lots = 0;
    bool demo = false;
};

struct ShelfAnswer {
    std::string sentence;
    std::vector<ToSee> to_see;                    ///< the short list
    int to_see_more = 0;                          ///< that are not in it
    std::vector<ShelfRow> products;               ///< a page; what needs seeing to first comes first
    int all_products = 0;
    std::string after;                            ///< asks for the next page; empty: this is the last
    std::vector<Basis> basis;
};

/// When to order.
struct Reorder {
    bool known = false;
    double at = 0;                                ///< in the unit of the product
    double mean_week = 0, sd_week = 0;
    int weeks = 0;                                ///< whole weeks of own uses behind them; 0: typed
    std::string sentence;
    std::vector<Basis> basis;
};

struct Mixed {
    std::string at, until;                        ///< until: empty without a pot life
    bool past = false;
    std::string sentence;
    std::string entry;
};

struct ShelfLine {
    std::string id, at, by;
    ShelfDid did = ShelfDid::Fact;
    std::string lot, piece;
    std::string sentence;
    bool stands = true;                           ///< false: taken back, or it takes one back
};

struct SheetOnShelf {
    std::string id, name, revision_date, arrived_at;
    bool used = false;                            ///< the newest: the one that counts
    std::vector<std::string> flags;
};

struct ToldPerson {
    std::string name;
    std::string at;                               ///< empty: not yet
};

struct ProductAnswer {
    std::string product, name, kind;
    std::string sentence;
    ToSeeKind first = ToSeeKind::Nothing;
    std::vector<ToSee> to_see;
    std::vector<ShelfFact> facts;
    std::string unit;                             ///< "ml" or "g"
    double in_hand = 0;                           ///< that may be used
    std::string in_hand_words;
    std::string take_next_lot, take_next;         ///< id, and in words; empty: none
    std::vector<LotNow> lots;                     ///< the next to take first; finished ones last
    Reorder reorder;
    std::vector<Mixed> mixed;
    std::vector<ShelfLine> lines;                 ///< newest first
    int lines_more = 0;
    std::vector<SheetOnShelf> sheets;             ///< newest first
    std::optional<SheetChanges> changes;          ///< from the revision before to the newest
    std::vector<ToldPerson> told;                 ///< of the newest, where it changed
    std::string told_sentence;
    std::vector<Basis> basis;
    bool demo = false;
};

/// The shelf: a page of products. `after` is a product.
/// @error Unavailable  nothing is kept here
Result<ShelfAnswer> shelf(const std::string& after, int limit, Ports& ports);

/// One product, whole. @error NotFound
Result<ProductAnswer> shelf_product(const std::string& product, Ports& ports);

/// Appends entries, all or none, and shows the product of the last one. A product that is not there yet begins with a fact "name".
/// An entry that names no lot where one is needed is said of the lot to take next.
/// @error InvalidInput, OutOfRange, NotFound, Conflict  `where` names the field, as entries[0].value
Result<ProductAnswer> shelf_enter(const ShelfRequest& request, Ports& ports);

/// The product of a code: of a lot, an id, a whole name, or the address on a label. @error NotFound
Result<ShelfName> shelf_find(const std::string& code, Ports& ports);

/// What a label shows.
struct ShelfLabel {
    std::string name, code, last_day;
    std::vector<std::string> warnings;            ///< signal word and hazard statements, in words
    std::string address;                          ///< opens the product
    std::vector<std::string> squares;             ///< rows of '1' dark and '0' light; empty: no code
    bool demo = false;
};

/// Labels of products: one for each lot in hand, or one for the product where there is none. @param address  "https://name:8443", else the path alone
Result<std::vector<ShelfLabel>> shelf_labels(const std::vector<std::string>& products, const std::string& address, Ports& ports);

template <class Visitor>
void describe(Visitor& visit, ShelfEntry& e) {
    visit("id", e.id, About{.doc = "UUID, made by who sends it; empty: one is made"});
    visit("did", e.did, About{.required = true});
    visit("product", e.product, About{.doc = "id of the product, which is that of its liquid", .required = true});
    visit("lot", e.lot, About{.doc = "id of the entry that received it; empty: the lot to take next"});
    visit("at", e.at, About{.doc = "ISO 8601, UTC, or a day; empty: now"});
    visit("by", e.by, About{.doc = "filled in"});
    visit("key", e.key, About{.doc = "of a fact: \"name\", \"minimum\", \"voc_g_l\"; of a lot \"code\", \"expiry\", \"place\", \"received\""});
    visit("value", e.value, About{.doc = "as typed; empty takes back what was said before"});
    visit("how", e.how, About{.doc = "measured outranks typed"});
    visit("code", e.code, About{.doc = "of a lot, as on the bottle"});
    visit("expiry", e.expiry, About{.doc = "printed on the bottle: 2027-03-31 or 2027-03"});
    visit("place", e.place, About{.doc = "where it stands"});
    visit("amount", e.amount, About{.doc = "in the product's unit", .minimum = 0, .maximum = 1e9});
    visit("piece", e.piece, About{.doc = "id of the piece it was used for"});
    visit("sheet", e.sheet, About{.doc = "id of the sheet somebody was told of"});
    visit("person", e.person, About{.doc = "name of who was told"});
    visit("takes_back", e.takes_back, About{.doc = "id of the entry"});
    visit("note", e.note, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfRequest& r) {
    visit("entries", r.entries, About{.doc = "all or none are taken", .required = true});
}
template <class Visitor>
void describe(Visitor& visit, ShelfName& n) {
    visit("id", n.id, About{});
    visit("name", n.name, About{});
    visit("demo", n.demo, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfFact& f) {
    visit("key", f.key, About{});
    visit("name", f.name, About{});
    visit("value", f.value, About{.doc = "as typed; empty: nobody said"});
    visit("words", f.words, About{.doc = "with its unit"});
    visit("from", f.from, About{.doc = "measured outranks typed, typed outranks the sheet"});
    visit("said", f.said, About{.doc = "who and when, or which sheet"});
    visit("otherwise", f.otherwise, About{.doc = "what a weaker source says"});
}
template <class Visitor>
void describe(Visitor& visit, LotNow& l) {
    visit("id", l.id, About{});
    visit("code", l.code, About{});
    visit("place", l.place, About{});
    visit("received", l.received, About{.doc = "day, ISO 8601"});
    visit("opened", l.opened, About{.doc = "day; empty: not opened"});
    visit("expiry", l.expiry, About{.doc = "printed on the bottle; empty: not said"});
    visit("left", l.left, About{.doc = "in the product's unit"});
    visit("left_words", l.left_words, About{});
    visit("by", l.by, About{.doc = "what decides the last day"});
    visit("last_day", l.last_day, About{.doc = "it may still be used on this day; empty: not known"});
    visit("sentence", l.sentence, About{});
    visit("past", l.past, About{.doc = "never to be taken"});
    visit("soon", l.soon, About{});
    visit("finished", l.finished, About{});
    visit("note", l.note, About{});
}
template <class Visitor>
void describe(Visitor& visit, ToSee& t) {
    visit("kind", t.kind, About{});
    visit("product", t.product, About{.doc = "of the one, or of the first of several"});
    visit("name", t.name, About{});
    visit("lot", t.lot, About{});
    visit("sentence", t.sentence, About{});
    visit("products", t.products, About{.doc = "it is said of so many"});
}
template <class Visitor>
void describe(Visitor& visit, ShelfRow& r) {
    visit("product", r.product, About{});
    visit("name", r.name, About{});
    visit("kind", r.kind, About{});
    visit("first", r.first, About{.doc = "what has to be seen to first"});
    visit("to_see", r.to_see, About{});
    visit("in_hand", r.in_hand, About{.doc = "that may be used"});
    visit("take_next", r.take_next, About{.doc = "which lot; empty: none"});
    visit("lots", r.lots, About{});
    visit("demo", r.demo, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("to_see", a.to_see, About{.doc = "the short list"});
    visit("to_see_more", a.to_see_more, About{.doc = "that are not in it"});
    visit("products", a.products, About{.doc = "what needs seeing to first comes first"});
    visit("all_products", a.all_products, About{});
    visit("after", a.after, About{.doc = "asks for the next page; empty: this is the last"});
    visit("basis", a.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Reorder& r) {
    visit("known", r.known, About{});
    visit("at", r.at, About{.doc = "in the product's unit"});
    visit("mean_week", r.mean_week, About{});
    visit("sd_week", r.sd_week, About{});
    visit("weeks", r.weeks, About{.doc = "whole weeks of own uses behind them; 0: typed"});
    visit("sentence", r.sentence, About{});
    visit("basis", r.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Mixed& m) {
    visit("at", m.at, About{});
    visit("until", m.until, About{.doc = "empty: no pot life is known"});
    visit("past", m.past, About{});
    visit("sentence", m.sentence, About{});
    visit("entry", m.entry, About{});
}
template <class Visitor>
void describe(Visitor& visit, ShelfLine& l) {
    visit("id", l.id, About{});
    visit("at", l.at, About{});
    visit("by", l.by, About{});
    visit("did", l.did, About{});
    visit("lot", l.lot, About{});
    visit("piece", l.piece, About{});
    visit("sentence", l.sentence, About{});
    visit("stands", l.stands, About{.doc = "false: taken back"});
}
template <class Visitor>
void describe(Visitor& visit, SheetOnShelf& s) {
    visit("id", s.id, About{});
    visit("name", s.name, About{});
    visit("revision_date", s.revision_date, About{});
    visit("arrived_at", s.arrived_at, About{});
    visit("used", s.used, About{.doc = "the newest: the one that counts"});
    visit("flags", s.flags, About{});
}
template <class Visitor>
void describe(Visitor& visit, ToldPerson& p) {
    visit("name", p.name, About{});
    visit("at", p.at, About{.doc = "empty: not yet"});
}
template <class Visitor>
void describe(Visitor& visit, ProductAnswer& a) {
    visit("product", a.product, About{});
    visit("name", a.name, About{});
    visit("kind", a.kind, About{});
    visit("sentence", a.sentence, About{});
    visit("first", a.first, About{});
    visit("to_see", a.to_see, About{});
    visit("facts", a.facts, About{});
    visit("unit", a.unit, About{.doc = "ml or g"});
    visit("in_hand", a.in_hand, About{.doc = "that may be used, in the unit"});
    visit("in_hand_words", a.in_hand_words, About{});
    visit("take_next_lot", a.take_next_lot, About{.doc = "id; empty: none"});
    visit("take_next", a.take_next, About{});
    visit("lots", a.lots, About{.doc = "the next to take first"});
    visit("reorder", a.reorder, About{});
    visit("mixed", a.mixed, About{});
    visit("lines", a.lines, About{.doc = "newest first"});
    visit("lines_more", a.lines_more, About{});
    visit("sheets", a.sheets, About{.doc = "newest first"});
    visit("changes", a.changes, About{.doc = "from the revision before to the newest"});
    visit("told", a.told, About{});
    visit("told_sentence", a.told_sentence, About{});
    visit("basis", a.basis, About{});
    visit("demo", a.demo, About{});
}

}  // namespace hw::desk
