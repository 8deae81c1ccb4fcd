#include "core/gauging/weighing.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/strength.hpp"

namespace jarbook {

double balance_kg_per_l(double density_kg_m3) {
    return (density_kg_m3 - air_density_kg_m3) / (1.0 - air_density_kg_m3 / weights_density_kg_m3) /
           1000.0;
}

double volume_at(double volume, double strength, double from_temperature_c,
                 double to_temperature_c) {
    require_amount("volume", volume);
    require_strength("strength", strength);
    require_formula_temperature("fromTemperature", from_temperature_c);
    require_formula_temperature("toTemperature", to_temperature_c);
    return volume * density_from_strength(strength, from_temperature_c, "fromTemperature") /
           density_from_strength(strength, to_temperature_c, "toTemperature");
}

double mass_from_volume(double volume, double strength, double temperature_c) {
    require_amount("volume", volume);
    require_measured_temperature("temperature", temperature_c);
    return volume * balance_kg_per_l(density_from_strength(strength, temperature_c));
}

double volume_from_mass(double mass_kg, double strength, double temperature_c) {
    require_amount("mass", mass_kg);
    require_measured_temperature("temperature", temperature_c);
    return mass_kg / balance_kg_per_l(density_from_strength(strength, temperature_c));
}

} // namespace jarbook
