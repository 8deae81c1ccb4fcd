// SWEETENED: strength of a slightly sweetened spirit, and its size against the legal rule.
#include "core/gauging/alcoholometer.hpp"

#include "core/gauging/scales.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/sucrose.hpp"
#include "mixture/plain_r22.hpp"
#include "mixture/plain_sucrose.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

namespace {
constexpr double sixty_f_c = (60.0 - 32.0) / 1.8;

// By how many degrees of US proof solids of that many g/L hide the strength of a spirit that shows
// `apparent` proof at 60 degF.
double obscuration(double apparent, double g_per_l) {
    const Alcoholometer at_60f{sixty_f_c};
    const double strength = strength_of_sweetened(apparent / 2.0, sixty_f_c, g_per_l, at_60f);
    return convert_strength(strength, "%vol", "proof") - apparent;
}
} // namespace

TEST(Sweetened, WithoutSugarItIsStrength) {
    for (double t = 0.5; t <= 40.0; t += 2.5)
        for (double reading = 10.0; reading <= 90.0; reading += 5.0)
            EXPECT_NEAR(strength_of_sweetened(reading, t, 0.0), strength_from_reading(reading, t),
                        1e-10); // the same solve, but for the rounding of one subtraction
}

RC_GTEST_PROP(Sweetened, DensityShownIsSpiritPlusSugar, ()) {
    // The model solved the other way: at the answer the plain R 22 density of the spirit plus what
    // the published ICUMSA polynomial gives for that sugar, in g per litre at t, is the density
    // shown.
    const double t = *within(0.01, 40.0);
    const double reading = *within(12.0, 85.0);
    const double sugar = *within(0.0, 20.0);
    const double strength = strength_of_sweetened(reading, t, sugar);
    const double p = mass_fraction_from_strength(strength);
    const double spirit = plain_r22::density(p, t);
    const double sugar_at_t = sugar * spirit / plain_r22::density(p, 20.0);
    const double water = plain_r22::density(0.0, t);
    double excess = 0.0;
    for (int pass = 0; pass < 20; ++pass)
        excess = plain_sucrose::excess(sugar_at_t / (water + excess), t);
    const double shown = density_from_strength(reading, 20.0) / (1.0 + 25e-6 * (t - 20.0));
    // 1e-9 % vol is at most 3e-9 kg/m3; the plain sums round to 1e-8.
    RC_ASSERT(std::fabs(spirit + excess - shown) < 2e-8);
}

RC_GTEST_PROP(Sweetened, MoreSugarHidesMoreStrength, ()) {
    const double t = *within(0.01, 40.0);
    const double reading = *within(12.0, 85.0);
    const double a = *within(0.0, 20.0);
    const double b = *within(0.0, 20.0);
    if (b - a > 1e-6) // 1e-6 g/L is some 1e-7 % vol
        RC_ASSERT(strength_of_sweetened(reading, t, a) < strength_of_sweetened(reading, t, b));
}

