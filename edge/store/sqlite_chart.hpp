// What was worked out of the chart of the shelf, in the file of the records.
#pragma once

#include <functional>
#include <string>

#include "desk/ports.hpp"
#include "desk/touch.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::store {

/// How cells and the use become text and back; the codec does it, and main hands the functions over.
struct ChartSerialiser {
    std::function<std::string(const desk::TouchCell&)> cell;
    std::function<Result<desk::TouchCell>(std::string_view)> to_cell;
    std::function<std::string(const desk::Use&)> use;
    std::function<Result<desk::Use>(std::string_view)> to_use;
};

/// May be asked by several threads.
class SqliteChart : public desk::Chart {
public:
    SqliteChart(SqliteStore& store, ChartSerialiser serialiser);

    /// A cell that a newer or older program wrote and that cannot be read is left out: it is worked out anew.
    Result<std::vector<desk::TouchCell>> cells() override;
    Result<Done> keep_cell(const desk::TouchCell& cell) override;
    Result<std::optional<desk::Use>> use() override;
    Result<Done> keep_use(const desk::Use& use) override;

private:
    Database& database_;
    ChartSerialiser as_;
};

}  // namespace hw::store
