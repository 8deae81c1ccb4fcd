// Invented jars of a still of known stages, read with noise: how often the stated uncertainty of
// its stages holds. For the tests and for the table in tests/benchmarks/README.md.
#pragma once

#include "core/base/refusal.hpp"
#include "core/record/stages_uncertainty.hpp"
#include "core/still/pot_run.hpp"

#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

namespace invented {

struct StillCase {
    double charge_strength;
    double stages;
    double stop;
    std::size_t jars;          // of the whole run
    std::size_t used;          // the first of them
    double scatter = 0.3;      // of a single reading, standard deviation, % vol
    double alike = 0.3;        // all readings, half-width, % vol
    double charge_alike = 0.5; // the charge, half-width, % vol
    bool rectangular = false;  // how the last two are drawn, else normal of the same size
};

struct Coverage {
    int runs = 0;
    int held = 0;         // true stages within two of the stated uncertainties
    int refused = 0;      // no number
    double stated = 0.0;  // mean of the stated
    double squares = 0.0; // of the fit's errors

    double pct() const { return 100.0 * held / runs; }
};

inline Coverage coverage(const StillCase& c, int runs, std::uint64_t seed) {
    using namespace jarbook;
    std::mt19937_64 random(seed);
    const auto drawn = [&](double half) {
        if (!c.rectangular)
            return std::normal_distribution<double>(0.0, half / std::sqrt(3.0))(random);
        return std::uniform_real_distribution<double>(-half, half)(random);
    };
    const double whole =
        forecast_volume({1.0, c.charge_strength}, c.stop, {c.stages, standard_pressure_hpa});
    std::vector<Lot> jars(c.jars, Lot{whole / static_cast<double>(c.jars), 0.0});
    const auto strengths =
        jar_strengths({1.0, c.charge_strength}, jars, c.stages, standard_pressure_hpa);
    Coverage result;
    while (result.runs + result.refused < runs) {
        std::vector<Lot> read(jars.begin(), jars.begin() + static_cast<std::ptrdiff_t>(c.used));
        const double alike = drawn(c.alike);
        for (std::size_t i = 0; i < read.size(); ++i)
            read[i].strength =
                strengths[i] + alike + std::normal_distribution<double>(0.0, c.scatter)(random);
        const Charge charge{1.0, c.charge_strength + drawn(c.charge_alike)};
        try {
            const double fitted = fitted_stages(charge, read);
            const double stated = stages_uncertainty(charge, read, c.alike, c.charge_alike);
            ++result.runs;
            result.held += std::fabs(fitted - c.stages) <= 2.0 * stated;
            result.stated += stated;
            result.squares += (fitted - c.stages) * (fitted - c.stages);
        } catch (const Refusal&) {
            ++result.refused;
        }
    }
    result.stated /= result.runs;
    return result;
}

} // namespace invented
