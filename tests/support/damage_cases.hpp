// Eleven pieces as a restorer meets them: what was seen and read, and what an expert concludes. Written down after the tables.
#pragma once

#include <string>
#include <vector>

namespace hw::test {

struct DamageCase {
    const char *name, *request;                   ///< as `diagnose` takes it
    std::vector<std::string> causes;              ///< the first of them leads; a second one stands beside it
};

inline const std::vector<DamageCase>& damage_cases() {
    static const std::vector<DamageCase> all{
        {"C1 aniline arms after a concentrate", R"({"covering": [{"key": "aniline"}], "tannage": "chrome", "exposure": "hands", "saw": [{"sign": "told_cleaner"}, {"sign": "weak_fibre", "saw": "not_there"}],
            "readings": [{"kind": "surface_ph", "value_1": 7.6, "control_1": 4.6}, {"kind": "colour_l", "value_1": 36.5, "control_1": 46.0}, {"kind": "colour_b", "value_1": 15.0, "control_1": 22.5}, {"kind": "blotter_oil", "value_1": 0}]})", {"alkaline"}},
        {"C2 sticky sofa after a degreaser", R"({"covering": [{"key": "pigmented_furniture"}], "exposure": "seat", "saw": [{"sign": "told_cleaner"}, {"sign": "told_solvent"}, {"sign": "same_on_spot"}, {"sign": "at_skin", "saw": "not_there"}],
            "readings": [{"kind": "surface_ph", "value_1": 8.9, "control_1": 5.1}, {"kind": "tissue_tack", "value_1": 2}, {"kind": "rub_grade", "value_1": 2.5, "control_1": 4.5}, {"kind": "gloss_60", "value_1": 4.1, "control_1": 9.8},
                         {"kind": "colour_l", "value_1": 33.0, "control_1": 35.1}, {"kind": "water_drop", "value_1": 45, "control_1": 300}]})", {"alkaline", "solvent"}},
        {"C3 wing chair, arms and headrest", R"({"covering": [{"key": "pigmented_furniture"}], "tannage": "chrome", "exposure": "hands", "age_years": 30, "saw": [{"sign": "at_skin"}, {"sign": "darker"}, {"sign": "finish_lifts"}, {"sign": "pills"}, {"sign": "drop_fast"}, {"sign": "weak_fibre"}, {"sign": "told_cleaner", "saw": "not_there"}],
            "readings": [{"kind": "surface_ph", "value_1": 3.3, "control_1": 4.7}, {"kind": "blotter_oil", "value_1": 3}]})", {"body_oil"}},
        {"C4 outer bolster of a car seat", R"({"covering": [{"key": "pigmented_automotive"}], "exposure": "seat", "saw": [{"sign": "at_contact"}, {"sign": "finish_gone"}, {"sign": "cracks"}, {"sign": "weak_fibre", "saw": "not_there"}, {"sign": "beads", "saw": "not_there"}],
            "readings": [{"kind": "colour_l", "value_1": 47.9, "control_1": 38.2}]})", {"wear"}},
        {"C5 pen on nubuck", R"({"covering": [{"key": "nubuck"}], "saw": [{"sign": "pen_lines"}, {"sign": "foreign_colour"}, {"sign": "told_solvent"}]})", {"ink"}},
        {"C6 jeans on a cream sofa", R"({"covering": [{"key": "pigmented_furniture"}], "exposure": "seat", "saw": [{"sign": "at_contact"}, {"sign": "swab_colour"}],
            "readings": [{"kind": "surface_ph", "value_1": 5.0, "control_1": 5.0}, {"kind": "colour_l", "value_1": 77.8, "control_1": 84.5}, {"kind": "colour_b", "value_1": 0.8, "control_1": 11.5}]})", {"dye_transfer"}},
        {"C7 water ring on a dining chair", R"({"covering": [{"key": "semi_aniline"}], "exposure": "seat", "saw": [{"sign": "closed_edge"}, {"sign": "told_wet"}, {"sign": "foreign_colour", "saw": "not_there"}],
            "readings": [{"kind": "colour_l", "value_1": 50.2, "control_1": 58.3}]})", {"water_ring"}},
        {"C8 mould after storage", R"({"covering": [{"key": "pigmented_furniture"}], "saw": [{"sign": "fuzzy_spots"}, {"sign": "musty"}, {"sign": "deposit_stays"}, {"sign": "at_unused"}, {"sign": "told_damp"}],
            "readings": [{"kind": "air_humidity", "value_1": 82}], "damp_days": 21})", {"mould"}},
        {"C9 faded back cushion", R"({"covering": [{"key": "semi_aniline"}], "exposure": "sun", "saw": [{"sign": "at_light"}],
            "readings": [{"kind": "surface_ph", "value_1": 4.9}, {"kind": "colour_l", "value_1": 48.6, "control_1": 41.0}], "light_mlx_h_year": 1})", {"light"}},
        {"C10 bonded leather peeling", R"({"covering": [{"key": "bonded"}], "age_years": 5, "saw": [{"sign": "in_sheets"}, {"sign": "at_unused"}, {"sign": "cracks"}, {"sign": "film_on_board"}]})", {"film_hydrolysis"}},
        {"C11 film on split, tacky arms", R"({"covering": [{"key": "coated"}], "exposure": "hands", "age_years": 8, "saw": [{"sign": "tacky"}, {"sign": "cracks"}, {"sign": "finish_lifts"}, {"sign": "at_skin"}],
            "readings": [{"kind": "surface_ph", "value_1": 5.2}, {"kind": "blotter_oil", "value_1": 2}]})", {"body_oil", "film_hydrolysis"}},
    };
    return all;
}

}  // namespace hw::test
