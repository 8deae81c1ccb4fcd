// Temperature scales.
#pragma once

namespace jarbook {

inline constexpr double zero_celsius_k = 273.15;

constexpr double celsius_from_fahrenheit(double temperature_f) {
    return (temperature_f - 32.0) / 1.8;
}
inline constexpr double sixty_f_c = celsius_from_fahrenheit(60.0);

} // namespace jarbook
