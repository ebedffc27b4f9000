// The verbs `diagnose` and `advise`: what they take from the command line beside a file.
#pragma once

#include <string>
#include <vector>

#include "desk/diagnose.hpp"

namespace hw::cli {

/// What was typed: signs as "tacky" or "tacky=no", readings as "surface_ph=8.9/5.1" (place/sheltered).
struct DamageTyped {
    std::vector<std::string> saw, read;
    std::string covering, tannage, piece, panel;
};

/// Adds what was typed to a request. @error InvalidInput  a word that cannot be read
Result<Done> add_typed(const DamageTyped& typed, desk::DiagnoseRequest& request);

std::string signs_text();

}  // namespace hw::cli
