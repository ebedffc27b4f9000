// What to do with a judgement: its first line, and what to do now. The faces draw these words and decide nothing.
#pragma once

#include <string>
#include <vector>

#include "desk/judge.hpp"

namespace hw::desk {

/// The first line of an answer. What cannot be told is named where the grade alone would sound harmless.
std::string advice(const JudgeAnswer& answer);

/// What to do now, people first: before it is used, and where it is on the leather already. Of a stop its own words.
std::vector<std::string> do_now(const JudgeAnswer& answer);

/// Whether the finish film was left out of the answer although the liquid may soften it.
bool finish_not_judged(const JudgeAnswer& answer);

/// The amounts that nobody said and that the answer rests on: "56 g/m², 2 min until wiped"; empty where all were said.
std::string assumed_amounts(const JudgeAnswer& answer);

}  // namespace hw::desk
