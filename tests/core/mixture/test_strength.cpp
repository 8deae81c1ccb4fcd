// Density and strength with their ranges checked: DENSITY and STRENGTHFROMDENSITY.
#include "core/mixture/strength.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/r22.hpp"
#include "mixture/plain_r22.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;

namespace {
// What the contract promises of every forward-inverse pair.
constexpr double promised_pct_vol = 1e-9;

bool is_liquid(double strength, double t) {
    return mass_fraction_from_strength(strength) >= lowest_liquid_mass_fraction(t);
}
} // namespace

TEST(Strength, EndsAreExact) {
    EXPECT_EQ(mass_fraction_from_strength(0.0), 0.0);
    EXPECT_EQ(mass_fraction_from_strength(100.0), 1.0);
    EXPECT_EQ(strength_from_mass_fraction(0.0), 0.0);
    EXPECT_EQ(strength_from_mass_fraction(1.0), 100.0);
    // OIML R 22: 789.24 as printed for ethanol at 20 degC; half a digit.
    EXPECT_NEAR(density_from_strength(100.0, 20.0), 789.24, 0.005);
}

TEST(Strength, RoundTripOnTheWholeGrid) {
    int liquid = 0;
    for (int i = 0; i <= 240; ++i)
        for (int j = 0; j <= 800; ++j) {
            const double t = -20.0 + 0.25 * i;
            const double strength = 0.125 * j;
            if (!is_liquid(strength, t))
                continue;
            ++liquid;
            ASSERT_NEAR(strength_from_density(density_from_strength(strength, t), t), strength,
                        promised_pct_vol)
                << "strength " << strength << " t " << t;
        }
    EXPECT_GT(liquid, 150'000); // 241 x 801 less what is frozen
}

RC_GTEST_PROP(Strength, RoundTripAnywhereAlsoNextToTheEnds, ()) {
    const double t = *within(-20.0, 40.0);
    const double strength = *within(0.0, 100.0);
    if (is_liquid(strength, t))
        RC_ASSERT(std::fabs(strength_from_density(density_from_strength(strength, t), t) -
                            strength) <= promised_pct_vol);
}

RC_GTEST_PROP(Strength, RoundTripOnTheFreezingCurveItself, ()) {
    const double t = *within(-20.0, -0.001);
    const double strength = strength_from_mass_fraction(lowest_liquid_mass_fraction(t));
    RC_ASSERT(std::fabs(strength_from_density(density_from_strength(strength, t), t) - strength) <=
              promised_pct_vol);
}

RC_GTEST_PROP(Strength, DensityFallsWithStrengthAndBack, ()) {
    const double t = *within(-20.0, 40.0);
    const double low = strength_from_mass_fraction(lowest_liquid_mass_fraction(t));
    const double a = *within(low, 100.0);
    const double b = *within(low, 100.0);
    if (b - a > promised_pct_vol && a > low) {
        RC_ASSERT(density_from_strength(a, t) > density_from_strength(b, t));
    }
}

TEST(Strength, AgreesWithBisectionOfThePlainFormula) {
    // Strength from density by another route; 1e-9 % vol, as promised.
    for (double t = -20.0; t <= 40.0; t += 2.5)
        for (double p = lowest_liquid_mass_fraction(t) + 0.001; p < 1.0; p += 0.0173) {
            const double rho = plain_r22::density(p, t);
            ASSERT_NEAR(strength_from_density(rho, t), plain_r22::pct_vol(p, 20.0),
                        promised_pct_vol)
                << "p " << p << " t " << t;
        }
}

TEST(Strength, WarmSpiritIsLighter) {
    // Everything from 20 % vol up expands with temperature wherever it is liquid (water does not
    // below 4 degC).
    for (double strength = 20.0; strength <= 100.0; strength += 2.5) {
        double before = 0.0;
        for (double t = 40.0; t >= -20.0 && is_liquid(strength, t); t -= 0.5) {
            const double rho = density_from_strength(strength, t);
            ASSERT_GT(rho, before) << "strength " << strength << " t " << t;
            before = rho;
        }
    }
}

TEST(Strength, ZeroDegreesIsTakenForTables) {
    EXPECT_NEAR(density_from_strength(0.0, 0.0), 999.84, 0.01); // IAPWS-95; see test_r22
    EXPECT_NEAR(strength_from_density(density_from_strength(40.0, 0.0), 0.0), 40.0,
                promised_pct_vol);
}

TEST(Strength, Refusals) {
    expect_refusal([] { (void)density_from_strength(140.0, 20.0); }, RefusalKind::out_of_range,
                   "strength", {"140 % vol", "0 to 100 % vol"});
    expect_refusal([] { (void)density_from_strength(-0.5, 20.0); }, RefusalKind::out_of_range,
                   "strength", {"-0.5 % vol", "0 to 100 % vol"});
    expect_refusal([] { (void)density_from_strength(40.0, 41.0); }, RefusalKind::out_of_range,
                   "temperature", {"41 °C", "-20 to 40 °C"});
    expect_refusal([] { (void)density_from_strength(40.0, -20.5); }, RefusalKind::out_of_range,
                   "temperature", {"-20.5 °C", "-20 to 40 °C"});
    expect_refusal([] { (void)density_from_strength(40.0, std::nan("")); },
                   RefusalKind::out_of_range, "temperature", {"not a number"});
    // CRC freezing points: 10 %mas freezes at -4.47 degC; 12.4 % vol is 9.9 %mas.
    expect_refusal([] { (void)density_from_strength(12.4, -15.0); }, RefusalKind::impossible,
                   "temperature", {"-15 °C", "12.4 % vol", "frozen", "Allowed: -4.4", "to 40 °C"});
    expect_refusal([] { (void)density_from_strength(0.0, -1.0); }, RefusalKind::impossible,
                   "temperature", {"-1 °C", "water", "frozen", "Allowed: 0 to 40 °C"});
    expect_refusal([] { (void)strength_from_density(0.0, 20.0); }, RefusalKind::out_of_range,
                   "density", {"0 kg/m³", "above 0", "Is the cell empty?"});
    expect_refusal([] { (void)strength_from_density(0.95, 20.0); }, RefusalKind::impossible,
                   "density", {"0.95 kg/m³", "789.239"}); // g/cm3 typed
    expect_refusal([] { (void)strength_from_density(1000.0, 20.0); }, RefusalKind::impossible,
                   "density", {"1000 kg/m³", "20 °C", "998.201"});
    expect_refusal([] { (void)strength_from_density(950.0, 60.0); }, RefusalKind::out_of_range,
                   "temperature", {"60 °C", "-20 to 40 °C"});
    expect_refusal([] { (void)strength_from_mass_fraction(1.5); }, RefusalKind::out_of_range,
                   "mass fraction", {"1.5", "0 to 1"});
}
