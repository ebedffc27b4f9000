// Test spots in words.
#pragma once

#include <string>
#include <vector>

#include "desk/spot.hpp"

namespace hw::cli {

std::string text_of(const desk::SpotAnswer& answer);
std::string text_of(const std::vector<desk::SpotDue>& due);
std::string text_of(const std::vector<desk::RateRow>& rates);

}  // namespace hw::cli
