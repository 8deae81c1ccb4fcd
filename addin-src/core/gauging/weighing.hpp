// Volume and mass of ethanol-water mixtures: what a measure holds and what a balance shows.
//
// Volumes are at 20 degC unless a temperature says otherwise. Masses are as a balance in air shows
// them: air 1.2 kg/m3, weights of 8000 kg/m3 (OIML R 111, D 28 conventional values; the basis of
// 27 CFR 30's tables, too). The functions are homogeneous: millilitres in, millilitres and grams
// out.
#pragma once

namespace jarbook {

inline constexpr double air_density_kg_m3 = 1.2;
inline constexpr double weights_density_kg_m3 = 8000.0;

// What a balance in air shows for 1 L of a liquid of that density (kg/m3 in vacuo), kg.
double balance_kg_per_l(double density_kg_m3);

// Volume at another temperature, mass conserved; both -20...40 degC.
double volume_at(double volume, double strength, double from_temperature_c,
                 double to_temperature_c);

// Mass on a balance in air, kg (of L), at the temperature at which the volume was measured
// (-20...40 degC; exactly 0 is refused as an empty cell).
double mass_from_volume(double volume, double strength, double temperature_c = 20.0);
double volume_from_mass(double mass_kg, double strength, double temperature_c = 20.0);

} // namespace jarbook
