#include "desk/spot.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "atlas/leather_classes.hpp"
#include "atlas/solvents.hpp"
#include "atlas/spot_solvents.hpp"
#include "core/chem/solvents.hpp"
#include "desk/demo.hpp"
#include "desk/judge.hpp"
#include "desk/moment.hpp"
#include "desk/refine.hpp"
#include "desk/spot_fold.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace {

using namespace hw;
using namespace hw::desk;

constexpr std::int64_t hour_s = 3600;

/// A clock that stands until it is moved.
class Still : public Clock {
public:
    std::string now_utc() override { return moment(now); }
    std::int64_t now_s() override { return now; }
    std::int64_t now = *parse_moment("2026-03-02T09:00:00Z");
};

Liquid liquid(const std::string& id, std::vector<Ingredient> parts, std::optional<double> ph = std::nullopt) {
    Liquid l;
    l.id = id;
    l.name = id;
    l.family = "cleaner";
    l.ingredients = std::move(parts);
    l.stated_ph = ph;
    return l;
}
Ingredient part(const std::string& name, double pct) { return {name, "", pct, std::nullopt, std::nullopt}; }

Liquid mild() { return liquid("mild wash", {part("alkyl polyglucoside", 2), part("citric acid", 0.05), part("trisodium citrate", 0.3)}); }
Liquid strong() { return liquid("kitchen wash", {part("sodium carbonate", 1), part("alcohol ethoxylate", 5)}); }
Liquid gel() { return liquid("hand gel", {part("ethanol", 62)}); }
Liquid stripper() { return liquid("stripper", {part("ethyl acetate", 60), part("acetone", 30)}); }
Liquid bleach() { return liquid("bath bleach", {part("sodium hypochlorite", 4)}); }

SpotSigns good() {
    SpotSigns s;
    s.transfer_grade = 5;
    s.change_grade = 4.5;
    s.rub_dry_grade = 4.5;
    s.ring = s.tack = s.bend = s.film = SignLevel::None;
    return s;
}

struct Workshop {
    test::MemoryStore store;
    test::MemoryJournal journal;
    Still clock;
    Ports ports{store, clock};
    std::string piece;
    int made = 0;

    explicit Workshop(const char* material = "pigmented_furniture") {
        ports.journal = &journal;
        for (const auto& l : {mild(), strong(), gel(), stripper(), bleach()}) static_cast<void>(store.keep_liquid(l));
        Entry make = entry(Did::MakeUp), facts = entry(Did::Panels);
        make.make_up = MakeUp{"Sofa", "sofa", {}, {}, ""};
        facts.facts = PanelFacts{{"SC1-top", "SC2-top"}, material, "chrome", Wear::Worn, Exposure::Seat};
        piece = inspect({"", {make, facts}}, ports)->piece;
    }
    Entry entry(Did did) {
        Entry e;
        e.did = did;
        e.at = clock.now_utc();
        e.device = "test";
        return e;
    }
    void agree(bool edge = true) {
        Entry e = entry(Did::Agreed);
        e.agreed = Agreed{"Owner", {"Told."}, {std::string(consent_to(SpotWhere::Hidden))}, {}};
        if (edge) e.agreed->consents.emplace_back(consent_to(SpotWhere::Edge));
        ASSERT_TRUE(add(e).ok());
    }
    Result<SpotAnswer> add(const Entry& e, std::vector<SpotTry> products = {}) {
        SpotRequest r;
        r.piece = piece;
        r.entries = {e};
        r.products = std::move(products);
        return desk::spot(r, ports);
    }
    Entry spot_of(const Liquid& l, SpotWhere where = SpotWhere::Hidden, const char* panel = "SC1-top") {
        Entry e = entry(Did::SpotMade);
        char id[40];
        std::snprintf(id, sizeof id, "00000000-0000-7000-9000-%012d", ++made);
        e.id = id;
        e.spot_made = SpotMade{};
        e.spot_made->panel = panel;
        e.spot_made->place = "underside_border";
        e.spot_made->where = where;
        e.spot_made->liquid.id = l.id;
        return e;
    }
    Entry read_of(const std::string& spot, SpotStage stage, SpotSigns signs) {
        Entry e = entry(Did::SpotRead);
        e.spot_read = SpotRead{spot, stage, std::move(signs), {}};
        return e;
    }
    const SpotNow now(const std::string& id) {
        const auto all = inspect({piece, {}}, ports)->spots;
        const auto it = std::find_if(all.begin(), all.end(), [&](const SpotNow& s) { return s.entry == id; });
        return it == all.end() ? SpotNow{} : *it;
    }
    /// Makes a spot, waits, reads it dry. Gives its id.
    std::string whole(const Liquid& l, const SpotSigns& signs, SpotWhere where = SpotWhere::Hidden) {
        const Entry e = spot_of(l, where);
        EXPECT_TRUE(add(e).ok());
        clock.now += 100 * hour_s;
        const auto read = add(read_of(e.id, SpotStage::Dry, signs));
        EXPECT_TRUE(read.ok()) << (read.ok() ? "" : read.error().message);
        return e.id;
    }
};

