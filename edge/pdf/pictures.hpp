// The pictures of the print. Each stands beside the same in words or figures.
#pragma once

#include <string>
#include <vector>

#include "desk/judge.hpp"
#include "edge/pdf/sheet.hpp"

namespace hw::pdf {

/// Cut through the hide at its worst moment and at the end: leather tones on the left, pH as colour with its numbers on
/// it, depths on the right.
void draw_section(Sheet& sheet, Point at, Size size, const desk::Profile& profile, double type_size);
/// What the colours stand for, with numbers. @return its height
double draw_ph_key(Sheet& sheet, Point at, double width, double type_size);
/// The four grades as a stair into the hide, the answer's step filled. @return its height
double draw_stair(Sheet& sheet, Point at, double width, desk::Grade grade, double type_size);
/// Ten fields, filled as the cases fall; and each share in words. @return its height
double draw_chances(Sheet& sheet, Point at, double width, const std::vector<desk::Chance>& chances, double type_size);
/// A bar of a chance: what lasts, what comes back, what is not passed.
void draw_chance(Sheet& sheet, Point at, Size size, double passed_1, double lasting_1);
/// Bands over depth or time. @return its height
double draw_fan(Sheet& sheet, Point at, Size size, const desk::Fan& fan, const std::vector<desk::LimitCheck>& limits, double grain_um);
/// What stays against what each layer takes up. @return its height
double draw_balance(Sheet& sheet, Point at, double width, const desk::Balance& balance);

}  // namespace hw::pdf
