// Which builder makes a family, and which of its measures must stand apart.
#include "core/piece/model.hpp"

namespace hw::piece {

namespace {

/// Least that a border, a place or a gap needs to be drawn and touched, cm.
constexpr double least_border_cm = 3, least_place_cm = 30;

bool is_seating(std::string_view family) { return family == "sofa" || family == "armchair" || family == "wing_chair" || family == "recliner"; }

void relate_seating(const Values& v, std::vector<Relation>& out) {
    out.push_back({"seat_height", v["seat_height"], v["seat_cushion"] + v["foot"], least_border_cm, "Between the feet and the seat cushion there must be 3 cm of front border: give a higher seat, a thinner cushion or lower feet."});
    out.push_back({"arm_height", v["arm_height"], v["seat_height"], least_border_cm, "The arms must stand at least 3 cm above the seat."});
    out.push_back({"height", v["height"], v["arm_height"], least_border_cm, "The back must stand at least 3 cm above the arms."});
    out.push_back({"depth", v["depth"], v["back_frame"] + v["back_cushion"], least_place_cm, "In front of the back there must be 30 cm of seat: give a larger depth or a thinner back."});
}

void relate_width(std::string_view family, const Values& v, std::vector<Relation>& out) {
    const std::string sentence = "There must be 30 cm for each place between the arms: give a larger measure, narrower arms or fewer seats.";
    if (family == "corner_sofa") {
        out.push_back({"width", v["width"] - v["depth"] - v["arm_width"], v.whole("seats") * least_place_cm, 0, sentence});
        out.push_back({"length", v["length"] - v["depth"] - v["arm_width"], v.whole("return_seats") * least_place_cm, 0, sentence});
        return;
    }
    out.push_back({"width", v["width"] - 2 * v["arm_width"], (family == "sofa" ? v.whole("seats") : 1) * least_place_cm, 0, sentence});
}

}  // namespace

std::vector<Relation> relations(std::string_view family, const Values& v) {
    std::vector<Relation> out;
    if (is_seating(family) || family == "corner_sofa") {
        relate_seating(v, out);
        relate_width(family, v, out);
    }
    if (is_seating(family) && family != "wing_chair" && v.whole("arms") == 2)
        out.push_back({"arm_height", v["arm_height"] - v["arm_width"] / 2, v["seat_height"], 0, "A round arm must be round above the seat only: give a higher or narrower arm."});
    if (family == "wing_chair") out.push_back({"wing", v["depth"] - v["back_frame"], v["wing"], least_border_cm, "The wings must end at least 3 cm behind the front of the arms."});
    if (family == "recliner") out.push_back({"head_pad", v["height"] - v["arm_height"], v["head_pad"], 0, "The head pad must end above the arms: give a higher back or a lower pad."});
    if (family == "ottoman") out.push_back({"height", v["height"], v["foot"], least_border_cm, "Above the feet there must be 3 cm of border."});
    if (family == "office_chair") out.push_back({"seat_height", v["seat_height"], v["seat_cushion"], least_place_cm / 2, "Under the seat there must be 15 cm for its base."});
    if (family == "rear_bench") out.push_back({"head_width", (v["width"] - 2 * v["bolster_width"]) / 3, v["head_width"], 0, "A head restraint must not be wider than its place."});
    if (family == "steering_wheel") {
        out.push_back({"cover", v["diameter"] - 2 * v["grip"], v["cover"], 2 * least_border_cm, "Between cover and rim there must be 3 cm of spoke: give a larger wheel or a smaller cover."});
        out.push_back({"spoke_width", v["cover"], v["spoke_width"], 1, "A spoke must be narrower than the cover."});
    }
    if (family == "door_panel") {
        out.push_back({"arm_length", 0.8 * v["length"], v["arm_length"], 0, "The armrest must end within the panel: at most 0.8 of its length."});
        out.push_back({"arm_height", 0.35 * v["height"], v["arm_height"], 0, "The armrest must lie within the insert: at most 0.35 of the height of the panel."});
    }
    return out;
}

Model model_of(std::string_view family, const Values& v, int facets) {
    if (is_seating(family)) return upholstered(family, v, facets);
    if (family == "corner_sofa") return corner_sofa(v);
    if (family == "dining_chair") return dining_chair(v);
    if (family == "office_chair") return office_chair(v, facets);
    if (family == "ottoman") return ottoman(v);
    if (family == "headboard") return headboard(v, facets);
    if (family == "stool") return stool(v, facets);
    if (family == "front_seat") return front_seat(v);
    if (family == "rear_bench") return rear_bench(v);
    if (family == "steering_wheel") return steering_wheel(v, facets);
    if (family == "door_panel") return door_panel(v);
    throw Bug("a family that nobody builds: " + std::string(family));
}

}  // namespace hw::piece
