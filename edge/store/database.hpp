// What the stores of this folder share: one connection to one SQLite file, and the small change around it. For the .cpp
// files of this folder.
#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace hw::store {

/// The fault of the last call in words. @param doing  "read", "written", "opened"
Error broken(sqlite3* db, const char* doing);

/// A prepared statement.
class Stmt {
public:
    Stmt(sqlite3* db, const char* sql);
    ~Stmt();
    Stmt(const Stmt&) = delete;
    Stmt& operator=(const Stmt&) = delete;
    Stmt& bind(const std::string& text);
    Stmt& bind(std::int64_t value);
    Stmt& bind(const std::optional<double>& value);  ///< none: null
    /// True while there is a row.
    bool step();
    [[nodiscard]] bool ok() const { return ok_; }
    [[nodiscard]] std::string text(int column) const;
    [[nodiscard]] std::int64_t integer(int column) const;
    [[nodiscard]] std::optional<double> real(int column) const;

private:
    sqlite3_stmt* s_ = nullptr;
    int at_ = 0;
    bool ok_ = true;
};

bool exec(sqlite3* db, const char* sql);

/// A transaction that rolls back unless committed.
class Tx {
public:
    explicit Tx(sqlite3* db) : db_(db) { open_ = exec(db, "begin immediate"); }
    ~Tx() { if (open_) exec(db_, "rollback"); }
    Tx(const Tx&) = delete;
    Tx& operator=(const Tx&) = delete;
    [[nodiscard]] bool ok() const { return open_; }
    bool commit();

private:
    sqlite3* db_;
    bool open_ = false;
};

/// The connection, and who may use it.
struct Database {
    Database() = default;
    ~Database() { close(); }
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    void close();
    /// Appends to the changes; inside the transaction of the change itself.
    Result<Done> log(const char* kind, const std::string& row);

    sqlite3* db = nullptr;
    std::string folder;
    bool writing = false;  ///< false: beside the one program that writes
    std::atomic<bool> demo = false;  ///< what is kept now belongs to the demo workshop
    std::mutex guard;      ///< one connection, one user at a time
};

std::int64_t now_ms();
/// UUID version 7 (RFC 9562): time first, so that ids sort by age; a counter keeps order within a millisecond.
std::string uuid7();

/// Makes the names in a folder survive a power cut.
bool flush_folder(const std::filesystem::path& folder);
/// Writes a file so that it survives a power cut: temporary name, flush, rename, flush of the folder.
bool write_durably(const std::filesystem::path& file, std::string_view bytes);

}  // namespace hw::store
