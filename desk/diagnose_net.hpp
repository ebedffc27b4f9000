// The tables of causes as one net for one kind of piece, and the signs that a request holds.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/belief/causes.hpp"
#include "desk/diagnose.hpp"

namespace hw::desk {

/// What shifts the starting shares.
struct DamageContext {
    std::string group;                            ///< of the covering, key in atlas/covering_groups.csv; empty: unknown
    std::string tannage;
    Exposure exposure = Exposure::NotSaid;
    std::optional<double> age_years;
};

/// @param draw  0: the tables as they stand; else every entry is varied by its own fixed factor of this draw
belief::CauseNet cause_net(const DamageContext& context, std::uint64_t draw = 0);

std::size_t cause_place(std::string_view key);    ///< in atlas/causes.csv; an unknown key is a bug
std::size_t sign_place(std::string_view key);     ///< in atlas/signs.csv; an unknown key is a bug

/// Typed signs and readings as likelihoods. A reading and a typed sign of the same thing: the typed one counts.
/// @error NotFound  sign, kind  @error InvalidInput  a control that is missing
Result<std::vector<belief::SeenSign>> seen_signs(const DiagnoseRequest& request);

/// The group of a covering; empty where unknown. @error NotFound
Result<std::string> covering_group(std::string_view key);

/// Row of atlas/diagnosis_figures.csv. An unknown key is a bug.
double damage_figure(std::string_view key);
Basis basis_of_damage_figure(std::string_view key, std::string inputs);

}  // namespace hw::desk
