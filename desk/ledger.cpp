#include "desk/ledger.hpp"

#include <algorithm>

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

void rinsed(std::vector<OnPiece>& on_piece, double blotted_1) {
    for (auto& thing : on_piece) {
        thing.left_1 *= 1 - blotted_1;
        thing.dry_h = 0;
    }
}

std::vector<OnPiece> laid_on(const std::vector<KeptEntry>& entries, std::string_view panel, std::int64_t now_s) {
    std::vector<OnPiece> out;
    const auto states = states_of(entries);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& e = entries[i].entry;
        if (states[i] != EntryState::Stands || !e.laid || std::find(e.laid->panels.begin(), e.laid->panels.end(), panel) == e.laid->panels.end()) continue;
        rinsed(out, e.laid->blotted_pct / 100);
        out.push_back({e.laid->liquid, 1 - e.laid->blotted_pct / 100, 0});
        // An hour that cannot be read counts as just now.
        const auto at = parse_moment(e.at);
        const double dry_h = at ? std::max(0.0, static_cast<double>(now_s - *at) / 3600) : 0;
        for (auto& thing : out) thing.dry_h = dry_h;
    }
    return out;
}

}  // namespace hw::desk
