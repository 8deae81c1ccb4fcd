#include "strength.hpp"

#include "freezing.hpp"
#include "r22.hpp"
#include "refusal.hpp"

namespace jarbook {

void require_formula_temperature(const char* argument, double temperature_c) {
    require_range(argument, temperature_c, r22::lowest_temperature_c, r22::highest_temperature_c,
                  "°C");
}

void require_liquid(double mass_fraction, double strength, double temperature_c) {
    if (temperature_c >= 0.0)
        return;
    // A mixture exactly on the curve is liquid; 1e-12 covers the rounding of the two conversions.
    if (mass_fraction >= lowest_liquid_mass_fraction(temperature_c) - 1e-12)
        return;
    refuse(RefusalKind::impossible, "temperature", number_text(temperature_c),
           "spirit of " + number_text(strength) + " % vol is partly frozen at " +
               number_text(temperature_c) + " °C; it is liquid above " +
               number_text(freezing_point_c(mass_fraction)) + " °C");
}

double mass_fraction_from_strength(double strength) {
    require_strength("strength", strength);
    return r22::mass_fraction_from_pct_vol(strength, r22::density_at_20c());
}

double strength_from_mass_fraction(double mass_fraction) {
    require_range("mass fraction", mass_fraction, 0.0, 1.0, "");
    return r22::pct_vol_from_mass_fraction(mass_fraction, r22::density_at_20c());
}

double density_from_strength(double strength, double temperature_c) {
    require_formula_temperature("temperature", temperature_c);
    const double p = mass_fraction_from_strength(strength);
    require_liquid(p, strength, temperature_c);
    return r22::density_kg_m3(p, temperature_c);
}

double strength_from_density(double density_kg_m3, double temperature_c) {
    require_formula_temperature("temperature", temperature_c);
    require_positive("density", density_kg_m3, "kg/m³");
    const double p = r22::mass_fraction_from_density(
        density_kg_m3, r22::DensityAt(temperature_c), "density");
    return strength_from_mass_fraction(p);
}

} // namespace jarbook
