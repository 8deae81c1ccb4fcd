// How long the functions of strength, volume and blending take in the core, and STRENGTH beside a
// plain bracketed solve of the same formula: same answers, same tolerance, no first guess.
#include "core/blending/blending.hpp"
#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/scales.hpp"
#include "core/mixture/freezing.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "mixture/plain_r22.hpp"

#include <benchmark/benchmark.h>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <random>
#include <vector>

using namespace jarbook;

namespace {

// A sheet's worth of different inputs, so that no branch and no table cell is always the same. All
// are liquid and on the scale.
struct Inputs {
    static constexpr std::size_t count = 1024;
    std::vector<double> reading, strength, weak, t;
    Inputs() {
        std::mt19937_64 random(20240601);
        const auto between = [&](double low, double high) {
            return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
        };
        for (std::size_t i = 0; i < count; ++i) {
            t.push_back(between(5.0, 35.0));
            reading.push_back(between(5.0, 95.0));
            strength.push_back(between(5.0, 95.0));
            weak.push_back(between(1.0, strength.back()));
        }
    }
    static const Inputs& get() {
        static const Inputs inputs;
        return inputs;
    }
};

// One call per iteration, over the inputs in turn.
template <class F>
void over_inputs(benchmark::State& state, F f) {
    const Inputs& in = Inputs::get();
    std::size_t i = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(f(in, i));
        i = (i + 1) % Inputs::count;
    }
}

void Strength(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return strength_from_reading(in.reading[i], in.t[i]);
    });
}
BENCHMARK(Strength);

void StrengthOtherReference(benchmark::State& state) {
    const Alcoholometer at_15c{15.0};
    over_inputs(state, [&](const Inputs& in, std::size_t i) {
        return strength_from_reading(in.reading[i], in.t[i], at_15c);
    });
}
BENCHMARK(StrengthOtherReference);

// The same by TOMS 748 (Alefeld, Potra & Shi) between 0 and 1 to 1e-9 % vol, R 22 summed as it is
// written: what a careful programmer would write first.
double by_toms748(double reading, double t) {
    const auto tight = [](double a, double b) { return std::fabs(b - a) < 1e-11; };
    const auto solve = [&](auto f) {
        std::uintmax_t iterations = 100;
        const auto [a, b] = boost::math::tools::toms748_solve(f, 0.0, 1.0, tight, iterations);
        return 0.5 * (a + b);
    };
    const double p20 = solve([&](double p) { return plain_r22::pct_vol(p, 20.0) - reading; });
    const double rho = plain_r22::density(p20, 20.0) / (1.0 + 25e-6 * (t - 20.0));
    return plain_r22::pct_vol(solve([&](double p) { return plain_r22::density(p, t) - rho; }),
                              20.0);
}

// The same, with the formula collapsed to one temperature first, as the core does it: what is left
// is the first guess and the derivative.
double by_toms748_collapsed(double reading, double t) {
    const auto tight = [](double a, double b) { return std::fabs(b - a) < 1e-11; };
    const auto solve = [&](auto f) {
        std::uintmax_t iterations = 100;
        const auto [a, b] = boost::math::tools::toms748_solve(f, 0.0, 1.0, tight, iterations);
        return 0.5 * (a + b);
    };
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const r22::DensityAt formula(t);
    const double target = reading * at_20c(1.0) / 100.0;
    const double p20 = solve([&](double p) { return p * at_20c(p) - target; });
    const double rho = at_20c(p20) / (1.0 + 25e-6 * (t - 20.0));
    return r22::pct_vol_from_mass_fraction(solve([&](double p) { return formula(p) - rho; }),
                                           at_20c);
}

void StrengthByToms748(benchmark::State& state) {
    over_inputs(state,
                [](const Inputs& in, std::size_t i) { return by_toms748(in.reading[i], in.t[i]); });
}
BENCHMARK(StrengthByToms748);

void StrengthByToms748Collapsed(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return by_toms748_collapsed(in.reading[i], in.t[i]);
    });
}
BENCHMARK(StrengthByToms748Collapsed);

void StrengthByBisection(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return plain_r22::strength_from_reading(in.reading[i], in.t[i]);
    });
}
BENCHMARK(StrengthByBisection);

void Reading(benchmark::State& state) {
    // Strengths whose reading is on the scale at every one of the temperatures.
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return reading_from_strength(0.9 * in.strength[i], in.t[i]);
    });
}
BENCHMARK(Reading);

void Density(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return density_from_strength(in.strength[i], in.t[i]);
    });
}
BENCHMARK(Density);

void Convert(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return convert_strength(in.strength[i], "%vol", "proof");
    });
}
BENCHMARK(Convert);

void Uncertainty(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return reading_uncertainty(in.reading[i], in.t[i], 0.25, 0.5);
    });
}
BENCHMARK(Uncertainty);

void Sweetened(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return strength_of_sweetened(in.reading[i], in.t[i], 8.0);
    });
}
BENCHMARK(Sweetened);

void WaterToAdd(benchmark::State& state) {
    over_inputs(state, [](const Inputs& in, std::size_t i) {
        return water_to_add(100.0, in.strength[i], in.weak[i]);
    });
}
BENCHMARK(WaterToAdd);

// BLENDSTRENGTH of 20 jars, from the cells on: lists to lots, and the blend.
void BlendStrengthOf20Jars(benchmark::State& state) {
    const Inputs& in = Inputs::get();
    Column volumes{"volumes", {}};
    Column strengths{"strengths", {}};
    Column temperatures{"volumeTemperatures", {}};
    for (std::size_t i = 0; i < 20; ++i) {
        volumes.cells.emplace_back(500.0);
        strengths.cells.emplace_back(in.strength[i]);
        temperatures.cells.emplace_back(in.t[i]);
    }
    const bool with_temperatures = state.range(0) != 0;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            blend(lots_from(volumes, strengths, with_temperatures ? &temperatures : nullptr))
                .strength);
}
BENCHMARK(BlendStrengthOf20Jars)->ArgName("temperatures")->Arg(0)->Arg(1);

} // namespace
