// analyse: what a liquid is. Composition in; pH, reserve, buffering, what leaves, what precipitates, what must not meet.
#pragma once

#include "base/result.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"

namespace hw::desk {

enum class AirContact { Closed, Open };

struct AnalyseRequest {
    Liquid liquid;
    double parts_water = 0;
    double hardness_mg_l = 0;                     ///< of the diluting water, as CaCO3
    double liquid_c = 25;
    AirContact air = AirContact::Closed;
    double target_ph = 4.5;                       ///< reserve is counted to this pH; by default a leather's
    std::vector<std::string> meets;               ///< ids of liquids it was or will be used with, not rinsed between
};

struct CurvePoint {
    double added_mol_kg = 0;                      ///< strong acid added; negative: strong base
    double ph = 0;
};
struct DryingPoint {
    double water_left_1 = 1;                      ///< share of the water still there
    double ph = 7;
    double ionic_strength_mol_kg = 0;
    bool beyond_model = false;                    ///< ionic strength above 3 mol/kg
};
struct Volatile {
    std::string name;
    double content_pct = 0;
    double time_to_third_s = 0;                   ///< until 1/e of the neutral form is left in a 100 µm film
    std::string remark;
    Basis basis;
};
struct Solid {
    std::string name;
    double saturation_index_1 = 0;
    double amount_mol_kg = 0;                     ///< precipitated
    Basis basis;
};

struct AnalyseAnswer {
    std::string liquid;
    std::string sentence;                         ///< the answer in one sentence
    bool ph_refused = false;                      ///< no pH to state: more than 20 % alcohol, or nothing known of what is in it
    Number ph;
    Number ionic_strength;
    Number buffer_capacity;                       ///< Van Slyke, mol/kg per pH unit
    Number reserve_alkalinity;                    ///< ASTM D1121, mL of 0.1 mol/L HCl for 10 mL to pH 5.5
    Number alkaline_reserve;                      ///< OECD TG 122: g NaOH equivalent per 100 g to pH 10
    Number acid_reserve;                          ///< OECD TG 122: g NaOH per 100 g to pH 4 (liquids more acid than 4)
    Number reserve_to_target;                     ///< our own: mmol of strong acid per kg to target_ph; negative: base
    double target_ph = 4.5;
    double unknown_pct = 0;                       ///< ingredients not known to us
    std::vector<CurvePoint> titration;
    std::vector<DryingPoint> drying;
    std::vector<Volatile> leaves;
    std::vector<Solid> solids;
    std::vector<Stop> stops;
    std::vector<Reason> reasons;
    std::string version;
};

Result<AnalyseAnswer> analyse(const AnalyseRequest& request, Ports& ports);

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::AirContact> {
    static constexpr std::array<std::pair<desk::AirContact, std::string_view>, 2> names{
        {{desk::AirContact::Closed, "closed"}, {desk::AirContact::Open, "open"}}};
};

namespace hw::desk {

template <class Visitor>
void describe(Visitor& visit, AnalyseRequest& r) {
    visit("liquid", r.liquid, About{.required = true});
    visit("parts_water", r.parts_water, About{.doc = "parts of water to one part of product", .minimum = 0, .maximum = 10000});
    visit("hardness_mg_l", r.hardness_mg_l, About{.doc = "of the diluting water, as CaCO3", .minimum = 0, .maximum = 1000});
    visit("liquid_c", r.liquid_c, About{.doc = "temperature of the liquid", .minimum = 0, .maximum = 60});
    visit("air", r.air, About{.doc = "closed bottle, or open and settled with the air (420 ppm CO2)"});
    visit("target_ph", r.target_ph, About{.doc = "reserve is counted to this pH", .minimum = 2, .maximum = 12});
    visit("meets", r.meets, About{.doc = "ids of liquids used with it, not rinsed between"});
}
template <class Visitor>
void describe(Visitor& visit, CurvePoint& p) {
    visit("added_mol_kg", p.added_mol_kg, About{.doc = "strong acid added; negative: strong base"});
    visit("ph", p.ph, About{});
}
template <class Visitor>
void describe(Visitor& visit, DryingPoint& p) {
    visit("water_left_1", p.water_left_1, About{.doc = "share of the water still there"});
    visit("ph", p.ph, About{});
    visit("ionic_strength_mol_kg", p.ionic_strength_mol_kg, About{});
    visit("beyond_model", p.beyond_model, About{.doc = "ionic strength above 3 mol/kg: banded, not refused"});
}
template <class Visitor>
void describe(Visitor& visit, Volatile& v) {
    visit("name", v.name, About{});
    visit("content_pct", v.content_pct, About{});
    visit("time_to_third_s", v.time_to_third_s, About{.doc = "until 1/e of the neutral form is left in a 100 µm film"});
    visit("remark", v.remark, About{});
    visit("basis", v.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, Solid& s) {
    visit("name", s.name, About{});
    visit("saturation_index_1", s.saturation_index_1, About{});
    visit("amount_mol_kg", s.amount_mol_kg, About{.doc = "precipitated"});
    visit("basis", s.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, AnalyseAnswer& a) {
    visit("liquid", a.liquid, About{});
    visit("sentence", a.sentence, About{});
    visit("ph_refused", a.ph_refused, About{.doc = "no pH to state: more than 20 % alcohol, or nothing known of what is in it"});
    visit("ph", a.ph, About{});
    visit("ionic_strength", a.ionic_strength, About{});
    visit("buffer_capacity", a.buffer_capacity, About{.doc = "Van Slyke"});
    visit("reserve_alkalinity", a.reserve_alkalinity, About{.doc = "ASTM D1121"});
    visit("alkaline_reserve", a.alkaline_reserve, About{.doc = "OECD TG 122, to pH 10"});
    visit("acid_reserve", a.acid_reserve, About{.doc = "OECD TG 122, to pH 4"});
    visit("reserve_to_target", a.reserve_to_target, About{.doc = "own definition: strong acid to target_ph; negative: base"});
    visit("target_ph", a.target_ph, About{});
    visit("unknown_pct", a.unknown_pct, About{.doc = "ingredients not known to us"});
    visit("titration", a.titration, About{});
    visit("drying", a.drying, About{});
    visit("leaves", a.leaves, About{});
    visit("solids", a.solids, About{});
    visit("stops", a.stops, About{});
    visit("reasons", a.reasons, About{});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
