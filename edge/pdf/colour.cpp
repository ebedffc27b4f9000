#include "edge/pdf/colour.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace hw::pdf {

namespace {

struct Anchor {
    double ph, lightness, a, b;                   // OKLab
};
constexpr std::array<Anchor, 13> anchors{{{0, 0.4, 0.15, 0.06}, {2, 0.53, 0.18, 0.09}, {3, 0.62, 0.15, 0.12}, {4, 0.72, 0.095, 0.14}, {5, 0.82, 0.035, 0.155}, {6, 0.9, -0.025, 0.15},
                                          {7, 0.8, -0.105, 0.07}, {8, 0.69, -0.105, 0.0}, {9, 0.6, -0.075, -0.06}, {10, 0.52, -0.035, -0.115}, {11, 0.44, 0.015, -0.15},
                                          {12, 0.38, 0.055, -0.155}, {14, 0.27, 0.075, -0.12}}};

double encoded(double v) {
    const double c = std::clamp(v, 0.0, 1.0);
    return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1 / 2.4) - 0.055;
}

/// OKLab to sRGB (Ottosson 2020), clipped to the gamut.
Colour from_oklab(double lightness, double a, double b) {
    const double l = std::pow(lightness + 0.3963377774 * a + 0.2158037573 * b, 3), m = std::pow(lightness - 0.1055613458 * a - 0.0638541728 * b, 3),
                 s = std::pow(lightness - 0.0894841775 * a - 1.291485548 * b, 3);
    return {encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s), encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
            encoded(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s)};
}

double luminance(Colour c) {
    const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

}  // namespace

Colour ph_colour(double ph) {
    const double x = std::isfinite(ph) ? std::clamp(ph, anchors.front().ph, anchors.back().ph) : 7;
    std::size_t i = 0;
    while (i + 2 < anchors.size() && x > anchors[i + 1].ph) ++i;
    const Anchor &from = anchors[i], &to = anchors[i + 1];
    const double t = (x - from.ph) / (to.ph - from.ph);
    const auto between = [t](double u, double v) { return u + t * (v - u); };
    return from_oklab(between(from.lightness, to.lightness), between(from.a, to.a), between(from.b, to.b));
}

double contrast(Colour one, Colour other) {
    const double x = luminance(one), y = luminance(other);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

}  // namespace hw::pdf
