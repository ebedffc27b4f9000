#include "core/chem/hazards.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "atlas/class_words.hpp"
#include "atlas/incompatible.hpp"
#include "atlas/substance_classes.hpp"
#include "atlas/substances.hpp"
#include "core/chem/equilibrium.hpp"
#include "core/chem/systems.hpp"

namespace hw::chem {
namespace {

/// The substances of a class, as rows.
std::vector<std::size_t> members(std::string_view hazard_class) {
    std::vector<std::size_t> out;
    for (std::size_t i = 0; i < atlas::substances.size(); ++i)
        for (std::string_view c : hazard_classes(i))
            if (c == hazard_class) out.push_back(i);
    return out;
}

Portion portion(std::size_t row, double mol_kg) { return {std::string(atlas::substances[row].name), "", {}, mol_kg}; }
Totals liquid(const std::vector<Portion>& portions) { return totals(portions).value(); }
Totals one(const char* name) { return liquid({{name, "", 1.0, {}}}); }

bool stops(const std::vector<Product>& products) {
    const auto found = hazards(products);
    return !found.empty() && found.front().severity == Severity::Stop;
}

TEST(HazardsProperty, ChlorineBleachStopsWithEveryMemberOfEachClassAtEveryAmountAndPh) {
    int pairs = 0;
    for (std::size_t bleach : members("hypochlorite"))
        for (const char* partner_class : {"acid", "ammonia", "amine", "urea", "alcohol", "peroxide", "sulfite", "solvent"}) {
            ASSERT_FALSE(members(partner_class).empty()) << partner_class;
            for (std::size_t partner : members(partner_class))
                for (double amount : {1e-12, 1e-4, 0.05})
                    for (double base : {0.0, 0.3}) {  // plain, and held strongly alkaline
                        const Totals together = liquid({portion(bleach, amount), portion(partner, 1e-3), {"sodium hydroxide", "", {}, base}});
                        const Totals first = liquid({portion(bleach, 0.05), {"sodium hydroxide", "", {}, base}}), second = liquid({portion(partner, amount)});
                        ++pairs;
                        EXPECT_TRUE(stops({{&together, true}})) << "in one bottle: " << atlas::substances[partner].name;
                        EXPECT_TRUE(stops({{&first, true}, {&second, true}})) << "one after the other: " << atlas::substances[partner].name;
                        EXPECT_TRUE(stops({{&second, true}, {&first, true}})) << "the other way round: " << atlas::substances[partner].name;
                    }
        }
    EXPECT_GT(pairs, 1000);
}

TEST(HazardsProperty, EverySubstanceThatMakesAnAcidLiquidIsKnownAsAnAcid) {
    // Independent of the table of classes: what turns water below pH 5 by its own formula must not slip through beside bleach.
    for (std::size_t i = 0; i < atlas::substances.size(); ++i) {
        const auto& row = atlas::substances[i];
        if (row.kind == "water" || row.kind == "hypochlorite") continue;
        const auto e = equilibrium(liquid({portion(i, 0.1)}));
        if (!e.ok() || e->ph >= 5) continue;
        const Totals bleach = one("sodium hypochlorite"), other = liquid({portion(i, 0.1)});
        EXPECT_TRUE(stops({{&bleach, true}, {&other, true}})) << row.name << " makes pH " << e->ph;
    }
}

TEST(HazardsProperty, AProductWithoutALabelCountsAsPossiblyBleachAcidOrAmmonia) {
    const Totals unknown = liquid({});
    for (const char* name : {"acetic acid", "ammonia", "monoethanolamine", "urea", "ethanol", "hydrogen peroxide", "sodium hypochlorite", "sodium sulfide"}) {
        const Totals known = one(name);
        const auto found = hazards({{&known, true}, {&unknown, false}});
        ASSERT_FALSE(found.empty()) << name;
        EXPECT_EQ(found.front().severity, Severity::Stop) << name;
        EXPECT_TRUE(found.front().from_unknown) << name;
    }
    EXPECT_TRUE(stops({{&unknown, false}, {&unknown, false}})) << "two products without a label";
    EXPECT_TRUE(hazards({{&unknown, false}}).empty()) << "alone it meets nothing";
    const Totals vinegar = one("acetic acid"), water = liquid({});
    EXPECT_TRUE(hazards({{&vinegar, false}, {&water, true}}).empty()) << "what is in one bottle has met already";
}

TEST(HazardsProperty, NamesOfUnknownIngredientsGiveTheirClassAway) {
    const Totals odd = liquid({{"Trichloroisocyanuric acid tablets", "", 1.0, {}}}), vinegar = one("acetic acid"), alcohol = liquid({{"Denatured alcohol", "", 5.0, {}}});
    EXPECT_TRUE(stops({{&odd, true}, {&vinegar, true}}));
    EXPECT_TRUE(stops({{&odd, true}, {&alcohol, true}}));
    const Totals oxide = liquid({{"Cocamine oxide", "", 2.0, {}}}), bleach = one("sodium hypochlorite");
    EXPECT_FALSE(stops({{&bleach, true}, {&oxide, true}})) << "amine oxides are no amines and stand beside bleach in cleaners";
}

TEST(HazardsProperty, QuietMixturesStayQuiet) {
    const Totals neutral = liquid({{"alcohol ethoxylate", "", 2.0, {}}, {"trisodium citrate", "", 0.3, {}}});
    const Totals soda = one("sodium carbonate"), bleach = liquid({{"sodium hypochlorite", "", 4.0, {}}, {"sodium hydroxide", "", 0.4, {}}, {"sodium carbonate", "", 0.3, {}}, {"lauramine oxide", "", 1.0, {}}});
    EXPECT_TRUE(hazards({{&neutral, true}, {&soda, true}}).empty());
    EXPECT_TRUE(hazards({{&bleach, true}}).empty()) << "a bleach cleaner as sold";
    EXPECT_TRUE(hazards({}).empty());
}

TEST(HazardsProperty, LesserMeetingsAreCautionsOrNotes) {
    auto severity = [](const char* a, const char* b) {
        const Totals x = one(a), y = one(b);
        const auto found = hazards({{&x, true}, {&y, true}});
        EXPECT_EQ(found.size(), 1U) << a << " and " << b;
        return found.empty() ? Severity::Stop : found.front().severity;
    };
    EXPECT_EQ(severity("hydrogen peroxide", "acetic acid"), Severity::Caution);
    EXPECT_EQ(severity("sodium hydroxide", "ammonium chloride"), Severity::Caution);
    EXPECT_EQ(severity("sodium hydroxide", "citric acid"), Severity::Caution);
    EXPECT_EQ(severity("sodium carbonate", "citric acid"), Severity::Note);
    EXPECT_EQ(severity("benzalkonium chloride", "sodium lauryl sulfate"), Severity::Note);
    EXPECT_EQ(severity("sodium oleate", "citric acid"), Severity::Note);
    EXPECT_EQ(severity("sodium sulfide", "acetic acid"), Severity::Stop);
}

TEST(HazardsProperty, TheMostSevereComesFirst) {
    const Totals all = liquid({{"sodium carbonate", "", 1.0, {}}, {"citric acid", "", 1.0, {}}, {"sodium hypochlorite", "", 1.0, {}}, {"hydrogen peroxide", "", 1.0, {}}});
    const auto found = hazards({{&all, true}});
    ASSERT_GT(found.size(), 2U);
    for (std::size_t i = 1; i < found.size(); ++i) EXPECT_LE(found[i - 1].severity, found[i].severity);
}

TEST(HazardsProperty, AdvicePutsPeopleFirstAndNeverMixesAnything) {
    for (std::size_t i = 0; i < atlas::incompatible.size(); ++i)
        for (bool unknown : {false, true}) {
            const auto& row = atlas::incompatible[i];
            const Severity severity = row.severity == "stop" ? Severity::Stop : row.severity == "caution" ? Severity::Caution : Severity::Note;
            const Advice a = advice({i, severity, unknown});
            ASSERT_FALSE(a.do_now.empty());
            ASSERT_FALSE(a.never.empty());
            EXPECT_FALSE(product_of({i, severity, unknown}).empty());
            for (const std::string& line : a.do_now)
                for (const char* word : {"mix", "pour", " add ", "Add ", "neutralis", "vinegar", "soda"}) EXPECT_EQ(line.find(word), std::string::npos) << line;
            if (severity != Severity::Stop) continue;
            EXPECT_EQ(a.do_now.front().rfind("People first", 0), 0U);
            EXPECT_NE(a.do_now.front().find("fresh air"), std::string::npos);
            EXPECT_EQ(a.never.front().rfind("Do not add anything", 0), 0U);
        }
}

TEST(HazardsConsistency, TheTablesNameOnlyWhatExists) {
    for (const auto& row : atlas::substance_classes) EXPECT_TRUE(find_substance(row.substance, "").has_value()) << row.substance;
    // Some classes are known by the words on labels alone: no substance of the table is a perfume or a drying oil.
    auto worded = [](std::string_view hazard_class) { return std::any_of(atlas::class_words.begin(), atlas::class_words.end(), [&](const auto& w) { return w.hazard_class == hazard_class; }); };
    auto known = [&](std::string_view hazard_class) { return !members(hazard_class).empty() || worded(hazard_class); };
    auto ruled = [](std::string_view hazard_class) { return std::any_of(atlas::incompatible.begin(), atlas::incompatible.end(), [&](const auto& r) { return r.class_a == hazard_class || r.class_b == hazard_class; }); };
    for (const auto& row : atlas::incompatible) {
        EXPECT_TRUE(known(row.class_a)) << row.class_a;
        EXPECT_TRUE(known(row.class_b)) << row.class_b;
        EXPECT_TRUE(row.severity == "stop" || row.severity == "caution" || row.severity == "note") << row.severity;
    }
    for (const auto& row : atlas::class_words) EXPECT_TRUE(ruled(row.hazard_class)) << row.hazard_class;
}

}  // namespace
}  // namespace hw::chem