const SpotProduct& product(const SpotAnswer& a, const std::string& name) {
    for (const auto& c : a.classes)
        for (const auto& p : c.products)
            if (p.liquid.name == name) return p;
    throw Bug("no product " + name);
}

SpotRequest ask(const Workshop& w, std::vector<Liquid> liquids) {
    SpotRequest r;
    r.piece = w.piece;
    for (const auto& l : liquids) {
        SpotTry t;
        t.liquid.id = l.id;
        r.products.push_back(t);
    }
    return r;
}

// ---- strength and order

TEST(SpotConsistency, MildComesFirstAndTheFiguresSayWhy) {
    Workshop w;
    const auto a = desk::spot(ask(w, {stripper(), gel(), strong(), mild(), bleach()}), w.ports).value();
    ASSERT_EQ(a.classes.size(), 1u);
    std::vector<std::string> order;
    for (const auto& p : a.classes[0].products) order.push_back(p.liquid.name);
    EXPECT_EQ(order, (std::vector<std::string>{"mild wash", "kitchen wash", "hand gel", "stripper", "bath bleach"}));
    EXPECT_NE(product(a, "kitchen wash").why.find("pH 1"), std::string::npos) << product(a, "kitchen wash").why;
    EXPECT_NE(product(a, "hand gel").why.find("62 %"), std::string::npos) << product(a, "hand gel").why;
    EXPECT_EQ(product(a, "bath bleach").outcome, SpotOutcome::Not);
    EXPECT_FALSE(product(a, "bath bleach").may_make);
    EXPECT_TRUE(product(a, "bath bleach").card.empty());
    for (const auto& p : a.classes[0].products) EXPECT_FALSE(p.basis.source.empty() || p.basis.locator.empty());
}

TEST(SpotConsistency, AThinnerMixtureIsMilderAndWaterIsWater) {
    EXPECT_EQ(strength_of(gel(), 0, SpotPurpose::Clean)->rung, "alcohol");
    EXPECT_NE(strength_of(gel(), 50, SpotPurpose::Clean)->rung, "alcohol");
    EXPECT_EQ(strength_of(control_water(), 0, SpotPurpose::Clean)->rung, "water");
    Liquid nobody_knows = liquid("found in the cellar", {});
    nobody_knows.label_known = false;
    EXPECT_EQ(strength_of(nobody_knows, 0, SpotPurpose::Clean)->rung, "not_known");
}

TEST(SpotConsistency, EverySolventThatLeavesHasARung) {
    for (const auto& row : atlas::spot_solvents) EXPECT_TRUE(chem::solvent_named(row.substance).has_value()) << row.substance;
    for (std::size_t i = 0; i < atlas::solvents.size(); ++i) {
        const std::string_view name = atlas::solvents[i].name;
        if (name == "water" || !chem::leaves(i)) continue;
        EXPECT_TRUE(std::any_of(atlas::spot_solvents.begin(), atlas::spot_solvents.end(), [&](const auto& r) { return r.substance == name; })) << name;
    }
}

// ---- waiting

