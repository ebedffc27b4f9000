#include "desk/judge.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "atlas/caution_names.hpp"
#include "atlas/cautions.hpp"
#include "core/chem/composition.hpp"
#include "desk/demo.hpp"
#include "desk/report.hpp"
#include "desk/words.hpp"
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
Ingredient part(const char* name, double pct) { return {name, "", pct, std::nullopt, std::nullopt}; }

JudgeRequest asked(const Liquid& liquid, const char* leather_class = "aniline", const char* tannage = "chrome") {
    JudgeRequest r;
    r.liquid = liquid;
    r.leather.leather_class = leather_class;
    r.leather.tannage = tannage;
    r.use.dose.count = 8;
    r.members = 64;
    return r;
}

double deepest(const JudgeAnswer& a) {
    double um = 0;
    for (const auto& l : a.limits)
        if (l.decides) um = std::max(um, l.deepest_um);
    return um;
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
    EXPECT_GT(deepest(a), deepest(b) + 50);

    JudgeRequest brief = asked(degreaser, "semi_aniline"), late = brief;
    brief.use.dwell_s = 5;
    brief.use.wiped_off_pct = late.use.wiped_off_pct = 98;
    late.use.dwell_s = 1200;
    EXPECT_GT(deepest(judged(late)), deepest(judged(brief)));

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

// People first: no fault of the request, of the amounts or of the leather comes before a dangerous meeting.
TEST(HazardProperty, AStopComesBeforeEveryOtherFault) {
    Desk d;
    Liquid vinegar = of({part("acetic acid", 5)});
    vinegar.id = "vinegar";
    ASSERT_TRUE(d.store.keep_liquid(vinegar).ok());
    JudgeRequest r = asked(of({part("sodium hypochlorite", 3)}));
    r.meets = {"vinegar"};
    const auto grade = [&](const JudgeRequest& x) { return judge(x, d.ports).value().grade; };
    EXPECT_EQ(grade(r), Grade::Stop);
    auto faulty = r;
    faulty.liquid.ingredients.push_back(part("sodium carbonate", 98));
    EXPECT_EQ(grade(faulty), Grade::Stop) << "101 %";
    faulty = r;
    faulty.use.dose.count = 0;
    EXPECT_EQ(grade(faulty), Grade::Stop) << "nothing used";
    faulty = r;
    faulty.leather.leather_class = "nowhere";
    EXPECT_EQ(grade(faulty), Grade::Stop) << "wrong leather";
    faulty = r;
    faulty.liquid.ingredients.front().cas = "7681-52-0";
    EXPECT_EQ(grade(faulty), Grade::Stop) << "wrong check digit";
    AnalyseRequest analysed;
    analysed.liquid = faulty.liquid;
    analysed.liquid.ingredients.push_back(part("sodium carbonate", 98));
    analysed.meets = {"vinegar"};
    EXPECT_FALSE(analyse(analysed, d.ports).value().stops.empty());
    r.keep = true;
    const auto kept = judge(r, d.ports).value();
    ASSERT_FALSE(kept.id.empty());
    EXPECT_EQ(d.store.judgement(kept.id).value().request.meets, r.meets);
}

TEST(HazardConsistency, ACrossLinkerIsNeverSprayed) {
    JudgeRequest r = asked(of({part("polyisocyanate, aliphatic", 20)}));
    EXPECT_EQ(judged(r).grade, Grade::Stop);
    r.use.dose = {Amount::Grams, 3, 900};
    const auto wiped = judged(r);
    EXPECT_NE(wiped.grade, Grade::Stop);
    EXPECT_TRUE(std::any_of(wiped.reasons.begin(), wiped.reasons.end(), [](const Reason& x) { return x.kind == "crosslinker" && x.weight == "caution"; }));
}

// "HDI homopolymer", or its number alone, is an isocyanate too: only names with "isocyan" in them stopped a spray.
TEST(HazardIssue, ACrossLinkerByShortNameOrNumberIsNeverSprayed) {
    const auto sprayed = [](const char* name, const char* cas) { return judged(asked(of({part("alcohol ethoxylate", 1), {name, cas, 5.0, std::nullopt, std::nullopt}}))).grade; };
    for (const char* name : {"HDI homopolymer", "pMDI", "TDI prepolymer", "IPDI trimer", "H12MDI", "polycarbodiimide", "Polyaziridine"}) EXPECT_EQ(sprayed(name, ""), Grade::Stop) << name;
    for (const char* cas : {"28182-81-2", "101-68-8", "64265-57-2"}) EXPECT_EQ(sprayed("", cas), Grade::Stop) << cas;
    EXPECT_NE(sprayed("medium of wax", ""), Grade::Stop);
    JudgeRequest wiped = asked(of({part("alcohol ethoxylate", 1), {"", "28182-81-2", 5.0, std::nullopt, std::nullopt}}));
    wiped.use.dose = {Amount::Grams, 8, 900};
    const auto a = judged(wiped);
    EXPECT_EQ(a.grade, Grade::Unknown) << a.sentence;
    EXPECT_TRUE(std::any_of(a.reasons.begin(), a.reasons.end(), [](const Reason& x) { return x.kind == "crosslinker" && x.weight == "caution"; }));
}

TEST(HazardConsistency, EveryNumberOfACautionHasItsCheckDigit) {
    for (const auto& row : atlas::caution_names) {
        EXPECT_NE(row.cas.empty(), row.word.empty()) << row.plain_name;
        EXPECT_TRUE(row.cas.empty() || chem::parse_cas(row.cas).ok()) << row.cas;
        EXPECT_TRUE(std::any_of(atlas::cautions.begin(), atlas::cautions.end(), [&](const auto& c) { return c.key == row.caution; })) << row.caution;
    }
}

// Bleach by another name ("sodium hypochlorite solution 12 %") was an unknown that does nothing: "stays within, practically all".
TEST(HazardIssue, BleachInOtherWordsIsBleach) {
    for (const char* name : {"sodium hypochlorite solution 12%", "Chlorine bleach", "Sodium dichloroisocyanurate dihydrate tablets"})
        for (const char* leather : {"aniline", "pigmented_furniture"})
            for (double pct : {5.0, 15.0}) {
                const auto a = judged(asked(of({part("alcohol ethoxylate", 1), part(name, pct)}), leather));
                EXPECT_TRUE(a.grade == Grade::Lasting || a.grade == Grade::Deep) << name << ' ' << leather;
                EXPECT_EQ(a.sentence.rfind("Keep it off: it bleaches", 0), 0U) << a.sentence;
                EXPECT_EQ(a.cautions.front().rfind("Never put an acid", 0), 0U) << a.cautions.front();
                EXPECT_EQ(a.next_test.name, "Compare with a sheltered place");
            }
    const auto trimer = judged(asked(of({part("alcohol ethoxylate", 1), part("HDI isocyanurate", 5)})));
    EXPECT_EQ(trimer.stop.value().kind, "never_sprayed");
    EXPECT_NE(trimer.cautions.front().rfind("Never put an acid", 0), 0U);
}

TEST(HazardConsistency, FireGlovesAndAirbagsAreSaidWhereTheyApply) {
    const auto says = [](const JudgeAnswer& a, const char* kind) { return std::any_of(a.reasons.begin(), a.reasons.end(), [&](const Reason& x) { return x.kind == kind && x.weight == "caution" && !x.basis.source.empty(); }); };
    const auto gel = judged(asked(of({part("ethanol", 70)}), "pigmented_automotive")), water = judged(asked(of({part("citric acid", 0.1)}), "pigmented_furniture"));
    EXPECT_TRUE(says(gel, "flammable"));
    EXPECT_TRUE(says(gel, "car"));
    EXPECT_FALSE(says(water, "flammable") || says(water, "car") || says(water, "corrosive_alkali") || says(water, "corrosive_acid"));
    EXPECT_TRUE(says(judged(asked(of({part("sodium hydroxide", 1)}))), "corrosive_alkali"));
    EXPECT_TRUE(says(judged(asked(of({part("hydrochloric acid", 1)}))), "corrosive_acid"));
}

TEST(HazardConsistency, AlkaliAndAcidInOneBottleHaveMetAlreadyInTwoTheyWarn) {
    Desk d;
    Liquid laundry = of({part("citric acid", 2), part("sodium hydroxide", 0.3)});
    auto warns = [&](const AnalyseRequest& r) {
        const auto a = analyse(r, d.ports).value();
        return std::any_of(a.reasons.begin(), a.reasons.end(), [](const Reason& x) { return x.kind == "must_not_meet" && x.weight == "caution"; });
    };
    AnalyseRequest one;
    one.liquid = laundry;
    EXPECT_FALSE(warns(one));
    Liquid acid = of({part("citric acid", 20)});
    acid.id = "acid";
    ASSERT_TRUE(d.store.keep_liquid(acid).ok());
    AnalyseRequest two;
    two.liquid = of({part("sodium hydroxide", 2)});
    two.meets = {"acid"};
    EXPECT_TRUE(warns(two));
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

// A tenth of a product may be unknown, and water in the bucket made any share small: such liquids were cleared as if that part were water.
TEST(JudgementIssue, WhatIsNotKnownMayCondemnAndNeverClears) {
    const auto with = [](std::vector<Ingredient> parts, double parts_water) {
        JudgeRequest r = asked(of(std::move(parts)), "pigmented_furniture");
        r.use.parts_water = parts_water;
        return judged(r);
    };
    for (const auto& a : {with({part("alcohol ethoxylate", 1), part("hydrofluoric acid", 9)}, 0), with({part("alcohol ethoxylate", 1), part("Secret acid", 50)}, 5), with({part("alcohol ethoxylate", 1), part("Secret acid", 5)}, 50)}) {
        EXPECT_EQ(a.grade, Grade::Unknown) << a.sentence;
        EXPECT_EQ(a.next_test.name, "Read the liquid");
        for (const auto& h : a.harms) EXPECT_NE(h.grade, Grade::StaysWithin) << h.kind;
        EXPECT_EQ(a.sure.members, 0);
        EXPECT_TRUE(std::none_of(a.limits.begin(), a.limits.end(), [](const LimitCheck& l) { return l.decides; }));
    }
    EXPECT_EQ(with({part("alcohol ethoxylate", 1), part("perfume", 0.3)}, 0).grade, Grade::StaysWithin);
    const auto lye = with({part("sodium hydroxide", 5), part("secret builder", 5)}, 0);
    EXPECT_TRUE(lye.grade == Grade::Lasting || lye.grade == Grade::Deep) << lye.sentence;
    JudgeRequest read = asked(of({part("alcohol ethoxylate", 1), part("secret builder", 5)}));
    read.liquid.read_ph = 7;
    EXPECT_EQ(judged(read).next_test.name, "Hidden spot");
}

/// Every demo liquid on aniline, pigmented and nubuck, eight pulls on 900 cm2.
const std::vector<JudgeAnswer>& whole_shelf() {
    static const std::vector<JudgeAnswer> all = [] {
        std::vector<JudgeAnswer> out;
        for (const auto& liquid : demo_liquids())
            for (const auto& leather : demo_leathers()) {
                if (leather.id != "demo_club" && leather.id != "demo_sofa" && leather.id != "demo_ottoman") continue;
                JudgeRequest r = asked(liquid);
                r.leather = leather;
                out.push_back(judged(r));
            }
        return out;
    }();
    return all;
}

TEST(JudgementProperty, TheSentenceSaysStillPastOnlyWhereTheEndOfTheProfileIs) {
    int still = 0, back = 0;
    for (const auto& a : whole_shelf()) {
        const bool says_still = a.sentence.find("still past it") != std::string::npos, says_back = a.sentence.find("back inside") != std::string::npos;
        if (!says_still && !says_back) continue;
        double finish = 0;
        for (const auto& layer : a.profile.layers)
            if (layer.name == "finish") finish = layer.bottom_um;
        bool past = false;
        for (const auto& l : a.limits) {
            if (!l.decides || l.quantity.find("inside the leather") == std::string::npos) continue;
            // None of these starts within a reading's error of a limit without lying past it; AHideAtALimitIsNotCondemnedByWater looks there.
            const double line = l.upper ? std::max(l.limit.value, a.leather_ph.value + 0.1) : std::min(l.limit.value, a.leather_ph.value - 0.1);
            for (std::size_t i = 0; i < a.profile.depth_um.size(); ++i)
                if (a.profile.depth_um[i] > finish) past = past || (l.upper ? a.profile.ph.back()[i] > line : a.profile.ph.back()[i] < line);
        }
        EXPECT_EQ(says_still, past) << a.liquid.liquid << " on " << a.leather.name << ": " << a.sentence;
        (says_still ? still : back) += 1;
    }
    EXPECT_GT(still, 5);
    EXPECT_GT(back, 5);
}

TEST(JudgementConsistency, TheLimitPassedDeepestDecidesAndTheSentenceGivesItsOwnDepth) {
    JudgeRequest r = asked(of({part("acetic acid", 5)}), "refined_aniline", "vegetable");
    r.leather.extract_ph = 3.6;
    r.use.dose = {Amount::Grams, 50, 900};
    const auto a = judged(r);
    const LimitCheck* deepest = nullptr;
    int passed = 0;
    for (const auto& l : a.limits)
        if (l.decides && l.passed && l.deepest_um > 0) {
            ++passed;
            if (deepest == nullptr || l.deepest_um > deepest->deepest_um) deepest = &l;
        }
    ASSERT_GE(passed, 2);
    EXPECT_NE(a.reasons.front().sentence.find(deepest->name), std::string::npos) << a.reasons.front().sentence;
    EXPECT_NE(a.sentence.find(span(deepest->longest_s)), std::string::npos) << a.sentence;
}

// A water drop read on nubuck was taken without a word: there is no finish whose openness it could tell.
TEST(JudgementIssue, AWaterDropOnLeatherWithoutAFinishIsAnswered) {
    JudgeRequest r = asked(of({part("sodium carbonate", 0.1)}), "nubuck");
    const auto weight = [&](WaterDrop drop) -> std::string {
        r.leather.water_drop = drop;
        const auto a = judged(r);
        for (const auto& x : a.reasons)
            if (x.kind == "drop_without_finish") return x.weight;
        return "";
    };
    EXPECT_EQ(weight(WaterDrop::NotDone), "");
    EXPECT_EQ(weight(WaterDrop::Seconds10), "note");
    EXPECT_EQ(weight(WaterDrop::Minutes10), "caution");
}

// Where little was wiped off some members had fewer moments than the fans read, and that took the program down.
TEST(JudgementIssue, AClothThatTakesLittleOffGetsAnAnswer) {
    for (const double wiped_pct : {1.0, 10.0, 20.0, 32.0}) {
        JudgeRequest r = asked(of({part("sodium carbonate", 0.3)}));
        r.use.wiped_off_pct = wiped_pct;
        EXPECT_EQ(judged(r).sure.fans.size(), 4U) << wiped_pct;
    }
}

// Acetone on a finish was cleared, and 90 % of it had pH 7.00: only alcohol counted as what takes the place of water.
TEST(JudgementIssue, SolventsOnAFinishAreNotClearedByFigures) {
    Desk d;
    for (const char* solvent : {"acetone", "2-butanone", "ethyl acetate", "1-methoxy-2-propanol"})
        for (double pct : {8.0, 15.0, 40.0, 90.0})
            for (const char* leather : {"pigmented_furniture", "pigmented_automotive", "coated"}) {
                const auto a = judged(asked(of({part(solvent, pct)}), leather));
                EXPECT_NE(a.grade, Grade::StaysWithin) << solvent << ' ' << pct << ' ' << leather;
                EXPECT_NE(a.grade, Grade::ComesBack) << solvent << ' ' << pct << ' ' << leather;
                EXPECT_EQ(a.liquid.ph_refused, pct > 20) << solvent << ' ' << pct;
            }
    AnalyseRequest r;
    r.liquid = of({part("acetone", 90)});
    EXPECT_TRUE(analyse(r, d.ports).value().ph_refused);
    EXPECT_EQ(judged(asked(of({part("ethanol", 4)}), "pigmented_furniture")).grade, Grade::StaysWithin);
}

// Alcohol as it is sold holds no water to speak of: "dissolve or dilute it first" was advice to make more of it.
TEST(JudgementIssue, AlcoholAndSpiritsWithoutWaterGetAnAnswer) {
    for (const char* name : {"2-propanol", "mineral spirits", "ethanol", "acetone"})
        for (const char* leather : {"aniline", "pigmented_furniture", "nubuck"}) {
            Desk d;
            const auto a = judge(asked(of({part(name, 100)}), leather), d.ports);
            ASSERT_TRUE(a.ok()) << name << ' ' << leather << ": " << a.error().message;
            EXPECT_GE(a->grade, Grade::Lasting) << name << ' ' << leather;
            EXPECT_TRUE(a->liquid.ph_refused);
            EXPECT_TRUE(std::any_of(a->reasons.begin(), a->reasons.end(), [](const Reason& x) { return x.kind == "flammable"; })) << name;
        }
    EXPECT_EQ(judged(asked(of({part("secret oil", 100)}))).grade, Grade::Unknown);
}

// An owner read of mmol/m2 of alkali, and of a worst moment where nothing had moved that a reading could see.
TEST(JudgementIssue, TheOwnersPageSpeaksToOwners) {
    KeptJudgement k;
    k.request = asked(of({part("sodium hydroxide", 0.5), part("sodium metasilicate", 1)}));
    k.answer = judged(k.request);
    ASSERT_NE(k.answer.sentence.find("mmol/m² of alkali"), std::string::npos) << k.answer.sentence;
    const auto strong = owner_report(k);
    EXPECT_EQ(strong.more.find("mmol"), std::string::npos) << strong.more;
    EXPECT_NE(strong.more.find("a drop on the surface may read"), std::string::npos) << strong.more;
    EXPECT_EQ(section_in_words(judged(asked(of({part("water", 100)}))).profile).rfind("The leather keeps its pH", 0), 0U);
    EXPECT_EQ(section_in_words(k.answer.profile).rfind("At its worst", 0), 0U);
}

// "Stays within, no limit is passed" stood alone as the answer while 65 g/m2 of residue stayed in every case.
TEST(JudgementIssue, WhatGoesFartherThanTheAnswerStandsInItsSentence) {
    JudgeRequest r = asked(of({part("glycerol", 20)}), "pigmented_furniture");
    r.use.dose.count = 30;
    r.use.wiped_off_pct = 0;
    const auto a = judged(r);
    EXPECT_NE(a.sentence.find("But mind: "), std::string::npos) << a.sentence;
    EXPECT_NE(a.sentence.find("what stays on the surface (past a limit, lasting)"), std::string::npos) << a.sentence;
    EXPECT_NE(a.how_sure.find("not in this count"), std::string::npos) << a.how_sure;
    const auto mild = judged(asked(of({part("water", 100)}), "coated"));
    EXPECT_EQ(mild.sentence.find("But mind"), std::string::npos) << mild.sentence;
}

// Within in 39 of a hundred cases, back in 19, lasting in 12, deep in 31: the answer was "comes back" and never named the deep ones.
TEST(JudgementIssue, TheGravestShareIsNamedAndAMinorityIsNoAnswer) {
    int minorities = 0, grave = 0;
    for (const char* leather : {"semi_aniline", "aniline", "pigmented_furniture"})
        for (const char* alkali : {"sodium hydroxide", "sodium carbonate", "ammonia", "monoethanolamine"})
            for (double pct : {0.05, 0.1, 0.2, 0.4, 0.8}) {
                JudgeRequest r = asked(of({{alkali, "", pct, std::nullopt, 4 * pct}}), leather);
                const auto a = judged(r);
                if (a.sure.members == 0) continue;
                double stays = 0;
                for (const auto& c : a.sure.chances)
                    if (c.grade >= Grade::Lasting) stays += c.share_1;
                if (stays >= 0.05) {
                    ++grave;
                    EXPECT_TRUE(a.how_sure.find("stays") != std::string::npos || a.how_sure.find("deep") != std::string::npos || a.how_sure.find("over an hour") != std::string::npos || a.how_sure.find("at depth") != std::string::npos) << a.how_sure;
                }
                for (const auto& c : a.sure.chances)
                    if (c.grade == Grade::Deep && c.share_1 >= 0.05) { EXPECT_TRUE(a.how_sure.find("deep") != std::string::npos || a.how_sure.find("at depth") != std::string::npos) << a.how_sure; }
                const bool minority = a.sure.answer_1 < 0.5;
                minorities += minority;
                EXPECT_EQ(minority, a.sentence.rfind("Cannot be told yet; from ", 0) == 0) << a.sentence;
            }
    EXPECT_GT(minorities, 0);
    EXPECT_GT(grave, 5);
}

TEST(JudgementProperty, NextTestNeverAsksForWhatWasGiven) {
    std::vector<std::string> asked_for;
    for (const auto& a : whole_shelf()) {
        asked_for.push_back(a.next_test.name);
        const bool read = a.leather.surface_ph || a.leather.extract_ph;
        EXPECT_FALSE(read && a.next_test.name == "Surface pH") << a.liquid.liquid << " on " << a.leather.name;
    }
    std::sort(asked_for.begin(), asked_for.end());
    EXPECT_GE(std::unique(asked_for.begin(), asked_for.end()) - asked_for.begin(), 4);
    EXPECT_EQ(judged(asked(of({part("sodium hypochlorite", 3)}))).next_test.name, "Compare with a sheltered place");  // nobody is sent to try bleach
    EXPECT_EQ(judged(asked(of({part("water", 100)}))).next_test.name, "Hidden spot");  // where nothing is open, nothing is asked
    JudgeRequest weighed = asked(of({part("sodium carbonate", 0.3)}));
    weighed.use.dose = {Amount::Grams, 8, 900};
    EXPECT_NE(judged(weighed).next_test.name, "Weigh what was used");
}

TEST(JudgementConsistency, AWeighedAmountSpreadsLessThanPulls) {
    JudgeRequest pulls = asked(of({part("sodium carbonate", 0.5)})), weighed = pulls;
    weighed.use.dose = {Amount::Grams, 8 * 0.95, 900};
    const auto p = judged(pulls), w = judged(weighed);
    EXPECT_NEAR(p.dose.value, w.dose.value, 1e-9);
    EXPECT_LT(1.3 * w.dose.plus_minus, p.dose.plus_minus);
    EXPECT_LT(1.3 * w.balance.left.plus_minus, p.balance.left.plus_minus);
}

TEST(JudgementConsistency, WhereTheBufferIsUsedUpItQuotesAlkaliNotDigits) {
    const auto a = judged(asked(of({part("sodium hydroxide", 0.5), part("sodium metasilicate", 1)})));
    EXPECT_NE(a.sentence.find("the amount counts"), std::string::npos) << a.sentence;
    EXPECT_NE(a.sentence.find("mmol/m² of alkali"), std::string::npos) << a.sentence;
    EXPECT_EQ(a.sentence.find("would read about"), std::string::npos) << a.sentence;
    JudgeRequest little = asked(of({part("sodium carbonate", 0.1)}));
    little.leather.surface_ph = 4.2;
    EXPECT_NE(judged(little).sentence.find("would read about pH"), std::string::npos) << judged(little).sentence;
}

TEST(JudgementConsistency, VinegarPassesTheFloorForAWhileACitrateRinseDoesNot) {
    auto floor_passed = [](const JudgeAnswer& a) {
        for (const auto& l : a.limits)
            if (!l.upper && l.limit.value == 3.5 && l.decides && l.quantity == "lowest pH inside the leather") return l.passed;
        throw Bug("no floor");
    };
    const auto vinegar = judged(asked(of({part("acetic acid", 5)}))), rinse = judged(asked(of({part("citric acid", 0.5), part("trisodium citrate", 0.5)})));
    EXPECT_TRUE(floor_passed(vinegar));
    EXPECT_EQ(vinegar.grade, Grade::ComesBack);
    EXPECT_FALSE(floor_passed(rinse));
    auto says = [](const JudgeAnswer& a, const char* kind) { return std::any_of(a.reasons.begin(), a.reasons.end(), [&](const Reason& r) { return r.kind == kind; }); };
    EXPECT_TRUE(says(vinegar, "liquid_below_floor"));
    EXPECT_FALSE(says(rinse, "liquid_below_floor"));
}

TEST(JudgementConsistency, AHideThatLiesPastALimitIsToldSoAndCountedToNone) {
    JudgeRequest r = asked(of({part("sodium carbonate", 0.3)}));
    r.leather.surface_ph = 7.5;
    const auto alkaline = judged(r);
    EXPECT_DOUBLE_EQ(alkaline.balance.limit_ph, 6.0);
    EXPECT_DOUBLE_EQ(alkaline.balance.takes_grain.value, 0);
    r.liquid = of({part("water", 100)});
    const auto water = judged(r);
    EXPECT_EQ(water.sentence.rfind("Goes no further", 0), 0U) << water.sentence;
    EXPECT_NE(water.sentence.find("as before"), std::string::npos) << water.sentence;
    r = asked(of({part("citric acid", 0.5)}), "aniline", "chrome");
    r.leather.extract_ph = 3.3;
    EXPECT_DOUBLE_EQ(judged(r).balance.limit_ph, 3.0);  // the floor of 3.5 lies behind, the end of good leather ahead
    r.leather.extract_ph = 2.9;
    const auto sour = judged(r);
    EXPECT_DOUBLE_EQ(sour.balance.limit_ph, 3.0);
    EXPECT_DOUBLE_EQ(sour.balance.takes_grain.value, 0);
    EXPECT_TRUE(std::any_of(sour.reasons.begin(), sour.reasons.end(), [](const Reason& x) { return x.sentence.find("already") != std::string::npos; }));
}

TEST(JudgementProperty, AHideAtALimitIsNotCondemnedByWater) {
    for (const char* tannage : {"chrome", "vegetable", "wet_white"})
        for (double limit : {3.0, 3.2, 3.5, 5.5, 6.0, 7.0, 8.0})
            for (double beside : {-0.05, -0.001, 0.0, 0.001, 0.05}) {
                JudgeRequest r = asked(of({part("water", 100)}), "aniline", tannage);
                r.leather.extract_ph = limit + beside;
                EXPECT_EQ(judged(r).grade, Grade::StaysWithin) << tannage << " at " << limit + beside;
            }
}

// The time past a limit belongs to the profile, not to the moments that are kept of it.
TEST(JudgementConsistency, TheTimePastALimitIsThatOfTheProfile) {
    JudgeRequest r = asked(of({part("sodium carbonate", 0.3)}));
    for (double dwell : {60.0, 120.0, 300.0}) {
        r.use.dwell_s = dwell;
        const auto a = judged(r);
        const LimitCheck* check = nullptr;
        for (const auto& l : a.limits)
            if (l.decides && l.upper && l.passed && l.quantity.find("inside") != std::string::npos && (check == nullptr || l.limit.value < check->limit.value)) check = &l;
        ASSERT_NE(check, nullptr);
        double finish = 0, longest = 0;
        for (const auto& layer : a.profile.layers)
            if (layer.name == "finish") finish = layer.bottom_um;
        for (std::size_t i = 0; i < a.profile.depth_um.size(); ++i) {
            if (a.profile.depth_um[i] < finish) continue;
            // Ten thousand points between the kept moments, counted.
            double over = 0;
            for (std::size_t k = 1; k < a.profile.time_s.size(); ++k)
                for (int j = 0; j < 1000; ++j) {
                    const double share = (j + 0.5) / 1000, ph = a.profile.ph[k - 1][i] + share * (a.profile.ph[k][i] - a.profile.ph[k - 1][i]);
                    if (ph > check->limit.value) over += (a.profile.time_s[k] - a.profile.time_s[k - 1]) / 1000;
                }
            longest = std::max(longest, over);
        }
        EXPECT_NEAR(check->longest_s, longest, 0.002 * longest + 1) << dwell;
    }
}

TEST(JudgementConsistency, ALiquidThatNobodyKnowsHasNoPhAndPassesNoLimit) {
    for (const bool label : {true, false}) {
        Liquid bottle;
        bottle.name = "bottle without a list";
        bottle.label_known = label;
        bottle.stated_ph = label ? std::optional(11.0) : std::nullopt;
        const auto a = judged(asked(bottle));
        EXPECT_EQ(a.grade, Grade::Unknown);
        EXPECT_TRUE(a.liquid.ph_refused);
        EXPECT_TRUE(a.limits.empty() && a.profile.time_s.empty() && a.sure.members == 0);
        for (const auto& h : a.harms) EXPECT_NE(h.grade, Grade::StaysWithin) << h.kind;
        for (const auto& r : a.reasons) EXPECT_EQ(r.sentence.find("Next to no"), std::string::npos) << r.sentence;
        EXPECT_EQ(a.next_test.name, "Read the liquid");
    }
}

// A wash with citric acid on its sheet and pH 10.5 on its label was told as pH 2.1, beside cases computed at 10.5.
TEST(JudgementIssue, APhThatWasToldOrReadOutranksIngredientsThatDoNotExplainIt) {
    for (const bool read : {false, true}) {
        Liquid wash = of({part("citric acid", 1.7), part("alcohol ethoxylate", 4)});
        (read ? wash.read_ph : wash.stated_ph) = 10.5;
        const auto a = judged(asked(wash, "pigmented_furniture"));
        EXPECT_NEAR(a.liquid.ph.value, 10.5, 0.05);
        EXPECT_GE(a.liquid.ph.plus_minus, 0.1) << "no surer than a label or a meter";
        EXPECT_EQ(a.liquid.alkaline_reserve.standing, Standing::Estimate);
        EXPECT_GT(a.liquid.reserve_to_target.value, 0) << "alkali";
        for (const auto& r : a.reasons) {
            EXPECT_NE(r.kind, "liquid_below_floor") << r.sentence;
            EXPECT_NE(r.kind, "corrosive_acid") << r.sentence;
        }
        EXPECT_EQ(std::count_if(a.reasons.begin(), a.reasons.end(), [](const Reason& r) { return r.kind == "builder" || r.kind == "label_disagrees"; }), 1);
    }
}

TEST(JudgementConsistency, TheSentenceTellsTheGradeOfTheAnswer) {
    int told = 0;
    for (const auto& a : whole_shelf()) {
        const auto says = [&](const char* words) { return a.sentence.find(words) != std::string::npos; };
        const bool by_ph = !says(" decides. ") && a.sentence.rfind("Keep it off", 0) != 0;
        if (a.grade >= Grade::Unknown || !by_ph || says("Cannot be told yet")) continue;
        ++told;
        EXPECT_EQ(a.grade == Grade::StaysWithin, says("Stays within") || says("Goes no further")) << a.sentence;
        EXPECT_EQ(a.grade == Grade::ComesBack, says("for a while and comes back")) << a.sentence;
        EXPECT_EQ(a.grade == Grade::Deep, says("deep in the leather") || says("extract")) << a.sentence;
    }
    EXPECT_GT(told, 20);
}

TEST(JudgementConsistency, ItIsSettledOnlyWhereNearlyAllMembersAgree) {
    int settled = 0, open = 0;
    for (const auto& a : whole_shelf()) {
        if (a.sure.members == 0) continue;
        double all = 0;
        for (const auto& c : a.sure.chances) all += c.share_1;
        EXPECT_NEAR(all, 1, 1e-12);
        const bool says = a.how_sure.find("Settled") == 0;
        EXPECT_EQ(says, a.sure.answer_1 >= 0.95) << a.how_sure;
        ++(says ? settled : open);
    }
    EXPECT_GT(settled, 0);
    EXPECT_GT(open, 0);
}

TEST(JudgementConsistency, TooMuchWaterIsSaidBesidePh) {
    auto says = [](const JudgeAnswer& a) { return std::any_of(a.reasons.begin(), a.reasons.end(), [](const Reason& r) { return r.kind == "more_than_a_pass"; }); };
    JudgeRequest water = asked(of({part("water", 100)}), "nubuck");
    water.use.dose = {Amount::Grams, 1.5, 900};
    EXPECT_FALSE(says(judged(water)));
    water.use.dose.count = 4;
    const auto wet = judged(water);
    EXPECT_TRUE(says(wet));
    EXPECT_EQ(wet.grade, Grade::StaysWithin);
    water.leather.leather_class = "aniline";
    EXPECT_FALSE(says(judged(water)));
}

TEST(JudgementConsistency, AVerySourLeatherOfUnknownTannageGetsNoWater) {
    JudgeRequest r = asked(of({part("citric acid", 0.1)}), "aniline", "unknown");
    r.leather.surface_ph = 2.7;
    const auto a = judged(r);
    EXPECT_EQ(a.grade, Grade::Stop);
    EXPECT_NE(a.sentence.find("tannage"), std::string::npos);
    r.leather.tannage = "chrome";
    EXPECT_NE(judged(r).grade, Grade::Stop);
}

TEST(JudgementConsistency, MostlyAlcoholLeavesNoLimitDeciding) {
    const auto a = judged(asked(of({part("ethanol", 70), part("triethanolamine", 0.2)}), "pigmented_furniture"));
    EXPECT_EQ(a.reasons.front().kind, "solvent");
    EXPECT_EQ(a.reasons.front().weight, "decides");
    for (const auto& l : a.limits) EXPECT_FALSE(l.decides) << l.name;
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
    for (const char* without : {"nubuck", "suede"}) EXPECT_EQ(where([&](auto& r) { r.leather.leather_class = without; r.leather.finish_um = 20; }), "leather.finish_um");
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
