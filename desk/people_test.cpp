#include "desk/people.hpp"

#include <gtest/gtest.h>

#include "tests/support/memory_people.hpp"

namespace hw::desk {
namespace {

class Workshop : public ::testing::Test {
protected:
    SignInAnswer sign_in(const std::string& name, const std::string& password, const std::string& address = "192.168.1.7") {
        return people_.sign_in({name, password, "phone"}, address).value();
    }
    Visitor visitor_of(const std::string& token) { return **people_.visitor(token); }

    test::MemoryPeople store_;
    test::WeakSecrets secrets_;
    test::HandClock clock_;
    People people_{store_, secrets_, clock_};
    std::string ada_ = people_.add("Ada", Role::Owner, "a long sentence").value();
    std::string ben_ = people_.add("Ben", Role::Technician, "another sentence").value();
};
class PeopleProperty : public Workshop {};
class PeopleRefusal : public Workshop {};
class PeopleContract : public Workshop {};

TEST_F(PeopleContract, WhoSignsInIsKnownByTheTokenAndTheTokenIsNotKept) {
    const auto answer = sign_in(" ada ", "a long sentence");
    ASSERT_TRUE(answer.in);
    EXPECT_EQ(answer.in->person.name, "Ada");
    EXPECT_EQ(visitor_of(answer.in->token).person.id, ada_);
    const auto sessions = store_.sessions();
    for (const auto& s : *sessions) EXPECT_NE(s.token_digest, answer.in->token);
    EXPECT_FALSE(*people_.visitor("guess"));
    EXPECT_FALSE(*people_.visitor(""));
}

TEST_F(PeopleContract, ASessionEndsWhenItIsNotUsedAndAtItsTimeHoweverMuchItIsUsed) {
    const std::string token = sign_in("Ada", "a long sentence").in->token;
    clock_.at_s += session_idle_s - 1;
    ASSERT_TRUE(*people_.visitor(token));
    clock_.at_s += session_idle_s;
    EXPECT_FALSE(*people_.visitor(token));
    EXPECT_TRUE(store_.sessions()->empty()) << "what has run out is taken away";
    const std::string used = sign_in("Ada", "a long sentence").in->token;
    const auto from = clock_.at_s;
    while (clock_.at_s + 86400 < from + session_most_s) {
        clock_.at_s += 86400;
        ASSERT_TRUE(*people_.visitor(used));
    }
    clock_.at_s = from + session_most_s;
    EXPECT_FALSE(*people_.visitor(used));
}

TEST_F(PeopleContract, ARoleThatChangesHoldsAtOnceAndANewPasswordEndsTheSessions) {
    const std::string token = sign_in("Ben", "another sentence").in->token, other = sign_in("Ben", "another sentence").in->token;
    ASSERT_TRUE(people_.set_role(ben_, Role::Reader).ok());
    EXPECT_EQ(visitor_of(token).person.role, Role::Reader);
    const auto changed = people_.change_password(visitor_of(token), {"a third sentence", "another sentence"}, "x");
    ASSERT_TRUE(changed->in);
    EXPECT_TRUE(*people_.visitor(token)) << "the browser in which it was changed stays";
    EXPECT_FALSE(*people_.visitor(other));
    EXPECT_FALSE(sign_in("Ben", "another sentence").in);
    ASSERT_TRUE(people_.set_password(ben_, "a fourth sentence").ok());
    EXPECT_FALSE(*people_.visitor(token));
    ASSERT_TRUE(sign_in("Ben", "a fourth sentence").in);
}

TEST_F(PeopleContract, WhoIsRemovedIsOutAtOnce) {
    const std::string token = sign_in("Ben", "another sentence").in->token;
    ASSERT_TRUE(people_.remove(ben_).ok());
    EXPECT_FALSE(*people_.visitor(token));
    EXPECT_FALSE(sign_in("Ben", "another sentence").in);
}

TEST_F(PeopleContract, OneSeesAndEndsOnesOwnSessionsAndAnOwnerAll) {
    const auto ada = sign_in("Ada", "a long sentence"), ben = sign_in("Ben", "another sentence");
    EXPECT_EQ(people_.sessions(ada_, Role::Owner, ada.in->session.id)->size(), 2u);
    const auto own = *people_.sessions(ben_, Role::Technician, ben.in->session.id);
    ASSERT_EQ(own.size(), 1u);
    EXPECT_TRUE(own[0].here);
    EXPECT_EQ(own[0].person, "Ben");
    EXPECT_EQ(people_.end_session(ada.in->session.id, ben_, Role::Technician).error().code, ErrorCode::NotFound);
    EXPECT_TRUE(people_.end_session(ben.in->session.id, ada_, Role::Owner).ok());
    EXPECT_FALSE(*people_.visitor(ben.in->token));
    EXPECT_EQ(people_.end_session(ben.in->session.id, ada_, Role::Owner).error().code, ErrorCode::NotFound);
}

TEST_F(PeopleContract, APhonePairsOnceWithinTenMinutes) {
    const auto code = *people_.new_pairing(ben_);
    const auto paired = people_.pair({code.first, "Ben's phone"}, "x");
    ASSERT_TRUE(paired->in);
    EXPECT_EQ(visitor_of(paired->in->token).person.id, ben_);
    EXPECT_EQ(visitor_of(paired->in->token).session.device, "Ben's phone");
    EXPECT_FALSE(people_.pair({code.first, "again"}, "x")->in);
    const auto late = *people_.new_pairing(ben_);
    clock_.at_s += pairing_s;
    EXPECT_FALSE(people_.pair({late.first, ""}, "x")->in);
    const auto of_one_who_left = *people_.new_pairing(ben_);
    ASSERT_TRUE(people_.remove(ben_).ok());
    EXPECT_FALSE(people_.pair({of_one_who_left.first, ""}, "x")->in);
    EXPECT_EQ(people_.new_pairing("").error().code, ErrorCode::Conflict);
}

TEST_F(PeopleProperty, TheWaitGrowsAndNeverPassesItsEnd) {
    for (int f = 0; f <= free_by_account; ++f) EXPECT_EQ(wait_after(f, free_by_account), 0);
    int last = 0;
    for (int f = free_by_account + 1; f < 2000; ++f) {
        const int w = wait_after(f, free_by_account);
        EXPECT_TRUE(w > last || w == longest_wait_s) << f;
        last = w;
    }
    EXPECT_EQ(last, longest_wait_s);
}

TEST_F(PeopleProperty, AKnownAndAnUnknownNameAreAnsweredAlikeAndCheckedAsOften) {
    for (int i = 0; i < 8; ++i) {
        const int before = secrets_.checks;
        const auto known = sign_in("Ada", "wrong", "a");
        const int for_known = secrets_.checks - before;
        const auto unknown = sign_in("Nobody", "wrong", "b");
        EXPECT_EQ(secrets_.checks - before - for_known, for_known);
        EXPECT_EQ(known.wait_s, unknown.wait_s) << i;
        EXPECT_FALSE(known.in || unknown.in);
    }
}

TEST_F(PeopleProperty, FailuresMakeTheRightPasswordWaitToo) {
    for (int i = 0; i <= free_by_account; ++i) EXPECT_EQ(sign_in("Ada", "wrong", std::to_string(i)).wait_s, 0);
    EXPECT_EQ(sign_in("Ada", "a long sentence", "new").wait_s, 1) << "from any address";
    clock_.at_s += 1;
    EXPECT_TRUE(sign_in("Ada", "a long sentence").in);
    EXPECT_EQ(sign_in("Ada", "wrong").wait_s, 0) << "the account starts afresh";
}

TEST_F(PeopleProperty, AnAddressThatTriesManyNamesWaitsWhateverAccountItHas) {
    int tried = 0;
    while (sign_in("name " + std::to_string(tried), "wrong", "bad").wait_s == 0 && tried < 100) {
        ++tried;
        if (tried % 5 == 0) { EXPECT_TRUE(sign_in("Ben", "another sentence", "bad").in); }
    }
    EXPECT_EQ(tried, free_by_address + 1);
    EXPECT_TRUE(sign_in("Ada", "a long sentence", "good").in);
    clock_.at_s += attempts_kept_s;
    EXPECT_EQ(sign_in("another", "wrong", "bad").wait_s, 0) << "forgotten after a day";
}

TEST_F(PeopleContract, UnlockingLetsTheAccountTryAtOnce) {
    for (int i = 0; i < 12; ++i) {
        sign_in("Ada", "wrong", "x");
        clock_.at_s += 60;
    }
    sign_in("Ada", "wrong", "x");
    ASSERT_GT(sign_in("Ada", "a long sentence", "x").wait_s, 0);
    EXPECT_TRUE((*people_.rows())[0].waiting);
    ASSERT_TRUE(people_.unlock(ada_).ok());
    EXPECT_FALSE((*people_.rows())[0].waiting);
    EXPECT_TRUE(sign_in("Ada", "a long sentence", "x").in);
}

TEST_F(PeopleRefusal, WhileTheNetworkIsOnSomebodyMustBeAbleToLetOthersIn) {
    EXPECT_TRUE(people_.network_on("workshop").ok());
    EXPECT_EQ(people_.network()->name, "workshop.local");
    EXPECT_EQ(people_.remove(ada_).error().code, ErrorCode::Conflict);
    EXPECT_EQ(people_.set_role(ada_, Role::Reader).error().code, ErrorCode::Conflict);
    ASSERT_TRUE(people_.set_role(ben_, Role::Owner).ok());
    EXPECT_TRUE(people_.remove(ada_).ok());
    EXPECT_EQ(people_.remove(ben_).error().code, ErrorCode::Conflict);
    ASSERT_TRUE(people_.network_off().ok());
    EXPECT_TRUE(people_.remove(ben_).ok());
    EXPECT_EQ(people_.network_on("workshop").error().where, "people");
}

TEST_F(PeopleRefusal, NamesPasswordsAndRolesThatWillNotDoAreNamed) {
    EXPECT_EQ(people_.add("", Role::Reader, "a long sentence").error().where, "name");
    EXPECT_EQ(people_.add("a\nb", Role::Reader, "a long sentence").error().where, "name");
    EXPECT_EQ(people_.add(std::string(name_most + 1, 'x'), Role::Reader, "a long sentence").error().where, "name");
    EXPECT_EQ(people_.add("Cleo", Role::None, "a long sentence").error().where, "role");
    EXPECT_EQ(people_.add("Cleo", Role::Reader, "too short").error().where, "password");
    EXPECT_EQ(people_.add("Cleo", Role::Reader, std::string(password_most + 1, 'x')).error().where, "password");
    EXPECT_EQ(people_.add("ADA", Role::Reader, "a long sentence").error().code, ErrorCode::Conflict);
    EXPECT_EQ(people_.by_name("Nobody").error().code, ErrorCode::NotFound);
}

TEST_F(PeopleRefusal, ANetworkNameThatSomebodyElseCouldOwnIsNotTaken) {
    for (const char* good : {"workshop", "Workshop", "shop-2", "workshop.local", "workshop.localhost", "pc.home.arpa", "pc.shop.internal"}) EXPECT_TRUE(network_name(good).ok()) << good;
    EXPECT_EQ(*network_name(" Workshop "), "workshop.local");
    for (const char* bad : {"", ".", ".local", "local.", "-a", "a-", "a..local", "example.com", "a b", "a/b", "localhost", "192.168.1.2", "a.local.", "wörk", "evil.com\nlocal"}) EXPECT_FALSE(network_name(bad).ok()) << bad;
}

}  // namespace
}  // namespace hw::desk
