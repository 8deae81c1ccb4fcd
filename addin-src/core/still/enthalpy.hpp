// Heat of ethanol-water: enthalpy of liquid and vapour.
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

} // namespace jarbook
