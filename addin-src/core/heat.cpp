#include "heat.hpp"

#include "pot_run.hpp"
#include "r22.hpp"
#include "refusal.hpp"
#include "run_memory.hpp"
#include "scales.hpp"
#include "strength.hpp"

#include <array>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <string>

namespace jarbook {

namespace {

constexpr double zero_celsius_k = 273.15;
constexpr double seconds_per_hour = 3600.0;

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

void require_watts(double watts) {
    require_positive("watts", watts, "W");
}

// kJ and hours: J over W is seconds.
double hours(double joules, double watts) {
    return joules / watts / seconds_per_hour;
}

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

double heatup_hours(double volume_l, double strength, double from_temperature_c, double watts) {
    require_positive("volume", volume_l, "L");
    require_wished_strength("strength", strength);
    require_watts(watts);
    // The formula for water's heat capacity begins at its triple point.
    require_range("fromTemperature", from_temperature_c, 0.01, 100.0, "°C",
                  from_temperature_c == 0.0 ? "Is the cell empty? For a true 0 type 0.01" : "");
    const double x = mole_fraction_from_strength(strength);
    const double boil_k = Equilibrium(standard_pressure_hpa).over(x).temperature_k;
    if (from_temperature_c + zero_celsius_k > boil_k)
        refuse(RefusalKind::impossible, "fromTemperature", number_text(from_temperature_c),
               "fromTemperature is " + number_text(from_temperature_c) + " °C; a charge of " +
                   number_text(strength) + " % vol boils at " +
                   number_text(boil_k - zero_celsius_k) + " °C already");
    const double grams_per_mol = x * ethanol_g_per_mol + (1.0 - x) * water_g_per_mol;
    const double mol =
        volume_l * r22::density_at_20c()(mass_fraction_from_strength(strength)) / grams_per_mol;
    return hours(mol * (liquid_enthalpy(x, boil_k) -
                        liquid_enthalpy(x, from_temperature_c + zero_celsius_k)),
                 watts);
}

double run_hours(const Charge& charge_l, double stop, double watts, const Still& still,
                 double reflux) {
    require_positive("chargeVolume", charge_l.volume, "L");
    const auto run = RunMemory::get().run(charge_l.strength, still.stages, still.pressure_hpa);
    require_watts(watts);
    require_range("reflux", reflux, 0.0, 100.0, "L returned per L collected");
    const PotRun::Progress end = when_shown(*run, "stop", stop);

    const Equilibrium& equilibrium = run->equilibrium();
    // What the vapour that runs off carries away, and what its share that returns takes to be
    // raised again; per unit of progress.
    const auto raised = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run->at(progress);
        const double y = now.distillate_fraction;
        const double dew_k = equilibrium.over(equilibrium.liquid_fraction(y)).temperature_k;
        const double vapour = vapour_enthalpy(y, dew_k);
        double heat = vapour;
        if (reflux > 0.0)
            heat += reflux * (vapour - liquid_enthalpy(y, equilibrium.over(y).temperature_k));
        return now.rate_mol * heat;
    };
    const auto in_boiler = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run->at(progress);
        const double x = now.boiler_fraction;
        return now.left_mol * liquid_enthalpy(x, equilibrium.over(x).temperature_k);
    };
    double heat = in_boiler(end) - in_boiler(0.0);
    if (end > 0.0)
        heat += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(raised, 0.0, end, 10,
                                                                              1e-9);
    return hours(charge_l.volume * heat, watts);
}

} // namespace jarbook
