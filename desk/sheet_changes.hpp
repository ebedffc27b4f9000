// What a new revision of a data sheet warns of that the one before did not, and the other way round.
#pragma once

#include <string>
#include <vector>

#include "base/describe.hpp"
#include "desk/digest.hpp"

namespace hw::desk {

struct SheetChange {
    std::string key;                              ///< "signal_word", "codes", "ph", "flash_point", "ingredients", "limits"
    std::string before, after;                    ///< empty: it was not there, or is not
    std::string sentence;
};

struct SheetChanges {
    std::string from, to;                         ///< ids of the sheets
    std::string sentence;
    std::vector<SheetChange> changes;             ///< codes first
};

/// @return  no change where both say the same
SheetChanges changes_between(const DigestAnswer& before, const DigestAnswer& after);

/// Signal word and hazard statements of a sheet in words, for a label.
std::vector<std::string> warnings_of(const DigestAnswer& sheet);

template <class Visitor>
void describe(Visitor& visit, SheetChange& c) {
    visit("key", c.key, About{});
    visit("before", c.before, About{.doc = "empty: it was not there"});
    visit("after", c.after, About{.doc = "empty: it is there no longer"});
    visit("sentence", c.sentence, About{});
}
template <class Visitor>
void describe(Visitor& visit, SheetChanges& c) {
    visit("from", c.from, About{.doc = "id of the sheet before"});
    visit("to", c.to, About{.doc = "id of the newest"});
    visit("sentence", c.sentence, About{});
    visit("changes", c.changes, About{});
}

}  // namespace hw::desk
