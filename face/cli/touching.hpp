// The verbs `touch`, `meet` and `titrate`: what they take from the command line, and their answers in words.
#pragma once

#include <string>
#include <vector>

#include "desk/meet.hpp"
#include "desk/titrate.hpp"
#include "desk/touch.hpp"
#include "edge/store/sqlite_chart.hpp"

namespace hw::cli {

/// The codec's part of the chart's store: doors do not include each other, so they meet here.
store::ChartSerialiser chart_as_json();

/// Ids in their order; between two of them "wiped", "rinsed", "rinsed:3", "dried" or "2h" say what was done.
/// @error InvalidInput  a word between that is none of these
Result<desk::MeetRequest> meet_request(const std::vector<std::string>& words);

std::string text_of(const desk::TouchAnswer& answer);
std::string text_of(const desk::MeetAnswer& answer);
std::string text_of(const desk::ShelfMeetings& answer);
std::string text_of(const desk::TitrateAnswer& answer);

}  // namespace hw::cli