TEST(SpotProperty, NoWaitIsEverShorterThanCustom) {
    const Strength water = *strength_of(control_water(), 0, SpotPurpose::Clean), acid = *strength_of(control_water(), 0, SpotPurpose::Neutralise), solvent = *strength_of(gel(), 0, SpotPurpose::Clean);
    const auto base = [&](std::string_view c) { return c == "nubuck" || c == "suede" ? 24.0 : c == "aniline" || c == "refined_aniline" || c == "semi_aniline" || c == "pull_up" || c == "bonded" ? 8.0 : 4.0; };
    for (const auto& row : atlas::leather_classes)
        for (const std::optional<double> through : {std::optional<double>(), std::optional(0.1), std::optional(30.0), std::optional(72.0)}) {
            EXPECT_EQ(wait_of(water, row.key, through).judge_h, std::max(base(row.key), through.value_or(0))) << row.key;
            EXPECT_GE(wait_of(acid, row.key, through).judge_h, 24) << row.key;
            const SpotWait s = wait_of(solvent, row.key, through);
            EXPECT_TRUE(s.again_h >= 24 || s.judge_h >= 24) << row.key;
            EXPECT_TRUE(s.again_h == 0 || s.again_h > s.judge_h);
            EXPECT_EQ(wait_of(water, row.key, through).reasons.front().weight, "decides");
        }
}

// ---- reading

TEST(SpotSignsProperty, AWetReadingIsNeverJudged) {
    for (double g : {1.0, 3.0, 5.0}) {
        SpotSigns s = good();
        s.transfer_grade = g;
        const SpotVerdict v = verdict_of(s, {false, true, "It was read wet, and a spot is judged dry only."});
        EXPECT_EQ(v.mark, SpotMark::NotJudged);
        for (const auto& sign : v.signs) EXPECT_EQ(sign.mark, SpotMark::NotJudged);
        EXPECT_NE(v.sentence.find("judged dry only"), std::string::npos);
        EXPECT_EQ(v.sentence.find("lay on no more") != std::string::npos, g <= 3);
    }
}

TEST(SpotSignsProperty, TheWorstSignDecidesAndEachLimitIsMet) {
    struct Case {
        const char* sign;
        SpotMark mark;
        std::function<void(SpotSigns&)> set;
    };
    const auto lab = [](double l) { return LabRead{l, 10, 20}; };
    const std::vector<Case> cases{
        {"transfer", SpotMark::Pass, [](SpotSigns& s) { s.transfer_grade = 4; }}, {"transfer", SpotMark::Caution, [](SpotSigns& s) { s.transfer_grade = 3.5; }}, {"transfer", SpotMark::Fail, [](SpotSigns& s) { s.transfer_grade = 3; }},
        {"ring", SpotMark::Caution, [](SpotSigns& s) { s.ring = SignLevel::Slight; }}, {"ring", SpotMark::Fail, [](SpotSigns& s) { s.ring = SignLevel::Plain; }},
        {"tack", SpotMark::Fail, [](SpotSigns& s) { s.tack = SignLevel::Plain; }}, {"bend", SpotMark::Caution, [](SpotSigns& s) { s.bend = SignLevel::Slight; }},
        {"film", SpotMark::Fail, [](SpotSigns& s) { s.film = SignLevel::Slight; }},  // there is nothing between whole and not
        {"rub_dry", SpotMark::Caution, [](SpotSigns& s) { s.rub_dry_grade = 3.5; }}, {"rub_wet", SpotMark::Caution, [](SpotSigns& s) { s.rub_wet_grade = 3; }}, {"rub_wet", SpotMark::Fail, [](SpotSigns& s) { s.rub_wet_grade = 2.5; }},
        {"gloss", SpotMark::Pass, [](SpotSigns& s) { s.gloss_before_gu = 4, s.gloss_gu = 4.9; }},  // within a unit
        {"gloss", SpotMark::Caution, [](SpotSigns& s) { s.gloss_before_gu = 40, s.gloss_gu = 46; }}, {"gloss", SpotMark::Fail, [](SpotSigns& s) { s.gloss_before_gu = 40, s.gloss_gu = 49; }},
        {"ph_shift", SpotMark::Pass, [](SpotSigns& s) { s.surface_ph = 4.9, s.control_ph = 4.5; }}, {"ph_shift", SpotMark::Caution, [](SpotSigns& s) { s.surface_ph = 5.3, s.control_ph = 4.5; }},
        {"ph_shift", SpotMark::Fail, [](SpotSigns& s) { s.surface_ph = 6.2, s.control_ph = 5.9; }},  // near its control, and outside
        {"ph_shift", SpotMark::Pass, [](SpotSigns& s) { s.surface_ph = 3.2, s.control_ph = 3.1; }},  // it lay outside before
        {"lightness", SpotMark::Caution, [&](SpotSigns& s) { s.colour_before = lab(50), s.colour = lab(48.5); }}, {"lightness", SpotMark::Fail, [&](SpotSigns& s) { s.colour_before = lab(50), s.colour = lab(47); }},
        {"change_measured", SpotMark::Pass, [&](SpotSigns& s) { s.colour_before = lab(50), s.colour = lab(50.5); }},
    };
    for (const auto& c : cases) {
        SpotSigns s = good();
        c.set(s);
        const SpotVerdict v = verdict_of(s, {});
        const auto sign = std::find_if(v.signs.begin(), v.signs.end(), [&](const SpotSign& x) { return x.key == c.sign; });
        ASSERT_NE(sign, v.signs.end()) << c.sign;
        EXPECT_EQ(sign->mark, c.mark) << c.sign << ": " << sign->read;
        EXPECT_GE(static_cast<int>(v.mark), static_cast<int>(c.mark)) << c.sign;
        EXPECT_FALSE(sign->basis.locator.empty());
    }
}