TEST(Sweetened, LegalRuleOfObscuration) {
    // 27 CFR 30.32(b): in spirits of 80...100 proof every 100 mg of solids in 100 mL (1 g/L) hides
    // 0.4 degree of proof. The rule is flat, but the density by which sugar hides falls more
    // steeply with strength at 100 proof than at 80; carried to 100 proof by that slope of R 22
    // alone, every strength of the interval gives the rule's 0.4 to half its one digit.
    const Table facts("sugar_and_obscuration_facts.csv", 21);
    const Table examples("us_27cfr30_examples.csv", 15);
    ASSERT_EQ(facts.text(8, "source"), "27 CFR 30.32(b)");
    ASSERT_EQ(facts.number(8, "value"), 0.4);
    ASSERT_EQ(facts.number(9, "value"), 0.2);           // the same in % vol per g/L
    ASSERT_EQ(examples.text(3, "section"), "30.32(b)"); // 5 g/L hide 2 degrees
    ASSERT_EQ(examples.text(4, "section"), "30.32(b)"); // 1 g/L hides 0.4
    const auto slope = [](double proof) {
        return (
            plain_r22::density(plain_r22::mass_fraction(proof / 2.0 + 0.5, sixty_f_c), sixty_f_c) -
            plain_r22::density(plain_r22::mass_fraction(proof / 2.0 - 0.5, sixty_f_c), sixty_f_c));
    };
    for (double apparent = 80.0; apparent <= 100.0; apparent += 5.0) {
        const double carried = slope(apparent) / slope(100.0);
        EXPECT_NEAR(obscuration(apparent, 1.0) * carried, facts.number(8, "value"), 0.05)
            << apparent;
        EXPECT_NEAR(obscuration(apparent, 1.0) * carried / 2.0, facts.number(9, "value"), 0.025);
        EXPECT_NEAR(obscuration(apparent, 5.0) * carried, examples.number(3, "answer_value"),
                    5 * 0.05);
        EXPECT_NEAR(obscuration(apparent, 1.0) * carried, examples.number(4, "answer_value"), 0.05);
    }
}

TEST(Sweetened, SizeOfTheDifferenceFromTheRule) {
    // As the help states it: 0.20 (100 proof) to 0.25 % vol (80 proof) per g/L, against a flat
    // 0.20. Half a digit of those figures.
    EXPECT_NEAR(obscuration(100.0, 1.0) / 2.0, 0.20, 0.005);
    EXPECT_NEAR(obscuration(80.0, 1.0) / 2.0, 0.25, 0.005);
    double before = 1.0;
    for (double apparent = 60.0; apparent <= 120.0; apparent += 5.0) {
        const double degrees = obscuration(apparent, 1.0);
        EXPECT_LT(degrees, before) << apparent;
        before = degrees;
    }
}

TEST(Sweetened, TheLitreIsOneAtTwentyDegrees) {
    // Reading 40 at 40 degC: a litre (at 20) fills more, so less sugar is in a litre there, and
    // less is hidden than by 20 g in the litre at 40; by as much as the litre has grown (a property
    // above holds the value, this the sign and size of what forgetting it would cost: 20 g/L x 1.8
    // % x 0.38 kg/m3 per g/L over 2.2 kg/m3 per % vol is 0.06).
    const double shown = density_from_strength(40.0, 20.0) / (1.0 + 25e-6 * 20.0);
    const double in_the_warm_litre =
        strength_from_density(shown - sucrose_density_increment(20.0, 40.0), 40.0);
    EXPECT_NEAR(in_the_warm_litre - strength_of_sweetened(40.0, 40.0, 20.0), 0.06, 0.01);
}

TEST(Sweetened, Refusals) {
    const auto sweetened = [](double r, double t, double sugar) {
        return [=] { (void)strength_of_sweetened(r, t, sugar); };
    };
    const auto out = RefusalKind::out_of_range;
    expect_refusal(sweetened(40.0, 20.0, 20.5), out, "sugar",
                   {"20.5 g/L", "0 to 20 g/L", "distil the sample"});
    expect_refusal(sweetened(40.0, 20.0, -1.0), out, "sugar", {"-1 g/L", "0 to 20 g/L"});
    expect_refusal(sweetened(40.0, 0.0, 5.0), out, "temperature", {"Is the cell empty?"});
    expect_refusal(sweetened(40.0, -5.0, 5.0), out, "temperature",
                   {"-5 °C", "0 to 40 °C", "sugar"});
    expect_refusal(sweetened(40.0, 41.0, 5.0), out, "temperature", {"41 °C", "40 °C"});
    expect_refusal(sweetened(101.0, 20.0, 5.0), out, "reading", {"101 % vol", "0 to 100"});
    expect_refusal(sweetened(100.0, 20.0, 5.0), RefusalKind::impossible, "reading",
                   {"100 % vol", "20 °C", "sugar", "lighter than ethanol", "Allowed"});
}
