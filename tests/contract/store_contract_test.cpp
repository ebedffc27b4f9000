// One suite over every store: what desk may rely on, whichever is joined in.
#include <gtest/gtest.h>

#include <memory>
#include <set>

#include "desk/own_limits.hpp"
#include "tests/support/judgement_sample.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

struct InMemory {
    MemoryStore kept;
    desk::Store& store() { return kept; }
};

struct InSqlite {
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> kept = store::SqliteStore::open(folder.name(), records_as_json()).value();
    desk::Store& store() { return *kept; }
};

template <class Kind>
class StoreContract : public ::testing::Test {
protected:
    Kind kind_;
    desk::Store& store_ = kind_.store();
    std::string keep() { return *store_.keep_judgement(sample_request(), sample_answer(), "2026-01-02T03:04:05Z"); }
};
using Kinds = ::testing::Types<InMemory, InSqlite>;
TYPED_TEST_SUITE(StoreContract, Kinds);

TYPED_TEST(StoreContract, AnEmptyIdGetsANewOneAndTheRecordComesBackWhole) {
    const auto id = this->store_.keep_liquid(sample_liquid());
    ASSERT_TRUE(id.ok());
    EXPECT_FALSE(id->empty());
    auto expected = sample_liquid();
    expected.id = *id;
    EXPECT_EQ(codec::written(*this->store_.liquid(*id)), codec::written(expected));
    const auto other = this->store_.keep_leather(sample_leather());
    EXPECT_NE(*other, *id);
    EXPECT_EQ(this->store_.leather(*other)->leather_class, "aniline");
}

TYPED_TEST(StoreContract, AKnownIdReplacesTheRecord) {
    auto l = sample_liquid();
    l.id = "mine";
    ASSERT_TRUE(this->store_.keep_liquid(l).ok());
    l.name = "Changed";
    EXPECT_EQ(*this->store_.keep_liquid(l), "mine");
    EXPECT_EQ(this->store_.liquid("mine")->name, "Changed");
    EXPECT_EQ(this->store_.liquids({})->size(), 1u);
}

TYPED_TEST(StoreContract, OwnLimitsAreReplacedAndTakenBack) {
    EXPECT_TRUE(this->store_.own_limits()->empty());
    desk::OwnLimit limit{"", "2-propanol", "67-63-0", "Here", "shift", 200.0, std::nullopt, "List", "2026-01-31"};
    limit.id = this->store_.keep_own_limit(limit).value();
    EXPECT_FALSE(limit.id.empty());
    limit.limit_ppm = 100;
    EXPECT_EQ(this->store_.keep_own_limit(limit).value(), limit.id);
    const auto kept = *this->store_.own_limits();
    ASSERT_EQ(kept.size(), 1u);
    EXPECT_EQ(kept[0].limit_ppm, 100.0);
    EXPECT_EQ(kept[0].source, "List");
    limit.limit_ppm = std::nullopt;
    ASSERT_TRUE(this->store_.keep_own_limit(limit).ok());
    EXPECT_TRUE(this->store_.own_limits()->empty());
}

TYPED_TEST(StoreContract, ATestOfTheBenchIsKeptByItsName) {
    EXPECT_TRUE(this->store_.bench()->empty());
    ASSERT_TRUE(this->store_.keep_bench({"Thickness", true, 4.5}).ok());
    ASSERT_TRUE(this->store_.keep_bench({"Small extract", false, std::nullopt}).ok());
    ASSERT_TRUE(this->store_.keep_bench({"Thickness", true, 3.0}).ok());
    const auto bench = *this->store_.bench();
    ASSERT_EQ(bench.size(), 2u);
    EXPECT_EQ(bench[0].name, "Small extract");
    EXPECT_FALSE(bench[0].have);
    EXPECT_FALSE(bench[0].minutes.has_value());
    EXPECT_EQ(bench[1].minutes, 3.0);
}

TYPED_TEST(StoreContract, WhatIsNotThereIsNotFoundAndNamesTheId) {
    EXPECT_EQ(this->store_.liquid("no").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->store_.leather("no").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->store_.judgement("no").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->store_.bin("no").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->store_.restore("no").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->store_.liquid("no").error().where, "id");
}

