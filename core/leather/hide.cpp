#include "core/leather/hide.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "atlas/judging_thresholds.hpp"
#include "atlas/collagen_groups.hpp"
#include "atlas/leather_classes.hpp"
#include "atlas/tannages.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/chem/systems.hpp"

namespace hw::leather {

namespace {

const atlas::TannagesRow* tannage_row(std::string_view key) {
    for (const auto& row : atlas::tannages)
        if (row.key == key) return &row;
    return nullptr;
}

double group_amount(const atlas::CollagenGroupsRow& group, double amide_lost, double lysine_left) {
    if (group.acid == "amide") return group.amount_mmol_g * amide_lost;
    if (group.acid == "lysine") return group.amount_mmol_g * lysine_left;
    return group.amount_mmol_g;
}

template <class Table>
std::string keys_of(const Table& table) {
    std::string out;
    for (const auto& row : table) out += (out.empty() ? "" : ", ") + std::string(row.key);
    return out;
}

constexpr double moisture_at_50_kg_kg = 0.117;

}  // namespace

double collagen_charge_mmol_g(double ph, double amide_lost_1, double lysine_left_1) {
    double charge = 0;
    for (const auto& group : atlas::collagen_groups) {
        const double n = group_amount(group, amide_lost_1, lysine_left_1);
        const double lost = 1 / (1 + std::pow(10.0, group.pka_1 - ph));
        const bool carboxyl = group.acid == "yes" || group.acid == "amide";
        charge += carboxyl ? -n * lost : n * (1 - lost);
    }
    return charge;
}

namespace {
std::vector<diffusion::Site> collagen_sites(const atlas::TannagesRow& tannage, double buffering) {
    std::vector<diffusion::Site> sites;
    for (const auto& group : atlas::collagen_groups)
        sites.push_back({group_amount(group, tannage.amide_lost_1, tannage.lysine_left_1) * tannage.collagen_share_1 * buffering, group.pka_1});
    return sites;
}
}  // namespace

std::vector<diffusion::Site> binding_sites(std::string_view tannage_key, double buffering_1) {
    const auto* row = tannage_row(tannage_key);
    HW_EXPECTS(row != nullptr);
    std::vector<diffusion::Site> sites = collagen_sites(*row, buffering_1);
    // Extra buffering of finished leather: sites one pH unit apart give a flat capacity.
    for (int i = 0; i < 3; ++i)
        sites.push_back({row->extra_mol_kg_ph * buffering_1, row->extra_from_ph + 0.5 + i});
    return sites;
}

double ambient_water_kg_kg(double humidity_1) {
    const double m0 = 0.075, c = 12, k = 0.85, a = std::clamp(humidity_1, 0.0, 0.95);
    return m0 * c * k * a / ((1 - k * a) * (1 - k * a + c * k * a));
}

Result<Hide> hide(std::string_view class_key, std::string_view tannage_key, const Readings& r) {
    const auto* tannage = tannage_row(tannage_key);
    if (tannage == nullptr) return Error{ErrorCode::NotFound, "There is no tannage \"" + std::string(tannage_key) + "\". Use one of: " + keys_of(atlas::tannages) + ".", "leather.tannage"};
    const atlas::LeatherClassesRow* kind = nullptr;
    for (const auto& row : atlas::leather_classes)
        if (row.key == class_key) kind = &row;
    if (kind == nullptr) return Error{ErrorCode::NotFound, "There is no leather class \"" + std::string(class_key) + "\". Use one of: " + keys_of(atlas::leather_classes) + ".", "leather.leather_class"};
    Hide h;
    h.class_key = kind->key;
    h.class_name = kind->plain_name;
    h.tannage_key = tannage->key;
    h.tannage_name = tannage->plain_name;
    h.finish_um = r.finish_um.value_or(kind->finish_um);
    h.finish_read = r.finish_um.has_value();
    h.thickness_mm = r.thickness_mm.value_or(kind->thickness_mm);
    h.thickness_read = r.thickness_mm.has_value();
    h.grain_um = std::min(kind->grain_um, h.thickness_mm * 1000 / 3);
    h.dry_density_kg_m3 = kind->density_g_cm3 * 1000 / (1 + moisture_at_50_kg_kg);
    h.finish_water_kg_m_s = kind->finish_water_kg_m_s;
    h.finish_solute_1 = kind->finish_solute_1;
    h.grain_water_kg_m_s = kind->grain_water_kg_m_s;
    h.grain_water_exponent_1 = kind->grain_water_exponent_1;
    // An extract is the reference; a surface reading can be shifted by a finish, so it comes second.
    h.ph = r.extract_ph.value_or(r.surface_ph.value_or(tannage->ph_mean_ph));
    h.ph_read = r.extract_ph || r.surface_ph;
    h.ph_spread = r.extract_ph ? 0.1 : r.surface_ph ? (h.finish_um > 10 ? 0.5 : 0.2) : tannage->ph_spread_ph;
    h.soluble_acid_mol_kg = tannage->soluble_acid_mol_kg;
    h.soluble_salt_mol_kg = tannage->soluble_salt_mol_kg;
    h.shrinkage_c = r.shrinkage_c.value_or(tannage->shrinkage_c);
    h.sites = binding_sites(tannage->key);
    if (!(kind->finish_um > 0) && h.finish_um > 0)
        return Error{ErrorCode::InvalidInput, "Leather of this class (" + std::string(kind->plain_name) + ") carries no finish. Leave the finish out, or choose the class by what lies on it.", "leather.finish_um"};
    if (h.finish_um / 1000 > h.thickness_mm / 3)
        return Error{ErrorCode::InvalidInput, "A film thicker than a third of the whole is no longer leather (EN 15987). Check finish and thickness.", "leather.finish_um"};
    return h;
}

double alkali_between(const Hide& h, double from_ph, double to_ph) {
    return diffusion::bound_alkali(h.sites, to_ph) - diffusion::bound_alkali(h.sites, from_ph);
}

bool beyond_buffer(const Hide& h, double ph) {
    const auto* row = tannage_row(h.tannage_key);
    HW_EXPECTS(row != nullptr);
    const auto own = collagen_sites(*row, 1);
    constexpr double half = 0.1;
    return (diffusion::bound_alkali(own, ph + half) - diffusion::bound_alkali(own, ph - half)) / (2 * half) < thin_buffer_mol_kg_ph;
}

En13336 en13336() {
    En13336 out;
    for (const auto& row : atlas::judging_thresholds) {
        if (row.key == "en13336_least") out.least_ph = row.limit_ph;
        if (row.key == "en13336_free") out.difference_below_ph = row.limit_ph;
        if (row.key == "en13336_difference") out.most_difference = row.limit_ph;
    }
    return out;
}

bool meets_en13336(double ph, double difference) {
    const En13336 e = en13336();
    return ph >= e.least_ph && (ph >= e.difference_below_ph || difference <= e.most_difference);
}

Result<Extract> extract(const Hide& h, double alkali_mol_kg, const std::vector<double>& carried) {
    constexpr double water_kg_per_kg = 20;
    chem::Totals liquor = chem::tap_water(0);
    liquor.system_mol_kg[chem::system_index("formate")] = h.soluble_acid_mol_kg / water_kg_per_kg;
    liquor.sodium_mol_kg = liquor.chloride_mol_kg = h.soluble_salt_mol_kg / water_kg_per_kg;
    for (std::size_t s = 0; s < carried.size(); ++s) liquor.system_mol_kg[s] += carried[s] / water_kg_per_kg;
    // Alkali of leather and liquor together rises with pH: bisect on the pH of the liquor.
    auto held = [&](double ph) -> Result<double> {
        HW_TRY(acid, chem::acid_to_ph(liquor, ph));
        return diffusion::bound_alkali(h.sites, ph) - acid * water_kg_per_kg;
    };
    HW_TRY(start, held(h.ph));
    double low = 0.5, high = 13.5;
    for (int i = 0; i < 40; ++i) {
        const double mid = (low + high) / 2;
        HW_TRY(now, held(mid));
        (now < start + alkali_mol_kg ? low : high) = mid;
    }
    Extract out;
    out.ph = (low + high) / 2;
    HW_TRY(acid, chem::acid_to_ph(liquor, out.ph));
    (acid > 0 ? liquor.chloride_mol_kg : liquor.sodium_mol_kg) += std::abs(acid);
    HW_TRY(thin, chem::equilibrium(chem::diluted(liquor, 9, 0)));
    out.difference = std::abs(thin.ph - out.ph);
    out.difference_applies = out.ph < 4.0 || out.ph > 10.0;
    out.within_en13336 = meets_en13336(out.ph, out.difference);
    return out;
}

}  // namespace hw::leather
