// What only the SQLite store promises: it survives, it refuses files that are not its own, the demo leaves no trace.
#include "edge/store/sqlite_store.hpp"

#include <gtest/gtest.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <regex>

#include "tests/support/judgement_sample.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::store {
namespace {

namespace fs = std::filesystem;

std::unique_ptr<SqliteStore> opened(const test::ScratchFolder& folder) {
    auto r = SqliteStore::open(folder.name(), test::records_as_json());
    if (!r.ok()) throw std::runtime_error(r.error().message);
    return std::move(*r);
}

Error refused(const test::ScratchFolder& folder) {
    auto r = SqliteStore::open(folder.name(), test::records_as_json());
    return r.ok() ? Error{ErrorCode::Bug, "it opened", ""} : r.error();
}

/// One SQL answer, asked beside the store while it is closed.
std::string asked(const test::ScratchFolder& folder, const char* sql) {
    sqlite3* db = nullptr;
    sqlite3_open((folder.path() / "workshop.db").c_str(), &db);
    std::string out;
    char* fault = nullptr;
    const auto first = [](void* to, int, char** values, char**) {
        *static_cast<std::string*>(to) = values[0] == nullptr ? "" : values[0];
        return 0;
    };
    if (sqlite3_exec(db, sql, first, &out, &fault) != SQLITE_OK) out = fault;
    sqlite3_free(fault);
    sqlite3_close(db);
    return out;
}

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string keep(SqliteStore& s) { return *s.keep_judgement(test::sample_request(), test::sample_answer(), "2026-01-02T03:04:05Z"); }

TEST(SqliteStoreContract, WhatWasKeptIsThereAfterReopening) {
    const test::ScratchFolder folder;
    const std::string id = keep(*opened(folder));
    EXPECT_EQ(opened(folder)->judgement(id)->row.title, "Sample");
    EXPECT_EQ(asked(folder, "pragma journal_mode"), "wal");
    EXPECT_EQ(asked(folder, "pragma integrity_check"), "ok");
    EXPECT_EQ(asked(folder, "select count(*) from sqlite_master where type = 'table' and sql not like '%strict'"), "0");
}

TEST(SqliteStoreContract, NobodyElseReadsTheRecords) {
    const test::ScratchFolder folder;
    const auto s = opened(folder);
    keep(*s);
    for (const char* file : {"workshop.db", "workshop.db-wal", "workshop.db-shm", "store-id", "workshop.lock"})
        EXPECT_EQ(fs::status(folder.path() / file).permissions(), fs::perms::owner_read | fs::perms::owner_write) << file;
}

TEST(SqliteStoreContract, EveryChangeIsAlsoAppendedToTheChanges) {
    const test::ScratchFolder folder;
    {
        const auto s = opened(folder);
        const std::string id = keep(*s);
        ASSERT_TRUE(s->bin(id).ok());
        ASSERT_TRUE(s->restore(id).ok());
    }
    EXPECT_EQ(asked(folder, "select group_concat(kind) from (select kind from change order by id)"), "keep_judgement,bin,restore");
}

TEST(SqliteStoreContract, APieceThatWasPutAwayKeepsItsEntriesAndComesBack) {
    const test::ScratchFolder folder;
    const auto s = opened(folder);
    desk::PieceRow row;
    row.id = "p";
    desk::KeptEntry entry;
    entry.entry.id = "a";
    ASSERT_TRUE(s->append(row, {entry}).ok());
    EXPECT_FALSE(*s->is_away("p"));
    ASSERT_TRUE(s->bin("p").ok());
    EXPECT_TRUE(*s->is_away("p"));
    EXPECT_TRUE(s->pieces({})->empty());
    EXPECT_EQ(s->entries("p")->size(), 1u);
    ASSERT_TRUE(s->restore("p").ok());
    EXPECT_FALSE(*s->is_away("p"));
    EXPECT_EQ(s->pieces({})->size(), 1u);
}

TEST(SqliteStoreContract, IdsAreUuidVersion7InTheOrderOfKeeping) {
    const test::ScratchFolder folder;
    const auto s = opened(folder);
    const std::regex form("[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");
    std::string last;
    for (int i = 0; i < 50; ++i) {
        const std::string id = *s->keep_leather(test::sample_leather());
        EXPECT_TRUE(std::regex_match(id, form)) << id;
        EXPECT_GT(id, last);
        last = id;
    }
}

// Whatever was reported as kept before the program died is there; a half-done change is not.
TEST(SqliteStoreContract, AKillLosesNothingThatWasReportedAsKept) {
    const test::ScratchFolder folder;
    int pipe_ends[2];
    ASSERT_EQ(::pipe(pipe_ends), 0);
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        auto s = SqliteStore::open(folder.name(), test::records_as_json());
        if (!s.ok()) ::_exit(1);
        for (int i = 0; i < 20; ++i) {
            const auto id = (*s)->keep_judgement(test::sample_request(), test::sample_answer(), "2026-01-02T03:04:05Z");
            if (!id.ok() || ::write(pipe_ends[1], id->data(), id->size()) != static_cast<ssize_t>(id->size())) ::_exit(1);
        }
        ::_exit(7);  // no destructor runs, nothing is closed
    }
    ::close(pipe_ends[1]);
    std::string reported;
    char buffer[4096];
    for (ssize_t n = 0; (n = ::read(pipe_ends[0], buffer, sizeof buffer)) > 0;) reported.append(buffer, static_cast<std::size_t>(n));
    ::close(pipe_ends[0]);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_EQ(WEXITSTATUS(status), 7);
    ASSERT_EQ(reported.size(), 20u * 36);
    const auto s = opened(folder);
    for (std::size_t at = 0; at < reported.size(); at += 36) EXPECT_TRUE(s->judgement(reported.substr(at, 36)).ok());
    EXPECT_EQ(s->judgements({})->size(), 20u);
}

