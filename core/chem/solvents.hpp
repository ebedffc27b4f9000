// Solvents on a finish: how alike they are, what has left when the water is gone, what the film has taken up, when it lets go.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "core/chem/composition.hpp"

namespace hw::chem {

/// Cohesion of a liquid or a polymer in three parts, MPa^(1/2): dispersion, polar, hydrogen bonds.
struct Hansen {
    double d_mpa_half = 0, p_mpa_half = 0, h_mpa_half = 0;
};

/// Distance of two substances, MPa^(1/2):  Ra^2 = 4 (dD)^2 + (dP)^2 + (dH)^2
/// @source hansen2007, definition of Ra
double hansen_distance_mpa_half(const Hansen& a, const Hansen& b);

/// Row of atlas::solvents by its name, or of a row of atlas::substances; nothing when it is no solvent known to us.
std::optional<std::size_t> solvent_named(std::string_view name);
std::optional<std::size_t> solvent_of(std::size_t substance);

/// Row of atlas::finish_films.
std::optional<std::size_t> finish_film(std::string_view key);

Hansen hansen_of_solvent(std::size_t solvent);
Hansen hansen_of_film(std::size_t film);

/// Relative energy difference  RED = Ra / R0 : below 1 the liquid softens the film, far below 1 it dissolves it.
/// @param radius_1  scales R0, which tables give with differences of a third (1 = as in the atlas)
/// @source hansen2007, definition of RED
double relative_energy_difference(const Hansen& liquid, std::size_t film, double radius_1 = 1);

/// A part of a blend by volume.
struct BlendPart {
    Hansen hansen;
    double volume_1 = 0;  ///< any unit, as long as all parts have the same
};

/// Volume-weighted mean; for organic liquids that mix. Nothing in it gives zeros.
Hansen blend(const std::vector<BlendPart>& parts);

/// A film kind that a leather of a class may carry, and how likely: estimates that sum to 1. Empty for leather without a film.
struct FilmChance {
    std::size_t film = 0;      ///< in atlas::finish_films
    double chance_1 = 0;
};
std::vector<FilmChance> films_of(std::string_view leather_class);

/// Per cent of a liquid that are solvents which soften a film that a leather of the class may carry: RED below 1, radii of the tables.
double softening_pct(const Totals& liquid, std::string_view leather_class);

/// Whether a solvent leaves within days; slower ones (glycerol, glycols) count as residue.
bool leaves(std::size_t solvent);

/// What a drying film of liquid depends on.
struct DryingOf {
    double dose_g_m2 = 50;         ///< of the liquid as used
    double dwell_s = 120;          ///< until the wipe
    double kept_1 = 0.5;           ///< share of the film that wiping and rinsing leave, 0 to 1
    double water_loss_g_m2_s = 0.019;  ///< water that leaves the wet surface; what the film and the air really do
    double humidity_1 = 0.5;
    Temperature air = Temperature::celsius(20);
    double finish_um = 0;          ///< 0: no film
    std::size_t film = 0;          ///< in atlas::finish_films; not read without a film
    double radius_1 = 1;           ///< scales R0
    double release_1 = 1;          ///< scales how fast the film takes solvent up and lets it go
    double activity_1 = 1;         ///< scales ln gamma; 1: dilute solvents are pushed out of water by their limiting activity; 0: as if ideally mixed
};

/// One solvent, g/m2. laid = wiped + evaporated + in_film + on_surface.
struct SolventLeft {
    std::size_t solvent = 0;       ///< in atlas::solvents
    double laid_g_m2 = 0, wiped_g_m2 = 0, evaporated_g_m2 = 0;
    double in_film_g_m2 = 0;       ///< taken up by the finish
    double on_surface_g_m2 = 0;    ///< liquid, or in the leather where there is no finish
    double gone_time_s = 0;        ///< falls to 1/e in this time once the water has gone; 0 without a film
    [[nodiscard]] double left_g_m2() const { return in_film_g_m2 + on_surface_g_m2; }
};

inline constexpr std::size_t most_solvents = 8;

struct SolventResidue {
    std::array<SolventLeft, most_solvents> parts{};
    std::size_t count = 0;
    double laid_g_m2 = 0;
    double left_g_m2 = 0;          ///< when the water has gone
    double film_share_1 = 0;       ///< by volume, the most that the film's surface held at any time of solvents that soften it by themselves (RED below 1)
    double red_1 = 0;              ///< of the residual blend to the film; NaN without film or residue
    std::size_t most = 0;          ///< in parts: of which most is left
};

/// Takes the liquid from laying on to dry: water and solvents leave in proportion to relative rate times activity,
///
///     d ln m_i / d ln m_water = (E_i a_i / m_i) / (E_w (1 - RH) / m_water),
///
/// and the film takes up what is in balance with that activity (Flory-Huggins, chi from Ra), as deep as diffusion has come,
/// which goes faster the more the film holds:  D = D0 exp(k share).
/// Only solvents that leave; the largest eight.
/// @source hansen2007, parameters; blanks1964, chi = 0.34 + V Ra^2 / 4RT; flory1953, activity; crank1975, uptake 2 sqrt(Dt/pi)
/// @see docs/theory/harm.md
SolventResidue solvent_residue(const Totals& liquid, const DryingOf& drying);

/// Time from dry until less than `below_g_m2` is left, s; 0 when it is less from the start or there is no film.
double vented_s(const SolventResidue& residue, double below_g_m2);

/// Relative evaporation rate of water (n-butyl acetate 1) at a humidity.
double water_rate_1(double humidity_1);

}  // namespace hw::chem
