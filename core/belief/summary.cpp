#include "core/belief/summary.hpp"

#include <algorithm>
#include <cmath>

#include "base/result.hpp"

namespace hw::belief {

namespace {

constexpr std::size_t most_degrees = 10, members_per_degree = 16, parts = 8;

double mean_of(const std::vector<double>& y) {
    double sum = 0;
    for (double v : y) sum += v;
    return sum / static_cast<double>(y.size());
}

/// Variance that a coordinate explains, and the part of it that noise would make if the members were random.
struct Explained {
    double share_1 = 0, noise_1 = 0;
};

/// The part that a member belongs to. Of even points each run of consecutive ones is even by itself; every eighth is not.
std::size_t part_of(std::size_t member, std::size_t members) { return member * parts / members; }

/// Of one coordinate, over the members that are not in `left_out` (parts: none).
Explained index_of(const std::vector<std::vector<double>>& u, const std::vector<double>& y, std::size_t coordinate, std::size_t left_out) {
    double n = 0, mean = 0;
    for (std::size_t i = 0; i < y.size(); ++i)
        if (part_of(i, y.size()) != left_out) { mean += y[i]; n += 1; }
    mean /= n;
    const std::size_t degrees = std::clamp<std::size_t>(static_cast<std::size_t>(n) / members_per_degree, 1, most_degrees);
    std::vector<double> sum(degrees, 0.0), square(degrees, 0.0);
    double variance = 0;
    for (std::size_t i = 0; i < y.size(); ++i) {
        if (part_of(i, y.size()) == left_out) continue;
        const double x = 2 * u[i][coordinate] - 1, off = y[i] - mean;
        variance += off * off;
        // Legendre by recurrence, scaled to mean square 1.
        double before = 1, now = x;
        for (std::size_t k = 1; k <= degrees; ++k) {
            const double kd = static_cast<double>(k), term = off * now * std::sqrt(2 * kd + 1);
            sum[k - 1] += term;
            square[k - 1] += term * term;
            const double next = ((2 * kd + 1) * x * now - kd * before) / (kd + 1);
            before = now;
            now = next;
        }
    }
    variance /= n;
    if (!(variance > 0)) return {};
    Explained out;
    for (std::size_t k = 0; k < degrees; ++k) {
        const double c = sum[k] / n;
        out.share_1 += c * c / variance;
        out.noise_1 += (square[k] / n - c * c) / (n - 1) / variance;
    }
    return out;
}

}  // namespace

std::vector<double> quantiles(std::vector<double> values, const std::vector<double>& shares) {
    HW_EXPECTS(!values.empty());
    std::sort(values.begin(), values.end());
    std::vector<double> out;
    for (double share : shares) {
        HW_EXPECTS(share >= 0 && share <= 1);
        const double at = share * static_cast<double>(values.size() - 1);
        const auto below = static_cast<std::size_t>(at);
        const std::size_t above = std::min(below + 1, values.size() - 1);
        out.push_back(values[below] + (at - static_cast<double>(below)) * (values[above] - values[below]));
    }
    return out;
}

Five five(std::vector<double> values) {
    const auto q = quantiles(std::move(values), {0.05, 0.25, 0.5, 0.75, 0.95});
    return {q[0], q[1], q[2], q[3], q[4]};
}

double share_error(double share, std::size_t members) {
    const double n = static_cast<double>(members) + 4, p = (share * static_cast<double>(members) + 2) / n;
    return std::sqrt(p * (1 - p) / n);
}

std::vector<FirstOrder> first_order(const std::vector<std::vector<double>>& u, const std::vector<double>& y) {
    HW_EXPECTS(u.size() == y.size() && !u.empty());
    std::vector<FirstOrder> out(u.front().size());
    // A spread that is only round-off has no causes.
    double largest = 0;
    for (double v : y) largest = std::max(largest, std::abs(v));
    const auto [low, high] = std::minmax_element(y.begin(), y.end());
    if (*high - *low <= 1e-9 * largest || u.size() < 2 * parts) return out;
    for (std::size_t d = 0; d < out.size(); ++d) {
        // Even members make less noise than random ones, down to none: half of it is taken off, and half stays as doubt.
        const Explained whole = index_of(u, y, d, parts);
        out[d].share_1 = std::clamp(whole.share_1 - whole.noise_1 / 2, 0.0, 1.0);
        std::vector<double> without;
        for (std::size_t p = 0; p < parts; ++p) {
            const Explained part = index_of(u, y, d, p);
            without.push_back(part.share_1 - part.noise_1 / 2);
        }
        const double mean = mean_of(without);
        double squares = 0;
        for (double v : without) squares += (v - mean) * (v - mean);
        constexpr double k = parts;
        out[d].plus_minus_1 = std::hypot(std::sqrt((k - 1) / k * squares), whole.noise_1 / 2);
    }
    return out;
}

}  // namespace hw::belief
