// What every keeper of photographs promises: over SQLite and files, and over memory.
#include <gtest/gtest.h>

#include <memory>

#include "edge/store/sqlite_photos.hpp"
#include "tests/support/memory_photos.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

struct OnDisk {
    OnDisk(desk::PhotoReader& reader, desk::Clock& clock)
        : store(store::SqliteStore::open(folder.name(), records_as_json()).value()), photos(*store, reader, clock) {}
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> store;
    store::SqlitePhotos photos;
};
struct InMemory {
    InMemory(desk::PhotoReader& reader, desk::Clock& clock) : photos(reader, clock) {}
    MemoryPhotos photos;
};

template <class Place>
class PhotosContract : public ::testing::Test {
protected:
    PhotosContract() : place_(reader_, clock_) {}
    desk::Photos& photos() { return place_.photos; }
    static desk::UploadRequest announcement(const std::string& bytes) { return {store::sha256(bytes), static_cast<int>(bytes.size()), "arm.jpg", desk::Arrival::Camera}; }
    std::string keep(const std::string& bytes) {
        const auto a = announcement(bytes);
        EXPECT_FALSE(photos().begin(a)->done);
        EXPECT_TRUE(photos().append(a.sha256, 0, bytes)->done);
        return a.sha256;
    }
    void expect_stand(const Result<desk::Upload>& upload, int have, bool done) {
        ASSERT_TRUE(upload.ok()) << upload.error().message;
        EXPECT_EQ(upload->have_bytes, have);
        EXPECT_EQ(upload->done, done);
    }

    PlainReader reader_;
    FixedClock clock_;
    Place place_;
};

using Places = ::testing::Types<OnDisk, InMemory>;
TYPED_TEST_SUITE(PhotosContract, Places);

const std::string bench = "PHOTO of an arm rest, worn at the front";

TYPED_TEST(PhotosContract, APhotographComesInPiecesAndIsKeptWhole) {
    const auto a = this->announcement(bench);
    this->expect_stand(this->photos().begin(a), 0, false);
    this->expect_stand(this->photos().append(a.sha256, 0, bench.substr(0, 20)), 20, false);
    this->expect_stand(this->photos().begin(a), 20, false);
    EXPECT_FALSE(this->photos().photo(a.sha256).ok()) << "not before it is whole";
    this->expect_stand(this->photos().append(a.sha256, 20, bench.substr(20)), static_cast<int>(bench.size()), true);
    const auto p = this->photos().photo(a.sha256);
    ASSERT_TRUE(p.ok());
    EXPECT_EQ(p->id, a.sha256);
    EXPECT_EQ(p->bytes, static_cast<int>(bench.size()));
    EXPECT_EQ(p->type, "image/jpeg");
    EXPECT_EQ(p->width_px, 40);
    EXPECT_EQ(p->height_px, 30);
    EXPECT_EQ(p->orientation, 6);
    EXPECT_EQ(p->taken_at, "2024-05-17T10:11:12");
    EXPECT_EQ(p->arrived_at, "2026-01-02T03:04:05Z");
    EXPECT_EQ(p->arrival, desk::Arrival::Camera);
    EXPECT_EQ(p->name, "arm.jpg");
    EXPECT_EQ(*this->photos().file(a.sha256, desk::PhotoSize::Original), bench);
    EXPECT_EQ(*this->photos().file(a.sha256, desk::PhotoSize::Screen), "screen of " + bench);
    EXPECT_EQ(*this->photos().file(a.sha256, desk::PhotoSize::Small), "small of " + bench);
}

TYPED_TEST(PhotosContract, TheSamePhotographIsKeptOnce) {
    const std::string id = this->keep(bench);
    auto again = this->announcement(bench);
    again.name = "copy of arm.jpg";
    this->expect_stand(this->photos().begin(again), static_cast<int>(bench.size()), true);
    this->expect_stand(this->photos().append(id, 0, bench), static_cast<int>(bench.size()), true);
    EXPECT_EQ(this->photos().photos({})->size(), 1u);
    EXPECT_EQ(this->photos().photo(id)->name, "arm.jpg");
    EXPECT_EQ(this->reader_.read_count, 1);
}

TYPED_TEST(PhotosContract, BytesThatComeAgainDoNoHarm) {
    const auto a = this->announcement(bench);
    ASSERT_TRUE(this->photos().begin(a).ok());
    this->expect_stand(this->photos().append(a.sha256, 0, bench.substr(0, 20)), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 0, bench.substr(0, 20)), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 5, bench.substr(5, 3)), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 20, ""), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 10, bench.substr(10)), static_cast<int>(bench.size()), true);
    EXPECT_EQ(*this->photos().file(a.sha256, desk::PhotoSize::Original), bench);
}

TYPED_TEST(PhotosContract, AGapAddsNothingAndSaysWhereItStands) {
    const auto a = this->announcement(bench);
    ASSERT_TRUE(this->photos().begin(a).ok());
    this->expect_stand(this->photos().append(a.sha256, 0, bench.substr(0, 20)), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 30, bench.substr(30)), 20, false);
    this->expect_stand(this->photos().append(a.sha256, 20, bench.substr(20)), static_cast<int>(bench.size()), true);
}

