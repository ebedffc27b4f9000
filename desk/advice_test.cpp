#include "desk/advice.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "desk/compare.hpp"
#include "desk/words.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

JudgeRequest asked(std::vector<Ingredient> ingredients, const char* leather_class) {
    JudgeRequest r;
    r.liquid.name = "test liquid";
    r.liquid.ingredients = std::move(ingredients);
    r.leather.leather_class = leather_class;
    r.leather.tannage = "chrome";
    r.use.dose.count = 8;
    r.members = 64;
    return r;
}
Ingredient part(const char* name, double pct) { return {name, "", pct, std::nullopt, std::nullopt}; }

JudgeAnswer judged(const JudgeRequest& r) {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    auto a = judge(r, ports);
    if (!a.ok()) throw Bug(a.error().message);
    return *a;
}

bool says(const std::string& text, std::string_view what) { return text.find(what) != std::string::npos; }

const std::vector<std::string> all_amounts{"use.dose.amount", "use.dose.count", "use.dose.area_cm2", "use.dwell_s", "use.wiped_off_pct"};

JudgeRequest with_amounts(JudgeRequest r) {
    r.said = all_amounts;
    return r;
}

// One thing not known hid, in the owner's first line, that water lasts, and the other way round.
TEST(AdviceIssue, TheFirstLineNamesWhatToMindAndWhatIsNotKnown) {
    JudgeAnswer a;
    a.grade = Grade::StaysWithin;
    Harm water, dye;
    water.name = "Water";
    water.grade = Grade::Lasting;
    dye.name = "Dye and colour";
    dye.grade = Grade::Unknown;
    a.harms = {water, dye};
    const std::string line = advice(a);
    EXPECT_TRUE(says(line, "water")) << line;
    EXPECT_TRUE(says(line, "one thing is not known")) << line;
}

// Ammonia stays out of a pigmented leather, and "stays within" sounded as if its finish had been looked at.
TEST(AdviceIssue, AFinishThatWasNotJudgedIsNamedInTheFirstLineAndInTheSentence) {
    constexpr const char* clause = "the finish itself was not judged";
    for (const char* alkali : {"ammonia", "monoethanolamine", "sodium carbonate"}) {
        const auto a = judged(asked({part(alkali, 0.05)}, "pigmented_furniture"));
        ASSERT_EQ(a.grade, Grade::StaysWithin) << alkali << ": " << a.sentence;
        EXPECT_TRUE(says(a.advice, clause)) << a.advice;
        EXPECT_TRUE(says(a.sentence, "The finish itself was not judged.")) << a.sentence;
        EXPECT_EQ(a.advice, advice(a));
    }
    // Ammonia softens films in milder alkali than soda does.
    const auto mild = judged(asked({part("ammonia", 0.05), part("acetic acid", 0.17)}, "pigmented_furniture"));
    ASSERT_GT(mild.liquid.ph.value, 7);
    ASSERT_LT(mild.liquid.ph.value, 9.5);
    EXPECT_TRUE(says(mild.advice, clause)) << mild.liquid.ph.value << mild.advice;
    const auto soda = judged(asked({part("sodium bicarbonate", 0.05)}, "pigmented_furniture"));
    ASSERT_LT(soda.liquid.ph.value, 9.5);
    EXPECT_FALSE(says(soda.advice, clause)) << soda.advice;
    for (const auto& a : {judged(asked({part("ammonia", 0.05)}, "nubuck")), judged(asked({part("water", 100)}, "pigmented_furniture"))}) {
        EXPECT_FALSE(says(a.advice, "finish itself")) << a.advice;
        EXPECT_FALSE(says(a.sentence, "finish itself")) << a.sentence;
    }
}

// Amounts that nobody had said were printed as facts, and the answer was called settled.
TEST(AdviceIssue, AnAnswerThatRestsOnAssumedAmountsSaysSo) {
    const JudgeRequest water = asked({part("water", 100)}, "coated");
    JudgeRequest assumed = water;
    assumed.said = {"leather.leather_class"};
    const auto a = judged(assumed);
    ASSERT_GE(a.sure.answer_1, 0.95);
    EXPECT_EQ(a.how_sure.rfind("Settled only if the amounts are as assumed (" + to_band(a.dose.value, a.dose.plus_minus) + " g/m², 2 min until wiped, 50 % wiped off): ", 0), 0U) << a.how_sure;
    const auto said = judged(with_amounts(water));
    EXPECT_EQ(said.how_sure.rfind("Settled as far as this computation goes: ", 0), 0U) << said.how_sure;
    EXPECT_FALSE(says(said.how_sure, "assumed"));
    // One amount left open is enough, and only that one is named.
    for (std::size_t open = 1; open < all_amounts.size(); ++open) {
        JudgeRequest r = water;
        r.said = all_amounts;
        r.said.erase(r.said.begin() + static_cast<std::ptrdiff_t>(open));
        const auto one = judged(r);
        EXPECT_TRUE(says(one.how_sure, "as assumed (" + assumed_amounts(one) + ")")) << all_amounts[open] << ": " << one.how_sure;
        EXPECT_EQ(says(one.how_sure, "g/m²"), open <= 2) << one.how_sure;
        EXPECT_EQ(says(one.how_sure, "until wiped"), open == 3) << one.how_sure;
        EXPECT_EQ(says(one.how_sure, "wiped off"), open == 4) << one.how_sure;
    }
}

