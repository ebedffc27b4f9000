// Entries of a piece: whether one may be appended, and which of them stand.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "core/piece/piece.hpp"
#include "desk/inspect.hpp"
#include "desk/piece.hpp"

namespace hw::desk {

/// The drawing of a make-up. @error NotFound, InvalidInput, OutOfRange  `where` as measures[…] or free[…]
Result<piece::Drawing> drawing_of(const MakeUp& make_up);

/// Whether an entry can be appended after these. `where` names its field, as condition.term.
/// @param panels  codes that any make-up of the piece has or had
Result<Done> may_append(const Entry& entry, const std::vector<KeptEntry>& before, const std::set<std::string>& panels, const Who& who);

/// State of each entry, in their order.
std::vector<EntryState> states_of(const std::vector<KeptEntry>& entries);

/// Whether neither of two entries knew of the other: they came from different devices, and the later one had not seen the
/// earlier one when it was made.
bool unaware(const KeptEntry& earlier, const KeptEntry& later);

/// Codes of panels that an entry speaks of.
std::vector<std::string> panels_of(const Entry& entry);

/// What an entry did, for people.
std::string sentence_of(const Entry& entry);

/// 8-4-4-4-12 hexadecimal digits, RFC 9562.
bool is_uuid(std::string_view text);

/// What the owner agrees to before a spot, word for word.
std::string_view consent_to(SpotWhere where);

/// Plain names of keys; the key itself where there is none.
std::string material_name(std::string_view key);
std::string_view severity_word(int severity);
/// Empty while nobody said.
std::string_view wear_word(Wear wear);
std::string_view exposure_word(Exposure exposure);

}  // namespace hw::desk
