// One suite over every journal of pieces and meters.
#include <gtest/gtest.h>

#include <memory>

#include "tests/support/memory_journal.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

struct JournalInMemory {
    MemoryJournal kept;
    desk::Journal& journal() { return kept; }
};

struct JournalInSqlite {
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> kept = store::SqliteStore::open(folder.name(), records_as_json()).value();
    desk::Journal& journal() { return *kept; }
};

desk::PieceRow row(const std::string& id) {
    desk::PieceRow r;
    r.id = id;
    r.name = "Chair " + id;
    r.family = "armchair";
    r.changed_at = "2026-01-02T03:04:05Z";
    return r;
}

desk::KeptEntry entry(const std::string& id, const std::string& note = "") {
    desk::KeptEntry k;
    k.by_id = "anna";
    k.entry.id = id;
    k.entry.at = "2026-01-02T03:04:05Z";
    k.entry.by = "Anna";
    k.entry.did = desk::Did::Condition;
    k.entry.condition = desk::Condition{{"SC1-top"}, "fade", 2, 12.5, std::nullopt, {}, note};
    return k;
}

template <class Kind>
class JournalContract : public ::testing::Test {
protected:
    Kind kind_;
    desk::Journal& journal_ = kind_.journal();
};
using Kinds = ::testing::Types<JournalInMemory, JournalInSqlite>;
TYPED_TEST_SUITE(JournalContract, Kinds);

TYPED_TEST(JournalContract, EntriesComeBackWholeInTheOrderOfArrival) {
    ASSERT_TRUE(this->journal_.append(row("p"), {entry("a"), entry("b", "Über \"alles\"")}).ok());
    const auto last = this->journal_.append(row("p"), {entry("c")});
    const auto kept = this->journal_.entries("p");
    ASSERT_TRUE(kept.ok());
    ASSERT_EQ(kept->size(), 3u);
    EXPECT_EQ((*kept)[0].entry.id, "a");
    EXPECT_EQ((*kept)[2].entry.id, "c");
    EXPECT_LT((*kept)[0].number, (*kept)[1].number);
    EXPECT_EQ(*last, (*kept)[2].number);
    EXPECT_EQ((*kept)[1].by_id, "anna");
    EXPECT_EQ(codec::written((*kept)[1].entry), codec::written(entry("b", "Über \"alles\"").entry));
}

TYPED_TEST(JournalContract, WhatIsSentAgainIsKeptOnceAndKeepsItsFirstAuthor) {
    ASSERT_TRUE(this->journal_.append(row("p"), {entry("a")}).ok());
    auto again = entry("a");
    again.by_id = "ben";
    again.entry.by = "Ben";
    ASSERT_TRUE(this->journal_.append(row("p"), {again}).ok());
    EXPECT_EQ(this->journal_.entries("p")->size(), 1u);
    EXPECT_EQ(this->journal_.entries("p")->front().entry.by, "Anna");
}

TYPED_TEST(JournalContract, AnIdUsedForSomethingElseKeepsNothingOfTheWholeRequest) {
    ASSERT_TRUE(this->journal_.append(row("p"), {entry("a")}).ok());
    EXPECT_EQ(this->journal_.append(row("p"), {entry("b"), entry("a", "other words")}).error().code, ErrorCode::Conflict);
    EXPECT_EQ(this->journal_.append(row("q"), {entry("c"), entry("a")}).error().code, ErrorCode::Conflict);
    EXPECT_EQ(this->journal_.entries("p")->size(), 1u);
    EXPECT_EQ(this->journal_.entries("q").error().code, ErrorCode::NotFound);
}

TYPED_TEST(JournalContract, AnEmptyIdGetsANewOne) {
    ASSERT_TRUE(this->journal_.append(row("p"), {entry(""), entry("")}).ok());
    const auto kept = this->journal_.entries("p");
    ASSERT_EQ(kept->size(), 2u);
    EXPECT_NE((*kept)[0].entry.id, (*kept)[1].entry.id);
    EXPECT_FALSE((*kept)[0].entry.id.empty());
    EXPECT_NE(this->journal_.new_id(), this->journal_.new_id());
}

TYPED_TEST(JournalContract, PiecesAreListedNewestFirstPageByPage) {
    for (const char* id : {"a", "b", "c"}) ASSERT_TRUE(this->journal_.append(row(id), {entry(std::string("e") + id)}).ok());
    desk::Page page;
    page.limit = 2;
    const auto first = this->journal_.pieces(page);
    ASSERT_EQ(first->size(), 2u);
    EXPECT_EQ((*first)[0].id, "c");
    EXPECT_EQ((*first)[0].name, "Chair c");
    EXPECT_EQ((*first)[0].entries, 1);
    page.after = (*first)[1].id;
    EXPECT_EQ(this->journal_.pieces(page)->front().id, "a");
}

TYPED_TEST(JournalContract, PiecesWithSpotsAreThoseThatHaveOne) {
    desk::KeptEntry spot;
    spot.entry.id = "s";
    spot.entry.did = desk::Did::SpotMade;
    spot.entry.spot_made = desk::SpotMade{};
    spot.entry.spot_made->panel = "A";
    spot.entry.spot_made->dry_h = 3.5;
    ASSERT_TRUE(this->journal_.append(row("a"), {entry("ea")}).ok());
    ASSERT_TRUE(this->journal_.append(row("b"), {entry("eb"), spot}).ok());
    const auto found = this->journal_.pieces_with_spots();
    ASSERT_EQ(found->size(), 1u);
    EXPECT_EQ(found->front().id, "b");
    EXPECT_EQ(found->front().entries, 2);
    EXPECT_EQ(this->journal_.entries("b")->back().entry.spot_made->dry_h, 3.5);
}

TYPED_TEST(JournalContract, CalibrationsOfAMeterComeOldestFirstAndOnce) {
    const std::string meter = *this->journal_.keep_instrument({"", "Bench meter", "E7", ""});
    desk::Calibration c;
    c.instrument = meter;
    c.buffers = {{4, 4.02, "A", "2026-12-31"}, {7, 6.99, "B", ""}};
    for (const char* at : {"2026-02-01T08:00:00Z", "2026-01-01T08:00:00Z"}) {
        c.id = at;
        c.at = at;
        ASSERT_TRUE(this->journal_.keep_calibration(c).ok());
        ASSERT_TRUE(this->journal_.keep_calibration(c).ok());
    }
    const auto kept = this->journal_.calibrations(meter);
    ASSERT_EQ(kept->size(), 2u);
    EXPECT_EQ((*kept)[0].at, "2026-01-01T08:00:00Z");
    EXPECT_EQ((*kept)[0].buffers[0].lot, "A");
    c.instrument = "none";
    c.id = "x";
    EXPECT_EQ(this->journal_.keep_calibration(c).error().where, "instrument");
    EXPECT_EQ(this->journal_.instruments({})->front().electrode_lot, "E7");
}

}  // namespace
}  // namespace hw::test