TEST(AdviceProperty, OnlyAClearAndSettledAnswerWithItsAmountsSaidMayBeUsedAsPlanned) {
    int planned = 0, first = 0, off = 0;
    for (const char* leather : {"aniline", "pigmented_furniture"})
        for (const char* what : {"water", "ammonia", "sodium hydroxide", "ethanol", "hydrogen peroxide", "secret oil", "2-butoxyethanol"})
            for (double pct : {0.05, 20.0})
                for (const bool told : {false, true}) {
                    JudgeRequest r = asked({part(what, pct)}, leather);
                    r.use.dose = {Amount::Grams, 1.5, 900};  // inside what a pass may bring
                    if (told) r = with_amounts(r);
                    const auto a = judged(r);
                    ASSERT_EQ(a.do_now.size(), 2U);
                    const std::string& before = a.do_now[0];
                    EXPECT_EQ(before.rfind("Before use: ", 0), 0U) << before;
                    if (says(before, "Use it as planned")) {
                        ++planned;
                        EXPECT_TRUE(told && a.grade == Grade::StaysWithin && a.sure.answer_1 >= 0.95) << what << pct << leather;
                        EXPECT_EQ(a.advice, "No limit is passed, used like this");
                        EXPECT_TRUE(says(before, "hidden spot"));
                    } else if (says(before, "Keep it off")) ++off;
                    else {
                        ++first;
                        EXPECT_TRUE(says(before, "Do the hidden spot first")) << before;
                        EXPECT_LT(a.grade == Grade::Unknown ? Grade::StaysWithin : a.grade, Grade::Lasting) << before;
                    }
                    if (a.grade == Grade::Lasting || a.grade == Grade::Deep) { EXPECT_TRUE(says(before, "Keep it off")) << before; }
                }
    EXPECT_GT(planned, 0);
    EXPECT_GT(first, 0);
    EXPECT_GT(off, 0);
}

TEST(AdviceProperty, WhatIsOnTheLeatherAlreadyIsBlottedAndMetWithNothingElse) {
    for (const char* leather : {"aniline", "pigmented_furniture"})
        for (const char* what : {"water", "ammonia", "sodium hydroxide", "acetic acid", "ethanol"}) {
            const auto a = judged(asked({part(what, 2)}, leather));
            const std::string& now = a.do_now.at(1);
            EXPECT_EQ(now.rfind("On the leather already: ", 0), 0U) << now;
            for (const char* part : {"Blot", "do not rub", "No acid", "no heat", "nothing else on top"}) EXPECT_TRUE(says(now, part)) << now;
            const bool corrosive = std::any_of(a.reasons.begin(), a.reasons.end(), [](const Reason& r) { return r.kind == "corrosive_alkali"; });
            EXPECT_EQ(says(now, "Gloves"), corrosive) << what;
        }
    EXPECT_TRUE(says(judged(asked({part("sodium hydroxide", 2)}, "aniline")).do_now.at(1), "Gloves and eye protection on. Blot"));
    EXPECT_TRUE(says(judged(asked({part("ethanol", 60)}, "pigmented_furniture")).do_now.at(1), "soft or sticky, leave it alone"));
}

TEST(AdviceProperty, AStopSaysItsOwn) {
    JudgeRequest r = asked({part("water", 100)}, "aniline");
    r.leather.decayed = true;
    const auto a = judged(r);
    ASSERT_TRUE(a.stop.has_value());
    EXPECT_EQ(a.do_now, a.stop->do_now);
    EXPECT_EQ(a.advice, "Stop: read this first");
}

// "It stays within." Within what?
TEST(WordsIssue, AGradeThatStandsAloneSaysOfWhat) {
    for (const Grade g : {Grade::StaysWithin, Grade::ComesBack, Grade::Lasting, Grade::Deep}) {
        EXPECT_TRUE(says(std::string(grade_alone(g)), "limit")) << grade_alone(g);
        EXPECT_LE(grade_alone(g).size(), 24U) << "short enough for a list";
    }
    EXPECT_EQ(grade_alone(Grade::Unknown), "not known");
    Harm dye;
    dye.grade = Grade::StaysWithin;
    EXPECT_EQ(grade_alone(dye), "no limit passed");
    dye.chance_1 = 0.33;
    EXPECT_EQ(grade_alone(dye), "no limit passed in most cases");
    dye.grade = Grade::Lasting;
    EXPECT_EQ(grade_alone(dye), "past a limit, lasting");
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
    CompareRequest both;
    both.members = 64;
    both.liquids = {asked({part("water", 100)}, "").liquid, asked({part("sodium hydroxide", 2)}, "").liquid};
    both.liquids[0].name = "tap";
    both.leathers = {asked({}, "coated").leather};
    const auto answer = compare(both, ports);
    ASSERT_TRUE(answer.ok()) << answer.error().message;
    EXPECT_EQ(answer->sentence, "Mildest: tap, no limit passed. Try it on a hidden spot first.");
}

}  // namespace
