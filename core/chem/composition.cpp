#include "core/chem/composition.hpp"

#include <cctype>
#include <cmath>

#include "atlas/substances.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {

namespace {

std::string lower(std::string_view text) {
    std::string out;
    for (char c : text) out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    while (!out.empty() && out.back() == ' ') out.pop_back();
    while (!out.empty() && out.front() == ' ') out.erase(out.begin());
    return out;
}

bool names_it(const atlas::SubstancesRow& row, const std::string& name) {
    if (row.name == name) return true;
    std::string_view rest = row.aliases;
    while (!rest.empty()) {
        const auto cut = rest.find(';');
        if (rest.substr(0, cut) == name) return true;
        rest = cut == std::string_view::npos ? std::string_view{} : rest.substr(cut + 1);
    }
    return false;
}

/// The same substance, or one that differs by water alone (a hydrate; ammonia and its hydroxide).
bool same_in_water(const atlas::SubstancesRow& a, const atlas::SubstancesRow& b) {
    const double waters = std::abs(a.molar_mass_g_mol - b.molar_mass_g_mol) / 18.015;
    return a.system == b.system && a.system_mol_1 == b.system_mol_1 && a.second_system == b.second_system && a.second_mol_1 == b.second_mol_1 &&
           a.sodium_1 == b.sodium_1 && a.potassium_1 == b.potassium_1 && a.calcium_1 == b.calcium_1 && a.magnesium_1 == b.magnesium_1 &&
           a.chloride_1 == b.chloride_1 && a.strong_anion_1 == b.strong_anion_1 && a.strong_cation_1 == b.strong_cation_1 && a.kind == b.kind &&
           (a.name == b.name || (!a.system.empty() && a.standing != "estimate" && b.standing != "estimate" && std::abs(waters - std::round(waters)) < 0.01));
}

constexpr double mostly_pct = 50, least_water_kg_kg = 0.005;

std::string at(std::size_t i, const char* field) { return "ingredients[" + std::to_string(i) + "]." + field; }

void add(Totals& t, std::size_t row_index, double mol, double pct) {
    const auto& row = atlas::substances[row_index];
    if (!row.system.empty()) t.system_mol_kg[system_index(row.system)] += mol * row.system_mol_1;
    if (!row.second_system.empty()) t.system_mol_kg[system_index(row.second_system)] += mol * row.second_mol_1;
    t.sodium_mol_kg += mol * row.sodium_1;
    t.potassium_mol_kg += mol * row.potassium_1;
    t.calcium_mol_kg += mol * row.calcium_1;
    t.magnesium_mol_kg += mol * row.magnesium_1;
    t.chloride_mol_kg += mol * row.chloride_1;
    t.other_anion_mol_kg += mol * row.strong_anion_1;
    t.other_cation_mol_kg += mol * row.strong_cation_1;
    if (row.kind == "alcohol" || row.kind == "solvent") t.organic_pct += pct;
    t.recognised.push_back({row_index, mol, pct});
}

}  // namespace

Result<std::string> parse_cas(std::string_view text) {
    const std::string cas = lower(text);
    const Error shape{ErrorCode::InvalidInput, "A CAS number looks like 497-19-8: up to seven digits, two digits, one check digit.", "cas"};
    const auto last = cas.rfind('-');
    const auto first = cas.find('-');
    if (first == std::string::npos || first == last || cas.size() - last != 2 || last - first != 3 || first < 2 || first > 7) return shape;
    int sum = 0, weight = 1;
    for (std::size_t i = last; i-- > 0;) {
        if (cas[i] == '-') continue;
        if (!std::isdigit(static_cast<unsigned char>(cas[i]))) return shape;
        sum += weight++ * (cas[i] - '0');
    }
    if (!std::isdigit(static_cast<unsigned char>(cas.back()))) return shape;
    if (sum % 10 != cas.back() - '0')
        return Error{ErrorCode::InvalidInput, "The check digit of " + cas + " should be " + std::to_string(sum % 10) + ". Read the number on the data sheet again, or leave it empty.", "cas"};
    return cas;
}

std::optional<std::size_t> find_substance(std::string_view name, std::string_view cas) {
    const std::string wanted_cas = lower(cas), wanted = lower(name);
    for (std::size_t i = 0; i < atlas::substances.size(); ++i)
        if (!wanted_cas.empty() && atlas::substances[i].cas == wanted_cas) return i;
    if (!wanted_cas.empty()) return std::nullopt;
    for (std::size_t i = 0; i < atlas::substances.size(); ++i)
        if (!wanted.empty() && names_it(atlas::substances[i], wanted)) return i;
    return std::nullopt;
}

