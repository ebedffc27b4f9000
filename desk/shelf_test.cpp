// The shelf: bottles, last days, ordering, sheets and tables, over records in memory.
#include <gtest/gtest.h>

#include <algorithm>

#include "base/csv.hpp"
#include "desk/digest.hpp"
#include "desk/moment.hpp"
#include "desk/shelf.hpp"
#include "desk/shelf_fold.hpp"
#include "desk/shelf_tables.hpp"
#include "tests/support/memory_journal.hpp"
#include "tests/support/memory_sheets.hpp"
#include "tests/support/memory_shelf.hpp"
#include "tests/support/memory_store.hpp"
#include "tests/support/pdfs.hpp"

namespace hw::desk {
namespace {

/// 2026-12-01, noon.
class SetClock : public Clock {
public:
    std::string now_utc() override { return moment(now_s()); }
    std::int64_t now_s() override { return *parse_moment("2026-12-01T12:00:00Z"); }
};

struct Shop {
    test::MemoryStore store;
    SetClock clock;
    test::MemoryShelf shelf{store};
    test::MemorySheets sheets;
    test::MemoryJournal journal;
    test::PlainSheetReader reader;
    Ports ports{store, clock};
    int made = 0;
    Shop() {
        ports.shelf = &shelf;
        ports.sheets = &sheets;
        ports.journal = &journal;
        ports.sheet_reader = &reader;
        ports.who.name = "Ada";
    }
    std::string id() {
        char text[40];
        std::snprintf(text, sizeof text, "11111111-0000-7000-8000-%012x", ++made);
        return text;
    }
    ShelfEntry entry(ShelfDid did, const std::string& at = "") {
        ShelfEntry e;
        e.id = id();
        e.did = did;
        e.product = "foam";
        e.at = at;
        return e;
    }
    Result<ProductAnswer> enter(ShelfEntry e) { return shelf_enter({{std::move(e)}}, ports); }
    ProductAnswer say(const std::string& key, const std::string& value, CorrectedBy how = CorrectedBy::Typed, const std::string& at = "2026-11-01") {
        ShelfEntry e = entry(ShelfDid::Fact, at);
        e.key = key;
        e.value = value;
        e.how = how;
        return enter(e).value();
    }
    std::string receive(const std::string& code, double amount, const std::string& at = "2026-06-01", const std::string& expiry = "") {
        ShelfEntry e = entry(ShelfDid::Received, at);
        e.code = code;
        e.amount = amount;
        e.expiry = expiry;
        const auto kept = enter(e);
        EXPECT_TRUE(kept.ok()) << kept.error().message;
        return e.id;
    }
    ProductAnswer happen(ShelfDid did, const std::string& lot, std::optional<double> amount, const std::string& at) {
        ShelfEntry e = entry(did, at);
        e.lot = lot;
        e.amount = amount;
        return enter(e).value();
    }
    ProductAnswer now() { return shelf_product("foam", ports).value(); }
};

class Shelf : public ::testing::Test {
protected:
    Shelf() { shop.say("name", "Foam cleaner"); }
    const LotNow& lot(const ProductAnswer& a, const std::string& code) {
        for (const auto& l : a.lots)
            if (l.code == code) return l;
        throw Bug("no lot " + code);
    }
    bool sees(const ProductAnswer& a, ToSeeKind kind) {
        return std::any_of(a.to_see.begin(), a.to_see.end(), [&](const ToSee& t) { return t.kind == kind; });
    }
    Shop shop;
};
class ShelfConsistency : public Shelf {};
class ShelfProperty : public Shelf {};
class ShelfRefusal : public Shelf {};

TEST_F(ShelfConsistency, AProductBeginsWithItsNameAndIsALiquid) {
    EXPECT_EQ(shop.store.liquid("foam")->name, "Foam cleaner");
    EXPECT_EQ(shelf("", 50, shop.ports)->products.at(0).name, "Foam cleaner");
}

TEST_F(ShelfConsistency, FirstExpiredIsTakenFirstAndNeverWhatIsPast) {
    shop.receive("late", 500, "2026-06-01", "2027-06");
    shop.receive("soon", 500, "2026-06-01", "2026-12-15");
    shop.receive("past", 500, "2026-06-01", "2026-11-30");
    const auto a = shop.now();
    EXPECT_NE(a.take_next.find("soon"), std::string::npos);
    EXPECT_EQ(a.take_next_lot, lot(a, "soon").id);
    EXPECT_TRUE(lot(a, "past").past);
    EXPECT_TRUE(lot(a, "soon").soon);
    EXPECT_FALSE(lot(a, "late").soon);
    EXPECT_EQ(a.in_hand, 1000);
    EXPECT_EQ(lot(a, "late").last_day, "2027-06-30");
    EXPECT_EQ(a.to_see.at(0).kind, ToSeeKind::PastUse);
    EXPECT_TRUE(sees(a, ToSeeKind::EndsSoon));
}

TEST_F(ShelfConsistency, OnlyPastLotsMeanThatNoneIsNamed) {
    const auto id = shop.receive("past", 500, "2026-06-01", "2026-11");
    const auto a = shop.now();
    EXPECT_TRUE(a.take_next.empty());
    EXPECT_TRUE(a.take_next_lot.empty());
    ShelfEntry use = shop.entry(ShelfDid::Used);
    use.amount = 10;
    const auto refused = shop.enter(use);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().where, "entries[0].lot");
    // Named by hand it is written down: what was done was done.
    use.lot = id;
    EXPECT_EQ(lot(*shop.enter(use), "past").left, 490);
}

TEST_F(ShelfConsistency, TheLastDayMayStillBeUsedAndThePageSaysWhatDecides) {
    const auto id = shop.receive("a", 500, "2026-06-01", "2026-12-01");
    EXPECT_FALSE(lot(shop.now(), "a").past);
    EXPECT_EQ(lot(shop.now(), "a").by, LastDayBy::Printed);
    shop.say("opened_days", "30");
    const auto opened = shop.happen(ShelfDid::Opened, id, std::nullopt, "2026-10-01");
    EXPECT_EQ(lot(opened, "a").by, LastDayBy::Opened);
    EXPECT_EQ(lot(opened, "a").last_day, "2026-10-31");
    EXPECT_TRUE(lot(opened, "a").past);
    EXPECT_NE(lot(opened, "a").sentence.find("opened 2026-10-01"), std::string::npos);
}

TEST_F(ShelfConsistency, CountingOverridesAndTakingBackUndoes) {
    const auto id = shop.receive("a", 500);
    shop.happen(ShelfDid::Used, id, 600, "2026-07-01");
    EXPECT_EQ(lot(shop.now(), "a").left, 0);
    EXPECT_FALSE(lot(shop.now(), "a").note.empty());
    ShelfEntry count = shop.entry(ShelfDid::Counted, "2026-07-02");
    count.lot = id;
    count.amount = 120;
    const auto counted = shop.enter(count).value();
    EXPECT_EQ(lot(counted, "a").left, 120);
    EXPECT_TRUE(lot(counted, "a").note.empty());
    ShelfEntry back = shop.entry(ShelfDid::TakeBack);
    back.takes_back = count.id;
    const auto undone = shop.enter(back).value();
    EXPECT_EQ(lot(undone, "a").left, 0);
    EXPECT_EQ(shop.happen(ShelfDid::ThrownAway, id, std::nullopt, "2026-08-01").lots.at(0).left, 0);
}

TEST_F(ShelfConsistency, BelowTheMinimumThenAtTheReorderPoint) {
    const auto id = shop.receive("a", 1000);
    shop.say("minimum", "100");
    shop.say("use_week", "200");
    shop.say("use_week_sd", "50");
    auto a = shop.say("lead_days", "14");
    EXPECT_TRUE(a.reorder.known);
    EXPECT_EQ(a.reorder.weeks, 0);
    // 200 * 2 + 1.6449 * 50 * sqrt(2)
    EXPECT_NEAR(a.reorder.at, 400 + 1.6449 * 50 * 1.41421356237, 1e-6);
    EXPECT_FALSE(sees(a, ToSeeKind::Reorder));
    a = shop.happen(ShelfDid::Used, id, 500, "2026-11-30");
    EXPECT_TRUE(sees(a, ToSeeKind::Reorder));
    a = shop.happen(ShelfDid::Used, id, 401, "2026-11-30T10:00:00Z");
    EXPECT_TRUE(sees(a, ToSeeKind::BelowMinimum));
    EXPECT_FALSE(sees(a, ToSeeKind::Reorder)) << "one line for one order";
}

TEST_F(ShelfConsistency, OwnUsesCountOnceThereAreEnoughWeeks) {
    const auto id = shop.receive("a", 10000, "2026-01-01");
    shop.say("use_week", "999");
    shop.say("lead_days", "7");
    // One use in each of seven weeks back from yesterday.
    for (int week = 0; week < 7; ++week) shop.happen(ShelfDid::Used, id, 100, day_text(*day_of("2026-11-30") - 7 * week));
    EXPECT_EQ(shop.now().reorder.weeks, 0);
    shop.happen(ShelfDid::Used, id, 100, day_text(*day_of("2026-11-24") - 7 * 7));
    const auto a = shop.now();
    EXPECT_EQ(a.reorder.weeks, 8);
    EXPECT_NEAR(a.reorder.mean_week, 100, 1e-9);
    EXPECT_NEAR(a.reorder.sd_week, 0, 1e-9);
}

TEST_F(ShelfConsistency, MeasuredOutranksTypedWhateverCameLast) {
    shop.say("voc_g_l", "100", CorrectedBy::Measured);
    const auto a = shop.say("voc_g_l", "250");
    const auto voc = *std::find_if(a.facts.begin(), a.facts.end(), [](const ShelfFact& f) { return f.key == "voc_g_l"; });
    EXPECT_EQ(voc.value, "100");
    EXPECT_EQ(voc.from, FactFrom::Measured);
    EXPECT_NE(voc.otherwise.find("250"), std::string::npos);
}

TEST_F(ShelfConsistency, APotLifeEnds) {
    shop.say("pot_life_min", "240");
    ShelfEntry e = shop.entry(ShelfDid::Mixed, "2026-12-01T07:59:00Z");
    auto a = shop.enter(e).value();
    EXPECT_TRUE(a.mixed.at(0).past);
    e = shop.entry(ShelfDid::Mixed, "2026-12-01T08:01:00Z");
    a = shop.enter(e).value();
    EXPECT_FALSE(a.mixed.at(0).past);
    EXPECT_EQ(a.mixed.at(0).until, "2026-12-01T12:01:00Z");
}

TEST_F(ShelfConsistency, ACodeAnAddressAndANameFindTheProduct) {
    shop.receive("L-77", 500);
    for (const char* code : {"l-77", " L-77 ", "foam", "Foam Cleaner", "https://werkstatt.local:8443/shelf/foam"}) {
        const auto found = shelf_find(code, shop.ports);
        ASSERT_TRUE(found.ok()) << code;
        EXPECT_EQ(found->id, "foam");
    }
    EXPECT_EQ(shelf_find("nothing", shop.ports).error().code, ErrorCode::NotFound);
    EXPECT_EQ(shelf_find("", shop.ports).error().code, ErrorCode::NotFound);
}

TEST_F(ShelfProperty, TheOrderOfArrivalDoesNotMatter) {
    const auto id = shop.receive("a", 500);
    shop.happen(ShelfDid::Used, id, 100, "2026-07-01");
    shop.happen(ShelfDid::Counted, id, 350, "2026-07-03");
    shop.happen(ShelfDid::Used, id, 30, "2026-07-05");
    shop.say("minimum", "10", CorrectedBy::Typed, "2026-07-01");
    shop.say("minimum", "20", CorrectedBy::Typed, "2026-07-02");
    shop.happen(ShelfDid::Opened, id, std::nullopt, "2026-07-01");
    auto all = shop.shelf.entries("foam").value();
    const std::int64_t today = *day_of("2026-12-01");
    const auto before = folded(all, today);
    EXPECT_EQ(before.lots.at(0).left, 320);
    EXPECT_EQ(before.facts.at("minimum").value, "20");
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.entry.id < b.entry.id; });
    int tried = 0;
    do {
        const auto f = folded(all, today);
        EXPECT_EQ(f.lots.at(0).left, before.lots.at(0).left);
        EXPECT_EQ(f.lots.at(0).bottle.opened_day, before.lots.at(0).bottle.opened_day);
        EXPECT_EQ(f.facts.at("minimum").value, "20");
        EXPECT_EQ(f.used_by_week, before.used_by_week);
    } while (++tried < 2000 && std::next_permutation(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.entry.id < b.entry.id; }));
    EXPECT_EQ(tried, 2000);
}

