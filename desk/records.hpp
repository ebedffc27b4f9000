// What the workshop keeps and what the verbs exchange: liquids, leathers, a story of use, numbers that say who they are.
// Each struct is described once, beside it; JSON, JSON Schema, OpenAPI and the TypeScript types come from that.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/source.hpp"

namespace hw {

template <>
struct EnumNames<Standing> {
    static constexpr std::array<std::pair<Standing, std::string_view>, 7> names{
        {{Standing::Published, "published"}, {Standing::CommonPractice, "common_practice"},
         {Standing::FromMemory, "from_memory"}, {Standing::Derived, "derived"}, {Standing::Estimate, "estimate"},
         {Standing::Measured, "measured"}, {Standing::Invented, "invented"}}};
};

template <class Visitor>
void describe(Visitor& visit, Basis& b) {
    visit("rule", b.rule, About{.doc = "the rule in one sentence"});
    visit("source", b.source, About{.doc = "key in the list of sources"});
    visit("locator", b.locator, About{.doc = "page, table or equation in the source"});
    visit("standing", b.standing, About{.doc = "what the source is worth"});
    visit("inputs", b.inputs, About{.doc = "the inputs that decided"});
}

}  // namespace hw

namespace hw::desk {

/// A number as it is shown: never bare.
struct Number {
    double value = 0;
    double plus_minus = 0;         ///< half width of the stated band; 0 only for exact numbers (counts, definitions)
    std::string unit;              ///< as shown: "pH", "mmol/m²", "µm"
    Standing standing = Standing::Derived;
    std::string band_from;         ///< in words, what the band stands for
};
template <class Visitor>
void describe(Visitor& visit, Number& n) {
    visit("value", n.value, About{});
    visit("plus_minus", n.plus_minus, About{.doc = "half width of the stated band", .minimum = 0});
    visit("unit", n.unit, About{});
    visit("standing", n.standing, About{});
    visit("band_from", n.band_from, About{.doc = "what the band stands for, in words"});
}

/// One ingredient of a liquid. The rest of the liquid is water.
struct Ingredient {
    std::string name;
    std::string cas;                              ///< with check digit, or empty
    std::optional<double> content_pct;            ///< weight per cent of the liquid; with a range its lower end
    std::optional<double> molality_mol_kg;        ///< mol per kg of water; instead of content_pct
    std::optional<double> content_to_pct;         ///< upper end, where the sheet gives a range
};
template <class Visitor>
void describe(Visitor& visit, Ingredient& i) {
    visit("name", i.name, About{.doc = "as on the data sheet"});
    visit("cas", i.cas, About{.doc = "CAS number with its check digit; may be empty"});
    visit("content_pct", i.content_pct, About{.doc = "weight per cent of the liquid; with a range its lower end", .minimum = 0, .maximum = 100});
    visit("molality_mol_kg", i.molality_mol_kg,
          About{.doc = "mol per kg of water, instead of content_pct", .minimum = 0, .maximum = 20});
    visit("content_to_pct", i.content_to_pct, About{.doc = "upper end, where the sheet gives a range", .minimum = 0, .maximum = 100});
}

/// A liquid: something from a bottle, a wipe, a bucket.
struct Liquid {
    std::string id;
    std::string name;
    std::string family;                           ///< what the caller would call it: "glass cleaner"
    std::vector<Ingredient> ingredients;
    std::optional<double> stated_ph;              ///< what the label or the sheet says, neat; with a range its lower end
    bool label_known = true;                      ///< false: an unlabelled or unknown product
    Standing standing = Standing::Estimate;       ///< invented for the demo's liquids
    std::string note;
    std::optional<double> stated_ph_to;           ///< upper end, where the sheet gives a range
    std::optional<double> read_ph;                ///< read in the bottle, neat
    std::optional<double> read_ph_tenfold;        ///< read with one part made up to ten with clean water
};
template <class Visitor>
void describe(Visitor& visit, Liquid& l) {
    visit("id", l.id, About{.doc = "id on the shelf; with only an id the stored liquid is used"});
    visit("name", l.name, About{});
    visit("family", l.family, About{.doc = "what a caller would call it"});
    visit("ingredients", l.ingredients, About{.doc = "the rest is water"});
    visit("stated_ph", l.stated_ph, About{.doc = "pH that the label or data sheet states, neat; with a range its lower end", .minimum = -1, .maximum = 15});
    visit("label_known", l.label_known, About{.doc = "false for an unlabelled or unknown product"});
    visit("standing", l.standing, About{});
    visit("note", l.note, About{});
    visit("stated_ph_to", l.stated_ph_to, About{.doc = "upper end, where the sheet gives a range", .minimum = -1, .maximum = 15});
    visit("read_ph", l.read_ph, About{.doc = "read in the bottle, neat", .minimum = -1, .maximum = 15});
    visit("read_ph_tenfold", l.read_ph_tenfold, About{.doc = "read with one part made up to ten with clean water", .minimum = -1, .maximum = 15});
}

/// How long a drop of clean water stood on a hidden spot before the leather darkened.
enum class WaterDrop { NotDone, Seconds10, Minutes2, Minutes10, NotAtAll };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::WaterDrop> {
    static constexpr std::array<std::pair<desk::WaterDrop, std::string_view>, 5> names{
        {{desk::WaterDrop::NotDone, "not_done"}, {desk::WaterDrop::Seconds10, "under_10_s"}, {desk::WaterDrop::Minutes2, "under_2_min"},
         {desk::WaterDrop::Minutes10, "under_10_min"}, {desk::WaterDrop::NotAtAll, "not_at_all"}}};
};

namespace hw::desk {

/// A leather: a class with its priors, and what was read on the piece. A reading overrides the prior of the class.
struct Leather {
    std::string id;
    std::string name;
    std::string leather_class;                    ///< key of atlas/leather_classes.csv: "aniline", "pigmented_furniture"
    std::string tannage;                          ///< key of atlas/tannages.csv: "chrome", "vegetable", "wet_white"
    std::optional<double> thickness_mm;           ///< whole leather, read
    std::optional<double> finish_um;              ///< finish film, read
    std::optional<double> surface_ph;             ///< read on the piece, flat electrode and a drop of water
    std::optional<double> extract_ph;             ///< read, 1:20 extract, ISO 4045
    std::optional<double> shrinkage_c;            ///< shrinkage temperature, read
    bool decayed = false;                         ///< visibly shrunken, gelatinised or powdering
    Standing standing = Standing::Estimate;
    std::string note;
    WaterDrop water_drop = WaterDrop::NotDone;    ///< on a hidden spot, at room temperature
};
template <class Visitor>
void describe(Visitor& visit, Leather& l) {
    visit("id", l.id, About{.doc = "id in the workshop; with only an id the stored leather is used"});
    visit("name", l.name, About{});
    visit("leather_class", l.leather_class, About{.doc = "finish class, by EN 15987 and RAL 061 A1"});
    visit("tannage", l.tannage, About{});
    visit("thickness_mm", l.thickness_mm, About{.doc = "read; else the prior of the class", .minimum = 0.3, .maximum = 6});
    visit("finish_um", l.finish_um, About{.doc = "finish film, read; else the prior of the class", .minimum = 0, .maximum = 300});
    visit("surface_ph", l.surface_ph, About{.doc = "read with a drop of water", .minimum = 1.5, .maximum = 11});
    visit("extract_ph", l.extract_ph, About{.doc = "1:20 extract, ISO 4045", .minimum = 1.5, .maximum = 11});
    visit("shrinkage_c", l.shrinkage_c, About{.doc = "shrinkage temperature, ISO 3380", .minimum = 20, .maximum = 130});
    visit("decayed", l.decayed, About{.doc = "visibly shrunken, gelatinised or powdering"});
    visit("standing", l.standing, About{});
    visit("note", l.note, About{});
    visit("water_drop", l.water_drop, About{.doc = "how long a drop of clean water stood on a hidden spot before the leather darkened"});
}

enum class Amount { Grams, Sprays, ClothWipe };

/// How much came onto the leather, before wiping.
struct Dose {
    Amount amount = Amount::Sprays;
    double count = 5;                             ///< grams, trigger pulls, or wipes with a damp cloth
    double area_cm2 = 900;
};

/// Rinse after the liquid: water, or another liquid, laid on and blotted off.
struct Rinse {
    int passes = 0;
    double water_g_m2 = 30;                       ///< laid on per pass
    double blotted_pct = 60;                      ///< taken off again per pass
    double wait_s = 60;                           ///< between laying on and blotting
    double hardness_mg_l = 0;                     ///< of the rinse water, as CaCO3; 0 = demineralised
};

/// How the liquid was or will be used.
struct Use {
    double parts_water = 0;                       ///< dilution: parts of water to one part of product; 0 = neat
    double hardness_mg_l = 0;                     ///< of the diluting water, as CaCO3
    Dose dose;
    double dwell_s = 120;                         ///< from wetting to wiping
    double wiped_off_pct = 50;                    ///< share of what is still on the surface that the cloth takes
    Rinse rinse;
    int repeats = 1;                              ///< the whole use, done again after interval_h
    double interval_h = 24;
    double rest_h = 24;                           ///< after the last use
    double air_c = 20;
    double humidity_pct = 50;
    double air_speed_m_s = 0.1;
};

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Amount> {
    static constexpr std::array<std::pair<desk::Amount, std::string_view>, 3> names{
        {{desk::Amount::Grams, "grams"}, {desk::Amount::Sprays, "sprays"}, {desk::Amount::ClothWipe, "cloth_wipes"}}};
};

namespace hw::desk {

template <class Visitor>
void describe(Visitor& visit, Dose& d) {
    visit("amount", d.amount, About{.doc = "how the amount is given"});
    visit("count", d.count, About{.doc = "grams, trigger pulls, or wipes with a damp cloth", .minimum = 0, .maximum = 5000});
    visit("area_cm2", d.area_cm2, About{.doc = "area it went onto", .minimum = 1, .maximum = 100000});
}
template <class Visitor>
void describe(Visitor& visit, Rinse& r) {
    visit("passes", r.passes, About{.doc = "0 = not rinsed", .minimum = 0, .maximum = 20});
    visit("water_g_m2", r.water_g_m2, About{.doc = "laid on per pass", .minimum = 0, .maximum = 1000});
    visit("blotted_pct", r.blotted_pct, About{.doc = "taken off again per pass", .minimum = 0, .maximum = 99});
    visit("wait_s", r.wait_s, About{.doc = "between laying on and blotting", .minimum = 1, .maximum = 3600});
    visit("hardness_mg_l", r.hardness_mg_l, About{.doc = "of the rinse water, as CaCO3", .minimum = 0, .maximum = 1000});
}
template <class Visitor>
void describe(Visitor& visit, Use& u) {
    visit("parts_water", u.parts_water, About{.doc = "parts of water to one part of product; 0 = neat", .minimum = 0, .maximum = 10000});
    visit("hardness_mg_l", u.hardness_mg_l, About{.doc = "of the diluting water, as CaCO3", .minimum = 0, .maximum = 1000});
    visit("dose", u.dose, About{});
    visit("dwell_s", u.dwell_s, About{.doc = "from wetting to wiping", .minimum = 1, .maximum = 86400});
    visit("wiped_off_pct", u.wiped_off_pct, About{.doc = "share of what is still on the surface that the cloth takes", .minimum = 0, .maximum = 99});
    visit("rinse", u.rinse, About{});
    visit("repeats", u.repeats, About{.doc = "how many times the whole use is done", .minimum = 1, .maximum = 30});
    visit("interval_h", u.interval_h, About{.doc = "between repeats", .minimum = 0.5, .maximum = 720});
    visit("rest_h", u.rest_h, About{.doc = "after the last use", .minimum = 0.1, .maximum = 168});
    visit("air_c", u.air_c, About{.doc = "room air", .minimum = 5, .maximum = 40});
    visit("humidity_pct", u.humidity_pct, About{.doc = "relative humidity of the air", .minimum = 10, .maximum = 90});
    visit("air_speed_m_s", u.air_speed_m_s, About{.doc = "over the surface", .minimum = 0, .maximum = 5});
}

/// A finding as it goes out, with who says so.
struct Reason {
    std::string kind;                             ///< a word of the code: "alkali_at_depth"
    std::string sentence;                         ///< for people
    std::string weight;                           ///< "decides", "adds", "note", "caution"
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, Reason& r) {
    visit("kind", r.kind, About{});
    visit("sentence", r.sentence, About{});
    visit("weight", r.weight, About{.doc = "decides, adds, note or caution"});
    visit("basis", r.basis, About{});
}

/// People first: a hazard that stops the flow.
struct Stop {
    std::string kind;
    std::string headline;                         ///< what is wrong, one sentence
    std::vector<std::string> do_now;              ///< word for word what to do
    std::vector<std::string> never;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, Stop& s) {
    visit("kind", s.kind, About{});
    visit("headline", s.headline, About{});
    visit("do_now", s.do_now, About{});
    visit("never", s.never, About{});
    visit("basis", s.basis, About{});
}

}  // namespace hw::desk
