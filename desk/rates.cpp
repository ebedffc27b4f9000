#include "desk/rates.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "atlas/leather_classes.hpp"
#include "atlas/spot_rules.hpp"
#include "core/belief/rates.hpp"
#include "desk/rows.hpp"
#include "desk/words.hpp"

namespace hw::desk {

namespace {

struct Sum {
    std::string product;
    int n = 0, passed = 0, caution = 0, failed = 0;
    void add(SpotMark mark) {
        ++n;
        passed += mark == SpotMark::Pass;
        caution += mark == SpotMark::Caution;
        failed += mark == SpotMark::Fail;
    }
    [[nodiscard]] belief::Counts counts() const { return {n, passed}; }
};

struct Kind {
    Sum all;
    std::map<std::string, Sum> products;          ///< by key
};

double limit_pct(std::string_view key) { return row_of(atlas::spot_rules, key).limit_pct; }

std::string counted(const Sum& s) {
    return std::to_string(s.passed) + " of " + std::to_string(s.n) + " passed" + (s.caution > 0 ? ", " + std::to_string(s.caution) + " with caution" : "") + (s.failed > 0 ? ", " + std::to_string(s.failed) + " failed" : "");
}

RateRow row_from(const Sum& s, const belief::Rate& rate, const std::string& leans_on) {
    RateRow r;
    r.n = s.n;
    r.passed = s.passed;
    r.caution = s.caution;
    r.failed = s.failed;
    const auto interval = belief::interval_of(rate, limit_pct("interval") / 100);
    r.low_pct = 100 * interval.low_1;
    r.high_pct = 100 * interval.high_1;
    r.sentence = counted(s) + ". The rate lies between " + fixed(r.low_pct, 0) + " and " + fixed(r.high_pct, 0) + " % (" + fixed(limit_pct("interval"), 0) + " %)." + leans_on;
    const auto& weight = row_of(atlas::spot_rules, "parent_weight");
    r.basis = leans_on.empty() ? Basis{"Counts of this shop after a uniform prior", "gelman2013", "beta prior of a rate; recalled", Standing::Measured, counted(s)}
                               : Basis{std::string(weight.plain_name) + ": " + fixed(weight.limit_n, 0), std::string(weight.source), std::string(weight.locator), standing_of(weight.standing), counted(s)};
    return r;
}

}  // namespace

std::vector<RateRow> rates_of(const std::vector<Tried>& tried) {
    std::map<std::pair<std::string, std::string>, Kind> kinds;  // class, family
    for (const auto& t : tried) {
        if (t.mark == SpotMark::NotJudged) continue;
        Kind& kind = kinds[{t.leather_class, t.family}];
        Sum& product = kind.products[t.product_key];
        product.product = t.product;
        product.add(t.mark);
        kind.all.add(t.mark);
    }
    std::vector<RateRow> out;
    for (const auto& [of, kind] : kinds) {
        const auto put = [&](RateRow r, const std::string& product) {
            r.leather_class = of.first;
            r.class_name = name_in(atlas::leather_classes, of.first);
            r.family = of.second;
            r.product = product;
            out.push_back(std::move(r));
        };
        put(row_from(kind.all, belief::rate_of(kind.all.counts()), ""), "");
        std::vector<const Sum*> products;
        for (const auto& [key, sum] : kind.products) products.push_back(&sum);
        std::stable_sort(products.begin(), products.end(), [](const Sum* a, const Sum* b) { return a->product < b->product; });
        for (const Sum* own : products) {
            // Its own tries are left out of its kind: nothing counts twice.
            const belief::Counts others{kind.all.n - own->n, kind.all.passed - own->passed};
            const double weight = row_of(atlas::spot_rules, "parent_weight").limit_n;
            const std::string leans = others.n == 0 ? " Nothing else of its kind was tried on this class." : " It leans on " + std::to_string(others.n) + (others.n == 1 ? " try" : " tries") + " of its kind as on " + fixed(std::min(weight, others.n + 2.0), 0) + ".";
            put(row_from(*own, belief::shrunk(own->counts(), others, weight), leans), own->product);
        }
    }
    return out;
}

Bound bound_of(int n, int not_passed) {
    Bound b;
    b.n = n;
    b.not_passed = not_passed;
    const double confidence = limit_pct("confidence") / 100;
    b.may_fail_pct = 100 * belief::failing_at_most_1(n, not_passed, confidence);
    const std::string sure = " (" + fixed(100 * confidence, 0) + " % sure)";
    const std::string up_to = fixed(std::ceil(b.may_fail_pct), 0) + " % of such places may still fail" + sure + ".";
    if (n == 0) b.sentence = "No spot of it is judged to the end yet: nothing is shown.";
    else if (not_passed == n) b.sentence = std::string(n == 1 ? "The one spot" : "None of the " + std::to_string(n) + " spots") + (n == 1 ? " did not pass." : " passed.");
    else if (not_passed > 0) b.sentence = std::to_string(not_passed) + " of " + std::to_string(n) + " spots did not pass: up to " + up_to;
    else if (n == 1) b.sentence = "One good spot proves almost nothing: up to " + up_to + " What carries the safety is to go mild first and class by class.";
    else b.sentence = std::to_string(n) + " good spots and no bad one: up to " + up_to;
    return b;
}

int spots_for(double may_fail_pct) { return belief::tries_for(may_fail_pct / 100, limit_pct("confidence") / 100); }

}  // namespace hw::desk