TYPED_TEST(PhotosContract, MoreThanWasAnnouncedIsRefusedAndNothingIsLost) {
    const auto a = this->announcement(bench);
    ASSERT_TRUE(this->photos().begin(a).ok());
    this->expect_stand(this->photos().append(a.sha256, 0, bench.substr(0, 20)), 20, false);
    const auto longer = this->photos().append(a.sha256, 20, bench.substr(20) + "x");
    EXPECT_EQ(longer.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(longer.error().where, "offset");
    EXPECT_FALSE(this->photos().append(a.sha256, 2'000'000'000, "x").ok());
    EXPECT_FALSE(this->photos().append(a.sha256, -1, "x").ok());
    this->expect_stand(this->photos().begin(a), 20, false);
}

TYPED_TEST(PhotosContract, AWrongHashDropsThePartAndSaysSo) {
    auto a = this->announcement(bench);
    a.sha256 = store::sha256("something else");
    ASSERT_TRUE(this->photos().begin(a).ok());
    const auto r = this->photos().append(a.sha256, 0, bench);
    EXPECT_EQ(r.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(r.error().where, "sha256");
    EXPECT_EQ(this->photos().append(a.sha256, 0, bench).error().code, ErrorCode::NotFound);
    this->expect_stand(this->photos().begin(a), 0, false);
    EXPECT_TRUE(this->photos().photos({})->empty());
}

TYPED_TEST(PhotosContract, WhatIsNoPhotographIsRefusedWithItsFirstBytes) {
    const std::string text = "Dear Sir, please find attached the picture";
    const auto a = this->announcement(text);
    ASSERT_TRUE(this->photos().begin(a).ok());
    EXPECT_EQ(this->photos().append(a.sha256, 0, text.substr(0, 20)).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(this->photos().append(a.sha256, 20, text.substr(20)).error().code, ErrorCode::NotFound) << "its part is gone";
    EXPECT_EQ(this->reader_.read_count, 0);
}

TYPED_TEST(PhotosContract, WhatCannotBeReadIsNotKept) {
    const std::string bytes = "PHOTO BAD, cut in the middle";
    const auto a = this->announcement(bytes);
    ASSERT_TRUE(this->photos().begin(a).ok());
    EXPECT_EQ(this->photos().append(a.sha256, 0, bytes).error().code, ErrorCode::InvalidInput);
    EXPECT_FALSE(this->photos().photo(a.sha256).ok());
    this->expect_stand(this->photos().begin(a), 0, false);
}

TYPED_TEST(PhotosContract, AReaderThatIsBusyCostsNoByte) {
    const auto a = this->announcement(bench);
    ASSERT_TRUE(this->photos().begin(a).ok());
    this->reader_.busy = true;
    EXPECT_EQ(this->photos().append(a.sha256, 0, bench).error().code, ErrorCode::Unavailable);
    this->reader_.busy = false;
    this->expect_stand(this->photos().begin(a), static_cast<int>(bench.size()), true);
    EXPECT_EQ(this->photos().photos({})->size(), 1u);
}

TYPED_TEST(PhotosContract, ANewerAnnouncementOfAnotherLengthHolds) {
    auto wrong = this->announcement(bench);
    wrong.bytes = 1000;
    ASSERT_TRUE(this->photos().begin(wrong).ok());
    this->expect_stand(this->photos().append(wrong.sha256, 0, bench + bench), 2 * static_cast<int>(bench.size()), false);
    this->expect_stand(this->photos().begin(this->announcement(bench)), 0, false);
    this->expect_stand(this->photos().append(wrong.sha256, 0, bench), static_cast<int>(bench.size()), true);
}

TYPED_TEST(PhotosContract, AnnouncementsThatCannotBeAreRefused) {
    const auto good = this->announcement(bench);
    const auto refused = [&](const char* where, ErrorCode code, auto change) {
        auto a = good;
        change(a);
        const auto r = this->photos().begin(a);
        ASSERT_FALSE(r.ok()) << where;
        EXPECT_EQ(r.error().where, where);
        EXPECT_EQ(r.error().code, code);
    };
    refused("sha256", ErrorCode::InvalidInput, [](auto& a) { a.sha256 = "../../etc/passwd"; });
    refused("sha256", ErrorCode::InvalidInput, [](auto& a) { a.sha256[0] = 'A'; });
    refused("sha256", ErrorCode::InvalidInput, [](auto& a) { a.sha256 += "0"; });
    refused("bytes", ErrorCode::InvalidInput, [](auto& a) { a.bytes = 0; });
    refused("bytes", ErrorCode::OutOfRange, [](auto& a) { a.bytes = 40'000'001; });
    refused("name", ErrorCode::InvalidInput, [](auto& a) { a.name = std::string(256, 'n'); });
    EXPECT_EQ(this->photos().append("../../etc/passwd", 0, "x").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->photos().photo("../../etc/passwd").error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->photos().file("../../etc/passwd", desk::PhotoSize::Original).error().code, ErrorCode::NotFound);
    EXPECT_EQ(this->photos().append(good.sha256, 0, bench).error().code, ErrorCode::NotFound) << "not announced";
}

TYPED_TEST(PhotosContract, ControlCharactersOfANameDoNotReachAScreen) {
    auto a = this->announcement(bench);
    a.name = "arm\x1b[2J\n.jpg";
    ASSERT_TRUE(this->photos().begin(a).ok());
    ASSERT_TRUE(this->photos().append(a.sha256, 0, bench).ok());
    EXPECT_EQ(this->photos().photo(a.sha256)->name, "arm_[2J_.jpg");
}

TYPED_TEST(PhotosContract, ListsComeNewestFirstByKey) {
    std::vector<std::string> newest_first;
    for (int i = 0; i < 5; ++i) newest_first.insert(newest_first.begin(), this->keep("PHOTO number " + std::to_string(i)));
    std::vector<std::string> seen;
    desk::Page page;
    page.limit = 2;
    for (;;) {
        const auto rows = this->photos().photos(page);
        ASSERT_TRUE(rows.ok());
        if (rows->empty()) break;
        EXPECT_LE(rows->size(), 2u);
        for (const auto& r : *rows) seen.push_back(r.id);
        page.after = seen.back();
    }
    EXPECT_EQ(seen, newest_first);
}

}  // namespace
}  // namespace hw::test
