// What every keeper of the shelf promises: over SQLite, and over memory.
#include <gtest/gtest.h>

#include <memory>

#include "edge/codec/codec.hpp"
#include "edge/store/sqlite_shelf.hpp"
#include "tests/support/memory_shelf.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

std::string liquid_as_json(const desk::Liquid& l) { return codec::written(l); }

struct OnDisk {
    OnDisk() : kept(store::SqliteStore::open(folder.name(), records_as_json()).value()), shelf(*kept, liquid_as_json) {}
    desk::Store& store() { return *kept; }
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> kept;
    store::SqliteShelf shelf;
};
struct InMemory {
    InMemory() : shelf(memory) {}
    desk::Store& store() { return memory; }
    MemoryStore memory;
    MemoryShelf shelf;
};

desk::KeptShelfEntry entry(const std::string& id, const std::string& product, double amount) {
    desk::KeptShelfEntry k;
    k.by_id = "person";
    k.kept_at = "2026-01-02T03:04:05Z";
    desk::ShelfEntry& e = k.entry;
    e.id = id;
    e.did = desk::ShelfDid::Received;
    e.product = product;
    e.at = "2026-01-02";
    e.by = "Ada";
    e.code = "L \"7\", =1";
    e.expiry = "2027-03";
    e.place = "Regal ü";
    e.amount = amount;
    e.note = "line";
    return k;
}

desk::Liquid liquid(const std::string& id, const std::string& name) {
    desk::Liquid l;
    l.id = id;
    l.name = name;
    return l;
}

template <class Place>
class ShelfContract : public ::testing::Test {
protected:
    desk::ShelfLog& shelf() { return place_.shelf; }
    Place place_;
};
using Places = ::testing::Types<OnDisk, InMemory>;
TYPED_TEST_SUITE(ShelfContract, Places);

TYPED_TEST(ShelfContract, EveryFieldComesBack) {
    auto k = entry("e1", "p", 0.1);
    k.entry.did = desk::ShelfDid::Fact;
    k.entry.lot = "lot";
    k.entry.key = "key";
    k.entry.value = "value";
    k.entry.how = desk::CorrectedBy::Measured;
    k.entry.piece = "piece";
    k.entry.sheet = "sheet";
    k.entry.person = "person";
    k.entry.takes_back = "other";
    ASSERT_TRUE(this->shelf().append({k}, {liquid("p", "Name")}).ok());
    const auto all = this->shelf().entries("p").value();
    ASSERT_EQ(all.size(), 1U);
    const auto &a = all[0].entry, &b = k.entry;
    EXPECT_EQ(all[0].by_id, "person");
    EXPECT_EQ(all[0].kept_at, k.kept_at);
    EXPECT_EQ(a.did, b.did);
    EXPECT_EQ(a.how, b.how);
    EXPECT_EQ(a.amount, b.amount);
    for (const auto field : {&desk::ShelfEntry::id, &desk::ShelfEntry::product, &desk::ShelfEntry::lot, &desk::ShelfEntry::at, &desk::ShelfEntry::by, &desk::ShelfEntry::key, &desk::ShelfEntry::value, &desk::ShelfEntry::code,
                             &desk::ShelfEntry::expiry, &desk::ShelfEntry::place, &desk::ShelfEntry::piece, &desk::ShelfEntry::sheet, &desk::ShelfEntry::person, &desk::ShelfEntry::takes_back, &desk::ShelfEntry::note})
        EXPECT_EQ(a.*field, b.*field);
}

TYPED_TEST(ShelfContract, AnAmountThatWasNotSaidIsNotNought) {
    auto k = entry("e1", "p", 0);
    k.entry.amount.reset();
    ASSERT_TRUE(this->shelf().append({k, entry("e2", "p", 0)}, {}).ok());
    const auto all = this->shelf().entries("p").value();
    EXPECT_FALSE(all[0].entry.amount.has_value());
    EXPECT_EQ(all[1].entry.amount, 0.0);
}

TYPED_TEST(ShelfContract, TheSameIsKeptOnceAndAnUsedIdIsAConflictThatTakesNothing) {
    ASSERT_TRUE(this->shelf().append({entry("e1", "p", 1)}, {}).ok());
    ASSERT_TRUE(this->shelf().append({entry("e1", "p", 1)}, {}).ok());
    const auto conflict = this->shelf().append({entry("e2", "p", 1), entry("e1", "p", 2)}, {liquid("q", "Q")});
    EXPECT_EQ(conflict.error().code, ErrorCode::Conflict);
    EXPECT_EQ(this->shelf().entries("p")->size(), 1U);
    EXPECT_TRUE(this->shelf().names()->empty());
}

TYPED_TEST(ShelfContract, AllComeByProductThenInTheOrderOfArrival) {
    ASSERT_TRUE(this->shelf().append({entry("z", "b", 1), entry("y", "a", 1), entry("x", "b", 1)}, {}).ok());
    std::string order;
    for (const auto& k : *this->shelf().entries("")) order += k.entry.id;
    EXPECT_EQ(order, "yzx");
}

TYPED_TEST(ShelfContract, ALiquidOfItsEntriesIsInTheStore) {
    ASSERT_TRUE(this->shelf().append({}, {liquid("q", "Second"), liquid("p", "First")}).ok());
    const auto names = this->shelf().names().value();
    ASSERT_EQ(names.size(), 2U);
    EXPECT_EQ(names[0].name, "First");
    EXPECT_EQ(this->place_.store().liquid("q")->name, "Second");
}

TEST(ShelfOnDiskContract, TheDemoComesOutWithoutTraceAndOwnBottlesStay) {
    OnDisk place;
    ASSERT_TRUE(place.kept->as_demo([&] { return place.shelf.append({entry("d1", "demo", 1)}, {liquid("demo", "Demo")}); }).ok());
    ASSERT_TRUE(place.shelf.append({entry("o1", "own", 1), entry("o2", "demo", 1)}, {liquid("own", "Own")}).ok());
    EXPECT_TRUE(place.shelf.names()->front().demo);
    ASSERT_TRUE(place.kept->remove_demo().ok());
    const auto left = place.shelf.entries("").value();
    ASSERT_EQ(left.size(), 1U);
    EXPECT_EQ(left[0].entry.id, "o1");
    EXPECT_EQ(place.shelf.names()->size(), 1U);
}

}  // namespace
}  // namespace hw::test
