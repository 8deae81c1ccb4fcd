// CHARGECHECK: the cautions (common practice, no source) and their limits.
#include "core/still/charge_check.hpp"

#include "core/still/forecast.hpp"
#include "support/refusals.hpp"

#include <algorithm>
#include <gtest/gtest.h>

using namespace jarbook;

namespace {
bool mentions(const std::string& cautions, const char* part) {
    return cautions.find(part) != std::string::npos;
}
} // namespace

TEST(Charge, NothingSpeaksAgainstAnOrdinaryCharge) {
    EXPECT_EQ(charge_cautions(20.0, 30.0, 30.0), "");
    EXPECT_EQ(charge_cautions(20000.0, 30.0, 30000.0), ""); // mL
    // The limits themselves are allowed: three quarters, a quarter, 40 % vol and 0.05 of rounding.
    EXPECT_EQ(charge_cautions(22.5, 40.0, 30.0), "");
    EXPECT_EQ(charge_cautions(7.5, 40.05, 30.0), "");
}

TEST(Charge, StrongCharge) {
    EXPECT_TRUE(mentions(charge_cautions(20.0, 40.06, 30.0), "40.1 % vol, above 40.0 % vol"));
    EXPECT_TRUE(mentions(charge_cautions(20.0, 62.0, 30.0), "62.0 % vol"));
    // No wording may imply that a weaker charge is harmless.
    EXPECT_TRUE(mentions(charge_cautions(20.0, 62.0, 30.0), "The vapour of any charge burns."));
    EXPECT_EQ(charge_cautions(20.0, 34.9, 30.0, 35.0), "");
    EXPECT_TRUE(mentions(charge_cautions(20.0, 36.0, 30.0, 35.0), "above 35.0 % vol"));
}

TEST(Charge, Filling) {
    EXPECT_TRUE(mentions(charge_cautions(22.6, 30.0, 30.0), "three quarters"));
    EXPECT_TRUE(mentions(charge_cautions(30.0, 30.0, 30.0), "100.0 % full"));
    EXPECT_TRUE(mentions(charge_cautions(7.4, 30.0, 30.0), "a quarter"));
    EXPECT_TRUE(mentions(charge_cautions(7.4, 30.0, 30.0), "run dry"));
}

TEST(Charge, OneCautionALine) {
    const std::string both = charge_cautions(29.0, 55.0, 30.0);
    EXPECT_EQ(std::count(both.begin(), both.end(), '\n'), 1);
    EXPECT_TRUE(mentions(both, "55.0 % vol"));
    EXPECT_TRUE(mentions(both, "three quarters"));
}

// What does not fit must not hide that it is too strong.
TEST(Charge, MoreThanTheBoilerHolds) {
    EXPECT_EQ(charge_cautions(31.0, 30.0, 30.0),
              "Charge is 103.3 % of what the boiler holds: it does not fit. Fill at most three "
              "quarters.");
    const std::string both = charge_cautions(31.0, 55.0, 30.0);
    EXPECT_EQ(std::count(both.begin(), both.end(), '\n'), 1);
    EXPECT_TRUE(mentions(both, "55.0 % vol"));
    EXPECT_TRUE(mentions(both, "does not fit"));
    EXPECT_FALSE(mentions(charge_cautions(30.0, 30.0, 30.0), "does not fit"));
}

