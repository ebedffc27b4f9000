#include "edge/store/sqlite_chart.hpp"

#include <utility>

#include "edge/store/database.hpp"

namespace hw::store {

SqliteChart::SqliteChart(SqliteStore& store, ChartSerialiser serialiser) : database_(store.database()), as_(std::move(serialiser)) {}

Result<std::vector<desk::TouchCell>> SqliteChart::cells() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select cell from touch_cell order by liquid, leather");
    std::vector<desk::TouchCell> out;
    while (s.step())
        if (auto cell = as_.to_cell(s.text(0)); cell.ok()) out.push_back(*std::move(cell));
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

Result<Done> SqliteChart::keep_cell(const desk::TouchCell& cell) {
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    Stmt s(database_.db, "insert into touch_cell (liquid, leather, cell) values (?, ?, ?) on conflict (liquid, leather) do update set cell = excluded.cell");
    s.bind(cell.liquid).bind(cell.column).bind(as_.cell(cell));
    s.step();
    if (!s.ok() || !tx.commit()) return broken(database_.db, "written");
    return Done{};
}

Result<std::optional<desk::Use>> SqliteChart::use() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select use from touch_use where one = 1");
    if (!s.step()) {
        if (!s.ok()) return broken(database_.db, "read");
        return std::optional<desk::Use>{};
    }
    auto use = as_.to_use(s.text(0));
    return use.ok() ? std::optional(*std::move(use)) : std::optional<desk::Use>{};
}

Result<Done> SqliteChart::keep_use(const desk::Use& use) {
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    Stmt s(database_.db, "insert into touch_use (one, use) values (1, ?) on conflict (one) do update set use = excluded.use");
    s.bind(as_.use(use));
    s.step();
    if (!s.ok() || !tx.commit()) return broken(database_.db, "written");
    return Done{};
}

}  // namespace hw::store
