// What only the photographs on disk promise: they survive the end of the program at any moment, and leave nothing behind.
#include "edge/store/sqlite_photos.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <fstream>
#include <functional>

#include "edge/store/sha256.hpp"
#include "tests/support/memory_photos.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::store {
namespace {

namespace fs = std::filesystem;

const std::string bench = "PHOTO of an arm rest, worn at the front";
desk::UploadRequest announcement(const std::string& bytes) { return {sha256(bytes), static_cast<int>(bytes.size()), "arm.jpg", desk::Arrival::File}; }

/// The records of a folder, opened as by one run of the program.
struct Records {
    explicit Records(const test::ScratchFolder& folder, Access access = Access::Write)
        : store(SqliteStore::open(folder.name(), test::records_as_json(), access).value()), photos(*store, reader, clock) {}
    test::PlainReader reader;
    test::FixedClock clock;
    std::unique_ptr<SqliteStore> store;
    SqlitePhotos photos;
};

int files_in(const fs::path& folder) {
    int n = 0;
    if (fs::exists(folder))
        for (const auto& e : fs::recursive_directory_iterator(folder)) n += e.is_regular_file() ? 1 : 0;
    return n;
}

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Sha256Consistency, GivesTheKnownHashes) {
    EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(SqlitePhotosContract, AnUploadIsTakenUpAgainAfterTheProgramHasEnded) {
    const test::ScratchFolder folder;
    const auto a = announcement(bench);
    {
        Records run(folder);
        ASSERT_TRUE(run.photos.begin(a).ok());
        ASSERT_TRUE(run.photos.append(a.sha256, 0, bench.substr(0, 20)).ok());
    }
    Records run(folder);
    EXPECT_EQ(run.photos.begin(a)->have_bytes, 20);
    EXPECT_TRUE(run.photos.append(a.sha256, 20, bench.substr(20))->done);
    const fs::path file = folder.path() / "photos" / a.sha256.substr(0, 2) / a.sha256;
    EXPECT_EQ(bytes_of(file), bench);
    EXPECT_EQ(files_in(folder.path() / "photos" / "parts"), 0);
    EXPECT_EQ(files_in(folder.path() / "photos"), 3) << "the bytes and two copies";
}

// The program ends, without a destructor, at the moment its reader is asked: every byte is there and no row.
TEST(SqlitePhotosContract, AKillWhileThePictureIsReadLosesNothing) {
    const test::ScratchFolder folder;
    const auto a = announcement(bench);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        struct Dying : test::PlainReader {
            Result<desk::PhotoContent> read(std::string_view) override { ::_exit(7); }
        } reader;
        test::FixedClock clock;
        auto s = SqliteStore::open(folder.name(), test::records_as_json());
        if (!s.ok()) ::_exit(1);
        SqlitePhotos photos(**s, reader, clock);
        if (!photos.begin(a).ok()) ::_exit(2);
        static_cast<void>(photos.append(a.sha256, 0, bench));
        ::_exit(3);
    }
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_EQ(WEXITSTATUS(status), 7);
    Records run(folder);
    EXPECT_FALSE(run.photos.photo(a.sha256).ok());
    EXPECT_TRUE(run.photos.begin(a)->done) << "asking is enough: nothing has to be sent again";
    EXPECT_EQ(*run.photos.file(a.sha256, desk::PhotoSize::Original), bench);
}

// The program ends after the file has its last name and before its row: the clock is asked in between.
TEST(SqlitePhotosContract, AKillBetweenTheFileAndItsRowLosesNothing) {
    const test::ScratchFolder folder;
    const auto a = announcement(bench);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        struct Dying : test::FixedClock {
            std::string now_utc() override { ::_exit(7); }
        } clock;
        test::PlainReader reader;
        auto s = SqliteStore::open(folder.name(), test::records_as_json());
        if (!s.ok()) ::_exit(1);
        SqlitePhotos photos(**s, reader, clock);
        if (!photos.begin(a).ok()) ::_exit(2);
        static_cast<void>(photos.append(a.sha256, 0, bench));
        ::_exit(3);
    }
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_EQ(WEXITSTATUS(status), 7);
    const fs::path file = folder.path() / "photos" / a.sha256.substr(0, 2) / a.sha256;
    ASSERT_EQ(bytes_of(file), bench);
    const auto before = fs::last_write_time(file);
    Records run(folder);
    EXPECT_FALSE(run.photos.photo(a.sha256).ok()) << "no row yet";
    EXPECT_TRUE(run.photos.begin(a)->done);
    EXPECT_EQ(*run.photos.file(a.sha256, desk::PhotoSize::Original), bench);
    EXPECT_EQ(fs::last_write_time(file), before) << "a file under its last name is never written again";
    EXPECT_EQ(files_in(folder.path() / "photos"), 3);
}

