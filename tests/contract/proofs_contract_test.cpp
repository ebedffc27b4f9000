// What every keeper of proofs promises: over SQLite and over memory.
#include <gtest/gtest.h>

#include <memory>

#include "edge/codec/codec.hpp"
#include "edge/store/sqlite_proofs.hpp"
#include "tests/support/memory_proofs.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

struct OnDisk {
    OnDisk() : store(store::SqliteStore::open(folder.name(), records_as_json()).value()), proofs(*store, {[](const desk::Proven& v) { return codec::written(v); }, codec::parse_proven}) {}
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> store;
    store::SqliteProofs proofs;
};
struct InMemory {
    MemoryProofs proofs;
};

template <class Place>
class ProofsContract : public ::testing::Test {
protected:
    Place place_;
};
using Places = ::testing::Types<OnDisk, InMemory>;
TYPED_TEST_SUITE(ProofsContract, Places);

desk::Proven proven(const std::string& id, const std::string& kind) {
    desk::Proven p;
    p.id = id;
    p.at = "2026-01-02T03:04:05Z";
    p.by = "a \"name\"";
    p.kind = kind;
    p.proof = "laboratory";
    p.veils = {"wax"};
    p.place = "car";
    p.saw = {{"drop", {"under_10_s"}, ""}};
    return p;
}

TYPED_TEST(ProofsContract, WhatIsAppendedComesBackInItsOrder) {
    auto& proofs = this->place_.proofs;
    EXPECT_TRUE(proofs.proofs().value().empty());
    EXPECT_TRUE(proofs.append(proven("b", "aniline")).ok());
    EXPECT_TRUE(proofs.append(proven("a", "nubuck")).ok());
    const auto all = proofs.proofs().value();
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(codec::written(all[0]), codec::written(proven("b", "aniline")));
    EXPECT_EQ(all[1].kind, "nubuck");
}

TYPED_TEST(ProofsContract, TheSameAgainChangesNothingAndAnIdIsUsedOnce) {
    auto& proofs = this->place_.proofs;
    EXPECT_TRUE(proofs.append(proven("a", "aniline")).ok());
    EXPECT_TRUE(proofs.append(proven("a", "aniline")).ok());
    EXPECT_EQ(proofs.append(proven("a", "suede")).error().code, ErrorCode::Conflict);
    EXPECT_EQ(proofs.proofs().value().size(), 1U);
}

}  // namespace
}  // namespace hw::test
