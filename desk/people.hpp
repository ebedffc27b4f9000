// The people of the workshop and what each role may do.
#pragma once

#include <array>
#include <string_view>
#include <utility>

#include "base/describe.hpp"

namespace hw::desk {

/// In order of what they may do. None is somebody who has not signed in.
enum class Role { None, Reader, Technician, Owner };

}  // namespace hw::desk

template <>
struct hw::EnumNames<hw::desk::Role> {
    static constexpr std::array<std::pair<desk::Role, std::string_view>, 4> names{
        {{desk::Role::None, "none"}, {desk::Role::Reader, "reader"}, {desk::Role::Technician, "technician"}, {desk::Role::Owner, "owner"}}};
};
