#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "core/belief/points.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/diffusion/sections.hpp"
#include "desk/ensemble.hpp"
#include "desk/unknowns.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

Ingredient part(const char* name, double pct, std::optional<double> to = std::nullopt) { return {name, "", pct, std::nullopt, to}; }

Question question(std::vector<Ingredient> ingredients, const char* leather_class = "semi_aniline", const char* tannage = "chrome") {
    Question q;
    q.liquid.name = "test liquid";
    q.liquid.ingredients = std::move(ingredients);
    q.leather.leather_class = leather_class;
    q.leather.tannage = tannage;
    q.hide = *leather::hide(leather_class, tannage, {});
    q.use.dose.count = 8;
    q.story.dose_kg_m2 = 8 * 0.95e-3 / 0.09;
    return q;
}

std::vector<std::string> keys(const Question& q) {
    std::vector<std::string> out;
    for (const auto& u : unknowns_of(q)) out.push_back(u.key);
    return out;
}
bool has(const std::vector<std::string>& all, const std::string& key) { return std::find(all.begin(), all.end(), key) != all.end(); }

std::vector<double> reserves(const Draw& d) {
    std::vector<double> out;
    for (const auto& m : d.members) out.push_back(*chem::acid_to_ph(d.liquids[m.liquid].as_used, 5));
    return out;
}

TEST(UnknownsProperty, WhatWasReadIsNoLongerDrawn) {
    Question q = question({part("sodium carbonate", 1)});
    EXPECT_TRUE(has(keys(q), "thickness") && has(keys(q), "finish") && has(keys(q), "dose") && has(keys(q), "wiped"));
    EXPECT_FALSE(has(keys(q), "stated_ph") || has(keys(q), "ingredients"));
    q.hide.thickness_read = true;
    q.use.dose.amount = Amount::Grams;
    q.story.wiped_1 = 0;
    q.hide.finish_um = 0;
    for (const char* key : {"thickness", "finish", "dose", "wiped", "film"}) EXPECT_FALSE(has(keys(q), key)) << key;
    EXPECT_TRUE(has(keys(q), "area"));
}

TEST(UnknownsProperty, AReadingOfTheHideNarrowsItsStart) {
    Question q = question({part("sodium carbonate", 1)});
    const auto start = [&] {
        const auto d = draw(q, 256);
        std::vector<double> ph;
        for (const auto& m : d->members) ph.push_back(m.hide.ph);
        return belief::five(ph);
    };
    const auto before = start();
    q.hide = *leather::hide("semi_aniline", "chrome", {std::nullopt, std::nullopt, std::nullopt, 4.1, std::nullopt});
    const auto after = start();
    EXPECT_LT(after.high_90 - after.low_90, 0.5 * (before.high_90 - before.low_90));
    EXPECT_NEAR(after.median, 4.1, 0.01);
}

// The drop once changed the name of the unknown, so that no member drew it: the reading took the spread away and moved nothing.
TEST(UnknownsIssue, AWaterDropCutsHowOpenTheFinishIs) {
    Question q = question({part("sodium carbonate", 1)});
    const auto ends = [&](WaterDrop drop) {
        q.leather.water_drop = drop;
        double least = 1e300, most = 0;
        const auto d = draw(q, 256);
        for (const auto& m : d->members) {
            least = std::min(least, m.story.permeability_1);
            most = std::max(most, m.story.permeability_1);
        }
        return std::pair(least, most);
    };
    double before = std::numeric_limits<double>::infinity();
    for (const auto drop : {WaterDrop::Seconds10, WaterDrop::Minutes2, WaterDrop::Minutes10, WaterDrop::NotAtAll}) {
        const auto [least, most] = ends(drop);
        EXPECT_GT(most, 1.5 * least);
        EXPECT_LE(most, before * (1 + 1e-9));
        before = least;
    }
    const auto class_only = ends(WaterDrop::NotDone);
    EXPECT_GT(ends(WaterDrop::Seconds10).second, class_only.second);
    EXPECT_LT(ends(WaterDrop::NotAtAll).first, class_only.first);
}

TEST(UnknownsProperty, RangesOfTheSheetAreDrawnOverTheirWholeWidth) {
    const Question q = question({part("sodium carbonate", 1, 5), part("sodium chloride", 0.5)});
    const auto d = draw(q, 256);
    ASSERT_EQ(d->liquids.size(), 256U);
    double least = 1e300, most = 0;
    for (const auto& l : d->liquids) {
        least = std::min(least, l.as_used.recognised[0].content_pct);
        most = std::max(most, l.as_used.recognised[0].content_pct);
        EXPECT_NEAR(l.as_used.recognised[1].content_pct, 0.5, 1e-12);
    }
    EXPECT_NEAR(least, 1, 0.02);
    EXPECT_NEAR(most, 5, 0.02);
}

