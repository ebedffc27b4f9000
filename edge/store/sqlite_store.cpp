#include "edge/store/sqlite_store.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fstream>

#include "desk/own_limits.hpp"
#include "edge/store/database.hpp"
#include "embedded/migrations.hpp"

namespace hw::store {

namespace {

namespace fs = std::filesystem;

/// Held while the store is open: one program at a time writes or checkpoints the database.
class FolderLock {
public:
    explicit FolderLock(const fs::path& file) : fd_(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600)) {
        held_ = fd_ >= 0 && ::flock(fd_, LOCK_EX | LOCK_NB) == 0;
    }
    ~FolderLock() { if (fd_ >= 0) ::close(fd_); }
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;
    [[nodiscard]] bool writable() const { return fd_ >= 0; }
    [[nodiscard]] bool held() const { return held_; }

private:
    int fd_;
    bool held_ = false;
};

std::string first_line(const fs::path& file) {
    std::ifstream in(file);
    std::string line;
    std::getline(in, line);
    return line;
}

Result<std::int64_t> integer_of(sqlite3* db, const char* sql) {
    Stmt s(db, sql);
    if (!s.step()) return broken(db, "read");
    return s.integer(0);
}

Result<std::string> identity_of(sqlite3* db) {
    Stmt s(db, "select id from identity");
    if (!s.step()) return broken(db, "read");
    return s.text(0);
}

/// Steps not done yet, one transaction each; the first also gives the store its identity.
Result<Done> migrate(sqlite3* db, std::int64_t version) {
    const auto known = static_cast<std::int64_t>(embedded::migrations.size());
    for (std::int64_t v = version; v < known; ++v) {
        Tx tx(db);
        if (!tx.ok() || !exec(db, std::string(embedded::migrations[static_cast<std::size_t>(v)].text).c_str()) ||
            !exec(db, ("pragma user_version=" + std::to_string(v + 1)).c_str()))
            return broken(db, "brought up to date");
        if (v == 0) {
            Stmt s(db, "insert into identity (id) values (?)");
            s.bind(uuid7());
            s.step();
            if (!s.ok()) return broken(db, "written");
        }
        if (!tx.commit()) return broken(db, "brought up to date");
    }
    return Done{};
}

constexpr int page_limit = 200;
std::int64_t rows_of(const desk::Page& page) { return std::clamp(page.limit, 1, page_limit); }

constexpr const char* demo_rows = "(select id from liquid where demo = 1 union select id from leather where demo = 1 union select id from judgement where demo = 1 union select id from piece where demo = 1 union select id from instrument where demo = 1 union select id from sheet where demo = 1 union select id from shelf_entry where demo = 1)";

std::string_view grade_name(desk::Grade g) {
    for (const auto& [grade, name] : EnumNames<desk::Grade>::names)
        if (grade == g) return name;
    return {};
}

}  // namespace

struct SqliteStore::Hidden : Database {
    Hidden() = default;
    ~Hidden() { close(); }  // before the lock is let go
    Hidden(const Hidden&) = delete;
    Hidden& operator=(const Hidden&) = delete;

    Result<Done> open_to_read(const fs::path& file, const fs::path& mark);
    Result<Done> open_to_write(const fs::path& file, const fs::path& mark);

    std::unique_ptr<FolderLock> lock;  // held while writing is possible
    Serialiser as;
    bool fresh = false;

    Result<std::string> keep(const char* sql, const char* kind, std::string id, const std::string& body) {
        const std::scoped_lock one_user(guard);
        Tx tx(db);
        if (!tx.ok()) return broken(db, "written");
        Stmt s(db, sql);
        s.bind(id).bind(body).bind(std::int64_t{demo.load()});
        s.step();
        if (!s.ok()) return broken(db, "written");
        HW_TRY(logged, log(kind, id));
        static_cast<void>(logged);
        if (!tx.commit()) return broken(db, "written");
        return id;
    }

