// One suite over every store of people.
#include <gtest/gtest.h>

#include <memory>

#include "edge/store/sqlite_people.hpp"
#include "tests/support/memory_people.hpp"
#include "tests/support/records_as_json.hpp"
#include "tests/support/scratch_folder.hpp"

namespace hw::test {
namespace {

struct PeopleInMemory {
    MemoryPeople kept;
    desk::PeopleStore& store() { return kept; }
};

struct PeopleInSqlite {
    ScratchFolder folder;
    std::unique_ptr<store::SqliteStore> kept = store::SqliteStore::open(folder.name(), records_as_json()).value();
    store::SqlitePeople people{kept->database()};
    desk::PeopleStore& store() { return people; }
};

template <class Kind>
class PeopleStoreContract : public ::testing::Test {
protected:
    Kind kind_;
    desk::PeopleStore& store_ = kind_.store();
    std::string ada_ = store_.keep_person({"", "Ada", desk::Role::Owner, "hash", 10}).value();
    std::string session(const std::string& digest) { return store_.keep_session({"", ada_, "phone", digest, 20, 21}).value(); }
};
using Kinds = ::testing::Types<PeopleInMemory, PeopleInSqlite>;
TYPED_TEST_SUITE(PeopleStoreContract, Kinds);

TYPED_TEST(PeopleStoreContract, APersonComesBackWholeIsReplacedByIdAndListedByName) {
    auto& s = this->store_;
    ASSERT_TRUE(s.keep_person({"", "aaron", desk::Role::Reader, "h", 11}).ok());
    ASSERT_TRUE(s.keep_person({this->ada_, "Ada", desk::Role::Technician, "other", 10}).ok());
    const auto people = *s.people();
    ASSERT_EQ(people.size(), 2u);
    EXPECT_EQ(people[0].name, "aaron");
    EXPECT_EQ(people[1].id, this->ada_);
    EXPECT_EQ(people[1].role, desk::Role::Technician);
    EXPECT_EQ(people[1].password_hash, "other");
    EXPECT_EQ(people[1].made_s, 10);
}

TYPED_TEST(PeopleStoreContract, ANameIsTakenOnceWhateverItsCase) {
    const auto again = this->store_.keep_person({"", "ADA", desk::Role::Reader, "h", 1});
    ASSERT_FALSE(again.ok());
    EXPECT_EQ(again.error().code, ErrorCode::Conflict);
    EXPECT_EQ(again.error().where, "name");
    EXPECT_EQ(this->store_.people()->size(), 1u);
}

TYPED_TEST(PeopleStoreContract, ASessionIsFoundByItsDigestOnlyAndEndsOnce) {
    auto& s = this->store_;
    const std::string first = this->session("d1"), second = this->session("d2");
    const auto found = *s.session_of("d1");
    ASSERT_TRUE(found);
    EXPECT_EQ(found->id, first);
    EXPECT_EQ(found->person_id, this->ada_);
    EXPECT_EQ(found->device, "phone");
    EXPECT_EQ(found->made_s, 20);
    EXPECT_EQ(found->seen_s, 21);
    EXPECT_FALSE(*s.session_of("d3"));
    EXPECT_EQ((*s.sessions())[0].id, second) << "newest first";
    ASSERT_TRUE(s.seen(first, 99).ok());
    EXPECT_EQ((*s.session_of("d1"))->seen_s, 99);
    ASSERT_TRUE(s.end_session(first).ok());
    EXPECT_FALSE(*s.session_of("d1"));
    EXPECT_EQ(s.end_session(first).error().code, ErrorCode::NotFound);
    EXPECT_EQ(s.seen(first, 1).error().code, ErrorCode::NotFound);
}

TYPED_TEST(PeopleStoreContract, WhoIsRemovedTakesSessionsAndCodesAlong) {
    auto& s = this->store_;
    this->session("d1");
    ASSERT_TRUE(s.keep_pairing({"c1", this->ada_, 50}).ok());
    ASSERT_TRUE(s.remove_person(this->ada_).ok());
    EXPECT_FALSE(*s.session_of("d1"));
    EXPECT_FALSE(*s.take_pairing("c1"));
    EXPECT_TRUE(s.people()->empty());
    EXPECT_EQ(s.remove_person(this->ada_).error().code, ErrorCode::NotFound);
}

TYPED_TEST(PeopleStoreContract, ACodeIsTakenOnce) {
    ASSERT_TRUE(this->store_.keep_pairing({"c1", this->ada_, 50}).ok());
    EXPECT_FALSE(*this->store_.take_pairing("c2"));
    const auto taken = *this->store_.take_pairing("c1");
    ASSERT_TRUE(taken);
    EXPECT_EQ(taken->person_id, this->ada_);
    EXPECT_EQ(taken->until_s, 50);
    EXPECT_FALSE(*this->store_.take_pairing("c1"));
}

TYPED_TEST(PeopleStoreContract, AttemptsAreCountedByKeyAndForgottenByItsBeginning) {
    auto& s = this->store_;
    EXPECT_EQ(s.attempts("account:x")->failures, 0);
    ASSERT_TRUE(s.keep_attempts("account:x", {3, 77}).ok());
    ASSERT_TRUE(s.keep_attempts("account:x", {4, 78}).ok());
    ASSERT_TRUE(s.keep_attempts("address:1", {1, 5}).ok());
    ASSERT_TRUE(s.keep_attempts("address:%", {1, 5}).ok());
    EXPECT_EQ(s.attempts("account:x")->failures, 4);
    EXPECT_EQ(s.attempts("account:x")->last_s, 78);
    ASSERT_TRUE(s.forget_attempts("address:").ok());
    EXPECT_EQ(s.attempts("address:1")->failures, 0);
    EXPECT_EQ(s.attempts("address:%")->failures, 0);
    EXPECT_EQ(s.attempts("account:x")->failures, 4);
    ASSERT_TRUE(s.forget_attempts("account:_").ok());
    EXPECT_EQ(s.attempts("account:x")->failures, 4) << "no letter of a key stands for another";
}

TYPED_TEST(PeopleStoreContract, TheNetworkIsOffUntilItIsWanted) {
    EXPECT_FALSE(this->store_.network()->on);
    ASSERT_TRUE(this->store_.keep_network({true, "workshop.local"}).ok());
    EXPECT_TRUE(this->store_.network()->on);
    ASSERT_TRUE(this->store_.keep_network({false, "workshop.local"}).ok());
    EXPECT_FALSE(this->store_.network()->on);
    EXPECT_EQ(this->store_.network()->name, "workshop.local");
}

TEST(PeopleInSqliteContract, EverythingIsThereAfterReopening) {
    const ScratchFolder folder;
    std::string ada;
    {
        const auto kept = store::SqliteStore::open(folder.name(), records_as_json()).value();
        store::SqlitePeople s(kept->database());
        ada = s.keep_person({"", "Ada", desk::Role::Owner, "hash", 10}).value();
        ASSERT_TRUE(s.keep_session({"", ada, "phone", "d", 20, 21}).ok());
        ASSERT_TRUE(s.keep_attempts("account:x", {3, 77}).ok());
        ASSERT_TRUE(s.keep_network({true, "workshop.local"}).ok());
    }
    const auto kept = store::SqliteStore::open(folder.name(), records_as_json()).value();
    store::SqlitePeople s(kept->database());
    EXPECT_EQ((*s.people())[0].id, ada);
    EXPECT_EQ((*s.session_of("d"))->person_id, ada);
    EXPECT_EQ(s.attempts("account:x")->failures, 3);
    EXPECT_TRUE(s.network()->on);
}

}  // namespace
}  // namespace hw::test
