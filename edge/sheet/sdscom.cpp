#include "edge/sheet/sdscom.hpp"

#include <cmath>
#include <cstdlib>
#include <string>

namespace hw::sheet_reader {

namespace {

/// A feed with more components is not the sheet of a mixture.
constexpr std::size_t components_limit = 500;
constexpr std::string_view standard = "http://www.esdscom.eu/SDScom";

sheet::Text said(const std::string& text) { return {text, {}, 1}; }

std::optional<sheet::Text> text_at(const XmlElement* e) {
    if (e == nullptr || e->text.empty()) return std::nullopt;
    return said(e->text);
}

std::optional<double> number_at(const XmlElement* e) {
    if (e == nullptr || e->text.empty()) return std::nullopt;
    char* end = nullptr;
    const double v = std::strtod(e->text.c_str(), &end);
    return *end == '\0' && std::isfinite(v) ? std::optional(v) : std::nullopt;
}

/// A value of the standard: exact, or between ends, each with a symbol before it.
struct Value {
    std::optional<double> low, high;
    bool low_open = false, high_open = false;
    std::string unit;
};

enum class Symbol { None, Under, UpTo, Over, From, Unknown };
Symbol symbol_at(const XmlElement* e) {
    if (e == nullptr || e->text.empty() || e->text == "=") return Symbol::None;
    if (e->text == "<") return Symbol::Under;
    if (e->text == "<=" || e->text == "≤") return Symbol::UpTo;
    if (e->text == ">") return Symbol::Over;
    if (e->text == ">=" || e->text == "≥") return Symbol::From;
    return Symbol::Unknown;
}

/// A symbol that is not understood leaves its number out.
std::optional<Value> value_of(const XmlElement* e) {
    if (e == nullptr) return std::nullopt;
    Value out;
    if (const auto* unit = e->child("Unit")) out.unit = unit->text;
    // The ids by which the schema names units, where the text is left out.
    else if (const auto id = e->attribute("UnitId"); id == "9269144102") out.unit = "%";
    else if (id == "9269144149") out.unit = "Weight-%";
    else if (id == "9269144148") out.unit = "Vol-%";
    else if (id == "9269144119") out.unit = "hPa";
    else if (id == "9269144130" || id == "9269144131") out.unit = "g/cm3";
    const auto exact = number_at(e->child("ExactValue")), low = number_at(e->child("LowerValue")), high = number_at(e->child("UpperValue"));
    if (low || high) {
        const Symbol before_low = symbol_at(e->child("LowerValueSymbol")), before_high = symbol_at(e->child("UpperValueSymbol"));
        if (before_low != Symbol::Unknown) out.low = low;
        if (before_high != Symbol::Unknown) out.high = high;
        out.low_open = before_low == Symbol::Over;
        out.high_open = before_high == Symbol::Under;
    } else if (exact) {
        const Symbol before = symbol_at(e->child("ExactValueSymbol"));
        if (before == Symbol::None || before == Symbol::Over || before == Symbol::From) out.low = exact;
        if (before == Symbol::None || before == Symbol::Under || before == Symbol::UpTo) out.high = exact;
        out.low_open = before == Symbol::Over;
        out.high_open = before == Symbol::Under;
    }
    if (!out.low && !out.high) return std::nullopt;
    return out;
}

bool is_celsius(const std::string& unit) { return unit == "°C" || unit == "C" || unit == "Celsius"; }

std::optional<double> celsius_at(const XmlElement* e) {
    const auto v = value_of(e);
    return v && is_celsius(v->unit) && v->low && v->low == v->high ? v->low : std::nullopt;
}

/// What a unit of density times gives g/ml; 0 when it is none that is known.
double to_g_ml(const std::string& unit) {
    if (unit == "g/cm3" || unit == "g/cm³" || unit == "g/ml" || unit == "g/mL" || unit == "kg/l" || unit == "kg/L" || unit == "kg/dm3") return 1;
    if (unit == "kg/m3" || unit == "kg/m³" || unit == "g/l" || unit == "g/L") return 0.001;
    return 0;
}
/// What a unit of concentration times gives per cent by weight; 0 when it is none that is known.
double to_pct(const std::string& unit) {
    if (unit == "%" || unit == "Weight-%" || unit == "% (w/w)" || unit == "Vol-%") return 1;
    if (unit == "g/l" || unit == "g/L" || unit == "kg/m3" || unit == "kg/m³") return 0.1;
    return unit == "mg/l" || unit == "mg/L" ? 0.0001 : 0;
}
bool of_bottle(const sheet::Ph& ph) { return !ph.diluted && (!ph.concentration_pct || *ph.concentration_pct >= 100); }

double to_hpa(const std::string& unit) { return unit == "hPa" || unit == "mbar" ? 1 : unit == "kPa" ? 10 : unit == "Pa" ? 0.01 : 0; }

sheet::Interval times(const Value& v, double by) {
    sheet::Interval out;
    if (v.low) out.low = *v.low * by;
    if (v.high) out.high = *v.high * by;
    return out;
}

std::optional<sheet::Fact<sheet::Range>> share_of(const XmlElement* e) {
    const auto v = value_of(e);
    const bool by_volume = v && v->unit == "Vol-%";
    if (!v || !(by_volume || v->unit == "%" || v->unit == "Weight-%" || v->unit == "% (w/w)")) return std::nullopt;
    return sheet::Fact<sheet::Range>{{v->low, v->high, v->low_open, v->high_open, by_volume}, {}, 1};
}

/// A component that says less than it should is an ingredient all the same; what it does not say is left empty.
sheet::Ingredient ingredient_of(const XmlElement& component) {
    const XmlElement* substance = component.child("Substance") != nullptr ? component.child("Substance") : &component;
    sheet::Ingredient out;
    for (const char* name : {"SubstanceName", "GenericName", "InciName", "IupacName"})
        if (const auto text = text_at(substance->child(name)); text && out.name.value.empty()) out.name = *text;
    if (const auto cas = text_at(substance->child("CasNo"))) {
        if (sheet::cas_is_right(cas->value)) out.cas = cas;
        else out.bad_cas = cas;
    }
    out.ec = text_at(substance->child("EcNo"));
    out.reach = text_at(substance->child("ReachRegNo"));
    out.index = text_at(substance->child("IndexNo"));
    out.range = share_of(component.child("Concentration"));
    out.confidence = 1;
    return out;
}

void read_properties(const XmlElement& properties, sheet::Facts& out) {
    const XmlElement* values = properties.child("SafetyRelevantInformation");
    if (values == nullptr) return;
    // With several, the one of the product itself comes before those of a dilution.
    for (const auto& e : values->children) {
        if (e.name != "PhValue") continue;
        const auto v = value_of(e.at({"Value", "Value"}));
        if (!v) continue;
        const XmlElement* concentration = e.child("Concentration");
        const auto of = value_of(concentration);
        sheet::Ph ph;
        ph.low_ph = v->low;
        ph.high_ph = v->high;
        ph.celsius = celsius_at(e.at({"Value", "Temperature"}));
        if (const double by = of ? to_pct(of->unit) : 0; by > 0 && of->low && of->low == of->high) ph.concentration_pct = *of->low * by;
        // A concentration that cannot be read is still one.
        else ph.diluted = concentration != nullptr && (!concentration->children.empty() || !concentration->text.empty());
        if (!out.ph || (!of_bottle(out.ph->value) && of_bottle(ph))) out.ph = {ph, {}, 1};
    }
    if (const auto* density = values->at({"Densities", "Density"}))
        if (const auto v = value_of(density->child("UnitValue")); v && to_g_ml(v->unit) > 0) {
            const double by = to_g_ml(v->unit);
            out.density = {{times(*v, by), celsius_at(density->child("Temperature"))}, {}, 1};
        }
    if (const auto v = value_of(values->at({"FlashPoint", "Value", "UnitValue"})); v && is_celsius(v->unit)) {
        const char sign = !v->high ? '>' : !v->low ? '<' : '=';
        out.flash_point = {{v->low ? v->low : v->high, sign, false}, {}, 1};
    }
    if (const auto v = value_of(values->at({"BoilingPointRelated", "BoilingPoint", "UnitValue"})); v && is_celsius(v->unit)) out.boiling_c = {{v->low, v->high}, {}, 1};
    if (const auto v = value_of(values->at({"VapourPressure", "UnitValue"})); v && to_hpa(v->unit) > 0) out.vapour_pressure_hpa = {times(*v, to_hpa(v->unit)), {}, 1};
}

}  // namespace

std::optional<sheet::Facts> sdscom_facts(const XmlElement& root) {
    if (root.name != "DatasheetFeed" || root.space != standard) return std::nullopt;
    const XmlElement* sheet = root.child("Datasheet");
    if (sheet == nullptr) return std::nullopt;
    sheet::Facts out;
    if (const auto* about = sheet->child("IdentificationSubstPrep")) {
        out.product = text_at(about->at({"ProductIdentity", "TradeName"}));
        out.ufi = text_at(about->at({"ProductIdentity", "Ufi"}));
        const auto revised = text_at(about->child("RevisionDate"));
        out.revision_date = revised ? revised : text_at(about->child("IssueDate"));
        // xs:date may carry a time zone behind the day.
        if (out.revision_date && out.revision_date->value.size() > 10) out.revision_date->value.resize(10);
        out.revision = text_at(about->child("VersionNo"));
    }
    if (const auto* composition = sheet->child("Composition"))
        for (const auto& e : composition->children) {
            if (e.name != "Component") continue;
            if (out.ingredients.size() == components_limit) return std::nullopt;
            out.ingredients.push_back(ingredient_of(e));
        }
    if (const auto* properties = sheet->child("PhysicalChemicalProperties")) read_properties(*properties, out);
    return out;
}

}  // namespace hw::sheet_reader
