// The chart of the shelf: what is worked out, what goes stale, what is kept.
#include "desk/touch.hpp"

#include <gtest/gtest.h>

#include <set>

#include "atlas/leather_classes.hpp"
#include "atlas/usual_tannages.hpp"
#include "desk/demo.hpp"
#include "desk/titrate.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_store.hpp"

namespace hw::desk {
namespace {

class MemoryChart : public Chart {
public:
    Result<std::vector<TouchCell>> cells() override {
        std::vector<TouchCell> out;
        for (const auto& [key, cell] : cells_) out.push_back(cell);
        return out;
    }
    Result<Done> keep_cell(const TouchCell& cell) override {
        cells_[{cell.liquid, cell.column}] = cell;
        ++kept;
        return Done{};
    }
    Result<std::optional<Use>> use() override { return use_; }
    Result<Done> keep_use(const Use& use) override {
        use_ = use;
        return Done{};
    }
    int kept = 0;

private:
    std::map<std::pair<std::string, std::string>, TouchCell> cells_;
    std::optional<Use> use_;
};

class Touch : public ::testing::Test {
protected:
    Touch() {
        ports_.chart = &chart_;
        ports_.journal = &journal_;
        for (const auto& l : demo_liquids()) {
            const bool wanted = l.id == "demo_mild" || l.id == "demo_water" || l.id == "demo_unlabelled";
            if (wanted && !store_.keep_liquid(l).ok()) throw Bug("the demo's liquids can be kept");
        }
        request_.classes = {"aniline", "nubuck"};
        request_.members = 128;
        request_.keep = true;
    }
    TouchAnswer worked() { return touch(request_, ports_).value(); }
    static const TouchCell& cell(const TouchAnswer& a, const std::string& liquid, const std::string& column) {
        for (const auto& c : a.cells)
            if (c.liquid == liquid && c.column == column) return c;
        throw Bug("no such cell");
    }

