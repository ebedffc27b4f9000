// How different two colours look.
#pragma once

namespace hw::colour {

/// CIELAB of one illuminant and one observer; two that are compared have the same.
struct Lab {
    double l_1 = 0, a_1 = 0, b_1 = 0;
};

/// Colour difference CIEDE2000, all weights one: a just noticeable difference is near 1.
///
///     dE^2 = (dL'/SL)^2 + (dC'/SC)^2 + (dH'/SH)^2 + RT (dC'/SC)(dH'/SH)
///
/// @source sharma2005, equations 2 to 22
/// @see docs/theory/spots.md
double ciede2000(const Lab& one, const Lab& other);

/// Colour difference of 1976: the distance in CIELAB. The steps of the grey scales are given in it.
double cielab1976(const Lab& one, const Lab& other);

}  // namespace hw::colour
