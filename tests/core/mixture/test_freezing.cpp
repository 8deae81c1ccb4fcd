// The freezing curve: CRC Handbook, 102nd ed., "Concentrative properties of aqueous solutions".
#include "core/mixture/freezing.hpp"

#include "support/published.hpp"
#include "support/ranges.hpp"

#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

TEST(Freezing, EveryPublishedPoint) {
    // The curve passes through the printed points; 1e-12 is the rounding of 100 p.
    const Table table("crc_ethanol_aqueous_20C.csv", 61);
    int checked = 0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        if (table.blank(row, "freezing_depression_C"))
            continue;
        const double p = table.number(row, "mass_pct") / 100.0;
        const double freezing = -table.number(row, "freezing_depression_C");
        EXPECT_NEAR(freezing_point_c(p), freezing, 1e-12) << table.where(row, "depression");
        if (freezing >= -40.0) {
            EXPECT_NEAR(lowest_liquid_mass_fraction(freezing), p, 1e-12)
                << table.where(row, "depression");
        }
        ++checked;
    }
    EXPECT_EQ(checked, 45); // 0.5...68 % by mass
}

TEST(Freezing, WaterFreezesAtZero) {
    EXPECT_EQ(freezing_point_c(0.0), 0.0);
    EXPECT_EQ(lowest_liquid_mass_fraction(0.0), 0.0);
    EXPECT_EQ(lowest_liquid_mass_fraction(20.0), 0.0);
    EXPECT_GT(lowest_liquid_mass_fraction(-1e-9), 0.0);
}

TEST(Freezing, StrongerThanTheTableIsLiquidInTheWholeRangeOfTheFormula) {
    for (double p = 0.68; p <= 1.0; p += 0.01)
        EXPECT_LE(freezing_point_c(p), -49.0);
    EXPECT_LE(lowest_liquid_mass_fraction(-20.0), 0.30);
    // Colder than the table goes, its strongest is the weakest that is known to be liquid.
    EXPECT_EQ(lowest_liquid_mass_fraction(-60.0), 0.68);
}

RC_GTEST_PROP(Freezing, FallsWithStrengthAndTheTwoAreInverse, ()) {
    const double a = *within(0.0, 0.5);
    const double b = *within(0.0, 0.5);
    if (a < b)
        RC_ASSERT(freezing_point_c(a) >= freezing_point_c(b));
    // Linear pieces, at least 0.4 degC a per cent: rounding only.
    RC_ASSERT(std::fabs(lowest_liquid_mass_fraction(freezing_point_c(a)) - a) < 1e-12);
}
