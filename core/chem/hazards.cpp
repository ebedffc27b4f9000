#include "core/chem/hazards.hpp"

#include <algorithm>

#include "atlas/incompatible.hpp"
#include "atlas/substances.hpp"

namespace hw::chem {

std::vector<Hazard> hazards(const std::vector<Product>& products) {
    std::vector<std::string_view> sure, possible;
    for (const Product& p : products) {
        for (const Recognised& r : p.liquid->recognised)
            if (r.mol_kg > 0 && !atlas::substances[r.row].kind.empty()) sure.push_back(atlas::substances[r.row].kind);
        if (!p.label_known) possible.push_back("hypochlorite");
    }
    auto has = [](const std::vector<std::string_view>& list, std::string_view kind) { return std::find(list.begin(), list.end(), kind) != list.end(); };
    std::vector<Hazard> out;
    for (std::size_t i = 0; i < atlas::incompatible.size(); ++i) {
        const auto& row = atlas::incompatible[i];
        const Severity severity = row.severity == "stop" ? Severity::Stop : row.severity == "caution" ? Severity::Caution : Severity::Note;
        const bool a = has(sure, row.class_a), b = has(sure, row.class_b);
        const bool maybe_a = a || has(possible, row.class_a), maybe_b = b || has(possible, row.class_b);
        if (a && b) out.push_back({i, severity, false});
        // An unlabelled product alone is no meeting: the other side must be another, known product.
        else if (maybe_a && maybe_b && products.size() > 1) out.push_back({i, severity, true});
    }
    return out;
}

}  // namespace hw::chem