    /// Into the bin or out of it, whatever kind of row it is.
    Result<Done> mark(const std::string& id, bool binned) {
        const std::scoped_lock one_user(guard);
        Tx tx(db);
        if (!tx.ok()) return broken(db, "written");
        int changed = 0;
        for (const char* sql : {"update judgement set binned = ? where id = ?", "update liquid set binned = ? where id = ?", "update leather set binned = ? where id = ?", "update piece set binned = ? where id = ?", "update instrument set binned = ? where id = ?", "update sheet set binned = ? where id = ?"}) {
            Stmt s(db, sql);
            s.bind(std::int64_t{binned}).bind(id);
            s.step();
            if (!s.ok()) return broken(db, "written");
            changed += sqlite3_changes(db);
        }
        if (changed == 0) return Error{ErrorCode::NotFound, "There is nothing under \"" + id + "\". Look it up in the list.", "id"};
        HW_TRY(logged, log(binned ? "bin" : "restore", id));
        static_cast<void>(logged);
        if (!tx.commit()) return broken(db, "written");
        return Done{};
    }

    /// Deletes every demo row and its changes, then leaves one change of the kind `then`, if any.
    Result<Done> take_out_demo(const char* then);

    template <class T, class From>
    Result<T> one(const char* sql, const std::string& id, const char* what, const From& from) {
        const std::scoped_lock one_user(guard);
        Stmt s(db, sql);
        s.bind(id);
        if (!s.step()) {
            if (!s.ok()) return broken(db, "read");
            return Error{ErrorCode::NotFound, std::string("There is no ") + what + " \"" + id + "\". Look it up in the list.", "id"};
        }
        return from(s.text(0));
    }

    template <class T, class From>
    Result<std::vector<T>> many(const char* sql, const desk::Page& page, const From& from) {
        const std::scoped_lock one_user(guard);
        Stmt s(db, sql);
        s.bind(page.after).bind(rows_of(page));
        std::vector<T> out;
        while (s.step()) {
            HW_TRY(item, from(s.text(0)));
            out.push_back(item);
        }
        if (!s.ok()) return broken(db, "read");
        return out;
    }
};

SqliteStore::SqliteStore(std::unique_ptr<Hidden> hidden) : hidden_(std::move(hidden)) {}
SqliteStore::~SqliteStore() = default;
Database& SqliteStore::database() { return *hidden_; }

namespace {

/// Opens the database and refuses what is not ours to use, before anything is changed. Gives its version; 0 is a new one.
Result<std::int64_t> opened(sqlite3*& db, const fs::path& file, const fs::path& mark, int flags) {
    const Error missing{ErrorCode::Conflict, "The records of this workshop are missing: workshop.db is gone or empty, but its mark store-id is there. Put the folder back from a backup; nothing was started fresh.", "data"};
    const bool had_mark = fs::exists(mark);
    if (had_mark && !fs::exists(file)) return missing;
    if (sqlite3_open_v2(file.c_str(), &db, flags, nullptr) != SQLITE_OK) return broken(db, "opened");
    sqlite3_busy_timeout(db, 5000);
    HW_TRY(version, integer_of(db, "pragma user_version"));
    if (version > static_cast<std::int64_t>(embedded::migrations.size()))
        return Error{ErrorCode::Conflict, "These records were written by a newer version of the program. Use that version; nothing was changed.", "data"};
    if (!had_mark) return version;
    if (version == 0) return missing;
    HW_TRY(id, identity_of(db));
    if (first_line(mark) != id)
        return Error{ErrorCode::Conflict, "workshop.db does not belong to this folder: its identity differs from store-id. Put the folder back as one piece from its backup.", "data"};
    return version;
}

}  // namespace

Result<std::unique_ptr<SqliteStore>> SqliteStore::open(const std::string& folder, Serialiser serialiser, Access access) {
    const fs::path file = fs::path(folder) / "workshop.db", mark = fs::path(folder) / "store-id";
    auto hidden = std::make_unique<Hidden>();
    hidden->as = std::move(serialiser);
    hidden->folder = folder;
    hidden->writing = access == Access::Write;
    const auto done = access == Access::Read ? hidden->open_to_read(file, mark) : hidden->open_to_write(file, mark);
    if (!done.ok()) return done.error();
    return std::unique_ptr<SqliteStore>(new SqliteStore(std::move(hidden)));
}

Result<Done> SqliteStore::Hidden::open_to_read(const fs::path& file, const fs::path& mark) {
    if (!fs::exists(mark)) return Error{ErrorCode::NotFound, "There are no records in " + folder + " yet. hidewright serve makes them.", "data"};
    HW_TRY(version, opened(db, file, mark, SQLITE_OPEN_READONLY));
    if (version < static_cast<std::int64_t>(embedded::migrations.size()))
        return Error{ErrorCode::Conflict, "These records are of an earlier version. Start hidewright serve once: it brings them up to date.", "data"};
    return Done{};
}

