// The heat that moves along a pot-still run: raised from the boiler, given up in the condenser.
//
// J per L of charge (20 degC), from the first drop to `end`; `reflux` litres are returned for each
// litre collected, at the boiling point of the distillate's own composition. With them the balance
// of the whole run closes:
//
//   heat in = raised + gain of the boiler
//           = condensed + gain of the boiler + what the distillate carries off as liquid.
//
// Enthalpies: enthalpy.hpp; integrals by Gauss-Kronrod, refused where their own estimate of the
// error is above 1e-8 of them.
#pragma once

#include "core/still/pot_run.hpp"

namespace jarbook {

// What the vapour that runs off carries away at its dew point, and what the share that returns
// takes to be raised again.
double heat_raised(const PotRun& run, PotRun::Progress end, double reflux);

// What the boiler's contents hold at the end less what they held at the first drop: below 0, as
// they grow less.
double boiler_gain(const PotRun& run, PotRun::Progress end);

// What the vapour gives up: the distillate on condensing and cooling to a temperature (below its
// boiling point, not checked), the reflux on condensing.
double heat_condensed(const PotRun& run, PotRun::Progress end, double reflux,
                      double distillate_temperature_k);

} // namespace jarbook
