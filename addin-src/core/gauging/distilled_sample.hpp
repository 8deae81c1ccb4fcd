// Strength of what no alcoholometer can read, from a distilled sample of it.
#pragma once

#include "core/gauging/alcoholometer.hpp"

namespace jarbook {

// The legal method (as in Spirits Act 1880, s. 37; OIV-MA-AS312-01): a measured sample is distilled
// and the distillate made up with water to a known volume at 20 degC, whose reading is taken. Pure
// alcohol is that of the sample: strength, % vol at 20 degC, = true strength of the distillate x
// made-up volume / volume of the sample at 20 degC. The sample expands from its temperature
// (-20...40 degC; exactly 0 is refused as an empty cell) as water with that alcohol does (R 22).
// Volumes in one unit, above 0. Refuses (impossible) more pure alcohol than the sample is large.
double sample_strength(double sample_volume, double made_up_volume, double reading,
                       double temperature_c, double sample_temperature_c = 20.0,
                       const Alcoholometer& instrument = {});

} // namespace jarbook
