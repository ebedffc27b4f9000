// How often a thing turned out well, by counts: of a product on a class of leather, leaning on its kind. Knows of no piece.
#pragma once

#include <string>
#include <vector>

#include "base/describe.hpp"
#include "desk/records.hpp"
#include "desk/spot_signs.hpp"

namespace hw::desk {

/// One try that is over.
struct Tried {
    std::string product_key, product;             ///< key: id on the shelf, or its name
    std::string family;                           ///< kind of product
    std::string leather_class;
    SpotMark mark = SpotMark::NotJudged;          ///< those that were not judged do not count
};

/// Counts of a product on a class, or of its kind on that class.
struct RateRow {
    std::string leather_class, class_name;
    std::string family;
    std::string product;                          ///< empty: the kind as a whole
    int n = 0, passed = 0, caution = 0, failed = 0;
    double low_pct = 0, high_pct = 100;           ///< where the rate of passing lies, 90 %
    std::string sentence;                         ///< counts first, never a share alone
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, RateRow& r) {
    visit("leather_class", r.leather_class, About{});
    visit("class_name", r.class_name, About{});
    visit("family", r.family, About{});
    visit("product", r.product, About{.doc = "empty: its kind as a whole"});
    visit("n", r.n, About{.doc = "judged to the end"});
    visit("passed", r.passed, About{});
    visit("caution", r.caution, About{.doc = "does not count as passed"});
    visit("failed", r.failed, About{});
    visit("low_pct", r.low_pct, About{.doc = "where the rate of passing lies, 90 %"});
    visit("high_pct", r.high_pct, About{});
    visit("sentence", r.sentence, About{});
    visit("basis", r.basis, About{});
}

/// Each kind of product on each class of leather, then its products. By class, kind and name.
/// @see docs/theory/spots.md
std::vector<RateRow> rates_of(const std::vector<Tried>& tried);

/// What so many tries of one thing on one class of panels can show and what not.
struct Bound {
    int n = 0, not_passed = 0;
    double may_fail_pct = 100;                    ///< up to this share of places may still fail
    std::string sentence;
};
template <class Visitor>
void describe(Visitor& visit, Bound& b) {
    visit("n", b.n, About{.doc = "spots judged to the end"});
    visit("not_passed", b.not_passed, About{.doc = "caution or fail"});
    visit("may_fail_pct", b.may_fail_pct, About{.doc = "up to this share of such places may still fail, 95 % sure"});
    visit("sentence", b.sentence, About{});
}
Bound bound_of(int n, int not_passed);

/// Spots without a failure that rule out more than this share failing.
int spots_for(double may_fail_pct);

}  // namespace hw::desk
