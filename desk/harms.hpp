// Each kind of harm over the members of an ensemble: grade, chance, reason, and the test that would settle it.
#pragma once

#include <string>
#include <vector>

#include "desk/ensemble.hpp"
#include "desk/judge.hpp"

namespace hw::desk {

/// One kind of harm, told, and what it comes to in every member.
struct HarmOverMembers {
    Harm told;
    std::vector<Grade> grades;                    ///< empty: not known
    std::vector<double> reached;                  ///< per member, what is held against the limit; empty: nothing was computed
    bool counts = true;                           ///< goes into the grade of the answer
};

/// Every kind, in a fixed order; the answer sorts them.
/// @param typical  the member that the answer's sentences are about
std::vector<HarmOverMembers> harms_of(const Question& question, const Ensemble& ensemble, const Assessment& typical, bool ph_known);

/// Kinds that go farther than the answer does and are told beside it: the answer is about what decides.
std::vector<const Harm*> graver_than_answer(const JudgeAnswer& answer);

/// Kinds in a clause: "water (lasts), dye and colour (comes back)".
std::string in_clauses(const std::vector<const Harm*>& harms);

/// Chances, middle grade and band of a kind that was computed in every member.
void tell(HarmOverMembers& harm, std::vector<double> reached, const std::string& unit);

}  // namespace hw::desk
