// What the forecast costs: a cell whose curve is remembered, a fresh curve, a fit of stages.
#include "core/still/forecast.hpp"

#include "core/still/equilibrium.hpp"
#include "core/still/pot_run.hpp"
#include "core/still/run_cache.hpp"
#include "core/still/running_time.hpp"
#include "core/still/stages.hpp"

#include <benchmark/benchmark.h>
#include <cstdint>
#include <vector>

namespace {

using namespace jarbook;

Still still_of(const benchmark::State& state) {
    return {0.01 * static_cast<double>(state.range(0)), standard_pressure_hpa};
}

// Cells of one sheet, each another volume of the same run; argument: stages x 100.
void forecast_strength_cell(benchmark::State& state) {
    const Still still = still_of(state);
    const Charge charge{25.0, 40.0};
    double collected = 0.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(forecast_strength(charge, collected, still));
        collected = collected < 15.0 ? collected + 0.0137 : 0.0;
    }
}
BENCHMARK(forecast_strength_cell)->Arg(100)->Arg(115)->Arg(1000);

void forecast_volume_cell(benchmark::State& state) {
    const Still still = still_of(state);
    const Charge charge{25.0, 40.0};
    double strength = 79.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(forecast_volume(charge, strength, still));
        strength = strength > 1.5 ? strength - 0.0731 : 79.0;
    }
}
BENCHMARK(forecast_volume_cell)->Arg(100)->Arg(115)->Arg(1000);

void forecast_alcohol_cell(benchmark::State& state) {
    const Still still = still_of(state);
    const Charge charge{25.0, 40.0};
    double strength = 79.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(forecast_alcohol(charge, 78.0, strength * 0.9, still));
        strength = strength > 2.5 ? strength - 0.0731 : 79.0;
    }
}
BENCHMARK(forecast_alcohol_cell)->Arg(115);

// A curve that nobody has asked for yet.
void fresh_curve(benchmark::State& state) {
    const Still still = still_of(state);
    double strength = 40.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(PotRun(strength, still.stages, still.pressure_hpa));
        strength = strength < 41.0 ? strength + 1e-5 : 40.0;
    }
}
BENCHMARK(fresh_curve)->Arg(100)->Arg(115)->Arg(250)->Arg(1000)->Unit(benchmark::kMicrosecond);

// Stages from so many jars of a run of 1.15 stages down to 20 % vol.
void stages_of_jars(benchmark::State& state) {
    const PotRun run(40.0, 1.15, standard_pressure_hpa);
    const auto count = static_cast<std::size_t>(state.range(0));
    const double whole = run.collected(run.when_running(mole_fraction_from_strength(20.0)));
    std::vector<Lot> jars;
    PotRun::Progress from = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double volume = whole / static_cast<double>(count);
        const auto to = run.when_jar_filled(from, volume);
        // A tenth of a per cent up and down, so that the search has something to weigh.
        jars.push_back({25.0 * volume, run.strength_between(from, to) + (i % 3 ? 0.1 : -0.2), i});
        from = to;
    }
    for (auto _ : state)
        benchmark::DoNotOptimize(fitted_stages({25.0, 40.0}, jars));
}
BENCHMARK(stages_of_jars)->Arg(3)->Arg(20)->Arg(30)->Unit(benchmark::kMillisecond);

void forecast_table_of_rows(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(forecast_table({25.0, 40.0}, 20.0,
                                                static_cast<double>(state.range(0)),
                                                {1.15, standard_pressure_hpa}));
}
BENCHMARK(forecast_table_of_rows)->Arg(50)->Arg(10000)->Unit(benchmark::kMicrosecond);

void boiling_point_cell(benchmark::State& state) {
    double strength = 0.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(boiling_point_c(strength));
        strength = strength < 99.0 ? strength + 0.0731 : 0.0;
    }
}
BENCHMARK(boiling_point_cell);

void boiler_strength_cell(benchmark::State& state) {
    double temperature = 80.0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(boiler_strength(temperature));
        temperature = temperature < 99.0 ? temperature + 0.0137 : 80.0;
    }
}
BENCHMARK(boiler_strength_cell)->Unit(benchmark::kMicrosecond);

void run_hours_cell(benchmark::State& state) {
    double watts = 1000.0;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            run_hours({25.0, 40.0}, 20.0, watts += 0.1, {1.15, standard_pressure_hpa}, 0.1));
}
BENCHMARK(run_hours_cell)->Unit(benchmark::kMicrosecond);

} // namespace
