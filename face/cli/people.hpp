// The verbs people and network of the command line.
#pragma once

#include <string>

#include "base/result.hpp"
#include "desk/people.hpp"

namespace hw::cli {

struct PeopleTyped {
    std::string folder, what, name, role;
    bool json = false;
};

/// add, list, role, password, remove, unlock. What it has to say goes to standard output.
Result<Done> people(const PeopleTyped& typed, desk::Clock& clock);
/// on, off, status.
Result<Done> network(const PeopleTyped& typed, desk::Clock& clock);

/// One line without its end; from a terminal without showing it. @error InvalidInput  nothing was typed
Result<std::string> typed_password();

}  // namespace hw::cli
