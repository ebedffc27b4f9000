#include "core/belief/value.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numeric>

#include "base/result.hpp"

namespace hw::belief {

namespace {

using Rows = std::vector<std::vector<double>>;
constexpr double infinite = std::numeric_limits<double>::infinity();

/// Share of a standard normal between two points, without loss of digits in either tail.
double between(double low, double high) {
    const double root = std::sqrt(2.0);
    if (low > 0) return (std::erfc(low / root) - std::erfc(high / root)) / 2;
    return (std::erfc(-high / root) - std::erfc(-low / root)) / 2;
}

/// What to do now and after each outcome.
struct Plan {
    std::size_t now = 0;
    std::vector<std::size_t> after;
};

/// The members [from, to) alone.
struct Part {
    std::size_t from = 0, to = 0;
};

double total(const std::vector<double>& weight, Part part) { return std::accumulate(weight.begin() + static_cast<std::ptrdiff_t>(part.from), weight.begin() + static_cast<std::ptrdiff_t>(part.to), 0.0); }

Plan best_plan(const Rows& loss, const std::vector<double>& weight, const Rows& chance, Part part) {
    Plan plan;
    // Losses are compared with those of one action, member by member: what all actions lose alike leaves no round-off.
    const auto spare = [&](std::size_t against, std::size_t action, std::size_t outcome, bool of_outcome) {
        double sum = 0;
        for (std::size_t i = part.from; i < part.to; ++i) sum += weight[i] * (of_outcome ? chance[i][outcome] : 1) * (loss[against][i] - loss[action][i]);
        return sum;
    };
    for (std::size_t a = 1; a < loss.size(); ++a)
        if (spare(plan.now, a, 0, false) > 0) plan.now = a;
    for (std::size_t o = 0; o < chance.front().size(); ++o) {
        std::size_t best = plan.now;
        double most = 0;
        for (std::size_t a = 0; a < loss.size(); ++a) {
            const double s = spare(plan.now, a, o, true);
            if (s > most) {
                most = s;
                best = a;
            }
        }
        plan.after.push_back(best);
    }
    return plan;
}

/// What a plan saves for one member.
double saved_by(const Plan& plan, const Rows& loss, const Rows& chance, std::size_t member) {
    double sum = 0;
    for (std::size_t o = 0; o < plan.after.size(); ++o) sum += chance[member][o] * (loss[plan.now][member] - loss[plan.after[o]][member]);
    return sum;
}

}  // namespace

Worth worth(const Rows& loss, const std::vector<double>& weight, const Rows& chance) {
    const std::size_t n = weight.size();
    HW_EXPECTS(!loss.empty() && n > 0 && chance.size() == n && !chance.front().empty());
    for (const auto& l : loss) HW_EXPECTS(l.size() == n && std::all_of(l.begin(), l.end(), [](double v) { return std::isfinite(v); }));
    for (const auto& row : chance) {
        constexpr double round_off = 1e-9;
        HW_EXPECTS(row.size() == chance.front().size() && std::all_of(row.begin(), row.end(), [](double c) { return c >= 0; }));
        HW_EXPECTS(std::abs(std::accumulate(row.begin(), row.end(), 0.0) - 1) < round_off);
    }
    HW_EXPECTS(std::all_of(weight.begin(), weight.end(), [](double w) { return w >= 0; }));
    const Part all{0, n};
    const double sum = total(weight, all);
    HW_EXPECTS(sum > 0);

    const Plan plan = best_plan(loss, weight, chance, all);
    Worth out;
    out.act_now = plan.now;
    out.act_after = plan.after;
    for (std::size_t i = 0; i < n; ++i) out.now += weight[i] / sum * loss[plan.now][i];
    std::vector<double> by_member(n);
    for (std::size_t i = 0; i < n; ++i) by_member[i] = saved_by(plan, loss, chance, i);
    for (std::size_t o = 0; o < plan.after.size(); ++o) {
        if (plan.after[o] == plan.now) continue;
        double saved = 0, likely = 0;
        for (std::size_t i = 0; i < n; ++i) {
            saved += weight[i] / sum * chance[i][o] * (loss[plan.now][i] - loss[plan.after[o]][i]);
            likely += weight[i] / sum * chance[i][o];
        }
        out.saved += std::max(saved, 0.0);
        out.changes_1 += likely;
    }
    out.changes_1 = std::min(out.changes_1, 1.0);
    out.after = out.now - out.saved;

    double squares = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double off = weight[i] / sum * (by_member[i] - out.saved);
        squares += off * off;
    }
    // Actions chosen by these members suit these members: each half's choice is tried on the other half.
    const Part first{0, n / 2}, second{n / 2, n};
    const double in_first = total(weight, first), in_second = total(weight, second);
    double flattered = 0;
    if (in_first > 0 && in_second > 0) {
        const Plan of_first = best_plan(loss, weight, chance, first), of_second = best_plan(loss, weight, chance, second);
        double crossed = 0;
        for (std::size_t i = 0; i < n; ++i) crossed += weight[i] / sum * saved_by(i < first.to ? of_second : of_first, loss, chance, i);
        flattered = out.saved - crossed;
    }
    out.plus_minus = std::sqrt(squares + flattered * flattered);
    return out;
}

