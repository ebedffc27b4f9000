// What every keeper of data sheets promises: over SQLite and files, and over memory.
#include <gtest/gtest.h>

#include <filesystem>
#include <memory>

#include "edge/codec/codec.hpp"
#include "edge/store/sqlite_sheets.hpp"
#include "tests/support/memory_sheets.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

store::SheetSerialiser as_json() {
    return {[](const desk::DigestAnswer& v) { return codec::written(v); }, codec::parse_digest_answer};
}

struct OnDisk {
    OnDisk() : store(store::SqliteStore::open(folder.name(), records_as_json()).value()), sheets(*store, as_json()) {}
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> store;
    store::SqliteSheets sheets;
};
struct InMemory {
    MemorySheets sheets;
};

template <class Place>
class SheetsContract : public ::testing::Test {
protected:
    desk::Sheets& sheets() { return place_.sheets; }
    std::string keep(const std::string& bytes, const std::string& product = "Cleaner") {
        desk::DigestAnswer a;
        a.id = sheets().id_of(bytes);
        a.name = "a \"name\".pdf";
        desk::SheetFact ph;
        ph.key = "ph";
        ph.low = 12.0;
        ph.value = "12 \u00b0";
        ph.place = {2, 10.5, 20, 30, 40, "pH 12"};
        a.groups = {{"How it behaves", {ph}}};
        a.ingredients.emplace_back();
        a.sections = {{9, "Properties", 2, "line\nline"}};
        EXPECT_TRUE(sheets().keep(a, {a.id, a.name, product, "Maker", "2024-03-05", "2026-01-02T03:04:05Z", 1, 2, ""}, bytes).ok());
        return a.id;
    }
    Place place_;
};

using Places = ::testing::Types<OnDisk, InMemory>;
TYPED_TEST_SUITE(SheetsContract, Places);

TYPED_TEST(SheetsContract, AFileIsKeptOnceUnderItsHashAndItsReadingStays) {
    const std::string id = this->keep("PDF one");
    EXPECT_EQ(id.size(), 64U);
    this->keep("PDF one", "Another reading");
    ASSERT_EQ(this->sheets().sheets({}).value().size(), 1U);
    EXPECT_EQ(this->sheets().row(id)->product, "Cleaner");
    EXPECT_EQ(this->sheets().file(id).value(), "PDF one");
    const auto reading = this->sheets().reading(id).value();
    const auto& ph = reading.groups.at(0).facts.at(0);
    EXPECT_EQ(ph.value, "12 \u00b0");
    EXPECT_EQ(ph.low, 12.0);
    EXPECT_FALSE(ph.high.has_value());
    EXPECT_EQ(ph.place.page, 2);
    EXPECT_DOUBLE_EQ(ph.place.x0_pt, 10.5);
    EXPECT_EQ(reading.sections.at(0).text, "line\nline");
}

TYPED_TEST(SheetsContract, TheNewestComesFirstPageByPage) {
    std::vector<std::string> ids;
    for (const char* bytes : {"one", "two", "three"}) ids.push_back(this->keep(bytes));
    const auto first = this->sheets().sheets({"", 2}).value();
    ASSERT_EQ(first.size(), 2U);
    EXPECT_EQ(first[0].id, ids[2]);
    EXPECT_EQ(first[1].id, ids[1]);
    const auto rest = this->sheets().sheets({first[1].id, 2}).value();
    ASSERT_EQ(rest.size(), 1U);
    EXPECT_EQ(rest[0].id, ids[0]);
}

TYPED_TEST(SheetsContract, CorrectionsAreAppendedAndTheSameIsKeptOnce) {
    const std::string id = this->keep("one");
    desk::SheetCorrection c{"c1", id, "ph", "12.4", desk::CorrectedBy::Measured, "Ada", "2026-01-02T03:04:05Z"};
    ASSERT_TRUE(this->sheets().append(c).ok());
    ASSERT_TRUE(this->sheets().append(c).ok());
    desk::SheetCorrection other = c;
    other.value = "11";
    EXPECT_EQ(this->sheets().append(other).error().code, ErrorCode::Conflict);
    other.id = "c2";
    ASSERT_TRUE(this->sheets().append(other).ok());
    const auto all = this->sheets().corrections(id).value();
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0].value, "12.4");
    EXPECT_EQ(all[0].how, desk::CorrectedBy::Measured);
    EXPECT_EQ(all[0].by_name, "Ada");
    EXPECT_EQ(all[1].id, "c2");
}

TYPED_TEST(SheetsContract, ARowIsBroughtUpToDateWithoutItsNameAndArrival) {
    const std::string id = this->keep("one");
    auto row = this->sheets().row(id).value();
    row.liquid = "liquid-7";
    row.to_look = 0;
    row.name = "another";
    ASSERT_TRUE(this->sheets().keep_row(row).ok());
    EXPECT_EQ(this->sheets().row(id)->liquid, "liquid-7");
    EXPECT_EQ(this->sheets().row(id)->to_look, 0);
    EXPECT_EQ(this->sheets().row(id)->name, "a \"name\".pdf");
}

TYPED_TEST(SheetsContract, WhatIsNotThereIsNotFound) {
    for (const std::string& id : {std::string(64, 'a'), std::string("../../workshop.db"), std::string()}) {
        EXPECT_EQ(this->sheets().row(id).error().code, ErrorCode::NotFound);
        EXPECT_EQ(this->sheets().file(id).error().code, ErrorCode::NotFound);
        EXPECT_EQ(this->sheets().reading(id).error().code, ErrorCode::NotFound);
    }
}

TEST(SheetsOnDiskContract, TheFileLiesUnderItsHashAndABinnedSheetIsLeftOut) {
    OnDisk place;
    desk::DigestAnswer a;
    a.id = place.sheets.id_of("bytes");
    ASSERT_TRUE(place.sheets.keep(a, {a.id, "n", "p", "", "", "2026-01-02T03:04:05Z", 0, 0, ""}, "bytes").ok());
    EXPECT_TRUE(std::filesystem::exists(place.folder.path() / "sheets" / a.id.substr(0, 2) / (a.id + ".pdf")));
    ASSERT_TRUE(place.store->bin(a.id).ok());
    EXPECT_TRUE(place.sheets.sheets({})->empty());
    EXPECT_FALSE(place.sheets.row(a.id).ok());
    ASSERT_TRUE(place.store->restore(a.id).ok());
    EXPECT_EQ(place.sheets.sheets({})->size(), 1U);
    // Sent again, it comes back out of the bin.
    ASSERT_TRUE(place.store->bin(a.id).ok());
    ASSERT_TRUE(place.sheets.keep(a, {a.id, "n", "p", "", "", "2026-01-02T03:04:05Z", 0, 0, ""}, "bytes").ok());
    EXPECT_TRUE(place.sheets.row(a.id).ok());
}

}  // namespace
}  // namespace hw::test
