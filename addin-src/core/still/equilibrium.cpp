#include "core/still/equilibrium.hpp"

#include "core/base/refusal.hpp"
#include "core/base/roots.hpp"
#include "core/mixture/composition.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/temperature.hpp"
#include "texts/equilibrium.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <cmath>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>

namespace jarbook {

namespace {

constexpr double van_laar_a12 = 1.6798;
constexpr double van_laar_a21 = 0.9227;

// Perry's Chemical Engineers' Handbook, 8th ed., Table 2-8; C5 is 2 for both.
struct VapourPressure {
    double c1, c2, c3, c4;

    // ln(P/Pa); the logarithm of T is shared between the two components.
    double log_pa(double t, double log_t) const { return c1 + c2 / t + c3 * log_t + c4 * t * t; }
    // d ln P / dT, 1/K
    double log_slope(double t) const { return (-c2 / t + c3) / t + 2.0 * c4 * t; }
};
constexpr VapourPressure ethanol{73.304, -7122.3, -7.1424, 2.8853e-6};
constexpr VapourPressure water{73.649, -7258.2, -7.3037, 4.1653e-6};

struct Activities {
    double log_g1, log_g2;
};
Activities activities(double x) {
    const double sum = van_laar_a12 * x + van_laar_a21 * (1.0 - x);
    const double first = van_laar_a21 * (1.0 - x) / sum;
    const double second = van_laar_a12 * x / sum;
    return {van_laar_a12 * first * first, van_laar_a21 * second * second};
}

// Both components' boiling points lie well inside between 100 and 2000 hPa.
constexpr double coldest_k = 295.0;
constexpr double hottest_k = 400.0;

// Newton's step for ln P, which is nearly linear in 1/T: d ln P / d(1/T) = -T^2 d ln P / dT.
double newton_step_in_inverse(double t, double value, double slope) {
    return 1.0 / (1.0 / t + value / (slope * t * t));
}

// That step from one fixed temperature: good to a few 0.1 K from 600 to 1100 hPa.
double first_guess_k(double g1x, double g2x, double pressure_pa) {
    constexpr double from_k = 358.0;
    static const double p1 = ethanol_vapour_pressure_pa(from_k);
    static const double p2 = water_vapour_pressure_pa(from_k);
    static const double slope1 = ethanol.log_slope(from_k);
    static const double slope2 = water.log_slope(from_k);
    const double sum = g1x * p1 + g2x * p2;
    return newton_step_in_inverse(from_k, std::log(sum / pressure_pa),
                                  (g1x * p1 * slope1 + g2x * p2 * slope2) / sum);
}

} // namespace

void require_pressure(double pressure_hpa) {
    require_range("pressure", pressure_hpa, lowest_pressure_hpa, highest_pressure_hpa,
                  texts::unit::hpa, pressure_hpa == 0.0 ? texts::refusal::is_it_empty : "");
}

double ethanol_vapour_pressure_pa(double temperature_k) {
    return std::exp(ethanol.log_pa(temperature_k, std::log(temperature_k)));
}

double water_vapour_pressure_pa(double temperature_k) {
    return std::exp(water.log_pa(temperature_k, std::log(temperature_k)));
}

double Equilibrium::azeotrope_fraction() const {
    // There the relative volatility is 1; above it at x = 0.5, below it next to pure ethanol.
    const auto log_volatility = [this](double x) {
        const double t = over(x).temperature_k;
        const double log_t = std::log(t);
        const Activities g = activities(x);
        return g.log_g1 + ethanol.log_pa(t, log_t) - g.log_g2 - water.log_pa(t, log_t);
    };
    return bracketed_root(log_volatility, 0.5, 1.0, texts::equilibrium::not_solved);
}

Equilibrium::Point Equilibrium::over(double x) const {
    const Activities g = activities(x);
    const double g1x = x * std::exp(g.log_g1);
    const double g2x = (1.0 - x) * std::exp(g.log_g2);
    double t = first_guess_k(g1x, g2x, pressure_pa_);
    for (int i = 0; i < 50; ++i) {
        const double log_t = std::log(t);
        const double p1 = g1x * std::exp(ethanol.log_pa(t, log_t));
        const double p2 = g2x * std::exp(water.log_pa(t, log_t));
        const double y = p1 / (p1 + p2);
        const double slope1 = ethanol.log_slope(t);
        const double slope2 = water.log_slope(t);
        const double next = newton_step_in_inverse(t, std::log((p1 + p2) / pressure_pa_),
                                                   y * slope1 + (1.0 - y) * slope2);
        if (!(next > coldest_k && next < hottest_k))
            break;
        // The next step would be 0.0004/K times this one's square: 4e-12 K. Over so small a step y
        // goes along its tangent.
        const double step = next - t;
        if (std::fabs(step) < 1e-4)
            return {next, y + y * (1.0 - y) * (slope1 - slope2) * step};
        t = next;
    }
    refuse(RefusalKind::no_convergence, "pressure", number_text(pressure_pa_ / 100.0),
           texts::equilibrium::no_boiling_point);
}

double Equilibrium::liquid_fraction(double y) const {
    if (y <= 0.0)
        return 0.0;
    // Vapour is no weaker than its liquid there.
    return bracketed_root([&](double x) { return vapour_fraction(x) - y; }, 0.0, y,
                          texts::equilibrium::not_solved);
}

double mole_fraction_from_strength(double strength) {
    return mole_fraction_from_mass_fraction(mass_fraction_from_strength(strength));
}

double strength_from_mole_fraction(double x) {
    return strength_from_mass_fraction(mass_fraction_from_mole_fraction(x));
}

double azeotrope_strength(double pressure_hpa) {
    require_pressure(pressure_hpa);
    return strength_from_mole_fraction(Equilibrium(pressure_hpa).azeotrope_fraction());
}

double boiling_point_c(double strength, double pressure_hpa) {
    require_pressure(pressure_hpa);
    const double x = mole_fraction_from_strength(strength);
    return Equilibrium(pressure_hpa).over(x).temperature_k - zero_celsius_k;
}

double vapour_strength(double strength, double pressure_hpa) {
    require_pressure(pressure_hpa);
    const double x = mole_fraction_from_strength(strength);
    return strength_from_mole_fraction(Equilibrium(pressure_hpa).vapour_fraction(x));
}

namespace {
// Azeotrope at 600 hPa 65.5 degC, water at 1100 hPa 102.3 degC: no other pressure is taken.
constexpr double coldest_boil_c = 65.0;
constexpr double hottest_boil_c = 103.0;

// Mole fraction of the liquid that boils at a temperature, on the water-rich side, where a boiling
// point falls from water's to the azeotrope's.
double boiling_liquid(const Equilibrium& equilibrium, std::string_view argument,
                      double temperature_c, double pressure_hpa) {
    const double azeotrope = equilibrium.azeotrope_fraction();
    const double t = temperature_c + zero_celsius_k;
    const double lowest = equilibrium.over(azeotrope).temperature_k;
    const double highest = equilibrium.over(0.0).temperature_k;
    // A temperature that misses an end by the rounding of degC to K alone is that end.
    constexpr double rounding_k = 1e-9;
    if (std::fabs(t - highest) <= rounding_k)
        return 0.0;
    if (std::fabs(t - lowest) <= rounding_k)
        return azeotrope;
    require_range(argument, temperature_c, coldest_boil_c, hottest_boil_c, texts::unit::celsius);
    if (t < lowest || t > highest)
        refuse(RefusalKind::impossible, argument, number_text(temperature_c),
               texts::equilibrium::no_boil{.argument = std::string(argument),
                                           .temperature = number_text(temperature_c),
                                           .pressure = number_text(pressure_hpa),
                                           .lowest = number_text(lowest - zero_celsius_k),
                                           .highest = number_text(highest - zero_celsius_k)}
                   .text());
    return bracketed_root([&](double x) { return equilibrium.over(x).temperature_k - t; }, 0.0,
                          azeotrope, texts::equilibrium::not_solved);
}
} // namespace

double boiler_strength(double boiling_point_c, double pressure_hpa) {
    require_pressure(pressure_hpa);
    return strength_from_mole_fraction(
        boiling_liquid(Equilibrium(pressure_hpa), "boilingPoint", boiling_point_c, pressure_hpa));
}

double dew_strength(double vapour_temperature_c, double pressure_hpa) {
    require_pressure(pressure_hpa);
    const Equilibrium equilibrium(pressure_hpa);
    // The vapour that condenses at T is the one over the liquid that boils at T.
    const double x =
        boiling_liquid(equilibrium, "vapourTemperature", vapour_temperature_c, pressure_hpa);
    return strength_from_mole_fraction(equilibrium.vapour_fraction(x));
}

} // namespace jarbook
