// Density of sucrose in water: ICUMSA polynomial (Specification and Standard SPS-4).
//
//   rho = rho_water(t) + sum_i tau^i sum_k c_ik w^k,  tau = (t - 20) / 100, w mass fraction, kg/m3.
#pragma once

#include <string_view>

namespace jarbook {

// What sucrose of mass fraction w (0...0.84) adds to the density of water at t (0...80 degC in the
// standard), kg/m3. Not checked.
double sucrose_density_excess(double mass_fraction, double temperature_c);

// The same for a concentration in g of sucrose per litre of solution at that temperature, kg/m3;
// 0...20 g/L and 0...40 degC are what is asked of it here. Not checked.
double sucrose_density_increment(double sugar_g_per_l, double temperature_c);

// Mass fraction of sucrose in the solution that has that density, kg/m3 in vacuo, at t (0...40
// degC): the inverse of the polynomial over -0.1...0.84, to 1e-14. Below 0 for a density below
// water's: what a fermented wash's apparent extract is. Refuses (impossible) what lies outside;
// `argument` is named.
double sucrose_mass_fraction(double density_kg_m3, double temperature_c,
                             std::string_view argument = "density");

} // namespace jarbook
