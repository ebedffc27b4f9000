#include <algorithm>
#include <cmath>

#include "core/belief/summary.hpp"
#include "desk/ensemble.hpp"
#include "desk/looks.hpp"
#include "desk/plan.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

BenchStep step(std::string title, std::string how) {
    BenchStep s;
    s.title = std::move(title);
    s.how = std::move(how);
    return s;
}

BenchStep with_clock(BenchStep s, double seconds, std::string name) {
    s.clock_s = seconds;
    s.clock_name = std::move(name);
    return s;
}

/// Grams of one pass on the real area; a kitchen scale reads half a gram.
Number grams(const Scene& scene, double g_m2) { return number(g_m2 * scene.area_m2, std::max(0.5, 0.1 * g_m2 * scene.area_m2), "g", Standing::Derived, "weighed out, and the area"); }

BenchStep air_step(const Scene& scene) {
    BenchStep s = with_clock(step("Let it air", "Windows open, nobody sits on it, nothing lies on it: cloth and plastic print into a soft finish or stick to it."), std::max(0.0, plan_rule("vent").limit_h - scene.request.known.now_h) * 3600, "air for");
    s.caution = "No heat, no hair dryer, no sun. No flame or spark near while it smells of solvent.";
    return s;
}

BenchStep tissue_step() {
    BenchStep s = step("Tissue test", "Press a paper tissue on a hidden edge of the place for 10 s. It must come away without fibres. If fibres stay: air another day, and do not strip anything yet.");
    s.reading = true;
    return s;
}

BenchStep spot_step(const Design& d) {
    BenchStep s = with_clock(step("Hidden spot first", "One pass of the same liquid, as much for its size, on a hidden spot. Blot. Read it dry next day: ring, colour on the cloth, stiffness."), 24 * 3600, "leave it");
    s.caution = "A spot that shows a ring, loses colour or dries stiff: stop and plan again.";
    s.amount = number(d.g_m2 * 25e-4, 0.05, "g", Standing::Derived, "a spot of 5 by 5 cm");
    return s;
}

BenchStep dry_step(double seconds) {
    BenchStep s = with_clock(step("Let it dry", "Room air that moves, 20 to 25 °C, cushions on edge. Turn or flex it gently once it is no longer damp."), seconds, "dry for");
    s.caution = "No hair dryer, heater or sun: wet leather that was hurt shrinks.";
    return s;
}

BenchStep reading_step(const char* where) {
    BenchStep s = step("Read the surface pH", std::string("A drop of clean water, flat electrode, three places") + where + ". Enter the readings and plan again before anything else is laid on.");
    s.reading = true;
    return s;
}

void passes(std::vector<BenchStep>& out, const Scene& scene, const Design& d) {
    const double between_s = 60 * plan_rule("between_passes").limit_min, rest_s = 3600 * plan_rule("rest").limit_h;
    for (int i = 0; i < d.passes(); ++i) {
        const int day = i / d.a_day, of_day = i % d.a_day;
        const std::string number_of = d.passes() > 1 ? "Pass " + std::to_string(i + 1) + " of " + std::to_string(d.passes()) + ": " : "";
        BenchStep lay = with_clock(step((number_of.empty() ? "Mist " : number_of + "mist ") + fixed(d.g_m2 * scene.area_m2, 1) + " g of " + d.rinse->liquid.name, "Evenly over the whole part, seam to seam, not on the stain alone. Weigh the bottle before and after."), d.dwell_s, "leave it");
        lay.amount = grams(scene, d.g_m2);
        lay.pass = i + 1;
        lay.caution = "Keep it out of seams, stitch holes and edges.";
        out.push_back(std::move(lay));
        BenchStep blot = step(number_of.empty() ? "Blot" : number_of + "blot", "White cloth, press for " + span(press_s()) + " to a place, do not rub. A fresh side of the cloth each time. Colour on the cloth: stop, keep the cloth, plan again.");
        blot.pass = i + 1;
        if (of_day + 1 < d.a_day) blot = with_clock(std::move(blot), between_s, "then wait");
        out.push_back(std::move(blot));
        if (of_day + 1 == d.a_day && day + 1 < d.days) {
            out.push_back(dry_step(rest_s));
            out.push_back(reading_step(" and a sheltered one"));
        }
    }
}

