// What is known of a product that somebody will stand beside: from the shelf and from its newest kept data sheet, each fact with who
// says so. That nobody says a thing is an answer. What was typed or measured outranks what was read from the sheet.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// Who says so, the strongest last.
enum class SaidBy { Nobody, Shelf, Sheet, Xml, Typed, Measured };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SaidBy> {
    static constexpr std::array<std::pair<desk::SaidBy, std::string_view>, 6> names{
        {{desk::SaidBy::Nobody, "nobody"}, {desk::SaidBy::Shelf, "shelf"}, {desk::SaidBy::Sheet, "sheet"}, {desk::SaidBy::Xml, "xml"}, {desk::SaidBy::Typed, "typed"}, {desk::SaidBy::Measured, "measured"}}};
};

namespace hw::desk {

struct ProductFact {
    std::string key, name;
    std::string value;                            ///< in words; empty: nobody says
    std::optional<double> low, high;
    std::string unit;
    SaidBy said_by = SaidBy::Nobody;
    int page = 0;                                 ///< of the sheet; 0: not from a page
    std::string words;                            ///< as printed there
    bool look = false;                            ///< to be looked at before anybody relies on it
};
template <class Visitor>
void describe(Visitor& visit, ProductFact& f) {
    visit("key", f.key, About{});
    visit("name", f.name, About{});
    visit("value", f.value, About{.doc = "in words; empty: nobody says"});
    visit("low", f.low, About{});
    visit("high", f.high, About{});
    visit("unit", f.unit, About{});
    visit("said_by", f.said_by, About{.doc = "the strongest of those who say something"});
    visit("page", f.page, About{.doc = "of the sheet; 0: not from a page"});
    visit("words", f.words, About{.doc = "as printed there"});
    visit("look", f.look, About{.doc = "to be looked at before anybody relies on it"});
}

struct ProductIngredient {
    std::string name, cas;
    std::optional<double> low_pct, high_pct;      ///< by weight; none: nobody says
    std::string codes;                            ///< its own
    SaidBy said_by = SaidBy::Shelf;
    int page = 0;
};
template <class Visitor>
void describe(Visitor& visit, ProductIngredient& i) {
    visit("name", i.name, About{});
    visit("cas", i.cas, About{});
    visit("low_pct", i.low_pct, About{.doc = "by weight; left out: nobody says"});
    visit("high_pct", i.high_pct, About{});
    visit("codes", i.codes, About{.doc = "its own H and EUH codes"});
    visit("said_by", i.said_by, About{});
    visit("page", i.page, About{.doc = "of the sheet; 0: not from a page"});
}

/// A limit for the air as a sheet prints it.
struct ProductLimit {
    std::string substance, cas;
    std::string jurisdiction;                     ///< empty: the sheet does not say where it holds
    std::string span;                             ///< shift, short, ceiling
    double value = 0;
    std::string unit;                             ///< ppm or mg/m³
    int page = 0;
};
template <class Visitor>
void describe(Visitor& visit, ProductLimit& l) {
    visit("substance", l.substance, About{});
    visit("cas", l.cas, About{});
    visit("jurisdiction", l.jurisdiction, About{.doc = "empty: the sheet does not say where it holds"});
    visit("span", l.span, About{.doc = "shift, short or ceiling"});
    visit("value", l.value, About{});
    visit("unit", l.unit, About{.doc = "ppm or mg/m³"});
    visit("page", l.page, About{});
}

/// Gloves that section 8 names.
struct GloveSaid {
    std::string material;                         ///< in plain words
    std::optional<double> thickness_mm, breakthrough_min;
    bool at_least = false;                        ///< the sheet prints "above"
    std::string words;                            ///< the sentence of the sheet
    int page = 0;
};
template <class Visitor>
void describe(Visitor& visit, GloveSaid& g) {
    visit("material", g.material, About{.doc = "in plain words"});
    visit("thickness_mm", g.thickness_mm, About{});
    visit("breakthrough_min", g.breakthrough_min, About{});
    visit("at_least", g.at_least, About{.doc = "the sheet prints \"above\""});
    visit("words", g.words, About{.doc = "the sentence of the sheet"});
    visit("page", g.page, About{});
}

struct ProductFacts {
    Liquid liquid;
    std::string sheet, sheet_name;                ///< id and file name of the newest kept sheet; empty: none is kept
    std::string revision_date;                    ///< ISO 8601; empty: nobody says
    std::string sheet_sentence;                   ///< which sheet, how old, or that there is none
    std::vector<ProductFact> facts;
    std::vector<std::string> codes;               ///< H, EUH and P codes of the product, each once
    std::vector<ProductIngredient> ingredients;
    std::vector<ProductLimit> limits;
    std::vector<GloveSaid> gloves;
    std::vector<std::string> nobody_says;         ///< names of facts
};
template <class Visitor>
void describe(Visitor& visit, ProductFacts& f) {
    visit("liquid", f.liquid, About{});
    visit("sheet", f.sheet, About{.doc = "id of the newest kept sheet; empty: none is kept"});
    visit("sheet_name", f.sheet_name, About{.doc = "of its file"});
    visit("revision_date", f.revision_date, About{.doc = "ISO 8601; empty: nobody says"});
    visit("sheet_sentence", f.sheet_sentence, About{.doc = "which sheet, how old, or that there is none"});
    visit("facts", f.facts, About{});
    visit("codes", f.codes, About{.doc = "H, EUH and P codes of the product"});
    visit("ingredients", f.ingredients, About{});
    visit("limits", f.limits, About{.doc = "for the air, as the sheet prints them"});
    visit("gloves", f.gloves, About{.doc = "that section 8 names"});
    visit("nobody_says", f.nobody_says, About{.doc = "names of facts"});
}

/// Everything safety needs of a liquid. @param liquid  whole, or with only its id one of the shelf
/// @error NotFound  no such liquid
Result<ProductFacts> product_facts(const Liquid& liquid, Ports& ports);

/// The fact of a key; one that nobody says where there is none.
const ProductFact& fact_of(const ProductFacts& facts, std::string_view key);

/// Whether one of the codes stands there, also inside a combined one: "H225" in "H225".
bool has_code(const ProductFacts& facts, std::string_view code);

/// Gloves named in the text of section 8, in English, German, French or Spanish.
std::vector<GloveSaid> gloves_in(std::string_view section_8, int page);

/// The sentences of section 8 that speak of breathing.
std::string breathing_in(std::string_view section_8);

}  // namespace hw::desk
