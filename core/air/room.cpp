#include "core/air/room.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "atlas/constants.hpp"
#include "atlas/mould_times.hpp"
#include "base/result.hpp"

namespace hw::air {

namespace {

constexpr double pressure_pa = 101325;
constexpr double never = std::numeric_limits<double>::infinity();

double gas_constant_j_k_mol() {
    for (const auto& row : atlas::constants)
        if (row.name == "gas_constant") return row.value_j_k_mol;
    throw Bug("no gas constant");
}

/// (1 - exp(-a t)) / a, which is t where a is 0.
double decayed(double a, double t) { return a * t == 0 ? t : -std::expm1(-a * t) / a; }

/// (decayed(a, t) - decayed(b, t)) / (b - a): as it stands where a and b differ, by its series where they nearly do not.
double between(double a, double b, double t) {
    const double d = b - a;
    if (std::abs(d) * t > 1e-4) return (decayed(a, t) - decayed(b, t)) / d;
    // Minus the derivative of decayed at the middle; what is left out is (d t)^2 / 24 of it.
    const double m = (a + b) / 2, x = m * t;
    if (x < 1e-3) return t * t * (0.5 - x / 3 + x * x / 8);
    return (-std::expm1(-x) - x * std::exp(-x)) / (m * m);
}

double leaving_per_h(const Release& r) { return r.leaves_h > 0 ? 1 / r.leaves_h : never; }

/// Level after a steady release of 1 g/h into 1 m3 that began at 0 and has not ended.
double rising(double t, double n, double k) {
    if (t <= 0) return 0;
    if (std::isinf(k)) return decayed(n, t);
    // k times the convolution of both decays: k [ (1 - e^-nt)/n - (1 - e^-kt)/k ] / (k - n).
    return k * between(n, k, t);
}

/// Its integral from 0.
double rising_sum(double t, double n, double k) {
    if (t <= 0) return 0;
    // What was released is in the air, on the surface, or has been carried out:  n sum = t - rising - surface.
    if (n * t > 1e-3) return (t - rising(t, n, k) - (std::isinf(k) ? 0 : decayed(k, t))) / n;
    // Nearly shut: the same by Simpson's rule, whose error is of the order (k t)^5 and (n t)^5 of a step.
    const int steps = 2 * static_cast<int>(std::clamp(std::isinf(k) ? 1.0 : k * t * 20, 50.0, 4000.0));
    const double h = t / steps;
    double sum = rising(t, n, k);
    for (int i = 1; i < steps; ++i) sum += rising(i * h, n, k) * (i % 2 == 1 ? 4 : 2);
    return sum * h / 3;
}

/// Level after all of 1 g came at once onto a surface in 1 m3.
double at_once(double t, double n, double k) {
    if (t < 0) return 0;
    if (std::isinf(k)) return std::exp(-n * t);
    const double d = k - n;
    // k (e^-nt - e^-kt) / (k - n)
    if (std::abs(d) * t > 1) return k * (std::exp(-n * t) - std::exp(-k * t)) / d;
    return d == 0 ? k * t * std::exp(-n * t) : k * std::exp(-n * t) * -std::expm1(-d * t) / d;
}

}  // namespace

double molar_volume_m3_mol(Temperature air) { return gas_constant_j_k_mol() * air.kelvin() / pressure_pa; }
double ppm_of(double mg_m3, double molar_mass_g_mol, Temperature air) { return mg_m3 * 1e3 * molar_volume_m3_mol(air) / molar_mass_g_mol; }
double mg_m3_of(double ppm, double molar_mass_g_mol, Temperature air) { return ppm * molar_mass_g_mol / molar_volume_m3_mol(air) * 1e-3; }
double grams_for(double ppm, double volume_m3, double molar_mass_g_mol, Temperature air) { return mg_m3_of(ppm, molar_mass_g_mol, air) * volume_m3 * 1e-3; }

double dilution_m3_h(double grams_per_h, double ppm, double molar_mass_g_mol, Temperature air, double mixing_1) {
    HW_EXPECTS(ppm > 0 && molar_mass_g_mol > 0);
    return grams_per_h * molar_volume_m3_mol(air) * 1e6 * mixing_1 / (molar_mass_g_mol * ppm);
}

double clearing_h(double share_1, double air_changes_per_h, double mixing_1) {
    HW_EXPECTS(share_1 > 0 && share_1 <= 1);
    return share_1 == 1 ? 0 : air_changes_per_h > 0 ? mixing_1 * -std::log(share_1) / air_changes_per_h : never;
}

double level_mg_m3(const Release& r, const Room& room, double at_h) {
    HW_EXPECTS(room.volume_m3 > 0);
    const double n = room.air_changes_per_h, k = leaving_per_h(r), mg_m3 = r.grams * 1e3 / room.volume_m3;
    if (at_h < 0) return 0;
    if (r.over_h <= 0) return mg_m3 * at_once(at_h, n, k);
    return mg_m3 / r.over_h * (rising(at_h, n, k) - rising(at_h - r.over_h, n, k));
}

double mean_mg_m3(const Release& r, const Room& room, double from_h, double to_h) {
    HW_EXPECTS(to_h > from_h && room.volume_m3 > 0);
    const double n = room.air_changes_per_h, k = leaving_per_h(r), mg_m3 = r.grams * 1e3 / room.volume_m3;
    const auto sum = [&](double t) {
        if (t <= 0) return 0.0;
        // All at once is the slope of the steady release.
        if (r.over_h <= 0) return rising(t, n, k);
        return (rising_sum(t, n, k) - rising_sum(t - r.over_h, n, k)) / r.over_h;
    };
    return mg_m3 * (sum(to_h) - sum(from_h)) / (to_h - from_h);
}

double on_surface_g(const Release& r, double at_h) {
    if (r.leaves_h <= 0 || at_h < 0) return 0;
    const double k = leaving_per_h(r);
    if (r.over_h <= 0) return r.grams * std::exp(-k * at_h);
    const auto held = [&](double t) { return t <= 0 ? 0 : decayed(k, t); };
    return r.grams / r.over_h * (held(at_h) - held(at_h - r.over_h));
}

double peak_h(const Release& r, const Room& room) {
    const double n = room.air_changes_per_h, k = leaving_per_h(r), d = r.over_h;
    if (std::isinf(k)) return std::max(d, 0.0);
    if (n <= 0) return never;
    if (d <= 0) return std::abs(n / k - 1) < 1e-9 ? 1 / k : std::log(n / k) / (n - k);
    // After the end the level is A e^-nt + B e^-kt: flat where  e^((n-k)t) = (e^nd - 1) / (e^kd - 1).
    const auto grown = [&](double a) { return a * d + std::log(-std::expm1(-a * d)); };  // ln(e^ad - 1), also where e^ad overflows
    if (std::abs(n / k - 1) < 1e-6) return d / -std::expm1(-(n + k) / 2 * d);
    return (grown(n) - grown(k)) / (n - k);
}

double peak_mg_m3(const Release& r, const Room& room) {
    const double at = peak_h(r, room);
    return std::isinf(at) ? r.grams * 1e3 / room.volume_m3 : level_mg_m3(r, room, at);
}

double below_h(const Release& r, const Room& room, double mg_m3) {
    if (peak_mg_m3(r, room) <= mg_m3) return 0;
    if (room.air_changes_per_h <= 0 || mg_m3 <= 0) return never;
    double low = peak_h(r, room), high = low + 1;
    while (level_mg_m3(r, room, high) > mg_m3) {
        low = high;
        high *= 2;
        if (high > 1e6) return never;
    }
    for (int i = 0; i < 80; ++i) {
        const double middle = (low + high) / 2;
        (level_mg_m3(r, room, middle) > mg_m3 ? low : high) = middle;
    }
    return high;
}

double worst_mean_mg_m3(const Release& r, const Room& room, double window_h) {
    const double top = peak_h(r, room);
    if (std::isinf(top)) return r.grams * 1e3 / room.volume_m3;
    // The level has one top: the worst window begins before it, where both its ends stand equally high.
    double low = std::max(0.0, top - window_h), high = top;
    for (int i = 0; i < 80; ++i) {
        const double middle = (low + high) / 2;
        (level_mg_m3(r, room, middle) < level_mg_m3(r, room, middle + window_h) ? low : high) = middle;
    }
    return mean_mg_m3(r, room, high, high + window_h);
}

double share_of_limits(const std::vector<Part>& parts) {
    double sum = 0;
    for (const Part& p : parts) {
        HW_EXPECTS(p.limit > 0);
        sum += p.level / p.limit;
    }
    return sum;
}

double mixture_lel_pct(const std::vector<Part>& shares_and_limits) { return 1 / share_of_limits(shares_and_limits); }

double mould_growth_h(double humidity_pct) {
    const auto& rows = atlas::mould_times;
    if (humidity_pct < rows.front().humidity_pct) return never;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (humidity_pct <= rows[i].humidity_pct) {
            const double share = (humidity_pct - rows[i - 1].humidity_pct) / (rows[i].humidity_pct - rows[i - 1].humidity_pct);
            return std::exp((1 - share) * std::log(rows[i - 1].growth_h) + share * std::log(rows[i].growth_h));
        }
    return rows.back().growth_h;
}

}  // namespace hw::air
