#include "desk/harms.hpp"

#include <algorithm>
#include <cmath>

#include "desk/next_step.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

bool lasts(Grade g) { return g == Grade::Lasting || g == Grade::Deep; }

/// What a limit is about: the pores beyond it upwards, or downwards with the extract and its difference figure.
bool is_upper(const std::vector<const atlas::LeatherLimitsRow*>& rows, std::size_t limit) { return limit < rows.size() && rows[limit]->side == "upper"; }
bool decides(const std::vector<const atlas::LeatherLimitsRow*>& rows, std::size_t limit) { return limit >= rows.size() || rows[limit]->decides == "yes"; }

HarmOverMembers by_ph(const Question& q, const Ensemble& e, const Assessment& typical, bool alkali) {
    const auto rows = limits_of(q.hide.tannage_key);
    HarmOverMembers out;
    out.told.kind = alkali ? "alkali" : "acid";
    out.told.name = alkali ? "Alkali in the leather" : "Acid in the leather";
    std::vector<double> reached;
    std::vector<std::size_t> deciding(rows.size() + 1);
    for (const auto& o : e.outcomes) {
        Grade grade = Grade::StaysWithin;
        std::size_t by = Held::npos;
        double far = alkali ? -1e300 : 1e300;
        for (std::size_t l = 0; l < o.held.passages.size(); ++l) {
            const Passage& p = o.held.passages[l];
            if (!decides(rows, l) || is_upper(rows, l) != alkali) continue;
            if (l < rows.size() && rows[l]->quantity == "pore") far = alkali ? std::max(far, p.reached) : std::min(far, p.reached);
            if (p.grade > grade) grade = p.grade, by = l;
        }
        if (by != Held::npos) ++deciding[by];
        out.grades.push_back(grade);
        reached.push_back(far);
    }
    tell(out, reached, "pH");
    // The limit that decides most often; where none does, the one that the typical member comes nearest to.
    std::size_t limit = static_cast<std::size_t>(std::max_element(deciding.begin(), deciding.end()) - deciding.begin());
    if (deciding[limit] == 0) {
        double nearest = 1e300;
        for (std::size_t l = 0; l < rows.size(); ++l) {
            if (!decides(rows, l) || is_upper(rows, l) != alkali || rows[l]->quantity != "pore") continue;
            const double room = std::abs(rows[l]->limit_ph - out.told.reached.median);
            if (room < nearest) nearest = room, limit = l;
        }
    }
    const LimitCheck& check = typical.limits[limit];
    out.told.limit = check.name + " (" + (limit < rows.size() ? "pH " : "") + fixed(check.limit.value, 1) + ")";
    out.told.basis = check.basis;
    const Band& r = out.told.reached;
    const std::string farthest = std::string("The ") + (alkali ? "highest" : "lowest") + " pH inside the leather is " + fixed(r.median, 1) + "; in nine of ten cases it lies between " + fixed(std::min(r.low_90, r.high_90), 1) + " and " + fixed(std::max(r.low_90, r.high_90), 1) + ".";
    const bool before = alkali ? q.hide.ph > check.limit.value : q.hide.ph < check.limit.value;
    out.told.sentence = farthest + (before && limit < rows.size() ? " The leather lies past this limit before anything is laid on." : "");
    out.told.test = alkali || !q.hide.ph_read ? test_named("Surface pH") : test_named("Small extract");
    return out;
}

}  // namespace

void tell(HarmOverMembers& harm, const std::vector<double>& reached, const std::string& unit) {
    const auto n = static_cast<double>(harm.grades.size());
    const auto share = [&](const auto& is) { return static_cast<double>(std::count_if(harm.grades.begin(), harm.grades.end(), is)) / n; };
    harm.told.grade = middle_grade(harm.grades);
    harm.told.chance_1 = share([](Grade g) { return g != Grade::StaysWithin; });
    harm.told.lasting_1 = share(lasts);
    harm.told.reached = band_of(reached, unit);
}

std::vector<HarmOverMembers> harms_of(const Question& q, const Ensemble& e, const Assessment& typical, bool ph_known) {
    std::vector<HarmOverMembers> out;
    if (ph_known) {
        out.push_back(by_ph(q, e, typical, true));
        out.push_back(by_ph(q, e, typical, false));
    }
    return out;
}

}  // namespace hw::desk
