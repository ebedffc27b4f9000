#include "core/belief/weights.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace hw::belief {

Result<Weights> weights_of(const std::vector<double>& log_likelihood) {
    HW_EXPECTS(!log_likelihood.empty());
    constexpr double infinite = std::numeric_limits<double>::infinity();
    double largest = -infinite;
    for (double l : log_likelihood) {
        HW_EXPECTS(!std::isnan(l) && l < infinite);
        largest = std::max(largest, l);
    }
    if (largest == -infinite) return Error{ErrorCode::OutOfRange, "No case that was thought of can have given these readings. Look for one that was entered wrongly.", "readings"};
    Weights out;
    double sum = 0;
    for (double l : log_likelihood) sum += out.weight_1.emplace_back(std::exp(l - largest));
    for (double& w : out.weight_1) w /= sum;
    out.effective = effective_number(out.weight_1);
    out.log_mean = largest + std::log(sum / static_cast<double>(log_likelihood.size()));
    return out;
}

double effective_number(const std::vector<double>& weights) {
    double sum = 0, squares = 0;
    for (double w : weights) {
        HW_EXPECTS(w >= 0);
        sum += w;
        squares += w * w;
    }
    HW_EXPECTS(sum > 0);
    return sum * sum / squares;
}

std::vector<double> weighted_quantiles(const std::vector<double>& values, const std::vector<double>& weights, const std::vector<double>& shares) {
    HW_EXPECTS(values.size() == weights.size());
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (weights[i] > 0) order.push_back(i);
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    double sum = 0;
    for (std::size_t i : order) sum += weights[i];
    const double window = 1 / effective_number(weights);
    std::vector<double> out;
    for (double share : shares) {
        HW_EXPECTS(share >= 0 && share <= 1);
        const double from = share * (1 - window), to = from + window;
        double before = 0, held = 0, mean = 0;
        for (std::size_t i : order) {
            const double after = before + weights[i] / sum, part = std::min(after, to) - std::max(before, from);
            if (part > 0) {
                mean += part * values[i];
                held += part;
            }
            if (after >= to) break;
            before = after;
        }
        // The pieces may fall short of the window by round-off, at the top even of all of it.
        out.push_back(held > 0 ? std::clamp(mean / held, values[order.front()], values[order.back()]) : values[order.back()]);
    }
    return out;
}

WeightedShare weighted_share(const std::vector<bool>& inside, const std::vector<double>& weights, double effective) {
    HW_EXPECTS(inside.size() == weights.size());
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0), n = effective_number(weights);
    WeightedShare out;
    for (std::size_t i = 0; i < weights.size(); ++i)
        if (inside[i]) out.share_1 += weights[i] / sum;
    const double all = 1 + 4 / n, p = (out.share_1 + 2 / n) / all;
    double squares = 2 / (n * n) * (p * p + (1 - p) * (1 - p));
    for (std::size_t i = 0; i < weights.size(); ++i) {
        const double off = weights[i] / sum * ((inside[i] ? 1 : 0) - p);
        squares += off * off;
    }
    out.share_1 = std::min(out.share_1, 1.0);
    out.plus_minus_1 = std::sqrt(squares) / all * (effective > 0 ? std::sqrt(std::max(1.0, n / effective)) : 1);
    return out;
}

std::vector<std::size_t> systematic(const std::vector<double>& weights, std::size_t count, double u) {
    HW_EXPECTS(u > 0 && u < 1 && count > 0);
    double sum = 0;
    std::size_t last = weights.size();
    for (std::size_t i = 0; i < weights.size(); ++i) {
        HW_EXPECTS(weights[i] >= 0);
        sum += weights[i];
        if (weights[i] > 0) last = i;
    }
    HW_EXPECTS(sum > 0);
    std::vector<std::size_t> out;
    out.reserve(count);
    double reached = 0;
    for (std::size_t i = 0; i <= last; ++i) {
        reached += weights[i];
        // The last member takes what round-off would leave.
        while (out.size() < count && weights[i] > 0 && (i == last || (static_cast<double>(out.size()) + u) * sum < reached * static_cast<double>(count))) out.push_back(i);
    }
    return out;
}

}  // namespace hw::belief
