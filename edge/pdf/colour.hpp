// The colours of the print: those of the page's light theme, and pH by the order of the universal indicator.
#pragma once

namespace hw::pdf {

struct Colour {
    double r = 0, g = 0, b = 0;                   ///< sRGB, 0 to 1
};
constexpr Colour rgb(int hex) { return {((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0}; }

inline constexpr Colour white = rgb(0xffffff), sunk = rgb(0xf4eee2), ink = rgb(0x241f1a), ink_soft = rgb(0x4b4239), line = rgb(0x8a7c6b), line_faint = rgb(0xd8cdbb), accent = rgb(0x7a2e12),
                        accent_wash = rgb(0xf3e1d6), warn = rgb(0x7b1616), warn_wash = rgb(0xfaeae6), finish = rgb(0xc9b79b), grain = rgb(0xe2c296), corium = rgb(0xd0a473), film = rgb(0xcfe3ea),
                        band_90 = rgb(0xecdcc6), band_50 = rgb(0xd2ab7d);

/// Colour of a pH: straight lines in OKLab between anchors, lightest near pH 6. It always stands beside its number.
Colour ph_colour(double ph);

/// Contrast of two colours by WCAG 2.2, 1 to 21.
double contrast(Colour one, Colour other);

}  // namespace hw::pdf
