// The verb `identify`: what it takes from the command line.
#pragma once

#include <string>
#include <vector>

#include "desk/identify.hpp"
#include "edge/store/sqlite_proofs.hpp"

namespace hw::cli {

/// The codec's part of the store of proofs: doors do not include each other, so they meet here.
store::ProofSerialiser proofs_as_json();

struct IdentifyTyped {
    std::vector<std::string> saw, cannot;     ///< "drop=under_10_s"
    std::string piece, panel, place, age, region, proven;
    bool keep = false;
};

/// A request with what was typed put over it. @error InvalidInput  not WORD=WORD; `where` is the flag
Result<desk::IdentifyRequest> identify_typed(desk::IdentifyRequest request, const IdentifyTyped& typed);

}  // namespace hw::cli
