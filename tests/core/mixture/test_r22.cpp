// The R 22 formula: its coefficients digit by digit, its density against published tables, its
// shape, and its inverses. Sources of the data: tests/data/README.md.
#include "core/mixture/r22.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/r22_coefficients.hpp"
#include "mixture/plain_r22.hpp"
#include "support/published.hpp"
#include "support/refusals.hpp"

#include <cstdio>
#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;
using published::water_at_maximum_kg_m3;

namespace {

// A coefficient as the source prints it: that many decimals, exponent without sign or zeros.
std::string as_printed(double value, std::size_t decimals) {
    char text[48];
    std::snprintf(text, sizeof text, "%.*e", static_cast<int>(decimals), value);
    const std::string all(text);
    const std::size_t e = all.find('e');
    return all.substr(0, e + 1) + std::to_string(std::stoi(all.substr(e + 1)));
}

double constant(const std::string& name, std::size_t i, std::size_t k) {
    if (name == "A")
        return r22::A.at(k - 1);
    if (name == "B")
        return r22::B.at(k - 1);
    switch (i) {
    case 1:
        return r22::C1.at(k - 1);
    case 2:
        return r22::C2.at(k - 1);
    case 3:
        return r22::C3.at(k - 1);
    case 4:
        return r22::C4.at(k - 1);
    case 5:
        return r22::C5.at(k - 1);
    default:
        throw std::out_of_range("C has rows 1 to 5");
    }
}

} // namespace

TEST(R22, CoefficientsDigitByDigit) {
    const Table table("oiml_r22_coefficients.csv", 54);
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const std::string& printed = table.text(row, "value");
        const std::string& name = table.text(row, "name");
        const double ours =
            constant(name, name == "C" ? static_cast<std::size_t>(table.number(row, "i")) : 0,
                     static_cast<std::size_t>(table.number(row, "k")));
        const std::size_t decimals = printed.find('e') - printed.find('.') - 1;
        EXPECT_EQ(as_printed(ours, decimals), printed) << table.where(row, "value");
        // No digit beyond the printed ones either.
        EXPECT_EQ(ours, table.number(row, "value")) << table.where(row, "value");
    }
    // Every constant was met: 12 + 6 + 11 + 10 + 9 + 4 + 2.
    EXPECT_EQ(r22::A.size() + r22::B.size() + r22::C1.size() + r22::C2.size() + r22::C3.size() +
                  r22::C4.size() + r22::C5.size(),
              table.rows());
}

TEST(R22, MisprintsInCirculationAreNotFollowed) {
    // C(1,1) with a doubled 4 and C(2,3) ending ...933 stand in copies of the formula.
    EXPECT_EQ(as_printed(r22::C1[0], 15), "1.693443461530087e-1");
    EXPECT_EQ(as_printed(r22::C2[2], 15), "-2.170575700536993e0");
}

TEST(R22, AgreesWithTheSumAsPrinted) {
    // The printed sum in long double. The core sums about p = 1/2, in double, terms of up to 1e3
    // kg/m3: some fifty roundings of 1e-13 each, 1e-11 at the very most.
    for (double t = -20.0; t <= 40.0; t += 1.25)
        for (double p = 0.0; p <= 1.0; p += 1.0 / 64.0)
            ASSERT_NEAR(r22::density_kg_m3(p, t),
                        static_cast<double>(plain_r22::density<long double>(p, t)), 1e-11)
                << "p " << p << " t " << t;
}

TEST(R22, PrintedOimlValues) {
    // OIML R 22:1975 p. 5, Table IVa and public quotations of it.
    const Table table("oiml_printed_values.csv", 12);
    int checked = 0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const std::string& quantity = table.text(row, "quantity");
        if (quantity.find("density of pure ethanol") == std::string::npos)
            continue; // density in air, specific gravity, correction: see volume, scales,
                      // alcoholometer
        const double t = table.number(row, "temperature_C");
        // Tolerance: half the last printed digit, which is the second decimal, also where "789.24"
        // and such are all that is quoted.
        EXPECT_NEAR(r22::density_kg_m3(1.0, t), table.number(row, "value"), 0.005)
            << table.where(row, "value") << t;
        ++checked;
    }
    EXPECT_EQ(checked, 9);
}

TEST(R22, WaterAgainstIapws95) {
    // IAPWS-95 at 0.101325 MPa. R 22's water is saturated with air (up to 0.003 kg/m3 lighter:
    // Bignell 1983, from memory), its temperatures are IPTS-68 (t90 - t68 is -0.010 degC at 40: up
    // to 0.004 kg/m3), and the absolute densities of its time were known to about 0.003 kg/m3:
    // 0.010 kg/m3 together.
    const Table table("water_density_0_40C.csv", 41);
    for (std::size_t row = 0; row < table.rows(); ++row)
        EXPECT_NEAR(r22::density_kg_m3(0.0, table.number(row, "t_C")),
                    table.number(row, "iapws95_kg_m3"), 0.010)
            << table.where(row, "iapws95_kg_m3");
}