Result<Done> SqliteStore::Hidden::open_to_write(const fs::path& file, const fs::path& mark) {
    const Error unwritable{ErrorCode::Unavailable, "The folder " + folder + " cannot be written. Give another with --data.", "data"};
    std::error_code fault;
    fs::create_directories(folder, fault);
    if (fault) return Error{ErrorCode::Unavailable, "The folder " + folder + " cannot be made. Give another with --data.", "data"};
    lock = std::make_unique<FolderLock>(fs::path(folder) / "workshop.lock");
    if (!lock->writable()) return unwritable;
    if (!lock->held()) return Error{ErrorCode::Unavailable, "Another hidewright has the records in " + folder + " open. Use its page, or stop it first.", "data"};
    HW_TRY(version, opened(db, file, mark, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE));
    // Hashes of passwords and the people's affairs are in it. What SQLite lays beside it takes the same rights.
    std::error_code rights;
    fs::permissions(file, fs::perms::owner_read | fs::perms::owner_write, rights);
    if (rights) return unwritable;
    if (!exec(db, "pragma journal_mode=wal") || !exec(db, "pragma synchronous=full") || !exec(db, "pragma foreign_keys=on") || !exec(db, "pragma secure_delete=on")) return broken(db, "opened");
    HW_TRY(migrated, migrate(db, version));
    static_cast<void>(migrated);
    if (!fs::exists(mark)) {
        HW_TRY(id, identity_of(db));
        if (!write_durably(mark, id + "\n")) return unwritable;
    }
    // A demo load that was cut short leaves only demo rows and no mark of its end: it is begun again.
    HW_TRY(used, integer_of(db, "select exists (select 1 from change where kind in ('demo_loaded', 'demo_removed')) or exists (select 1 from liquid where demo = 0) "
                                "or exists (select 1 from leather where demo = 0) or exists (select 1 from judgement where demo = 0) "
                                "or exists (select 1 from piece where demo = 0) or exists (select 1 from instrument where demo = 0) or exists (select 1 from sheet where demo = 0) or exists (select 1 from shelf_entry where demo = 0)"));
    fresh = used == 0;
    return Done{};
}

bool SqliteStore::is_new() const { return hidden_->fresh; }

Result<Done> SqliteStore::Hidden::take_out_demo(const char* then) {
    const std::scoped_lock one_user(guard);
    std::vector<std::string> files;
    {
        Stmt s(db, "select id from sheet where demo = 1");
        while (s.step()) files.push_back(s.text(0));
        if (!s.ok()) return broken(db, "read");
    }
    Tx tx(db);
    if (!tx.ok() || !exec(db, (std::string("delete from change where kind in ('demo_loaded', 'demo_removed') or row_id in ") + demo_rows).c_str()) ||
        !exec(db, "delete from shelf_entry where demo = 1 or product in (select id from liquid where demo = 1);"
                       "delete from sheet_correction where sheet in (select id from sheet where demo = 1); delete from sheet where demo = 1;"
                       "delete from judgement where demo = 1; delete from liquid where demo = 1; delete from leather where demo = 1;"
                       "delete from entry where piece in (select id from piece where demo = 1); delete from piece where demo = 1;"
                       "delete from calibration where instrument in (select id from instrument where demo = 1); delete from instrument where demo = 1"))
        return broken(db, "written");
    if (then != nullptr) {
        HW_TRY(logged, log(then, "demo"));
        static_cast<void>(logged);
    }
    if (!tx.commit()) return broken(db, "written");
    // A file that cannot be removed is left without a row: nothing shows it.
    std::error_code fault;
    for (const auto& id : files) fs::remove(fs::path(folder) / "sheets" / id.substr(0, 2) / (id + ".pdf"), fault);
    return Done{};
}

// The one row that stays says that the demo is not wanted: without it the next start would load it again.
Result<Done> SqliteStore::remove_demo() { return hidden_->take_out_demo("demo_removed"); }

Result<Done> SqliteStore::as_demo(const std::function<Result<Done>()>& load) {
    HW_TRY(cleared, hidden_->take_out_demo(nullptr));
    static_cast<void>(cleared);
    hidden_->demo = true;
    const auto done = load();
    hidden_->demo = false;
    if (!done.ok()) return done.error();
    const std::scoped_lock one_user(hidden_->guard);
    hidden_->fresh = false;
    return hidden_->log("demo_loaded", "demo");
}

