// What it costs to hold a run's readings against each other, and a season of runs.
#include "core/record/advice.hpp"
#include "core/record/consensus.hpp"
#include "core/record/stages_uncertainty.hpp"
#include "record/invented_runs.hpp"

#include <benchmark/benchmark.h>
#include <random>
#include <vector>

namespace {

using namespace jarbook;

// So many jars; a run that fits, or one with a wrong residue, of which every reading is left out in
// turn.
RunReadings run_of(std::int64_t jars, bool wrong) {
    std::mt19937_64 random(1);
    RunReadings run = invented::true_run({static_cast<std::size_t>(jars), 20.0}, random);
    if (wrong)
        run.lots.back().volume *= 0.9;
    return run;
}

void reconcile_run(benchmark::State& state) {
    const RunReadings run = run_of(state.range(0), false);
    for (auto _ : state)
        benchmark::DoNotOptimize(reconciled_lots(run));
}
BENCHMARK(reconcile_run)->Arg(1)->Arg(30)->Arg(198)->Unit(benchmark::kMicrosecond);

void advice_on_a_wrong_run(benchmark::State& state) {
    const RunReadings run = run_of(state.range(0), true);
    for (auto _ : state)
        benchmark::DoNotOptimize(advice(run, judged(run)));
}
BENCHMARK(advice_on_a_wrong_run)->Arg(1)->Arg(30)->Arg(198)->Unit(benchmark::kMillisecond);

// Fifty runs of thirty jars: table, test and advice of each, every fifth run with a wrong reading.
void season_of_fifty(benchmark::State& state) {
    const RunReadings fits = run_of(30, false);
    const RunReadings wrong = run_of(30, true);
    for (auto _ : state)
        for (int i = 0; i < 50; ++i) {
            const RunReadings& run = i % 5 == 0 ? wrong : fits;
            benchmark::DoNotOptimize(reconciled_lots(run));
            benchmark::DoNotOptimize(judged(run));
            benchmark::DoNotOptimize(advice(run, judged(run)));
        }
}
BENCHMARK(season_of_fifty)->Unit(benchmark::kMillisecond);

void stages_uncertainty_of_jars(benchmark::State& state) {
    const RunReadings run = run_of(state.range(0), false);
    std::vector<Lot> jars;
    for (std::size_t i = 1; i + 1 < run.lots.size(); ++i)
        jars.push_back({run.lots[i].volume, run.lots[i].strength + (i % 2 ? 0.2 : -0.2)});
    const Charge charge{run.lots[0].volume, run.lots[0].strength};
    for (auto _ : state)
        benchmark::DoNotOptimize(stages_uncertainty(charge, jars, 0.3, 0.5));
}
BENCHMARK(stages_uncertainty_of_jars)->Arg(12)->Arg(30)->Unit(benchmark::kMillisecond);

void consensus_of_fifty(benchmark::State& state) {
    std::mt19937_64 random(2);
    std::vector<UncertainValue> values;
    for (int i = 0; i < 50; ++i)
        values.push_back({std::normal_distribution<double>(1.2, 0.05)(random), 0.02});
    for (auto _ : state)
        benchmark::DoNotOptimize(consensus(values));
}
BENCHMARK(consensus_of_fifty)->Unit(benchmark::kMicrosecond);

} // namespace
