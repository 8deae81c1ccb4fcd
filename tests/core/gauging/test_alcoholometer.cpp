// STRENGTH and READING: what the alcoholometer shows and what it means.
#include "core/gauging/alcoholometer.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <functional>
#include <gtest/gtest.h>

using namespace jarbook;
using published::Table;

namespace {
constexpr double promised_pct_vol = 1e-9; // the contract's, of every forward-inverse pair

bool is_liquid(double strength, double t) {
    return mass_fraction_from_strength(strength) >= lowest_liquid_mass_fraction(t);
}

// Whether f refuses as impossible; anything else it throws is let through.
template <class F>
bool is_impossible(F f) {
    try {
        f();
    } catch (const Refusal& refusal) {
        if (refusal.kind() != RefusalKind::impossible)
            throw;
        return true;
    }
    return false;
}
} // namespace

TEST(Alcoholometer, DefaultsAreThoseOfTheStandards) {
    const Table facts("alcoholometer_facts.csv", 29);
    int found = 0;
    for (std::size_t row = 0; row < facts.rows(); ++row) {
        // OIML R 44, 2.2; Directive 76/765/EEC
        if (facts.text(row, "fact") ==
            "reference temperature of alcoholometers and alcohol hydrometers") {
            EXPECT_EQ(facts.number(row, "value"), Alcoholometer{}.reference_c);
            ++found;
        }
        // ISO 1768:1975, section 3
        if (facts.text(row, "fact").find("conventional cubic thermal expansion") == 0) {
            EXPECT_EQ(facts.number(row, "value"), Alcoholometer{}.glass_per_c);
            ++found;
        }
    }
    EXPECT_EQ(found, 2);
}

TEST(Alcoholometer, PrintedTableEntry) {
    // Reading 50 at 10 degC, 20 degC instrument: tables are quoted with 53.7 (secondary, the single
    // entry that could be read); half the printed digit. Without the glass it would be 53.78.
    const Table table("oiml_printed_values.csv", 12);
    int checked = 0;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        if (table.blank(row, "indicated_vol_pct"))
            continue;
        EXPECT_NEAR(strength_from_reading(table.number(row, "indicated_vol_pct"),
                                          table.number(row, "temperature_C")),
                    table.number(row, "value"), table.half_digit(row, "value"));
        ++checked;
    }
    EXPECT_EQ(checked, 1);
}

TEST(Alcoholometer, AtItsReferenceTheScaleIsTrue) {
    for (double reading = 0.0; reading <= 100.0; reading += 0.5) {
        EXPECT_NEAR(strength_from_reading(reading, 20.0), reading, promised_pct_vol);
        EXPECT_NEAR(reading_from_strength(reading, 20.0), reading, promised_pct_vol);
        // % vol at 15 degC of the same liquid: plain R 22 with mixture and ethanol at 15.
        EXPECT_NEAR(strength_from_reading(reading, 15.0, {15.0}),
                    plain_r22::pct_vol(plain_r22::mass_fraction(reading, 15.0), 20.0),
                    promised_pct_vol);
    }
}

TEST(Alcoholometer, AgreesWithBisectionOfThePlainFormula) {
    // The form of alcoholometer.hpp solved once more by bisection: 1e-9 % vol.
    for (const Alcoholometer& instrument :
         {Alcoholometer{}, Alcoholometer{15.0, 25e-6}, Alcoholometer{(60.0 - 32.0) / 1.8, 25e-6},
          Alcoholometer{10.0, 5e-6}, Alcoholometer{30.0, 100e-6}})
        for (double t = -19.5; t <= 40.0; t += 3.5)
            for (double reading = 32.0; reading <= 89.5; reading += 2.5)
                ASSERT_NEAR(strength_from_reading(reading, t, instrument),
                            plain_r22::strength_from_reading(reading, t, instrument.reference_c,
                                                             instrument.glass_per_c),
                            promised_pct_vol)
                    << "reading " << reading << " t " << t;
}