TEST(SpotSignsProperty, WhatAPassNeedsIsNamedAndAFailureNeedsNoMore) {
    SpotSigns s = good();
    s.bend = SignLevel::NotRead;
    SpotVerdict v = verdict_of(s, {});
    EXPECT_EQ(v.mark, SpotMark::NotJudged);
    EXPECT_EQ(v.missing, std::vector<std::string>{"Bend"});
    s.ring = SignLevel::Plain;
    v = verdict_of(s, {});
    EXPECT_EQ(v.mark, SpotMark::Fail);
    EXPECT_EQ(v.signs.front().key, "ring");
}

TEST(SpotSignsProperty, GradesFromAPhotographSaySo) {
    SpotSigns s = good();
    s.grades_by = GradesBy::Photo;
    int graded = 0;
    for (const auto& sign : verdict_of(s, {}).signs) {
        if (sign.read.rfind("grade", 0) != 0) continue;
        ++graded;
        EXPECT_NE(sign.read.find("estimated from photo"), std::string::npos) << sign.read;
    }
    EXPECT_EQ(graded, 3);
}

TEST(SpotSignsRefusal, GradesBetweenStepsAndHalvesOfAMeasurement) {
    SpotSigns s = good();
    s.transfer_grade = 3.7;
    EXPECT_EQ(good_signs(s).error().where, "transfer_grade");
    s = good();
    s.gloss_gu = 40;
    EXPECT_EQ(good_signs(s).error().where, "gloss_before_gu");
    s = good();
    s.control_ph = 4.5;
    EXPECT_EQ(good_signs(s).error().where, "surface_ph");
    EXPECT_EQ(good_signs(SpotSigns{}).error().where, "signs");
}

// ---- on a piece

TEST(SpotRefusal, NoSpotBeforeTheOwnerAgreed) {
    Workshop w;
    const auto refused = w.add(w.spot_of(mild()));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::Conflict);
    EXPECT_NE(refused.error().message.find("hidden places"), std::string::npos) << refused.error().message;
    // By the other door as well.
    EXPECT_EQ(inspect({w.piece, {w.spot_of(mild())}}, w.ports).error().code, ErrorCode::Conflict);
    w.agree(false);
    EXPECT_TRUE(w.add(w.spot_of(mild())).ok());
    EXPECT_EQ(w.add(w.spot_of(mild(), SpotWhere::Edge)).error().code, ErrorCode::Conflict);
}

