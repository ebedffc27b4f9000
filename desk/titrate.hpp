// titrate: what a product holds, by drops counted at the bench.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "desk/ports.hpp"
#include "desk/records.hpp"
#include "desk/refine.hpp"

namespace hw::desk {

struct TitrateRequest {
    Liquid liquid;                                ///< whole, or with only its id one of the shelf
    bool base = false;                            ///< drops of sodium hydroxide into an acid product, not of acid into an alkaline one
    DropCount drops;                              ///< as counted into a product by `refine`; with `base` the same of sodium hydroxide
    std::optional<double> count_1;                ///< drops to the end; left out: only how it is done
    std::optional<double> sample_g;               ///< product weighed instead of measured
};

/// A part of the uncertainty.
struct TitrateShare {
    std::string name;
    std::string half;                             ///< "± 1 drop", "± 10 %"
    double share_1 = 0;                           ///< of the variance
    Basis basis;
};

struct TitrateAnswer {
    std::string sentence;
    std::string refused;                          ///< why no drops are counted into it; empty: they may be
    std::vector<std::string> steps;               ///< how it is done
    std::vector<std::string> never;
    bool counted = false;                         ///< the figures below were worked out
    bool base = false;
    Number reserve;                               ///< mol/kg
    Number as_naoh;                               ///< g NaOH per 100 g
    std::optional<Number> reserve_alkalinity;     ///< mL of 0.1 mol/L acid for 10 mL, to pH 5.5: only where it was counted to 5.5
    std::optional<Number> by_composition;         ///< mol/kg to the same end, by what the sheet says is in it
    std::string against_sheet;                    ///< how the two agree, in a sentence
    std::vector<TitrateShare> shares;             ///< largest first
    std::vector<Reason> reasons;
    TitrateRequest done;                          ///< as taken
    std::string liquid;
    std::string version;
};

/// How a product is titrated by drops, and with a count what it holds. Reserve alkalinity is that of ASTM D1121 where it is counted to
/// pH 5.5. The acid reserve is our own definition: the base that a kilogram takes up to the same end.
/// A product that holds or may hold chlorine bleach, sulfite or sulfide, or has no label, is refused, in words and without figures.
/// @error InvalidInput  "drops.acid"   @error OutOfRange  "count_1", "drops…"   @error NotFound  "liquid.id"
/// @see docs/theory/drops.md
Result<TitrateAnswer> titrate(const TitrateRequest& request, Ports& ports);

template <class Visitor>
void describe(Visitor& visit, TitrateRequest& r) {
    visit("liquid", r.liquid, About{.doc = "whole, or with only its id one of the shelf", .required = true});
    visit("base", r.base, About{.doc = "drops of sodium hydroxide into an acid product"});
    visit("drops", r.drops, About{.doc = "how it was done; with base, acid and acid_pct are those of the sodium hydroxide"});
    visit("count_1", r.count_1, About{.doc = "drops to the end; left out: only how it is done", .minimum = 0, .maximum = 4000});
    visit("sample_g", r.sample_g, About{.doc = "product weighed instead of measured", .minimum = 0.05, .maximum = 20});
}
template <class Visitor>
void describe(Visitor& visit, TitrateShare& s) {
    visit("name", s.name, About{});
    visit("half", s.half, About{});
    visit("share_1", s.share_1, About{.doc = "of the variance"});
    visit("basis", s.basis, About{});
}
template <class Visitor>
void describe(Visitor& visit, TitrateAnswer& a) {
    visit("sentence", a.sentence, About{});
    visit("refused", a.refused, About{.doc = "why no drops are counted into it; empty: they may be"});
    visit("steps", a.steps, About{});
    visit("never", a.never, About{});
    visit("counted", a.counted, About{.doc = "the figures were worked out"});
    visit("base", a.base, About{});
    visit("reserve", a.reserve, About{.doc = "mol/kg, to the end that was counted to"});
    visit("as_naoh", a.as_naoh, About{.doc = "the same as g NaOH per 100 g"});
    visit("reserve_alkalinity", a.reserve_alkalinity, About{.doc = "ASTM D1121; only where it was counted to pH 5.5"});
    visit("by_composition", a.by_composition, About{.doc = "mol/kg to the same end, by what the sheet says is in it"});
    visit("against_sheet", a.against_sheet, About{});
    visit("shares", a.shares, About{.doc = "of the uncertainty, largest first"});
    visit("reasons", a.reasons, About{});
    visit("done", a.done, About{.doc = "as taken"});
    visit("liquid", a.liquid, About{.doc = "its name"});
    visit("version", a.version, About{});
}

}  // namespace hw::desk
