#include "core/belief/causes.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace hw::belief {

namespace {

/// Weights over the subsets of the signs that are there: bit set = explained.
using Weights = std::vector<double>;

bool is_share(double x) { return x >= 0 && x <= 1; }

/// The net as seen from these signs: what is not there is folded into one factor of each cause.
struct Folded {
    std::size_t bits = 0;
    std::vector<double> miss_1;                   ///< [cause]: chance of making none of the signs that are not there
    std::vector<std::vector<double>> chance_1;    ///< [cause][bit]
    Weights begin, end;
    double log_scale = 0;
};

Result<Folded> fold(const CauseNet& net, const std::vector<SeenSign>& seen) {
    const std::size_t causes = net.prior_1.size();
    if (net.chance_1.size() != net.leak_1.size()) return Error{ErrorCode::InvalidInput, "Each sign needs a leak and a row of chances.", "net"};
    if (!std::all_of(net.prior_1.begin(), net.prior_1.end(), is_share) || !std::all_of(net.leak_1.begin(), net.leak_1.end(), is_share))
        return Error{ErrorCode::InvalidInput, "Give chances from 0 to 1.", "net"};
    for (const auto& row : net.chance_1)
        if (row.size() != causes || !std::all_of(row.begin(), row.end(), is_share)) return Error{ErrorCode::InvalidInput, "Each sign needs one chance from 0 to 1 for each cause.", "net.chance"};
    Folded out;
    out.miss_1.assign(causes, 1.0);
    std::vector<bool> met(net.leak_1.size(), false);
    std::vector<SeenSign> there;
    for (const auto& s : seen) {
        if (s.sign >= met.size() || met[s.sign] || !(s.if_there >= 0) || !(s.if_not >= 0) || !std::isfinite(s.if_there + s.if_not))
            return Error{ErrorCode::InvalidInput, "Give each sign once, with two finite likelihoods.", "seen"};
        met[s.sign] = true;
        if (s.if_there == s.if_not) {                        // says nothing: only the scale
            out.log_scale += std::log(s.if_not);
        } else if (s.if_there == 0) {
            out.log_scale += std::log(s.if_not) + std::log1p(-net.leak_1[s.sign]);
            for (std::size_t j = 0; j < causes; ++j) out.miss_1[j] *= 1 - net.chance_1[s.sign][j];
        } else {
            there.push_back(s);
        }
    }
    if (there.size() > most_signs_there)
        return Error{ErrorCode::OutOfRange, "More than " + std::to_string(most_signs_there) + " signs are there at once. Leave out those that say least.", "seen"};
    out.bits = there.size();
    out.chance_1.assign(causes, std::vector<double>(out.bits, 0.0));
    const std::size_t n = std::size_t{1} << out.bits;
    out.begin.assign(n, 1.0);
    out.end.assign(n, 1.0);
    for (std::size_t b = 0; b < out.bits; ++b) {
        const auto& s = there[b];
        for (std::size_t j = 0; j < causes; ++j) out.chance_1[j][b] = net.chance_1[s.sign][j];
        for (std::size_t a = 0; a < n; ++a) {
            const bool on = (a >> b & 1U) != 0;
            out.begin[a] *= on ? net.leak_1[s.sign] : 1 - net.leak_1[s.sign];
            out.end[a] *= on ? s.if_there : s.if_not;
        }
    }
    return out;
}

/// What a present cause does to the weights, from the left (what is explained after it) …
void present(Weights& w, const Folded& f, std::size_t cause) {
    for (std::size_t b = 0; b < f.bits; ++b) {
        const double q = f.chance_1[cause][b];
        if (q == 0) continue;
        const std::size_t bit = std::size_t{1} << b;
        for (std::size_t a = 0; a < w.size(); ++a)
            if ((a & bit) == 0) {
                w[a | bit] += q * w[a];
                w[a] *= 1 - q;
            }
    }
}
/// … and from the right (what the rest will be worth).
void present_back(Weights& w, const Folded& f, std::size_t cause) {
    for (std::size_t b = 0; b < f.bits; ++b) {
        const double q = f.chance_1[cause][b];
        if (q == 0) continue;
        const std::size_t bit = std::size_t{1} << b;
        for (std::size_t a = 0; a < w.size(); ++a)
            if ((a & bit) == 0) w[a] = (1 - q) * w[a] + q * w[a | bit];
    }
}

/// Keeps the largest weight at 1; returns the logarithm taken out.
double rescale(Weights& w) {
    const double top = *std::max_element(w.begin(), w.end());
    if (!(top > 0)) return 0;
    for (double& x : w) x /= top;
    return std::log(top);
}

double dot(const Weights& a, const Weights& b) {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
    return sum;
}

/// Takes in one cause: absent with 1 - prior, present with prior.
void take_in(Weights& w, const Folded& f, std::size_t cause, double prior) {
    if (prior == 0) return;
    Weights with = w;
    present(with, f, cause);
    const double p = prior * f.miss_1[cause];
    for (std::size_t a = 0; a < w.size(); ++a) w[a] = (1 - prior) * w[a] + p * with[a];
}

Error impossible() { return {ErrorCode::NotConverged, "What was seen cannot happen by this table. Look at the signs again.", "seen"}; }

/// Unnormalised chances of the combinations, and the logarithm they are to be multiplied by.
struct Joint {
    std::vector<double> weight;
    double log_scale = 0;
};
Result<Joint> joint(const CauseNet& net, const std::vector<SeenSign>& seen, const std::vector<std::size_t>& chosen) {
    constexpr std::size_t most = 4;
    if (chosen.size() > most) return Error{ErrorCode::InvalidInput, "Choose at most four causes.", "chosen"};
    for (std::size_t k = 0; k < chosen.size(); ++k)
        if (chosen[k] >= net.prior_1.size() || std::count(chosen.begin(), chosen.end(), chosen[k]) != 1) return Error{ErrorCode::InvalidInput, "Choose different causes that there are.", "chosen"};
    HW_TRY(f, fold(net, seen));
    Joint out;
    out.log_scale = f.log_scale;
    Weights w = f.begin;
    for (std::size_t j = 0; j < net.prior_1.size(); ++j) {
        if (std::find(chosen.begin(), chosen.end(), j) != chosen.end()) continue;
        take_in(w, f, j, net.prior_1[j]);
        out.log_scale += rescale(w);
    }
    for (std::size_t c = 0; c < (std::size_t{1} << chosen.size()); ++c) {
        Weights v = w;
        double p = 1;
        for (std::size_t k = 0; k < chosen.size(); ++k) {
            const std::size_t j = chosen[k];
            if ((c >> k & 1U) != 0) {
                p *= net.prior_1[j] * f.miss_1[j];
                present(v, f, j);
            } else {
                p *= 1 - net.prior_1[j];
            }
        }
        out.weight.push_back(p * dot(v, f.end));
    }
    return out;
}

double entropy_part(double p) { return p > 0 ? -p * std::log2(p) : 0; }

}  // namespace

