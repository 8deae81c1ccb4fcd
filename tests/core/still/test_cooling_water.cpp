// COOLINGWATER: the heat balance of a run closes, and the litres carry the heat away.
#include "core/still/cooling_water.hpp"

#include "core/still/enthalpy.hpp"
#include "core/still/run_cache.hpp"
#include "core/still/run_heat.hpp"
#include "core/still/running_time.hpp"
#include "still/plain_still.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>

using namespace jarbook;

namespace {

// J that the litres of cooling water take up: water of R 22 at 20 degC, 4.18 kJ/(kg K).
double taken_up(double litres, double rise) {
    return litres * plain_r22::density(0.0, 20.0) / 1000.0 * 4180.0 * rise;
}

// What the distillate carries off as liquid, and what the boiler's contents gain, J per L of
// charge: Simpson's rule along ln n with the plain still.
double carried_off_and_gained(double strength, double stop, double celsius, const Still& still) {
    const double pressure = 100.0 * still.pressure_hpa;
    plain_still::Run to_stop(strength, still.stages, still.pressure_hpa);
    to_stop.until_strength(stop);
    plain_still::Run run(strength, still.stages, still.pressure_hpa);
    const auto in_boiler = [&] {
        return run.left() * liquid_enthalpy(run.boiler_x(), run.boiler_c() + 273.15);
    };
    constexpr int intervals = 80;
    const double step = to_stop.boiled() / intervals;
    double sum = 0.0;
    const double before = in_boiler();
    for (int i = 0; i <= intervals; ++i) {
        const double y = plain_still::distillate(run.boiler_x(), still.stages, pressure);
        sum += (i == 0 || i == intervals ? 1.0
                : i % 2                  ? 4.0
                                         : 2.0) *
               run.left() * liquid_enthalpy(y, celsius + 273.15);
        if (i < intervals) {
            const double end = run.boiled() + step;
            run.until([&] { return end - 1e-14 - run.boiled(); });
        }
    }
    return step / 3.0 * sum + in_boiler() - before;
}

} // namespace

// Heat in = condenser + warming of the boiler + what the distillate carries off; to 1e-6.
TEST(CoolingWater, TheBalanceOfTheRunCloses) {
    struct Case {
        double strength, stop, celsius, reflux;
        Still still;
    };
    for (const Case& c : {Case{40.0, 20.0, 20.0, 0.0, {}}, Case{10.0, 5.0, 18.0, 0.0, {1.0, 950.0}},
                          Case{28.0, 30.0, 25.0, 1.0, {1.15, 1013.25}},
                          Case{60.0, 40.0, 12.0, 3.0, {2.0, 800.0}}}) {
        const double heat_in =
            3600.0 * 1000.0 * run_hours({1.0, c.strength}, c.stop, 1000.0, c.still, c.reflux);
        const double condenser = taken_up(
            cooling_water({1.0, c.strength}, c.stop, 30.0, c.celsius, c.still, c.reflux), 30.0);
        const double rest = carried_off_and_gained(c.strength, c.stop, c.celsius, c.still);
        EXPECT_NEAR(condenser + rest, heat_in, 1e-6 * heat_in) << c.strength;
    }
}

// The same by the pieces themselves, for any run.
RC_GTEST_PROP(CoolingWater, ThePiecesAddUp, ()) {
    const double strength = *within(2.0, 90.0);
    const Still still{*within(1.0, 4.0), *within(600.0, 1100.0)};
    const double reflux = *within(0.0, 10.0);
    const auto run = RunMemory::get().run(strength, still.stages, still.pressure_hpa);
    const double stop = *within(1.0, 95.0);
    RC_PRE(stop < run->first_strength());
    const auto end = when_shown(*run, "stop", stop);
    const double joules = heat_raised(*run, end, reflux) + boiler_gain(*run, end);
    RC_ASSERT(std::fabs(run_hours({1.0, strength}, stop, 1000.0, still, reflux) * 3.6e6 - joules) <=
              1e-12 * std::fabs(joules));
    // Colder distillate gives up more; the difference is its own heat, near 4 J/(g K).
    const double cold = heat_condensed(*run, end, reflux, 283.15);
    const double warm = heat_condensed(*run, end, reflux, 303.15);
    RC_ASSERT(cold >= warm);
    // Twice the rise, half the water.
    const double litres = cooling_water({10.0, strength}, stop, 20.0, 20.0, still, reflux);
    RC_ASSERT(std::fabs(cooling_water({10.0, strength}, stop, 40.0, 20.0, still, reflux) -
                        0.5 * litres) <= 1e-12 * litres);
    // Homogeneous, and growing with reflux.
    RC_ASSERT(std::fabs(cooling_water({25.0, strength}, stop, 20.0, 20.0, still, reflux) -
                        2.5 * litres) <= 1e-12 * litres);
    if (litres > 1e-9)
        RC_ASSERT(cooling_water({10.0, strength}, stop, 20.0, 20.0, still, reflux + 0.1) > litres);
}

TEST(CoolingWater, IsNearWhatTheHeatOfVaporisationAloneTakes) {
    // Nearly water: 2257 kJ/kg (IAPWS, 100 degC) and 80 K x 4.19 of cooling. What runs holds some 4
    // % of alcohol by mass, which takes 0.4 of that heat: 2.4 % less; 1 % for the boiling points
    // between 99.0 and 99.8 degC and the density.
    const auto rows = forecast_table({100.0, 1.0}, 2.0, 2);
    const double joules = 0.997 * rows.back().collected * (2257e3 + 80.0 * 4190.0);
    EXPECT_NEAR(taken_up(cooling_water({100.0, 1.0}, 2.0, 40.0), 40.0), 0.976 * joules,
                0.01 * joules);
}

TEST(CoolingWater, Refusals) {
    using K = RefusalKind;
    const Charge charge{10.0, 40.0};
    expect_refusal([&] { cooling_water(charge, 20.0, 0.0); }, K::out_of_range, "rise",
                   {"0 K", "1 to 80 K", "empty"});
    expect_refusal([&] { cooling_water(charge, 20.0, 81.0); }, K::out_of_range, "rise", {"81 K"});
    expect_refusal([&] { cooling_water(charge, 20.0, 30.0, 0.0); }, K::out_of_range,
                   "distillateTemperature", {"0.01 to 60 °C", "empty"});
    expect_refusal([&] { cooling_water(charge, 20.0, 30.0, 61.0); }, K::out_of_range,
                   "distillateTemperature", {"61 °C"});
    expect_refusal([&] { cooling_water(charge, 20.0, 30.0, 20.0, {}, -1.0); }, K::out_of_range,
                   "reflux", {"-1", "0 to 100"});
    expect_refusal([&] { cooling_water(charge, 85.0, 30.0); }, K::impossible, "stop",
                   {"85", number_text(plain_still::Run(40.0, 1.0, 1013.25).running())});
    expect_refusal(
        [] {
            cooling_water({0.0, 40.0}, 20.0, 30.0);
        },
        K::out_of_range, "chargeVolume", {"empty"});
}