TEST(SpotRefusal, NeverWhereAnAirbagSitsAndNotBeforeOneWasLookedFor) {
    Workshop w;
    w.agree();
    Entry mark = w.entry(Did::Mark);
    mark.mark = Mark{{"SC1-top"}, "airbag_seam", true, "label"};
    ASSERT_TRUE(inspect({w.piece, {mark}}, w.ports).ok());
    const auto refused = w.add(w.spot_of(mild()));
    ASSERT_FALSE(refused.ok());
    EXPECT_NE(refused.error().message.find("airbag"), std::string::npos);
    const auto a = desk::spot(ask(w, {mild()}), w.ports).value();
    EXPECT_EQ(a.classes[0].panels, std::vector<std::string>{"SC2-top"});
    EXPECT_EQ(a.classes[0].stops.size(), 1u);
}

TEST(SpotRefusal, TheEdgeOfTheDamageOnlyAfterAHiddenSpotPassed) {
    Workshop w;
    w.agree();
    const auto first = w.add(w.spot_of(mild(), SpotWhere::Edge));
    ASSERT_FALSE(first.ok());
    EXPECT_EQ(first.error().where, "entries[0].spot_made.where");
    w.whole(mild(), good());
    EXPECT_TRUE(w.add(w.spot_of(mild(), SpotWhere::Edge)).ok());
}

TEST(SpotConsistency, ItIsKeptWetJudgedDryAndThenAllowedStepByStep) {
    Workshop w;
    w.agree();
    const Entry made = w.spot_of(mild());
    ASSERT_TRUE(w.add(made).ok());
    EXPECT_EQ(w.now(made.id).state, SpotState::Drying);
    EXPECT_GE(w.now(made.id).wait.judge_h, 4);
    w.clock.now += hour_s / 2;
    ASSERT_TRUE(w.add(w.read_of(made.id, SpotStage::Wet, good())).ok());
    EXPECT_EQ(w.now(made.id).mark, SpotMark::NotJudged);
    // Called dry and not yet: kept as well, and not judged.
    ASSERT_TRUE(w.add(w.read_of(made.id, SpotStage::Dry, good())).ok());
    EXPECT_EQ(w.now(made.id).mark, SpotMark::NotJudged);
    EXPECT_NE(w.now(made.id).reads.back().verdict.sentence.find("too soon"), std::string::npos);
    ASSERT_EQ(spots_due(w.ports)->size(), 1u);
    EXPECT_FALSE(spots_due(w.ports)->front().due);
    w.clock.now += 72 * hour_s;
    EXPECT_TRUE(spots_due(w.ports)->front().due);
    EXPECT_EQ(w.now(made.id).state, SpotState::ReadNow);
    const auto a = w.add(w.read_of(made.id, SpotStage::Dry, good())).value();
    EXPECT_EQ(w.now(made.id).state, SpotState::Finished);
    EXPECT_EQ(w.now(made.id).mark, SpotMark::Pass);
    EXPECT_TRUE(spots_due(w.ports)->empty());
    const SpotProduct& hidden = product(a, "mild wash");
    EXPECT_EQ(hidden.outcome, SpotOutcome::NotYet);
    EXPECT_EQ(hidden.next_where, SpotWhere::Edge);
    EXPECT_TRUE(hidden.may_make);
    EXPECT_NE(hidden.bound.sentence.find("proves almost nothing: up to 95 %"), std::string::npos) << hidden.bound.sentence;
    w.whole(mild(), good(), SpotWhere::Edge);
    const auto both = desk::spot({w.piece, "", {}, std::nullopt, {}, {}}, w.ports).value();
    EXPECT_EQ(product(both, "mild wash").outcome, SpotOutcome::Allowed);
    // More is claimed than two spots can show.
    SpotRequest claim{w.piece, "", {}, 39.4, {}, {}};
    EXPECT_EQ(product(desk::spot(claim, w.ports).value(), "mild wash").wanted, 6);
    EXPECT_EQ(product(desk::spot(claim, w.ports).value(), "mild wash").outcome, SpotOutcome::NotYet);
}

