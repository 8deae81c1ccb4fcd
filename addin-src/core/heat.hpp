// Heat of ethanol-water, and how long a heater takes.
//
// Enthalpy of a liquid of mole fraction x at T, J/mol of mixture:
//
//   h = x h1(T) + (1 - x) h2(T) + H^E(x, T),   h_i the integral of the liquid heat capacity,
//
// and of a vapour y at T: y (h1 + l1) + (1 - y) (h2 + l2), an ideal mixture, l the heats of
// vaporisation. Sources: heat capacities Perry's Chemical Engineers' Handbook, 8th ed., Table
// 2-153; heats of vaporisation ibid., Table 2-150; excess enthalpy Larkin, J. Chem. Thermodyn. 7
// (1975) 137, 298.15...383 K. Below 298.15 K the excess heat capacity is kept as it is there.
#pragma once

#include "forecast.hpp"

namespace jarbook {

// Integral of the heat capacity of the pure liquids from 0 degC, J/mol; heat of vaporisation,
// J/mol.
double ethanol_liquid_enthalpy(double temperature_k);
double water_liquid_enthalpy(double temperature_k);
double ethanol_vaporisation(double temperature_k);
double water_vaporisation(double temperature_k);

// Excess enthalpy of the mixture, J/mol; x mole fraction of ethanol, 273.16...383 K.
double excess_enthalpy(double x, double temperature_k);

// Enthalpy of liquid and vapour, J/mol of mixture, 273.16...383 K.
double liquid_enthalpy(double x, double temperature_k);
double vapour_enthalpy(double y, double temperature_k);

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
