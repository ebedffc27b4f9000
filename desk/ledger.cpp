#include "desk/ledger.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/leather/hide.hpp"
#include "core/treatment/harm.hpp"
#include "desk/cautions.hpp"
#include "desk/entries.hpp"
#include "desk/liquids.hpp"
#include "desk/moment.hpp"
#include "desk/ways.hpp"

namespace hw::desk {

namespace {
bool may_bleach(const Liquid& liquid) { return !liquid.label_known || names_class(liquid, "hypochlorite"); }
}  // namespace

bool counts(const OnPiece& thing) {
    const bool much = 100 * thing.left_1 >= plan_rule("ledger_counts").limit_pct;
    return much || (may_bleach(thing.liquid) && thing.dry_h < plan_rule("ledger_dry").limit_h);
}

std::vector<chem::Hazard> what_may_not_meet(const std::vector<OnPiece>& on_piece, const Liquid& next) {
    std::vector<chem::Totals> contents;
    std::vector<bool> labels;
    const auto add = [&](const Liquid& l) {
        contents.push_back(chem::present(portions(l)));
        labels.push_back(l.label_known);
    };
    for (const auto& thing : on_piece)
        if (counts(thing)) add(thing.liquid);
    const std::size_t there = contents.size();
    add(next);
    const auto found = [&](std::size_t count) {
        std::vector<chem::Product> products;
        for (std::size_t i = 0; i < count; ++i) products.push_back({&contents[i], labels[i]});
        return chem::hazards(products);
    };
    // What lies there already has met without it.
    const auto before = found(there);
    std::vector<chem::Hazard> out;
    for (const auto& h : found(there + 1))
        if (std::none_of(before.begin(), before.end(), [&](const chem::Hazard& b) { return b.row == h.row && b.from_unknown == h.from_unknown; })) out.push_back(h);
    return out;
}

Came as_used(const Liquid& product, const Use& use, bool open) { return {product, 0, open ? 1 : (1 - use.wiped_off_pct / 100) * std::pow(1 - use.rinse.blotted_pct / 100, use.rinse.passes), 0}; }

Residue residue_of(std::vector<Came> came, double now_h) {
    std::stable_sort(came.begin(), came.end(), [](const Came& a, const Came& b) { return a.at_h < b.at_h; });
    Residue out;
    for (std::size_t from = 0; from < came.size();) {
        const double at_h = came[from].at_h;
        const std::size_t old = out.there.size();
        std::size_t to = from;
        for (; to < came.size() && came[to].at_h == at_h; ++to) {
            for (const auto& h : what_may_not_meet(out.there, came[to].liquid))
                if (!out.met && h.severity == chem::Severity::Stop) out.met = h;
            for (std::size_t i = 0; i < old; ++i) out.there[i].left_1 *= 1 - came[to].takes_1;
            out.there.push_back({came[to].liquid, 1, 0});
        }
        for (std::size_t i = from; i < to; ++i) out.there[old + i - from].left_1 = came[i].own_left_1;
        // Everything is wet again, and dries until the next comes.
        const double until_h = to < came.size() ? came[to].at_h : std::max(now_h, at_h);
        for (auto& thing : out.there) thing.dry_h = until_h - at_h;
        from = to;
    }
    return out;
}

std::vector<Pass> laid_on(const std::vector<KeptEntry>& entries, std::string_view panel, std::int64_t now_s, double now_h) {
    std::vector<Pass> out;
    const auto states = states_of(entries);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& e = entries[i].entry;
        if (states[i] != EntryState::Stands || !e.laid || std::find(e.laid->panels.begin(), e.laid->panels.end(), panel) == e.laid->panels.end()) continue;
        // An hour that cannot be read counts as just now.
        const auto at = parse_moment(e.at);
        const double ago_h = at ? std::max(0.0, static_cast<double>(now_s - *at) / 3600) : 0;
        // It is written down once it has stood.
        out.push_back({e.laid->liquid, e.laid->g_m2, e.laid->dwell_s, e.laid->blotted_pct, now_h - ago_h - e.laid->dwell_s / 3600});
    }
    return out;
}

// What has soaked in is out of a cloth's reach: of alkali on the fibre three pressed passes take next to nothing (core/treatment/course_test.cpp).
Came came_with(const Pass& pass, bool open) { return {pass.liquid, pass.at_h, open ? 1 : 1 - pass.blotted_pct / 100, open ? 0 : pass.blotted_pct / 100}; }

bool is_open(const Leather& leather, Store& store) {
    Leather l = leather;
    if (l.leather_class.empty() && !l.id.empty())
        if (auto found = store.leather(l.id); found.ok()) l = *found;
    const auto hide = leather::hide(l.leather_class, l.tannage.empty() ? "unknown" : l.tannage, {});
    return !hide.ok() || treatment::is_open(*hide);
}

void take_in(std::vector<Pass>& passes, const std::vector<Pass>& of_record, double from_h) {
    constexpr double same_h = 0.1;
    const std::size_t told = passes.size();
    for (const Pass& p : of_record) {
        const auto same = [&](const Pass& t) {
            const bool liquid = t.liquid.id.empty() || p.liquid.id.empty() ? t.liquid.name == p.liquid.name : t.liquid.id == p.liquid.id;
            return liquid && std::abs(t.at_h - p.at_h) < same_h + p.dwell_s / 3600;
        };
        if (p.at_h >= from_h && std::none_of(passes.begin(), passes.begin() + static_cast<std::ptrdiff_t>(told), same)) passes.push_back(p);
    }
    // Several that were written down in one go followed each other: from the last one back.
    std::vector<std::size_t> order(passes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return passes[a].at_h < passes[b].at_h; });
    double next_h = std::numeric_limits<double>::infinity();
    for (auto i = order.rbegin(); i != order.rend(); ++i) {
        Pass& p = passes[*i];
        if (*i >= told) p.at_h = std::min(p.at_h, next_h - p.dwell_s / 3600);
        next_h = p.at_h;
    }
    for (std::size_t i = told; i < passes.size(); ++i) passes[i].at_h = std::max(passes[i].at_h, from_h);
}

}  // namespace hw::desk