TEST(UnknownsProperty, RangesThatAddUpToMoreThanThereIsRoomForGiveWay) {
    const auto d = draw(question({part("sodium carbonate", 10, 60), part("2-butoxyethanol", 20, 60)}), 64);
    ASSERT_TRUE(d.ok()) << d.error().message;
    for (const auto& l : d->liquids) EXPECT_GE(l.as_used.water_kg_kg, 0.0099);
}

// A sheet that names a surfactant and a pH of 11 leaves out what makes that pH. Which builder it is decides the reserve.
TEST(UnknownsProperty, AStatedPhThatTheIngredientsDoNotExplainBringsABuilder) {
    Question q = question({part("alcohol ethoxylate", 2)});
    q.liquid.stated_ph = 11;
    const auto d = draw(q, 256);
    ASSERT_TRUE(d.ok());
    ASSERT_EQ(d->liquids.size(), 256U);
    std::vector<double> ph;
    for (const auto& l : d->liquids) ph.push_back(l.ph);
    const auto band = belief::five(ph);
    EXPECT_NEAR(band.median, 11, 0.1);
    EXPECT_NEAR(band.high_90 - band.low_90, 1, 0.2);
    const auto reserve = belief::five(reserves(*d));
    EXPECT_GT(reserve.low_90, 0);
    EXPECT_GT(reserve.high_90 / reserve.low_90, 10);
    const auto recipe = reconciled(q.liquid, Temperature::celsius(20));
    EXPECT_FALSE(recipe->builder.empty());
}

TEST(UnknownsProperty, IngredientsThatExplainTheLabelAreLeftAlone) {
    Question q = question({part("sodium carbonate", 1)});
    q.liquid.stated_ph = 11;
    EXPECT_EQ(draw(q, 64)->liquids.size(), 1U);
    EXPECT_TRUE(reconciled(q.liquid, Temperature::celsius(20))->builder.empty());
}

// Lye falls by a whole unit in ten parts of water, soda by much less: two readings tell them apart.
TEST(UnknownsProperty, AReadingInTenPartsTellsLyeFromABuilder) {
    Question q = question({part("alcohol ethoxylate", 2)});
    q.liquid.read_ph = 11.5;
    const auto reserve_with = [&](double tenfold) {
        q.liquid.read_ph_tenfold = tenfold;
        return belief::five(reserves(*draw(q, 256))).median;
    };
    EXPECT_GT(reserve_with(11.1), 4 * reserve_with(10.5));
}

TEST(UnknownsRefusal, ARangeUpsideDownNamesItsField) {
    Question q = question({part("sodium carbonate", 5, 1)});
    EXPECT_EQ(draw(q, 64).error().where, "liquid.ingredients[0].content_to_pct");
    q = question({part("sodium carbonate", 1)});
    q.liquid.stated_ph_to = 11;
    EXPECT_EQ(draw(q, 64).error().where, "liquid.stated_ph_to");
    EXPECT_EQ(draw(question({part("sodium carbonate", 1)}), 100).error().where, "members");
}

/// Members solved from other points of the same beliefs: a second ensemble, or truths at random.
std::vector<double> farthest(const Question& q, const std::vector<std::vector<double>>& u, std::size_t count) {
    std::vector<double> out;
    for (std::size_t i = 0; i < count; ++i) {
        const Member m = member_at(q, u[i]);
        const auto assessed = assess(*totals_at(q, u[i]), m.hide, m.story);
        double far = m.hide.ph;
        for (const auto& row : assessed->exposure.ph)
            for (std::size_t c = 0; c < row.size(); ++c)
                if (!assessed->exposure.layers[static_cast<std::size_t>(assessed->exposure.section.layer_of[c])].finish) far = std::max(far, row[c]);
        out.push_back(far);
    }
    return out;
}

// Simulated cases: what is true is drawn at random from the beliefs and solved finely; the coarser members of the ensemble must
// hold it where they say. 120 truths in four bins, and the two bands, each within three binomial standard deviations.
TEST(EnsembleProperty, BandsHoldSimulatedTruthsAsOftenAsTheySay) {
    constexpr std::size_t truths = 120;
    const Question q = question({part("sodium carbonate", 0.2, 2)});
    const auto e = solve_ensemble(q, 256);
    ASSERT_TRUE(e.ok());
    std::vector<double> y;
    for (const auto& o : e->outcomes) y.push_back(o.farthest_ph);
    std::mt19937_64 random(20261125);
    std::uniform_real_distribution<double> even(1e-9, 1 - 1e-9);
    std::vector<std::vector<double>> u(truths, std::vector<double>(e->draw.unknowns.size()));
    for (auto& row : u)
        for (double& x : row) x = even(random);
    const auto found = farthest(q, u, truths);
    const auto cuts = belief::quantiles(y, {0.05, 0.25, 0.5, 0.75, 0.95});
    const auto expect_share = [&](double low, double high, double share) {
        const auto n = std::count_if(found.begin(), found.end(), [&](double v) { return v > low && v <= high; });
        EXPECT_NEAR(static_cast<double>(n), truths * share, 3 * std::sqrt(truths * share * (1 - share))) << low << " to " << high;
    };
    expect_share(-1e9, cuts[1], 0.25);
    expect_share(cuts[1], cuts[2], 0.25);
    expect_share(cuts[2], cuts[3], 0.25);
    expect_share(cuts[3], 1e9, 0.25);
    expect_share(cuts[1], cuts[3], 0.5);
    expect_share(cuts[0], cuts[4], 0.9);
}