void add(Fan& f, double at, const std::vector<double>& values) {
    const auto five = belief::five(values);
    f.at.push_back(at);
    f.median.push_back(five.median);
    f.low_50.push_back(five.low_50);
    f.high_50.push_back(five.high_50);
    f.low_90.push_back(five.low_90);
    f.high_90.push_back(five.high_90);
}

Fan named(const char* key, const char* title, const char* along) {
    Fan f;
    f.key = key;
    f.title = title;
    f.along = along;
    f.unit = "pH";
    return f;
}

}  // namespace

double reading_half_ph() {
    const auto* row = look_kind("surface_ph");
    HW_EXPECTS(row != nullptr && row->half_1 > 0);
    return row->half_1;
}

std::string way_name(Way way) {
    switch (way) {
        case Way::LeaveAlone: return "leave it alone";
        case Way::WaitAndRead: return "wait and read again";
        case Way::BlotAndDry: return "blot and dry";
        case Way::RinseBlot: return "rinse and blot";
        case Way::BufferedAcid: return "weak acid buffer";
        case Way::RaiseGently: return "raise gently";
        case Way::VentSolvent: return "let it air first";
        case Way::StopAndRefer: return "stop and refer";
    }
    throw Bug("a way without a name");
}

std::vector<BenchStep> card_of(const Scene& scene, const Looked& way) {
    std::vector<BenchStep> out;
    const double rest_s = plan_rule("rest").limit_h * 3600;
    switch (way.told.way) {
        case Way::LeaveAlone:
            out.push_back(step("Lay nothing on it", "No water, no conditioner, no cleaner. Keep it out of sun and away from heat."));
            out.push_back(reading_step(" and a sheltered one, when the piece goes out or comes back"));
            break;
        case Way::WaitAndRead: {
            BenchStep wait = with_clock(step("Wait", "Dry, shaded, nothing on it. Many dark places lighten as they dry."), plan_rule("wait").limit_h * 3600, "wait");
            wait.caution = "No heat, no hair dryer, no sun, no conditioner.";
            out.push_back(wait);
            out.push_back(reading_step(" and a sheltered one"));
            break;
        }
        case Way::BlotAndDry:
            out.push_back(step("Blot it off", "White cloth, press, do not rub, from the edge inwards, until the cloth comes away dry. Keep the cloths in a bag."));
            out.push_back(dry_step(rest_s));
            out.push_back(reading_step(" and a sheltered one"));
            break;
        case Way::VentSolvent:
        case Way::RinseBlot:
        case Way::BufferedAcid:
        case Way::RaiseGently:
            if (way.told.way == Way::VentSolvent) {
                out.push_back(air_step(scene));
                out.push_back(tissue_step());
            }
            if (way.design) {
                out.push_back(step("Set out", "Gloves, white cloths, scale, clock. A clean spray bottle of " + way.design->rinse->liquid.name + "; nothing else on the bench that could get onto the piece."));
                if (!scene.request.spot_passed || scene.request.spot_g_m2 < way.design->g_m2) out.push_back(spot_step(*way.design));
                passes(out, scene, *way.design);
                out.push_back(dry_step(rest_s));
            }
            out.push_back(reading_step(" and a sheltered one"));
            break;
        case Way::StopAndRefer:
            out.push_back(step("Stop here", "Lay nothing on it, do not rub or flex it, keep it dry and shaded. Photograph it as it is."));
            out.push_back(step("Refer it", scene.request.fibre_weak_pct > plan_rule("weak_deep").limit_pct ? "The fibre is weak through most of it: a new panel, or a leather conservator, before any chemistry." : "To a leather conservator, with the record, the readings and the photographs."));
            break;
    }
    return out;
}

