// PYCNOMETERDENSITY and PLUMMETDENSITY: the weighings made from known densities, back again.
#include "core/gauging/weighed_density.hpp"

#include "core/gauging/weighing.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>

using namespace jarbook;

namespace {

// What a balance shows of a flask (kg, of glass of 2230 kg/m3) with a liquid in it: each of the
// three displaces air, the weights of 8000 kg/m3, too.
double balance(double flask_kg, double volume_m3, double density) {
    const double air = 1.2;
    const double true_load = flask_kg * (1.0 - air / 2230.0) + volume_m3 * (density - air);
    return true_load / (1.0 - air / 8000.0);
}

} // namespace

TEST(Pycnometer, TheContractsExample) {
    // 50/150/145 g at 20 degC: 948.351 kg/m3 with the water of R 22, 948.354 with Kell's; 39.81 %
    // vol.
    EXPECT_NEAR(pycnometer_density(50.0, 150.0, 145.0), 948.351, 0.0005);
    EXPECT_NEAR(0.95 * (998.2041 - 1.2) + 1.2, 948.354, 0.0005); // Kell's water, by hand
    EXPECT_NEAR(strength_from_density(pycnometer_density(50.0, 150.0, 145.0), 20.0), 39.81, 0.005);
    // The unit does not matter.
    EXPECT_NEAR(pycnometer_density(0.05, 0.15, 0.145), pycnometer_density(50.0, 150.0, 145.0),
                1e-9);
}

// A flask of glass is weighed, with air about everything, and the density that was in it comes out.
RC_GTEST_PROP(Pycnometer, GivesBackTheDensityThatWasInTheFlask, ()) {
    const double strength = *within(0.0, 100.0);
    const double t_spirit = *within(0.001, 40.0);
    const double t_water = *within(0.001, 40.0);
    const double glass = *within(5e-6, 100e-6);
    const double flask_kg = *within(0.01, 1.0);
    const double volume = 1e-4; // m3 at the water's temperature
    const double density = plain_r22::density(plain_r22::mass_fraction(strength, 20.0), t_spirit);
    const double empty = balance(flask_kg, 0.0, 0.0);
    const double water = balance(flask_kg, volume, plain_r22::density(0.0, t_water));
    const double spirit = balance(flask_kg, volume * (1.0 + glass * (t_spirit - t_water)), density);
    // The readings are 1e-16 of up to 1 kg, of which 0.1 is liquid: 1e-11 of the density.
    RC_ASSERT(std::fabs(pycnometer_density(empty, water, spirit, {t_water, t_spirit, glass}) -
                        density) < 1e-8);
}

// The beaker with its liquid and the sunken plummet, weighed as a whole that displaces air: before,
// the plummet hangs above and the liquid stands lower.
RC_GTEST_PROP(Plummet, GivesBackTheDensityInTheBeaker, ()) {
    const double strength = *within(0.0, 100.0);
    const double t_spirit = *within(0.001, 40.0);
    const double t_water = *within(0.001, 40.0);
    const double steel = *within(5e-6, 100e-6);
    const double plummet = *within(1e-6, 1e-3); // m3
    const auto load = [](double density, double volume) {
        const double air = 1.2;
        const double carried = density * volume; // what the liquid carries of the plummet
        const double buoyancy = air * volume;    // of the air that the risen liquid displaces
        return (carried - buoyancy) / (1.0 - air / 8000.0);
    };
    const double density = plain_r22::density(plain_r22::mass_fraction(strength, 20.0), t_spirit);
    const double water = load(plain_r22::density(0.0, t_water), plummet);
    const double spirit = load(density, plummet * (1.0 + steel * (t_spirit - t_water)));
    RC_ASSERT(std::fabs(plummet_density(water, spirit, {t_water, t_spirit, steel}) - density) <
              1e-8);
}

TEST(Plummet, TheAirIsWorthWhatTheHelpSays) {
    // At 40 % vol: 1.2 x (1 - 948.05/998.2) = 0.06; at most, over ethanol, 1.2 x 0.21 = 0.25 kg/m3.
    const double without = 998.2012 * 0.95;
    EXPECT_NEAR(plummet_density(50.0, 47.5) - without, 0.06, 0.0005);
    EXPECT_LT(plummet_density(100.0, 79.0) - 998.2012 * 0.79, 0.2525);
}

RC_GTEST_PROP(Pycnometer, HeavierSpiritIsDenser, ()) {
    const double a = *within(80.0, 100.0);
    const double b = *within(80.0, 100.0);
    if (b - a > 1e-9)
        RC_ASSERT(pycnometer_density(50.0, 150.0, 50.0 + a) <
                  pycnometer_density(50.0, 150.0, 50.0 + b));
}

TEST(Pycnometer, Refusals) {
    const auto out = RefusalKind::out_of_range;
    expect_refusal([] { pycnometer_density(0.0, 150.0, 145.0); }, out, "emptyMass",
                   {"above 0", "Is the cell empty?"});
    expect_refusal([] { pycnometer_density(50.0, 0.0, 145.0); }, out, "waterMass", {"empty"});
    expect_refusal([] { pycnometer_density(50.0, 150.0, -1.0); }, out, "spiritMass", {"-1"});
    expect_refusal([] { pycnometer_density(150.0, 50.0, 145.0); }, RefusalKind::impossible,
                   "waterMass", {"150", "50", "mixed up"});
    expect_refusal([] { pycnometer_density(50.0, 150.0, 50.0); }, RefusalKind::impossible,
                   "spiritMass", {"50", "mixed up"});
    expect_refusal(
        [] {
            pycnometer_density(50.0, 150.0, 145.0, {0.0, 20.0, 1e-5});
        },
        out, "waterTemperature", {"0 to 40 °C", "empty"});
    expect_refusal(
        [] {
            pycnometer_density(50.0, 150.0, 145.0, {-1.0, 20.0, 1e-5});
        },
        out, "waterTemperature", {"-1 °C", "0 to 40 °C"});
    expect_refusal(
        [] {
            pycnometer_density(50.0, 150.0, 145.0, {20.0, 0.0, 1e-5});
        },
        out, "spiritTemperature", {"empty"});
    expect_refusal(
        [] {
            pycnometer_density(50.0, 150.0, 145.0, {20.0, 41.0, 1e-5});
        },
        out, "spiritTemperature", {"41 °C"});
    expect_refusal(
        [] {
            pycnometer_density(50.0, 150.0, 145.0, {20.0, 20.0, 0.0});
        },
        out, "glass", {"5e-06", "0.0001"});
    expect_refusal([] { plummet_density(0.0, 47.0); }, out, "waterLoad", {"empty"});
    expect_refusal([] { plummet_density(50.0, 0.0); }, out, "spiritLoad", {"empty"});
}