TEST(SpotConsistency, ASolventIsReadAgainAfterADayAndItsTackCountsOnlyThen) {
    Workshop w;
    w.agree();
    const Entry made = w.spot_of(gel());
    ASSERT_TRUE(w.add(made).ok());
    const SpotNow before = w.now(made.id);
    ASSERT_FALSE(before.again_at.empty());
    w.clock.now = *parse_moment(before.dry_at);
    SpotSigns drags = good();
    drags.tack = SignLevel::Slight;
    ASSERT_TRUE(w.add(w.read_of(made.id, SpotStage::Dry, drags)).ok());
    EXPECT_EQ(w.now(made.id).state, SpotState::WaitsAgain);
    EXPECT_EQ(w.now(made.id).mark, SpotMark::Pass);
    w.clock.now = *parse_moment(before.again_at);
    EXPECT_EQ(w.now(made.id).state, SpotState::ReadAgainNow);
    ASSERT_TRUE(w.add(w.read_of(made.id, SpotStage::Dry, drags)).ok());
    EXPECT_EQ(w.now(made.id).state, SpotState::Finished);
    EXPECT_EQ(w.now(made.id).mark, SpotMark::Caution);
}

TEST(SpotProperty, TakingBackWorksAndSendingTwiceIsOnce) {
    Workshop w;
    w.agree();
    const Entry made = w.spot_of(mild());
    ASSERT_TRUE(w.add(made).ok());
    const auto twice = w.add(made);
    ASSERT_TRUE(twice.ok()) << twice.error().message;
    EXPECT_EQ(twice->spots.size(), 1u);
    Entry back = w.entry(Did::TakeBack);
    back.takes_back = made.id;
    const auto gone = w.add(back);
    ASSERT_TRUE(gone.ok());
    EXPECT_TRUE(gone->spots.empty());
    EXPECT_EQ(w.add(w.read_of(made.id, SpotStage::Dry, good())).error().where, "entries[0].spot_read.spot");
}

TEST(SpotConsistency, AFailureOutranksWhatIsComputedAndAPassChangesNoGrade) {
    Workshop w;
    w.agree();
    JudgeRequest ask_it;
    ask_it.liquid.id = mild().id;
    ask_it.members = 32;
    const auto of = [&](const std::string& piece) {
        JudgeRequest r = ask_it;
        const auto there = inspect({w.piece, {}}, w.ports).value();
        for (const auto& p : there.panels)
            if (p.code == "SC2-top") r.leather = p.leather;
        r.piece = piece;
        r.panel = piece.empty() ? "" : "SC2-top";  // another panel of the same class
        return judge(r, w.ports).value();
    };
    const JudgeAnswer computed = of("");
    w.whole(mild(), good());
    const JudgeAnswer passed = of(w.piece);
    EXPECT_EQ(passed.grade, computed.grade);
    EXPECT_EQ(passed.sentence, computed.sentence);
    EXPECT_NE(passed.spots.find("almost nothing"), std::string::npos);
    SpotSigns ring = good();
    ring.ring = SignLevel::Plain;
    w.whole(mild(), ring);
    const JudgeAnswer failed = of(w.piece);
    EXPECT_EQ(failed.grade, Grade::Lasting);
    EXPECT_EQ(failed.sentence.rfind("A test spot of it failed", 0), 0u) << failed.sentence;
    EXPECT_EQ(failed.reasons.front().kind, "spot_failed");
    EXPECT_EQ(std::count_if(failed.reasons.begin(), failed.reasons.end(), [](const Reason& r) { return r.weight == "decides"; }), 1);
    const auto plan = desk::spot({w.piece, "", {}, std::nullopt, {}, {}}, w.ports).value();
    EXPECT_EQ(product(plan, "mild wash").outcome, SpotOutcome::Not);
}