TEST_F(ShelfProperty, TheTablesComeBackExactly) {
    shop.say("kind", "cleaner");
    shop.say("cost", "12.50 EUR per 1000");
    shop.say("voc_g_l", "12,5", CorrectedBy::Measured);
    shop.say("note", "=2+3, \"quoted\" and 'so");
    shop.say("mix", "100:3");
    const auto id = shop.receive("-9 \"x\"", 0.1, "2026-06-01", "2027-03");
    shop.happen(ShelfDid::Opened, id, std::nullopt, "2026-08-01");
    shop.receive("@b", 1.0 / 3);
    const std::string products = shelf_products_table(shop.ports).value(), lots = shelf_lots_table(shop.ports).value();
    EXPECT_NE(products.find("'=2+3"), std::string::npos);
    EXPECT_NE(products.find("1250,EUR,1000"), std::string::npos);
    Shop other;
    for (const auto& [text, count] : {std::pair{products, 1}, std::pair{lots, 2}}) {
        const auto trial = shelf_import({text, false}, other.ports).value();
        EXPECT_EQ(trial.fresh, count);
        EXPECT_EQ(trial.refused, 0) << trial.lines.at(0).sentence;
        EXPECT_FALSE(trial.taken);
        EXPECT_TRUE(shelf_import({text, true}, other.ports)->taken);
    }
    EXPECT_EQ(shelf_products_table(other.ports).value(), products);
    EXPECT_EQ(shelf_lots_table(other.ports).value(), lots);
    // Taken in again it changes nothing.
    EXPECT_EQ(shelf_import({lots, true}, other.ports)->same, 2);
    EXPECT_EQ(shelf_import({products, true}, other.ports)->same, 1);
}

