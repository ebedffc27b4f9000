#include "core/colour/ciede2000.hpp"

#include <cmath>
#include <numbers>

namespace hw::colour {

namespace {

constexpr double full_deg = 360, half_deg = 180;

double cos_deg(double angle) { return std::cos(angle * std::numbers::pi / half_deg); }
double sin_deg(double angle) { return std::sin(angle * std::numbers::pi / half_deg); }

/// 0 to 360; a grey has the hue 0.
double hue_deg(double a, double b) {
    if (a == 0 && b == 0) return 0;
    const double h = std::atan2(b, a) * half_deg / std::numbers::pi;
    return h < 0 ? h + full_deg : h;
}

/// sqrt(C^7 / (C^7 + 25^7)): 0 for greys, 1 for strong colours.
double strong_1(double chroma) {
    const double seventh = std::pow(chroma, 7);
    return std::sqrt(seventh / (seventh + std::pow(25.0, 7)));
}

}  // namespace

double ciede2000(const Lab& one, const Lab& other) {
    const double g = 0.5 * (1 - strong_1((std::hypot(one.a_1, one.b_1) + std::hypot(other.a_1, other.b_1)) / 2));
    const double a1 = (1 + g) * one.a_1, a2 = (1 + g) * other.a_1;
    const double c1 = std::hypot(a1, one.b_1), c2 = std::hypot(a2, other.b_1);
    const double h1 = hue_deg(a1, one.b_1), h2 = hue_deg(a2, other.b_1);
    const bool grey = c1 * c2 == 0;

    double turn = grey ? 0 : h2 - h1;
    if (turn > half_deg) turn -= full_deg;
    else if (turn < -half_deg) turn += full_deg;
    const double dl = other.l_1 - one.l_1, dc = c2 - c1, dh = 2 * std::sqrt(c1 * c2) * sin_deg(turn / 2);

    double h = h1 + h2;
    if (!grey) {
        if (std::abs(h1 - h2) > half_deg) h += h < full_deg ? full_deg : -full_deg;
        h /= 2;
    }
    const double l = (one.l_1 + other.l_1) / 2, c = (c1 + c2) / 2;
    const double t = 1 - 0.17 * cos_deg(h - 30) + 0.24 * cos_deg(2 * h) + 0.32 * cos_deg(3 * h + 6) - 0.20 * cos_deg(4 * h - 63);
    const double from_50 = (l - 50) * (l - 50);
    const double sl = 1 + 0.015 * from_50 / std::sqrt(20 + from_50), sc = 1 + 0.045 * c, sh = 1 + 0.015 * c * t;
    const double rt = -2 * strong_1(c) * sin_deg(60 * std::exp(-std::pow((h - 275) / 25, 2)));
    return std::sqrt(std::pow(dl / sl, 2) + std::pow(dc / sc, 2) + std::pow(dh / sh, 2) + rt * (dc / sc) * (dh / sh));
}

double cielab1976(const Lab& one, const Lab& other) { return std::hypot(one.l_1 - other.l_1, one.a_1 - other.a_1, one.b_1 - other.b_1); }

}  // namespace hw::colour