TEST(SqlitePhotosContract, OldPartsAreClearedAndYoungOnesStay) {
    const test::ScratchFolder folder;
    const auto old = announcement("PHOTO begun and forgotten long ago"), young = announcement(bench);
    {
        Records run(folder);
        for (const auto& a : {old, young}) {
            ASSERT_TRUE(run.photos.begin(a).ok());
            ASSERT_TRUE(run.photos.append(a.sha256, 0, "PHOTO").ok());
        }
    }
    const auto age = [&](const desk::UploadRequest& a, int hours) { fs::last_write_time(folder.path() / "photos" / "parts" / a.sha256, fs::file_time_type::clock::now() - std::chrono::hours(hours)); };
    age(old, 24 * part_age_days + 1);
    age(young, 24 * part_age_days - 1);
    Records run(folder);
    EXPECT_FALSE(fs::exists(folder.path() / "photos" / "parts" / old.sha256));
    EXPECT_EQ(run.photos.append(old.sha256, 5, "x").error().code, ErrorCode::NotFound);
    EXPECT_EQ(run.photos.append(young.sha256, 5, "")->have_bytes, 5);
    // Taken up again, an old one is young; and the next announcement of another clears what has grown old meanwhile.
    age(young, 24 * part_age_days + 1);
    EXPECT_EQ(run.photos.begin(young)->have_bytes, 5);
    age(young, 24 * part_age_days + 1);
    EXPECT_EQ(run.photos.begin(old)->have_bytes, 0);
    EXPECT_EQ(run.photos.append(young.sha256, 5, "").error().code, ErrorCode::NotFound);
}

TEST(SqlitePhotosContract, BesideTheWriterOthersSeeThePhotographs) {
    const test::ScratchFolder folder;
    Records writer(folder);
    const auto a = announcement(bench);
    ASSERT_TRUE(writer.photos.begin(a).ok());
    ASSERT_TRUE(writer.photos.append(a.sha256, 0, bench).ok());
    Records reader(folder, Access::Read);
    EXPECT_EQ(reader.photos.photos({})->size(), 1u);
    EXPECT_EQ(*reader.photos.file(a.sha256, desk::PhotoSize::Small), "small of " + bench);
    EXPECT_EQ(reader.photos.begin(announcement("PHOTO another")).error().code, ErrorCode::Unavailable);
}

TEST(SqlitePhotosRefusal, AMissingFileIsSaidToBeMissing) {
    const test::ScratchFolder folder;
    Records run(folder);
    const auto a = announcement(bench);
    ASSERT_TRUE(run.photos.begin(a).ok());
    ASSERT_TRUE(run.photos.append(a.sha256, 0, bench).ok());
    fs::remove(folder.path() / "photos" / a.sha256.substr(0, 2) / a.sha256);
    const auto r = run.photos.file(a.sha256, desk::PhotoSize::Original);
    EXPECT_EQ(r.error().code, ErrorCode::Unavailable);
    EXPECT_NE(r.error().message.find("backup"), std::string::npos);
}

TEST(SqlitePhotosRefusal, ARefusedPictureLeavesNothingBehind) {
    const test::ScratchFolder folder;
    Records run(folder);
    for (const std::string bytes : {"PHOTO BAD, it cannot be read", "a letter instead of a picture"}) {
        const auto a = announcement(bytes);
        ASSERT_TRUE(run.photos.begin(a).ok());
        EXPECT_FALSE(run.photos.append(a.sha256, 0, bytes).ok());
    }
    auto wrong = announcement(bench);
    wrong.sha256 = sha256("another");
    ASSERT_TRUE(run.photos.begin(wrong).ok());
    EXPECT_FALSE(run.photos.append(wrong.sha256, 0, bench).ok());
    EXPECT_EQ(files_in(folder.path() / "photos"), 0);
}

}  // namespace
}  // namespace hw::store
