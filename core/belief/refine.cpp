#include "core/belief/refine.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>
#include <random>

#include "core/belief/weights.hpp"

namespace hw::belief {

namespace {

using Rows = std::vector<std::vector<double>>;
constexpr double infinite = std::numeric_limits<double>::infinity();

double probit(double u) { return boost::math::quantile(boost::math::normal(), u); }
double share_below(double z) { return boost::math::cdf(boost::math::normal(), z); }

/// The engine is fixed by the standard to the bit; its distributions are not, so these are ours.
class Random {
public:
    explicit Random(std::uint64_t seed) : engine_(seed) {}
    double even() { return (static_cast<double>(engine_() >> 11) + 0.5) * 0x1p-53; }
    double normal() { return probit(even()); }

private:
    std::mt19937_64 engine_;
};

struct Members {
    Rows z, u;
    std::vector<double> log_likelihood;
    std::vector<std::size_t> founder;  ///< the point of the prior that a member descends from

    Members of(const std::vector<std::size_t>& chosen) const {
        Members out;
        for (std::size_t i : chosen) {
            out.z.push_back(z[i]);
            out.u.push_back(u[i]);
            out.log_likelihood.push_back(log_likelihood[i]);
            out.founder.push_back(founder[i]);
        }
        return out;
    }
};

double squared(const std::vector<double>& v) { return std::inner_product(v.begin(), v.end(), v.begin(), 0.0); }

/// Eigenvalues and, as rows, eigenvectors of a symmetric matrix, by Jacobi's rotations.
struct Axes {
    std::vector<double> value;
    Rows direction;
};
Axes axes_of(Rows a) {
    const std::size_t n = a.size();
    Axes out{std::vector<double>(n), Rows(n, std::vector<double>(n, 0.0))};
    for (std::size_t k = 0; k < n; ++k) out.direction[k][k] = 1;
    constexpr int most_sweeps = 30;
    constexpr double round_off = 1e-30;
    for (int sweep = 0; sweep < most_sweeps; ++sweep) {
        double off = 0, all = 0;
        for (std::size_t p = 0; p < n; ++p)
            for (std::size_t q = 0; q < n; ++q) {
                all += a[p][q] * a[p][q];
                if (p != q) off += a[p][q] * a[p][q];
            }
        if (off <= round_off * all) break;
        for (std::size_t p = 0; p + 1 < n; ++p)
            for (std::size_t q = p + 1; q < n; ++q) {
                if (a[p][q] == 0) continue;
                const double slope = (a[q][q] - a[p][p]) / (2 * a[p][q]), t = (slope < 0 ? -1 : 1) / (std::abs(slope) + std::hypot(slope, 1.0));
                const double c = 1 / std::hypot(t, 1.0), s = t * c;
                const auto turned = [&](double& x, double& y) {
                    const double before = x;
                    x = c * before - s * y;
                    y = s * before + c * y;
                };
                for (std::size_t k = 0; k < n; ++k) turned(a[k][p], a[k][q]);
                for (std::size_t k = 0; k < n; ++k) turned(a[p][k], a[q][k]);
                for (std::size_t k = 0; k < n; ++k) turned(out.direction[p][k], out.direction[q][k]);
            }
    }
    for (std::size_t k = 0; k < n; ++k) out.value[k] = a[k][k];
    return out;
}

/// Normal distribution that the moves leave as it is: the prior, shifted to where the members are and scaled along the directions
/// that readings have clearly narrowed or widened. What it differs from the truth in, acceptance makes good.
class Reference {
public:
    Reference(const Rows& z, const Weights& weights) {
        const std::size_t size = z.front().size();
        std::vector<double>& mean = mean_;
        mean.assign(size, 0.0);
        for (std::size_t i = 0; i < z.size(); ++i)
            for (std::size_t d = 0; d < size; ++d) mean[d] += weights.weight_1[i] * z[i][d];
        Rows covariance(size, std::vector<double>(size, 0.0));
        for (std::size_t i = 0; i < z.size(); ++i) {
            if (!(weights.weight_1[i] > 0)) continue;
            for (std::size_t r = 0; r < size; ++r)
                for (std::size_t c = 0; c <= r; ++c) covariance[r][c] += weights.weight_1[i] * (z[i][r] - mean[r]) * (z[i][c] - mean[c]);
        }
        for (std::size_t r = 0; r < size; ++r)
            for (std::size_t c = 0; c < r; ++c) covariance[c][r] = covariance[r][c];
        const Axes axes = axes_of(covariance);
        // Where all variances are 1, those of a sample scatter from (1 - sqrt g)^2 to (1 + sqrt g)^2; what lies outside is no
        // chance, and is corrected for what chance adds (eigenvalues of spiked samples). Members of one founder are worth less
        // than their weights say: half is counted.
        constexpr double kin = 2;
        const double g = kin * static_cast<double>(size) / weights.effective;
        for (std::size_t k = 0; k < size; ++k) {
            const double seen = axes.value[k], middle = (seen + 1 - g) / 2;
            const bool narrow = g < 1 && seen < (1 - std::sqrt(g)) * (1 - std::sqrt(g)), wide = seen > (1 + std::sqrt(g)) * (1 + std::sqrt(g));
            if (!narrow && !wide) continue;
            const double root = std::sqrt(std::max(0.0, middle * middle - seen)), variance = narrow ? seen / (middle + root) : middle + root;
            constexpr double flat = 1e-12;  // members that lie on one point say nothing of it
            if (!(variance > flat)) continue;
            directions_.push_back({axes.direction[k], std::sqrt(variance)});
        }
        // Across all other directions a mean is off by g in the square by chance alone (James and Stein's shrinking).
        std::vector<double> other = mean;
        for (const Direction& d : directions_) {
            const double along = std::inner_product(other.begin(), other.end(), d.axis.begin(), 0.0);
            for (std::size_t k = 0; k < size; ++k) other[k] -= along * d.axis[k];
        }
        const double square = squared(other), lost = square > g ? g / square : 1;
        for (std::size_t k = 0; k < size; ++k) mean[k] -= lost * other[k];
    }
    std::vector<double> white(std::vector<double> z) const {
        std::transform(z.begin(), z.end(), mean_.begin(), z.begin(), std::minus<>());
        return scaled(std::move(z), [](double sd) { return 1 / sd; });
    }
    std::vector<double> coloured(std::vector<double> y) const {
        y = scaled(std::move(y), [](double sd) { return sd; });
        std::transform(y.begin(), y.end(), mean_.begin(), y.begin(), std::plus<>());
        return y;
    }

private:
    struct Direction {
        std::vector<double> axis;
        double sd = 1;
    };
    /// The axes are at right angles: one after the other is all at once.
    template <class By>
    std::vector<double> scaled(std::vector<double> v, const By& by) const {
        for (const Direction& d : directions_) {
            const double step = (by(d.sd) - 1) * std::inner_product(v.begin(), v.end(), d.axis.begin(), 0.0);
            for (std::size_t k = 0; k < v.size(); ++k) v[k] += step * d.axis[k];
        }
        return v;
    }
    std::vector<double> mean_;
    std::vector<Direction> directions_;
};

/// The largest exponent at which the members keep their share of what is possible at all; at most 1.
double next_exponent(double exponent, const std::vector<double>& log_likelihood, double share) {
    const auto worth_at = [&](double step) {
        double largest = -infinite, sum = 0, squares = 0;
        for (double l : log_likelihood) largest = std::max(largest, l);
        for (double l : log_likelihood) {
            const double w = l == -infinite ? 0 : std::exp(step * (l - largest));
            sum += w;
            squares += w * w;
        }
        return sum * sum / squares;
    };
    const auto possible = static_cast<double>(std::count_if(log_likelihood.begin(), log_likelihood.end(), [](double l) { return l > -infinite; }));
    const double least = share * possible;
    double low = 0, high = 1 - exponent;
    if (worth_at(high) >= least) return 1;
    constexpr int halvings = 50;
    for (int k = 0; k < halvings; ++k) {
        const double middle = (low + high) / 2;
        (worth_at(middle) >= least ? low : high) = middle;
    }
    return std::max(exponent + high, std::nextafter(exponent, 1.0));
}

/// Number of independent members that have the same error of the mean, by the coordinate where it is least: members of one
/// founder count together (Chan & Lai's estimate of the variance, with the usual correction for few families).
double effective_of_kin(const Members& members, const std::vector<double>& weight, std::size_t founders) {
    std::vector<double> family(founders, 0.0);
    for (std::size_t i = 0; i < weight.size(); ++i) family[members.founder[i]] += weight[i];
    const double families = effective_number(family);
    if (families <= 1) return 1;  // one family says nothing of its own error
    double least = effective_number(weight);
    for (std::size_t d = 0; d < members.z.front().size(); ++d) {
        double mean = 0, variance = 0, error = 0;
        for (std::size_t i = 0; i < weight.size(); ++i) mean += weight[i] * members.z[i][d];
        std::fill(family.begin(), family.end(), 0.0);
        for (std::size_t i = 0; i < weight.size(); ++i) {
            const double off = members.z[i][d] - mean;
            variance += weight[i] * off * off;
            family[members.founder[i]] += weight[i] * off;
        }
        for (double f : family) error += f * f * families / (families - 1);
        least = std::min(least, error > 0 ? variance / error : 1.0);
    }
    return std::max(least, 1.0);
}

/// The likelihood, counted and held to its promise.
struct Asked {
    const LogLikelihood& likelihood;
    int evaluations = 0;

