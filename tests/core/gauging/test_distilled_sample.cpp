// SAMPLESTRENGTH: pure alcohol of the distillate is that of the sample.
#include "core/gauging/distilled_sample.hpp"

#include "core/gauging/lots.hpp"
#include "mixture/plain_r22.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;

TEST(DistilledSample, TheCheckOfTheTable) {
    const published::Table table("wash_gravity.csv", 18);
    const std::size_t row = table.rows() - 1;
    ASSERT_TRUE(
        table.text(row, "unit").starts_with("% vol, wash by distilled sample: 500 mL at 24 C"));
    EXPECT_NEAR(strength_from_reading(16.8, 18.0), 17.330, 0.0005);
    EXPECT_NEAR(sample_strength(500.0, 250.0, 16.8, 18.0, 24.0), table.number(row, "value"),
                table.half_digit(row, "value"));
}

// Known liquid, distilled without loss: its alcohol in the flask, and back.
RC_GTEST_PROP(DistilledSample, GivesBackTheStrengthThatWasDistilled, ()) {
    const double strength = *within(0.5, 60.0);
    const double t_sample = *within(0.001, 40.0);
    const double t_read = *within(1.0, 40.0);
    const double made_up = *within(0.9, 1.5); // of the sample
    const double p = plain_r22::mass_fraction(strength, 20.0);
    // 1 L at its temperature is that much at 20 degC.
    const double at_20 = plain_r22::density(p, t_sample) / plain_r22::density(p, 20.0);
    const double distillate = strength * at_20 / made_up;
    RC_PRE(distillate > 3.0); // warmer water shows less than 0
    const double reading = reading_from_strength(distillate, t_read);
    RC_ASSERT(std::fabs(sample_strength(1.0, made_up, reading, t_read, t_sample) - strength) <
              1e-8);
    // Homogeneous.
    RC_ASSERT(std::fabs(sample_strength(750.0, 750.0 * made_up, reading, t_read, t_sample) -
                        strength) < 1e-8);
}

TEST(DistilledSample, AtTwentyDegreesItIsProportion) {
    EXPECT_NEAR(sample_strength(500.0, 250.0, 40.0, 20.0), 20.0, 1e-9);
    EXPECT_NEAR(sample_strength(1.0, 1.0, 63.4, 20.0), 63.4, 1e-9);
    EXPECT_EQ(sample_strength(500.0, 250.0, 0.0, 20.0), 0.0);
}

TEST(DistilledSample, Refusals) {
    const auto out = RefusalKind::out_of_range;
    expect_refusal([] { sample_strength(0.0, 250.0, 16.8, 18.0); }, out, "sampleVolume", {"empty"});
    expect_refusal([] { sample_strength(500.0, 0.0, 16.8, 18.0); }, out, "madeUpVolume", {"empty"});
    expect_refusal([] { sample_strength(500.0, 250.0, 116.8, 18.0); }, out, "reading",
                   {"116.8 % vol"});
    expect_refusal([] { sample_strength(500.0, 250.0, 16.8, 0.0); }, out, "temperature", {"empty"});
    expect_refusal([] { sample_strength(500.0, 250.0, 16.8, 18.0, 0.0); }, out, "sampleTemperature",
                   {"empty"});
    expect_refusal([] { sample_strength(500.0, 250.0, 16.8, 18.0, 20.0, {35.0}); }, out,
                   "reference", {"35"});
    for (const double made_up : {1050.0, 1060.0, 100000.0})
        expect_refusal([&] { sample_strength(500.0, made_up, 50.0, 20.0); },
                       RefusalKind::impossible, "madeUpVolume", {"mixed up"});
}
