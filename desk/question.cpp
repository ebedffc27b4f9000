#include "desk/question.hpp"

#include "core/belief/points.hpp"
#include "desk/cautions.hpp"
#include "desk/liquids.hpp"
#include "desk/rules.hpp"
#include "desk/validate.hpp"

namespace hw::desk {

Result<Asked> asked_of(const JudgeRequest& given, Ports& ports) {
    Asked out{given, std::nullopt, {}, std::nullopt};
    JudgeRequest& request = out.request;
    HW_TRY(liquid, resolved(request.liquid, ports.store));
    request.liquid = liquid;
    out.stop = meeting_stop(liquid, request.meets, ports.store);
    if (!out.stop) out.stop = never_sprayed(liquid, request.use);
    if (out.stop) return out;
    if (const auto bad = out_of_range(request)) return *bad;
    if (!request.leather.id.empty() && request.leather.leather_class.empty()) {
        auto found = ports.store.leather(request.leather.id);
        if (!found.ok()) return Error{found.error().code, found.error().message, "leather.id"};
        request.leather = *found;
    }
    if (request.leather.tannage.empty()) request.leather.tannage = "unknown";
    if (!(request.use.dose.count > 0)) return Error{ErrorCode::InvalidInput, "Say how much was or will be used; nothing cannot be judged.", "use.dose.count"};
    if (!belief::is_power_of_two(static_cast<std::size_t>(request.members))) return Error{ErrorCode::InvalidInput, "Give a power of two: 64, 256, 1024 …", "members"};
    const Leather& l = request.leather;
    HW_TRY(hide, leather::hide(l.leather_class, l.tannage, {l.thickness_mm, l.finish_um, l.surface_ph, l.extract_ph, l.shrinkage_c}));
    out.hide = hide;
    out.no_water = no_water(l, hide);
    return out;
}

Result<treatment::Story> story_of(const Use& use) {
    treatment::Story story;
    const double grams = use.dose.count * grams_per(use.dose.amount).amount_g;
    story.dose_kg_m2 = grams / 1000 / (use.dose.area_cm2 * 1e-4);
    if (story.dose_kg_m2 > 5) return Error{ErrorCode::OutOfRange, "That is more than 5 litres on a square metre. Check amount and area.", "use.dose.count"};
    story.dwell_s = use.dwell_s;
    story.wiped_1 = use.wiped_off_pct / 100;
    story.rinse_passes = use.rinse.passes;
    story.rinse_kg_m2 = use.rinse.water_g_m2 / 1000;
    story.rinse_blotted_1 = use.rinse.blotted_pct / 100;
    story.rinse_wait_s = use.rinse.wait_s;
    story.rinse_hardness_mg_l = use.rinse.hardness_mg_l;
    story.repeats = use.repeats;
    story.interval_s = use.interval_h * 3600;
    story.rest_s = use.rest_h * 3600;
    story.air = Temperature::celsius(use.air_c);
    story.humidity_1 = use.humidity_pct / 100;
    story.air_speed_m_s = use.air_speed_m_s;
    return story;
}

}  // namespace hw::desk