Result<Totals> totals(const std::vector<Portion>& composition) {
    Totals t;
    t.system_mol_kg.assign(acid_systems().size(), 0.0);
    double pct = 0, solute_g_per_kg_water = 0;
    std::vector<std::optional<std::size_t>> rows;
    for (std::size_t i = 0; i < composition.size(); ++i) {
        const Portion& p = composition[i];
        if (!p.cas.empty()) {
            const auto cas = parse_cas(p.cas);
            if (!cas.ok()) return Error{ErrorCode::InvalidInput, cas.error().message, at(i, "cas")};
        }
        if (p.name.empty() && p.cas.empty()) return Error{ErrorCode::InvalidInput, "Give a name or a CAS number.", at(i, "name")};
        if (p.content_pct.has_value() == p.molality_mol_kg.has_value())
            return Error{ErrorCode::InvalidInput, "Give either the weight per cent or the molality of " + p.name + ".", at(i, "content_pct")};
        const double amount = p.content_pct ? *p.content_pct : *p.molality_mol_kg;
        if (!(amount >= 0) || !std::isfinite(amount))
            return Error{ErrorCode::InvalidInput, "An amount cannot be negative.", at(i, p.content_pct ? "content_pct" : "molality_mol_kg")};
        const auto row = find_substance(p.name, p.cas);
        if (!p.cas.empty() && !p.name.empty()) {
            const auto by_name = find_substance(p.name, "");
            if (row && by_name && !names_it(atlas::substances[*row], lower(p.name)) && !same_in_water(atlas::substances[*row], atlas::substances[*by_name]))
                return Error{ErrorCode::InvalidInput, "CAS " + p.cas + " is " + std::string(atlas::substances[*row].name) + ", not " + p.name + ". Correct one of them.", at(i, "cas")};
        }
        rows.push_back(row);
        if (p.content_pct) {
            if (!row || atlas::substances[*row].kind != "water") pct += amount;
        } else {
            if (!row) return Error{ErrorCode::InvalidInput, "A molality needs a substance known to us; give weight per cent for " + p.name + ".", at(i, "molality_mol_kg")};
            solute_g_per_kg_water += amount * atlas::substances[*row].molar_mass_g_mol;
        }
    }
    if (pct > 100 + 1e-9) return Error{ErrorCode::InvalidInput, "The ingredients add up to " + std::to_string(static_cast<int>(std::lround(pct))) + " %, more than 100 %. Correct the amounts; the rest is taken as water.", "ingredients"};
    t.water_kg_kg = std::max(0.0, 1 - pct / 100) / (1 + solute_g_per_kg_water / 1000);
    // What is sold without water (alcohol, spirits, an oil) holds a trace of it, in which nothing is dissolved to speak of: no pH
    // will be stated, the rest can be told. Salts and solids without water are another matter.
    double fluid = 0;
    for (std::size_t i = 0; i < composition.size(); ++i)
        if (!rows[i] || atlas::substances[*rows[i]].kind == "alcohol" || atlas::substances[*rows[i]].kind == "solvent") fluid += composition[i].content_pct.value_or(0);
    if (fluid > mostly_pct) t.water_kg_kg = std::max(t.water_kg_kg, least_water_kg_kg);
    if (t.water_kg_kg < least_water_kg_kg) return Error{ErrorCode::OutOfRange, "There is no water in it, so there is no pH to compute. Dissolve or dilute it first, as it is used.", "ingredients"};
    for (std::size_t i = 0; i < composition.size(); ++i) {
        const Portion& p = composition[i];
        if (!rows[i]) {
            t.unknown_pct += *p.content_pct;
            t.unknown.push_back(p.name.empty() ? p.cas : p.name);
            continue;
        }
        const auto& row = atlas::substances[*rows[i]];
        if (row.kind == "water") continue;
        const double mol = p.molality_mol_kg ? *p.molality_mol_kg : *p.content_pct * 10 / row.molar_mass_g_mol / t.water_kg_kg;
        add(t, *rows[i], mol, p.content_pct ? *p.content_pct : mol * row.molar_mass_g_mol / 10 * t.water_kg_kg);
    }
    return t;
}

Totals present(const std::vector<Portion>& composition) {
    Totals t;
    for (const Portion& p : composition) {
        if (p.content_pct.value_or(p.molality_mol_kg.value_or(1)) == 0) continue;
        // By number and by name: where they disagree both may be there.
        const std::size_t none = atlas::substances.size(), by_cas = find_substance("", p.cas).value_or(none), by_name = find_substance(p.name, "").value_or(none);
        if (by_cas != none) t.recognised.push_back({by_cas, 1, 0});
        if (by_name != none && by_name != by_cas) t.recognised.push_back({by_name, 1, 0});
        if (by_cas == none && by_name == none) t.unknown.push_back(p.name);
    }
    return t;
}

Totals tap_water(double hardness_mg_l) {
    Totals t;
    t.system_mol_kg.assign(acid_systems().size(), 0.0);
    // 100.09 g/mol calcium carbonate; each brings one calcium and two bicarbonate.
    t.calcium_mol_kg = hardness_mg_l / 1000 / 100.09;
    t.system_mol_kg[system_index("carbonate")] = 2 * t.calcium_mol_kg;
    return t;
}

Totals diluted(const Totals& liquid, double parts_water, double hardness_mg_l) {
    const Totals tap = tap_water(hardness_mg_l);
    const double water = liquid.water_kg_kg + parts_water;
    const double a = liquid.water_kg_kg / water, b = parts_water / water, whole = 1 / (1 + parts_water);
    Totals t = liquid;
    for (std::size_t i = 0; i < t.system_mol_kg.size(); ++i) t.system_mol_kg[i] = a * liquid.system_mol_kg[i] + b * tap.system_mol_kg[i];
    t.sodium_mol_kg *= a;
    t.potassium_mol_kg *= a;
    t.calcium_mol_kg = a * liquid.calcium_mol_kg + b * tap.calcium_mol_kg;
    t.magnesium_mol_kg *= a;
    t.chloride_mol_kg *= a;
    t.other_anion_mol_kg *= a;
    t.other_cation_mol_kg *= a;
    t.unknown_pct *= whole;
    t.organic_pct *= whole;
    t.water_kg_kg = water * whole;
    for (auto& r : t.recognised) {
        r.mol_kg *= a;
        r.content_pct *= whole;
    }
    return t;
}

}  // namespace hw::chem
