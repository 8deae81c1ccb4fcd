// What a refusal says: numbers as a person writes them, and always told apart from the limit.
#include "core/base/refusal.hpp"

#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>

using namespace jarbook;

TEST(Refusal, NumbersAsAPersonWritesThem) {
    EXPECT_EQ(number_text(40.0), "40");
    EXPECT_EQ(number_text(0.4), "0.4");
    EXPECT_EQ(number_text(-5.25), "-5.25");
    EXPECT_EQ(number_text(0.0), "0");
    EXPECT_EQ(number_text(-0.0), "0");
    EXPECT_EQ(number_text(2500000.0), "2500000"); // mL: no exponent
    EXPECT_EQ(number_text(998.20123), "998.201");
    EXPECT_EQ(number_text(25e-6), "2.5e-05");
    EXPECT_EQ(number_text(std::nan("")), "not a number");
    EXPECT_EQ(number_text(HUGE_VAL), "infinity");
    EXPECT_EQ(number_text(-HUGE_VAL), "minus infinity");
}

TEST(Refusal, NumbersWithFixedDecimals) {
    EXPECT_EQ(fixed_text(1.05, 3), "1.050");
    EXPECT_EQ(fixed_text(40.0, 1), "40.0");
    EXPECT_EQ(fixed_text(-2.26, 1), "-2.3");
    EXPECT_EQ(fixed_text(7.0, 0), "7");
    // Nothing is taken away from nothing.
    EXPECT_EQ(fixed_text(-0.0, 2), "0.00");
    EXPECT_EQ(fixed_text(-0.004, 2), "0.00");
    EXPECT_EQ(fixed_text(-0.006, 2), "-0.01");
    // Whole, however large: 309 digits and 10.
    EXPECT_EQ(fixed_text(-std::numeric_limits<double>::max(), 9).size(), 1u + 309u + 10u);
}

TEST(Refusal, OnlyATinyAmountIsToldToBeZero) {
    const auto told = [](double amount) {
        try {
            require_amount("volume", amount);
        } catch (const Refusal& refusal) {
            return refusal.sentence();
        }
        return std::string();
    };
    const std::string hint = "Too small to count";
    EXPECT_NE(told(1e-300).find(hint), std::string::npos) << told(1e-300);
    for (const double amount : {-1.0, -1e-300, 1e300, HUGE_VAL}) {
        ASSERT_NE(told(amount), "") << amount;
        EXPECT_EQ(told(amount).find(hint), std::string::npos) << told(amount);
    }
}

TEST(Refusal, AValueIsToldApartFromItsLimit) {
    EXPECT_EQ(number_text_apart(101.0, 100.0), "101");
    EXPECT_EQ(number_text_apart(100.0000001, 100.0), "100.0000001");
    EXPECT_EQ(number_text_apart(39.99999999, 40.0), "39.99999999");
    EXPECT_EQ(number_text_apart(998.2013, 998.20123), "998.2013");
    EXPECT_EQ(number_text_apart(100.0, 100.0), "100");
    EXPECT_NE(number_text_apart(std::nextafter(100.0, 101.0), 100.0), "100");
}

TEST(Refusal, RangeNamesArgumentValueUnitAndLimits) {
    expect_refusal([] { require_range("temperature", 55.0, -20.0, 40.0, "°C"); },
                   RefusalKind::out_of_range, "temperature",
                   {"temperature is 55 °C; allowed: -20 to 40 °C"});
    expect_refusal([] { require_range("reading", 100.0000001, 0.0, 100.0, "% vol"); },
                   RefusalKind::out_of_range, "reading", {"100.0000001 % vol", "0 to 100 % vol"});
    expect_refusal([] { require_range("reading", -1e-9, 0.0, 100.0, "% vol"); },
                   RefusalKind::out_of_range, "reading", {"-1e-09 % vol"});
    expect_refusal(
        [] {
            refuse_range({"strengths", 2}, 140.0, 0.0, 100.0, "% vol", "Look");
        },
        RefusalKind::out_of_range, "strengths",
        {"row 3 of strengths is 140 % vol; allowed: 0 to 100 % vol. Look"});
    EXPECT_NO_THROW(require_range("temperature", -20.0, -20.0, 40.0, "°C"));
    EXPECT_NO_THROW(require_range("temperature", 40.0, -20.0, 40.0, "°C"));
}