TYPED_TEST(StoreContract, AJudgementIsKeptWithItsInputItsAnswerAndTheVersion) {
    const std::string id = this->keep();
    const auto k = this->store_.judgement(id);
    ASSERT_TRUE(k.ok());
    EXPECT_EQ(k->row.id, id);
    EXPECT_EQ(k->row.title, "Sample");
    EXPECT_EQ(k->row.grade, "lasting");
    EXPECT_EQ(k->row.kept_at, "2026-01-02T03:04:05Z");
    EXPECT_EQ(k->row.version, "hidewright test");
    EXPECT_FALSE(k->row.demo);
    EXPECT_EQ(k->answer.id, id);
    EXPECT_EQ(codec::written(k->request), codec::written(sample_request()));
    auto expected = sample_answer();
    expected.id = id;
    EXPECT_EQ(codec::written(k->answer), codec::written(expected));
}

TYPED_TEST(StoreContract, WithoutATitleTheRowSaysWhatWasJudged) {
    auto r = sample_request();
    r.title.clear();
    const auto id = this->store_.keep_judgement(r, sample_answer(), "2026-01-02T03:04:05Z");
    EXPECT_EQ(this->store_.judgement(*id)->row.title, r.liquid.name + " on " + r.leather.name);
}

TYPED_TEST(StoreContract, PagesShowEachJudgementOnceNewestFirst) {
    std::vector<std::string> newest_first;
    for (int i = 0; i < 7; ++i) newest_first.insert(newest_first.begin(), this->keep());
    std::vector<std::string> seen;
    desk::Page page;
    page.limit = 3;
    for (;;) {
        const auto rows = this->store_.judgements(page);
        ASSERT_TRUE(rows.ok());
        if (rows->empty()) break;
        EXPECT_LE(rows->size(), 3u);
        for (const auto& r : *rows) seen.push_back(r.id);
        page.after = seen.back();
    }
    EXPECT_EQ(seen, newest_first);
}

TYPED_TEST(StoreContract, PagesOfLiquidsFollowTheirIds) {
    for (const char* id : {"c", "a", "b"}) {
        auto l = sample_liquid();
        l.id = id;
        ASSERT_TRUE(this->store_.keep_liquid(l).ok());
    }
    desk::Page page;
    page.limit = 2;
    const auto first = this->store_.liquids(page);
    ASSERT_EQ(first->size(), 2u);
    EXPECT_EQ((*first)[0].id, "a");
    page.after = (*first)[1].id;
    const auto second = this->store_.liquids(page);
    ASSERT_EQ(second->size(), 1u);
    EXPECT_EQ((*second)[0].id, "c");
}

TYPED_TEST(StoreContract, NoPageLoadsEverything) {
    for (int i = 0; i < 205; ++i) ASSERT_TRUE(this->store_.keep_leather(sample_leather()).ok());
    desk::Page page;
    for (int limit : {-1, 0, 1000000}) {
        page.limit = limit;
        const auto rows = this->store_.leathers(page);
        EXPECT_GE(rows->size(), 1u) << limit;
        EXPECT_LE(rows->size(), 200u) << limit;
    }
}

TYPED_TEST(StoreContract, TheBinHidesAndGivesBack) {
    const std::string id = this->keep();
    ASSERT_TRUE(this->store_.bin(id).ok());
    EXPECT_TRUE(this->store_.judgements({})->empty());
    EXPECT_TRUE(this->store_.judgement(id).ok()) << "by its id it can still be opened, to decide about it";
    ASSERT_TRUE(this->store_.restore(id).ok());
    EXPECT_EQ(this->store_.judgements({})->size(), 1u);
    const auto liquid = this->store_.keep_liquid(sample_liquid());
    ASSERT_TRUE(this->store_.bin(*liquid).ok());
    EXPECT_EQ(this->store_.liquid(*liquid).error().code, ErrorCode::NotFound);
    EXPECT_TRUE(this->store_.liquids({})->empty());
}

}  // namespace
}  // namespace hw::test