TEST(SqliteStoreRefusal, ASecondProgramIsTurnedAway) {
    const test::ScratchFolder folder;
    const auto first = opened(folder);
    const Error e = refused(folder);
    EXPECT_EQ(e.code, ErrorCode::Unavailable);
    EXPECT_NE(e.message.find("Another hidewright"), std::string::npos);
}

TEST(SqliteStoreContract, BesideTheWriterOthersMayReadButNotKeep) {
    const test::ScratchFolder folder;
    EXPECT_EQ(SqliteStore::open(folder.name(), test::records_as_json(), Access::Read).error().code, ErrorCode::NotFound);
    const auto writer = opened(folder);
    const std::string id = keep(*writer);
    const auto reader = SqliteStore::open(folder.name(), test::records_as_json(), Access::Read);
    ASSERT_TRUE(reader.ok());
    EXPECT_TRUE((*reader)->judgement(id).ok());
    const std::string later = keep(*writer);
    EXPECT_TRUE((*reader)->judgement(later).ok());
    EXPECT_EQ((*reader)->keep_liquid(test::sample_liquid()).error().code, ErrorCode::Unavailable);
}

TEST(SqliteStoreRefusal, AMissingDatabaseIsNotStartedFresh) {
    const test::ScratchFolder folder;
    opened(folder);
    fs::remove(folder.path() / "workshop.db");
    EXPECT_EQ(refused(folder).code, ErrorCode::Conflict);
    EXPECT_FALSE(fs::exists(folder.path() / "workshop.db"));
    std::ofstream(folder.path() / "workshop.db").close();  // emptied is as good as gone
    EXPECT_EQ(refused(folder).code, ErrorCode::Conflict);
    EXPECT_EQ(fs::file_size(folder.path() / "workshop.db"), 0u);
}

TEST(SqliteStoreRefusal, ADatabaseOfAnotherFolderIsNamed) {
    const test::ScratchFolder mine, theirs;
    opened(mine);
    opened(theirs);
    fs::copy_file(theirs.path() / "workshop.db", mine.path() / "workshop.db", fs::copy_options::overwrite_existing);
    const Error e = refused(mine);
    EXPECT_EQ(e.code, ErrorCode::Conflict);
    EXPECT_NE(e.message.find("does not belong"), std::string::npos);
}