TEST(R22, NbsDensities) {
    // Osborne, McKelvy, Bearce 1913 (NBS Circular 19), 45...85 %mas, 10...40 degC, in g/mL with the
    // mL of before 1964. Tolerance: U(rho) = 0.05 kg/m3 of R 22 as stated in r22.hpp plus the same
    // for the table (a few units of its fifth decimal), plus half the last digit. R 22's authors
    // joined these data with others, so they differ by more than rounding.
    const Table table("nbs_ethanol_density_10_40C.csv", 41);
    int checked = 0;
    for (std::size_t row = 0; row < table.rows(); ++row)
        for (const int t : {10, 15, 20, 25, 30, 35, 40}) {
            const std::string column = "d_" + std::to_string(t) + "C";
            EXPECT_NEAR(r22::density_kg_m3(table.number(row, "mass_pct") / 100.0, t),
                        table.number(row, column) * water_at_maximum_kg_m3,
                        2 * r22::density_uncertainty_kg_m3 + 1000.0 * table.half_digit(row, column))
                << table.where(row, column);
            ++checked;
        }
    EXPECT_EQ(checked, 41 * 7);
}

TEST(R22, CrcDensities) {
    // CRC Handbook, 102nd ed., "Concentrative properties of aqueous solutions", ethanol, 20 degC.
    // The table gives four decimals of g/cm3, from older data: its own differences from row to row
    // are uneven by up to 3 units of the last decimal (68 to 70 %: 48, 78 to 80: 49, 80 to 82: 49,
    // 82 to 84: 52), which is the tolerance: 0.3 kg/m3.
    const Table table("crc_ethanol_aqueous_20C.csv", 61);
    for (std::size_t row = 0; row < table.rows(); ++row)
        EXPECT_NEAR(r22::density_kg_m3(table.number(row, "mass_pct") / 100.0, 20.0),
                    1000.0 * table.number(row, "density_g_per_cm3_20C"), 0.3)
            << table.where(row, "density_g_per_cm3_20C");
}

TEST(R22, TrallesTableOnItsOwnBasis) {
    // Tralles' table (Ure's Dictionary of Arts): SG at 60 degF relative to water at its maximum
    // density, against % vol of *his* absolute alcohol, SG 0.7939, which by R 22 still holds water:
    // his per cents are carried to ethanol by the strength that R 22 gives that liquid. Tolerance:
    // half the last digit, and half a degree Celsius (about 1 degF) for the thermometers of 1811.
    const Table table("tralles_60F.csv", 101);
    constexpr double t = (60.0 - 32.0) / 1.8;
    const r22::DensityAt formula(t);
    const double absolute = table.number(100, "sg_60F_rel_water_max_density");
    ASSERT_EQ(absolute, 0.7939);
    const double share =
        r22::pct_vol_from_mass_fraction(
            r22::mass_fraction_from_density(absolute * water_at_maximum_kg_m3, formula, "absolute"),
            formula) /
        100.0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const double p =
            r22::mass_fraction_from_pct_vol(share * table.number(row, "vol_pct_60F"), formula);
        const double per_c = r22::density_kg_m3(p, t + 0.5) - r22::density_kg_m3(p, t - 0.5);
        EXPECT_NEAR(formula(p),
                    water_at_maximum_kg_m3 * table.number(row, "sg_60F_rel_water_max_density"),
                    0.05 + 0.5 * std::fabs(per_c))
            << table.where(row, "sg_60F_rel_water_max_density");
    }
    // And the basis matters: taken as ethanol, his absolute alcohol is far outside that.
    EXPECT_GT(absolute * water_at_maximum_kg_m3 - formula(1.0), 0.8);
}

TEST(R22, TrallesPrintedDifferencesAreThoseOfItsColumn) {
    // A check of the transcription by its own second column.
    const Table table("tralles_60F.csv", 101);
    for (std::size_t row = 1; row < table.rows(); ++row)
        EXPECT_NEAR(table.number(row - 1, "sg_60F_rel_water_max_density") -
                        table.number(row, "sg_60F_rel_water_max_density"),
                    1e-4 * table.number(row, "printed_difference_1e-4"), 1.01e-4)
            << table.where(row, "printed_difference_1e-4");
}

TEST(R22, DensityFallsWithStrengthWhereverLiquid) {
    // What the bracketed inverse rests on: the slope is below zero over the whole liquid region, on
    // a grid fine enough for a polynomial of degree 11 and 5, and steep enough that the 1e-11 kg/m3
    // of rounding in the formula is far below 1e-9 % vol (1e-11 of mass fraction).
    for (int i = 0; i <= 600; ++i) {
        const double t = -20.0 + 0.1 * i;
        const r22::DensityAt formula(t);
        const double lowest = lowest_liquid_mass_fraction(t);
        for (int j = 0; j <= 1000; ++j) {
            const double p = lowest + (1.0 - lowest) * j / 1000.0;
            ASSERT_LT(formula.with_slope(p).slope, -10.0) << "p " << p << " t " << t;
        }
    }
}

