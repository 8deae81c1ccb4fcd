// How long a heater takes: to the boil, and along the run.
#pragma once

#include "core/still/forecast.hpp"

#include <string_view>

namespace jarbook {

// The metal of a still that is warmed with its charge.
struct Metal {
    double mass_kg = 0.0;
    double capacity_kj_per_kg_k = 0.0;
};

// Metal by its word, in any case, spaces ignored: copper 0.384 kJ/(kg K) (CRC Handbook), stainless
// steel 0.50 (austenitic), brass 0.377, aluminium 0.897 (Mechanical Engineer's Data Handbook, p.
// 110). Refuses (not_a_number) any other word, with those that are known.
Metal metal_named(std::string_view word, double mass_kg);
inline constexpr std::string_view usual_metal = "copper";

// Hours that a heater takes to bring a charge (L at 20 degC, 0 or 1...100 % vol) from a temperature
// (0.01 degC up to its boiling point) to the boil at 1013.25 hPa, and the metal with it, all of it
// from and to the same temperatures. Watts are what reaches liquid and metal.
double heatup_hours(double volume_l, double strength, double from_temperature_c, double watts,
                    const Metal& metal = {});

// Hours from the first drip until the distillate falls to `stop`. Watts are what reaches the
// boiler; `reflux` litres are returned for each litre collected (0...100), and are raised again.
// From the heat balance of the still: what the distillate carries off as vapour, what the reflux
// takes to be raised, and what the boiler's contents gain on their way to a higher boiling point.
double run_hours(const Charge& charge_l, double stop, double watts, const Still& still = {},
                 double reflux = 0.0);

// Refuses a reflux outside 0...100 L returned per L collected.
void require_reflux(double reflux);

} // namespace jarbook
