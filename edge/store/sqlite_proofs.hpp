// Proven coverings, appended.
#pragma once

#include <functional>
#include <string>

#include "desk/identify.hpp"
#include "desk/ports.hpp"
#include "edge/store/sqlite_store.hpp"

namespace hw::store {

/// How a proof becomes text and back; the codec does it, and main hands the functions over.
struct ProofSerialiser {
    std::function<std::string(const desk::Proven&)> proven;
    std::function<Result<desk::Proven>(std::string_view)> to_proven;
};

/// May be asked by several threads.
class SqliteProofs : public desk::Proofs {
public:
    SqliteProofs(SqliteStore& store, ProofSerialiser serialiser);
    Result<Done> append(const desk::Proven& proven) override;
    Result<std::vector<desk::Proven>> proofs() override;

private:
    Database& database_;
    ProofSerialiser as_;
};

}  // namespace hw::store