TEST(SpotConsistency, TheWaterThatASpotBoreIsTheMostThatDidNotFail) {
    Workshop w;
    w.agree();
    const auto water = [&](double g_m2, const SpotSigns& signs) {
        Entry e = w.spot_of(mild());
        e.spot_made->kind = SpotKind::Water;
        e.spot_made->liquid = {};
        e.spot_made->g_m2 = g_m2;
        ASSERT_TRUE(w.add(e).ok());
        w.clock.now += 100 * hour_s;
        ASSERT_TRUE(w.add(w.read_of(e.id, SpotStage::Dry, signs)).ok());
    };
    const auto borne = [&] { return water_borne_g_m2(*inspect({w.piece, {}}, w.ports), "SC2-top"); };
    EXPECT_EQ(borne(), 0);
    water(20, good());
    water(35, good());
    EXPECT_EQ(borne(), 35);
    SpotSigns ring = good();
    ring.ring = SignLevel::Plain;
    water(30, ring);
    EXPECT_EQ(borne(), 0);  // less failed than bore: nothing is known
}

TEST(SpotConsistency, SpotsAreEvidenceForRefineAndNotWeighed) {
    Workshop w;
    w.agree();
    w.whole(mild(), good());
    RefineRequest r;
    r.happened.liquid.id = strong().id;
    r.piece = w.piece;
    r.panel = "SC1-top";
    r.now_h = 24;
    r.members = 32;
    r.happened.members = 32;
    const auto a = refine(r, w.ports);
    ASSERT_TRUE(a.ok()) << a.error().message;
    bool said = false;
    for (const auto& n : a->reasons) said = said || n.kind == "spots_not_weighed";
    EXPECT_TRUE(said);
}

// ---- rates

TEST(RatesOfConsistency, CountsComeFirstAndAProductLeansOnItsKind) {
    std::vector<Tried> tried;
    const auto add = [&](const char* product, SpotMark mark, int times) {
        for (int i = 0; i < times; ++i) tried.push_back({product, product, "cleaner", "aniline", mark});
    };
    add("a", SpotMark::Pass, 26);
    add("a", SpotMark::Fail, 4);
    add("b", SpotMark::Pass, 1);
    add("b", SpotMark::NotJudged, 9);  // does not count
    const auto rows = rates_of(tried);
    ASSERT_EQ(rows.size(), 3u);
    EXPECT_EQ(rows[0].product, "");
    EXPECT_EQ(rows[0].n, 31);
    EXPECT_EQ(rows[1].passed, 26);
    EXPECT_EQ(rows[1].failed, 4);
    EXPECT_EQ(rows[2].n, 1);
    for (const auto& r : rows) {
        EXPECT_EQ(r.sentence.rfind(std::to_string(r.passed) + " of " + std::to_string(r.n), 0), 0u) << r.sentence;
        EXPECT_LT(r.low_pct, r.high_pct);
    }
    EXPECT_GT(rows[2].high_pct - rows[2].low_pct, rows[1].high_pct - rows[1].low_pct);
    EXPECT_EQ(rows[2].basis.standing, Standing::Estimate);  // the weight of its kind is a starting value
}

TEST(RatesOfConsistency, TheDemoDoesNotCountAndEveryPieceDoes) {
    Workshop w;
    w.agree();
    w.whole(mild(), good());
    const auto rows = spot_rates(w.ports).value();
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[1].product, "mild wash");
    EXPECT_EQ(rows[1].n, 1);
}

TEST(RatesOfConsistency, WhatSoFewSpotsCanShowIsSaidInWordsAndNumber) {
    EXPECT_NE(bound_of(0, 0).sentence.find("nothing is shown"), std::string::npos);
    EXPECT_NE(bound_of(1, 0).sentence.find("One good spot proves almost nothing: up to 95 %"), std::string::npos) << bound_of(1, 0).sentence;
    EXPECT_NE(bound_of(6, 0).sentence.find("up to 40 %"), std::string::npos) << bound_of(6, 0).sentence;  // 39.3, rounded away from comfort
    EXPECT_NE(bound_of(6, 2).sentence.find("2 of 6"), std::string::npos);
    EXPECT_EQ(bound_of(3, 3).may_fail_pct, 100);
    EXPECT_EQ(spots_for(26), 10);
}

}  // namespace
