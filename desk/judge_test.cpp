#include "desk/judge.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "desk/demo.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

struct Desk {
    test::MemoryStore store;
    test::FixedClock clock;
    Ports ports{store, clock};
};

Liquid of(std::vector<Ingredient> ingredients) {
    Liquid l;
    l.name = "test liquid";
    l.ingredients = std::move(ingredients);
    return l;
}
Ingredient part(const char* name, double pct) { return {name, "", pct, std::nullopt}; }

JudgeRequest asked(const Liquid& liquid, const char* leather_class = "aniline", const char* tannage = "chrome") {
    JudgeRequest r;
    r.liquid = liquid;
    r.leather.leather_class = leather_class;
    r.leather.tannage = tannage;
    r.use.dose.count = 8;
    return r;
}

JudgeAnswer judged(const JudgeRequest& r) {
    Desk d;
    auto a = judge(r, d.ports);
    if (!a.ok()) throw Bug(a.error().message);
    return *a;
}

TEST(JudgementProperty, AVerdictByLookupOnPhOrReserveWouldFail) {
    const Liquid degreaser = of({part("sodium hydroxide", 0.5), part("sodium metasilicate", 1)});
    // The same liquid: same pH, same reserve. Finish and time alone change the answer.
    JudgeRequest open = asked(degreaser, "aniline"), closed = asked(degreaser, "coated");
    closed.use.dwell_s = open.use.dwell_s = 20;
    closed.use.wiped_off_pct = open.use.wiped_off_pct = 95;
    const auto a = judged(open), b = judged(closed);
    EXPECT_DOUBLE_EQ(a.liquid.ph.value, b.liquid.ph.value);
    EXPECT_DOUBLE_EQ(a.liquid.reserve_to_target.value, b.liquid.reserve_to_target.value);
    EXPECT_GT(a.grade, b.grade);
    EXPECT_GT(a.cases[0].deepest_um, b.cases[0].deepest_um + 50);

    JudgeRequest brief = asked(degreaser, "semi_aniline"), late = brief;
    brief.use.dwell_s = 5;
    brief.use.wiped_off_pct = late.use.wiped_off_pct = 98;
    late.use.dwell_s = 1200;
    EXPECT_GT(judged(late).cases[0].deepest_um, judged(brief).cases[0].deepest_um);

    // Two liquids whose order by pH is the reverse of their order inside the leather.
    const auto lye = judged(asked(of({part("sodium hydroxide", 0.1)}))), bicarbonate = judged(asked(of({part("sodium bicarbonate", 1)})));
    EXPECT_GT(lye.liquid.ph.value, bicarbonate.liquid.ph.value + 3);
    EXPECT_LT(lye.profile.surface_reading_ph.back(), bicarbonate.profile.surface_reading_ph.back());
}

TEST(JudgementProperty, TheVerdictFollowsTheProfileThatItShows) {
    Desk d;
    for (const auto& request : demo_requests()) {
        JudgeRequest r = request;
        r.keep = false;
        const auto a = judge(r, d.ports).value();
        double highest = 0, finish = 0;
        for (const auto& layer : a.profile.layers)
            if (layer.name == "finish") finish = layer.bottom_um;
        for (const auto& row : a.profile.ph)
            for (std::size_t i = 0; i < row.size(); ++i)
                if (a.profile.depth_um[i] > finish) highest = std::max(highest, row[i]);
        for (const auto& l : a.limits)
            if (l.quantity == "highest pH inside the leather") {
                EXPECT_NEAR(l.reached.value, highest, 1e-9) << r.title;
                EXPECT_EQ(l.passed, highest > l.limit.value) << r.title;
            }
        EXPECT_LT(a.profile.mass_balance_error_1, 1e-9);
    }
}

TEST(JudgementProperty, EveryReasonAndLimitSaysWhoSaysSo) {
    Desk d;
    for (const auto& l : demo_liquids())
        {
            const auto a = judge(asked(l, "semi_aniline"), d.ports).value();
            auto stands = [&](const Basis& b) {
                EXPECT_FALSE(citation_of(b.source).empty()) << b.source;
                EXPECT_FALSE(b.rule.empty());
                EXPECT_FALSE(b.locator.empty());
                EXPECT_NE(b.standing, Standing::Invented);
            };
            for (const auto& r : a.reasons) stands(r.basis);
            for (const auto& x : a.limits) stands(x.basis);
            EXPECT_FALSE(a.reasons.empty());
            EXPECT_FALSE(a.cautions.empty());
            std::string all = a.sentence + a.how_sure + a.next_test.how;
            for (const auto& r : a.reasons) all += r.sentence;
            for (const char* never : {"it will be fine", "like new", "non-toxic", "lifetime", "safe for leather"}) EXPECT_EQ(all.find(never), std::string::npos) << never;
        }
}

TEST(JudgementProperty, TradeCustomIsShownAndNeverDecides) {
    const auto a = judged(asked(of({part("sodium carbonate", 0.3)})));
    bool shown = false;
    for (const auto& l : a.limits)
        if (l.basis.standing == Standing::CommonPractice) {
            shown = true;
            EXPECT_FALSE(l.decides);
        }
    EXPECT_TRUE(shown);
}

