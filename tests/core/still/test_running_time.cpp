// Hours: handbook values of heats, and a balance drawn up drop by drop.
#include "core/still/running_time.hpp"

#include "core/mixture/strength.hpp"
#include "core/still/enthalpy.hpp"
#include "still/plain_still.hpp"
#include "support/published.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <cstdio>
#include <gtest/gtest.h>
#include <stdexcept>
#include <string>

namespace {

using namespace jarbook;

TEST(HeatUp, WaterTakesWhatWaterTakes) {
    // 10 L of water from 20 degC to the boil: 9.982 kg, 4.19 kJ/(kg K) on average from 20 to
    // 100 degC, 80 K. 0.3 % for the roundings.
    const double joules = 9.982 * 4190.0 * 80.0;
    EXPECT_NEAR(heatup_hours(10.0, 0.0, 20.0, 2000.0), joules / 2000.0 / 3600.0,
                0.003 * joules / 2000.0 / 3600.0);
}

TEST(HeatUp, GoesWithVolumeAndAgainstWatts) {
    const double one = heatup_hours(1.0, 30.0, 18.0, 1000.0);
    EXPECT_NEAR(heatup_hours(25.0, 30.0, 18.0, 1000.0), 25.0 * one, 1e-12);
    EXPECT_NEAR(heatup_hours(1.0, 30.0, 18.0, 2500.0), one / 2.5, 1e-12);
    // None at the boil, and the less the warmer it begins.
    const double boil = boiling_point_c(30.0);
    EXPECT_NEAR(heatup_hours(1.0, 30.0, boil, 1000.0), 0.0, 1e-12);
    double before = HUGE_VAL;
    for (double t = 0.01; t < boil; t += 1.0) {
        EXPECT_LT(heatup_hours(1.0, 30.0, t, 1000.0), before);
        before = heatup_hours(1.0, 30.0, t, 1000.0);
    }
}

TEST(HeatUp, HoursOfAMixture) {
    // 10 L of 40 % vol: mass by the plain formula, mol by it, enthalpies as tested above.
    const double mass = 10.0 * plain_r22::density(plain_r22::mass_fraction(40.0, 20.0), 20.0);
    const double x = plain_still::mole_fraction(40.0);
    const double mol = mass / (x * plain_still::ethanol_g + (1.0 - x) * plain_still::water_g);
    const double boil = plain_still::boiling_k(x, 101325.0);
    const double joules = mol * (liquid_enthalpy(x, boil) - liquid_enthalpy(x, 293.15));
    EXPECT_NEAR(heatup_hours(10.0, 40.0, 20.0, 1500.0), joules / 1500.0 / 3600.0, 1e-8);
}

TEST(HeatUp, WithTheMetalOfTheStill) {
    // metals_and_pressure.csv: capacities, and 10 L of 40 % vol with nothing, 10 kg of copper and
    // 10 kg of steel, which add up rounded figures (1e-4 h).
    const published::Table table("metals_and_pressure.csv", 13);
    const auto row_of = [&](const std::string& what) {
        for (std::size_t row = 0; row < table.rows(); ++row)
            if (table.text(row, "what").starts_with(what))
                return row;
        throw std::runtime_error("no row " + what);
    };
    for (const char* metal : {"copper", "stainless steel", "brass", "aluminium"})
        EXPECT_EQ(metal_named(metal, 1.0).capacity_kj_per_kg_k,
                  table.number(row_of(metal), "value"))
            << metal;
    const std::string& hours = table.text(row_of("10 L of 40 % vol, 20 C to the boil"), "value");
    double liquid = 0.0, copper = 0.0, steel = 0.0;
    ASSERT_EQ(std::sscanf(hours.c_str(), "%lf / %lf / %lf", &liquid, &copper, &steel), 3);
    EXPECT_NEAR(heatup_hours(10.0, 40.0, 20.0, 1500.0), liquid, 1e-4);
    EXPECT_NEAR(heatup_hours(10.0, 40.0, 20.0, 1500.0, metal_named("Copper", 10.0)), copper, 1e-4);
    EXPECT_NEAR(heatup_hours(10.0, 40.0, 20.0, 1500.0, metal_named(" STAINLESS steel", 10.0)),
                steel, 1e-4);
    // As the contract has it, and what it adds is m c dT, by hand.
    EXPECT_NEAR(heatup_hours(10.0, 40.0, 20.0, 1500.0, metal_named("copper", 10.0)), 0.529, 0.0005);
    const double added = heatup_hours(10.0, 40.0, 20.0, 1500.0, metal_named("brass", 4.0)) -
                         heatup_hours(10.0, 40.0, 20.0, 1500.0);
    EXPECT_NEAR(added, 4.0 * 377.0 * (boiling_point_c(40.0) - 20.0) / 1500.0 / 3600.0, 1e-12);
    EXPECT_EQ(heatup_hours(10.0, 40.0, 20.0, 1500.0, metal_named("copper", 0.0)),
              heatup_hours(10.0, 40.0, 20.0, 1500.0));
    expect_refusal([] { metal_named("glass", 1.0); }, RefusalKind::not_a_number, "metal",
                   {"glass", "copper, stainless steel, brass, aluminium"});
    expect_refusal([] { heatup_hours(1.0, 40.0, 20.0, 1000.0, metal_named("copper", -1.0)); },
                   RefusalKind::out_of_range, "metalMass", {"-1"});
}

TEST(HeatUp, Refuses) {
    using K = RefusalKind;
    const double boiling =
        plain_still::boiling_k(plain_still::mole_fraction(40.0), 101325.0) - 273.15;
    expect_refusal([] { heatup_hours(0.0, 40.0, 20.0, 1000.0); }, K::out_of_range, "volume",
                   {"empty"});
    expect_refusal([] { heatup_hours(1.0, 0.4, 20.0, 1000.0); }, K::out_of_range, "strength",
                   {"40, not 0.40"});
    expect_refusal([] { heatup_hours(1.0, 40.0, 0.0, 1000.0); }, K::out_of_range, "fromTemperature",
                   {"0 °C", "0.01 to 100", "empty"});
    expect_refusal([] { heatup_hours(1.0, 40.0, 90.0, 1000.0); }, K::impossible, "fromTemperature",
                   {"90 °C", number_text(boiling)});
    expect_refusal([] { heatup_hours(1.0, 40.0, 20.0, 0.0); }, K::out_of_range, "watts",
                   {"0 W", "above 0"});
}

// The heat that a still takes from one moment to another, by the first law: what the boiler holds
// at the end, less what it held, and what ran off as vapour, drop by drop with the trapezium rule.
// With Richardson's extrapolation the rule is of fourth order.
double joules_by_drops(double charge_strength, double stop, double stages, double pressure_hpa,
                       int drops) {
    const double pressure = 100.0 * pressure_hpa;
    plain_still::Run run(charge_strength, stages, pressure_hpa);
    plain_still::Run to_stop(charge_strength, stages, pressure_hpa);
    to_stop.until_strength(stop);
    const double step = to_stop.boiled() / drops;

    const auto in_boiler = [&](const plain_still::Run& at) {
        return at.left() * liquid_enthalpy(at.boiler_x(), at.boiler_c() + 273.15);
    };
    // Per mol distilled: the vapour at its dew point.
    const auto vapour = [&](const plain_still::Run& at) {
        const double y = plain_still::distillate(at.boiler_x(), stages, pressure);
        const double x = plain_r22::bisect(
            [&](double liquid) { return plain_still::vapour(liquid, pressure) - y; }, 0.0, y);
        return vapour_enthalpy(y, plain_still::boiling_k(x, pressure));
    };
    double joules = -in_boiler(run);
    double before = vapour(run) * run.left();
    for (int i = 0; i < drops; ++i) {
        const double end = run.boiled() + step;
        run.until([&] { return end - 1e-14 - run.boiled(); });
        const double after = vapour(run) * run.left();
        joules += 0.5 * (before + after) * step; // d(distilled) = n d ln(n0/n)
        before = after;
    }
    return joules + in_boiler(run);
}

TEST(RunTime, IsTheFirstLawDropByDrop) {
    struct Case {
        double charge_strength, stop, stages, pressure_hpa;
    };
    for (const Case& c : {Case{40.0, 20.0, 1.0, 1013.25}, Case{9.0, 5.0, 1.15, 1013.25},
                          Case{28.0, 40.0, 2.0, 800.0}}) {
        const double coarse =
            joules_by_drops(c.charge_strength, c.stop, c.stages, c.pressure_hpa, 40);
        const double fine =
            joules_by_drops(c.charge_strength, c.stop, c.stages, c.pressure_hpa, 80);
        const double joules = fine + (fine - coarse) / 3.0;
        const double hours =
            run_hours({1.0, c.charge_strength}, c.stop, 1000.0, {c.stages, c.pressure_hpa});
        EXPECT_NEAR(hours * 3.6e6, joules, 1e-5 * joules) << c.charge_strength;
    }
}

TEST(RunTime, IsNearWhatTheHeatOfVaporisationAloneTakes) {
    // What runs off a charge of 1 % vol down to 2 % vol is nearly water: 2257 kJ/kg (IAPWS, 100
    // degC). 5 % for its alcohol and for the boiler, which goes from 99.0 to 99.8 degC.
    const auto rows = forecast_table({100.0, 1.0}, 2.0, 2);
    const double kg = 0.997 * rows.back().collected;
    EXPECT_NEAR(run_hours({100.0, 1.0}, 2.0, 3000.0), kg * 2257e3 / 3000.0 / 3600.0,
                0.05 * kg * 2257e3 / 3000.0 / 3600.0);
}

TEST(RunTime, GoesWithVolumeAgainstWattsAndLinearlyWithReflux) {
    const Still still{1.15, 1013.25};
    const double one = run_hours({10.0, 40.0}, 20.0, 1500.0, still);
    EXPECT_NEAR(run_hours({25.0, 40.0}, 20.0, 1500.0, still), 2.5 * one, 1e-9);
    EXPECT_NEAR(run_hours({10.0, 40.0}, 20.0, 3000.0, still), 0.5 * one, 1e-9);
    const double half = run_hours({10.0, 40.0}, 20.0, 1500.0, still, 0.5);
    const double twice = run_hours({10.0, 40.0}, 20.0, 1500.0, still, 2.0);
    EXPECT_NEAR(twice - one, 4.0 * (half - one), 1e-9);
    // Vapour raised = distillate x (1 + reflux): a litre returned costs nearly what a litre
    // collected does.
    EXPECT_NEAR((twice - one) / (2.0 * one), 0.9, 0.1);
    // To the first drop it takes no time.
    EXPECT_EQ(run_hours({10.0, 40.0}, forecast_strength({10.0, 40.0}, 0.0), 1500.0), 0.0);
}

TEST(RunTime, Refuses) {
    using K = RefusalKind;
    const Charge charge{10.0, 40.0};
    expect_refusal([&] { run_hours(charge, 20.0, 0.0); }, K::out_of_range, "watts", {"empty"});
    expect_refusal([&] { run_hours(charge, 20.0, -5.0); }, K::out_of_range, "watts", {"-5 W"});
    expect_refusal([&] { run_hours(charge, 20.0, 1500.0, {}, -0.1); }, K::out_of_range, "reflux",
                   {"-0.1", "0 to 100"});
    expect_refusal([&] { run_hours(charge, 85.0, 1500.0); }, K::impossible, "stop",
                   {"85", number_text(plain_still::Run(40.0, 1.0, 1013.25).running())});
    expect_refusal([&] { run_hours(charge, 0.2, 1500.0); }, K::out_of_range, "stop",
                   {"40, not 0.40"});
    expect_refusal([&] { run_hours(charge, 0.0, 1500.0); }, K::out_of_range, "stop", {"empty"});
    expect_refusal(
        [] {
            run_hours({0.0, 40.0}, 20.0, 1500.0);
        },
        K::out_of_range, "chargeVolume", {"empty"});
}

} // namespace
