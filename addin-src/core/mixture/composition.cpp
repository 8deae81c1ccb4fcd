#include "core/mixture/composition.hpp"

namespace jarbook {

double mole_fraction_from_mass_fraction(double mass_fraction) {
    const double ethanol = mass_fraction / ethanol_g_per_mol;
    const double water = (1.0 - mass_fraction) / water_g_per_mol;
    return ethanol / (ethanol + water);
}

double mass_fraction_from_mole_fraction(double mole_fraction) {
    const double ethanol = mole_fraction * ethanol_g_per_mol;
    const double water = (1.0 - mole_fraction) * water_g_per_mol;
    return ethanol / (ethanol + water);
}

} // namespace jarbook