TEST(Refusal, NotANumberAndInfinityAreOutOfEveryRange) {
    for (const double bad : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
        expect_refusal([&] { require_range("x", bad, 0.0, HUGE_VAL, ""); },
                       RefusalKind::out_of_range, "x", {number_text(bad), "0 or more"});
        expect_refusal([&] { require_amount("volume", bad); }, RefusalKind::out_of_range, "volume",
                       {number_text(bad), "0 or more"});
        expect_refusal([&] { require_positive("volume", bad, ""); }, RefusalKind::out_of_range,
                       "volume", {number_text(bad), "above 0"});
        expect_refusal([&] { require_strength("strength", bad); }, RefusalKind::out_of_range,
                       "strength", {number_text(bad), "0 to 100 % vol"});
        expect_refusal([&] { require_wished_strength("target", bad); }, RefusalKind::out_of_range,
                       "target", {number_text(bad), "0 to 100 % vol"});
    }
}

TEST(Refusal, AmountsAreZeroOrMore) {
    EXPECT_NO_THROW(require_amount("volume", 0.0));
    EXPECT_NO_THROW(require_amount("volume", 1e9));
    expect_refusal([] { require_amount("volume", -0.001); }, RefusalKind::out_of_range, "volume",
                   {"volume is -0.001; allowed: 0 or more"});
    expect_refusal([] { require_positive("boilerVolume", 0.0, "L"); }, RefusalKind::out_of_range,
                   "boilerVolume", {"0 L", "above 0", "Is the cell empty?"});
    expect_refusal([] { require_positive("boilerVolume", -1.0, "L"); }, RefusalKind::out_of_range,
                   "boilerVolume", {"-1 L", "above 0"});
}

// Where sums of amounts overflow, or their ratios lose digits, they come out plausible but wrong.
TEST(Refusal, AmountsBeyondArithmeticAreRefused) {
    EXPECT_NO_THROW(require_amount("volume", 1e15));
    EXPECT_NO_THROW(require_amount("volume", 1e-100));
    expect_refusal([] { require_amount("volume", 1.1e15); }, RefusalKind::out_of_range, "volume",
                   {"volume is 1.1e+15; allowed: 0 to 1e+15"});
    expect_refusal([] { require_amount("volume", 5e-324); }, RefusalKind::out_of_range, "volume",
                   {"Too small to count"});
    expect_refusal([] { require_positive("watts", 1e16, "W"); }, RefusalKind::out_of_range, "watts",
                   {"1e+16 W", "to 1e+15 W"});
    expect_refusal([] { require_positive("watts", 1e-200, "W"); }, RefusalKind::out_of_range,
                   "watts", {"1e-200 W", "1e-100 to"});
}

TEST(Refusal, AWishOfZeroPointFourIsAPercentFormattedCell) {
    for (const double share : {0.001, 0.4, 0.9999999}) {
        expect_refusal([&] { require_wished_strength("target", share); }, RefusalKind::out_of_range,
                       "target", {"target is " + number_text(share), "40, not 0.40", "per cent"});
        EXPECT_NO_THROW(
            require_strength("strength", share)); // a measured strength may be that weak
    }
    for (const double fine : {0.0, 1.0, 40.0, 100.0})
        EXPECT_NO_THROW(require_wished_strength("target", fine));
    expect_refusal([] { require_wished_strength("target", 400.0); }, RefusalKind::out_of_range,
                   "target", {"400 % vol", "0 to 100 % vol"});
}