TEST_F(ShelfConsistency, AChangedTableSaysWhatItWouldChange) {
    const auto id = shop.receive("a", 500);
    shop.happen(ShelfDid::Opened, id, std::nullopt, "2026-08-01");
    const std::string text = "id,product,opened,left\r\n" + id + ",foam,2026-09-01,250\r\n";
    const auto trial = shelf_import({text, false}, shop.ports).value();
    ASSERT_EQ(trial.lines.size(), 1U);
    EXPECT_EQ(trial.lines[0].kind, ImportLineKind::Changed);
    EXPECT_NE(trial.lines[0].sentence.find("opened, left"), std::string::npos);
    EXPECT_EQ(lot(shop.now(), "a").left, 500);
    ASSERT_TRUE(shelf_import({text, true}, shop.ports)->taken);
    EXPECT_EQ(lot(shop.now(), "a").left, 250);
    EXPECT_EQ(lot(shop.now(), "a").opened, "2026-09-01");
    EXPECT_EQ(lot(shop.now(), "a").code, "a") << "a column that is missing is left as it is";
}

TEST_F(ShelfRefusal, OneBadLineTakesNothing) {
    const std::string text = "name,minimum,currency,cost_minor\r\nGood,5,,\r\nBad,lots,,\r\nWorse,5,euro,100\r\nShort\r\n";
    const auto a = shelf_import({text, true}, shop.ports).value();
    EXPECT_FALSE(a.taken);
    EXPECT_EQ(a.refused, 3);
    EXPECT_EQ(a.lines.at(1).line, 3);
    EXPECT_EQ(a.lines.at(1).column, "minimum");
    EXPECT_EQ(a.lines.at(2).column, "currency");
    EXPECT_EQ(shelf("", 50, shop.ports)->all_products, 1);
    EXPECT_EQ(shelf_import({"nonsense\r\n", true}, shop.ports).error().where, "line 1");
    EXPECT_EQ(shelf_import({"name,colour\r\n", true}, shop.ports).error().where, "line 1");
}

