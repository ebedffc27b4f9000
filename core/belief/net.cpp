#include "core/belief/net.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>
#include <limits>
#include <numeric>

namespace hw::belief {

namespace {

constexpr double nothing = -std::numeric_limits<double>::infinity();

/// log of a sum of exponentials.
double log_sum(const std::vector<double>& logs) {
    const double top = *std::max_element(logs.begin(), logs.end());
    if (top == nothing) return nothing;
    double sum = 0;
    for (const double l : logs) sum += std::exp(l - top);
    return top + std::log(sum);
}

double log_veils(const std::vector<double>& veil_1, std::size_t mask) {
    double out = 0;
    for (std::size_t v = 0; v < veil_1.size(); ++v) out += std::log((mask >> v & 1) != 0 ? veil_1[v] : 1 - veil_1[v]);
    return out;
}

/// [place][state]: log chance of the veils and of what was seen there.
std::vector<std::vector<double>> by_place(const NetShape& shape, const NetPrior& prior, const std::vector<Seen>& seen) {
    std::vector<std::vector<double>> out;
    for (const auto& veils : prior.veil_1) {
        HW_EXPECTS(veils.size() == shape.veils);
        std::vector<double> of_mask;
        for (std::size_t m = 0; m < shape.masks(); ++m) of_mask.push_back(log_veils(veils, m));
        std::vector<double> place(shape.states());
        for (std::size_t i = 0; i < place.size(); ++i) place[i] = of_mask[i % shape.masks()];
        out.push_back(std::move(place));
    }
    for (const auto& s : seen) {
        HW_EXPECTS(s.place < out.size() && s.chance_1.size() == shape.states());
        auto& place = out[s.place];
        for (std::size_t i = 0; i < place.size(); ++i) place[i] += std::log(s.chance_1[i]);
    }
    return out;
}

/// [place][class * sorts + sort]: the veils added up.
std::vector<std::vector<double>> veils_added(const NetShape& shape, const std::vector<std::vector<double>>& places) {
    std::vector<std::vector<double>> out;
    for (const auto& place : places) {
        std::vector<double> added;
        for (std::size_t i = 0; i < place.size(); i += shape.masks())
            added.push_back(log_sum({place.begin() + static_cast<std::ptrdiff_t>(i), place.begin() + static_cast<std::ptrdiff_t>(i + shape.masks())}));
        out.push_back(std::move(added));
    }
    return out;
}

std::vector<double> log_prior(const NetShape& shape, const NetPrior& prior) {
    HW_EXPECTS(prior.class_sort_1.size() == shape.classes * shape.sorts);
    const double sum = std::accumulate(prior.class_sort_1.begin(), prior.class_sort_1.end(), 0.0);
    HW_EXPECTS(sum > 0);
    std::vector<double> out;
    for (const double p : prior.class_sort_1) out.push_back(std::log(p / sum));
    return out;
}

Error impossible() { return {ErrorCode::OutOfRange, "Nothing that the tables know can have given all of these answers. Look at them again.", "saw"}; }

}  // namespace

Result<NetPosterior> inferred(const NetShape& shape, const NetPrior& prior, const std::vector<Seen>& seen) {
    const auto places = by_place(shape, prior, seen);
    const auto added = veils_added(shape, places);
    std::vector<double> logs = log_prior(shape, prior);
    for (const auto& a : added)
        for (std::size_t i = 0; i < logs.size(); ++i) logs[i] += a[i];
    NetPosterior out;
    out.log_evidence = log_sum(logs);
    if (out.log_evidence == nothing) return impossible();
    for (const double l : logs) out.class_sort_1.push_back(std::exp(l - out.log_evidence));
    for (std::size_t p = 0; p < places.size(); ++p) {
        std::vector<double> veils(shape.veils, 0);
        for (std::size_t i = 0; i < shape.states(); ++i) {
            const std::size_t as = i / shape.masks();
            if (out.class_sort_1[as] == 0) continue;
            const double share = out.class_sort_1[as] * std::exp(places[p][i] - added[p][as]);
            for (std::size_t v = 0; v < shape.veils; ++v)
                if ((i >> v & 1) != 0) veils[v] += share;
        }
        out.veil_1.push_back(std::move(veils));
    }
    return out;
}

Result<std::vector<double>> joint_at(const NetShape& shape, const NetPrior& prior, const std::vector<Seen>& seen, std::size_t place) {
    const auto places = by_place(shape, prior, seen);
    HW_EXPECTS(place < places.size());
    const auto added = veils_added(shape, places);
    std::vector<double> out = places[place];
    const auto first = log_prior(shape, prior);
    for (std::size_t i = 0; i < out.size(); ++i) {
        out[i] += first[i / shape.masks()];
        for (std::size_t p = 0; p < places.size(); ++p)
            if (p != place) out[i] += added[p][i / shape.masks()];
    }
    const double all = log_sum(out);
    if (all == nothing) return impossible();
    for (double& l : out) l = std::exp(l - all);
    return out;
}

double entropy_bits(const std::vector<double>& p) {
    double out = 0;
    for (const double x : p)
        if (x > 0) out -= x * std::log2(x);
    return out;
}

NetGain gain(const NetShape& shape, const std::vector<double>& joint, const std::vector<std::vector<double>>& answers) {
    std::vector<double> now(shape.classes * shape.sorts, 0);
    for (std::size_t i = 0; i < joint.size(); ++i) now[i / shape.masks()] += joint[i];
    NetGain out;
    out.bits = entropy_bits(now);
    for (const auto& chance : answers) {
        HW_EXPECTS(chance.size() == joint.size());
        std::vector<double> after(now.size(), 0);
        double sum = 0;
        for (std::size_t i = 0; i < joint.size(); ++i) {
            const double both = joint[i] * chance[i];
            after[i / shape.masks()] += both;
            sum += both;
        }
        if (sum > 0)
            for (double& a : after) a /= sum;
        out.bits -= sum * entropy_bits(after);
        out.outcome_1.push_back(sum);
        out.after_1.push_back(std::move(after));
    }
    out.bits = std::max(0.0, out.bits);
    return out;
}

double beta_quantile(double a, double b, double u) { return boost::math::quantile(boost::math::beta_distribution<double>(a, b), u); }

}  // namespace hw::belief
