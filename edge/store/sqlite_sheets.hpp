// The data sheets: bytes in files under their hash, beside the database that has their rows.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "desk/digest.hpp"
#include "desk/ports.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::store {

/// How a reading becomes text and back; the codec does it, and main hands the functions over.
struct SheetSerialiser {
    std::function<std::string(const desk::DigestAnswer&)> reading;
    std::function<Result<desk::DigestAnswer>(std::string_view)> to_reading;
};

/// `sheets/ab/ab….pdf` holds the bytes that came. May be asked by several threads.
class SqliteSheets : public desk::Sheets {
public:
    SqliteSheets(SqliteStore& store, SheetSerialiser serialiser);

    std::string id_of(std::string_view bytes) override;
    Result<Done> keep(const desk::DigestAnswer& reading, const desk::SheetRow& row, std::string_view bytes) override;
    Result<desk::DigestAnswer> reading(const std::string& id) override;
    Result<std::string> file(const std::string& id) override;
    Result<std::vector<desk::SheetRow>> sheets(const desk::Page& page) override;
    Result<desk::SheetRow> row(const std::string& id) override;
    Result<Done> keep_row(const desk::SheetRow& row) override;
    Result<std::vector<desk::SheetCorrection>> corrections(const std::string& sheet) override;
    Result<Done> append(const desk::SheetCorrection& correction) override;

private:
    Database& database_;
    SheetSerialiser as_;
    std::filesystem::path folder_;
};

}  // namespace hw::store
