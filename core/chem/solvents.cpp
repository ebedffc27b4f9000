#include "core/chem/solvents.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "atlas/constants.hpp"
#include "atlas/finish_film_chances.hpp"
#include "atlas/finish_films.hpp"
#include "atlas/harm_constants.hpp"
#include "atlas/solvents.hpp"
#include "atlas/substances.hpp"

namespace hw::chem {

namespace {

constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double most_in_film_1 = 0.8;            // by volume: beyond it there is no film left to speak of
constexpr double most_dried_at_wipe = 0.99;
constexpr int dwell_steps = 6, drying_steps = 24;  // in the logarithm of the water left; tested against far smaller steps

const atlas::HarmConstantsRow& constant(std::string_view key) {
    for (const auto& row : atlas::harm_constants)
        if (row.key == key) return row;
    throw Bug("no row in harm_constants: " + std::string(key));
}

/// What the inner loop needs of the atlas, looked up once.
struct Fixed {
    std::vector<std::size_t> solvent_of_substance;
    std::size_t water = none;
    double surface_m = constant("film_surface").value_um * 1e-6, film_m2_s = constant("film_diffusion").value_m2_s;
    double softening = constant("film_softening").value_1, water_left = constant("water_left").value_1;
    double leaves_from = constant("leaves_from").value_1, entropy_part = constant("entropy_part").value_1;
    double free_kg_m2_s = constant("dry_air_rate").value_kg_m2_s;
};

const Fixed& fixed() {
    static const Fixed f = [] {
        Fixed out;
        for (const auto& substance : atlas::substances) {
            std::size_t at = none;
            for (std::size_t i = 0; i < atlas::solvents.size(); ++i)
                if (atlas::solvents[i].cas == substance.cas) at = i;
            out.solvent_of_substance.push_back(at);
        }
        out.water = *solvent_named("water");
        return out;
    }();
    return f;
}

/// A solvent on its way: what of it does not change while the film dries.
struct Moving {
    double molar_mass = 0, density = 0, rate = 0, log_gamma = 0;
    double parts_at_1 = 1, parts_activity_1 = 1;   // volume share in water at which it begins to part, and its activity from there on
    double chi = 0;                                // with the film
    double mass = 0;                               // liquid, g/m2
    double in_film = 0, evaporated = 0;            // g/m2
    bool attacks = false;                          // softens the film by itself
};

struct Path {
    std::array<Moving, most_solvents> part{};
    std::size_t count = 0;
    double water = 0;                              // g/m2
    double film_m = 0, film_m2_s = 0;
    double humidity = 0;
    double most_share = 0;                         // by volume, of solvents that attack, at the surface of the film
};

/// Flory-Huggins: the volume share of solvent in a film in balance with an activity, lowest root by plain iteration from below.
double share_in_film(double activity, double chi) {
    double share = 0;
    for (int i = 0; i < 8; ++i) share = std::min(most_in_film_1, activity * std::exp(-(1 - share) - chi * (1 - share) * (1 - share)));
    return share;
}

/// One step: the film takes up, then water falls to `water_factor` of what it was and the solvents follow.
void step(Path& p, double water_factor, double wet_s) {
    const double water_volume = p.water / 0.997, water_mol = p.water / 18.015;
    double volume = water_volume, mol = water_mol;
    for (std::size_t i = 0; i < p.count; ++i) {
        volume += p.part[i].mass / p.part[i].density;
        mol += p.part[i].mass / p.part[i].molar_mass;
    }
    const double by_water = water_volume / volume;
    std::array<double, most_solvents> activity{}, wanted{};
    double shares = 0, attacking = 0, held_m = 0;
    for (std::size_t i = 0; i < p.count; ++i) {
        Moving& m = p.part[i];
        activity[i] = std::min(1.0, std::exp(m.log_gamma * by_water * by_water) * m.mass / m.molar_mass / mol);
        const double pair = m.mass / m.density + water_volume;
        if (m.mass / m.density > m.parts_at_1 * pair) activity[i] = std::max(activity[i], m.parts_activity_1 * pair / volume);
        wanted[i] = p.film_m > 0 ? share_in_film(activity[i], m.chi) : 0;
        shares += wanted[i];
        if (m.attacks) attacking += wanted[i];
    }
    const double crowded = shares > most_in_film_1 ? most_in_film_1 / shares : 1;
    // A film that has taken up solvent lets more in: diffusion grows exponentially with the share.
    const double film_m2_s = p.film_m2_s * std::exp(fixed().softening * shares * crowded);
    const double depth_m = p.film_m > 0 ? std::min(p.film_m, 2 * std::sqrt(film_m2_s * wet_s * std::numbers::inv_pi)) : 0;
    const double water_rate = water_rate_1(p.humidity) / p.water, log_factor = std::log(water_factor);
    for (std::size_t i = 0; i < p.count; ++i) {
        Moving& m = p.part[i];
        const double room = wanted[i] * crowded * depth_m * 1e6 * m.density - m.in_film;  // m times g/cm3 is 1e6 g/m2
        if (room > 0) {
            const double in = std::min(room, m.mass / 2);
            m.in_film += in;
            m.mass -= in;
        }
        if (m.attacks) held_m += m.in_film * 1e-6 / m.density;
        if (!(m.mass > 1e-12)) continue;
        const double stays = m.mass * std::exp(m.rate * activity[i] / m.mass / water_rate * log_factor);
        m.evaporated += m.mass - stays;
        m.mass = stays;
    }
    // The surface is in balance with the liquid, as long as there was enough to fill it.
    if (p.film_m > 0) p.most_share = std::max(p.most_share, std::min(attacking * crowded, held_m / std::min(p.film_m, fixed().surface_m)));
    p.water *= water_factor;
}

/// ln gamma = A (share of water)^2 lets the activity fall again once A is above 2: there the two part, and it stays where it was.
void find_parting(Moving& m) {
    if (m.log_gamma <= 2) return;
    const double share = m.parts_at_1 = (1 - std::sqrt(1 - 2 / m.log_gamma)) / 2;
    const double mol = share * m.density / m.molar_mass, water_mol = (1 - share) * 0.997 / 18.015;
    m.parts_activity_1 = std::min(1.0, std::exp(m.log_gamma * (1 - share) * (1 - share)) * mol / (mol + water_mol));
}

double total_left(const SolventResidue& r, double after_s) {
    double sum = 0;
    for (std::size_t i = 0; i < r.count; ++i) sum += r.parts[i].left_g_m2() * std::exp(-after_s / r.parts[i].gone_time_s);
    return sum;
}

}  // namespace

double hansen_distance_mpa_half(const Hansen& a, const Hansen& b) {
    const double d = a.d_mpa_half - b.d_mpa_half, p = a.p_mpa_half - b.p_mpa_half, h = a.h_mpa_half - b.h_mpa_half;
    return std::sqrt(4 * d * d + p * p + h * h);
}

std::optional<std::size_t> solvent_named(std::string_view name) {
    for (std::size_t i = 0; i < atlas::solvents.size(); ++i)
        if (atlas::solvents[i].name == name) return i;
    return std::nullopt;
}

std::optional<std::size_t> solvent_of(std::size_t substance) {
    const std::size_t at = fixed().solvent_of_substance.at(substance);
    return at == none ? std::nullopt : std::optional(at);
}

std::optional<std::size_t> finish_film(std::string_view key) {
    for (std::size_t i = 0; i < atlas::finish_films.size(); ++i)
        if (atlas::finish_films[i].key == key) return i;
    return std::nullopt;
}

Hansen hansen_of_solvent(std::size_t solvent) {
    const auto& row = atlas::solvents.at(solvent);
    return {row.d_mpa_half, row.p_mpa_half, row.h_mpa_half};
}

Hansen hansen_of_film(std::size_t film) {
    const auto& row = atlas::finish_films.at(film);
    return {row.d_mpa_half, row.p_mpa_half, row.h_mpa_half};
}

double relative_energy_difference(const Hansen& liquid, std::size_t film, double radius_1) {
    return hansen_distance_mpa_half(liquid, hansen_of_film(film)) / (atlas::finish_films.at(film).radius_mpa_half * radius_1);
}

Hansen blend(const std::vector<BlendPart>& parts) {
    Hansen out;
    double volume = 0;
    for (const auto& part : parts) volume += part.volume_1;
    if (!(volume > 0)) return out;
    for (const auto& part : parts) {
        const double share = part.volume_1 / volume;
        out.d_mpa_half += share * part.hansen.d_mpa_half;
        out.p_mpa_half += share * part.hansen.p_mpa_half;
        out.h_mpa_half += share * part.hansen.h_mpa_half;
    }
    return out;
}

std::vector<FilmChance> films_of(std::string_view leather_class) {
    std::vector<FilmChance> out;
    for (const auto& row : atlas::finish_film_chances)
        if (row.leather_class == leather_class) out.push_back({finish_film(row.film).value(), row.chance_1});
    return out;
}

double softening_pct(const Totals& liquid, std::string_view leather_class) {
    const auto films = films_of(leather_class);
    double sum = 0;
    for (const Recognised& r : liquid.recognised) {
        const auto solvent = solvent_of(r.row);
        if (solvent && std::any_of(films.begin(), films.end(), [&](const FilmChance& f) { return relative_energy_difference(hansen_of_solvent(*solvent), f.film) < 1; })) sum += r.content_pct;
    }
    return sum;
}

bool leaves(std::size_t solvent) { return atlas::solvents.at(solvent).evaporation_rate_1 >= fixed().leaves_from && solvent != fixed().water; }

double water_rate_1(double humidity_1) { return atlas::solvents[fixed().water].evaporation_rate_1 * (1 - humidity_1); }

SolventResidue solvent_residue(const Totals& liquid, const DryingOf& drying) {
    HW_EXPECTS(drying.water_loss_g_m2_s > 0 && drying.dwell_s >= 0);
    HW_EXPECTS(drying.dose_g_m2 >= 0 && drying.kept_1 >= 0 && drying.kept_1 <= 1 && drying.finish_um >= 0);
    HW_EXPECTS(drying.finish_um == 0 || drying.film < atlas::finish_films.size());
    const Fixed& f = fixed();
    SolventResidue out;
    out.red_1 = nan;
    Path p;
    p.humidity = std::clamp(drying.humidity_1, 0.0, 0.95);
    p.film_m = drying.finish_um * 1e-6;
    p.film_m2_s = f.film_m2_s * drying.release_1;
    p.water = std::max(drying.dose_g_m2 * liquid.water_kg_kg, 1e-12);
    const bool film = p.film_m > 0;
    for (const Recognised& r : liquid.recognised) {
        const std::size_t solvent = f.solvent_of_substance[r.row];
        if (solvent == none || solvent == f.water || !leaves(solvent) || !(r.content_pct > 0)) continue;
        const double laid = drying.dose_g_m2 * r.content_pct / 100;
        std::size_t at = out.count;
        if (at == most_solvents) {  // full: the smallest gives way
            at = static_cast<std::size_t>(std::min_element(out.parts.begin(), out.parts.end(), [](const auto& a, const auto& b) { return a.laid_g_m2 < b.laid_g_m2; }) - out.parts.begin());
            if (out.parts[at].laid_g_m2 >= laid) continue;
            out.laid_g_m2 -= out.parts[at].laid_g_m2;
        } else ++out.count;
        const auto& row = atlas::solvents[solvent];
        Moving m;
        m.molar_mass = atlas::substances[r.row].molar_mass_g_mol;
        m.density = row.density_g_cm3;
        m.rate = row.evaporation_rate_1;
        m.log_gamma = drying.activity_1 * std::log(row.in_water_gamma_1);
        m.mass = laid;
        find_parting(m);
        if (film) {
            const double ra = hansen_distance_mpa_half(hansen_of_solvent(solvent), hansen_of_film(drying.film)) / drying.radius_1;
            m.attacks = ra < atlas::finish_films[drying.film].radius_mpa_half;
            // MPa times cm3/mol is J/mol.
            m.chi = f.entropy_part + m.molar_mass / m.density * ra * ra / 4 / (atlas::constants[0].value_j_k_mol * drying.air.kelvin());
        }
        p.part[at] = m;
        out.parts[at] = {};
        out.parts[at].solvent = solvent;
        out.parts[at].laid_g_m2 = laid;
        out.laid_g_m2 += laid;
    }
    p.count = out.count;
    if (p.count == 0) return out;

    // Water leaves at one rate before and after the wipe.
    const double lost = drying.water_loss_g_m2_s * drying.dwell_s, water_at_wipe = 1 - std::min(lost / p.water, most_dried_at_wipe);
    const double after_s = drying.kept_1 * p.water * water_at_wipe / drying.water_loss_g_m2_s;
    const double factor = std::pow(water_at_wipe, 1.0 / dwell_steps);
    double w = 1;
    for (int i = 0; i < dwell_steps; ++i) {
        w *= factor;
        step(p, factor, lost > 0 ? drying.dwell_s * (1 - w) / (1 - water_at_wipe) : 0);
    }
    for (std::size_t i = 0; i < p.count; ++i) {
        out.parts[i].wiped_g_m2 = p.part[i].mass * (1 - drying.kept_1);
        p.part[i].mass *= drying.kept_1;
    }
    p.water *= std::max(drying.kept_1, 1e-9);
    const double then = std::pow(f.water_left, 1.0 / drying_steps);
    w = 1;
    for (int i = 0; i < drying_steps; ++i) {
        w *= then;
        step(p, then, drying.dwell_s + after_s * (1 - w) / (1 - f.water_left));
    }

    Hansen mean;
    double volume = 0;
    for (std::size_t i = 0; i < p.count; ++i) {
        SolventLeft& part = out.parts[i];
        const Moving& m = p.part[i];
        part.in_film_g_m2 = m.in_film;
        part.on_surface_g_m2 = m.mass;
        part.evaporated_g_m2 = m.evaporated;
        out.left_g_m2 += part.left_g_m2();
        if (film) {
            // Out of the film by diffusion, then off its surface: the two in series.
            const double inside_s = 4 * p.film_m * p.film_m / (std::numbers::pi * std::numbers::pi * p.film_m2_s);
            const double surface_s = p.film_m * 1000 * m.density / (f.free_kg_m2_s * m.rate * std::exp(1 + m.chi));
            part.gone_time_s = inside_s + surface_s;
        }
        const Hansen h = hansen_of_solvent(part.solvent);
        const double v = part.left_g_m2() / m.density;
        volume += v;
        mean.d_mpa_half += v * h.d_mpa_half;
        mean.p_mpa_half += v * h.p_mpa_half;
        mean.h_mpa_half += v * h.h_mpa_half;
        if (part.left_g_m2() > out.parts[out.most].left_g_m2()) out.most = i;
    }
    out.film_share_1 = p.most_share;
    if (film && volume > 0) out.red_1 = relative_energy_difference({mean.d_mpa_half / volume, mean.p_mpa_half / volume, mean.h_mpa_half / volume}, drying.film, drying.radius_1);
    return out;
}

double vented_s(const SolventResidue& residue, double below_g_m2) {
    HW_EXPECTS(below_g_m2 > 0);
    double longest = 0;
    for (std::size_t i = 0; i < residue.count; ++i) longest = std::max(longest, residue.parts[i].gone_time_s);
    if (longest <= 0 || total_left(residue, 0) <= below_g_m2) return 0;
    double low = 0, high = longest * std::log(residue.left_g_m2 / below_g_m2) + 1;
    for (int i = 0; i < 30; ++i) {
        const double mid = (low + high) / 2;
        (total_left(residue, mid) > below_g_m2 ? low : high) = mid;
    }
    return high;
}

}  // namespace hw::chem
