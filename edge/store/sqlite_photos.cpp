#include "edge/store/sqlite_photos.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <utility>

#include "edge/store/database.hpp"
#include "edge/store/sha256.hpp"

namespace hw::store {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t look_bytes = 16;
constexpr int page_limit = 200;

std::string_view word_of(desk::Arrival arrival) {
    for (const auto& [a, word] : EnumNames<desk::Arrival>::names)
        if (a == arrival) return word;
    return {};
}

desk::Arrival arrival_of(std::string_view word) {
    for (const auto& [a, name] : EnumNames<desk::Arrival>::names)
        if (name == word) return a;
    return desk::Arrival::File;
}

Error no_room() { return {ErrorCode::Unavailable, "The photograph could not be written. Make room on the disk and send it again: what is there already is kept.", "data"}; }
Error not_there(const std::string& id) { return {ErrorCode::NotFound, "There is no photograph \"" + id.substr(0, 64) + "\".", "id"}; }

/// Size of a file; nothing when there is none.
std::optional<int> size_of(const fs::path& file) {
    std::error_code fault;
    const auto size = fs::file_size(file, fault);
    return fault ? std::nullopt : std::optional(static_cast<int>(std::min<std::uintmax_t>(size, desk::photo_bytes_limit + 1)));
}

std::optional<std::string> bytes_in(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) return std::nullopt;
    std::string out{std::istreambuf_iterator<char>(in), {}};
    return in.bad() ? std::nullopt : std::optional(std::move(out));
}

bool flush_file(const fs::path& file) {
    const int fd = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
    if (fd < 0) return false;
    const bool flushed = ::fsync(fd) == 0;
    ::close(fd);
    return flushed;
}

/// Makes a folder whose name survives a power cut.
bool made(const fs::path& folder) {
    std::error_code fault;
    if (fs::is_directory(folder, fault)) return true;
    fs::create_directories(folder, fault);
    return !fault && flush_folder(folder.parent_path());
}

desk::Photo photo_of(const Stmt& s) {
    desk::Photo p;
    p.id = s.text(0);
    p.bytes = static_cast<int>(s.integer(1));
    p.type = s.text(2);
    p.width_px = static_cast<int>(s.integer(3));
    p.height_px = static_cast<int>(s.integer(4));
    p.orientation = static_cast<int>(s.integer(5));
    p.taken_at = s.text(6);
    p.arrived_at = s.text(7);
    p.arrival = arrival_of(s.text(8));
    p.name = s.text(9);
    return p;
}

#define HW_PHOTO_COLUMNS "id, bytes, type, width_px, height_px, orientation, taken_at, arrived_at, arrival, name"

fs::path part_file(const fs::path& folder, const std::string& id) { return folder / "parts" / id; }
fs::path whole_file(const fs::path& folder, const std::string& id) { return folder / id.substr(0, 2) / id; }
fs::path copy_file(const fs::path& folder, const std::string& id, desk::PhotoSize size) {
    return fs::path(whole_file(folder, id).string() + (size == desk::PhotoSize::Screen ? ".screen.jpg" : ".small.jpg"));
}

}  // namespace

/// Only one at a time works on one photograph; others of the same one wait.
class SqlitePhotos::Turn {
public:
    Turn(SqlitePhotos& photos, std::string id) : photos_(photos), id_(std::move(id)) {
        std::unique_lock lock(photos_.guard_);
        photos_.left_.wait(lock, [this] { return photos_.taken_.insert(id_).second; });
    }
    ~Turn() {
        {
            const std::scoped_lock lock(photos_.guard_);
            photos_.taken_.erase(id_);
        }
        photos_.left_.notify_all();
    }
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

private:
    SqlitePhotos& photos_;
    std::string id_;
};

struct SqlitePhotos::Part {
    desk::UploadRequest request;
    int have = 0;
    bool in_place = false;  ///< the file has its last name already: the program ended before the row was written
    [[nodiscard]] bool whole() const { return have == request.bytes; }
};

SqlitePhotos::SqlitePhotos(SqliteStore& store, desk::PhotoReader& reader, desk::Clock& clock)
    : database_(store.database()), reader_(reader), clock_(clock), folder_(fs::path(store.database().folder) / "photos") {
    if (database_.writing) clear_old_parts();
}

Result<desk::Upload> SqlitePhotos::begin(const desk::UploadRequest& request) {
    HW_TRY(asked, desk::checked(request));
    const Turn turn(*this, asked.sha256);
    HW_TRY(there, found(asked.sha256));
    if (there) return desk::Upload{there->bytes, true};
    HW_TRY(now, announced(asked));
    clear_old_parts();
    return now.whole() ? finish(now) : desk::Upload{now.have, false};
}

