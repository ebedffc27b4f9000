#include "desk/weigh.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "core/belief/points.hpp"
#include "core/belief/spread.hpp"

namespace hw::desk {
namespace {

using Rows = std::vector<std::vector<double>>;

/// A leather in four numbers, cheap enough to be solved a million times: the shape of what the section does, not its figures.
/// A dose lifts the surface until the buffer is used up, and from there fast.
struct Simple {
    double dose = 0, start = 0, shift = 0, buffer = 0;

    static Simple at(const std::vector<double>& u) {
        using belief::Spread;
        const auto bell = [](double half, double share) { return belief::quantile({Spread::Shape::Bell, -half, 0, half}, share); };
        return {10 * std::exp(bell(0.9, u[0])), 4 + bell(0.8, u[1]), bell(0.5, u[2]), 1 + bell(0.2, u[3])};
    }
    [[nodiscard]] double surface() const {
        const double taken = dose / (10 * buffer);
        return start + taken + 1.5 * std::log1p(std::exp(4 * (taken - 1.5))) / 4 + shift;
    }
    [[nodiscard]] double control() const { return start + shift; }
};

/// Surface, control, and the weight of what was used.
std::vector<Sight> shown(const std::vector<double>& u, const std::vector<double>& sd) {
    const Simple s = Simple::at(u);
    return {{s.surface(), sd[0]}, {s.control(), sd[1]}, {s.dose, sd[2]}};
}

Chain chain_of(const std::vector<double>& sd, std::vector<std::size_t> which) {
    return [=](const Rows& u) -> Result<std::vector<std::vector<Sight>>> {
        std::vector<std::vector<Sight>> out;
        for (const auto& point : u) {
            const auto all = shown(point, sd);
            auto& row = out.emplace_back();
            for (std::size_t r : which) row.push_back(all[r]);
        }
        return out;
    };
}

struct Draws {
    std::mt19937_64 engine{20260102};
    double even() { return (static_cast<double>(engine() >> 11) + 0.5) * 0x1p-53; }
    double normal() { return belief::quantile({belief::Spread::Shape::Bell, -half_90_1, 0, half_90_1}, even()); }
    std::vector<double> truth() { return {even(), even(), even(), even()}; }
    std::vector<Evidence> read(const std::vector<double>& u, const std::vector<double>& sd, const std::vector<std::size_t>& which) {
        std::vector<Evidence> out;
        const auto all = shown(u, sd);
        for (std::size_t r : which) out.push_back({all[r].expected + sd[r] * normal(), false});
        return out;
    }
};

std::vector<double> band(const Weighed& w, const std::function<double(const Simple&)>& of) {
    std::vector<double> values;
    for (const auto& u : w.after.u) values.push_back(of(Simple::at(u)));
    const Band b = band_of_members(values, w.after.weight_1, w.after.effective, "");
    return {b.low_90, b.high_90};
}

const std::vector<double> usual_sd{0.18, 0.18, 1};
WeighOptions without_fits() {
    WeighOptions o;
    o.fits = false;
    return o;
}

TEST(WeighingProperty, BandsHoldNineTenthsOfSimulatedTruths) {
    const Rows prior = *belief::even_points(256, 4);
    Draws draws;
    // Of 1000 truths a band of nine tenths holds 900 ± 9.5 (binomial); 87 to 93 % is three of these either way.
    constexpr int truths = 1000;
    const std::vector<std::function<double(const Simple&)>> quantities{[](const Simple& s) { return s.dose; }, [](const Simple& s) { return s.start; }, [](const Simple& s) { return s.surface() - s.shift; }};
    for (const auto& which : {std::vector<std::size_t>{0}, {0, 1}, {0, 1, 2}}) {
        std::vector<int> held(quantities.size(), 0);
        int anew = 0;
        for (int t = 0; t < truths; ++t) {
            const auto truth = draws.truth();
            WeighOptions o = without_fits();
            o.seed = static_cast<std::uint64_t>(t) + 1;
            const auto w = weigh(prior, draws.read(truth, usual_sd, which), chain_of(usual_sd, which), o);
            ASSERT_TRUE(w.ok());
            anew += w->after.rejuvenated;
            for (std::size_t k = 0; k < quantities.size(); ++k) {
                const auto b = band(*w, quantities[k]);
                const double is = quantities[k](Simple::at(truth));
                held[k] += b[0] <= is && is <= b[1];
            }
        }
        for (std::size_t k = 0; k < quantities.size(); ++k) {
            EXPECT_GE(held[k], 870) << which.size() << " readings, quantity " << k;
            EXPECT_LE(held[k], 930) << which.size() << " readings, quantity " << k;
        }
        if (which.size() == 3) {
            EXPECT_GT(anew, 0) << "tempering is covered too";
        }
    }
}

TEST(WeighingProperty, RanksOfTruthsAreEven) {
    // Simulation-based calibration: the share of the weighted members below the truth is even on (0, 1).
    const Rows prior = *belief::even_points(256, 4);
    Draws draws;
    constexpr int truths = 600, bins = 10;
    std::vector<int> count(bins, 0);
    for (int t = 0; t < truths; ++t) {
        const auto truth = draws.truth();
        WeighOptions o = without_fits();
        o.seed = static_cast<std::uint64_t>(t) + 1;
        const auto w = weigh(prior, draws.read(truth, usual_sd, {0, 1}), chain_of(usual_sd, {0, 1}), o);
        ASSERT_TRUE(w.ok());
        double below = 0;
        for (std::size_t i = 0; i < w->after.u.size(); ++i) below += Simple::at(w->after.u[i]).dose < Simple::at(truth).dose ? w->after.weight_1[i] : 0;
        ++count[static_cast<std::size_t>(std::min(bins - 1, static_cast<int>(bins * below)))];
    }
    double chi = 0;
    for (int c : count) chi += std::pow(c - truths / bins, 2) / (truths / bins);
    constexpr double one_in_a_hundred = 21.67;  // chi-squared with nine degrees of freedom
    EXPECT_LT(chi, one_in_a_hundred);
}

TEST(WeighingProperty, ASharperReadingDoesNotWidenOnAverage) {
    const Rows prior = *belief::even_points(256, 4);
    constexpr int truths = 120;
    std::vector<double> mean;
    for (double sd : {0.8, 0.4, 0.2, 0.1}) {
        Draws draws;
        const std::vector<double> all{sd, 0.18, 1};
        double sum = 0;
        for (int t = 0; t < truths; ++t) {
            const auto truth = draws.truth();
            const auto w = weigh(prior, draws.read(truth, all, {0, 1}), chain_of(all, {0, 1}), without_fits());
            ASSERT_TRUE(w.ok());
            const auto b = band(*w, [](const Simple& s) { return s.dose; });
            sum += b[1] - b[0];
        }
        mean.push_back(sum / truths);
    }
    for (std::size_t i = 1; i < mean.size(); ++i) EXPECT_LT(mean[i], mean[i - 1]);
}

TEST(WeighingProperty, AControlOnTheSameFinishTakesItsShiftOut) {
    const Rows prior = *belief::even_points(1024, 4);
    const std::vector<double> truth{0.7, 0.6, 0.97, 0.5};
    const auto all = shown(truth, usual_sd);
    const auto read = [&](const std::vector<std::size_t>& which) {
        std::vector<Evidence> e;
        for (std::size_t r : which) e.push_back({all[r].expected, false});
        const auto w = *weigh(prior, e, chain_of(usual_sd, which), without_fits());
        const auto b = band(w, [](const Simple& s) { return s.surface() - s.control(); });
        return b[1] - b[0];
    };
    // The rise of the place over the rest is known better by both than by one.
    EXPECT_LT(read({0, 1}), 0.6 * read({0}));
}

TEST(WeighingProperty, AReadingFarOutIsNamedAlsoWhereWeightsCollapse) {
    const Rows prior = *belief::even_points(256, 4);
    const std::vector<std::size_t> which{0, 1, 2};
    const std::vector<double> sharp{0.05, 0.05, 0.3};
    const auto middle = shown({0.5, 0.5, 0.5, 0.5}, sharp);
    std::vector<Evidence> fits, misfits;
    for (const auto& s : middle) fits.push_back({s.expected, false});
    misfits = fits;
    misfits[0].value += 3;  // what ten times the dose would read
    const auto fine = *weigh(prior, fits, chain_of(sharp, which)), wrong = *weigh(prior, misfits, chain_of(sharp, which));
    for (const auto& f : fine.fits) EXPECT_GT(f.chance_others_1, 0.2);
    EXPECT_TRUE(wrong.after.rejuvenated);
    EXPECT_LT(wrong.fits[0].chance_others_1, 0.01);
    EXPECT_TRUE(fine.disagreements.empty());
    double pulled = 0;
    for (double pull : wrong.pull) pulled = std::max(pulled, std::abs(pull));
    EXPECT_GT(pulled, 2) << "something was pulled beyond what was believed of it";
}

TEST(WeighingProperty, TwoReadingsOfOnePlaceThatDifferAreAPair) {
    const Rows prior = *belief::even_points(256, 4);
    const std::vector<std::size_t> which{0, 0, 1};
    const double surface = shown({0.5, 0.5, 0.5, 0.5}, usual_sd)[0].expected, control = shown({0.5, 0.5, 0.5, 0.5}, usual_sd)[1].expected;
    const std::vector<Evidence> e{{surface - 0.7, false}, {surface + 0.7, false}, {control, false}};
    const auto w = *weigh(prior, e, chain_of(usual_sd, which));
    ASSERT_EQ(w.disagreements.size(), 1u);
    EXPECT_EQ(w.disagreements[0].a, 0u);
    EXPECT_EQ(w.disagreements[0].b, 1u);
}

TEST(WeighingProperty, NoReadingChangesNothing) {
    const Rows prior = *belief::even_points(64, 4);
    const auto w = *weigh(prior, {}, chain_of(usual_sd, {}));
    EXPECT_EQ(w.after.u, prior);
    for (double weight : w.after.weight_1) EXPECT_DOUBLE_EQ(weight, 1.0 / 64);
    for (double pull : w.pull) EXPECT_NEAR(pull, 0, 0.05);  // even points: means converge faster than 1/sqrt(64) = 0.125
}

TEST(WeighingConsistency, TheEndOfAScaleSaysSoMuchOrMore) {
    const Evidence end{3600, true};
    EXPECT_GT(log_likelihood(end, {9000, 100}), log_likelihood(end, {3600, 100}));
    EXPECT_NEAR(log_likelihood(end, {9000, 100}), 0, 1e-9);
    EXPECT_NEAR(log_likelihood(end, {3600, 100}), std::log(0.5), 1e-12);
    EXPECT_TRUE(std::isfinite(log_likelihood(end, {-9000, 100})));
}

}  // namespace
}  // namespace hw::desk
