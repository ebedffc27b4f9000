// The photographs: bytes in files under their hash, beside the database that has their rows.
#pragma once

#include <condition_variable>
#include <filesystem>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "desk/ports.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::store {

/// An upload that nothing was added to for so long is cleared away.
inline constexpr int part_age_days = 7;

/// `photos/ab/ab…` holds the bytes that came, `….screen.jpg` and `….small.jpg` the copies, `photos/parts/` what is under way.
/// May be asked by several threads; two that ask for the same photograph take turns.
class SqlitePhotos : public desk::Photos {
public:
    /// Clears old parts away, where `store` may be written.
    SqlitePhotos(SqliteStore& store, desk::PhotoReader& reader, desk::Clock& clock);

    Result<desk::Upload> begin(const desk::UploadRequest& request) override;
    Result<desk::Upload> append(const std::string& sha256, int offset, std::string_view bytes) override;
    Result<desk::Photo> photo(const std::string& id) override;
    Result<std::vector<desk::Photo>> photos(const desk::Page& page) override;
    Result<std::string> file(const std::string& id, desk::PhotoSize size) override;

private:
    class Turn;
    struct Part;

    Result<std::optional<desk::Photo>> found(const std::string& id);
    Result<std::optional<Part>> part(const std::string& id);
    Result<Part> announced(const desk::UploadRequest& request);
    Result<Done> add(const Part& to, std::string_view bytes);
    /// The last steps once every byte is there: hash, child, copies, files, row.
    Result<desk::Upload> finish(const Part& whole);
    Result<Done> settle(const std::string& id, const desk::PhotoContent& content);
    Result<Done> keep_row(const desk::Photo& photo);
    void drop(const std::string& id);
    void clear_old_parts();

    Database& database_;
    desk::PhotoReader& reader_;
    desk::Clock& clock_;
    std::filesystem::path folder_;
    std::mutex guard_;
    std::condition_variable left_;
    std::set<std::string> taken_;  // whose turn it is
};

}  // namespace hw::store
