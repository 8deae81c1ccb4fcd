// The composition of ethanol-water by mass and by amount of substance.
#pragma once

namespace jarbook {

// Molar masses, g/mol: CRC Handbook of Chemistry and Physics.
inline constexpr double ethanol_g_per_mol = 46.068;
inline constexpr double water_g_per_mol = 18.015;

// Mole fraction of ethanol (0...1) from its mass fraction, and back.
double mole_fraction_from_mass_fraction(double mass_fraction);
double mass_fraction_from_mole_fraction(double mole_fraction);

} // namespace jarbook
