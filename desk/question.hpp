// From what was asked to a question that can be computed; used by judge and refine.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "desk/judge.hpp"
#include "desk/ports.hpp"
#include "desk/unknowns.hpp"

namespace hw::desk {

/// A request with liquid and leather of the shelf filled in, and the hide that it is about.
struct Asked {
    JudgeRequest request;
    std::optional<Stop> stop;                     ///< of what meets, before anything is computed: `hide` is then not filled in
    leather::Hide hide;
    std::optional<Stop> no_water;                 ///< leather that takes no water at all
};

/// Hard stops come before any computation, and before any other fault of the request.
/// @error as judge
Result<Asked> asked_of(const JudgeRequest& given, Ports& ports);

/// How it was used, every number at its best single figure.
/// @error OutOfRange  more than lies on a square metre; "use.dose.count"
Result<treatment::Story> story_of(const Use& use);

/// Fields of use and hide that nobody gave, by what was said, else by what equals the usual.
std::vector<std::string> defaults_in(Use use, const std::vector<std::string>& said, const leather::Hide& hide);

}  // namespace hw::desk
