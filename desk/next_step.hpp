// The test that would change the answer most.
#pragma once

#include <vector>

#include "desk/assessment.hpp"

namespace hw::desk {

/// Something a bench test would settle: its harsh value, and the test. What has been read already is not asked again.
struct OpenQuestion {
    Variant harsh;
    NextTest test;
};

NextTest hidden_spot();

std::vector<OpenQuestion> open_questions(const Use& use, const leather::Hide& hide, const Variant& harsh, bool alkali);

/// The question whose harsh value changes the answer most: first by grade, then by pH at the end. Moves that a meter cannot see do not count.
/// @param answers  of the questions, in their order
NextTest next_test(const std::vector<OpenQuestion>& questions, const std::vector<Assessment>& answers, const Assessment& central);

}  // namespace hw::desk