Result<desk::Liquid> SqliteStore::liquid(const std::string& id) { return hidden_->one<desk::Liquid>("select body from liquid where id = ? and binned = 0", id, "liquid", hidden_->as.to_liquid); }
Result<desk::Leather> SqliteStore::leather(const std::string& id) { return hidden_->one<desk::Leather>("select body from leather where id = ? and binned = 0", id, "leather", hidden_->as.to_leather); }
Result<std::vector<desk::Liquid>> SqliteStore::liquids(const desk::Page& page) {
    return hidden_->many<desk::Liquid>("select body from liquid where binned = 0 and id > ? order by id limit ?", page, hidden_->as.to_liquid);
}
Result<std::vector<desk::Leather>> SqliteStore::leathers(const desk::Page& page) {
    return hidden_->many<desk::Leather>("select body from leather where binned = 0 and id > ? order by id limit ?", page, hidden_->as.to_leather);
}

Result<std::string> SqliteStore::keep_liquid(const desk::Liquid& given) {
    desk::Liquid l = given;
    if (l.id.empty()) l.id = uuid7();
    return hidden_->keep("insert into liquid (id, body, demo) values (?, ?, ?) on conflict (id) do update set body = excluded.body, demo = excluded.demo, binned = 0 " "where excluded.demo = 0 or liquid.demo = 1",
                         "keep_liquid", l.id, hidden_->as.liquid(l));
}

Result<std::string> SqliteStore::keep_leather(const desk::Leather& given) {
    desk::Leather l = given;
    if (l.id.empty()) l.id = uuid7();
    return hidden_->keep("insert into leather (id, body, demo) values (?, ?, ?) on conflict (id) do update set body = excluded.body, demo = excluded.demo, binned = 0 " "where excluded.demo = 0 or leather.demo = 1",
                         "keep_leather", l.id, hidden_->as.leather(l));
}