// What is laid on and what the liquid brings need no section: 1,024 members against 2^17 of them.
TEST(EnsembleProperty, AThousandMembersGiveTheMeanOfAHundredThousand) {
    Question q = question({part("sodium carbonate", 0.2, 2)});
    const auto laid = [&](std::size_t count) {
        const auto d = draw(q, count);
        double sum = 0, squares = 0;
        for (const auto& m : d->members) {
            const auto& t = d->liquids[m.liquid].as_used;
            const double mmol = 1000 * m.story.dose_kg_m2 * (1 - m.story.wiped_1) * t.strong_charge_mol_kg() * t.water_kg_kg;
            sum += mmol;
            squares += mmol * mmol;
        }
        const double n = static_cast<double>(count), mean = sum / n;
        return std::pair(mean, std::sqrt((squares / n - mean * mean) / n));
    };
    const auto [mean, error] = laid(1024);
    const auto [right, unused] = laid(std::size_t{1} << 17);
    static_cast<void>(unused);
    // Even points must do better than the standard error of random ones.
    EXPECT_LT(std::abs(mean - right), error / 3);
}

TEST(EnsembleProperty, TheSameQuestionGivesTheSameAnswer) {
    const Question q = question({part("sodium carbonate", 1)});
    const auto a = solve_ensemble(q, 64), b = solve_ensemble(q, 64);
    for (std::size_t i = 0; i < a->outcomes.size(); ++i) EXPECT_EQ(a->outcomes[i].farthest_ph, b->outcomes[i].farthest_ph);
}

TEST(EnsembleProperty, FansAreOrderedAndTheirMedianIsInside) {
    const Question q = question({part("sodium carbonate", 1)}, "aniline");
    const auto e = solve_ensemble(q, 64);
    std::vector<Grade> grades;
    std::vector<double> farthest;
    for (const auto& o : e->outcomes) {
        grades.push_back(o.held.grade);
        farthest.push_back(o.farthest_ph);
    }
    const Sure s = sure_of(*e, grades, middle_grade(grades), farthest, "the highest pH inside the leather");
    ASSERT_EQ(s.fans.size(), 4U);
    for (const auto& f : s.fans)
        for (std::size_t i = 0; i < f.at.size(); ++i) {
            EXPECT_TRUE(i == 0 || f.at[i] > f.at[i - 1]) << f.key;
            EXPECT_TRUE(f.low_90[i] <= f.low_50[i] && f.low_50[i] <= f.median[i] && f.median[i] <= f.high_50[i] && f.high_50[i] <= f.high_90[i]) << f.key;
        }
    double sum = 0;
    for (const auto& i : s.influences) sum += i.share_1;
    EXPECT_LE(sum, 1.1);
}

// A cloth said to take little off took nothing at all in some members; they skipped the wiping, kept fewer moments than the
// others, and the fans read past their ends.
TEST(EnsembleIssue, MembersThatWipeNothingOffKeepTheMomentsOfTheOthers) {
    for (const double wiped_1 : {0.0, 0.01, 0.10, 0.20, 0.32, 0.5}) {
        Question q = question({part("sodium carbonate", 1)});
        q.story.wiped_1 = wiped_1;
        q.use.wiped_off_pct = 100 * wiped_1;
        const auto e = solve_ensemble(q, 32);
        ASSERT_TRUE(e.ok()) << wiped_1;
        for (const auto& o : e->outcomes) {
            EXPECT_EQ(o.ph.size(), e->moment_s.size()) << wiped_1;
            EXPECT_EQ(o.surface_ph.size(), e->moment_s.size()) << wiped_1;
        }
    }
}

TEST(EnsembleProperty, CancellingStopsIt) {
    const auto e = solve_ensemble(question({part("sodium carbonate", 1)}), 256, [](double, std::string_view) { return false; });
    EXPECT_FALSE(e.ok());
}

TEST(EnsembleProperty, TheMiddleGradeIsTheOneHalfOfTheMembersStayBelow) {
    using G = Grade;
    EXPECT_EQ(middle_grade({G::Deep, G::StaysWithin, G::ComesBack}), G::ComesBack);
    EXPECT_EQ(middle_grade({G::Deep, G::StaysWithin}), G::StaysWithin);
}

}  // namespace
