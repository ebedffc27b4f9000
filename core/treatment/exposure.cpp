#include "core/treatment/exposure.hpp"

#include <algorithm>

#include "core/chem/systems.hpp"
#include "core/treatment/course.hpp"

namespace hw::treatment {

Setting setting(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double ionic_strength_mol_kg, double least_share_1) {
    return setting(course_of(liquid, story), hide, ionic_strength_mol_kg, least_share_1);
}

Exposure solved(const Setting& setting, const leather::Hide& hide, diffusion::SectionResult section) {
    Exposure out;
    out.section = std::move(section);
    out.layers = setting.layers;
    out.left_out = setting.left_out;
    out.ph_minus_x = setting.ph_minus_x;
    out.ionic_strength_mol_kg = setting.ionic_strength_mol_kg;
    out.evaporation_kg_m2_s = setting.options.evaporation_kg_m2_s;
    out.finish_um = hide.finish_um;
    for (const auto& layer : out.layers) out.dry_kg_m2 += layer.dry_density_kg_m3 * layer.thickness_m;
    for (const auto& s : out.section.snapshots) {
        std::vector<double> row;
        for (double x : s.x) row.push_back(x + out.ph_minus_x);
        out.ph.push_back(row);
        out.film_ph.push_back(s.film_x + out.ph_minus_x);
        out.surface_ph.push_back(s.reading_x + out.ph_minus_x);
    }
    const auto& ledger = out.section.ledger;
    const double gained = ledger.in_leather_strong_mol_m2 + ledger.in_film_strong_mol_m2;
    out.taken_up_mol_kg = gained / out.dry_kg_m2;
    // Counted like the dose: what is left, at the hide's own pH.
    out.left_mol_m2 = gained;
    out.carried_mol_kg.assign(chem::acid_systems().size(), 0.0);
    for (std::size_t k = 0; k < setting.systems.size(); ++k) {
        const double mol = ledger.gained_mol_m2[k];
        out.left_mol_m2 += mol * diffusion::mean_charge(setting.components[k], hide.ph - out.ph_minus_x);
        out.carried_mol_kg[setting.systems[k]] = std::max(0.0, mol / out.dry_kg_m2);
    }
    return out;
}

Result<double> alkali_to_hide_mol_kg(const chem::Totals& liquid, const leather::Hide& hide, Temperature air) {
    chem::Conditions in_room;
    in_room.water = air;
    in_room.open_to_air = true;
    return chem::acid_to_ph(liquid, hide.ph, in_room);
}

Result<Exposure> exposure(const chem::Totals& liquid, const leather::Hide& hide, const Story& story, double tolerance_1, double mesh_1, const Progress& progress) {
    HW_TRY(out, exposure(course_of(liquid, story), hide, tolerance_1, mesh_1, progress));
    // The dose of the story is that of its liquid: rinse water is there to take away.
    HW_TRY(to_hide, alkali_to_hide_mol_kg(liquid, hide, story.air));
    out.applied_mol_m2 = to_hide * story.dose_kg_m2 * liquid.water_kg_kg * story.repeats;
    return out;
}

}  // namespace hw::treatment
