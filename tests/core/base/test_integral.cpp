// Integrals: what is known in closed form, and what the rule cannot sum is no number.
#include "core/base/integral.hpp"

#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

using namespace jarbook;

TEST(Integral, IsWhatTheClosedFormGives) {
    EXPECT_NEAR(integral([](double x) { return std::exp(x); }, 0.0, 1.0, ""), std::numbers::e - 1.0,
                1e-14);
    // A bend where halving finds it.
    EXPECT_NEAR(integral([](double x) { return std::fabs(x - 0.25); }, 0.0, 1.0, ""), 0.3125,
                1e-14);
}

// The rule answers each of these with a number, wrong by more than 1e-8 of the integral, and says
// so only in its estimate of the error.
TEST(Integral, RefusesWhatTheRuleCannotSum) {
    const auto summed = [](auto f, double from) {
        return [=] { (void)integral(f, from, 1.0, "not summed"); };
    };
    const auto no_end = RefusalKind::no_convergence;
    // 2 / 0.1 in closed form: steep beyond any depth next to 1/3.
    expect_refusal(summed([](double x) { return std::pow(std::fabs(x - 1.0 / 3.0), -0.9); }, 0.0),
                   no_end, "", {"not summed"});
    // Swings without end next to 0.
    expect_refusal(summed([](double x) { return std::sin(1.0 / x) / x; }, 1e-9), no_end, "",
                   {"not summed"});
    // No number anywhere.
    expect_refusal(summed([](double) { return std::nan(""); }, 0.0), no_end, "", {"not summed"});
}
