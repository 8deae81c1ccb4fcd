// What a pot-still run will give. Charge and collected volumes in one and the same unit
// (homogeneous: millilitres in, millilitres out), all at 20 degC by R 22; strengths % vol at 20
// degC. "Collected" is all that has run, put together: jars added up one by one come to a little
// more (up to 0.5 % by a stop of 20 % vol), because the blend contracts.
//
// Charge strength 1...97 % vol, stages 1...10, pressure 600...1100 hPa; the model and its limits
// stand in pot_run.hpp and equilibrium.hpp. Refusals name the contract's arguments.
#pragma once

#include "core/still/pot_run.hpp"

#include <vector>

namespace jarbook {

struct Charge {
    double volume;
    double strength;
};

struct Still {
    double stages = 1.0;
    double pressure_hpa = standard_pressure_hpa;
};

// Strength running when that much has been collected; 0 is the first drop. Refuses (impossible) as
// much as was charged, or more.
double forecast_strength(const Charge& charge, double collected, const Still& still = {});

// Collected when the distillate falls to that strength. Refuses (impossible) a strength above the
// first strength, with that strength.
double forecast_volume(const Charge& charge, double strength, const Still& still = {});

// Pure alcohol that comes over while the strength falls from one to another. `from` at or above the
// first strength means from the first drop; nothing comes over between two strengths that both lie
// above the first: 0. Refuses (impossible) `from` below `to`.
double forecast_alcohol(const Charge& charge, double from_strength, double to_strength,
                        const Still& still = {});

// When the distillate of a run has fallen to that strength, which `argument` names; refusals as of
// forecast_volume.
PotRun::Progress when_shown(const PotRun& run, const char* argument, double strength);

// Left in the boiler, at 20 degC, when the distillate has fallen to that strength, which `argument`
// names; refusals as of forecast_volume.
double left_in_boiler(const Charge& charge, double strength, const char* argument,
                      const Still& still = {});

struct ForecastRow {
    double collected;
    double strength;      // running
    double mean_strength; // of all collected
    double alcohol;       // pure, collected
    double boiler_strength;
    double boiler_temperature_c;
};

// The run in equal steps of collected volume, from the first drop to the stop; 2...10,000 rows.
std::vector<ForecastRow> forecast_table(const Charge& charge, double stop, double rows,
                                        const Still& still = {});

} // namespace jarbook
