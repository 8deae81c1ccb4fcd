// What uncertainties are made of: GUM (JCGM 100:2008).
#pragma once

#include <numbers>

namespace jarbook {

// Expanded uncertainty is stated with this coverage factor k: GUM 6.2.
inline constexpr double coverage_factor = 2.0;

// Standard uncertainty of what lies anywhere within a half-width, all alike: GUM 4.3.7.
constexpr double standard_of_half_width(double half_width) {
    return half_width * std::numbers::inv_sqrt3;
}
constexpr double expanded_of_half_width(double half_width) {
    return coverage_factor * standard_of_half_width(half_width);
}

} // namespace jarbook
