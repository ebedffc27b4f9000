#include "desk/weigh.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "core/belief/spread.hpp"
#include "core/belief/weights.hpp"

namespace hw::desk {

namespace {

using Rows = std::vector<std::vector<double>>;
using Sights = std::vector<std::vector<Sight>>;
constexpr double impossible = -std::numeric_limits<double>::infinity();

double share_below(double z) { return std::erfc(-z / std::sqrt(2.0)) / 2; }

/// ln of the normal share below z, also far out where the share itself is 0.
double log_share_below(double z) {
    constexpr double far = -30;
    if (z > far) return std::log(share_below(z));
    return -z * z / 2 - std::log(-z * std::sqrt(2 * std::acos(-1.0)));
}

/// Which readings are left out.
struct Without {
    std::size_t a = none, b = none;
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    [[nodiscard]] bool has(std::size_t r) const { return r == a || r == b; }
};

double log_likelihood_of(const std::vector<Evidence>& evidence, const std::vector<Sight>& row, const Without& without) {
    if (row.empty() && !evidence.empty()) return impossible;
    double sum = 0;
    for (std::size_t r = 0; r < evidence.size(); ++r)
        if (!without.has(r)) sum += log_likelihood(evidence[r], row[r]);
    return sum;
}

std::vector<Sight> of_reading(const Sights& sights, std::size_t reading) {
    std::vector<Sight> out;
    for (const auto& row : sights) out.push_back(row.empty() ? Sight{} : row[reading]);
    return out;
}

/// What other readings leave of the members: from the prior by weights, else from what is left after all of them by taking one
/// away again, else by drawing anew without it.
class Others {
public:
    Others(const Rows& prior, const std::vector<Evidence>& evidence, const Chain& chain, const WeighOptions& options, const Weighed& weighed)
        : prior_(prior), evidence_(evidence), chain_(chain), options_(options), weighed_(weighed) {}

    struct Left {
        std::vector<Sight> sights;
        std::vector<double> weights;
    };
    /// The same by weights alone; nothing where these are worth too little to say anything.
    [[nodiscard]] std::optional<Left> by_weights(std::size_t reading, const Without& without) const {
        constexpr double least = 10;
        if (const auto w = reweighted(weighed_.sights_before, {}, without); w && w->effective >= least) return Left{of_reading(weighed_.sights_before, reading), w->weight_1};
        if (const auto w = taken_away(without); w && w->effective >= least) return Left{of_reading(weighed_.sights_after, reading), w->weight_1};
        return std::nullopt;
    }
    /// What all but `without` expect of `reading`.
    Result<Left> expect(std::size_t reading, const Without& without, const Progress& progress) {
        // Enough that a chance of one in a hundred is told apart from none.
        constexpr double enough = 40, kept_1 = 0.3;
        if (const auto w = reweighted(weighed_.sights_before, {}, without); w && w->effective >= enough) return Left{of_reading(weighed_.sights_before, reading), w->weight_1};
        const auto& after = weighed_.after;
        if (after.rejuvenated)
            if (const auto w = taken_away(without); w && w->effective >= std::max(enough, kept_1 * after.effective)) return Left{of_reading(weighed_.sights_after, reading), w->weight_1};
        return anew(reading, without, progress);
    }

private:
    std::optional<belief::Weights> reweighted(const Sights& sights, const std::vector<double>& base, const Without& without) const {
        std::vector<double> l;
        for (std::size_t i = 0; i < sights.size(); ++i) l.push_back(log_likelihood_of(evidence_, sights[i], without) + (base.empty() ? 0 : std::log(base[i])));
        auto w = belief::weights_of(l);
        if (!w.ok()) return std::nullopt;
        return *w;
    }
    std::optional<belief::Weights> taken_away(const Without& without) const {
        std::vector<double> l;
        const auto& sights = weighed_.sights_after;
        for (std::size_t i = 0; i < sights.size(); ++i) {
            double sum = std::log(weighed_.after.weight_1[i]);
            for (std::size_t r = 0; r < evidence_.size(); ++r)
                if (without.has(r) && !sights[i].empty()) sum -= log_likelihood(evidence_[r], sights[i][r]);
            l.push_back(sum);
        }
        auto w = belief::weights_of(l);
        if (!w.ok()) return std::nullopt;
        return *w;
    }
    Result<Left> anew(std::size_t reading, const Without& without, const Progress& progress) {
        // A few are enough for one chance. The first points of an even set are an even set.
        const std::size_t few = std::clamp<std::size_t>(prior_.size() / 4, 32, 64);
        const Rows start(prior_.begin(), prior_.begin() + static_cast<std::ptrdiff_t>(std::min(few, prior_.size())));
        belief::RefineOptions o;
        o.seed = options_.seed;
        const auto likelihood = [&](const Rows& u) -> Result<std::vector<double>> {
            std::vector<double> l;
            if (u == start) {
                for (std::size_t i = 0; i < u.size(); ++i) l.push_back(log_likelihood_of(evidence_, weighed_.sights_before[i], without));
                return l;
            }
            HW_TRY(sights, chain_(u));
            for (const auto& row : sights) l.push_back(log_likelihood_of(evidence_, row, without));
            return l;
        };
        HW_TRY(left, belief::refined(start, likelihood, o, progress));
        HW_TRY(sights, chain_(left.u));
        return Left{of_reading(sights, reading), left.weight_1};
    }