Result<desk::Upload> SqlitePhotos::append(const std::string& id, int offset, std::string_view bytes) {
    if (!desk::is_photo_id(id)) return not_there(id);
    if (offset < 0) return Error{ErrorCode::InvalidInput, "Give the offset of the first byte, from 0.", "offset"};
    const Turn turn(*this, id);
    HW_TRY(there, found(id));
    if (there) return desk::Upload{there->bytes, true};
    HW_TRY(known, part(id));
    if (!known) return Error{ErrorCode::NotFound, "No photograph was announced under this hash, or its upload was cleared. Begin it again.", "id"};
    const auto total = static_cast<std::size_t>(known->request.bytes), at = static_cast<std::size_t>(offset), have = static_cast<std::size_t>(known->have);
    if (bytes.size() > total || at > total - bytes.size())
        return Error{ErrorCode::InvalidInput, "These bytes go beyond the " + std::to_string(total) + " that were announced. What is there is kept; compare the file with the announcement.", "offset"};
    if (at > have || known->whole()) return known->whole() ? finish(*known) : desk::Upload{known->have, false};
    if (have == 0 && bytes.size() >= look_bytes)
        if (const auto kind = reader_.look(bytes); !kind.ok()) {
            drop(id);
            return kind.error();
        }
    if (at + bytes.size() > have) {
        HW_TRY(added, add(*known, bytes.substr(have - at)));
        static_cast<void>(added);
        known->have = static_cast<int>(at + bytes.size());
    }
    return known->whole() ? finish(*known) : desk::Upload{known->have, false};
}

Result<desk::Photo> SqlitePhotos::photo(const std::string& id) {
    HW_TRY(there, found(id));
    if (!there) return not_there(id);
    return *there;
}

Result<std::vector<desk::Photo>> SqlitePhotos::photos(const desk::Page& page) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select " HW_PHOTO_COLUMNS " from photo where (?1 = '' or number < (select number from photo where id = ?1)) order by number desc limit ?2");
    s.bind(page.after).bind(std::int64_t{std::clamp(page.limit, 1, page_limit)});
    std::vector<desk::Photo> out;
    while (s.step()) out.push_back(photo_of(s));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<std::string> SqlitePhotos::file(const std::string& id, desk::PhotoSize size) {
    HW_TRY(there, found(id));
    if (!there) return not_there(id);
    auto bytes = bytes_in(size == desk::PhotoSize::Original ? whole_file(folder_, id) : copy_file(folder_, id, size));
    if (!bytes) return Error{ErrorCode::Unavailable, "The file of photograph " + id + " is missing from the folder of the records. Put the folder photos back from a backup.", "id"};
    return *std::move(bytes);
}

Result<std::optional<desk::Photo>> SqlitePhotos::found(const std::string& id) {
    if (!desk::is_photo_id(id)) return std::optional<desk::Photo>{};
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select " HW_PHOTO_COLUMNS " from photo where id = ?");
    s.bind(id);
    if (s.step()) return std::optional(photo_of(s));
    if (!s.ok()) return broken(database_.db, "read");
    return std::optional<desk::Photo>{};
}

Result<std::optional<SqlitePhotos::Part>> SqlitePhotos::part(const std::string& id) {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select bytes, name, arrival from photo_part where id = ?");
    s.bind(id);
    if (!s.step()) {
        if (!s.ok()) return broken(database_.db, "read");
        return std::optional<Part>{};
    }
    Part out;
    out.request = {id, static_cast<int>(s.integer(0)), s.text(1), arrival_of(s.text(2))};
    const auto in_place = size_of(whole_file(folder_, id));
    out.in_place = in_place.has_value();
    out.have = in_place ? *in_place : size_of(part_file(folder_, id)).value_or(0);
    return std::optional(out);
}

