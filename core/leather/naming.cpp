#include "core/leather/naming.hpp"

#include <string_view>

#include "atlas/naming_limits.hpp"
#include "base/result.hpp"

namespace hw::leather {

namespace {

double limit(std::string_view key) {
    for (const auto& row : atlas::naming_limits)
        if (row.key == key) return row.value_1;
    throw Bug("no limit " + std::string(key));
}

}  // namespace

bool thin_enough_for_aniline(double film_mm) { return film_mm <= limit("aniline_film_mm"); }

Naming named(Grain grain, std::optional<double> film_mm, std::optional<double> thickness_mm, std::optional<double> fibre_share_1) {
    if (grain == Grain::None) return {"not leather", false, "There is no hide in it.", "leather_film_mm"};
    if (grain == Grain::Fibre) {
        if (fibre_share_1 && *fibre_share_1 >= limit("board_fibre_share")) return {"leather fibre board; not leather", false, "Fibres that were broken up and re-formed are not leather; half or more of it is leather fibre.", "board_fibre_share"};
        return {"not leather", false, "Fibres that were broken up and re-formed are not leather.", "board_fibre_share"};
    }
    const std::string what = grain == Grain::Gone ? "split leather" : "leather";
    const std::string gone = grain == Grain::Gone ? " The grain is gone, so the word split must stand with it." : "";
    if (!film_mm) {
        if (grain == Grain::Gone) return {"", false, "Measure the film: over 0.15 mm the word coated must stand with it, over a third of the thickness it is not leather.", "leather_film_mm"};
        return {what, true, "The film is taken to be within 0.15 mm; it was not measured.", "leather_film_mm"};
    }
    if (*film_mm <= limit("leather_film_mm")) return {what, true, "The film is within 0.15 mm." + gone, "leather_film_mm"};
    if (!thickness_mm) return {"", false, "The film is over 0.15 mm. Measure the whole thickness: up to a third of it is film and it is coated leather, beyond that it is not leather.", "coated_share"};
    constexpr double round_off = 1e-9;  // 0.4 of 1.2 mm is a third
    if (*film_mm <= limit("coated_share") * *thickness_mm * (1 + round_off)) return {"coated " + what, true, "The film is over 0.15 mm, and no more than a third of the thickness." + gone, "coated_share"};
    return {"not leather", false, "The film is over 0.15 mm and over a third of the thickness.", "coated_share"};
}

}  // namespace hw::leather
