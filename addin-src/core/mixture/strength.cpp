#include "core/mixture/strength.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/freezing.hpp"
#include "core/mixture/r22.hpp"

namespace jarbook {

void require_formula_temperature(std::string_view argument, double temperature_c,
                                 std::string_view place) {
    // Written so that NaN fails.
    if (!(temperature_c >= r22::lowest_temperature_c &&
          temperature_c <= r22::highest_temperature_c))
        refuse_range(argument, temperature_c, r22::lowest_temperature_c, r22::highest_temperature_c,
                     "°C", "", place);
}

void require_measured_temperature(std::string_view argument, double temperature_c,
                                  std::string_view place) {
    if (temperature_c == 0.0)
        refuse_range(argument, temperature_c, r22::lowest_temperature_c, r22::highest_temperature_c,
                     "°C", "Is the cell empty? For a true 0 type 0.001", place);
    require_formula_temperature(argument, temperature_c, place);
}

void require_liquid(double mass_fraction, double strength, double temperature_c,
                    std::string_view temperature_argument, std::string_view place) {
    if (temperature_c >= 0.0)
        return;
    // A mixture exactly on the curve is liquid; 1e-12 covers the rounding of the two conversions.
    if (mass_fraction >= lowest_liquid_mass_fraction(temperature_c) - 1e-12)
        return;
    const double freezing_c = freezing_point_c(mass_fraction);
    const std::string liquid =
        strength == 0.0 ? "water" : "spirit of " + number_text(strength) + " % vol";
    refuse(RefusalKind::impossible, temperature_argument, number_text(temperature_c),
           std::string(place.empty() ? temperature_argument : place) + " is " +
               number_text_apart(temperature_c, freezing_c) + " °C; " + liquid +
               " is partly frozen there. Allowed: " + number_text(freezing_c) + " to " +
               number_text(r22::highest_temperature_c) + " °C");
}

double mass_fraction_from_strength(double strength) {
    require_strength("strength", strength);
    return r22::mass_fraction_from_pct_vol(strength, r22::density_at_20c());
}

double strength_from_mass_fraction(double mass_fraction) {
    require_range("mass fraction", mass_fraction, 0.0, 1.0, "");
    return r22::pct_vol_from_mass_fraction(mass_fraction, r22::density_at_20c());
}

double density_from_strength(double strength, double temperature_c,
                             std::string_view temperature_argument, std::string_view place) {
    require_formula_temperature(temperature_argument, temperature_c, place);
    const double p = mass_fraction_from_strength(strength);
    require_liquid(p, strength, temperature_c, temperature_argument, place);
    return r22::density_kg_m3(p, temperature_c);
}

double strength_from_density(double density_kg_m3, double temperature_c) {
    require_formula_temperature("temperature", temperature_c);
    require_positive("density", density_kg_m3, "kg/m³");
    const double p =
        r22::mass_fraction_from_density(density_kg_m3, r22::DensityAt(temperature_c), "density");
    return strength_from_mass_fraction(p);
}

} // namespace jarbook