// 10 L of 40 % vol run down to 10 % vol leave 3.833 L (tests/scripts/plain_forecast.py,
// Runge-Kutta).
TEST(Charge, TheLevelAtTheStop) {
    EXPECT_NEAR(left_in_boiler({10.0, 40.0}, 10.0, "stop"), 3.83341, 5e-5);
    EXPECT_EQ(charge_cautions(10.0, 40.0, 20.0), "");
    EXPECT_EQ(charge_cautions(10.0, 40.0, 20.0, 40.0, 10.0),
              "Boiler falls to 19.2 % full by 10 % vol running, less than a quarter: a heater "
              "inside may run dry. It must stay covered to the end of the run.");
    EXPECT_EQ(charge_cautions(10.0, 40.0, 15.0, 40.0, 10.0), ""); // 25.6 %
    EXPECT_TRUE(
        mentions(charge_cautions(10.0, 40.0, 15.4, 40.0, 10.0), "24.9 %")); // mL and L alike
    EXPECT_TRUE(mentions(charge_cautions(10000.0, 40.0, 15400.0, 40.0, 10.0), "24.9 %"));
    // A charge that is too low already is told so once.
    const std::string low = charge_cautions(7.4, 30.0, 30.0, 40.0, 10.0);
    EXPECT_EQ(std::count(low.begin(), low.end(), '\n'), 0);
    EXPECT_TRUE(mentions(low, "24.7 % full"));
    // The other cautions stand beside it.
    EXPECT_TRUE(mentions(charge_cautions(10.0, 45.0, 15.4, 40.0, 10.0), "45.0 % vol, above"));
}

// A still of more stages collects less until a low strength is reached: the plain pot bounds the
// level, to 1 % of the charge, as charge_check.hpp says.
TEST(Charge, APlainPotLeavesTheLeast) {
    for (const double strength : {5.0, 8.0, 12.0, 20.0, 30.0, 40.0})
        for (const double stop : {1.0, 2.0, 5.0, 10.0, 15.0, 20.0})
            for (const double stages : {1.15, 1.4, 2.0, 3.0})
                EXPECT_GT(left_in_boiler({1.0, strength}, stop, "stop", {stages}),
                          left_in_boiler({1.0, strength}, stop, "stop") - 0.01)
                    << strength << " % vol to " << stop << " with " << stages;
}

TEST(Charge, Refusals) {
    const auto check = [](double v, double s, double b, double limit = 40.0,
                          std::optional<double> stop = {}) {
        return [=] { (void)charge_cautions(v, s, b, limit, stop); };
    };
    const auto out = RefusalKind::out_of_range;
    expect_refusal(check(0.0, 30.0, 30.0), out, "volume", {"above 0", "Is the cell empty?"});
    expect_refusal(check(-2.0, 30.0, 30.0), out, "volume", {"-2", "above 0"});
    expect_refusal(check(20.0, 0.0, 30.0), out, "strength", {"above 0", "Is the cell empty?"});
    expect_refusal(check(20.0, 0.3, 30.0), out, "strength", {"0.3", "40, not 0.40"});
    expect_refusal(check(20.0, 130.0, 30.0), out, "strength", {"130 % vol", "0 to 100"});
    expect_refusal(check(20.0, 30.0, 0.0), out, "boilerVolume", {"above 0", "Is the cell empty?"});
    expect_refusal(check(20.0, 30.0, 30.0, 0.4), out, "limit", {"0.4", "40, not 0.40"});
    expect_refusal(check(20.0, 30.0, 30.0, 0.0), out, "limit", {"above 0"});
    // A limit tightens; it never silences.
    expect_refusal(check(20.0, 30.0, 30.0, 101.0), out, "limit", {"101 % vol"});
    expect_refusal(check(20.0, 30.0, 30.0, 40.1), out, "limit", {"40.1 % vol", "never looser"});
    expect_refusal(check(20.0, 30.0, 30.0, 40.0, 0.0), out, "stopStrength", {"1 to 100 % vol"});
    expect_refusal(check(20.0, 30.0, 30.0, 40.0, 0.2), out, "stopStrength", {"40, not 0.40"});
    expect_refusal(check(20.0, 30.0, 30.0, 40.0, 90.0), RefusalKind::impossible, "stopStrength",
                   {"90 % vol", "begins at"});
    expect_refusal(check(20.0, 98.0, 30.0, 40.0, 20.0), out, "strength", {"98 % vol", "1 to 97"});
}
