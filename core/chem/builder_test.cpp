#include "core/chem/builder.hpp"

#include <gtest/gtest.h>

#include "core/chem/equilibrium.hpp"

namespace {

using namespace hw;
using namespace hw::chem;

const Temperature warm = Temperature::celsius(25);

std::size_t row_of(const char* name) { return find_substance(name, "").value(); }
Totals of(const char* name, double pct) {
    Portion p;
    p.name = name;
    p.content_pct = pct;
    return totals({p}).value();
}

TEST(BuilderProperty, TheAmountFoundBringsTheLiquidToThePh) {
    for (const char* builder : {"sodium hydroxide", "sodium carbonate", "sodium metasilicate", "monoethanolamine", "ammonia"})
        for (double ph : {9.0, 10.0}) {
            const Totals start = of("citric acid", 0.3);
            const auto mol = amount_to_ph(start, row_of(builder), ph, 1, warm);
            ASSERT_TRUE(mol.ok());
            ASSERT_TRUE(mol->has_value()) << builder << " " << ph;
            Conditions c;
            c.complexes = false;
            EXPECT_NEAR(equilibrium(with_added(start, row_of(builder), **mol), c)->ph, ph, 0.02) << builder;
        }
    const auto acid = amount_to_ph(of("sodium carbonate", 1), row_of("lactic acid"), 4.5, 5, warm);
    ASSERT_TRUE(acid->has_value());
}

TEST(BuilderProperty, MoreReserveStandsBehindTheSamePhWithAWeakBuilder) {
    const Totals plain = tap_water(0);
    const double lye = **amount_to_ph(plain, row_of("sodium hydroxide"), 10.8, 5, warm), soda = **amount_to_ph(plain, row_of("sodium carbonate"), 10.8, 5, warm);
    EXPECT_GT(*acid_to_ph(with_added(plain, row_of("sodium carbonate"), soda), 4.5), 3 * *acid_to_ph(with_added(plain, row_of("sodium hydroxide"), lye), 4.5));
}

TEST(BuilderProperty, ABuilderThatPullsTheOtherWayOrCannotReachIsNoAnswer) {
    EXPECT_FALSE(amount_to_ph(tap_water(0), row_of("citric acid"), 10, 5, warm)->has_value());
    EXPECT_FALSE(amount_to_ph(tap_water(0), row_of("sodium carbonate"), 12.8, 1, warm)->has_value());
}

TEST(BuilderProperty, AddingCountsTheWeight) {
    const Totals t = with_added(of("sodium carbonate", 1), row_of("citric acid"), 0.5);
    const Totals direct = [] {
        Portion a, b;
        a.name = "sodium carbonate", b.name = "citric acid";
        // 0.5 mol of citric acid to the 0.99 kg of water of a kilogram.
        const double acid = 0.5 * 0.99 * 192.12;
        a.content_pct = 1000.0 / (1000 + acid), b.content_pct = 100 * acid / (1000 + acid);
        return totals({a, b}).value();
    }();
    EXPECT_NEAR(t.water_kg_kg, direct.water_kg_kg, 1e-9);
    EXPECT_NEAR(t.sodium_mol_kg, direct.sodium_mol_kg, 1e-9);
    EXPECT_NEAR(t.recognised.back().content_pct, *&direct.recognised.back().content_pct, 1e-9);
}

}  // namespace
