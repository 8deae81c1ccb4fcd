// UNCERTAINTY: first-order propagation, GUM (JCGM 100:2008) clause 5, held against finite
// differences of STRENGTH and against a Monte-Carlo of the whole model (JCGM 101:2008).
#include "core/gauging/alcoholometer.hpp"

#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

using namespace jarbook;

namespace {

const double root3 = std::sqrt(3.0);

// Standard uncertainty that is left when the formula's own part is taken out.
double without_formula(double reading, double t, double reading_tolerance, double t_tolerance,
                       const Alcoholometer& instrument) {
    const double all = reading_uncertainty(reading, t, reading_tolerance, t_tolerance, instrument);
    const double formula = reading_uncertainty(reading, t, 0.0, 0.0, instrument);
    return std::sqrt(all * all - formula * formula) / 2.0;
}

} // namespace

RC_GTEST_PROP(Uncertainty, SensitivitiesAreTheDerivativesOfStrength, ()) {
    const Alcoholometer instrument{*within(10.0, 30.0), *within(5e-6, 100e-6)};
    const double t = *within(-19.0, 39.0);
    const double reading =
        *within(33.0, 88.0); // liquid, and on the scale, at all these temperatures
    // Central differences: h^2 times third derivatives well below 1, and 1e-9/h of the solver.
    constexpr double h = 1e-2;
    if (std::fabs(t) < 2 * h)
        return;
    const double per_reading = (strength_from_reading(reading + h, t, instrument) -
                                strength_from_reading(reading - h, t, instrument)) /
                               (2 * h);
    const double per_c = (strength_from_reading(reading, t + h, instrument) -
                          strength_from_reading(reading, t - h, instrument)) /
                         (2 * h);
    RC_ASSERT(std::fabs(without_formula(reading, t, 0.6, 0.0, instrument) -
                        std::fabs(per_reading) * 0.6 / root3) < 1e-5);
    RC_ASSERT(std::fabs(without_formula(reading, t, 0.0, 0.6, instrument) -
                        std::fabs(per_c) * 0.6 / root3) < 1e-5);
}

TEST(Uncertainty, TheFormulasOwnPart) {
    // U(rho) = 0.05 kg/m3 (k = 2) of the liquid's density, turned into strength by the slope of
    // R 22.
    for (const double strength : {5.0, 20.0, 40.0, 60.0, 80.0, 96.0}) {
        const double rho = density_from_strength(strength, 20.0);
        const double by_difference =
            (strength_from_density(rho - 0.025, 20.0) - strength_from_density(rho + 0.025, 20.0));
        // Second differences are below a per cent over so small a step.
        EXPECT_NEAR(reading_uncertainty(strength, 20.0, 0.0, 0.0), by_difference,
                    0.01 * by_difference)
            << strength;
    }
}

TEST(Uncertainty, AgreesWithMonteCarlo) {
    // The whole model, drawn 200,000 times with a fixed seed: reading and temperature rectangular,
    // density of the liquid normal. The spread of a sampled standard deviation is 1/sqrt(2n) = 0.16
    // %; four of them, and the curvature over these tolerances, are within 1 %.
    struct Case {
        double reading, t, reading_tolerance, t_tolerance;
        Alcoholometer instrument;
    };
    const Case cases[] = {
        {43.0, 18.0, 0.25, 0.5, {}}, {62.0, 24.0, 0.5, 0.5, {}},
        {78.5, 28.0, 0.5, 1.0, {}},  {35.0, 12.0, 0.1, 0.1, {15.0, 25e-6}},
        {90.0, 22.0, 0.2, 0.3, {}},  {55.0, -5.0, 0.5, 0.5, {}},
    };
    constexpr int n = 200'000;
    std::mt19937_64 random(20220219); // fixed: the test gives the same answer every time
    const auto uniform = [&] {
        return 2.0 * (static_cast<double>(random() >> 11) * 0x1p-53) - 1.0;
    };
    const auto normal = [&] { // Box-Muller
        const double u = 1.0 - static_cast<double>(random() >> 11) * 0x1p-53;
        const double v = static_cast<double>(random() >> 11) * 0x1p-53;
        return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * std::acos(-1.0) * v);
    };
    for (const Case& c : cases) {
        double sum = 0.0;
        double squares = 0.0;
        const double centre = strength_from_reading(c.reading, c.t, c.instrument);
        for (int i = 0; i < n; ++i) {
            const double reading = c.reading + c.reading_tolerance * uniform();
            const double t = c.t + c.t_tolerance * uniform();
            const double true_strength = strength_from_reading(reading, t, c.instrument);
            const double rho = density_from_strength(true_strength, t) +
                               r22::density_uncertainty_kg_m3 / 2.0 * normal();
            const double d = strength_from_density(rho, t) - centre;
            sum += d;
            squares += d * d;
        }
        const double mean = sum / n;
        const double sampled = 2.0 * std::sqrt(squares / n - mean * mean);
        EXPECT_NEAR(
            reading_uncertainty(c.reading, c.t, c.reading_tolerance, c.t_tolerance, c.instrument),
            sampled, 0.01 * sampled)
            << c.reading << " at " << c.t;
    }
}

