// Limits for the air that hold where the shop is: entered with who says so; they outrank every table.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/describe.hpp"
#include "base/result.hpp"
#include "desk/ports.hpp"

namespace hw::desk {

struct OwnLimit {
    std::string id;
    std::string substance, cas;
    std::string jurisdiction;                     ///< where it holds
    std::string span = "shift";                   ///< shift (8 h), short (15 min) or ceiling
    std::optional<double> limit_ppm, limit_mg_m3; ///< one of them; neither takes the limit back
    std::string source;                           ///< who says so, in words
    std::string dated;                            ///< ISO 8601, of the source
};
template <class Visitor>
void describe(Visitor& visit, OwnLimit& l) {
    visit("id", l.id, About{.doc = "empty: a new one"});
    visit("substance", l.substance, About{.doc = "as people call it", .required = true});
    visit("cas", l.cas, About{.doc = "CAS number with its check digit", .required = true});
    visit("jurisdiction", l.jurisdiction, About{.doc = "where it holds"});
    visit("span", l.span, About{.doc = "shift (8 h), short (15 min) or ceiling"});
    visit("limit_ppm", l.limit_ppm, About{.doc = "this or limit_mg_m3; neither takes the limit back", .minimum = 0.0001, .maximum = 100000});
    visit("limit_mg_m3", l.limit_mg_m3, About{.minimum = 0.0001, .maximum = 1000000});
    visit("source", l.source, About{.doc = "who says so, in words"});
    visit("dated", l.dated, About{.doc = "ISO 8601, of the source"});
}

/// Keeps a limit, or takes one back; gives all of them.
/// @error InvalidInput  a CAS number with a wrong check digit, an unknown span, no place, source or date, two values
Result<std::vector<OwnLimit>> keep_own_limit(const OwnLimit& limit, Ports& ports);

}  // namespace hw::desk
