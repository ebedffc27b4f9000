// digest: what a product's safety data sheet says, each fact with the place it was read from. People correct it; what they type or
// measure outranks what was read, and all of it is kept. A sheet is never a recipe: it names what is hazardous.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/records.hpp"

namespace hw::desk {

struct Ports;

/// Largest sheet that is taken, in bytes and pages; dots per inch of a page that is shown.
inline constexpr int sheet_bytes_limit = 20'000'000, sheet_pages_limit = 60, sheet_dpi = 110;

/// Who says so, the strongest last.
enum class FactFrom { Sheet, Xml, Typed, Measured };

/// How a correction is known.
enum class CorrectedBy { Typed, Measured };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::FactFrom> {
    static constexpr std::array<std::pair<desk::FactFrom, std::string_view>, 4> names{
        {{desk::FactFrom::Sheet, "sheet"}, {desk::FactFrom::Xml, "xml"}, {desk::FactFrom::Typed, "typed"}, {desk::FactFrom::Measured, "measured"}}};
};
template <>
struct hw::EnumNames<hw::desk::CorrectedBy> {
    static constexpr std::array<std::pair<desk::CorrectedBy, std::string_view>, 2> names{{{desk::CorrectedBy::Typed, "typed"}, {desk::CorrectedBy::Measured, "measured"}}};
};

namespace hw::desk {

/// A box on a page, in points (1/72 inch) from its top left corner, and the words in it.
struct SheetPlace {
    int page = 0;                                 ///< from 1; 0: nowhere
    double x0_pt = 0, y0_pt = 0, x1_pt = 0, y1_pt = 0;
    std::string words;
};

/// One thing that a sheet says, or that somebody says of the product.
struct SheetFact {
    std::string key;                              ///< "ph", "ingredients[2].share": what a correction names
    std::string name;                             ///< in words
    std::string value;                            ///< in words; empty: nobody says
    std::optional<double> low, high;              ///< the same as numbers, where it is one; a side may be open
    std::string unit;
    FactFrom from = FactFrom::Sheet;
    double confidence_1 = 0;                      ///< chance that the value is what the sheet says there; 1 for what a person entered
    std::string sure;                             ///< the same in words
    bool look = false;                            ///< to be looked at before anybody relies on it
    SheetPlace place;
    std::string sheet_value;                      ///< what the sheet says, where a person says otherwise
    std::string note;
    std::optional<double> of_pct;                 ///< it holds for so much of the product in water, not for the product itself
    bool not_of_bottle = false;                   ///< it holds for a dilution of unknown strength, or under a condition that is not understood
    bool can_correct = false;
    bool can_measure = false;                     ///< somebody with the bottle can read it
};

struct SheetIngredient {
    SheetFact name, cas, share;
    SheetPlace place;                             ///< of the whole row
    std::string other_numbers;                    ///< EC, REACH, index
    std::string codes;                            ///< its own
    bool trade_secret = false;
    bool removed = false;                         ///< a person says that it is not on the sheet
    bool known = false;                           ///< the chemistry knows the substance
};

struct SheetGroup {
    std::string name;
    std::vector<SheetFact> facts;
};

struct SheetContradiction {
    std::string key;
    std::string sentence;
    Basis basis;
    std::vector<SheetPlace> places;
};

struct SheetSection {
    int number = 0;
    std::string title;
    int page = 0;                                 ///< 0: not on the sheet
    std::string text;
};

struct SheetPage {
    double width_pt = 0, height_pt = 0;
};

/// XML that came with the PDF.
struct SheetXml {
    std::string name;
    bool read = false;
    std::string sentence;
};

/// What somebody says of one fact. Appended, never changed; of one fact the measured one counts before the typed one, and the last of its kind.
struct SheetCorrection {
    std::string id;                               ///< made by who sends it, so that the same is kept once
    std::string sheet;
    std::string key;
    std::string value;                            ///< as typed; empty takes back what was said before
    CorrectedBy how = CorrectedBy::Typed;
    std::string by_name;                          ///< the desk fills in both
    std::string at;
};

struct SheetRow {
    std::string id;
    std::string name;                             ///< of the file
    std::string product, supplier, revision_date;
    std::string arrived_at;
    int to_look = 0, contradictions = 0;
    std::string liquid;                           ///< id on the shelf
};

struct DigestRequest {
    std::string sheet;                            ///< id of a kept one, instead of bytes
    std::string name;                             ///< of the file; shown, never used as a path
    bool keep = false;
    bool by_hand = false;                         ///< keep a file without readable text, for somebody who types what it says
    std::string bytes;                            ///< the PDF; not part of the JSON
};

struct DigestAnswer {
    std::string id;                               ///< SHA-256 of the file, in hex
    std::string name;
    bool kept = false;
    std::string arrived_at;
    std::string sentence;
    std::vector<SheetContradiction> contradictions;
    std::vector<SheetGroup> groups;
    std::vector<SheetIngredient> ingredients;
    std::vector<std::string> missing;             ///< what a judgement would want and nobody says
    std::string never_a_recipe;
    std::vector<SheetXml> xml;
    std::vector<SheetPage> pages;
    std::vector<SheetSection> sections;
    std::string language;                         ///< en, de, es, fr
    bool by_hand = false;
    std::vector<SheetCorrection> corrections;     ///< all of them, the last last
    std::vector<std::string> for_the_shelf;       ///< what the shelf will be told differently from the sheet, in sentences
    std::string not_for_the_shelf;                ///< why it cannot be put there yet; empty: it can
    std::string liquid;                           ///< id on the shelf, once it is there
    std::string version;
};

struct ShelveRequest {
    std::string sheet;
    std::string liquid;                           ///< id of the liquid that it is; empty: the one it was put as before, or a new one
};

/// Reads a sheet, or shows a kept one.
/// @error InvalidInput  `where` "sheet.no_text", "sheet.not_a_sheet", "sheet.damaged", "sheet.locked", "sheet.not_a_pdf", "sheet.too_slow"
/// @error OutOfRange    "sheet.too_large", "sheet.too_many_pages"
/// @error NotFound      no such sheet
Result<DigestAnswer> digest(const DigestRequest& request, Ports& ports);

/// Appends a correction and shows the sheet as it stands then. @error InvalidInput  a key or a value that cannot be
Result<DigestAnswer> correct_sheet(const SheetCorrection& correction, Ports& ports);

/// Puts the product of a sheet on the shelf as a liquid, or brings it up to date there; gives the liquid as it is kept.
/// @error InvalidInput  `where` names the fact that is missing
Result<Liquid> shelve_sheet(const ShelveRequest& request, Ports& ports);

/// A page of a kept sheet as a PNG.
Result<std::string> sheet_page(const std::string& sheet, int number, Ports& ports);

template <class Visitor>
void describe(Visitor& visit, SheetPlace& p) {
    visit("page", p.page, About{.doc = "from 1; 0: nowhere"});
    visit("x0_pt", p.x0_pt, About{.doc = "points from the left edge"});
    visit("y0_pt", p.y0_pt, About{.doc = "points from the upper edge"});
    visit("x1_pt", p.x1_pt, About{});
    visit("y1_pt", p.y1_pt, About{});
    visit("words", p.words, About{.doc = "as printed there"});
}
template <class Visitor>
void describe(Visitor& visit, SheetFact& f) {
    visit("key", f.key, About{.doc = "what a correction names"});
    visit("name", f.name, About{});
    visit("value", f.value, About{.doc = "in words; empty: nobody says"});
    visit("low", f.low, About{.doc = "the same as a number, in the unit"});
    visit("high", f.high, About{});
    visit("unit", f.unit, About{});
    visit("from", f.from, About{.doc = "who says so; measured outranks typed, typed outranks the rest"});
    visit("confidence_1", f.confidence_1, About{.doc = "chance that the value is what the sheet says there, not that the sheet is right", .minimum = 0, .maximum = 1});
    visit("sure", f.sure, About{.doc = "the same in words"});
    visit("look", f.look, About{.doc = "to be looked at before anybody relies on it"});
    visit("place", f.place, About{});
    visit("sheet_value", f.sheet_value, About{.doc = "what the sheet says, where a person says otherwise"});
    visit("note", f.note, About{});
    visit("of_pct", f.of_pct, About{.doc = "it holds for so many per cent of the product in water, not for the product itself"});
    visit("not_of_bottle", f.not_of_bottle, About{.doc = "it holds for a dilution of unknown strength or under a condition that is not understood, not for the product itself"});
    visit("can_correct", f.can_correct, About{});
    visit("can_measure", f.can_measure, About{.doc = "somebody with the bottle can read it"});
}
template <class Visitor>
void describe(Visitor& visit, SheetIngredient& i) {
    visit("name", i.name, About{});
    visit("cas", i.cas, About{});
    visit("share", i.share, About{});
    visit("place", i.place, About{.doc = "of the whole row"});
    visit("other_numbers", i.other_numbers, About{.doc = "EC, REACH, index"});
    visit("codes", i.codes, About{.doc = "its own H and EUH codes"});
    visit("trade_secret", i.trade_secret, About{});
    visit("removed", i.removed, About{.doc = "a person says that it is not on the sheet"});
    visit("known", i.known, About{.doc = "the chemistry knows the substance"});
}
template <class Visitor>
void describe(Visitor& visit, SheetGroup& g) {
    visit("name", g.name, About{});
    visit("facts", g.facts, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetContradiction& c) {
    visit("key", c.key, About{});
    visit("sentence", c.sentence, About{});
    visit("basis", c.basis, About{});
    visit("places", c.places, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetSection& s) {
    visit("number", s.number, About{.minimum = 1, .maximum = 16});
    visit("title", s.title, About{.doc = "as printed"});
    visit("page", s.page, About{.doc = "0: not on the sheet"});
    visit("text", s.text, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetPage& p) {
    visit("width_pt", p.width_pt, About{.doc = "points, upright"});
    visit("height_pt", p.height_pt, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetXml& x) {
    visit("name", x.name, About{});
    visit("read", x.read, About{.doc = "false: its schema is not read"});
    visit("sentence", x.sentence, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetCorrection& c) {
    visit("id", c.id, About{.doc = "made by who sends it; empty: one is made"});
    visit("sheet", c.sheet, About{.doc = "id of the sheet"});
    visit("key", c.key, About{.doc = "of the fact: \"ph\", \"ingredients[2].share\"; \"ingredients[2]\" with the value \"not there\" takes the row out", .required = true});
    visit("value", c.value, About{.doc = "as typed: \"12 to 12.6\", \"< 3\", \"not applicable\"; empty takes back what was said before"});
    visit("how", c.how, About{.doc = "typed from paper, or measured at the bottle"});
    visit("by_name", c.by_name, About{.doc = "filled in"});
    visit("at", c.at, About{.doc = "ISO 8601, UTC; filled in"});
}
template <class Visitor>
void describe(Visitor& visit, SheetRow& r) {
    visit("id", r.id, About{});
    visit("name", r.name, About{.doc = "of the file"});
    visit("product", r.product, About{});
    visit("supplier", r.supplier, About{});
    visit("revision_date", r.revision_date, About{.doc = "ISO 8601; empty: not said"});
    visit("arrived_at", r.arrived_at, About{.doc = "ISO 8601, UTC"});
    visit("to_look", r.to_look, About{.doc = "facts to be looked at"});
    visit("contradictions", r.contradictions, About{});
    visit("liquid", r.liquid, About{.doc = "id on the shelf; empty: not there"});
}
template <class Visitor>
void describe(Visitor& visit, DigestRequest& r) {
    visit("sheet", r.sheet, About{.doc = "id of a kept sheet, instead of bytes"});
    visit("name", r.name, About{.doc = "of the file; shown, never used as a path"});
    visit("keep", r.keep, About{});
    visit("by_hand", r.by_hand, About{.doc = "keep a file without readable text, for somebody who types what it says"});
}
template <class Visitor>
void describe(Visitor& visit, DigestAnswer& a) {
    visit("id", a.id, About{.doc = "SHA-256 of the file, in hex"});
    visit("name", a.name, About{.doc = "of the file"});
    visit("kept", a.kept, About{});
    visit("arrived_at", a.arrived_at, About{.doc = "ISO 8601, UTC"});
    visit("sentence", a.sentence, About{});
    visit("contradictions", a.contradictions, About{});
    visit("groups", a.groups, About{});
    visit("ingredients", a.ingredients, About{});
    visit("missing", a.missing, About{.doc = "what a judgement would want and nobody says"});
    visit("never_a_recipe", a.never_a_recipe, About{});
    visit("xml", a.xml, About{.doc = "XML that came with the PDF"});
    visit("pages", a.pages, About{});
    visit("sections", a.sections, About{});
    visit("language", a.language, About{.doc = "en, de, es, fr"});
    visit("by_hand", a.by_hand, About{.doc = "nothing was read: everything here was typed"});
    visit("corrections", a.corrections, About{.doc = "all of them, the last last"});
    visit("for_the_shelf", a.for_the_shelf, About{.doc = "what the shelf will be told differently from the sheet"});
    visit("not_for_the_shelf", a.not_for_the_shelf, About{.doc = "why it cannot be put there yet; empty: it can"});
    visit("liquid", a.liquid, About{.doc = "id on the shelf; empty: not there"});
    visit("version", a.version, About{.doc = "that read it"});
}
template <class Visitor>
void describe(Visitor& visit, ShelveRequest& r) {
    visit("sheet", r.sheet, About{.doc = "id of the sheet"});
    visit("liquid", r.liquid, About{.doc = "id of the liquid that it is; empty: as before, or a new one"});
}

}  // namespace hw::desk
