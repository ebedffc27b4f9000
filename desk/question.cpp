#include "desk/question.hpp"

#include <algorithm>
#include <sstream>
#include <type_traits>

#include "core/belief/points.hpp"
#include "desk/cautions.hpp"
#include "desk/liquids.hpp"
#include "desk/rules.hpp"
#include "desk/validate.hpp"

namespace hw::desk {

namespace {

/// Names of the fields whose value is that of a fresh struct.
class Defaults {
public:
    explicit Defaults(std::string prefix) : prefix_(std::move(prefix)) {}
    template <class T>
    void operator()(std::string_view name, T& member, const About&) {
        const std::string where = prefix_ + "." + std::string(name);
        if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T>) {
            std::ostringstream text;
            if constexpr (std::is_enum_v<T>) text << static_cast<int>(member);
            else text << member;
            values.push_back({where, text.str()});
        } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
            Defaults inner(where);
            describe(inner, member);
            values.insert(values.end(), inner.values.begin(), inner.values.end());
        }
    }
    std::vector<std::pair<std::string, std::string>> values;

private:
    std::string prefix_;
};

}  // namespace

std::vector<std::string> defaults_in(Use use, const std::vector<std::string>& said, const leather::Hide& hide) {
    Use fresh;
    Defaults now("use"), base("use");
    describe(now, use);
    describe(base, fresh);
    std::vector<std::string> out;
    for (std::size_t i = 0; i < now.values.size(); ++i)
        if (said.empty() ? now.values[i].second == base.values[i].second : std::find(said.begin(), said.end(), now.values[i].first) == said.end()) out.push_back(now.values[i].first);
    if (!hide.ph_read) out.push_back("leather.surface_ph");
    if (!hide.thickness_read) out.push_back("leather.thickness_mm");
    if (!hide.finish_read) out.push_back("leather.finish_um");
    return out;
}

Result<Asked> asked_of(const JudgeRequest& given, Ports& ports) {
    Asked out{given, std::nullopt, {}, std::nullopt};
    JudgeRequest& request = out.request;
    HW_TRY(liquid, resolved(request.liquid, ports.store));
    request.liquid = liquid;
    out.stop = meeting_stop(liquid, request.meets, ports.store);
    if (!out.stop) out.stop = never_sprayed(liquid, request.use);
    if (out.stop) return out;
    for (std::size_t i = 0; i < request.meets.size(); ++i)
        if (auto met = ports.store.liquid(request.meets[i]); !met.ok()) return Error{met.error().code, met.error().message, "meets[" + std::to_string(i) + "]"};
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
