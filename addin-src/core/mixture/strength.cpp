#include "core/mixture/strength.hpp"

#include "core/mixture/freezing.hpp"
#include "core/mixture/r22.hpp"
#include "texts/refusal.hpp"
#include "texts/strength.hpp"
#include "texts/unit.hpp"

namespace jarbook {

void require_formula_temperature(const ArgumentPlace& place, double temperature_c) {
    require_range(place, temperature_c, r22::lowest_temperature_c, r22::highest_temperature_c,
                  texts::unit::celsius);
}

void require_measured_temperature(const ArgumentPlace& place, double temperature_c) {
    if (temperature_c == 0.0)
        refuse_range(place, temperature_c, r22::lowest_temperature_c, r22::highest_temperature_c,
                     texts::unit::celsius, texts::refusal::is_it_empty_or_zero);
    require_formula_temperature(place, temperature_c);
}

void require_liquid(double mass_fraction, double strength, double temperature_c,
                    const ArgumentPlace& place) {
    if (temperature_c >= 0.0)
        return;
    // A mixture exactly on the curve is liquid; 1e-12 covers the rounding of the two conversions.
    if (mass_fraction >= lowest_liquid_mass_fraction(temperature_c) - 1e-12)
        return;
    const double freezing_c = freezing_point_c(mass_fraction);
    const std::string shown = number_text_apart(temperature_c, freezing_c);
    const std::string freezing = number_text(freezing_c);
    const std::string highest = number_text(r22::highest_temperature_c);
    refuse(RefusalKind::impossible, place, shown,
           strength == 0.0 ? texts::strength::water_frozen{.place = place.text(),
                                                           .temperature = shown,
                                                           .freezing = freezing,
                                                           .highest = highest}
                                 .text()
                           : texts::strength::spirit_frozen{.place = place.text(),
                                                            .temperature = shown,
                                                            .strength = pct_vol_text(strength),
                                                            .freezing = freezing,
                                                            .highest = highest}
                                 .text());
}

double mass_fraction_from_strength(double strength) {
    require_strength("strength", strength);
    return r22::mass_fraction_from_pct_vol(strength, r22::density_at_20c());
}

double strength_from_mass_fraction(double mass_fraction) {
    require_range("mass fraction", mass_fraction, 0.0, 1.0, "");
    return r22::pct_vol_from_mass_fraction(mass_fraction, r22::density_at_20c());
}

double density_from_strength(double strength, double temperature_c, const ArgumentPlace& place) {
    require_formula_temperature(place, temperature_c);
    const double p = mass_fraction_from_strength(strength);
    require_liquid(p, strength, temperature_c, place);
    return r22::density_kg_m3(p, temperature_c);
}

double strength_from_density(double density_kg_m3, double temperature_c) {
    require_formula_temperature("temperature", temperature_c);
    require_positive("density", density_kg_m3, texts::unit::kg_per_m3);
    const double p =
        r22::mass_fraction_from_density(density_kg_m3, r22::DensityAt(temperature_c), "density");
    return strength_from_mass_fraction(p);
}

} // namespace jarbook
