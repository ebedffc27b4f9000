// A covering found on a panel, kept there, read again without asking twice, and taught by proofs.
#include <gtest/gtest.h>

#include "desk/identify.hpp"
#include "desk/inspect.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_proofs.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

class Identifying : public ::testing::Test {
protected:
    Identifying() {
        ports_.journal = &journal_;
        ports_.proofs = &proofs_;
        Entry made;
        made.did = Did::MakeUp;
        made.make_up = MakeUp{"Club chair", "armchair", {}, {}, ""};
        Entry drop;
        drop.did = Did::Reading;
        drop.reading = Reading{"water_drop", "SC1-top", "", {6}, std::nullopt, "", ""};
        Entry oil;
        oil.did = Did::Condition;
        oil.condition = Condition{{"SC1-top"}, "body_oil", 2, 20.0, std::nullopt, {}, ""};
        const auto piece = inspect({"", {made, drop, oil}}, ports_);
        EXPECT_TRUE(piece.ok()) << (piece.ok() ? "" : piece.error().where + piece.error().message);
        piece_ = piece->piece;
    }
    IdentifyRequest asked() const {
        IdentifyRequest r;
        r.piece = piece_;
        r.panel = "SC1-top";
        return r;
    }
    static bool saw(const IdentifyAnswer& a, const std::string& test) {
        for (const auto& s : a.saw)
            if (s.test == test) return true;
        return false;
    }
    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    test::MemoryProofs proofs_;
    Ports ports_{store_, clock_};
    std::string piece_;
};
class IdentifyJourney : public Identifying {};
class IdentifyRefusal : public Identifying {};

TEST_F(IdentifyJourney, WhatStandsOnThePanelIsReadAndNotAskedAgain) {
    const auto a = identify(asked(), ports_).value();
    EXPECT_TRUE(saw(a, "drop"));
    EXPECT_TRUE(saw(a, "blotter"));
    for (const auto& n : a.next) EXPECT_NE(n.test, "drop");
    EXPECT_EQ(a.leather.water_drop, WaterDrop::Seconds10);
}

TEST_F(IdentifyJourney, TheAnswerIsWrittenOntoThePanelAndGoesIntoJudge) {
    auto r = asked();
    r.saw = {{"look", {"open"}, ""}, {"nap", {"no"}, ""}, {"nail", {"stays"}, ""}, {"sheen", {"matt_varied"}, ""}, {"edge", {"grain_fibre"}, ""}};
    r.write = true;
    const auto a = identify(r, ports_).value();
    EXPECT_TRUE(a.told) << a.sentence;
    EXPECT_TRUE(a.kept);
    const auto piece = inspect({piece_, {}}, ports_).value();
    for (const auto& p : piece.panels)
        EXPECT_TRUE(p.code != "SC1-top" || p.leather.leather_class == a.leather.leather_class);
    const auto again = identify(asked(), ports_).value();
    EXPECT_TRUE(saw(again, "nail"));
    EXPECT_EQ(again.families.front().key, "aniline");
}

TEST_F(IdentifyJourney, AnotherPanelOfTheSameCoveringSharesTheKindAndNotTheWear) {
    auto r = asked();
    r.same_as = {"OB"};
    r.saw = {{"look", {"filled"}, "OB"}, {"edge", {"grain_fibre"}, "OB"}, {"drop", {"not_at_all"}, "OB"}, {"sheen", {"soft_even"}, "OB"}};
    const auto with = identify(r, ports_).value();
    const auto alone = identify(asked(), ports_).value();
    const auto worn = [](const IdentifyAnswer& a) {
        for (const auto& v : a.veils)
            if (v.key == "worn") return v.chance.value;
        return -1.0;
    };
    EXPECT_GT(worn(with), worn(alone));  // it is pigmented, and yet a drop goes in here: it is worn here
    r.same_as.clear();
    EXPECT_EQ(identify(r, ports_).error().where, "same_as");
}

TEST_F(IdentifyJourney, ProofsTeachTheTablesAndCanBeTakenBack) {
    auto r = asked();
    const auto before = identify(r, ports_).value();
    std::string id;
    for (int n = 0; n < 30; ++n) {
        r.proven = Proven{};
        r.proven->kind = "nubuck";
        r.proven->proof = "laboratory";
        const auto a = identify(r, ports_).value();
        id = a.proof;
    }
    r.proven.reset();
    const auto after = identify(r, ports_).value();
    EXPECT_EQ(after.proven, 30);
    const auto nubuck = [](const IdentifyAnswer& a) {
        for (const auto& k : a.kinds)
            if (k.key == "nubuck") return k.chance.value;
        return -1.0;
    };
    EXPECT_GT(nubuck(after), nubuck(before) * 2);
    r.proven = Proven{};
    r.proven->takes_back = id;
    EXPECT_EQ(identify(r, ports_)->proven, 29);
}

TEST_F(IdentifyRefusal, WordsThatAreNotThereAreNamed) {
    auto r = asked();
    r.saw = {{"burn", {"x"}, ""}};
    EXPECT_EQ(identify(r, ports_).error().code, ErrorCode::NotFound);
    r.saw = {{"drop", {"odd"}, ""}};
    EXPECT_NE(identify(r, ports_).error().message.find("under_10_s"), std::string::npos);
    r.saw.clear();
    r.panel = "XX";
    EXPECT_EQ(identify(r, ports_).error().where, "panel");
    r.panel.clear();
    EXPECT_EQ(identify(r, ports_).error().where, "panel");
    r = asked();
    r.proven = Proven{};
    r.proven->kind = "nubuck";
    r.proven->proof = "a feeling";
    EXPECT_EQ(identify(r, ports_).error().where, "proven.proof");
    IdentifyRequest loose;
    loose.write = true;
    EXPECT_EQ(identify(loose, ports_).error().where, "piece");
}

}  // namespace
}  // namespace hw::desk