TEST(HazardProperty, ChlorineBleachWithAcidAmmoniaAmineUreaAlcoholOrPeroxideStopsAtEveryAmount) {
    for (const char* other : {"acetic acid", "citric acid", "ammonia", "monoethanolamine", "urea", "ethanol", "hydrogen peroxide"})
        for (double bleach : {1e-6, 0.01, 5.0})
            for (double amount : {1e-6, 0.01, 10.0})
                for (double alkali : {0.0, 1.0}) {
                    const auto a = judged(asked(of({part("sodium hypochlorite", bleach), part(other, amount), part("sodium hydroxide", alkali)})));
                    EXPECT_EQ(a.grade, Grade::Stop) << other;
                    ASSERT_TRUE(a.stop.has_value());
                    EXPECT_FALSE(a.stop->do_now.empty());
                    EXPECT_TRUE(a.profile.time_s.empty());
                }
}

TEST(HazardConsistency, AnUnlabelledProductBesideAnAcidStops) {
    Desk d;
    Liquid vinegar = of({part("acetic acid", 5)});
    vinegar.id = "vinegar";
    ASSERT_TRUE(d.store.keep_liquid(vinegar).ok());
    AnalyseRequest r;
    r.liquid = of({part("something", 5)});
    r.liquid.label_known = false;
    r.meets = {"vinegar"};
    const auto a = analyse(r, d.ports).value();
    EXPECT_FALSE(a.stops.empty());
}

TEST(JudgementConsistency, HandGelHasNoPhAndIsToBeTestedOnAHiddenSpot) {
    const auto a = judged(asked(of({part("ethanol", 70), part("glycerol", 2)}), "pigmented_furniture"));
    EXPECT_TRUE(a.liquid.ph_refused);
    EXPECT_EQ(a.grade, Grade::Unknown);
    EXPECT_EQ(a.next_test.name, "Hidden spot");
}

TEST(JudgementConsistency, WaterOnDecayedLeatherIsAHardStopASoundLowReadingIsNot) {
    JudgeRequest r = asked(of({part("citric acid", 0.1)}), "aniline", "vegetable");
    r.leather.extract_ph = 2.7;
    EXPECT_EQ(judged(r).grade, Grade::Stop);
    r.leather.extract_ph = 3.6;
    EXPECT_NE(judged(r).grade, Grade::Stop);
    r.leather.tannage = "chrome";
    EXPECT_NE(judged(r).grade, Grade::Stop);
    r.leather.shrinkage_c = 42;
    EXPECT_EQ(judged(r).grade, Grade::Stop);
}

TEST(JudgementConsistency, AMostlyUnknownLiquidIsUnknown) {
    const auto a = judged(asked(of({part("sodium carbonate", 0.01), part("secret builder", 15)}), "coated"));
    EXPECT_EQ(a.grade, Grade::Unknown);
    EXPECT_EQ(a.next_test.name, "Read the liquid");
}

TEST(JudgementRefusal, NamesTheFieldAndTheRemedy) {
    Desk d;
    auto where = [&](auto change) {
        JudgeRequest r = asked(of({part("sodium carbonate", 0.3)}));
        change(r);
        const auto a = judge(r, d.ports);
        return a.ok() ? std::string("answered") : a.error().where;
    };
    EXPECT_EQ(where([](auto& r) { r.use.dose.area_cm2 = 0; }), "use.dose.area_cm2");
    EXPECT_EQ(where([](auto& r) { r.use.air_c = 90; }), "use.air_c");
    EXPECT_EQ(where([](auto& r) { r.use.dose.count = 0; }), "use.dose.count");
    EXPECT_EQ(where([](auto& r) { r.use.dwell_s = std::nan(""); }), "use.dwell_s");
    EXPECT_EQ(where([](auto& r) { r.leather.leather_class = "velvet"; }), "leather.leather_class");
    EXPECT_EQ(where([](auto& r) { r.liquid.ingredients[0].cas = "497-19-9"; }), "liquid.ingredients[0].cas");
    EXPECT_EQ(where([](auto& r) { r.liquid.ingredients[0].content_pct = 120; }), "liquid.ingredients[0].content_pct");
    EXPECT_EQ(where([](auto& r) { r.liquid.ingredients.push_back(part("citric acid", 99.9)); }), "liquid.ingredients");
    EXPECT_EQ(where([](auto& r) { r.liquid = Liquid{}; r.liquid.id = "nowhere"; }), "liquid.id");
}

TEST(JudgementConsistency, IsKeptWithItsInputAndVersion) {
    Desk d;
    JudgeRequest r = asked(of({part("sodium carbonate", 0.3)}));
    r.keep = true;
    r.title = "kept";
    const auto a = judge(r, d.ports).value();
    ASSERT_FALSE(a.id.empty());
    const auto k = d.store.judgement(a.id).value();
    EXPECT_EQ(k.row.title, "kept");
    EXPECT_EQ(k.request.use.dose.count, 8);
    EXPECT_EQ(k.answer.sentence, a.sentence);
    EXPECT_FALSE(k.row.version.empty());
}

TEST(DemoConsistency, HasTheLiquidsLeathersAndJudgementsOfAWorkshop) {
    EXPECT_GE(demo_liquids().size(), 14U);
    EXPECT_EQ(demo_leathers().size(), 10U);
    EXPECT_GE(demo_requests().size(), 6U);
}

}  // namespace