TEST(SqliteStoreRefusal, AFileOfANewerProgramIsLeftUntouched) {
    const test::ScratchFolder folder;
    opened(folder);
    asked(folder, "pragma user_version = 999");
    const std::string before = bytes_of(folder.path() / "workshop.db");
    const Error e = refused(folder);
    EXPECT_EQ(e.code, ErrorCode::Conflict);
    EXPECT_NE(e.message.find("newer version"), std::string::npos);
    EXPECT_EQ(bytes_of(folder.path() / "workshop.db"), before);
}

TEST(SqliteStoreRefusal, ADamagedFileIsSaidToBeDamaged) {
    const test::ScratchFolder folder;
    opened(folder);
    std::ofstream(folder.path() / "workshop.db", std::ios::binary) << std::string(8192, '#');
    const Error e = refused(folder);
    EXPECT_EQ(e.code, ErrorCode::Conflict);
    EXPECT_NE(e.message.find("damaged"), std::string::npos);
}

TEST(SqliteStoreRefusal, APlaceThatIsNoFolderIsRefused) {
    const test::ScratchFolder folder;
    std::ofstream(folder.path() / "file") << "x";
    const auto r = SqliteStore::open((folder.path() / "file").string(), test::records_as_json());
    ASSERT_FALSE(r.ok());
    EXPECT_EQ(r.error().code, ErrorCode::Unavailable);
}

/// A little demo: one liquid, one judgement.
Result<Done> small_demo(SqliteStore& s) {
    auto l = test::sample_liquid();
    l.id = "demo_soda";
    HW_TRY(liquid, s.keep_liquid(l));
    static_cast<void>(liquid);
    keep(s);
    return Done{};
}

TEST(SqliteStoreContract, TheDemoComesOutWithoutTraceAndWhatSomebodyMadeStays) {
    const test::ScratchFolder folder;
    std::string own;
    {
        const auto s = opened(folder);
        EXPECT_TRUE(s->is_new());
        ASSERT_TRUE(s->as_demo([&] { return small_demo(*s); }).ok());
        EXPECT_FALSE(s->is_new());
        EXPECT_TRUE((*s->judgements({}))[0].demo);
        own = keep(*s);  // a judgement of the user's, perhaps of a demo liquid
        EXPECT_FALSE(s->judgement(own)->row.demo);
        ASSERT_TRUE(s->remove_demo().ok());
        ASSERT_EQ(s->judgements({})->size(), 1u);
        EXPECT_EQ((*s->judgements({}))[0].id, own);
        EXPECT_TRUE(s->liquids({})->empty());
    }
    EXPECT_EQ(asked(folder, "select count(*) from change where row_id not in (select id from judgement)"), "1");
    EXPECT_FALSE(opened(folder)->is_new()) << "the demo would be loaded again";
}

TEST(SqliteStoreContract, ADemoRecordThatSomebodyChangedIsTheirs) {
    const test::ScratchFolder folder;
    const auto s = opened(folder);
    ASSERT_TRUE(s->as_demo([&] { return small_demo(*s); }).ok());
    auto l = *s->liquid("demo_soda");
    l.name = "Ours now";
    ASSERT_TRUE(s->keep_liquid(l).ok());
    ASSERT_TRUE(s->as_demo([&] { return small_demo(*s); }).ok());
    EXPECT_EQ(s->liquid("demo_soda")->name, "Ours now");
    EXPECT_EQ(s->judgements({})->size(), 1u) << "loading twice must not double the demo";
    ASSERT_TRUE(s->remove_demo().ok());
    EXPECT_EQ(s->liquid("demo_soda")->name, "Ours now");
}

TEST(SqliteStoreContract, ADemoLoadThatWasCutShortIsBegunAgain) {
    const test::ScratchFolder folder;
    {
        const auto s = opened(folder);
        const auto cut = s->as_demo([&]() -> Result<Done> {
            static_cast<void>(small_demo(*s));
            return Error{ErrorCode::NotConverged, "cut short", ""};
        });
        EXPECT_FALSE(cut.ok());
    }
    const auto s = opened(folder);
    EXPECT_TRUE(s->is_new());
    ASSERT_TRUE(s->as_demo([&] { return small_demo(*s); }).ok());
    EXPECT_EQ(s->judgements({})->size(), 1u);
}

}  // namespace
}  // namespace hw::store
