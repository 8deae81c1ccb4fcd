// The water that the condenser takes.
#pragma once

#include "core/still/forecast.hpp"

namespace jarbook {

inline constexpr double coldest_distillate_c = 0.01;
// Below the boiling point of the azeotrope at the lowest pressure, 600 hPa.
inline constexpr double warmest_distillate_c = 60.0;
// Heat capacity of the cooling water, kJ/(kg K), about 5...60 degC (within 0.3 %).
inline constexpr double cooling_water_capacity = 4.18;

// Litres of cooling water (at 20 degC) from the first drip until the distillate falls to `stop`,
// when it leaves the condenser `rise` K (1...80) warmer than it came: the heat that the distillate
// gives up on condensing and cooling to its temperature (0.01...60 degC), and the reflux (litres
// returned per litre collected, 0...100) on condensing, over 4.18 kJ/(kg K) and the rise. What the
// vapour loses to the room is not taken off. Together with run_hours the heat balance closes
// (run_heat.hpp).
double cooling_water(const Charge& charge_l, double stop, double rise_k,
                     double distillate_temperature_c = 20.0, const Still& still = {},
                     double reflux = 0.0);

} // namespace jarbook