    const Rows& prior_;
    const std::vector<Evidence>& evidence_;
    const Chain& chain_;
    const WeighOptions& options_;
    const Weighed& weighed_;
};

/// Pairs: a reading that all the others speak against, and the one whose leaving out lets it fit best.
std::vector<Disagreement> pairs_of(const Others& others, const std::vector<Evidence>& evidence, const std::vector<Fit>& fits, const WeighOptions& options) {
    std::vector<Disagreement> out;
    for (std::size_t a = 0; a < evidence.size(); ++a) {
        if (fits[a].chance_others_1 >= options.does_not_fit_1 || fits[a].chance_before_1 < options.does_not_fit_1) continue;
        double best = options.does_not_fit_1;
        std::size_t with = Without::none;
        for (std::size_t b = 0; b < evidence.size(); ++b) {
            if (b == a) continue;
            const auto left = others.by_weights(a, {a, b});
            if (!left) continue;
            const double chance = chance_of(evidence[a], left->sights, left->weights);
            if (chance > best) best = chance, with = b;
        }
        if (with == Without::none) continue;
        const Disagreement pair{std::min(a, with), std::max(a, with)};
        if (std::none_of(out.begin(), out.end(), [&](const Disagreement& d) { return d.a == pair.a && d.b == pair.b; })) out.push_back(pair);
    }
    return out;
}

}  // namespace

double log_likelihood(const Evidence& e, const Sight& s) {
    const double z = (e.value - s.expected) / s.sd;
    return e.at_least ? log_share_below(-z) : -z * z / 2 - std::log(s.sd);
}

double chance_of(const Evidence& e, const std::vector<Sight>& sights, const std::vector<double>& weights) {
    double below = 0, sum = 0;
    for (std::size_t i = 0; i < sights.size(); ++i) {
        if (!(weights[i] > 0)) continue;
        below += weights[i] * share_below((e.value - sights[i].expected) / sights[i].sd);
        sum += weights[i];
    }
    const double lower = below / sum;
    return e.at_least ? 1 - lower : std::min(1.0, 2 * std::min(lower, 1 - lower));
}

Band band_of_reading(const std::vector<Sight>& sights, const std::vector<double>& weights) {
    double low = std::numeric_limits<double>::infinity(), high = -low, sum = 0;
    for (std::size_t i = 0; i < sights.size(); ++i) {
        if (!(weights[i] > 0)) continue;
        constexpr double all = 6;  // standard deviations that hold everything
        low = std::min(low, sights[i].expected - all * sights[i].sd);
        high = std::max(high, sights[i].expected + all * sights[i].sd);
        sum += weights[i];
    }
    const auto at = [&](double share) {
        double a = low, b = high;
        constexpr int halvings = 60;
        for (int k = 0; k < halvings; ++k) {
            const double middle = (a + b) / 2;
            double below = 0;
            for (std::size_t i = 0; i < sights.size(); ++i)
                if (weights[i] > 0) below += weights[i] * share_below((middle - sights[i].expected) / sights[i].sd);
            (below < share * sum ? a : b) = middle;
        }
        return (a + b) / 2;
    };
    return {at(0.5), at(0.25), at(0.75), at(0.05), at(0.95), ""};
}

Band band_of_members(const std::vector<double>& values, const std::vector<double>& weights, double effective, std::string unit) {
    // weighted_quantiles puts p at rank 1 + p (n - 1); p (n + 1) is wanted.
    const auto at = [n = std::max(effective, 1.0)](double p) { return n > 1 ? std::clamp((p * (n + 1) - 1) / (n - 1), 0.0, 1.0) : p; };
    const auto q = belief::weighted_quantiles(values, weights, {at(0.05), at(0.25), 0.5, at(0.75), at(0.95)});
    return {q[2], q[1], q[3], q[0], q[4], std::move(unit)};
}

Result<Weighed> weigh(const Rows& prior, const std::vector<Evidence>& evidence, const Chain& chain, const WeighOptions& options, const Progress& progress, Sights before) {
    Weighed out;
    if (before.empty()) {
        HW_TRY(sights, chain(prior));
        before = std::move(sights);
    }
    out.sights_before = std::move(before);
    belief::RefineOptions o;
    o.seed = options.seed;
    const auto likelihood = [&](const Rows& u) -> Result<std::vector<double>> {
        std::vector<double> l;
        const auto add = [&](const Sights& sights) {
            for (const auto& row : sights) l.push_back(log_likelihood_of(evidence, row, {}));
        };
        if (u == prior) {
            add(out.sights_before);
            return l;
        }
        HW_TRY(sights, chain(u));
        add(sights);
        return l;
    };
    HW_TRY(after, belief::refined(prior, likelihood, o, progress));
    out.after = std::move(after);
    if (out.after.rejuvenated) {
        HW_TRY(sights, chain(out.after.u));
        out.sights_after = std::move(sights);
    } else {
        for (std::size_t i : out.after.from) out.sights_after.push_back(out.sights_before[i]);
    }
    const belief::Spread bell{belief::Spread::Shape::Bell, -half_90_1, 0, half_90_1};
    for (std::size_t d = 0; d < prior.front().size(); ++d) {
        double mean = 0;
        for (std::size_t i = 0; i < out.after.u.size(); ++i) mean += out.after.weight_1[i] * belief::quantile(bell, out.after.u[i][d]);
        out.pull.push_back(mean);
    }
    if (!options.fits) return out;
    Others others(prior, evidence, chain, options, out);
    std::vector<double> even(prior.size(), 1.0);
    for (std::size_t i = 0; i < prior.size(); ++i)
        if (out.sights_before[i].empty() && !evidence.empty()) even[i] = 0;
    for (std::size_t r = 0; r < evidence.size(); ++r) {
        Fit fit;
        const auto seen = of_reading(out.sights_before, r);
        fit.chance_before_1 = chance_of(evidence[r], seen, even);
        fit.before = band_of_reading(seen, even);
        HW_TRY(left, others.expect(r, {r, Without::none}, progress));
        fit.chance_others_1 = chance_of(evidence[r], left.sights, left.weights);
        fit.others = band_of_reading(left.sights, left.weights);
        out.fits.push_back(std::move(fit));
    }
    out.disagreements = pairs_of(others, evidence, out.fits, options);
    return out;
}

}  // namespace hw::desk
