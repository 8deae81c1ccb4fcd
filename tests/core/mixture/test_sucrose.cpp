// Sucrose in water: ICUMSA SPS-4 polynomial against its coefficients and the CRC Handbook's table.
#include "core/mixture/sucrose.hpp"

#include "core/mixture/r22.hpp"
#include "mixture/plain_r22.hpp"
#include "mixture/plain_sucrose.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

TEST(Sucrose, PolynomialFromThePublishedCoefficients) {
    // The same sum over the 20 published coefficients, read from the file; rounding only.
    for (double t = 0.0; t <= 40.0; t += 5.0)
        for (double w = 0.0; w <= 0.84; w += 0.02)
            EXPECT_NEAR(sucrose_density_excess(w, t), plain_sucrose::excess(w, t), 1e-10)
                << "w " << w << " t " << t;
}

TEST(Sucrose, CrcHandbook) {
    // CRC Handbook, 102nd ed., sucrose, 20 degC, four decimals of g/cm3. To 30 % by mass, far more
    // than is asked for here: one unit of the last decimal (half for the printing, half for the
    // other basis of water). To 60 %: older data, with an allowance of a thousandth of what the
    // sugar adds. The rows beyond (70, 80, 84 %) drift off by up to 0.8 kg/m3 and are not used for
    // anything here.
    const Table table("crc_sucrose_aqueous_20C.csv", 40);
    const double water = r22::density_kg_m3(0.0, 20.0);
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const double w = table.number(row, "mass_pct") / 100.0;
        if (w > 0.6)
            continue;
        const double excess = sucrose_density_excess(w, 20.0);
        EXPECT_NEAR(water + excess, 1000.0 * table.number(row, "density_g_per_cm3_20C"),
                    w <= 0.3 ? 0.1 : 0.1 + 1e-3 * excess)
            << table.where(row, "density_g_per_cm3_20C");
    }
}

TEST(Sucrose, MolarityOfTheTableGivesItsDensity) {
    // The same from g/L, the way it is asked for: molarity x 342.30 g/mol (CRC). The third decimal
    // of molarity is 0.5e-3 x 342.3 g/L x 0.39 kg/m3 per g/L = 0.07 kg/m3 wide, the density 0.05.
    const Table table("crc_sucrose_aqueous_20C.csv", 40);
    const double water = r22::density_kg_m3(0.0, 20.0);
    for (std::size_t row = 0; row < table.rows() && table.number(row, "mass_pct") <= 10.0; ++row) {
        const double g_per_l = 342.30 * table.number(row, "molarity_mol_per_L");
        EXPECT_NEAR(water + sucrose_density_increment(g_per_l, 20.0),
                    1000.0 * table.number(row, "density_g_per_cm3_20C"), 0.07 + 0.05 + 0.02)
            << table.where(row, "molarity_mol_per_L");
    }
}

TEST(Sucrose, ConcentrationAndMassFractionAgree) {
    // w = c / rho at the solution found.
    for (double t = 0.5; t <= 40.0; t += 7.9)
        for (double c = 0.0; c <= 20.0; c += 0.5) {
            const double excess = sucrose_density_increment(c, t);
            const double rho = r22::density_kg_m3(0.0, t) + excess;
            EXPECT_NEAR(plain_sucrose::excess(c / rho, t), excess, 1e-10) << c << " g/L, " << t;
        }
    EXPECT_EQ(sucrose_density_increment(0.0, 20.0), 0.0);
}

RC_GTEST_PROP(Sucrose, MassFractionComesBackFromTheDensity, ()) {
    const double w = *within(-0.1, 0.84);
    const double t = *within(0.0, 40.0);
    const double density = plain_r22::density(0.0, t) + plain_sucrose::excess(w, t);
    RC_PRE(w > -0.0999999 && w < 0.8399999);
    // 1e-10 kg/m3 of the two sums' rounding over at least 360 kg/m3 per unit of w.
    RC_ASSERT(std::fabs(sucrose_mass_fraction(density, t) - w) < 1e-11);
}

TEST(Sucrose, DensitiesThatNoSolutionHas) {
    expect_refusal([] { (void)sucrose_mass_fraction(900.0, 20.0); }, RefusalKind::impossible,
                   "density", {"900"});
    expect_refusal([] { (void)sucrose_mass_fraction(2000.0, 20.0); }, RefusalKind::impossible,
                   "density", {"2000"});
}
