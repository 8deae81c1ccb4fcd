// Invented runs with noise of the stated size, one reading put wrong: how often what is said of
// them is right. For the tests and for the table in tests/benchmarks/README.md.
#pragma once

#include "core/blending/blending.hpp"
#include "core/record/verdict.hpp"
#include "core/still/stages.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <random>
#include <vector>

namespace invented {

using namespace jarbook;

struct Kind {
    std::size_t jars;
    double last_strength; // at which the run is stopped, about, % vol
    double volume_tolerance_pct = 1.0;
    double strength_tolerance = 0.5;
    double common_tolerance = 0.0;
};

// A run without noise: charge, jars by the forecast of 1.15 stages, and what is left by balance.
inline RunReadings true_run(const Kind& kind, std::mt19937_64& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const Lot charge{between(5.0, 60.0), between(20.0, 40.0)};
    const double collected =
        forecast_volume({charge.volume, charge.strength}, kind.last_strength, {1.15, 1013.25});
    std::vector<Lot> jars(kind.jars);
    double sum = 0.0;
    for (Lot& jar : jars)
        sum += jar.volume = between(0.8, 1.2);
    for (Lot& jar : jars)
        jar.volume *= collected / sum;
    const auto strengths = jar_strengths({charge.volume, charge.strength}, jars, 1.15, 1013.25);
    for (std::size_t i = 0; i < jars.size(); ++i)
        jars[i].strength = strengths[i];
    const double left = residue_strength(charge, jars);
    const double alcohol = lot_pure_alcohol(charge) - pure_alcohol(jars);

    RunReadings run;
    run.common_strength_tolerance = kind.common_tolerance;
    const auto add = [&](Direction direction, double volume, double strength) {
        run.lots.push_back({direction, volume, strength, kind.volume_tolerance_pct,
                            kind.strength_tolerance, run.lots.size()});
    };
    add(Direction::in, charge.volume, charge.strength);
    for (const Lot& jar : jars)
        add(Direction::out, jar.volume, jar.strength);
    add(Direction::out, 100.0 * alcohol / left, left);
    return run;
}

enum class Noise { rectangular, normal };

// The same as read.
inline RunReadings as_read(RunReadings run, Noise noise, std::mt19937_64& random) {
    const auto drawn = [&](double half_width) {
        if (noise == Noise::normal)
            return std::normal_distribution<double>(0.0, half_width / std::sqrt(3.0))(random);
        return std::uniform_real_distribution<double>(-half_width, half_width)(random);
    };
    const double common =
        run.common_strength_tolerance > 0.0 ? drawn(run.common_strength_tolerance) : 0.0;
    for (LotReading& lot : run.lots) {
        lot.volume *= 1.0 + 0.01 * drawn(lot.volume_tolerance_pct);
        lot.strength =
            std::clamp(lot.strength + common + drawn(lot.strength_tolerance), 0.0, 100.0);
    }
    return run;
}

struct Tally {
    int runs = 0;
    int fits = 0;    // the error does not show
    int right = 0;   // the wrong reading is named, and no other
    int tie = 0;     // several explain it, the wrong one among them
    int off_tie = 0; // several explain it, the wrong one not among them
    int none = 0;    // none explains it
    int wrong = 0;   // another one is named

    double pct(int count) const { return 100.0 * count / runs; }
};

// Of which reading the standard uncertainty counts: its own, or what the others leave of it.
enum class Scale { own, others };

// Runs in each of which one reading, drawn at random, is put wrong by so many standard
// uncertainties, up or down. 0: none is.
inline Tally tally(const Kind& kind, double size, Scale scale, int runs, std::uint64_t seed,
                   Noise noise = Noise::rectangular) {
    std::mt19937_64 random(seed);
    Tally result;
    while (result.runs < runs) {
        const RunReadings truth = true_run(kind, random);
        RunReadings run = as_read(truth, noise, random);
        const std::size_t lot = random() % run.lots.size();
        const bool is_strength = random() % 2 == 1;
        const double sign = random() % 2 == 1 ? 1.0 : -1.0;
        if (size > 0.0) {
            LotReading& bad = run.lots[lot];
            double unit = is_strength
                              ? bad.strength_tolerance / std::sqrt(3.0)
                              : 0.01 * bad.volume_tolerance_pct * bad.volume / std::sqrt(3.0);
            if (scale == Scale::others)
                unit = reconciled_run(truth)
                           .all.difference_uncertainty[is_strength ? strength_of_lot(lot)
                                                                   : volume_of(lot)];
            double& reading = is_strength ? bad.strength : bad.volume;
            reading += sign * size * unit;
            // No instrument shows that.
            if (bad.volume <= 0.0 || bad.strength < 0.0 || bad.strength > 100.0)
                continue;
        }
        const Verdict verdict = judged(run);
        ++result.runs;
        const auto& suspects = verdict.suspects;
        const bool among =
            std::any_of(suspects.begin(), suspects.end(), [&](const Suspect& suspect) {
                return suspect.lot == lot && suspect.is_strength == is_strength;
            });
        ++(verdict.fits           ? result.fits
           : suspects.empty()     ? result.none
           : suspects.size() == 1 ? (among ? result.right : result.wrong)
           : among                ? result.tie
                                  : result.off_tie);
    }
    return result;
}

} // namespace invented
