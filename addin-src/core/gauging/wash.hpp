// Strength of a fermented wash from its gravity before and after.
#pragma once

namespace jarbook {

inline constexpr double highest_gravity = 1.15;
inline constexpr double lowest_final_gravity = 0.98;

// Strength of a wash, % vol at 20 degC, from gravities as a hydrometer of 20/20 degC shows them
// (1.050: 1.000...1.150 before, 0.980...1.150 after, at most the one before), each at its
// temperature (0...40 degC; exactly 0 is refused as an empty cell).
//
// The hydrometer is of constant mass (glass 25e-6 per degC) and floats in a sugar solution (ICUMSA
// SPS-4), whose per cent by mass is the extract: original OE, apparent AE (below 0 under water).
// Balling's form: A %mas = (OE - RE)/(2.0665 - 0.010665 OE) with the real extract RE = 0.1808 OE +
// 0.8192 AE (Balling 1865 as used in brewing science, from memory), and % vol by the density of the
// wash at 20 degC. Within 0.3 % vol of the legal factors for beer (Excise Notice 226, 30.2-30.3) up
// to 100 degrees of gravity lost, where a wash ends at 1.020 or below. Not for honey, milk, or a
// wash with much that does not ferment.
double wash_strength(double original_gravity, double final_gravity,
                     double original_temperature_c = 20.0, double final_temperature_c = 20.0);

} // namespace jarbook
