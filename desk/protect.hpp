// protect: the safety card of a job. What the air of this room or car comes to, what to wear, who leaves and for how long, waste, fire,
// what is refused and what is left to local law; and a note in plain words for the household.
//
// The air is one well-mixed box (core/air). "Over a limit" means that the number of a stated limit is passed, not that harm occurs.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/own_limits.hpp"
#include "desk/ports.hpp"
#include "desk/print.hpp"
#include "desk/product_facts.hpp"
#include "desk/records.hpp"

namespace hw::desk {

enum class SafetyJob { Liquids, Mould, Dust };
/// How a liquid goes on.
enum class GoesOn { Cloth, Swab, Brush, Foam, Spray, Airbrush };
/// An answer of the household, or of the technician.
enum class Asked { NotAsked, Yes, No };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SafetyJob> {
    static constexpr std::array<std::pair<desk::SafetyJob, std::string_view>, 3> names{{{desk::SafetyJob::Liquids, "liquids"}, {desk::SafetyJob::Mould, "mould"}, {desk::SafetyJob::Dust, "dust"}}};
};
template <>
struct hw::EnumNames<hw::desk::GoesOn> {
    static constexpr std::array<std::pair<desk::GoesOn, std::string_view>, 6> names{
        {{desk::GoesOn::Cloth, "cloth"}, {desk::GoesOn::Swab, "swab"}, {desk::GoesOn::Brush, "brush"}, {desk::GoesOn::Foam, "foam"}, {desk::GoesOn::Spray, "spray"}, {desk::GoesOn::Airbrush, "airbrush"}}};
};
template <>
struct hw::EnumNames<hw::desk::Asked> {
    static constexpr std::array<std::pair<desk::Asked, std::string_view>, 3> names{{{desk::Asked::NotAsked, "not_asked"}, {desk::Asked::Yes, "yes"}, {desk::Asked::No, "no"}}};
};

namespace hw::desk {

struct PlannedItem {
    Liquid liquid;                                ///< whole, or with only its id one of the shelf
    std::optional<double> ml, grams;              ///< in all, as used: one of them
    double over_min = 30;
    GoesOn goes_on = GoesOn::Cloth;
    double parts_water = 0;                       ///< to one part of product, in what is used
};
template <class Visitor>
void describe(Visitor& visit, PlannedItem& i) {
    visit("liquid", i.liquid, About{.doc = "whole, or with only its id one of the shelf", .required = true});
    visit("ml", i.ml, About{.doc = "in all, as used; this or grams", .minimum = 0.01, .maximum = 100000});
    visit("grams", i.grams, About{.doc = "in all, as used", .minimum = 0.01, .maximum = 100000});
    visit("over_min", i.over_min, About{.doc = "minutes over which it goes on", .minimum = 0, .maximum = 1440});
    visit("goes_on", i.goes_on, About{});
    visit("parts_water", i.parts_water, About{.doc = "to one part of product, in what is used", .minimum = 0, .maximum = 10000});
}

struct Household {
    Asked asthma = Asked::NotAsked, pregnancy = Asked::NotAsked, children = Asked::NotAsked, pets = Asked::NotAsked, birds = Asked::NotAsked, allergies = Asked::NotAsked, sleeps_there = Asked::NotAsked;
    std::string note;                             ///< who, in their words
};
template <class Visitor>
void describe(Visitor& visit, Household& h) {
    visit("asthma", h.asthma, About{.doc = "asthma, a lung illness or a weak immune system"});
    visit("pregnancy", h.pregnancy, About{});
    visit("children", h.children, About{});
    visit("pets", h.pets, About{});
    visit("birds", h.birds, About{.doc = "caged birds"});
    visit("allergies", h.allergies, About{});
    visit("sleeps_there", h.sleeps_there, About{.doc = "somebody sleeps in that room"});
    visit("note", h.note, About{.doc = "who, in their words"});
}

struct SafetyTechnician {
    std::string name;
    std::string trained_on, fit_tested_on;        ///< ISO 8601; empty: nobody says
    Asked beard = Asked::NotAsked;
};
template <class Visitor>
void describe(Visitor& visit, SafetyTechnician& t) {
    visit("name", t.name, About{});
    visit("trained_on", t.trained_on, About{.doc = "for diisocyanates; ISO 8601"});
    visit("fit_tested_on", t.fit_tested_on, About{.doc = "of the mask; ISO 8601"});
    visit("beard", t.beard, About{});
}

struct SafetyPlace {
    std::string key = "workshop";                 ///< of atlas/work_places.csv
    std::optional<double> volume_m3, length_m, width_m, height_m; ///< the volume, or all three
    std::optional<double> air_changes_per_h;
    std::optional<double> clears_min;             ///< measured: until smoke had cleared
    std::optional<double> mixing_1;               ///< 1 mixes perfectly
    double air_c = 20;
    Asked sprinklers = Asked::NotAsked;           ///< in the booth
};
template <class Visitor>
void describe(Visitor& visit, SafetyPlace& p) {
    visit("key", p.key, About{.doc = "workshop_extract, workshop, home_room, home_open, closed_car, open_car or outdoors"});
    visit("volume_m3", p.volume_m3, About{.doc = "left out: the usual of the place", .minimum = 0.5, .maximum = 100000});
    visit("length_m", p.length_m, About{.doc = "with width and height instead of the volume", .minimum = 0.3, .maximum = 200});
    visit("width_m", p.width_m, About{.minimum = 0.3, .maximum = 200});
    visit("height_m", p.height_m, About{.minimum = 0.3, .maximum = 50});
    visit("air_changes_per_h", p.air_changes_per_h, About{.doc = "left out: the usual of the place", .minimum = 0, .maximum = 1000});
    visit("clears_min", p.clears_min, About{.doc = "measured: minutes until smoke had cleared; outranks the air changes", .minimum = 0.1, .maximum = 1440});
    visit("mixing_1", p.mixing_1, About{.doc = "1 mixes perfectly; left out: the usual of the place", .minimum = 1, .maximum = 10});
    visit("air_c", p.air_c, About{.minimum = 0, .maximum = 45});
    visit("sprinklers", p.sprinklers, About{.doc = "in the booth"});
}

struct MouldJob {
    std::optional<double> area_m2;
    Asked hidden = Asked::NotAsked, sewage = Asked::NotAsked, air_ducts = Asked::NotAsked;
    std::optional<double> humidity_pct;           ///< of the room or store it came from
};
template <class Visitor>
void describe(Visitor& visit, MouldJob& m) {
    visit("area_m2", m.area_m2, About{.doc = "of all patches together", .minimum = 0, .maximum = 1000});
    visit("hidden", m.hidden, About{.doc = "in a wall, a floor or where nobody can look"});
    visit("sewage", m.sewage, About{.doc = "from sewage or flood water"});
    visit("air_ducts", m.air_ducts, About{.doc = "in heating or air ducts"});
    visit("humidity_pct", m.humidity_pct, About{.doc = "of the room or store it came from", .minimum = 0, .maximum = 100});
}

struct ProtectRequest {
    std::string title;                            ///< of the job
    SafetyJob job = SafetyJob::Liquids;
    SafetyPlace place;
    std::vector<PlannedItem> items;
    Household household;
    SafetyTechnician technician;
    MouldJob mould;
    std::string piece;                            ///< its entries count: what was laid on it, and, without items, what is planned
};
template <class Visitor>
void describe(Visitor& visit, ProtectRequest& r) {
    visit("title", r.title, About{.doc = "of the job"});
    visit("job", r.job, About{});
    visit("place", r.place, About{});
    visit("items", r.items, About{});
    visit("household", r.household, About{});
    visit("technician", r.technician, About{});
    visit("mould", r.mould, About{.doc = "with the job mould"});
    visit("piece", r.piece, About{.doc = "id of a piece: what lies on it counts; without items, what was laid on it last is taken as planned"});
}

struct SafetyLine {
    std::string key, sentence;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, SafetyLine& l) {
    visit("key", l.key, About{});
    visit("sentence", l.sentence, About{});
    visit("basis", l.basis, About{});
}

struct SafetyPart {
    std::string key, name;
    std::vector<SafetyLine> lines;
};
template <class Visitor>
void describe(Visitor& visit, SafetyPart& p) {
    visit("key", p.key, About{.doc = "gloves, eyes, breathing, people, steps, waste, fire, storage, meet, deferred or never"});
    visit("name", p.name, About{});
    visit("lines", p.lines, About{});
}

/// A limit that counts, and who says so.
struct CountingLimit {
    std::string span;                             ///< shift, short or ceiling
    std::string where;                            ///< jurisdiction
    Number ppm;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, CountingLimit& l) {
    visit("span", l.span, About{.doc = "shift (8 h), short (15 min) or ceiling"});
    visit("where", l.where, About{.doc = "where it holds"});
    visit("ppm", l.ppm, About{});
    visit("basis", l.basis, About{});
}

/// One vapour of the job in this space.
struct Vapour {
    std::string name, cas;
    Number planned_g, planned_ml;                 ///< of it, at the upper end of what the sheets say
    std::optional<CountingLimit> limit, short_limit;
    std::vector<CountingLimit> others;            ///< printed elsewhere, not counting here
    std::optional<Number> lel;                    ///< per cent by volume
    std::optional<Basis> lel_basis;
    std::optional<Number> ml_to_limit;            ///< that bring this closed space to the number of its limit
    std::optional<Number> ml_to_lel;              ///< to a quarter of its lower explosive limit
    Number closed_ppm;                            ///< all of it in the closed space
    Number peak_ppm, worst_15_min_ppm, shift_mean_ppm; ///< with the air changes
    std::optional<Number> saturated_ppm;          ///< the most that air of 20 °C holds
    std::optional<Number> flow_m3_h;              ///< that keeps a steady release at its limit
    bool slow = false;                            ///< the air cannot hold what is computed: an upper bound
};
template <class Visitor>
void describe(Visitor& visit, Vapour& v) {
    visit("name", v.name, About{});
    visit("cas", v.cas, About{});
    visit("planned_g", v.planned_g, About{.doc = "of it, at the upper end of what the sheets say"});
    visit("planned_ml", v.planned_ml, About{});
    visit("limit", v.limit, About{.doc = "of a shift; left out: nobody prints one"});
    visit("short_limit", v.short_limit, About{.doc = "of 15 minutes, or a ceiling"});
    visit("others", v.others, About{.doc = "printed elsewhere, not counting here"});
    visit("lel", v.lel, About{.doc = "lower explosive limit, per cent by volume"});
    visit("lel_basis", v.lel_basis, About{});
    visit("ml_to_limit", v.ml_to_limit, About{.doc = "millilitres that bring this closed space to the number of the limit"});
    visit("ml_to_lel", v.ml_to_lel, About{.doc = "millilitres that bring it to a quarter of the lower explosive limit"});
    visit("closed_ppm", v.closed_ppm, About{.doc = "all of it in the closed space"});
    visit("peak_ppm", v.peak_ppm, About{.doc = "highest, with the air changes"});
    visit("worst_15_min_ppm", v.worst_15_min_ppm, About{});
    visit("shift_mean_ppm", v.shift_mean_ppm, About{.doc = "mean of 8 hours for somebody who stays"});
    visit("saturated_ppm", v.saturated_ppm, About{.doc = "the most that air of 20 °C holds"});
    visit("flow_m3_h", v.flow_m3_h, About{.doc = "fresh air that keeps a steady release at its limit"});
    visit("slow", v.slow, About{.doc = "air cannot hold what is computed: an upper bound"});
}

/// The level along time, in parts of its limits.
struct AirPoint {
    double at_min = 0;
    double of_limit_1 = 0;                        ///< sum over the vapours of level over limit
    double of_lel_1 = 0;                          ///< likewise of the lower explosive limits
};
template <class Visitor>
void describe(Visitor& visit, AirPoint& p) {
    visit("at_min", p.at_min, About{});
    visit("of_limit_1", p.of_limit_1, About{.doc = "sum of level over limit"});
    visit("of_lel_1", p.of_lel_1, About{.doc = "likewise of the lower explosive limits"});
}

struct SafetyAir {
    std::string sentence;
    bool computed = false;
    bool over_limit = false;                      ///< the number of a limit, at the highest level with the air changes
    bool over_closed = false;                     ///< likewise when all of it stays in the closed space
    Number closed_of_limit, peak_of_limit, worst_15_of_short, shift_of_limit; ///< 1: at the limit
    Number closed_of_lel, peak_of_lel;            ///< per cent of the lower explosive limit
    std::optional<Number> mixture_lel;            ///< per cent by volume
    std::vector<Vapour> vapours;
    std::string unknown;                          ///< what is not known to be vapour or not, and its bound; empty: nothing
    std::optional<Number> unknown_g;
    std::optional<Number> flow_m3_h, flow_changes; ///< fresh air for the whole mixture; and as changes of this space in an hour
    std::optional<Number> clears_min;             ///< from the end to a hundredth of the highest level
    std::optional<Number> under_limit_min;        ///< from the start until it stays under the limits
    std::optional<Number> back_home_min;          ///< until it stays under a tenth of them
    std::optional<Number> clears_least_min;       ///< the same where the air mixes at once; only where the mixing is not known
    std::optional<Number> back_home_least_min;    ///< likewise
    std::vector<AirPoint> curve;
};
template <class Visitor>
void describe(Visitor& visit, SafetyAir& a) {
    visit("sentence", a.sentence, About{});
    visit("computed", a.computed, About{});
    visit("over_limit", a.over_limit, About{.doc = "the highest level with the air changes passes the number of a limit"});
    visit("over_closed", a.over_closed, About{.doc = "likewise when all of it stays in the closed space"});
    visit("closed_of_limit", a.closed_of_limit, About{.doc = "1: at the limit"});
    visit("peak_of_limit", a.peak_of_limit, About{});
    visit("worst_15_of_short", a.worst_15_of_short, About{});
    visit("shift_of_limit", a.shift_of_limit, About{});
    visit("closed_of_lel", a.closed_of_lel, About{.doc = "per cent of the lower explosive limit"});
    visit("peak_of_lel", a.peak_of_lel, About{});
    visit("mixture_lel", a.mixture_lel, About{.doc = "per cent by volume"});
    visit("vapours", a.vapours, About{});
    visit("unknown", a.unknown, About{.doc = "what is not known to be vapour or not, and its bound; empty: nothing"});
    visit("unknown_g", a.unknown_g, About{});
    visit("flow_m3_h", a.flow_m3_h, About{.doc = "fresh air that keeps the whole mixture at its limits"});
    visit("flow_changes", a.flow_changes, About{.doc = "the same as changes of this space in an hour"});
    visit("clears_min", a.clears_min, About{.doc = "from the end to a hundredth of the highest level"});
    visit("under_limit_min", a.under_limit_min, About{.doc = "from the start until it stays under the limits"});
    visit("back_home_min", a.back_home_min, About{.doc = "from the start until it stays under a tenth of them"});
    visit("clears_least_min", a.clears_least_min, About{.doc = "as clears_min where the air mixes at once; only where the mixing is not known"});
    visit("back_home_least_min", a.back_home_least_min, About{.doc = "as back_home_min where the air mixes at once; only where the mixing is not known"});
    visit("curve", a.curve, About{});
}

struct SafetyPlaceNow {
    std::string key, name;
    Number volume, air_changes, mixing;           ///< standing says whether it was told, measured or taken for want of an answer
};
template <class Visitor>
void describe(Visitor& visit, SafetyPlaceNow& p) {
    visit("key", p.key, About{});
    visit("name", p.name, About{});
    visit("volume", p.volume, About{});
    visit("air_changes", p.air_changes, About{});
    visit("mixing", p.mixing, About{});
}

/// What was planned, in words.
struct SafetyItem {
    std::string name, amount, goes_on;
    std::string sheet_sentence;
};
template <class Visitor>
void describe(Visitor& visit, SafetyItem& i) {
    visit("name", i.name, About{});
    visit("amount", i.amount, About{});
    visit("goes_on", i.goes_on, About{});
    visit("sheet_sentence", i.sheet_sentence, About{});
}

/// The second page: for people who live there.
struct HouseholdNote {
    std::string title;
    std::vector<std::string> uses, stay_out, please, watch, call;
};
template <class Visitor>
void describe(Visitor& visit, HouseholdNote& n) {
    visit("title", n.title, About{});
    visit("uses", n.uses, About{.doc = "by class, in plain words"});
    visit("stay_out", n.stay_out, About{});
    visit("please", n.please, About{});
    visit("watch", n.watch, About{});
    visit("call", n.call, About{});
}

struct ProtectAnswer {
    std::string title;
    std::string sentence;
    std::vector<Stop> stops;                      ///< most urgent first; with one of them the job does not begin
    std::string ask_first;                        ///< the question before everything else; empty: it was answered
    SafetyPlaceNow place;
    std::vector<SafetyItem> items;
    SafetyAir air;
    std::vector<SafetyPart> parts;
    HouseholdNote note;
    std::string mould_sentence;                   ///< how fast it grows there; empty: not asked
    std::vector<ProductFacts> facts;
    std::vector<std::string> defaults_used;
    std::vector<Basis> sources;
    bool demo = false;                            ///< something invented stands in it
    std::string at;                               ///< ISO 8601, UTC
    std::string version;
};
template <class Visitor>
void describe(Visitor& visit, ProtectAnswer& a) {
    visit("title", a.title, About{});
    visit("sentence", a.sentence, About{});
    visit("stops", a.stops, About{.doc = "most urgent first; with one of them the job does not begin"});
    visit("ask_first", a.ask_first, About{.doc = "the question before everything else; empty: it was answered"});
    visit("place", a.place, About{});
    visit("items", a.items, About{});
    visit("air", a.air, About{});
    visit("parts", a.parts, About{});
    visit("note", a.note, About{.doc = "for the household"});
    visit("mould_sentence", a.mould_sentence, About{});
    visit("facts", a.facts, About{.doc = "of each planned liquid, with who says so"});
    visit("defaults_used", a.defaults_used, About{.doc = "what was taken for want of an answer"});
    visit("sources", a.sources, About{});
    visit("demo", a.demo, About{.doc = "something invented stands in it"});
    visit("at", a.at, About{.doc = "ISO 8601, UTC"});
    visit("version", a.version, About{});
}

/// The safety card of a job.
///
/// @error InvalidInput  no amount, two amounts, an incomplete box, no items where liquids are planned
/// @error NotFound      no such place, liquid or piece
/// @error OutOfRange    a number outside its range
Result<ProtectAnswer> protect(const ProtectRequest& request, Ports& ports);

/// Places to choose from, with what is taken for want of an answer.
std::vector<SafetyPlaceNow> safety_places();

/// One page: the card, or with Owner the note for the household. @error as protect; Unavailable without a printer
Result<PrintAnswer> print_safety(const ProtectRequest& request, PageKind kind, Paper paper, Ports& ports);

}  // namespace hw::desk
