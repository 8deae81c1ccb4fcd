// CHARGECHECK: the cautions (common practice, no source) and their limits.
#include "core/still/charge_check.hpp"

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

TEST(Charge, Refusals) {
    const auto check = [](double v, double s, double b, double limit = 40.0) {
        return [=] { (void)charge_cautions(v, s, b, limit); };
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
    expect_refusal(check(20.0, 30.0, 30.0, 101.0), out, "limit", {"101 % vol"});
}