TEST(Alcoholometer, RoundTripOnTheWholeGrid) {
    // Every strength that is liquid and on the scale comes back; what the scale cannot show is
    // refused.
    for (const Alcoholometer& instrument :
         {Alcoholometer{}, Alcoholometer{10.0, 100e-6}, Alcoholometer{30.0, 5e-6}}) {
        int shown = 0;
        for (int i = 0; i <= 240; ++i)
            for (int j = 0; j <= 400; ++j) {
                const double t = -20.0 + 0.25 * i;
                const double strength = 0.25 * j;
                if (t == 0.0 || !is_liquid(strength, t))
                    continue;
                double reading = 0.0;
                if (is_impossible(
                        [&] { reading = reading_from_strength(strength, t, instrument); }))
                    continue;
                ++shown;
                ASSERT_NEAR(strength_from_reading(reading, t, instrument), strength,
                            promised_pct_vol)
                    << "strength " << strength << " t " << t << " ref " << instrument.reference_c;
            }
        EXPECT_GT(shown, 70'000); // of 96,641, less the frozen and what is off the scale
    }
}

RC_GTEST_PROP(Alcoholometer, RoundTripFromStrength, ()) {
    const Alcoholometer instrument{*within(10.0, 30.0), *within(5e-6, 100e-6)};
    const double t = *within(-20.0, 40.0);
    const double strength = *within(0.0, 100.0);
    if (t == 0.0 || !is_liquid(strength, t))
        return;
    double reading = 0.0;
    if (is_impossible([&] { reading = reading_from_strength(strength, t, instrument); }))
        return;
    RC_ASSERT(reading >= 0.0);
    RC_ASSERT(reading <= 100.0);
    RC_ASSERT(std::fabs(strength_from_reading(reading, t, instrument) - strength) <=
              promised_pct_vol);
}

RC_GTEST_PROP(Alcoholometer, RoundTripFromReading, ()) {
    const Alcoholometer instrument{*within(10.0, 30.0), *within(5e-6, 100e-6)};
    const double t = *within(-20.0, 40.0);
    const double reading = *within(0.0, 100.0);
    if (t == 0.0)
        return;
    double strength = 0.0;
    if (is_impossible([&] { strength = strength_from_reading(reading, t, instrument); }))
        return;
    RC_ASSERT(strength >= 0.0);
    RC_ASSERT(strength <= 100.0);
    RC_ASSERT(std::fabs(reading_from_strength(strength, t, instrument) - reading) <=
              promised_pct_vol);
}

RC_GTEST_PROP(Alcoholometer, AHigherReadingIsAStrongerSpirit, ()) {
    const double t = *within(-20.0, 40.0);
    const double a = *within(0.0, 100.0);
    const double b = *within(0.0, 100.0);
    if (t == 0.0 || b - a < promised_pct_vol)
        return;
    double weaker = 0.0;
    double stronger = 0.0;
    if (is_impossible([&] { weaker = strength_from_reading(a, t); }) ||
        is_impossible([&] { stronger = strength_from_reading(b, t); }))
        return;
    RC_ASSERT(weaker < stronger);
}

TEST(Alcoholometer, WarmSpiritReadsHigh) {
    // From 30 % vol up, wherever liquid: the same reading means less the warmer the spirit is.
    for (double reading = 30.0; reading <= 90.0; reading += 5.0) {
        double before = 101.0;
        for (double t = -19.5; t <= 40.0; t += 1.0) {
            double strength = 0.0;
            if (is_impossible([&] { strength = strength_from_reading(reading, t); }))
                continue;
            ASSERT_LT(strength, before) << "reading " << reading << " t " << t;
            before = strength;
        }
        EXPECT_GT(strength_from_reading(reading, 15.0), reading);
        EXPECT_LT(strength_from_reading(reading, 25.0), reading);
    }
}

TEST(Alcoholometer, RefusalsOfSingleArguments) {
    using Check = std::function<std::function<void()>(double, double, double, double)>;
    const Check strength = [](double r, double t, double ref, double glass) {
        return [=] { (void)strength_from_reading(r, t, {ref, glass}); };
    };
    const Check reading = [](double s, double t, double ref, double glass) {
        return [=] { (void)reading_from_strength(s, t, {ref, glass}); };
    };
    const auto out = RefusalKind::out_of_range;
    expect_refusal(strength(100.5, 15.0, 20.0, 25e-6), out, "reading",
                   {"100.5 % vol", "0 to 100 % vol"});
    expect_refusal(strength(-1.0, 15.0, 20.0, 25e-6), out, "reading",
                   {"-1 % vol", "0 to 100 % vol"});
    expect_refusal(strength(std::nan(""), 15.0, 20.0, 25e-6), out, "reading", {"not a number"});
    expect_refusal(reading(100.5, 15.0, 20.0, 25e-6), out, "strength",
                   {"100.5 % vol", "0 to 100 % vol"});
    expect_refusal(reading(-1.0, 15.0, 20.0, 25e-6), out, "strength",
                   {"-1 % vol", "0 to 100 % vol"});
    for (const Check& f : {strength, reading}) {
        // An empty cell is 0, and a temperature of 0 is one.
        expect_refusal(f(50.0, 0.0, 20.0, 25e-6), out, "temperature",
                       {"temperature is 0 °C", "Is the cell empty?", "0.001"});
        expect_refusal(f(50.0, -0.0, 20.0, 25e-6), out, "temperature", {"Is the cell empty?"});
        expect_refusal(f(50.0, 40.5, 20.0, 25e-6), out, "temperature", {"40.5 °C", "-20 to 40 °C"});
        expect_refusal(f(50.0, -21.0, 20.0, 25e-6), out, "temperature", {"-21 °C", "-20 to 40 °C"});
        expect_refusal(f(50.0, 15.0, 9.9, 25e-6), out, "reference", {"9.9 °C", "10 to 30 °C"});
        expect_refusal(f(50.0, 15.0, 30.1, 25e-6), out, "reference", {"30.1 °C", "10 to 30 °C"});
        expect_refusal(f(50.0, 15.0, 0.0, 25e-6), out, "reference", {"0 °C", "10 to 30 °C"});
        expect_refusal(f(50.0, 15.0, 20.0, 0.0), out, "glass", {"5e-06 to 0.0001 per °C"});
        expect_refusal(f(50.0, 15.0, 20.0, 25.0), out, "glass", {"25 per °C"});
        EXPECT_NO_THROW(f(50.0, 0.001, 20.0, 25e-6)());
        EXPECT_NO_THROW(f(50.0, 15.0, 10.0, 5e-6)());
        EXPECT_NO_THROW(f(50.0, 15.0, 30.0, 100e-6)());
    }
}

TEST(Alcoholometer, RefusalsSayWhichReadingsArePossible) {
    // 40 degC is too warm for a reading of 0: by R 22 water at 40 degC (992.2 kg/m3) shows what has
    // that density at 20 degC, a little under 4 % vol.
    expect_refusal([] { (void)strength_from_reading(0.0, 40.0); }, RefusalKind::impossible,
                   "reading",
                   {"0 % vol at 40 °C", "denser than water", "Allowed at that temperature: 3.",
                    "to 100 % vol"});
    // 5 % vol is frozen at -10 degC (CRC).
    expect_refusal([] { (void)strength_from_reading(5.0, -10.0); }, RefusalKind::impossible,
                   "reading", {"5 % vol at -10 °C", "frozen", "Allowed at that temperature: "});
    // Ethanol at 10 degC is denser than at 20 and cannot show 100.
    expect_refusal(
        [] { (void)strength_from_reading(100.0, 10.0); }, RefusalKind::impossible, "reading",
        {"100 % vol at 10 °C", "lighter than ethanol", "Allowed at that temperature: 0 to 9"});
    expect_refusal([] { (void)reading_from_strength(100.0, 30.0); }, RefusalKind::impossible,
                   "strength", {"100 % vol", "30 °C", "above 100 on the scale", "or less"});
    expect_refusal([] { (void)reading_from_strength(0.0, 10.0); }, RefusalKind::impossible,
                   "strength", {"0 % vol", "10 °C", "below 0 on the scale", "or more"});
    expect_refusal([] { (void)reading_from_strength(10.0, -15.0); }, RefusalKind::impossible,
                   "temperature", {"-15 °C", "10 % vol", "frozen"});
}

TEST(Alcoholometer, TheReadingsNamedAsPossibleAre) {
    // The limit in the sentence, taken at its word, is the boundary to its six digits.
    const auto limit_of = [](const std::string& sentence, const std::string& before) {
        return std::stod(sentence.substr(sentence.find(before) + before.size()));
    };
    for (const double t : {25.0, 32.5, 40.0}) {
        try {
            (void)strength_from_reading(0.0, t);
            FAIL() << "not refused";
        } catch (const Refusal& refusal) {
            const double limit = limit_of(refusal.sentence(), "Allowed at that temperature: ");
            EXPECT_NO_THROW((void)strength_from_reading(limit + 1e-4, t)) << refusal.sentence();
            EXPECT_ANY_THROW((void)strength_from_reading(limit - 1e-4, t)) << refusal.sentence();
        }
        try {
            (void)reading_from_strength(100.0, t);
            FAIL() << "not refused";
        } catch (const Refusal& refusal) {
            const double limit = limit_of(refusal.sentence(), "Allowed at that temperature: ");
            EXPECT_NO_THROW((void)reading_from_strength(limit - 1e-4, t)) << refusal.sentence();
            EXPECT_ANY_THROW((void)reading_from_strength(limit + 1e-4, t)) << refusal.sentence();
        }
    }
}
