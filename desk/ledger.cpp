#include "desk/ledger.hpp"

#include <algorithm>
#include <cmath>

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

Came as_used(const Liquid& product, const Use& use) { return {product, 0, (1 - use.wiped_off_pct / 100) * std::pow(1 - use.rinse.blotted_pct / 100, use.rinse.passes), 0}; }

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

std::vector<Came> laid_on(const std::vector<KeptEntry>& entries, std::string_view panel, std::int64_t now_s, double now_h) {
    std::vector<Came> out;
    const auto states = states_of(entries);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& e = entries[i].entry;
        if (states[i] != EntryState::Stands || !e.laid || std::find(e.laid->panels.begin(), e.laid->panels.end(), panel) == e.laid->panels.end()) continue;
        // An hour that cannot be read counts as just now.
        const auto at = parse_moment(e.at);
        const double ago_h = at ? std::max(0.0, static_cast<double>(now_s - *at) / 3600) : 0, taken_1 = e.laid->blotted_pct / 100;
        out.push_back({e.laid->liquid, now_h - ago_h, 1 - taken_1, taken_1});
    }
    return out;
}

}  // namespace hw::desk
