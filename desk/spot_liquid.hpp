// How strong a liquid is on a test spot, and how long such a spot must wait. Knows of no piece.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "atlas/spot_rules.hpp"
#include "base/describe.hpp"
#include "base/result.hpp"
#include "core/leather/hide.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// What a liquid is used for: composition does not tell a conditioner or a coat.
enum class SpotPurpose { Clean, Neutralise, Feed, Coat };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::SpotPurpose> {
    static constexpr std::array<std::pair<desk::SpotPurpose, std::string_view>, 4> names{
        {{desk::SpotPurpose::Clean, "clean"}, {desk::SpotPurpose::Neutralise, "neutralise"}, {desk::SpotPurpose::Feed, "feed"}, {desk::SpotPurpose::Coat, "coat"}}};
};

namespace hw::desk {

/// Row of atlas/spot_rules.csv. An unknown key is a bug.
const atlas::SpotRulesRow& spot_rule(std::string_view key);

struct Strength {
    std::string rung;                             ///< key of atlas/spot_rungs.csv
    std::string name;
    int step = 0;                                 ///< mild first
    std::string why;                              ///< one sentence, with the figures that decided
    std::optional<double> ph;                     ///< as used; none in alcohol or solvent
    double solvent_pct = 0;                       ///< as used
    std::vector<std::string> natures;             ///< acid, alkali, solvent, bleach, coat, conditioner: what the wait goes by
    Basis basis;
};

/// @error as totals_of
Result<Strength> strength_of(const Liquid& liquid, double parts_water, SpotPurpose purpose);

/// The air that a spot dries in.
struct SpotAir {
    double air_c = 20, humidity_pct = 50, air_speed_m_s = 0.1;
};
template <class Visitor>
void describe(Visitor& visit, SpotAir& a) {
    visit("air_c", a.air_c, About{.minimum = 5, .maximum = 40});
    visit("humidity_pct", a.humidity_pct, About{.minimum = 10, .maximum = 90});
    visit("air_speed_m_s", a.air_speed_m_s, About{.minimum = 0, .maximum = 5});
}

/// Hours since a spot was made until it is dry, solved. Nothing where it is not dry through within the longest wait.
struct SpotDry {
    double touch_h = 0;
    std::optional<double> through_h;
};
/// @error NotConverged  from the section engine
Result<SpotDry> dry_of(const leather::Hide& hide, double g_m2, double dwell_s, const SpotAir& air);

/// When a spot may be read.
struct SpotWait {
    double judge_h = 0;                           ///< since it was made: not judged sooner
    double again_h = 0;                           ///< read again then; 0: once is enough
    bool tack_again = false;                      ///< tack counts from the second reading on
    std::vector<Reason> reasons;                  ///< the one that decides first
};
template <class Visitor>
void describe(Visitor& visit, SpotWait& w) {
    visit("judge_h", w.judge_h, About{.doc = "since it was made: not judged sooner"});
    visit("again_h", w.again_h, About{.doc = "read again then; 0: once is enough"});
    visit("tack_again", w.tack_again, About{.doc = "tack counts from the second reading on"});
    visit("reasons", w.reasons, About{.doc = "the one that decides first"});
}
/// Never less than custom has it, longer where the leather is computed to be wet longer.
/// @param through_h  of dry_of; nothing: not computed
SpotWait wait_of(const Strength& strength, std::string_view leather_class, std::optional<double> through_h);

}  // namespace hw::desk
