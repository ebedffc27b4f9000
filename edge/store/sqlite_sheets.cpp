#include "edge/store/sqlite_sheets.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <utility>

#include "desk/photo.hpp"
#include "edge/store/database.hpp"
#include "edge/store/sha256.hpp"

namespace hw::store {

namespace fs = std::filesystem;

namespace {

constexpr int page_limit = 200;

Error not_there(const std::string& id) { return {ErrorCode::NotFound, "There is no data sheet \"" + id.substr(0, 64) + "\". Look it up in the list.", "sheet"}; }
Error no_room() { return {ErrorCode::Unavailable, "The data sheet could not be written. Make room on the disk and send it again.", "data"}; }

/// Nothing but a hash may become the name of a file.
fs::path file_of(const fs::path& folder, const std::string& id) { return folder / id.substr(0, 2) / (id + ".pdf"); }

#define HW_SHEET_COLUMNS "id, name, product, supplier, revision_date, arrived_at, to_look, contradictions, liquid"

desk::SheetRow row_of(const Stmt& s) {
    return {s.text(0), s.text(1), s.text(2), s.text(3), s.text(4), s.text(5), static_cast<int>(s.integer(6)), static_cast<int>(s.integer(7)), s.text(8)};
}

std::string_view word_of(desk::CorrectedBy how) { return how == desk::CorrectedBy::Measured ? "measured" : "typed"; }

desk::SheetCorrection correction_of(const Stmt& s) {
    return {s.text(0), s.text(1), s.text(2), s.text(3), s.text(4) == "measured" ? desk::CorrectedBy::Measured : desk::CorrectedBy::Typed, s.text(5), s.text(6)};
}

}  // namespace

SqliteSheets::SqliteSheets(SqliteStore& store, SheetSerialiser serialiser) : database_(store.database()), as_(std::move(serialiser)), folder_(fs::path(database_.folder) / "sheets") {}

std::string SqliteSheets::id_of(std::string_view bytes) { return sha256(bytes); }

Result<Done> SqliteSheets::keep(const desk::DigestAnswer& reading, const desk::SheetRow& row, std::string_view bytes) {
    if (!desk::is_photo_id(row.id)) throw Bug("a sheet is kept under the hash of its bytes");
    const fs::path file = file_of(folder_, row.id);
    std::error_code fault;
    fs::create_directories(file.parent_path(), fault);
    if (fault || !flush_folder(folder_) || !flush_folder(folder_.parent_path())) return no_room();
    // The row comes last: a sheet without its file cannot come about.
    if (!fs::exists(file, fault) && !write_durably(file, bytes)) return no_room();
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    Stmt s(database_.db, "insert into sheet (id, bytes, name, arrived_at, reading, product, supplier, revision_date, to_look, contradictions, liquid, demo) values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) on conflict (id) do update set binned = 0");
    s.bind(row.id).bind(static_cast<std::int64_t>(bytes.size())).bind(row.name).bind(row.arrived_at).bind(as_.reading(reading)).bind(row.product).bind(row.supplier).bind(row.revision_date)
        .bind(std::int64_t{row.to_look}).bind(std::int64_t{row.contradictions}).bind(row.liquid).bind(std::int64_t{database_.demo.load()});
    s.step();
    if (!s.ok()) return broken(database_.db, "written");
    HW_TRY(logged, database_.log("keep_sheet", row.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(database_.db, "written");
    return Done{};
}

Result<desk::DigestAnswer> SqliteSheets::reading(const std::string& id) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select reading from sheet where id = ?");
    s.bind(id);
    if (!s.step()) return s.ok() ? not_there(id) : broken(database_.db, "read");
    return as_.to_reading(s.text(0));
}

Result<std::string> SqliteSheets::file(const std::string& id) {
    HW_TRY(there, row(id));
    std::ifstream in(file_of(folder_, there.id), std::ios::binary);
    if (!in) return Error{ErrorCode::Unavailable, "The file of this data sheet is gone from the records. Put the folder back from a backup.", "data"};
    return std::string{std::istreambuf_iterator<char>(in), {}};
}

Result<std::vector<desk::SheetRow>> SqliteSheets::sheets(const desk::Page& page) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select " HW_SHEET_COLUMNS " from sheet where binned = 0 and (? = '' or number < (select number from sheet where id = ?)) order by number desc limit ?");
    s.bind(page.after).bind(page.after).bind(std::int64_t{std::clamp(page.limit, 1, page_limit)});
    std::vector<desk::SheetRow> out;
    while (s.step()) out.push_back(row_of(s));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<desk::SheetRow> SqliteSheets::row(const std::string& id) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select " HW_SHEET_COLUMNS " from sheet where id = ? and binned = 0");
    s.bind(id);
    if (!s.step()) return s.ok() ? not_there(id) : broken(database_.db, "read");
    return row_of(s);
}

Result<Done> SqliteSheets::keep_row(const desk::SheetRow& r) {
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    Stmt s(database_.db, "update sheet set product = ?, supplier = ?, revision_date = ?, to_look = ?, contradictions = ?, liquid = ? where id = ?");
    s.bind(r.product).bind(r.supplier).bind(r.revision_date).bind(std::int64_t{r.to_look}).bind(std::int64_t{r.contradictions}).bind(r.liquid).bind(r.id);
    s.step();
    if (!s.ok()) return broken(database_.db, "written");
    HW_TRY(logged, database_.log("keep_sheet_row", r.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(database_.db, "written");
    return Done{};
}

Result<std::vector<desk::SheetCorrection>> SqliteSheets::corrections(const std::string& sheet) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select id, sheet, key, value, how, by_name, at from sheet_correction where sheet = ? order by number");
    s.bind(sheet);
    std::vector<desk::SheetCorrection> out;
    while (s.step()) out.push_back(correction_of(s));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqliteSheets::append(const desk::SheetCorrection& c) {
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    {
        Stmt before(database_.db, "select id, sheet, key, value, how, by_name, at from sheet_correction where id = ?");
        before.bind(c.id);
        if (before.step()) {
            const desk::SheetCorrection same = correction_of(before);
            if (same.sheet == c.sheet && same.key == c.key && same.value == c.value && same.how == c.how) return Done{};
            return Error{ErrorCode::Conflict, "This id was used for another correction. Send it with a new one.", "id"};
        }
        if (!before.ok()) return broken(database_.db, "read");
    }
    Stmt s(database_.db, "insert into sheet_correction (id, sheet, key, value, how, by_name, at) values (?, ?, ?, ?, ?, ?, ?)");
    s.bind(c.id).bind(c.sheet).bind(c.key).bind(c.value).bind(std::string(word_of(c.how))).bind(c.by_name).bind(c.at);
    s.step();
    if (!s.ok()) return broken(database_.db, "written");
    HW_TRY(logged, database_.log("correct_sheet", c.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(database_.db, "written");
    return Done{};
}

}  // namespace hw::store
