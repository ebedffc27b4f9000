// Grades of the grey scales: 5 no difference, 1 a great one, in half steps.
#pragma once

#include <optional>
#include <string>

#include "core/colour/ciede2000.hpp"

namespace hw::colour {

/// Whether it is a grade of the scale: 1, 1.5 … 5.
bool is_grade(double grade);

/// "4", "4/5": as the scale is read.
std::string grade_words(double grade);

/// Grade of a change of colour from its measured difference, unrounded, 1 to 5:
///
///     5 - dE/1.7 up to 3.4,  5 - log2(dE/0.85) beyond
///
/// @param difference  of ISO 105-A05, taken here as the difference of 1976
/// @source iso105a05, formula (from memory)
double change_grade(double difference);

/// Grade of staining of a white cloth, unrounded, 1 to 5:
///
///     dE_GS = dE - 0.4 sqrt(dE^2 - dL^2),   6.1 - 1.45 ln dE_GS;  where that is above 4: 5 - 0.23 dE_GS
///
/// @param clean, stained  the cloth before and after
/// @source iso105a04, formula (from memory)
double stain_grade(const Lab& clean, const Lab& stained);

/// The nearest half step.
double half_step(double grade);

}  // namespace hw::colour
