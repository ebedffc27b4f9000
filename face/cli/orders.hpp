// Orders from the console to the program that holds the records: short files in the folder of the records, which that
// program carries out and takes away. Whoever can write there owns the records anyway.
#pragma once

#include <functional>
#include <string>

#include "base/result.hpp"

namespace hw::cli {

/// Leaves the order and waits until it is carried out. @error Unavailable  nobody does, or it was refused
Result<Done> place_order(const std::string& folder, const std::string& order);

/// Carries out what lies there, oldest first. `carry_out` gives the refusal, if it is one; the console reads it.
void carry_out_orders(const std::string& folder, const std::function<Result<Done>(const std::string&)>& carry_out);

}  // namespace hw::cli