    Result<std::vector<double>> at(const Rows& u) {
        if (u.empty()) return std::vector<double>{};
        HW_TRY(answer, likelihood(u));
        HW_EXPECTS(answer.size() == u.size());
        for (double l : answer) HW_EXPECTS(!std::isnan(l) && l < infinite);
        evaluations += static_cast<int>(u.size());
        return std::move(answer);
    }
};

/// Proposes one move for every member, asks for all of them at once, and takes those that are accepted.
/// @return number taken
Result<std::size_t> moved(Members& members, const Reference& reference, double exponent, double stride, Random& random, Asked& asked) {
    // Beyond this a share rounds to 1. The prior holds 1e-15 there, which is left out.
    constexpr double farthest = 8;
    const double stay = std::sqrt(1 - stride * stride);
    Rows z, u;
    std::vector<std::size_t> who;
    std::vector<double> log_ratio, threshold;
    for (std::size_t i = 0; i < members.z.size(); ++i) {
        const std::vector<double> y = reference.white(members.z[i]);
        std::vector<double> to = y;
        for (double& v : to) v = stay * v + stride * random.normal();
        const double luck = std::log(random.even());
        std::vector<double> there = reference.coloured(to);
        if (std::any_of(there.begin(), there.end(), [](double v) { return std::abs(v) > farthest; })) continue;
        who.push_back(i);
        // Prior over reference, there and here.
        log_ratio.push_back(((squared(to) - squared(there)) - (squared(y) - squared(members.z[i]))) / 2);
        threshold.push_back(luck);
        auto& point = u.emplace_back(there.size());
        std::transform(there.begin(), there.end(), point.begin(), share_below);
        z.push_back(std::move(there));
    }
    HW_TRY(log_likelihood, asked.at(u));
    std::size_t taken = 0;
    for (std::size_t k = 0; k < who.size(); ++k) {
        const std::size_t i = who[k];
        if (!(threshold[k] < log_ratio[k] + exponent * (log_likelihood[k] - members.log_likelihood[i]))) continue;
        members.z[i] = std::move(z[k]);
        members.u[i] = std::move(u[k]);
        members.log_likelihood[i] = log_likelihood[k];
        ++taken;
    }
    return taken;
}

/// Length of the next step's moves, from the share of this step's that was accepted.
double next_stride(double stride, double accepted) {
    constexpr double few = 0.25, many = 0.5, shorter = 0.5, longer = 1.5;
    if (accepted < few) return stride * std::max(shorter, accepted / few);
    return accepted > many ? std::min(1.0, stride * longer) : stride;
}

/// Share of the ladder that is climbed, as far as can be seen: exponents grow about as they last did.
double climbed(double exponent, double before, int steps) {
    if (exponent >= 1) return 1;
    const double growth = before > 0 ? std::max(1.1, exponent / before) : 2, left = std::log(1 / exponent) / std::log(growth);
    return steps / (steps + left);
}

}  // namespace

Result<Refined> refined(const Rows& prior, const LogLikelihood& likelihood, const RefineOptions& options, const Progress& progress) {
    HW_EXPECTS(!prior.empty() && !prior.front().empty() && likelihood);
    HW_EXPECTS(options.step_effective_1 > 0 && options.step_effective_1 < 1 && options.moves >= 1 && options.most_steps >= 1);
    double shown = 0;
    const auto cancelled = [&](double done, const char* doing) {
        shown = std::max(shown, done);
        return progress && !progress(shown, doing);
    };
    const Error stopped{ErrorCode::NotConverged, "Cancelled.", ""};

    if (cancelled(0, "weighing the cases")) return stopped;
    const std::size_t n = prior.size();
    Asked asked{likelihood};
    HW_TRY(at_prior, asked.at(prior));
    HW_TRY(whole, weights_of(at_prior));
    Refined out;
    if (whole.effective >= options.least_effective_1 * static_cast<double>(n)) {
        out.u = prior;
        out.weight_1 = whole.weight_1;
        out.from.resize(n);
        std::iota(out.from.begin(), out.from.end(), std::size_t{0});
        out.effective = whole.effective;
        out.log_evidence = whole.log_mean;
        out.exponents = {1};
        out.evaluations = asked.evaluations;
        out.report = {Outcome::Converged, 1, 1 / std::sqrt(whole.effective)};
        return out;
    }

    Members members;
    members.u = prior;
    for (const auto& u : prior) {
        auto& z = members.z.emplace_back(u.size());
        std::transform(u.begin(), u.end(), z.begin(), probit);
    }
    members.log_likelihood = at_prior;
    members.founder.resize(n);
    std::iota(members.founder.begin(), members.founder.end(), std::size_t{0});
    out.weight_1.assign(n, 1 / static_cast<double>(n));
    out.rejuvenated = true;
    out.report.outcome = Outcome::Converged;

    Random random(options.seed);
    constexpr double first_stride = 0.7;
    double exponent = 0, stride = first_stride;
    std::size_t proposed = 0, taken = 0;
    while (exponent < 1) {
        const bool spent = out.report.iterations == options.most_steps;
        const double before = exponent;
        exponent = spent ? 1 : next_exponent(before, members.log_likelihood, options.step_effective_1);
        std::vector<double> gain;
        for (double l : members.log_likelihood) gain.push_back((exponent - before) * l);
        HW_TRY(weights, weights_of(gain));
        out.log_evidence += weights.log_mean;
        out.exponents.push_back(exponent);
        if (spent) {
            out.weight_1 = weights.weight_1;
            out.report.outcome = Outcome::OutOfBudget;
            break;
        }
        ++out.report.iterations;
        const Reference reference(members.z, weights);
        members = members.of(systematic(weights.weight_1, n, random.even()));
        std::size_t taken_now = 0;
        for (int k = 0; k < options.moves; ++k) {
            const double low = climbed(before > 0 ? before : exponent, 0, before > 0 ? out.report.iterations - 1 : 0);
            const double high = climbed(exponent, before, out.report.iterations);
            if (cancelled(low + (high - low) * k / options.moves, "moving the cases towards the readings")) return stopped;
            HW_TRY(now, moved(members, reference, exponent, stride, random, asked));
            taken_now += now;
        }
        const std::size_t proposed_now = n * static_cast<std::size_t>(options.moves);
        stride = next_stride(stride, static_cast<double>(taken_now) / static_cast<double>(proposed_now));
        proposed += proposed_now;
        taken += taken_now;
    }
    out.effective = effective_of_kin(members, out.weight_1, n);
    out.u = std::move(members.u);
    out.accepted_1 = static_cast<double>(taken) / static_cast<double>(proposed);
    out.evaluations = asked.evaluations;
    out.report.residual = 1 / std::sqrt(out.effective);
    return out;
}

}  // namespace hw::belief
