#include "core/treatment/dry.hpp"

#include <algorithm>

#include "core/treatment/course.hpp"
#include "core/treatment/moisture.hpp"

namespace hw::treatment {

namespace {

/// The most that a place of the leather holds above what the room air keeps there, kg/m3.
double most_above_kg_m3(const Exposure& e, const diffusion::Snapshot& s) {
    double most = 0;
    for (std::size_t i = 0; i < s.liquid_kg_m3.size(); ++i) {
        const auto& layer = e.layers[static_cast<std::size_t>(e.section.layer_of[i])];
        if (!layer.finish) most = std::max(most, s.liquid_kg_m3[i] - layer.water_ambient_kg_m3);
    }
    return most;
}

/// Between two moments, where a falling amount crosses a level.
double crossing_s(double from_s, double from, double to_s, double to, double level) {
    return from > to ? from_s + (to_s - from_s) * (from - level) / (from - to) : to_s;
}

}  // namespace

Result<Dry> dry(const leather::Hide& hide, const Story& story, double above_kg_kg, const Progress& progress) {
    HW_EXPECTS(above_kg_kg > 0);
    const chem::Totals water = chem::tap_water(0);
    const Course course = course_of(water, story);
    Setting set = setting(course, hide, 0);
    double end_s = course.first_wait_s;
    for (const Laying& l : course.layings) end_s += l.lasts_s();
    // Moments that lie a twelfth apart: a time read between two of them is good to a few per cent.
    constexpr double first_s = 60, apart = 1.08;
    for (double at = first_s; at < end_s; at *= apart) set.options.output_s.push_back(at);
    set.options.output_s.push_back(end_s);
    HW_TRY(section, diffusion::run_section(set.components, set.layers, set.stages, set.options, progress));
    const Exposure e = solved(set, hide, std::move(section));

    Dry out{end_s, end_s, false};
    const auto& shots = e.section.snapshots;
    const auto last_above = [&](auto amount, double level) -> double {
        for (std::size_t k = shots.size(); k-- > 0;) {
            const double here = amount(shots[k]);
            if (here <= level) continue;
            if (k + 1 == shots.size()) return -1;
            return crossing_s(shots[k].at_s, here, shots[k + 1].at_s, amount(shots[k + 1]), level);
        }
        return 0;
    };
    const double touch = last_above([](const diffusion::Snapshot& s) { return s.film_kg_m2; }, film_gone_kg_m2);
    const double through = last_above([&](const diffusion::Snapshot& s) { return most_above_kg_m3(e, s); }, above_kg_kg * hide.dry_density_kg_m3);
    if (touch >= 0) out.touch_s = touch;
    if (through >= 0) out.through_s = std::max(through, out.touch_s);
    out.in_time = touch >= 0 && through >= 0;
    return out;
}

}  // namespace hw::treatment