RC_GTEST_PROP(Uncertainty, GrowsWithTheTolerancesAndAddsInSquares, ()) {
    const double t = *within(-15.0, 38.0);
    const double reading = *within(40.0, 85.0);
    const double a = *within(0.0, 2.0);
    const double b = *within(0.0, 2.0);
    if (t == 0.0)
        return;
    const double none = reading_uncertainty(reading, t, 0.0, 0.0);
    const double first = reading_uncertainty(reading, t, a, 0.0);
    const double second = reading_uncertainty(reading, t, 0.0, b);
    const double both = reading_uncertainty(reading, t, a, b);
    RC_ASSERT(none > 0.0);
    RC_ASSERT(first >= none);
    RC_ASSERT(both >= first);
    RC_ASSERT(both >= second);
    const double squares = first * first + second * second - none * none;
    RC_ASSERT(std::fabs(both * both - squares) <= 1e-12 * squares);
}

TEST(Uncertainty, AtTheEndsOfTheRange) {
    // One-sided derivatives there; they must agree with those just inside.
    EXPECT_NEAR(reading_uncertainty(60.0, 40.0, 0.1, 0.5),
                reading_uncertainty(60.0, 39.99, 0.1, 0.5), 1e-3);
    EXPECT_NEAR(reading_uncertainty(60.0, -20.0, 0.1, 0.5),
                reading_uncertainty(60.0, -19.99, 0.1, 0.5), 1e-3);
    EXPECT_TRUE(std::isfinite(reading_uncertainty(0.0, 20.0, 0.1, 0.1)));
    EXPECT_TRUE(std::isfinite(reading_uncertainty(100.0, 20.0, 0.1, 0.1)));
}

TEST(Uncertainty, Refusals) {
    const auto u = [](double r, double t, double tr, double tt, double ref = 20.0) {
        return [=] { (void)reading_uncertainty(r, t, tr, tt, {ref}); };
    };
    const auto out = RefusalKind::out_of_range;
    expect_refusal(u(50.0, 20.0, -0.1, 0.5), out, "readingTolerance", {"-0.1 % vol", "0 to 10"});
    expect_refusal(u(50.0, 20.0, 10.5, 0.5), out, "readingTolerance", {"10.5 % vol", "0 to 10"});
    expect_refusal(u(50.0, 20.0, 0.1, -0.5), out, "temperatureTolerance", {"-0.5 °C", "0 to 10"});
    expect_refusal(u(50.0, 20.0, 0.1, 11.0), out, "temperatureTolerance", {"11 °C", "0 to 10"});
    expect_refusal(u(150.0, 20.0, 0.1, 0.5), out, "reading", {"150 % vol", "0 to 100"});
    expect_refusal(u(50.0, 0.0, 0.1, 0.5), out, "temperature", {"Is the cell empty?"});
    expect_refusal(u(50.0, 50.0, 0.1, 0.5), out, "temperature", {"50 °C", "-20 to 40"});
    expect_refusal(u(50.0, 20.0, 0.1, 0.5, 0.0), out, "reference", {"0 °C", "10 to 30"});
    expect_refusal(u(0.0, 35.0, 0.1, 0.5), RefusalKind::impossible, "reading", {"35 °C"});
}
