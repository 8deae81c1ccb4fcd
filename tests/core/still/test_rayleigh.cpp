// Rayleigh's equation: the closed form where there is one, another quadrature where there is none.
#include "core/still/rayleigh.hpp"

#include "core/still/equilibrium.hpp"
#include "core/still/pot_run.hpp"

#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cmath>
#include <gtest/gtest.h>

namespace {

using namespace jarbook;

TEST(Rayleigh, IsTheClosedFormForConstantRelativeVolatility) {
    // ln(n0/n) = (ln(x0/x) + alpha ln((1-x)/(1-x0))) / (alpha - 1), with nothing that cannot be
    // passed before x = 1. The lift is then ln alpha throughout; what is tested is the quadrature,
    // its panels and their joints, and the tail. 1e-12 absolute where little has boiled, else
    // relative: rounding.
    for (const double alpha : {1.05, 1.5, 2.5, 9.0, 1000.0})
        for (const double x0 : {0.001, 0.2, 0.5, 0.99}) {
            const double v0 = std::log(x0 / (1.0 - x0));
            const RayleighCurve curve([alpha](double) { return std::log(alpha); }, v0);
            for (double progress = 0.0; progress < 60.0; progress += 0.37) {
                const double x = 1.0 / (1.0 + std::exp(progress - v0));
                const double closed = (progress + std::log1p(-x0) - std::log1p(-x) +
                                       alpha * (std::log1p(-x) - std::log1p(-x0))) /
                                      (alpha - 1.0);
                EXPECT_NEAR(curve.at(progress).boiled, closed, 1e-12 + 1e-10 * closed)
                    << alpha << " " << x0 << " " << progress;
            }
        }
}

TEST(Rayleigh, AgreesWithAnotherQuadratureAlongComposition) {
    // tanh-sinh on 1/(y - x) itself along x, one stretch from charge to boiler, in place of
    // Gauss-Legendre panels of v. The series' own error is below 1e-8.
    boost::math::quadrature::tanh_sinh<double> quadrature;
    for (const double pressure : {600.0, 1013.25})
        for (const double stages : {1.0, 1.15, 2.0, 3.7, 10.0}) {
            const Equilibrium equilibrium(pressure);
            const double a = equilibrium.azeotrope_fraction();
            const auto lift = [&](double v) {
                const double x = a / (1.0 + std::exp(-v));
                const double y = distillate_fraction(equilibrium, x, stages);
                return std::log(y / (a - y)) - v;
            };
            for (const double x0 : {0.01, 0.15, 0.8}) {
                const RayleighCurve curve(lift, std::log(x0 / (a - x0)));
                for (const double x : {0.9 * x0, 0.3 * x0, 0.02 * x0}) {
                    const double direct = quadrature.integrate(
                        [&](double at) {
                            return 1.0 / (distillate_fraction(equilibrium, at, stages) - at);
                        },
                        x, x0, 1e-12);
                    const double progress = std::log(x0 / (a - x0)) - std::log(x / (a - x));
                    EXPECT_NEAR(curve.at(progress).boiled, direct, 1e-8 * direct)
                        << pressure << " " << stages << " " << x0 << " " << x;
                }
            }
        }
}

TEST(Rayleigh, KeepsTheLiftBetweenTheNodes) {
    for (const double stages : {1.0, 1.5, 2.0, 10.0}) {
        const Equilibrium equilibrium(1013.25);
        const double a = equilibrium.azeotrope_fraction();
        const auto lift = [&](double v) {
            const double x = a / (1.0 + std::exp(-v));
            const double y = distillate_fraction(equilibrium, x, stages);
            return std::log(y / (a - y)) - v;
        };
        const RayleighCurve curve(lift, 4.0);
        // Up to the tail the series, in it the law of infinite dilution.
        for (double progress = 0.0; progress < 70.0; progress += 0.0717)
            EXPECT_NEAR(curve.at(progress).lift, lift(4.0 - progress), 1e-8) << progress;
    }
}

TEST(Rayleigh, FindsWhenTheDistillateHasFallen) {
    const RayleighCurve curve([](double v) { return 2.0 - std::tanh(0.5 * v); }, 3.0);
    for (double progress = 0.0; progress < 80.0; progress += 0.31) {
        const double logit = 3.0 - progress + curve.at(progress).lift;
        EXPECT_NEAR(curve.when_logit(logit), progress, 1e-10 * (1.0 + progress));
    }
}

TEST(Rayleigh, RateIsRightAtBothEnds) {
    // Infinitely dilute: 1 / (K - 1). Next to the limit: 1 / (1 - 1/K).
    EXPECT_NEAR(RayleighCurve::rate(-HUGE_VAL, std::log(12.0)), 1.0 / 11.0, 1e-15);
    EXPECT_NEAR(RayleighCurve::rate(800.0, std::log(2.0)), 2.0, 1e-15);
    EXPECT_NEAR(RayleighCurve::rate(0.0, std::log(3.0)), (1.0 + 1.0 / 3.0) / (2.0 * 2.0 / 3.0),
                1e-15);
}

} // namespace
