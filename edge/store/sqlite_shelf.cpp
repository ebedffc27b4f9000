#include "edge/store/sqlite_shelf.hpp"

#include <utility>

#include "edge/store/database.hpp"

namespace hw::store {

namespace {

#define HW_SHELF_COLUMNS "id, did, product, lot, at, by_name, key, value, measured, code, expiry, place, amount, piece, sheet, person, takes_back, note, by_id, kept_at"

std::string word_of(desk::ShelfDid did) {
    for (const auto& [d, name] : EnumNames<desk::ShelfDid>::names)
        if (d == did) return std::string(name);
    throw Bug("an entry that did nothing");
}

desk::ShelfDid did_of(const std::string& word) {
    for (const auto& [did, name] : EnumNames<desk::ShelfDid>::names)
        if (name == word) return did;
    throw Bug("the records hold an entry that did " + word);
}

desk::KeptShelfEntry entry_of(const Stmt& s) {
    desk::KeptShelfEntry out;
    desk::ShelfEntry& e = out.entry;
    int at = 0;
    e.id = s.text(at++);
    e.did = did_of(s.text(at++));
    for (std::string* text : {&e.product, &e.lot, &e.at, &e.by, &e.key, &e.value}) *text = s.text(at++);
    e.how = s.integer(at++) == 1 ? desk::CorrectedBy::Measured : desk::CorrectedBy::Typed;
    for (std::string* text : {&e.code, &e.expiry, &e.place}) *text = s.text(at++);
    e.amount = s.real(at++);
    for (std::string* text : {&e.piece, &e.sheet, &e.person, &e.takes_back, &e.note, &out.by_id, &out.kept_at}) *text = s.text(at++);
    return out;
}

bool same(const desk::ShelfEntry& a, const desk::ShelfEntry& b) {
    return a.did == b.did && a.product == b.product && a.lot == b.lot && a.at == b.at && a.key == b.key && a.value == b.value && a.how == b.how && a.code == b.code && a.expiry == b.expiry &&
           a.place == b.place && a.amount == b.amount && a.piece == b.piece && a.sheet == b.sheet && a.person == b.person && a.takes_back == b.takes_back && a.note == b.note;
}

}  // namespace

SqliteShelf::SqliteShelf(SqliteStore& store, std::function<std::string(const desk::Liquid&)> liquid) : database_(store.database()), liquid_(std::move(liquid)) {}

std::string SqliteShelf::new_id() { return uuid7(); }

Result<std::vector<desk::KeptShelfEntry>> SqliteShelf::entries(const std::string& product) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, product.empty() ? "select " HW_SHELF_COLUMNS " from shelf_entry order by product, number" : "select " HW_SHELF_COLUMNS " from shelf_entry where product = ? order by number");
    if (!product.empty()) s.bind(product);
    std::vector<desk::KeptShelfEntry> out;
    while (s.step()) out.push_back(entry_of(s));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqliteShelf::append(const std::vector<desk::KeptShelfEntry>& entries, const std::vector<desk::Liquid>& liquids) {
    const std::scoped_lock one_user(database_.guard);
    sqlite3* db = database_.db;
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    const std::int64_t demo = database_.demo.load() ? 1 : 0;
    for (const auto& l : liquids) {
        Stmt s(db, "insert into liquid (id, body, demo) values (?, ?, ?) on conflict (id) do update set body = excluded.body, demo = excluded.demo, binned = 0 where excluded.demo = 0 or liquid.demo = 1");
        s.bind(l.id).bind(liquid_(l)).bind(demo);
        s.step();
        if (!s.ok()) return broken(db, "written");
        HW_TRY(logged, database_.log("keep_liquid", l.id));
        static_cast<void>(logged);
    }
    for (const auto& k : entries) {
        const desk::ShelfEntry& e = k.entry;
        {
            Stmt before(db, "select " HW_SHELF_COLUMNS " from shelf_entry where id = ?");
            before.bind(e.id);
            if (before.step()) {
                if (same(entry_of(before).entry, e)) continue;
                return Error{ErrorCode::Conflict, "The id \"" + e.id + "\" was used for another entry. Give this one a new id.", "id"};
            }
            if (!before.ok()) return broken(db, "read");
        }
        Stmt s(db, "insert into shelf_entry (" HW_SHELF_COLUMNS ", demo) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
        s.bind(e.id).bind(word_of(e.did)).bind(e.product).bind(e.lot).bind(e.at).bind(e.by).bind(e.key).bind(e.value).bind(std::int64_t{e.how == desk::CorrectedBy::Measured}).bind(e.code).bind(e.expiry).bind(e.place)
            .bind(e.amount).bind(e.piece).bind(e.sheet).bind(e.person).bind(e.takes_back).bind(e.note).bind(k.by_id).bind(k.kept_at).bind(demo);
        s.step();
        if (!s.ok()) return broken(db, "written");
        HW_TRY(logged, database_.log("append_shelf", e.id));
        static_cast<void>(logged);
    }
    if (!tx.commit()) return broken(db, "written");
    return Done{};
}

Result<std::vector<desk::ShelfName>> SqliteShelf::names() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select id, body ->> '$.name', demo from liquid where binned = 0 order by id");
    std::vector<desk::ShelfName> out;
    while (s.step()) out.push_back({s.text(0), s.text(1), s.integer(2) == 1});
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

}  // namespace hw::store
