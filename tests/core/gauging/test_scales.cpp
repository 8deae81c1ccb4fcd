// CONVERT: the scales of strength against their definitions.
#include "core/gauging/scales.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/composition.hpp"

#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/lots.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>
#include <vector>

using namespace jarbook;
using published::Table;

namespace {
constexpr double sixty_f_c = (60.0 - 32.0) / 1.8;
const std::vector<std::string> all_scales{"%vol",  "%mas",  "mol%",  "%vol15", "%vol60F",
                                          "proof", "sikes", "kg/m3", "sg",     "sg60F"};

std::string quoted(const std::string& text) {
    std::string result("\"");
    return result.append(text).append("\"");
}
} // namespace

TEST(Scales, Definitions) {
    for (double strength = 0.0; strength <= 100.0; strength += 0.5) {
        const double p = plain_r22::mass_fraction(strength, 20.0);
        const auto to = [&](const char* scale) {
            return convert_strength(strength, "%vol", scale);
        };
        // Straight from the definitions with the plain formula; its rounding and bisection together
        // are below 1e-9 % vol, densities below 1e-8 kg/m3.
        EXPECT_EQ(to("%vol"), strength);
        EXPECT_NEAR(to("%mas"), 100.0 * p, 1e-9);
        EXPECT_NEAR(to("mol%"), 100.0 * (p / 46.068) / (p / 46.068 + (1.0 - p) / 18.015), 1e-9);
        EXPECT_NEAR(to("%vol15"), plain_r22::pct_vol(p, 15.0), 1e-9);
        EXPECT_NEAR(to("%vol60F"), plain_r22::pct_vol(p, sixty_f_c), 1e-9);
        EXPECT_NEAR(to("proof"), 2.0 * plain_r22::pct_vol(p, sixty_f_c), 1e-8); // 27 CFR 30.11
        EXPECT_NEAR(to("sikes"), plain_r22::pct_vol(p, sixty_f_c) / 0.5706, 1e-8);
        EXPECT_NEAR(to("kg/m3"), plain_r22::density(p, 20.0), 1e-8);
        EXPECT_NEAR(to("sg"), plain_r22::density(p, 20.0) / plain_r22::density(0.0, 20.0), 1e-11);
        EXPECT_NEAR(to("sg60F"),
                    plain_r22::density(p, sixty_f_c) / plain_r22::density(0.0, sixty_f_c), 1e-11);
    }
}

TEST(Scales, EndsOfEveryScale) {
    for (const std::string& from : all_scales)
        for (const double end : {0.0, 100.0}) {
            const double value = convert_strength(end, "%vol", from);
            EXPECT_NEAR(convert_strength(value, from, "%vol"), end, 1e-9) << from;
        }
    EXPECT_EQ(convert_strength(200.0, "proof", "%vol"), 100.0);
    EXPECT_EQ(convert_strength(100.0, "%mas", "%vol"), 100.0);
    EXPECT_EQ(convert_strength(1.0, "sg", "%vol"), 0.0);
    EXPECT_EQ(convert_strength(0.0, "mol%", "kg/m3"), r22::density_kg_m3(0.0, 20.0));
}

RC_GTEST_PROP(Scales, RoundTripBetweenAllPairs, ()) {
    const double strength = *within(0.0, 100.0);
    for (const std::string& from : all_scales)
        for (const std::string& to : all_scales) {
            const double value = convert_strength(strength, "%vol", from);
            const double back = convert_strength(convert_strength(value, from, to), to, "%vol");
            // Two inverses at most on the way: 1e-9 % vol each, as promised.
            if (!(std::fabs(back - strength) <= 2e-9))
                RC_FAIL(from + " to " + to);
        }
}

RC_GTEST_PROP(Scales, OrderIsKept, ()) {
    const double a = *within(0.0, 100.0);
    const double b = *within(0.0, 100.0);
    if (b - a < 1e-9)
        return;
    for (const std::string& scale : all_scales) {
        const bool heavier_is_weaker = scale == "kg/m3" || scale == "sg" || scale == "sg60F";
        const double low = convert_strength(a, "%vol", scale);
        const double high = convert_strength(b, "%vol", scale);
        if (heavier_is_weaker ? !(low > high) : !(low < high))
            RC_FAIL(scale);
    }
}

TEST(Scales, CrcMolalityAndMolarity) {
    // CRC Handbook, 102nd ed., ethanol, 20 degC: m mol per kg of water, c mol per L of solution,
    // both against %mas. The table's molar mass has two decimals (46.07): 5e-5 of the value; the
    // density in c is good to 0.3 kg/m3 (see test_r22): 4e-4 of the value.
    const Table table("crc_ethanol_aqueous_20C.csv", 61);
    int checked = 0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const double mass_pct = table.number(row, "mass_pct");
        const double c = table.number(row, "molarity_mol_per_L");
        const double rho = convert_strength(mass_pct, "%mas", "kg/m3");
        EXPECT_NEAR(mass_pct / 100.0 * rho / ethanol_g_per_mol, c,
                    table.half_digit(row, "molarity_mol_per_L") + (5e-5 + 4e-4) * c)
            << table.where(row, "molarity_mol_per_L");
        if (table.blank(row, "molality_mol_per_kg"))
            continue; // 98 and 100 %: no molality
        const double m = table.number(row, "molality_mol_per_kg");
        const double x = convert_strength(mass_pct, "%mas", "mol%") / 100.0;
        EXPECT_NEAR(x / (1.0 - x) / water_g_per_mol * 1000.0, m,
                    table.half_digit(row, "molality_mol_per_kg") + 5e-5 * m)
            << table.where(row, "molality_mol_per_kg");
        ++checked;
    }
    EXPECT_EQ(checked, 59);
}

