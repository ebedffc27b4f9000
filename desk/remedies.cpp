#include "desk/remedies.hpp"

#include "atlas/incompatible.hpp"
#include "atlas/remedies.hpp"
#include "desk/liquids.hpp"

namespace hw::desk {

namespace {

const atlas::RemediesRow* row_named(std::string_view key) {
    for (const auto& row : atlas::remedies)
        if (row.key == key) return &row;
    return nullptr;
}

RemedyAnswer told(const atlas::RemediesRow& row) {
    return {std::string(row.key), std::string(row.asked), true, std::string(row.sentence),
            {"Why not: " + std::string(row.asked), std::string(row.source), std::string(row.locator), standing_of(row.standing), "asked"}};
}

Error no_such(std::string_view key, std::string where) { return {ErrorCode::NotFound, "There is no remedy \"" + std::string(key) + "\". Choose one of /api/remedies.", std::move(where)}; }

}  // namespace

std::vector<RemedyAnswer> remedies() {
    std::vector<RemedyAnswer> out;
    for (const auto& row : atlas::remedies) out.push_back(told(row));
    return out;
}

Result<std::optional<Liquid>> remedy_liquid(std::string_view key, std::string where) {
    const auto* row = row_named(key);
    if (row == nullptr) return no_such(key, std::move(where));
    if (row->holds.empty()) return std::optional<Liquid>();
    Liquid l;
    l.name = std::string(row->key);
    l.ingredients.push_back({std::string(row->holds), "", 1.0, std::nullopt, std::nullopt});
    return std::optional(l);
}

Result<RemedyAnswer> remedy_answer(std::string_view key, const std::vector<OnPiece>& on_piece, std::string where) {
    HW_TRY(liquid, remedy_liquid(key, std::move(where)));
    RemedyAnswer out = told(*row_named(key));
    if (!liquid) return out;
    for (const auto& h : what_may_not_meet(on_piece, *liquid)) {
        if (h.severity != chem::Severity::Stop) continue;
        const Stop stop = stop_from(h);
        out.sentence = "Stop. " + stop.headline + " " + out.sentence;
        out.basis = stop.basis;
        break;
    }
    return out;
}

}  // namespace hw::desk
