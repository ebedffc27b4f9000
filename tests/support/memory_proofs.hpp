// Proven coverings in memory: for tests.
#pragma once

#include <vector>

#include "desk/identify.hpp"
#include "desk/ports.hpp"
#include "edge/codec/codec.hpp"

namespace hw::test {

class MemoryProofs : public desk::Proofs {
public:
    Result<Done> append(const desk::Proven& p) override {
        for (const auto& x : proofs_) {
            if (x.id != p.id) continue;
            if (codec::written(x) == codec::written(p)) return Done{};
            return Error{ErrorCode::Conflict, "This id was used for another proof.", "proven.id"};
        }
        proofs_.push_back(p);
        return Done{};
    }
    Result<std::vector<desk::Proven>> proofs() override { return proofs_; }

private:
    std::vector<desk::Proven> proofs_;
};

}  // namespace hw::test