    test::MemoryStore store_;
    test::FixedClock clock_;
    test::MemoryJournal journal_;
    MemoryChart chart_;
    Ports ports_{store_, clock_};
    TouchRequest request_;
};

using TouchProperty = Touch;
using TouchRefusal = Touch;

TEST_F(TouchProperty, EveryCellIsTheJudgementWithTheseInputs) {
    const auto a = worked();
    ASSERT_EQ(a.cells.size(), 6u);
    EXPECT_EQ(a.computed, 6);
    for (const auto& column : a.columns)
        for (const auto& row : a.rows) {
            const auto& c = cell(a, row.id, column.key);
            if (row.id == "demo_unlabelled") {
                EXPECT_EQ(c.grade, Grade::Stop) << "on the wall a bottle without a label is used on nothing";
                EXPECT_EQ(c.words, "stop: no label");
                continue;
            }
            const auto judged = judge(touch_request(store_.liquid(row.id).value(), column.leather, a.use, c.members), ports_).value();
            EXPECT_EQ(c.grade, judged.grade) << row.name << " on " << column.name;
            EXPECT_EQ(c.advice, judged.advice);
            EXPECT_EQ(c.how_sure, judged.how_sure);
            EXPECT_EQ(c.answer_1, judged.sure.answer_1);
            EXPECT_FALSE(c.reason.empty());
            EXPECT_EQ(c.fingerprint, touch_fingerprint(store_.liquid(row.id).value(), column.leather, a.use));
        }
}

TEST_F(TouchProperty, NothingIsWorkedOutTwiceAndAChangeMakesExactlyItsOwnCellsStale) {
    static_cast<void>(worked());
    const int first = chart_.kept;
    static_cast<void>(worked());
    EXPECT_EQ(chart_.kept, first) << "nothing changed";

    Liquid mild = store_.liquid("demo_mild").value();
    mild.read_ph = 6.1;
    ASSERT_TRUE(store_.keep_liquid(mild).ok());
    const auto stale = touch_chart(request_, ports_).value();
    EXPECT_EQ(stale.stale, 2);
    EXPECT_EQ(stale.computed, 4);
    for (const auto& c : stale.cells) EXPECT_EQ(c.state == CellState::Stale, c.liquid == "demo_mild");
    EXPECT_EQ(chart_.kept, first) << "looking computes nothing";
    EXPECT_EQ(worked().computed, 6);
    EXPECT_EQ(chart_.kept, first + 4) << "two cells, a first look and in full";

    mild.note = "smells of pine";
    ASSERT_TRUE(store_.keep_liquid(mild).ok());
    EXPECT_EQ(touch_chart(request_, ports_).value().stale, 0) << "a note changes no answer";

    request_.use = Use{};
    request_.use->dwell_s = 600;
    EXPECT_EQ(touch_chart(request_, ports_).value().stale, 6) << "the use is that of the whole chart";
}

TEST_F(TouchProperty, BrokenOffItKeepsWhatItHasAndGoesOnWithTheRest) {
    int calls = 0;
    double before = 0;
    const auto broken = touch(request_, ports_, [&](double done_1, const char* doing) {
        EXPECT_GE(done_1, before);
        EXPECT_LE(done_1, 1.0);
        EXPECT_NE(std::string(doing).find(" on "), std::string::npos);
        before = done_1;
        return ++calls < 3;
    });
    ASSERT_FALSE(broken.ok());
    EXPECT_EQ(broken.error().code, ErrorCode::NotConverged);
    const auto there = touch_chart(request_, ports_).value();
    EXPECT_GE(there.preliminary + there.computed, 3);
    EXPECT_GT(there.not_computed, 0);
    double last = 0;
    const auto whole = touch(request_, ports_, [&](double done_1, const char*) {
        last = done_1;
        return true;
    });
    EXPECT_EQ(whole.value().computed, 6);
    EXPECT_NEAR(last, 1, 1e-9) << "progress ends where the work does";
}

TEST_F(Touch, AFirstLookSaysSoAlsoWhereNobodyAskedForMore) {
    request_.members = first_members;
    const auto a = worked();
    EXPECT_EQ(a.preliminary, 4);
    EXPECT_EQ(a.computed, 2) << "a stop depends on no figure";
    const int kept = chart_.kept;
    static_cast<void>(worked());
    EXPECT_EQ(chart_.kept, kept);
}

TEST_F(Touch, AUseThatWasKeptIsThatOfTheChartFromThenOn) {
    request_.liquids = {"demo_water"};
    request_.use = Use{};
    request_.use->rinse.passes = 2;
    static_cast<void>(worked());
    request_.use.reset();
    const auto a = touch_chart(request_, ports_).value();
    EXPECT_EQ(a.use.rinse.passes, 2);
    EXPECT_FALSE(a.use_is_usual);
    EXPECT_EQ(a.computed, 2);
}

TEST_F(Touch, EveryClassHasOneUsualTannage) {
    std::set<std::string> keys;
    for (const auto& row : atlas::usual_tannages) EXPECT_TRUE(keys.insert(std::string(row.leather_class)).second);
    EXPECT_EQ(keys.size(), atlas::leather_classes.size());
    request_.classes.clear();
    EXPECT_EQ(touch_chart(request_, ports_).value().columns.size(), atlas::leather_classes.size());
}

TEST_F(TouchRefusal, NamesTheField) {
    request_.liquids = {"nowhere"};
    EXPECT_EQ(touch(request_, ports_).error().where, "liquids[0]");
    request_.liquids.clear();
    request_.classes = {"stone"};
    EXPECT_EQ(touch(request_, ports_).error().where, "classes[0]");
    request_.classes.clear();
    request_.pieces = {"nowhere"};
    EXPECT_EQ(touch(request_, ports_).error().where, "pieces[0]");
    request_.members = 5;
    EXPECT_EQ(touch(request_, ports_).error().where, "members");
}

class Titrate : public ::testing::Test {
protected:
    static Liquid demo(const std::string& id) {
        for (const auto& l : demo_liquids())
            if (l.id == id) return l;
        throw Bug("no such liquid");
    }
    TitrateAnswer done(const std::string& id, std::optional<double> drops, bool base = false) {
        TitrateRequest r;
        r.liquid = demo(id);
        r.count_1 = drops;
        r.base = base;
        return titrate(r, ports_).value();
    }
    test::MemoryStore store_;
    test::FixedClock clock_;
    Ports ports_{store_, clock_};
};

TEST_F(Titrate, RefusesBleachTheUnlabelledAndSulfiteBothWays) {
    Liquid sulfite;
    sulfite.name = "Antichlor";
    sulfite.ingredients = {{"sodium sulfite", "", 2.0, std::nullopt, std::nullopt}};
    Liquid sulfide = sulfite;
    sulfide.ingredients[0].name = "sodium sulfide";
    for (const bool base : {false, true})
        for (const auto& liquid : {demo("demo_bleach"), demo("demo_unlabelled"), sulfite, sulfide}) {
            TitrateRequest r;
            r.liquid = liquid;
            r.base = base;
            r.count_1 = 10;
            const auto a = titrate(r, ports_).value();
            EXPECT_FALSE(a.refused.empty()) << liquid.name;
            EXPECT_FALSE(a.counted);
            EXPECT_TRUE(a.steps.empty()) << "nothing tells how";
        }
    EXPECT_FALSE(done("demo_ammonia", 10, true).refused.empty()) << "alkali drives ammonia out";
}

TEST_F(Titrate, InstructionsPutEyesAndAirFirst) {
    const auto a = done("demo_degreaser", std::nullopt);
    EXPECT_FALSE(a.counted);
    ASSERT_FALSE(a.steps.empty());
    for (const char* word : {"Eye protection", "Window open", "Millilitres only"}) EXPECT_NE(a.steps.front().find(word), std::string::npos) << word;
}

using TitrateConsistency = Titrate;

TEST_F(TitrateConsistency, DropsCountedToTheSheetsOwnReserveGiveItBackAndTheUnitsAgree) {
    const double by_sheet = done("demo_degreaser", 12).by_composition->value;
    // The count at which the acid that was brought is what the sheet would take: by halving, from outside.
    double low = 0, high = 200;
    for (int i = 0; i < 40; ++i) (done("demo_degreaser", (low + high) / 2).reserve.value < by_sheet ? low : high) = (low + high) / 2;
    const auto a = done("demo_degreaser", low);
    EXPECT_NEAR(a.reserve.value, by_sheet, 1e-3 * by_sheet);
    EXPECT_NE(a.against_sheet.find("agrees"), std::string::npos);
    EXPECT_NEAR(a.reserve_alkalinity->value, 100 * a.reserve.value, 1e-9) << "10 mL, 0.1 mol/L";
    EXPECT_NEAR(a.as_naoh.value, 3.9997 * a.reserve.value, 1e-9) << "39.997 g/mol, per 100 g";
    // Acetic acid of 5 % is 0.8326 mol/kg; at pH 5.5 a share 1/(1 + 10^(4.756 - 5.5)) = 0.847 of it is acetate, more where ions are: 0.85 to 0.92.
    const double brought = a.reserve.value / (low * 0.05);
    EXPECT_GT(brought, 0.847 * 0.8326);
    EXPECT_LT(brought, 0.92 * 0.8326);
}

TEST_F(Titrate, AcidReserveIsOurOwnAndAnotherEndIsNoStandard) {
    const auto acid = done("demo_vinegar", 100, true);
    EXPECT_TRUE(acid.counted);
    EXPECT_FALSE(acid.reserve_alkalinity);
    EXPECT_EQ(acid.reasons.front().kind, "own_definition");
    TitrateRequest r;
    r.liquid = demo("demo_degreaser");
    r.count_1 = 10;
    r.drops.end_ph = 7;
    EXPECT_FALSE(titrate(r, ports_).value().reserve_alkalinity);
    r.drops.acid = "hydrochloric acid";
    EXPECT_EQ(titrate(r, ports_).error().where, "drops.acid");
    r = {};
    r.liquid = demo("demo_vinegar");
    r.base = true;
    r.count_1 = 10;
    r.drops.acid = "sodium hydroxide";
    r.drops.acid_pct = 5;
    EXPECT_EQ(titrate(r, ports_).error().where, "drops.acid") << "no lye";
    r.count_1 = -1;
    EXPECT_EQ(titrate(r, ports_).error().where, "count_1");
}

}  // namespace
}  // namespace hw::desk
