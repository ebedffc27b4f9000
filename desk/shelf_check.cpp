// Whether entries may be appended to the shelf.
#include <algorithm>
#include <cctype>
#include <map>

#include "desk/entries.hpp"
#include "desk/moment.hpp"
#include "desk/ports.hpp"
#include "desk/shelf_now.hpp"

namespace hw::desk {

namespace {

/// What stood before, with what was checked since.
struct Known {
    std::vector<KeptShelfEntry> entries;
    bool there = false;                           ///< the product is on the shelf, or becomes so
};

Error at_field(std::string where, std::string message, ErrorCode code = ErrorCode::InvalidInput) { return {code, std::move(message), std::move(where)}; }

const ShelfEntry* find(const Known& known, const std::string& id) {
    const auto it = std::find_if(known.entries.begin(), known.entries.end(), [&](const KeptShelfEntry& k) { return k.entry.id == id; });
    return it == known.entries.end() ? nullptr : &it->entry;
}

bool needs_lot(ShelfDid did) { return did == ShelfDid::Opened || did == ShelfDid::Used || did == ShelfDid::Counted || did == ShelfDid::ThrownAway; }

Result<Done> good_lot(ShelfEntry& e, const Known& known, std::int64_t today) {
    if (e.lot.empty() && needs_lot(e.did)) {
        const auto lots = lots_now(folded(known.entries, today), today);
        if (lots.empty() || lots.front().past || lots.front().finished) return at_field("lot", "No lot of this product may be taken. Enter the one that came first, or say which lot.", ErrorCode::NotFound);
        e.lot = lots.front().id;
    }
    if (e.lot.empty()) return Done{};
    const ShelfEntry* lot = find(known, e.lot);
    if (lot == nullptr || lot->did != ShelfDid::Received) return at_field("lot", "There is no such lot of this product. Take its id from the page of the product.", ErrorCode::NotFound);
    return Done{};
}

Result<Done> good_take_back(const ShelfEntry& e, const Known& known, const Who& who) {
    const auto it = std::find_if(known.entries.begin(), known.entries.end(), [&](const KeptShelfEntry& k) { return k.entry.id == e.takes_back; });
    if (it == known.entries.end()) return at_field("takes_back", "There is no such entry of this product.", ErrorCode::NotFound);
    if (it->entry.did == ShelfDid::TakeBack) return at_field("takes_back", "What was taken back is entered again, as a new entry.");
    if (!who.owner && it->by_id != who.id) return at_field("takes_back", "Somebody else made this entry. Ask them, or the owner of the shop, to take it back.", ErrorCode::Conflict);
    return Done{};
}

Result<Done> good_own_fields(const ShelfEntry& e, const Known& known, const Who& who) {
    switch (e.did) {
    case ShelfDid::Fact: return e.lot.empty() ? may_say(e.key, e.value) : may_say_of_lot(e.key, e.value);
    case ShelfDid::Received: {
        if (!e.amount || *e.amount <= 0) return at_field("amount", "Say how much came.");
        for (const auto& [key, value] : {std::pair{"code", e.code}, std::pair{"place", e.place}, std::pair{"expiry", e.expiry}})
            if (auto good = may_say_of_lot(key, value); !good.ok()) return at_field(key, good.error().message);
        return Done{};
    }
    case ShelfDid::Used: return e.amount && *e.amount > 0 ? Result<Done>(Done{}) : at_field("amount", "Say how much was used.");
    case ShelfDid::Counted: return e.amount ? Result<Done>(Done{}) : at_field("amount", "Say how much is left.");
    case ShelfDid::Told:
        if (e.sheet.empty()) return at_field("sheet", "Say of which data sheet.");
        if (e.person.empty()) return at_field("person", "Say who was told.");
        return Done{};
    case ShelfDid::TakeBack: return good_take_back(e, known, who);
    case ShelfDid::Opened:
    case ShelfDid::ThrownAway:
    case ShelfDid::Mixed: return Done{};
    }
    return Done{};
}

Result<Done> check(ShelfEntry& e, Known& known, Ports& ports) {
    constexpr std::size_t id_most = 64, text_most = 200;
    if (!is_uuid(e.id)) return at_field("id", "An id is a UUID. Leave it out to get one.");
    if (e.product.empty() || e.product.size() > id_most || !std::all_of(e.product.begin(), e.product.end(), [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_' || c == '.'; }))
        return at_field("product", "The id of a product is of letters, digits, hyphens, dots and underscores, at most 64.");
    if (!parse_moment(e.at)) return at_field("at", "Write the time as 2026-01-02T03:04:05Z, or the day as 2026-01-02.");
    if (*parse_moment(e.at) > ports.clock.now_s() + 86400) return at_field("at", "This lies in the future. Look at the date again.", ErrorCode::OutOfRange);
    for (const auto& [where, text] : {std::pair{"note", e.note}, std::pair{"person", e.person}, std::pair{"piece", e.piece}, std::pair{"sheet", e.sheet}})
        if (text.size() > text_most) return at_field(where, "Shorten this to 200 letters.");
    const bool begins = e.did == ShelfDid::Fact && e.key == "name" && e.lot.empty();
    if (!known.there && !begins) return at_field("product", "There is no such product yet. Begin with its name.", ErrorCode::NotFound);
    HW_TRY(lot, good_lot(e, known, today_of(ports)));
    HW_TRY(own, good_own_fields(e, known, ports.who));
    static_cast<void>(lot), static_cast<void>(own);
    if (e.did == ShelfDid::Told && ports.sheets != nullptr) {
        HW_TRY(sheets, sheets_by_product(ports));
        const auto& those = sheets[e.product];
        if (std::none_of(those.begin(), those.end(), [&](const SheetRow& s) { return s.id == e.sheet; })) return at_field("sheet", "There is no such data sheet of this product. Its page lists them.", ErrorCode::NotFound);
    }
    known.there = true;
    return Done{};
}

}  // namespace

Result<Checked> checked(const std::vector<ShelfEntry>& entries, Ports& ports) {
    if (ports.shelf == nullptr) return no_shelf();
    HW_TRY(names, ports.shelf->names());
    // Many at once come from a table: then everything is read once.
    constexpr std::size_t few = 50;
    std::map<std::string, Known> known;
    const bool at_once = entries.size() > few;
    if (at_once) {
        HW_TRY(all, ports.shelf->entries(""));
        for (auto& k : all) known[k.entry.product].entries.push_back(std::move(k));
    } else
        for (const auto& e : entries)
            if (known.count(e.product) == 0) {
                HW_TRY(own, ports.shelf->entries(e.product));
                known[e.product].entries = own;
            }
    for (const auto& n : names) {
        const auto it = known.find(n.id);
        if (it != known.end() || at_once) known[n.id].there = true;
    }
    Checked out;
    std::map<std::string, std::string> renamed;
    const std::string now = ports.clock.now_utc();
    for (std::size_t i = 0; i < entries.size(); ++i) {
        ShelfEntry e = entries[i];
        if (e.id.empty()) e.id = ports.shelf->new_id();
        e.by = ports.who.name;
        Known& k = known[e.product];
        // Sent again, it is what it was: what was filled in then is filled in again.
        if (const ShelfEntry* before = find(k, e.id)) {
            if (e.at.empty()) e.at = before->at;
            if (e.lot.empty()) e.lot = before->lot;
        }
        if (e.at.empty()) e.at = now;
        if (auto good = check(e, k, ports); !good.ok()) return Error{good.error().code, good.error().message, "entries[" + std::to_string(i) + "]." + good.error().where};
        if (e.did == ShelfDid::Fact && e.key == "name" && e.lot.empty()) renamed[e.product] = e.value;
        k.entries.push_back({ports.who.id, now, e});
        out.entries.push_back(k.entries.back());
    }
    for (const auto& [id, name] : renamed) {
        const auto there = ports.store.liquid(id);
        Liquid l;
        if (there.ok()) l = *there;
        if (there.ok() && l.name == name) continue;
        l.id = id;
        l.name = name;
        out.liquids.push_back(std::move(l));
    }
    return out;
}

}  // namespace hw::desk