namespace {
Expected expected_at(const Scene& scene, const Looked& way, double after_s, const std::vector<double>& surface_ph) {
    Band band = band_of(surface_ph, "pH");
    // The reading has its own error on top of what the members differ.
    const double half = reading_half_ph(), half_50 = half * 0.41;  // of a bell, half lies within 0.41 of what holds nine tenths
    const auto wider = [&](double edge, double h) { return band.median + std::copysign(std::hypot(edge - band.median, h), edge - band.median); };
    band = {band.median, std::min(wider(band.low_50, half_50), band.median - half_50), std::max(wider(band.high_50, half_50), band.median + half_50), std::min(wider(band.low_90, half), band.median - half), std::max(wider(band.high_90, half), band.median + half), "pH"};
    Expected e;
    e.kind = "surface_ph";
    e.name = "Surface pH, " + span(after_s) + " from now, with a drop of clean water";
    e.at_h = scene.request.known.now_h + after_s / 3600;
    e.reading = band;
    const bool acts = way.design.has_value(), nothing = scene.request.known.nothing_laid;
    e.if_higher = acts ? "More was there than thought, or the finish shifts the reading. Enter it and plan again; do not add a pass today." : (nothing ? "It differs from place to place. Enter it and plan again." : "More was used than was told, or something else. Enter it and plan again.");
    e.if_lower = acts ? "Stop: nothing more is laid on. Enter it and plan again." : (nothing ? "It differs from place to place. Enter it and plan again." : "Less is there than thought, or the leather took it up. Enter it and plan again.");
    if (scene.acid) std::swap(e.if_higher, e.if_lower);
    return e;
}
}  // namespace

std::vector<Expected> expected_of(const Scene& scene, const Looked& way) {
    std::vector<Expected> out;
    if (!way.proposal || way.followed.members.empty()) return out;
    // A reading at the end of each day, and at the end of all.
    std::vector<double> moments_s;
    if (way.design) {
        double t = std::max(1.0, way.proposal->first_wait_s);
        for (std::size_t i = 0; i + 1 < way.proposal->layings.size(); ++i) {
            t += way.proposal->layings[i].lasts_s();
            if ((i + 1) % static_cast<std::size_t>(way.design->a_day) == 0) moments_s.push_back(t);
        }
    }
    moments_s.push_back(way.proposal->lasts_s());
    for (std::size_t n = 0; n < moments_s.size(); ++n) {
        const auto& at_s = way.followed.at_s;
        // The first of two at one moment: what is laid on then has not come yet.
        std::size_t k = at_s.size() - 1;
        if (n + 1 < moments_s.size()) k = static_cast<std::size_t>(std::lower_bound(at_s.begin(), at_s.end(), moments_s[n] - 1e-3) - at_s.begin());
        HW_EXPECTS(k < at_s.size());
        std::vector<double> then;
        for (const auto& m : way.followed.members) then.push_back(static_cast<double>(m.surface_ph[k]));
        out.push_back(expected_at(scene, way, moments_s[n], then));
    }
    return out;
}

std::vector<Fan> fans_of(const Followed& f) {
    std::vector<Fan> out{named("surface", "What a drop of water on the surface would read, from now", "time_s"), named("grain", "Mean pH of the grain, from now", "time_s"), named("depth_end", "pH through the leather at the end", "depth_um")};
    for (std::size_t k = 0; k < f.at_s.size(); ++k) {
        if (!out[0].at.empty() && f.at_s[k] <= out[0].at.back()) continue;  // two moments of one event
        std::vector<double> surface, grain;
        for (const auto& m : f.members) {
            surface.push_back(static_cast<double>(m.surface_ph[k]));
            grain.push_back(static_cast<double>(m.grain_ph[k]));
        }
        add(out[0], f.at_s[k], surface);
        add(out[1], f.at_s[k], grain);
    }
    for (std::size_t c = 0; c < f.depth_um.size(); ++c) {
        std::vector<double> ph;
        for (const auto& m : f.members) ph.push_back(static_cast<double>(m.end_ph[c]));
        add(out[2], f.depth_um[c], ph);
    }
    return out;
}

}  // namespace hw::desk
