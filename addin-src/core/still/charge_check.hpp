// What speaks against a charge.
#pragma once

#include <string>

namespace jarbook {

// Cautions about a charge, one a line, empty when nothing speaks against it. Volume and boiler
// volume in the same unit, strength in % vol at 20 degC; limit in % vol (default 40; common
// practice, no source). Above limit + 0.05 (rounding): a fire risk that water cures. More than
// three quarters of the boiler: it may foam and boil over; less than a quarter: a heater inside may
// run dry (both common practice, no source). More than the boiler holds is a caution like the
// others, not a refusal, which would hide them.
std::string charge_cautions(double volume, double strength, double boiler_volume,
                            double limit = 40.0);

} // namespace jarbook
