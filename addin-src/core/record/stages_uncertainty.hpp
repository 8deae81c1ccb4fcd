// How well the jars of a run tell the stages of the still.
#pragma once

#include "core/still/stages.hpp"

#include <vector>

namespace jarbook {

inline constexpr double least_half_width_pct = 0.001; // % vol
inline constexpr double greatest_half_width_pct = 20.0;

// Standard uncertainty of fitted_stages (still/stages.hpp), by linear propagation through its fit,
// with the weights that it gave the jars (GUM, JCGM 100:2008, 5.1.2):
//   the jars' scatter about the fitted curve, estimated from their deviations, as of an M-estimate
//   (Street, Carroll and Ruppert, Am. Stat. 42 (1988) 152); for few jars it is so much larger that
//   twice of it covers 95 % (Student's t; GUM G.3), where there are as many degrees of freedom as
//   the weights leave jars, less one; strength_tolerance, a half-width in % vol by which all jars
//   may be read wrong alike; charge_tolerance, a half-width in % vol of the charge's strength. Both
//   0.001...20, rectangular.
// What the model itself leaves out (the forecast's own 1 % vol) is not in it.
// Refuses what fitted_stages refuses, and (impossible) jars that say nothing of the stages.
double stages_uncertainty(const Charge& charge, const std::vector<Lot>& jars,
                          double strength_tolerance, double charge_tolerance,
                          double pressure_hpa = standard_pressure_hpa);

} // namespace jarbook
