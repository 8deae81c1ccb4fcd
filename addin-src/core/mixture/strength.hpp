// Strength, density and mass fraction of ethanol-water: the R 22 formula with its ranges checked.
//
// "strength" is everywhere % vol at 20 degC of the mixed liquid (OIML R 22, section 3), 0...100.
#pragma once

#include "core/base/refusal.hpp"

namespace jarbook {

// Mass fraction of ethanol, 0...1, of a strength (0...100 % vol at 20 degC). Source: R 22.
double mass_fraction_from_strength(double strength);

// Strength, % vol at 20 degC, of a mass fraction (0...1). Source: R 22.
double strength_from_mass_fraction(double mass_fraction);

// Density, kg/m3 in vacuo, at a temperature of -20...40 degC. A mixture that is frozen at that
// temperature is refused (impossible). Source: R 22; freezing points CRC Handbook.
// `place` is where the temperature stands.
double density_from_strength(double strength, double temperature_c,
                             const ArgumentPlace& place = "temperature");

// Strength, % vol at 20 degC, of the liquid that has that density (kg/m3 in vacuo) at that
// temperature (-20...40 degC): the inverse of R 22, to 1e-9 % vol. Refuses what no liquid
// ethanol-water mixture can weigh.
double strength_from_density(double density_kg_m3, double temperature_c);

// Refuses (impossible) a mixture that is frozen at that temperature, naming both. `strength` is
// only for the sentence; place as above.
void require_liquid(double mass_fraction, double strength, double temperature_c,
                    const ArgumentPlace& place = "temperature");

// Refuses a temperature outside the formula's -20...40 degC.
void require_formula_temperature(const ArgumentPlace& place, double temperature_c);

// The same for a temperature at which something was measured: exactly 0 is refused, too, because
// that is what an empty cell looks like.
void require_measured_temperature(const ArgumentPlace& place, double temperature_c);

} // namespace jarbook
