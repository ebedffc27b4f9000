#include "desk/next_best.hpp"

#include <algorithm>
#include <cmath>

#include "atlas/bench_tests.hpp"
#include "core/belief/value.hpp"
#include "desk/validate.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

const atlas::BenchTestsRow* bench_row(std::string_view name) {
    for (const auto& row : atlas::bench_tests)
        if (row.key == name) return &row;
    return nullptr;
}

std::string minutes_words(double minutes) { return minutes < 1 ? "less than a minute" : fixed(minutes, 0) + (std::round(minutes) == 1 ? " minute" : " minutes"); }

/// The action that a test most often changes to.
std::size_t other_action(const belief::Worth& w, const std::vector<std::vector<double>>& chance) {
    std::vector<double> mass;
    for (std::size_t o = 0; o < w.act_after.size(); ++o) {
        const std::size_t a = w.act_after[o];
        if (mass.size() <= a) mass.resize(a + 1, 0.0);
        if (a != w.act_now)
            for (const auto& row : chance) mass[a] += row[o];
    }
    return static_cast<std::size_t>(std::max_element(mass.begin(), mass.end()) - mass.begin());
}

}  // namespace

std::vector<TestWorth> best_tests(const Known& known, const std::vector<std::vector<double>>& loss_min, const std::vector<std::string>& actions, const std::vector<ShopTest>& bench) {
    HW_EXPECTS(!loss_min.empty() && loss_min.size() == actions.size());
    struct Ranked {
        TestWorth test;
        double rank = 0;
    };
    std::vector<Ranked> ranked;
    for (const auto& f : known.foreseen) {
        const auto* row = bench_row(f.test);
        HW_EXPECTS(row != nullptr && f.members.size() == f.sights.size());
        if (f.members.empty()) continue;
        TestWorth t;
        t.name = f.test;
        t.how = std::string(row->how);
        t.work_min = row->work_min;
        t.wait_h = row->wait_h;
        t.harm = std::string(row->harm);
        for (const auto& shop : bench)
            if (shop.name == f.test) {
                t.have = shop.have;
                t.work_min = shop.minutes.value_or(t.work_min);
            }
        std::vector<std::vector<double>> loss;
        for (const auto& of_action : loss_min) {
            auto& some = loss.emplace_back();
            for (std::size_t i : f.members) some.push_back(of_action[i]);
        }
        std::vector<double> expected, sd;
        for (const Sight& s : f.sights) expected.push_back(s.expected), sd.push_back(s.sd);
        const std::vector<double> weight(f.members.size(), 1.0);
        // More parts come nearer to the whole reading; each needs members enough to choose by.
        constexpr std::size_t most_parts = 16, members_each = 8;
        const std::size_t parts = std::clamp<std::size_t>(f.members.size() / members_each, 2, most_parts);
        const auto chance = belief::outcome_chances(expected, sd, belief::even_edges(expected, sd, weight, parts));
        const belief::Worth w = belief::worth(loss, weight, chance);
        t.saved_min = w.saved;
        t.plus_minus_min = half_90_1 * w.plus_minus;
        t.changes_1 = w.changes_1;
        const double minutes = std::max(t.work_min, 1.0), cost = t.work_min + row->harm_min;
        t.saved_per_min_1 = t.saved_min / minutes;
        t.worth_it = t.saved_min - t.plus_minus_min > cost;
        if (!(w.changes_1 > 0)) t.sentence = "Whatever it reads, \"" + actions[w.act_now] + "\" stays best.";
        else t.sentence = "In " + in_ten(w.changes_1) + " of the cases it changes what is best from \"" + actions[w.act_now] + "\" to \"" + actions[other_action(w, chance)] + "\"; that saves " + minutes_words(t.saved_min) + " of work on average, " + (t.worth_it ? "more" : "not more") + " than it costs.";
        t.basis = {"Expected loss that the reading saves, against its work and harm", std::string(row->source), std::string(row->locator), standing_of(row->standing), minutes_words(t.work_min) + " of work, harm counted as " + minutes_words(row->harm_min) + ", " + std::to_string(f.members.size()) + " cases"};
        ranked.push_back({std::move(t), (w.saved - cost) / minutes});
    }
    std::stable_sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) { return a.test.have != b.test.have ? a.test.have : a.rank > b.rank; });
    std::vector<TestWorth> out;
    for (auto& r : ranked) out.push_back(std::move(r.test));
    return out;
}

std::string next_sentence(const std::vector<TestWorth>& tests, const std::string& best_action) {
    for (const auto& t : tests)
        if (t.have && t.worth_it) return "Next: " + t.name + ". " + t.sentence;
    const bool any = std::any_of(tests.begin(), tests.end(), [](const TestWorth& t) { return t.have && t.changes_1 > 0; });
    return (any ? "No test is worth its work just now. Best is to " : "No test would change what is best: ") + best_action + ".";
}

Result<std::vector<ShopTest>> bench_of(const std::vector<ShopTest>& asked, Ports& ports) {
    HW_TRY(kept, ports.store.bench());
    std::vector<ShopTest> out;
    for (const auto& row : atlas::bench_tests) {
        ShopTest t{std::string(row.key), true, row.work_min};
        for (const auto* list : std::array<const std::vector<ShopTest>*, 2>{&kept, &asked})
            for (const auto& s : *list)
                if (s.name == t.name) {
                    t.have = s.have;
                    if (s.minutes) t.minutes = s.minutes;
                }
        out.push_back(std::move(t));
    }
    for (std::size_t i = 0; i < asked.size(); ++i)
        if (bench_row(asked[i].name) == nullptr) return Error{ErrorCode::NotFound, "There is no test \"" + asked[i].name + "\". GET /api/bench lists them.", "bench[" + std::to_string(i) + "].name"};
    return out;
}

Result<std::vector<ShopTest>> keep_bench(const ShopTest& test, Ports& ports) {
    if (const auto bad = out_of_range(test)) return *bad;
    if (bench_row(test.name) == nullptr) {
        std::string names;
        for (const auto& row : atlas::bench_tests) names += (names.empty() ? "" : ", ") + std::string(row.key);
        return Error{ErrorCode::NotFound, "There is no test \"" + test.name + "\". Use one of: " + names + ".", "name"};
    }
    HW_TRY(done, ports.store.keep_bench(test));
    static_cast<void>(done);
    return bench_of({}, ports);
}

}  // namespace hw::desk