TEST_F(ShelfRefusal, NamesTheField) {
    const auto where = [&](ShelfEntry e) {
        const auto refused = shop.enter(std::move(e));
        return refused.ok() ? "taken" : refused.error().where;
    };
    ShelfEntry e = shop.entry(ShelfDid::Received);
    EXPECT_EQ(where(e), "entries[0].amount");
    e.amount = 5;
    e.expiry = "soon";
    EXPECT_EQ(where(e), "entries[0].expiry");
    e.expiry = "";
    e.id = "x";
    EXPECT_EQ(where(e), "entries[0].id");
    e.id = shop.id();
    e.product = "another";
    EXPECT_EQ(where(e), "entries[0].product");
    e.product = "../x";
    EXPECT_EQ(where(e), "entries[0].product");
    e.product = "foam";
    e.at = "2030-01-01";
    EXPECT_EQ(where(e), "entries[0].at");
    e = shop.entry(ShelfDid::Fact);
    for (const auto& [key, value] : {std::pair{"unit", "litre"}, {"cost", "12.505 EUR"}, {"cost", "1 euro"}, {"mix", "100"}, {"kind", "soap"}, {"lead_days", "1000"}, {"name", ""}}) {
        e.key = key;
        e.value = value;
        EXPECT_EQ(where(e), "entries[0].value") << key;
    }
    e.key = "colour";
    EXPECT_EQ(where(e), "entries[0].key");
}