TEST(R22, SlopeIsThatOfTheDensity) {
    // Central difference of the value itself; h^2 times a third derivative of at most some 1e4,
    // and 1e-12/h of rounding.
    constexpr double h = 1e-4;
    for (const double t : {-20.0, 0.0, 20.0, 40.0}) {
        const r22::DensityAt formula(t);
        for (double p = 0.01; p < 1.0; p += 0.01)
            ASSERT_NEAR(formula.with_slope(p).slope, (formula(p + h) - formula(p - h)) / (2 * h),
                        2e-3)
                << "p " << p << " t " << t;
    }
}

TEST(R22, PerCentByVolumeRisesWithMassFraction) {
    for (const double t : {10.0, 15.0, (60.0 - 32.0) / 1.8, 20.0, 30.0}) {
        const r22::DensityAt formula(t);
        double before = -1.0;
        for (int j = 0; j <= 10000; ++j) {
            const double q = r22::pct_vol_from_mass_fraction(j / 10000.0, formula);
            ASSERT_GT(q, before) << "p " << j / 10000.0 << " t " << t;
            before = q;
        }
        EXPECT_EQ(before, 100.0);
    }
}

TEST(R22, InverseOfVolumeAgreesWithBisection) {
    // Bisection of the plain formula ends at neighbouring doubles; in double the printed sum rounds
    // to 1e-9 kg/m3, that is less than 1e-10 of mass fraction.
    for (const double t : {10.0, 15.0, 20.0, 30.0})
        for (double q = 0.0; q <= 100.0; q += 0.625)
            ASSERT_NEAR(r22::mass_fraction_from_pct_vol(q, r22::DensityAt(t)),
                        plain_r22::mass_fraction(q, t), 1e-10)
                << "q " << q << " t " << t;
}

TEST(R22, InverseNearTheEndsIsAsTightAsInTheMiddle) {
    // The ends of the bracket must not end the iteration early: 1e-11 of mass fraction is about
    // 1e-9 % vol.
    for (const double t : {-20.0, -10.0, -0.5, 0.0, 12.5, 20.0, 40.0}) {
        const r22::DensityAt formula(t);
        const double lowest = lowest_liquid_mass_fraction(t);
        for (int n = 3; n <= 16; ++n) {
            const double near = std::pow(10.0, -n);
            for (const double p : {lowest + near, 1.0 - near})
                ASSERT_NEAR(r22::mass_fraction_from_density(formula(p), formula, "density"), p,
                            1e-11)
                    << "p " << p << " t " << t;
        }
        ASSERT_EQ(r22::mass_fraction_from_density(formula(1.0), formula, "density"), 1.0);
        ASSERT_EQ(r22::mass_fraction_from_density(formula(lowest), formula, "density"), lowest);
    }
    for (const double t : {10.0, 20.0, 30.0}) {
        const r22::DensityAt formula(t);
        for (int n = 3; n <= 300; ++n) {
            const double small = std::pow(10.0, -n);
            const double p = r22::mass_fraction_from_pct_vol(small, formula);
            // Nearly pure water: q is p times the ratio of densities.
            ASSERT_NEAR(r22::pct_vol_from_mass_fraction(p, formula) / small, 1.0, 1e-12)
                << "q " << small << " t " << t;
            if (n > 15)
                continue;
            const double large = 100.0 - small;
            ASSERT_NEAR(r22::pct_vol_from_mass_fraction(
                            r22::mass_fraction_from_pct_vol(large, formula), formula),
                        large, 1e-10)
                << "q " << large << " t " << t;
        }
    }
}

TEST(R22, DensitiesThatNoLiquidMixtureHasAreRefused) {
    const r22::DensityAt warm(20.0);
    expect_refusal([&] { (void)r22::mass_fraction_from_density(998.3, warm, "density"); },
                   RefusalKind::impossible, "density", {"998.3", "20 °C", "water", "998.201"});
    expect_refusal([&] { (void)r22::mass_fraction_from_density(789.2, warm, "density"); },
                   RefusalKind::impossible, "density", {"789.2", "20 °C", "ethanol", "789.239"});
    const r22::DensityAt cold(-10.0);
    expect_refusal([&] { (void)r22::mass_fraction_from_density(990.0, cold, "density"); },
                   RefusalKind::impossible, "density", {"990", "-10 °C", "liquid"});
    expect_refusal([&] { (void)r22::mass_fraction_from_density(std::nan(""), warm, "density"); },
                   RefusalKind::impossible, "density", {"not a number"});
}
