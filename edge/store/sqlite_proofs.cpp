#include "edge/store/sqlite_proofs.hpp"

#include <utility>

#include "edge/store/database.hpp"

namespace hw::store {

SqliteProofs::SqliteProofs(SqliteStore& store, ProofSerialiser serialiser) : database_(store.database()), as_(std::move(serialiser)) {}

Result<Done> SqliteProofs::append(const desk::Proven& p) {
    const std::scoped_lock one_user(database_.guard);
    Tx tx(database_.db);
    if (!tx.ok()) return broken(database_.db, "written");
    const std::string body = as_.proven(p);
    {
        Stmt before(database_.db, "select body from proof where id = ?");
        before.bind(p.id);
        if (before.step()) {
            if (before.text(0) == body) return Done{};
            return Error{ErrorCode::Conflict, "This id was used for another proof. Send it with a new one.", "proven.id"};
        }
        if (!before.ok()) return broken(database_.db, "read");
    }
    Stmt s(database_.db, "insert into proof (id, at, body) values (?, ?, ?)");
    s.bind(p.id).bind(p.at).bind(body);
    s.step();
    if (!s.ok()) return broken(database_.db, "written");
    HW_TRY(logged, database_.log("prove", p.id));
    static_cast<void>(logged);
    if (!tx.commit()) return broken(database_.db, "written");
    return Done{};
}

Result<std::vector<desk::Proven>> SqliteProofs::proofs() {
    const std::scoped_lock one_user(database_.guard);
    Stmt s(database_.db, "select body from proof order by number");
    std::vector<desk::Proven> out;
    while (s.step()) {
        HW_TRY(p, as_.to_proven(s.text(0)));
        out.push_back(p);
    }
    if (!s.ok()) return broken(database_.db, "read");
    return out;
}

}  // namespace hw::store