/// The part of that announcement; the newest announcement holds. Its file is touched, so that it is not taken for an old one.
Result<SqlitePhotos::Part> SqlitePhotos::announced(const desk::UploadRequest& request) {
    if (!made(folder_) || !made(folder_ / "parts")) return no_room();
    const int fd = ::open(part_file(folder_, request.sha256).c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    if (fd < 0) return no_room();
    const bool touched = ::futimens(fd, nullptr) == 0;
    ::close(fd);
    if (!touched) return no_room();
    {
        const std::scoped_lock one_user(database_.guard);
        Stmt s(database_.db, "insert into photo_part (id, bytes, name, arrival) values (?, ?, ?, ?) on conflict (id) do update set bytes = excluded.bytes, name = excluded.name, arrival = excluded.arrival");
        s.bind(request.sha256).bind(std::int64_t{request.bytes}).bind(request.name).bind(std::string(word_of(request.arrival)));
        s.step();
        if (!s.ok()) return broken(database_.db, "written");
    }
    HW_TRY(known, part(request.sha256));
    HW_EXPECTS(known.has_value());
    if (known->have > request.bytes) {  // an earlier announcement of the same hash was longer: one of them is wrong
        std::error_code fault;
        fs::remove(whole_file(folder_, request.sha256), fault);
        fs::resize_file(part_file(folder_, request.sha256), 0, fault);
        if (fault) return no_room();
        known->have = 0;
        known->in_place = false;
    }
    return *known;
}

Result<Done> SqlitePhotos::add(const Part& to, std::string_view bytes) {
    const int fd = ::open(part_file(folder_, to.request.sha256).c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600);
    if (fd < 0) return no_room();
    off_t at = to.have;
    while (!bytes.empty()) {
        const ssize_t n = ::pwrite(fd, bytes.data(), bytes.size(), at);
        if (n <= 0) break;
        at += n;
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    ::close(fd);
    if (!bytes.empty()) return no_room();
    return Done{};
}

Result<desk::Upload> SqlitePhotos::finish(const Part& whole) {
    const std::string& id = whole.request.sha256;
    const auto bytes = bytes_in(whole.in_place ? whole_file(folder_, id) : part_file(folder_, id));
    if (!bytes) return no_room();
    if (sha256(*bytes) != id) {
        drop(id);
        return Error{ErrorCode::InvalidInput, "The bytes do not give the hash that was announced, so the file changed on its way. The part was dropped: begin again from the file.", "sha256"};
    }
    const auto content = reader_.read(*bytes);
    if (!content.ok()) {
        if (content.error().code != ErrorCode::Unavailable) drop(id);
        return content.error();
    }
    HW_TRY(settled, settle(id, *content));
    static_cast<void>(settled);
    desk::Photo photo{id, whole.request.bytes, content->type, content->width_px, content->height_px, content->orientation, content->taken_at, clock_.now_utc(), whole.request.arrival, whole.request.name};
    HW_TRY(kept, keep_row(photo));
    static_cast<void>(kept);
    return desk::Upload{photo.bytes, true};
}

/// Everything that the row will stand for is on the disk first, under its last name.
Result<Done> SqlitePhotos::settle(const std::string& id, const desk::PhotoContent& content) {
    const fs::path last = whole_file(folder_, id), part = part_file(folder_, id);
    if (!made(last.parent_path()) || !write_durably(copy_file(folder_, id, desk::PhotoSize::Screen), content.screen) ||
        !write_durably(copy_file(folder_, id, desk::PhotoSize::Small), content.small))
        return no_room();
    if (fs::exists(last)) {  // never overwritten
        std::error_code gone;
        fs::remove(part, gone);
        return Done{};
    }
    if (!flush_file(part) || std::rename(part.c_str(), last.c_str()) != 0 || !flush_folder(last.parent_path())) return no_room();
    return Done{};
}

Result<Done> SqlitePhotos::keep_row(const desk::Photo& p) {
    const std::scoped_lock one_user(database_.guard);
    sqlite3* db = database_.db;
    Tx tx(db);
    if (!tx.ok()) return broken(db, "written");
    Stmt s(db, "insert into photo (" HW_PHOTO_COLUMNS ") values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    s.bind(p.id).bind(std::int64_t{p.bytes}).bind(p.type).bind(std::int64_t{p.width_px}).bind(std::int64_t{p.height_px}).bind(std::int64_t{p.orientation});
    s.bind(p.taken_at).bind(p.arrived_at).bind(std::string(word_of(p.arrival))).bind(p.name);
    s.step();
    Stmt gone(db, "delete from photo_part where id = ?");
    gone.bind(p.id);
    gone.step();
    if (!s.ok() || !gone.ok()) return broken(db, "written");
    HW_TRY(logged, database_.log("keep_photo", p.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(db, "written");
    return Done{};
}

/// Takes away what is no photograph of the workshop: there is no row, so nothing refers to it.
void SqlitePhotos::drop(const std::string& id) {
    std::error_code ignored;
    fs::remove(part_file(folder_, id), ignored);
    fs::remove(whole_file(folder_, id), ignored);
    for (const auto size : {desk::PhotoSize::Screen, desk::PhotoSize::Small}) fs::remove(copy_file(folder_, id, size), ignored);
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "delete from photo_part where id = ?");
    s.bind(id);
    s.step();
}

void SqlitePhotos::clear_old_parts() {
    const auto oldest = fs::file_time_type::clock::now() - std::chrono::hours(24 * part_age_days);
    std::error_code fault;
    std::vector<std::string> old;
    for (auto it = fs::directory_iterator(folder_ / "parts", fault); !fault && it != fs::directory_iterator(); it.increment(fault)) {
        std::error_code gone;
        const auto written = it->last_write_time(gone);
        if (!gone && written < oldest && desk::is_photo_id(it->path().filename().string())) old.push_back(it->path().filename().string());
    }
    for (const auto& id : old) {
        const auto there = found(id);
        if (!there.ok()) continue;
        std::error_code ignored;
        if (*there) fs::remove(part_file(folder_, id), ignored);
        else drop(id);
    }
}

}  // namespace hw::store
