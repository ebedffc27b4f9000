// The shelf: entries as rows, appended only.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "desk/ports.hpp"
#include "desk/shelf.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::store {

/// May be asked by several threads.
class SqliteShelf : public desk::ShelfLog {
public:
    /// @param liquid  writes a liquid as the store keeps it; the codec does it, and main hands it over
    SqliteShelf(SqliteStore& store, std::function<std::string(const desk::Liquid&)> liquid);

    Result<std::vector<desk::KeptShelfEntry>> entries(const std::string& product) override;
    Result<Done> append(const std::vector<desk::KeptShelfEntry>& entries, const std::vector<desk::Liquid>& liquids) override;
    Result<std::vector<desk::ShelfName>> names() override;
    std::string new_id() override;

private:
    Database& database_;
    std::function<std::string(const desk::Liquid&)> liquid_;
};

}  // namespace hw::store