TEST_F(ShelfRefusal, OnlyWhoEnteredItOrTheOwnerTakesItBack) {
    const auto id = shop.receive("a", 500);
    ShelfEntry back = shop.entry(ShelfDid::TakeBack);
    back.takes_back = id;
    shop.ports.who = {"other", "Ben", false};
    EXPECT_EQ(shop.enter(back).error().code, ErrorCode::Conflict);
    shop.ports.who.owner = true;
    EXPECT_TRUE(shop.enter(back)->lots.empty());
}

TEST_F(ShelfConsistency, MoneyIsItsDigits) {
    EXPECT_EQ(parse_cost("12.5 EUR per 1000")->minor, 1250);
    EXPECT_EQ(parse_cost("12,50 EUR")->minor, 1250);
    EXPECT_EQ(parse_cost("1250 JPY")->minor, 1250);
    EXPECT_EQ(parse_cost("1.234 KWD")->minor, 1234);
    EXPECT_FALSE(parse_cost("12.5 JPY"));
    EXPECT_FALSE(parse_cost("-1 EUR"));
    EXPECT_FALSE(parse_cost("EUR 5"));
    EXPECT_EQ(cost_text({5, "EUR", 0.5}), "0.05 EUR per 0.5");
    for (const std::int64_t minor : {0, 5, 99, 100, 123456}) EXPECT_EQ(parse_cost(cost_text({minor, "EUR", 1000}))->minor, minor);
}

TEST_F(ShelfConsistency, TheSheetIsWatchedAndItsChangesAreTold) {
    EXPECT_TRUE(sees(shop.now(), ToSeeKind::NoSheet));
    auto lines = test::sheet_lines();
    const auto keep = [&](const std::string& bytes, const std::string& date) {
        lines[0][2] = "Revision date: " + date + "    Version: 1";
        shop.reader.content.document = test::document_of(lines);
        DigestRequest r;
        r.bytes = bytes;
        r.name = "s.pdf";
        r.keep = true;
        const auto a = digest(r, shop.ports).value();
        EXPECT_TRUE(shelve_sheet({a.id, "foam"}, shop.ports).ok());
        return a.id;
    };
    keep("SHEET old", "2023-11-01");
    auto a = shop.now();
    EXPECT_TRUE(sees(a, ToSeeKind::OldSheet));
    EXPECT_FALSE(sees(a, ToSeeKind::NoSheet));
    for (auto& page : lines)
        for (auto& line : page) {
            if (line.rfind("H314", 0) == 0) line = "H319 Causes serious eye irritation.";
            if (line == "Signal word: Danger") line = "Signal word: Warning";
            if (line.rfind("2-butoxyethanol", 0) == 0) line = "2-butoxyethanol\t111-76-2\t1 - 5 %";
        }
    const std::string fresh = keep("SHEET new", "2026-05-01");
    shop.receive("a", 500, "2026-06-01");
    a = shop.now();
    EXPECT_EQ(a.sheets.at(0).id, fresh);
    ASSERT_EQ(a.sheets.at(0).flags.size(), 1U) << "older than the bottle";
    EXPECT_TRUE(sees(a, ToSeeKind::OldSheet)) << "older than the bottle";
    EXPECT_TRUE(sees(a, ToSeeKind::TellPeople));
    ASSERT_TRUE(a.changes.has_value());
    std::string all;
    for (const auto& c : a.changes->changes) all += c.sentence + "\n";
    EXPECT_NE(all.find("The signal word was Danger, now Warning."), std::string::npos) << all;
    EXPECT_NE(all.find("New warning: H319 Causes serious eye irritation."), std::string::npos) << all;
    EXPECT_NE(all.find("No longer warned of: H314"), std::string::npos) << all;
    EXPECT_NE(all.find("2-butoxyethanol was "), std::string::npos) << all;
    EXPECT_EQ(a.changes->changes.size(), 4U) << all;
    ShelfEntry told = shop.entry(ShelfDid::Told);
    told.sheet = fresh;
    told.person = "Ben";
    ShelfEntry of_none = told;
    of_none.sheet = "none";
    EXPECT_EQ(shop.enter(of_none).error().code, ErrorCode::NotFound);
    a = shop.enter(told).value();
    EXPECT_FALSE(sees(a, ToSeeKind::TellPeople));
    EXPECT_EQ(a.told.at(0).name, "Ben");
    const auto labels = shelf_labels({"foam"}, "https://werkstatt.local:8443", shop.ports).value();
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_EQ(labels[0].warnings.at(0), "Warning");
    EXPECT_EQ(labels[0].address, "https://werkstatt.local:8443/shelf/foam");
}

}  // namespace
}  // namespace hw::desk
