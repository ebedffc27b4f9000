// What a hide is: its class and tannage, its binding sites, its water, its extract.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "core/chem/composition.hpp"
#include "core/diffusion/section.hpp"

namespace hw::leather {

/// What was read on the piece; everything else comes from the class and the tannage.
struct Readings {
    std::optional<double> thickness_mm, finish_um, surface_ph, extract_ph, shrinkage_c;
};

/// A hide with every number filled in.
struct Hide {
    std::string_view class_key, class_name, tannage_key, tannage_name;
    double finish_um = 0, grain_um = 300, thickness_mm = 1.2;
    double dry_density_kg_m3 = 609;
    double finish_water_kg_m_s = 1e-9, finish_solute_1 = 1e-3;
    double grain_water_kg_m_s = 1e-5, grain_water_exponent_1 = 8;
    double ph = 3.9, ph_spread = 0.45;           ///< pore pH at the start, and its half width
    bool ph_read = false, thickness_read = false, finish_read = false;
    double soluble_acid_mol_kg = 0.03, soluble_salt_mol_kg = 0.1;
    double shrinkage_c = 75;
    std::vector<diffusion::Site> sites;          ///< per kg of dry leather, pKa on the pH scale
};

/// @error NotFound  class or tannage not in the atlas; `where` names the field
Result<Hide> hide(std::string_view class_key, std::string_view tannage_key, const Readings& readings);

/// Binding sites of dry leather from the collagen groups, the tannage and the extra buffering of finished leather.
/// @param buffering_1  scales all of it (1 = central)
/// @source uniprot, group counts; bowes1948, titration of collagen
/// @see docs/theory/leather-buffering.md
std::vector<diffusion::Site> binding_sites(std::string_view tannage_key, double buffering_1 = 1);

/// Net charge of one gram of collagen at a pH, meq/g, with a share of the amides lost to liming (0 to 1).
double collagen_charge_mmol_g(double ph, double amide_lost_1, double lysine_left_1);

/// Water of leather in balance with air, kg per kg dry (Guggenheim-Anderson-de Boer). @param humidity_1 0 to 0.95
double ambient_water_kg_kg(double humidity_1);

/// Alkali (mol per kg dry leather) from one pH to another; negative downward.
double alkali_between(const Hide& hide, double from_ph, double to_ph);

/// Where collagen's own groups hold less than this, mol per kg leather and pH, a pH says little: amounts are quoted instead.
inline constexpr double thin_buffer_mol_kg_ph = 0.03;

/// Whether the carboxyls are used up, or all protonated, at a pH. The extra buffering of finished leather, an estimate, does not count.
bool beyond_buffer(const Hide& hide, double ph);

/// Aqueous extract 1:20 of the whole leather and its difference figure.
struct Extract {
    double ph = 0;
    double difference = 0;                       ///< pH(diluted tenfold) - pH
    bool difference_applies = false;             ///< only below 4.00 or above 10.00
    bool within_en13336 = false;                 ///< pH at least 3.5; below 4.0 difference at most 0.7
};

/// @param alkali_mol_kg  taken up by the leather since the start, mol per kg dry; negative: acid
/// @param carried        what else the liquid left behind, mol per kg dry leather and acid-base system
/// @source iso4045, procedure; eu2016_1332, Appendix II limits
Result<Extract> extract(const Hide& hide, double alkali_mol_kg, const std::vector<double>& carried = {});

/// What EN 13336 asks of the extract of upholstery leather, from atlas/judging_thresholds.csv.
struct En13336 {
    double least_ph = 0;
    double difference_below_ph = 0;  ///< the difference figure counts below this pH
    double most_difference = 0;
};
En13336 en13336();

/// Whether an extract meets EN 13336: pH at least 3.5, and below 4.0 a difference figure of at most 0.7.
bool meets_en13336(double ph, double difference);

}  // namespace hw::leather
