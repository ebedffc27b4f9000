// What people ask for or did already: each refused with its reason, and what it must not meet.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "desk/ledger.hpp"
#include "desk/records.hpp"

namespace hw::desk {

/// A remedy that was asked about.
struct RemedyAnswer {
    std::string key, asked;                       ///< "vinegar", "Vinegar to neutralise?"
    bool refused = true;
    std::string sentence;
    Basis basis;
};
template <class Visitor>
void describe(Visitor& visit, RemedyAnswer& r) {
    visit("key", r.key, About{});
    visit("asked", r.asked, About{});
    visit("refused", r.refused, About{});
    visit("sentence", r.sentence, About{});
    visit("basis", r.basis, About{});
}

/// Every row of atlas/remedies.csv: none of them is ever advised.
std::vector<RemedyAnswer> remedies();

/// What a remedy brings onto the piece, as a liquid; nothing where it is none. @error NotFound  no such remedy; `where` as given
Result<std::optional<Liquid>> remedy_liquid(std::string_view key, std::string where);

/// The refusal, with what it would meet on the piece. @error NotFound
Result<RemedyAnswer> remedy_answer(std::string_view key, const std::vector<OnPiece>& on_piece, std::string where);

}  // namespace hw::desk
