// One reading of the unknowns, solved and held against the limits.
#pragma once

#include <string>
#include <vector>

#include "core/leather/hide.hpp"
#include "core/treatment/exposure.hpp"
#include "desk/judge.hpp"
#include "desk/rules.hpp"

namespace hw::desk {

inline constexpr double least_mmol_m2 = 0.1;  ///< moves the top 50 µm of leather by 0.01 pH: no meter sees it

/// What one reading of the unknowns changes, as factors; pH as a shift.
struct Variant {
    double dose = 1, wiped_kept = 1, permeability = 1, buffering = 1, ph_shift = 0;
};

Variant gentle_of(const GramsPer& per);
Variant harsh_of(const GramsPer& per);

/// "39 % more laid on, 30 % more left by the cloth, finish 3 times more open, hide buffers 20 % less"
std::string in_words(const Variant& v);

struct Assessment {
    treatment::Exposure exposure;
    leather::Hide hide;
    leather::Extract before, after;
    std::vector<LimitCheck> limits;
    Grade grade = Grade::StaysWithin;
    double deepest_um = 0;
    double end_um = 0;              ///< how deep the deciding limit is still passed at the end
    std::size_t decides_at = npos;
    static constexpr std::size_t npos = static_cast<std::size_t>(-1);
    [[nodiscard]] const LimitCheck* decides() const { return decides_at < limits.size() ? &limits[decides_at] : nullptr; }
};

/// @error as leather::hide and treatment::exposure
Result<Assessment> assess(const chem::Totals& liquid, const Leather& leather, treatment::Story story, const Variant& v);

/// A deciding limit of pore or extract that the hide lay past before anything was laid on; null: none.
const LimitCheck* past_before(const Assessment& a);

Profile profile_of(const Assessment& a);
Balance balance_of(const Assessment& a);

}  // namespace hw::desk