TEST(Scales, SpecificGravityOfEthanol) {
    // Tolerance: half the printed digit and U(rho) = 0.05 kg/m3 of R 22, relative to water.
    const double formula = r22::density_uncertainty_kg_m3 / 998.2;
    // Australia, Excise Tariff Amendment Act (No. 2) 2002: 20 degC, in vacuo.
    const Table oiml("oiml_printed_values.csv", 12);
    EXPECT_EQ(oiml.text(2, "quantity").find("specific gravity of alcohol"), 0u);
    EXPECT_NEAR(convert_strength(100.0, "%vol", "sg"), oiml.number(2, "value"),
                oiml.half_digit(2, "value") + formula);
    // 27 CFR 30.11: 60/60 degF, in vacuo, of 200 proof.
    const Table us("us_gauging_table_values.csv", 21);
    EXPECT_EQ(us.text(18, "source"), "27 CFR 30.11 (proof spirits definition)");
    EXPECT_NEAR(convert_strength(200.0, "proof", "sg60F"), us.number(18, "value"),
                us.half_digit(18, "value") + formula);
}

TEST(Scales, UsProof) {
    // 27 CFR 30.11: twice the per cent by volume at 60 degF.
    const Table facts("alcoholometer_facts.csv", 29);
    EXPECT_EQ(facts.text(16, "fact"), "proof = 2 x percent by volume at 60 F");
    EXPECT_EQ(facts.number(16, "value"), 2.0);
    for (double pct = 0.0; pct <= 100.0; pct += 2.5)
        EXPECT_NEAR(convert_strength(pct, "%vol60F", "proof"), 2.0 * pct, 1e-9);
}

TEST(Scales, SikesProofSpirit) {
    // Hydrometer Act 1818: proof spirit weighs 12/13 of an equal volume of water, both at 51 degF,
    // in air. By R 22 that is 57.05 % vol at 60 degF; handbooks quote 57.06 and 57.15 (from
    // memory), an archive 57.1. Tolerance of the scale's 57.06: U(rho) = 0.05 kg/m3 over the slope
    // there, 1.7 kg/m3 per % vol (0.03), and half its last digit.
    constexpr double t = (51.0 - 32.0) / 1.8;
    const double water_in_air = r22::density_kg_m3(0.0, t) - air_density_kg_m3;
    const double in_air = 12.0 / 13.0 * water_in_air;
    const double proof_spirit = strength_from_density(in_air + air_density_kg_m3, t);
    const double sixty_f = convert_strength(proof_spirit, "%vol", "%vol60F");
    EXPECT_NEAR(sixty_f, 57.06, 0.035);
    EXPECT_NEAR(convert_strength(proof_spirit, "%vol", "sikes"), 100.0, 0.035 / 0.5706);
    const Table facts("alcoholometer_facts.csv", 29);
    EXPECT_EQ(facts.text(21, "fact"), "proof spirit strength as quoted there");
    EXPECT_NEAR(proof_spirit, facts.number(21, "value"), facts.half_digit(21, "value") + 0.03);
    EXPECT_NEAR(convert_strength(100.0, "sikes", "%vol60F"), 57.06, 1e-9);
    EXPECT_NEAR(convert_strength(100.0, "%vol", "sikes"), 100.0 / 0.5706, 1e-9);
}

TEST(Scales, NamesIgnoreCaseAndSpaces) {
    const double expected = convert_strength(40.0, "%vol", "%vol60F");
    for (const char* name : {"%VOL60f", " % vol 60 F ", "%Vol60F", "%vol\t60F"})
        EXPECT_EQ(convert_strength(40.0, "% VOL", name), expected) << name;
    EXPECT_EQ(convert_strength(100.0, "Proof", "PROOF"), 100.0);
}

TEST(Scales, Refusals) {
    const auto convert = [](double value, const char* from, const char* to) {
        return [=] { (void)convert_strength(value, from, to); };
    };
    for (const char* bad : {"", "vol", "plato", "%vol 20", "kg/m³"}) {
        // The reason lists all that are known.
        expect_refusal(
            convert(40.0, bad, "%mas"), RefusalKind::not_a_number, "from",
            {quoted(bad), "%vol, %mas, mol%, %vol15, %vol60F, proof, sikes, kg/m3, sg, sg60F"});
        expect_refusal(convert(40.0, "%mas", bad), RefusalKind::not_a_number, "to",
                       {quoted(bad), "%vol, %mas, mol%"});
    }
    const auto out = RefusalKind::out_of_range;
    expect_refusal(convert(101.0, "%vol", "%mas"), out, "value", {"101 %vol", "0 to 100 %vol"});
    expect_refusal(convert(-1.0, "%mas", "%vol"), out, "value", {"-1 %mas", "0 to 100 %mas"});
    expect_refusal(convert(201.0, "proof", "%vol"), out, "value", {"201 proof", "0 to 200 proof"});
    expect_refusal(convert(180.0, "sikes", "%vol"), out, "value", {"180 sikes", "0 to 175.254"});
    expect_refusal(convert(0.9, "kg/m3", "%vol"), out, "value",
                   {"0.9 kg/m3", "789.239 to 998.201"});
    expect_refusal(convert(998.3, "kg/m3", "%vol"), out, "value", {"998.3 kg/m3", "998.201"});
    expect_refusal(convert(1.01, "sg", "%vol"), out, "value", {"1.01 sg", "0.790661 to 1 sg"});
    expect_refusal(convert(0.78, "sg60F", "%vol"), out, "value", {"0.78 sg60F", "0.793818 to 1"});
    expect_refusal(convert(std::nan(""), "%vol", "%mas"), out, "value", {"not a number"});
    // The same scale twice is checked, too.
    expect_refusal(convert(140.0, "%vol", "%vol"), out, "value", {"140 %vol"});
}
