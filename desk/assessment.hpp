// One member, solved and held against the limits.
#pragma once

#include <string>
#include <vector>

#include "atlas/leather_limits.hpp"
#include "core/leather/hide.hpp"
#include "core/treatment/exposure.hpp"
#include "desk/judge.hpp"
#include "desk/rules.hpp"

namespace hw::desk {

inline constexpr double least_mmol_m2 = 0.1;  ///< moves the top 50 µm of leather by 0.01 pH: no meter sees it

/// How far one limit was passed.
struct Passage {
    bool passed = false;
    double reached = 0;             ///< farthest value, in the limit's own quantity
    double deepest_um = 0;          ///< into the leather, at any time
    double end_um = 0;              ///< and still at the end
    double longest_s = 0;
    Grade grade = Grade::StaysWithin;
};

/// A solved section held against every limit of the tannage: numbers only, fast enough for every member of an ensemble.
struct Held {
    std::vector<Passage> passages;  ///< in the order of limits_of, then the difference figure
    Grade grade = Grade::StaysWithin;
    std::size_t decides_at = npos;
    double deepest_um = 0, end_um = 0;
    static constexpr std::size_t npos = static_cast<std::size_t>(-1);
};

/// Rows of atlas/leather_limits.csv that apply to a tannage.
std::vector<const atlas::LeatherLimitsRow*> limits_of(std::string_view tannage_key);

Held held_against_limits(const treatment::Exposure& exposure, const leather::Hide& hide, const leather::Extract& before, const leather::Extract& after);

/// Extract before and after an exposure. Where the dose cannot bring it near a limit its pH before stands for both: solving
/// costs as much as the section.
struct Extracts {
    leather::Extract before, after;
};
Result<Extracts> extracts(const leather::Hide& hide, const treatment::Exposure& exposure);

/// The central member, solved finely and put into words.
struct Assessment {
    treatment::Exposure exposure;
    leather::Hide hide;
    leather::Extract before, after;
    std::vector<LimitCheck> limits;
    Grade grade = Grade::StaysWithin;
    double deepest_um = 0;
    double end_um = 0;              ///< how deep the deciding limit is still passed at the end
    std::size_t decides_at = Held::npos;
    [[nodiscard]] const LimitCheck* decides() const { return decides_at < limits.size() ? &limits[decides_at] : nullptr; }
};

/// @error as treatment::exposure
Result<Assessment> assess(const chem::Totals& liquid, const leather::Hide& hide, const treatment::Story& story);

/// A deciding limit of pore or extract that the hide lay past before anything was laid on; null: none.
const LimitCheck* past_before(const Assessment& a);

Profile profile_of(const treatment::Exposure& exposure);
Balance balance_of(const Assessment& a);

}  // namespace hw::desk
