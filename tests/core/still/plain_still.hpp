// The equilibrium and a pot-still run once more, written plainly from the definitions and the
// published constants (tests/data), with bisection for every root and a Runge-Kutta integration of
// Rayleigh's equation in ln n: a second opinion on the core, by another method.
#pragma once

#include "mixture/plain_r22.hpp"
#include <cmath>
#include <functional>

namespace plain_still {

inline constexpr double ethanol_g = 46.068;
inline constexpr double water_g = 18.015;

struct Constants {
    double vapour_pressure[2][6] = {}; // component, C1...C5
    double a12 = 0.0;
    double a21 = 0.0;

    static const Constants& get() {
        static const Constants constants;
        return constants;
    }

private:
    Constants();
};

// Pa, of ethanol (0) or water (1).
inline double vapour_pressure(int component, double t) {
    const double* c = Constants::get().vapour_pressure[component];
    return std::exp(c[1] + c[2] / t + c[3] * std::log(t) + c[4] * std::pow(t, c[5]));
}

inline double activity(int component, double x) {
    const double a12 = Constants::get().a12;
    const double a21 = Constants::get().a21;
    const double sum = a12 * x + a21 * (1.0 - x);
    return component == 0 ? std::exp(a12 * std::pow(a21 * (1.0 - x) / sum, 2))
                          : std::exp(a21 * std::pow(a12 * x / sum, 2));
}

inline double partial_pressure(int component, double x, double t) {
    return (component == 0 ? x : 1.0 - x) * activity(component, x) * vapour_pressure(component, t);
}

// Boiling point, K, at a pressure in Pa.
inline double boiling_k(double x, double pressure_pa) {
    return plain_r22::bisect(
        [&](double t) {
            return partial_pressure(0, x, t) + partial_pressure(1, x, t) - pressure_pa;
        },
        300.0, 400.0);
}

inline double vapour(double x, double pressure_pa) {
    return partial_pressure(0, x, boiling_k(x, pressure_pa)) / pressure_pa;
}

// Liquid that boils at T, on the water-rich side up to a mole fraction.
inline double liquid_at(double t, double pressure_pa, double up_to = 0.9) {
    return plain_r22::bisect([&](double x) { return boiling_k(x, pressure_pa) - t; }, 0.0, up_to);
}

inline double distillate(double x, double stages, double pressure_pa) {
    double y = x;
    for (int i = 0; i < static_cast<int>(stages); ++i)
        y = vapour(y, pressure_pa);
    const double part = stages - std::floor(stages);
    return part > 0.0 ? (1.0 - part) * y + part * vapour(y, pressure_pa) : y;
}

inline double mole_fraction(double strength) {
    const double p = plain_r22::mass_fraction(strength, 20.0);
    return p / ethanol_g / (p / ethanol_g + (1.0 - p) / water_g);
}
inline double mass_fraction(double x) {
    return x * ethanol_g / (x * ethanol_g + (1.0 - x) * water_g);
}
inline double strength(double x) {
    return plain_r22::pct_vol(mass_fraction(x), 20.0);
}

// A run of a charge of 1 L, at the moment when `boiled` = ln(n0/n).
class Run {
public:
    Run(double charge_strength, double stages, double pressure_hpa)
        : stages_(stages), pressure_pa_(100.0 * pressure_hpa), x0_(mole_fraction(charge_strength)),
          n0_(plain_r22::density(mass_fraction(x0_), 20.0) /
              (x0_ * ethanol_g + (1.0 - x0_) * water_g)),
          x_(x0_) {}

    // Goes on to where f, which is above 0 now, falls to 0; to where the run has that strength; to
    // where so much is collected.
    void until(const std::function<double()>& f);
    void until_strength(double wanted);
    void until_collected(double wanted);

    double running() const { return strength(distillate(x_, stages_, pressure_pa_)); }
    double boiler() const { return strength(x_); }
    double boiler_x() const { return x_; }
    double boiled() const { return boiled_; }
    double boiler_c() const { return boiling_k(x_, pressure_pa_) - 273.15; }
    // Amounts collected, mol per L of charge.
    double ethanol() const { return n0_ * x0_ - left() * x_; }
    double water() const { return n0_ * (1.0 - x0_) - left() * (1.0 - x_); }
    double left() const { return n0_ * std::exp(-boiled_); }
    // L per L of charge, of what was collected beyond given amounts.
    double collected(double without_ethanol = 0.0, double without_water = 0.0) const {
        const double e = (ethanol() - without_ethanol) * ethanol_g;
        const double mass = e + (water() - without_water) * water_g;
        return mass > 0.0 ? mass / plain_r22::density(e / mass, 20.0) : 0.0;
    }
    double mean(double without_ethanol = 0.0, double without_water = 0.0) const {
        const double e = (ethanol() - without_ethanol) * ethanol_g;
        return plain_r22::pct_vol(e / (e + (water() - without_water) * water_g), 20.0);
    }
    double alcohol() const { return ethanol() * ethanol_g / plain_r22::density(1.0, 20.0); }

private:
    void go(double fall);

    double stages_;
    double pressure_pa_;
    double x0_;
    double n0_;
    double x_;
    double boiled_ = 0.0;
};

} // namespace plain_still
