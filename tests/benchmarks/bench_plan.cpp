// What a blend plan costs: 200 jars divided, 40 and 60 whole, the refusal past the bound on work,
// and the cuts of a run. Each plan benchmark draws a new random task for every iteration; "worst"
// is its slowest one in milliseconds.
#include "core/base/refusal.hpp"
#include "core/cuts/cuts.hpp"
#include "core/plan/plan.hpp"

#include <algorithm>
#include <benchmark/benchmark.h>
#include <cmath>
#include <ctime>
#include <random>
#include <vector>

namespace {

using namespace jarbook;

enum Preferences { alike, whole_numbers, real_numbers, two_classes };

struct Kind {
    Preferences preferences;
    bool decimal;   // volumes and strengths of two and three digits, so that sums tie
    double weakest; // strengths from this to 88 % vol
    double target;  // % vol
    double share;   // of the alcohol that there is: between half of this and this
};

const std::vector<std::pair<const char*, Kind>> kinds{
    {"alike", {alike, false, 55, 43, 0.7}},
    {"alike, decimal figures", {alike, true, 55, 43, 0.7}},
    {"alike, weak jars", {alike, false, 5, 43, 0.7}},
    {"alike, target near the strongest", {alike, false, 55, 78, 0.3}},
    {"whole numbers 0 to 3", {whole_numbers, false, 55, 43, 0.7}},
    {"whole numbers, weak jars, 60 % vol", {whole_numbers, false, 5, 60, 0.5}},
    {"real numbers", {real_numbers, false, 55, 43, 0.7}},
    {"real numbers, weak jars, 60 % vol", {real_numbers, false, 5, 60, 0.5}},
    {"ten at 2, the others at 1", {two_classes, false, 55, 43, 0.7}},
};

struct Task {
    std::vector<PlanJar> jars;
    BlendWish wish;
};

Task random_task(const Kind& kind, std::size_t count, std::mt19937_64& random) {
    const auto real = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
    };
    Task task;
    double alcohol = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        PlanJar jar{{real(0.3, 1.0), real(kind.weakest, 88.0), i}, 1.0};
        if (kind.decimal)
            jar.jar = {std::round(20.0 * jar.jar.volume) / 20.0,
                       std::round(10.0 * jar.jar.strength) / 10.0, i};
        if (kind.preferences == whole_numbers)
            jar.preference = static_cast<double>(random() % 4);
        else if (kind.preferences == real_numbers)
            jar.preference = real(0.1, 3.0);
        else if (kind.preferences == two_classes)
            jar.preference = i < 10 ? 2.0 : 1.0;
        if (jar.preference > 0.0)
            alcohol += jar.jar.volume * jar.jar.strength;
        task.jars.push_back(jar);
    }
    task.wish = {alcohol / kind.target * real(kind.share / 2.0, kind.share), kind.target};
    return task;
}

double processor_ms() {
    return 1e3 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

void plans(benchmark::State& state,
           BlendPlan (*plan)(const std::vector<PlanJar>&, const BlendWish&), const Kind& kind,
           std::size_t count) {
    std::mt19937_64 random(1);
    double worst = 0.0;
    double impossible = 0.0;
    double unproven = 0.0;
    for (auto _ : state) {
        state.PauseTiming();
        const Task task = random_task(kind, count, random);
        state.ResumeTiming();
        const double start = processor_ms();
        try {
            benchmark::DoNotOptimize(plan(task.jars, task.wish));
        } catch (const Refusal& refusal) {
            (refusal.kind() == RefusalKind::impossible ? impossible : unproven) += 1.0;
        }
        worst = std::max(worst, processor_ms() - start);
    }
    state.counters["worst"] = worst;
    state.counters["impossible"] = impossible;
    state.counters["unproven"] = unproven;
}

void cut_table_of(benchmark::State& state) {
    std::vector<CutJar> jars;
    for (int i = 0; i < state.range(0); ++i)
        jars.push_back({{500.0, 84.0 - 50.0 * i / static_cast<double>(state.range(0))},
                        all_cuts[static_cast<std::size_t>(4 * i / state.range(0))]});
    for (auto _ : state)
        benchmark::DoNotOptimize(cut_table(jars));
}
BENCHMARK(cut_table_of)->Arg(30)->Arg(1000);

const bool registered = [] {
    for (const auto& [name, kind] : kinds) {
        const Kind& task = kind;
        benchmark::RegisterBenchmark(
            (std::string("200 jars divided/") + name).c_str(),
            [&task](benchmark::State& state) { plans(state, plan_divided, task, 200); })
            ->Iterations(200)
            ->Unit(benchmark::kMillisecond);
        benchmark::RegisterBenchmark(
            (std::string("40 jars whole/") + name).c_str(),
            [&task](benchmark::State& state) { plans(state, plan_whole_jars, task, 40); })
            ->Iterations(40)
            ->Unit(benchmark::kMillisecond);
    }
    for (const auto& [name, kind] : kinds) {
        const Kind& task = kind;
        benchmark::RegisterBenchmark(
            (std::string("60 jars whole/") + name).c_str(),
            [&task](benchmark::State& state) { plans(state, plan_whole_jars, task, 60); })
            ->Iterations(20)
            ->Unit(benchmark::kMillisecond);
    }
    // Up to 64 of like preference, and past the bound: how long until the refusal.
    for (const int count : {44, 64, 100, 200})
        benchmark::RegisterBenchmark(
            (std::to_string(count) + " jars whole/" + kinds[0].first).c_str(),
            [count](benchmark::State& state) {
                plans(state, plan_whole_jars, kinds[0].second, static_cast<std::size_t>(count));
            })
            ->Iterations(10)
            ->Unit(benchmark::kMillisecond);
    benchmark::RegisterBenchmark(
        "200 jars whole/real numbers",
        [](benchmark::State& state) { plans(state, plan_whole_jars, kinds[6].second, 200); })
        ->Iterations(20)
        ->Unit(benchmark::kMillisecond);
    return true;
}();

} // namespace
