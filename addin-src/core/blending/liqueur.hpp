// A sweetened spirit by weight: from spirit, sugar and water to a volume of a strength and
// sweetness.
#pragma once

namespace jarbook {

// Litres that a kilogram of sucrose takes up dissolved in spirit: its apparent specific volume in
// water goes from 0.616 to 0.625 L/kg between 5 and 50 % by mass (ICUMSA SPS-4), and 0.62 +- 0.015
// is taken for spirit, too (a judgement; it implies the obscuration of 27 CFR 30.32).
inline constexpr double sugar_l_per_kg = 0.62;
inline constexpr double highest_sugar_g_per_l = 500.0;

// kg for volumes in L, g for mL. Spirit and water as a balance in air shows them (weighing.hpp);
// sugar as it is dosed.
struct LiqueurRecipe {
    double spirit;
    double sugar;
    double water;
};

// What makes final_volume (at 20 degC) of strength (% vol at 20 degC of the product; 0 is a syrup)
// with that much sugar (g of sucrose per L of product, 0...500) from a spirit of spirit_strength.
// The sugar's volume is taken off the product's; what is left is ethanol and water by R 22, as if
// the sugar were not there. Without sugar it is the dilution, to the last digit. The strength of
// what it makes is right to 0.04 % vol for each 100 g/L, by what the sugar's volume is known to.
// Refuses (impossible) a strength that the spirit, sugared and without water, does not have, with
// the strongest that it has.
LiqueurRecipe liqueur(double final_volume, double strength, double sugar_g_per_l,
                      double spirit_strength);

} // namespace jarbook
