#include "core/still/enthalpy.hpp"

#include "core/mixture/temperature.hpp"

#include <array>
#include <cmath>

namespace jarbook {

namespace {

// Liquid heat capacity, J/(kmol K) = C1 + C2 T + C3 T^2 + C4 T^3 + C5 T^4: Perry's, 8th ed.,
// Table 2-153.
using HeatCapacity = std::array<double, 5>;
constexpr HeatCapacity ethanol_capacity{102640.0, -139.63, -0.030341, 0.0020386, 0.0};
constexpr HeatCapacity water_capacity{276370.0, -2090.1, 8.125, -0.014116, 9.3701e-6};

// Its integral from 0 degC, J/mol.
double enthalpy(const HeatCapacity& c, double t) {
    const auto antiderivative = [&c](double at) {
        double sum = 0.0;
        for (int k = 4; k >= 0; --k)
            sum = (sum + c[static_cast<std::size_t>(k)] / (k + 1.0)) * at;
        return sum;
    };
    return (antiderivative(t) - antiderivative(zero_celsius_k)) / 1000.0;
}

// Heat of vaporisation, J/mol = C1 (1 - Tr)^(C2 + C3 Tr + C4 Tr^2): Perry's, 8th ed., Table 2-150.
struct Vaporisation {
    double c1, c2, c3, c4, critical_k;
    double operator()(double t) const {
        const double tr = t / critical_k;
        return c1 * std::pow(1.0 - tr, c2 + tr * (c3 + tr * c4));
    }
};
constexpr Vaporisation ethanol_heat{55789.0, 0.31245, 0.0, 0.0, 514.0};
constexpr Vaporisation water_heat{52053.0, 0.3199, -0.212, 0.25795, 647.096};

// Larkin, J. Chem. Thermodyn. 7 (1975) 137: H^E = x (1 - x) sum_m (b + c T + d T^2) x^m, J/mol. The
// variant d(1.5) = -10.128 that circulates is a misprint: it gives -582 J/mol at x = 0.5, 298 K.
struct LarkinTerm {
    double power, b, c, d;
};
constexpr std::array<LarkinTerm, 5> larkin{{
    {0.0, -3.63868e5, 1.83829e3, -2.32763},
    {0.5, 9.25982e5, -4.83586e3, 6.37228},
    {1.5, -1.404894e6, 7.51661e3, -10.1128},
    {2.5, 1.091318e6, -5.89498e3, 7.98868},
    {4.5, -2.79986e5, 1.50557e3, -2.03127},
}};
constexpr double larkin_lowest_k = 298.15;

} // namespace

double ethanol_liquid_enthalpy(double temperature_k) {
    return enthalpy(ethanol_capacity, temperature_k);
}
double water_liquid_enthalpy(double temperature_k) {
    return enthalpy(water_capacity, temperature_k);
}
double ethanol_vaporisation(double temperature_k) {
    return ethanol_heat(temperature_k);
}
double water_vaporisation(double temperature_k) {
    return water_heat(temperature_k);
}

double excess_enthalpy(double x, double temperature_k) {
    // Below the correlation's range along its tangent: the excess heat capacity stays what it is at
    // the end of the range.
    const double t = std::fmax(temperature_k, larkin_lowest_k);
    const double below = temperature_k - t;
    double sum = 0.0;
    for (const LarkinTerm& term : larkin)
        sum += (term.b + term.c * (t + below) + term.d * t * (t + 2.0 * below)) *
               std::pow(x, term.power);
    return x * (1.0 - x) * sum;
}

double liquid_enthalpy(double x, double temperature_k) {
    return x * ethanol_liquid_enthalpy(temperature_k) +
           (1.0 - x) * water_liquid_enthalpy(temperature_k) + excess_enthalpy(x, temperature_k);
}

double vapour_enthalpy(double y, double temperature_k) {
    return y * (ethanol_liquid_enthalpy(temperature_k) + ethanol_vaporisation(temperature_k)) +
           (1.0 - y) * (water_liquid_enthalpy(temperature_k) + water_vaporisation(temperature_k));
}

} // namespace jarbook