Result<std::string> SqliteStore::keep_judgement(const desk::JudgeRequest& request, const desk::JudgeAnswer& given, const std::string& kept_at) {
    const std::scoped_lock one_user(hidden_->guard);
    sqlite3* db = hidden_->db;
    desk::JudgeAnswer answer = given;
    answer.id = uuid7();
    const std::string title = request.title.empty() ? request.liquid.name + " on " + request.leather.name : request.title;
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt s(db, "insert into judgement (id, title, liquid, leather, grade, kept_at, version, request, answer, demo) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    s.bind(answer.id).bind(title).bind(request.liquid.name).bind(request.leather.name).bind(std::string(grade_name(answer.grade))).bind(kept_at).bind(answer.version)
        .bind(hidden_->as.request(request)).bind(hidden_->as.answer(answer)).bind(std::int64_t{hidden_->demo.load()});
    s.step();
    if (!s.ok()) return broken(db, "written");
    HW_TRY(logged, hidden_->log("keep_judgement", answer.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return answer.id;
}

Result<std::vector<desk::JudgementRow>> SqliteStore::judgements(const desk::Page& page) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select id, title, liquid, leather, grade, kept_at, version, demo from judgement where binned = 0 and (?1 = '' or id < ?1) order by id desc limit ?2");
    s.bind(page.after).bind(rows_of(page));
    std::vector<desk::JudgementRow> out;
    while (s.step()) out.push_back({s.text(0), s.text(1), s.text(2), s.text(3), s.text(4), s.text(5), s.text(6), s.integer(7) == 1});
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

Result<desk::KeptJudgement> SqliteStore::judgement(const std::string& id) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select id, title, liquid, leather, grade, kept_at, version, demo, request, answer from judgement where id = ?");
    s.bind(id);
    if (!s.step()) {
        if (!s.ok()) return broken(hidden_->db, "read");
        return Error{ErrorCode::NotFound, "There is no judgement \"" + id + "\". Look it up in the list.", "id"};
    }
    desk::KeptJudgement k;
    k.row = {s.text(0), s.text(1), s.text(2), s.text(3), s.text(4), s.text(5), s.text(6), s.integer(7) == 1};
    HW_TRY(request, hidden_->as.to_request(s.text(8)));
    HW_TRY(answer, hidden_->as.to_answer(s.text(9)));
    k.request = request;
    k.answer = answer;
    return k;
}

Result<Done> SqliteStore::bin(const std::string& id) { return hidden_->mark(id, true); }
Result<Done> SqliteStore::restore(const std::string& id) { return hidden_->mark(id, false); }

Result<std::vector<desk::ShopTest>> SqliteStore::bench() {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select body from shop_test order by name");
    std::vector<desk::ShopTest> out;
    while (s.step()) {
        HW_TRY(one, hidden_->as.to_shop_test(s.text(0)));
        out.push_back(one);
    }
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

Result<Done> SqliteStore::keep_bench(const desk::ShopTest& test) {
    const std::scoped_lock one_user(hidden_->guard);
    sqlite3* db = hidden_->db;
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt s(db, "insert into shop_test (name, body) values (?, ?) on conflict (name) do update set body = excluded.body");
    s.bind(test.name).bind(hidden_->as.shop_test(test));
    s.step();
    if (!s.ok()) return broken(db, "written");
    HW_TRY(logged, hidden_->log("keep_bench", test.name));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return Done{};
}

Result<std::vector<desk::OwnLimit>> SqliteStore::own_limits() {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select body from own_limit order by id");
    std::vector<desk::OwnLimit> out;
    while (s.step()) {
        HW_TRY(one, hidden_->as.to_own_limit(s.text(0)));
        // One without a value was taken back; its row stays.
        if (one.limit_ppm || one.limit_mg_m3) out.push_back(one);
    }
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

Result<std::string> SqliteStore::keep_own_limit(const desk::OwnLimit& limit) {
    const std::scoped_lock one_user(hidden_->guard);
    sqlite3* db = hidden_->db;
    desk::OwnLimit kept = limit;
    if (kept.id.empty()) kept.id = uuid7();
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt s(db, "insert into own_limit (id, body) values (?, ?) on conflict (id) do update set body = excluded.body");
    s.bind(kept.id).bind(hidden_->as.own_limit(kept));
    s.step();
    if (!s.ok()) return broken(db, "written");
    HW_TRY(logged, hidden_->log("keep_own_limit", kept.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return kept.id;
}

std::string SqliteStore::new_id() { return uuid7(); }

Result<std::vector<desk::KeptEntry>> SqliteStore::entries(const std::string& piece) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select number, by_id, by_name, body from entry where piece = ? order by number");
    s.bind(piece);
    std::vector<desk::KeptEntry> out;
    while (s.step()) {
        HW_TRY(entry, hidden_->as.to_entry(s.text(3)));
        entry.by = s.text(2);
        out.push_back({static_cast<int>(s.integer(0)), s.text(1), entry});
    }
    if (!s.ok()) return broken(hidden_->db, "read");
    if (out.empty()) return Error{ErrorCode::NotFound, "There is no piece \"" + piece + "\". Look it up in the list.", "piece"};
    return out;
}

Result<int> SqliteStore::append(const desk::PieceRow& row, const std::vector<desk::KeptEntry>& entries) {
    const std::scoped_lock one_user(hidden_->guard);
    sqlite3* db = hidden_->db;
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt piece(db, "insert into piece (id, name, family, changed_at, demo) values (?, ?, ?, ?, ?) on conflict (id) do update set name = excluded.name, family = excluded.family, changed_at = excluded.changed_at, demo = min(demo, excluded.demo)");
    piece.bind(row.id).bind(row.name).bind(row.family).bind(row.changed_at).bind(std::int64_t{hidden_->demo.load()});
    piece.step();
    if (!piece.ok()) return broken(db, "written");
    for (const auto& k : entries) {
        desk::Entry entry = k.entry;
        if (entry.id.empty()) entry.id = uuid7();
        entry.by.clear();  // has a column of its own
        const std::string body = hidden_->as.entry(entry);
        Stmt there(db, "select piece, body from entry where id = ?");
        there.bind(entry.id);
        if (there.step()) {
            if (there.text(0) != row.id || there.text(1) != body) return Error{ErrorCode::Conflict, "The id \"" + entry.id + "\" was used for another entry. Give this one a new id.", "id"};
            continue;
        }
        if (!there.ok()) return broken(db, "read");
        Stmt s(db, "insert into entry (id, piece, by_id, by_name, kept_at, body) values (?, ?, ?, ?, ?, ?)");
        s.bind(entry.id).bind(row.id).bind(k.by_id).bind(k.entry.by).bind(row.changed_at).bind(body);
        s.step();
        if (!s.ok()) return broken(db, "written");
    }
    HW_TRY(last, [&]() -> Result<std::int64_t> {
        Stmt s(db, "select coalesce(max(number), 0) from entry where piece = ?");
        s.bind(row.id);
        if (!s.step()) return broken(db, "read");
        return s.integer(0);
    }());
    HW_TRY(logged, hidden_->log("append_entries", row.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return static_cast<int>(last);
}

Result<bool> SqliteStore::is_away(const std::string& piece) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select binned from piece where id = ?");
    s.bind(piece);
    const bool away = s.step() && s.integer(0) == 1;
    if (!s.ok()) return broken(hidden_->db, "read");
    return away;
}

Result<std::vector<desk::PieceRow>> SqliteStore::pieces(const desk::Page& page) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select id, name, family, changed_at, (select count(*) from entry where piece = piece.id), demo from piece where binned = 0 and (?1 = '' or id < ?1) order by id desc limit ?2");
    s.bind(page.after).bind(rows_of(page));
    std::vector<desk::PieceRow> out;
    while (s.step()) out.push_back({s.text(0), s.text(1), s.text(2), s.text(3), static_cast<int>(s.integer(4)), s.integer(5) == 1});
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

Result<std::vector<desk::PieceRow>> SqliteStore::pieces_with_spots() {
    const std::scoped_lock one_user(hidden_->guard);
    // Worded as the index is, so that it is used.
    Stmt s(hidden_->db, "select id, name, family, changed_at, (select count(*) from entry where piece = piece.id), demo from piece where binned = 0 and id in (select piece from entry where json_extract(body, '$.did') = 'spot_made') order by id desc");
    std::vector<desk::PieceRow> out;
    while (s.step()) out.push_back({s.text(0), s.text(1), s.text(2), s.text(3), static_cast<int>(s.integer(4)), s.integer(5) == 1});
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

Result<std::string> SqliteStore::keep_instrument(const desk::Instrument& given) {
    desk::Instrument i = given;
    if (i.id.empty()) i.id = uuid7();
    return hidden_->keep("insert into instrument (id, body, demo) values (?, ?, ?) on conflict (id) do update set body = excluded.body, demo = excluded.demo, binned = 0 where excluded.demo = 0 or instrument.demo = 1",
                         "keep_instrument", i.id, hidden_->as.instrument(i));
}

Result<std::vector<desk::Instrument>> SqliteStore::instruments(const desk::Page& page) {
    return hidden_->many<desk::Instrument>("select body from instrument where binned = 0 and id > ? order by id limit ?", page, hidden_->as.to_instrument);
}

Result<std::string> SqliteStore::keep_calibration(const desk::Calibration& given) {
    const std::scoped_lock one_user(hidden_->guard);
    sqlite3* db = hidden_->db;
    desk::Calibration c = given;
    if (c.id.empty()) c.id = uuid7();
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt known(db, "select 1 from instrument where id = ? and binned = 0");
    known.bind(c.instrument);
    if (!known.step()) return known.ok() ? Error{ErrorCode::NotFound, "There is no meter \"" + c.instrument + "\". Keep it first.", "instrument"} : broken(db, "read");
    Stmt s(db, "insert into calibration (id, instrument, at, body) values (?, ?, ?, ?) on conflict (id) do nothing");
    s.bind(c.id).bind(c.instrument).bind(c.at).bind(hidden_->as.calibration(c));
    s.step();
    if (!s.ok()) return broken(db, "written");
    HW_TRY(logged, hidden_->log("keep_calibration", c.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return c.id;
}

Result<std::vector<desk::Calibration>> SqliteStore::calibrations(const std::string& instrument) {
    const std::scoped_lock one_user(hidden_->guard);
    Stmt s(hidden_->db, "select body from calibration where instrument = ? order by at, id");
    s.bind(instrument);
    std::vector<desk::Calibration> out;
    while (s.step()) {
        HW_TRY(one, hidden_->as.to_calibration(s.text(0)));
        out.push_back(one);
    }
    if (!s.ok()) return broken(hidden_->db, "read");
    return out;
}

}  // namespace hw::store
