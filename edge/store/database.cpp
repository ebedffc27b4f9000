#include "edge/store/database.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <random>

namespace hw::store {

namespace fs = std::filesystem;

Error broken(sqlite3* db, const char* doing) {
    if (const int code = sqlite3_errcode(db); code == SQLITE_NOTADB || code == SQLITE_CORRUPT)
        return {ErrorCode::Conflict, "workshop.db is damaged. Put the folder back from a backup; nothing was changed.", "data"};
    return {ErrorCode::Unavailable, std::string("The records could not be ") + doing + ": " + sqlite3_errmsg(db) + ". Check free space and that no other program holds the folder.", "data"};
}

Stmt::Stmt(sqlite3* db, const char* sql) { ok_ = sqlite3_prepare_v2(db, sql, -1, &s_, nullptr) == SQLITE_OK; }
Stmt::~Stmt() { sqlite3_finalize(s_); }

Stmt& Stmt::bind(const std::string& text) {
    ok_ = ok_ && sqlite3_bind_text(s_, ++at_, text.c_str(), static_cast<int>(text.size()), SQLITE_TRANSIENT) == SQLITE_OK;
    return *this;
}

Stmt& Stmt::bind(std::int64_t value) {
    ok_ = ok_ && sqlite3_bind_int64(s_, ++at_, value) == SQLITE_OK;
    return *this;
}

Stmt& Stmt::bind(const std::optional<double>& value) {
    ++at_;
    ok_ = ok_ && (value ? sqlite3_bind_double(s_, at_, *value) : sqlite3_bind_null(s_, at_)) == SQLITE_OK;
    return *this;
}

bool Stmt::step() {
    if (!ok_) return false;
    const int rc = sqlite3_step(s_);
    ok_ = rc == SQLITE_ROW || rc == SQLITE_DONE;
    return rc == SQLITE_ROW;
}

std::string Stmt::text(int column) const {
    const auto* t = sqlite3_column_text(s_, column);
    return t == nullptr ? std::string{} : std::string(reinterpret_cast<const char*>(t), static_cast<std::size_t>(sqlite3_column_bytes(s_, column)));
}

std::int64_t Stmt::integer(int column) const { return sqlite3_column_int64(s_, column); }

std::optional<double> Stmt::real(int column) const {
    return sqlite3_column_type(s_, column) == SQLITE_NULL ? std::nullopt : std::optional(sqlite3_column_double(s_, column));
}

bool exec(sqlite3* db, const char* sql) { return sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK; }

bool Tx::commit() {
    if (!open_ || !exec(db_, "commit")) return false;
    open_ = false;
    return true;
}

void Database::close() {
    sqlite3_close(db);
    db = nullptr;
}

Result<Done> Database::log(const char* kind, const std::string& row) {
    Stmt s(db, "insert into change (id, at_ms, kind, row_id) values (?, ?, ?, ?)");
    s.bind(uuid7()).bind(now_ms()).bind(std::string(kind)).bind(row);
    s.step();
    if (!s.ok()) return broken(db, "written");
    return Done{};
}

std::int64_t now_ms() { return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch()).count(); }

std::string uuid7() {
    static std::mutex guard;
    static std::random_device random;
    static std::int64_t last = 0;
    static unsigned counter = 0;
    const std::scoped_lock lock(guard);
    std::int64_t ms = now_ms();
    if (ms <= last) { ms = last; ++counter; } else { last = ms; counter = random() & 0x3FF; }
    if (counter > 0xFFF) { ms = ++last; counter = 0; }
    char text[40];
    std::snprintf(text, sizeof text, "%08x-%04x-7%03x-%04x-%08x%04x", static_cast<unsigned>(ms >> 16), static_cast<unsigned>(ms & 0xFFFF), counter,
                  0x8000u | (random() & 0x3FFFu), random(), random() & 0xFFFFu);
    return text;
}

bool flush_folder(const fs::path& folder) {
    const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return false;
    const bool flushed = ::fsync(fd) == 0;
    ::close(fd);
    return flushed;
}

bool write_durably(const fs::path& file, std::string_view bytes) {
    const fs::path temporary = file.string() + ".new";
    const int fd = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    if (fd < 0) return false;
    bool written = true;
    while (written && !bytes.empty()) {
        const ssize_t n = ::write(fd, bytes.data(), bytes.size());
        written = n > 0;
        if (written) bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    written = written && ::fsync(fd) == 0;
    ::close(fd);
    return written && std::rename(temporary.c_str(), file.c_str()) == 0 && flush_folder(file.parent_path());
}

}  // namespace hw::store
