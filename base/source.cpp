#include "base/source.hpp"

#include <array>
#include <utility>

#include "atlas/sources.hpp"
#include "base/result.hpp"

namespace hw {

namespace {
constexpr std::array<std::pair<Standing, std::string_view>, 7> names{{{Standing::Published, "published"},
                                                                      {Standing::CommonPractice, "common_practice"},
                                                                      {Standing::FromMemory, "from_memory"},
                                                                      {Standing::Derived, "derived"},
                                                                      {Standing::Estimate, "estimate"},
                                                                      {Standing::Measured, "measured"},
                                                                      {Standing::Invented, "invented"}}};
}  // namespace

std::string_view name_of(Standing standing) { return names[static_cast<std::size_t>(standing)].second; }

Standing standing_of(std::string_view name) {
    for (const auto& [standing, word] : names)
        if (word == name) return standing;
    throw Bug("unknown standing: " + std::string(name));
}

std::string_view citation_of(std::string_view source) {
    for (const auto& row : atlas::sources)
        if (row.key == source) return row.citation;
    return {};
}

}  // namespace hw