Rows outcome_chances(const std::vector<double>& predicted, const std::vector<double>& sd, const std::vector<double>& edges) {
    HW_EXPECTS(predicted.size() == sd.size() && std::is_sorted(edges.begin(), edges.end()));
    Rows out;
    for (std::size_t i = 0; i < predicted.size(); ++i) {
        HW_EXPECTS(std::isfinite(predicted[i]) && sd[i] >= 0);
        auto& row = out.emplace_back();
        double low = -infinite;
        for (std::size_t k = 0; k <= edges.size(); ++k) {
            const double off = k < edges.size() ? edges[k] - predicted[i] : infinite;
            const double high = sd[i] > 0 ? off / sd[i] : off >= 0 ? infinite : -infinite;
            row.push_back(low < high ? between(low, high) : 0);
            low = high;
        }
    }
    return out;
}

std::vector<double> even_edges(const std::vector<double>& predicted, const std::vector<double>& sd, const std::vector<double>& weight, std::size_t parts) {
    HW_EXPECTS(!predicted.empty() && predicted.size() == sd.size() && predicted.size() == weight.size() && parts >= 1);
    constexpr double widths = 10;  // nothing that a share could show lies farther out
    double lowest = infinite, highest = -infinite, sum = 0;
    for (std::size_t i = 0; i < predicted.size(); ++i) {
        HW_EXPECTS(std::isfinite(predicted[i]) && sd[i] >= 0 && weight[i] >= 0);
        if (!(weight[i] > 0)) continue;
        lowest = std::min(lowest, predicted[i] - widths * sd[i]);
        highest = std::max(highest, predicted[i] + widths * sd[i]);
        sum += weight[i];
    }
    HW_EXPECTS(sum > 0);
    const auto below = [&](double x) {
        double share = 0;
        for (std::size_t i = 0; i < predicted.size(); ++i)
            if (weight[i] > 0) share += weight[i] / sum * (sd[i] > 0 ? between(-infinite, (x - predicted[i]) / sd[i]) : x >= predicted[i] ? 1.0 : 0.0);
        return share;
    };
    constexpr int bits = 40;
    std::vector<double> edges;
    double from = lowest;
    for (std::size_t k = 1; k < parts; ++k) {
        const auto missing = [&](double x) { return below(x) - static_cast<double>(k) / static_cast<double>(parts); };
        const double at_from = missing(from), at_highest = missing(highest);
        if (at_from < 0 && at_highest > 0) {
            std::uintmax_t most_steps = 100;
            from = boost::math::tools::toms748_solve(missing, from, highest, at_from, at_highest, boost::math::tools::eps_tolerance<double>(bits), most_steps).second;
        }
        edges.push_back(from);
    }
    return edges;
}

}  // namespace hw::belief
