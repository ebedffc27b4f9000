// Numbers with their units, as sheets print them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sheet/facts.hpp"
#include "core/sheet/letters.hpp"

namespace hw::sheet {

/// A number with the sign before it and the unit behind it; `unit` is folded: "°c", "hpa", "g/cm3", "%", empty.
struct Quantity {
    double value = 0;
    std::string sign;              ///< "<", "<=", ">", ">=", "" or "~"
    std::string unit;
    std::size_t begin = 0, end = 0;
};
std::vector<Quantity> quantities(std::string_view folded, Decimal decimal);

double celsius_of(const Quantity& q);                  ///< of a temperature, rounded to 0.1 where it was °F
bool is_temperature(const Quantity& q);

/// A share of the mixture that fills the text: ">= 10 - < 25 %", "5-15", "up to 3". Nothing where other words stand there.
std::optional<Range> range_of(std::string_view text, Decimal decimal);

/// A pH with its conditions. A ratio "1:n" is taken as one part in n parts in all, as a tenfold dilution is one in ten; since some mean
/// one part and n parts of water it is always marked `unclear`. "1+n" can only be one part and n parts, 1:1 only halves.
std::optional<Ph> ph_of(std::string_view value, std::string_view qualifier, Decimal decimal);
std::optional<FlashPoint> flash_point_of(std::string_view value, Decimal decimal);
std::optional<Interval> boiling_of(std::string_view value, Decimal decimal);
std::optional<Interval> vapour_pressure_of(std::string_view value, Decimal decimal);
std::optional<Density> density_of(std::string_view value, std::string_view qualifier, Decimal decimal);
std::optional<Voc> voc_of(std::string_view value, std::string_view qualifier, Decimal decimal);

/// ISO 8601 of a date anywhere in the text. @param month_first  how 03/04/2024 is meant
std::optional<std::string> date_of(std::string_view text, bool month_first);

}  // namespace hw::sheet
