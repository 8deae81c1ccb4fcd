// Diluting and blending. Mass, and the mass of alcohol in it, add up; volume does not: ethanol and
// water contract when mixed. All volumes at 20 degC unless a temperature says otherwise; strengths
// % vol at 20 degC; densities by OIML R 22. Homogeneous: millilitres in, millilitres out.
#pragma once

#include "core/blending/mass_balance.hpp"
#include "core/gauging/lots.hpp"

#include <utility>
#include <vector>

namespace jarbook {

// The lot that results when lots are put together, contraction included. Refuses (nothing_there)
// the blend of nothing.
Lot blend(const std::vector<Lot>& lots);

// Volume at 20 degC of the lots put together; 0 for none.
double blend_volume(const std::vector<Lot>& lots);

// By how much the blend is less than the sum of its lots. Below 0 where it is more: two weak
// spirits, or much water with spirit of up to about 54 % vol, expand a little (at most 1.5 mL a
// litre, by R 22); spirits of 20 % vol and more among themselves, and strong spirit with water,
// contract.
double contraction(const std::vector<Lot>& lots);

// Water to bring a volume of spirit down to target; spirit and water both measured at temperature
// (-20...40 degC and liquid; exactly 0 is refused as an empty cell).
double water_to_add(double volume, double strength, double target, double temperature_c = 20.0);

// Volume of another spirit (stronger or weaker, water included) to bring what there is to target;
// both measured at temperature.
double spirit_to_add(double volume, double strength, double target, double added_strength,
                     double temperature_c = 20.0);

// Volume of the stronger spirit from which water makes final_volume at target.
double spirit_needed(double final_volume, double strength, double target);

// Volumes of A and of B (either may be water) that make final_volume at target.
std::pair<double, double> blend_pair(double strength_a, double strength_b, double target,
                                     double final_volume);

} // namespace jarbook
