// Where an ethanol-water mixture is liquid.
//
// Freezing points of aqueous ethanol: CRC Handbook of Chemistry and Physics, 102nd ed.,
// "Concentrative properties of aqueous solutions", freezing-point depression against per cent by
// mass, 0.5...68 %; linear between the rows. Stronger mixtures freeze below -49 degC, outside the
// range of R 22. The table gives two decimals; a handbook's figure is good to about 0.1 degC.
#pragma once

namespace jarbook {

// Freezing point, degC, of a mixture of that mass fraction of ethanol (0...1). Above the table's
// end (0.68) the last entry, -49.52, is returned: an upper bound, enough to tell that it is liquid.
double freezing_point_c(double mass_fraction);

// The smallest mass fraction of ethanol that is liquid at that temperature: 0 from 0 degC upwards.
// Temperature -40 degC or more.
double lowest_liquid_mass_fraction(double temperature_c);

} // namespace jarbook