Result<CausePosterior> posterior_of(const CauseNet& net, const std::vector<SeenSign>& seen) {
    HW_TRY(f, fold(net, seen));
    const std::size_t causes = net.prior_1.size();
    CausePosterior out;
    out.log_evidence = f.log_scale;
    out.there_1.assign(causes, 0.0);
    std::vector<Weights> before;                  // weights before each cause
    Weights w = f.begin;
    for (std::size_t j = 0; j < causes; ++j) {
        before.push_back(w);
        take_in(w, f, j, net.prior_1[j]);
        out.log_evidence += rescale(w);
    }
    const double total = dot(w, f.end);
    if (!(total > 0)) return impossible();
    out.log_evidence += std::log(total);
    Weights after = f.end;
    for (std::size_t j = causes; j-- > 0;) {
        Weights with = after;
        present_back(with, f, j);
        const double p = net.prior_1[j] * f.miss_1[j];
        const double there = p * dot(before[j], with), not_there = (1 - net.prior_1[j]) * dot(before[j], after);
        out.there_1[j] = there / (there + not_there);
        for (std::size_t a = 0; a < after.size(); ++a) after[a] = (1 - net.prior_1[j]) * after[a] + p * with[a];
        rescale(after);
    }
    return out;
}

Result<std::vector<double>> joint_of(const CauseNet& net, const std::vector<SeenSign>& seen, const std::vector<std::size_t>& chosen) {
    HW_TRY(j, joint(net, seen, chosen));
    double sum = 0;
    for (double x : j.weight) sum += x;
    if (!(sum > 0)) return impossible();
    for (double& x : j.weight) x /= sum;
    return std::move(j.weight);
}

Result<double> worth_of(const CauseNet& net, const std::vector<SeenSign>& seen, const std::vector<std::size_t>& chosen, const std::vector<std::size_t>& chain) {
    std::vector<SeenSign> so_far = seen;
    HW_TRY(now, joint(net, so_far, chosen));
    const double scale = now.log_scale;
    std::vector<std::vector<double>> outcomes;
    std::vector<double> left = now.weight;
    for (const std::size_t sign : chain) {
        if (std::any_of(so_far.begin(), so_far.end(), [&](const SeenSign& s) { return s.sign == sign; })) continue;
        so_far.push_back({sign, 0, 1});
        HW_TRY(without, joint(net, so_far, chosen));
        std::vector<double> found = left;
        for (std::size_t c = 0; c < found.size(); ++c) {
            const double still = without.weight[c] * std::exp(without.log_scale - scale);
            found[c] = std::max(0.0, left[c] - still);
            left[c] = still;
        }
        outcomes.push_back(std::move(found));
    }
    outcomes.push_back(std::move(left));
    double sum = 0;
    for (const auto& o : outcomes)
        for (double x : o) sum += x;
    if (!(sum > 0)) return impossible();
    // I(causes; outcome) = H(causes) + H(outcome) - H(both)
    double both = 0, of_outcome = 0;
    std::vector<double> of_causes(now.weight.size(), 0.0);
    for (const auto& o : outcomes) {
        double p = 0;
        for (std::size_t c = 0; c < o.size(); ++c) {
            both += entropy_part(o[c] / sum);
            of_causes[c] += o[c] / sum;
            p += o[c] / sum;
        }
        of_outcome += entropy_part(p);
    }
    double worth = of_outcome - both;
    for (double p : of_causes) worth += entropy_part(p);
    return std::max(0.0, worth);
}

}  // namespace hw::belief
