// One description of each request and answer struct, from which JSON, JSON Schema, OpenAPI and the TypeScript types are
// made. A struct is described by a free function template beside it:
//
//     template <class Visitor>
//     void describe(Visitor& visit, Dilution& d) {
//         visit("parts_water_1", d.parts_water_1, {.doc = "parts of water to one part of product", .minimum = 0});
//     }
//
// Member types: bool, int, double, std::string, enums with an EnumNames<> specialisation, described structs,
// std::optional<T> and std::vector<T> of these. The unit is the suffix of the name.
#pragma once

#include <limits>
#include <string_view>

namespace hw {

/// What a description says of one member beside its name and type.
struct About {
    std::string_view doc = {};
    double minimum = -std::numeric_limits<double>::infinity();
    double maximum = std::numeric_limits<double>::infinity();
    bool required = false;  ///< a request without it is refused; others keep the default of the struct
};

/// Names of an enum on the wire: specialise with `static constexpr std::array<std::pair<E, std::string_view>, n> names`.
template <class E>
struct EnumNames;

}  // namespace hw
