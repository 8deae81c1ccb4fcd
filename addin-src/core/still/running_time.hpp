// How long a heater takes: to the boil, and along the run.
#pragma once

#include "core/still/forecast.hpp"

namespace jarbook {

// Hours that a heater takes to bring a charge (L at 20 degC, 0 or 1...100 % vol) from a temperature
// (0.01 degC up to its boiling point) to the boil at 1013.25 hPa. Watts are what reaches the
// liquid; the metal of the still is not included.
double heatup_hours(double volume_l, double strength, double from_temperature_c, double watts);

// Hours from the first drip until the distillate falls to `stop`. Watts are what reaches the
// boiler; `reflux` litres are returned for each litre collected (0...100), and are raised again.
// From the heat balance of the still: what the distillate carries off as vapour, what the reflux
// takes to be raised, and what the boiler's contents gain on their way to a higher boiling point.
double run_hours(const Charge& charge_l, double stop, double watts, const Still& still = {},
                 double reflux = 0.0);

} // namespace jarbook
