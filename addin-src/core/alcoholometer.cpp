#include "alcoholometer.hpp"

#include "r22.hpp"
#include "refusal.hpp"
#include "strength.hpp"
#include "sucrose.hpp"

#include <cmath>

namespace jarbook {

namespace {

constexpr const char* empty_cell_hint = "Is the cell empty? For a true 0 type 0.001";

void require_measured_temperature(double temperature_c) {
    if (temperature_c == 0.0)
        refuse_range("temperature", temperature_c, r22::lowest_temperature_c,
                     r22::highest_temperature_c, "°C", empty_cell_hint);
    require_formula_temperature("temperature", temperature_c);
}

void require_instrument(const Alcoholometer& instrument) {
    require_range("reference", instrument.reference_c, 10.0, 30.0, "°C");
    require_range("glass", instrument.glass_per_c, 5e-6, 100e-6, "per °C");
}

double glass_factor(double temperature_c, const Alcoholometer& instrument) {
    return 1.0 + instrument.glass_per_c * (temperature_c - instrument.reference_c);
}

// Runs f with the formula at the instrument's reference temperature, which is nearly always 20 degC
// and then needs no work.
template <class F>
auto at_reference(const Alcoholometer& instrument, F f) {
    if (instrument.reference_c == r22::reference_temperature_c)
        return f(r22::density_at_20c());
    return f(r22::DensityAt(instrument.reference_c));
}

// Density of the liquid that the instrument floats in, kg/m3. `reading` in its scale's range.
double density_from_reading(double reading, double temperature_c,
                            const Alcoholometer& instrument) {
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double p = r22::mass_fraction_from_pct_vol(reading, formula);
        return formula(p) / glass_factor(temperature_c, instrument);
    });
}

// d rho(q, ref) / dq, kg/m3 per % vol of the instrument's scale.
double scale_slope(double reading, const Alcoholometer& instrument) {
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double p = r22::mass_fraction_from_pct_vol(reading, formula);
        const auto [rho, slope] = formula.with_slope(p);
        const double pct_per_p = 100.0 * (rho + p * slope) / formula(1.0);
        return slope / pct_per_p;
    });
}

} // namespace

double strength_from_reading(double reading, double temperature_c,
                             const Alcoholometer& instrument) {
    require_range("reading", reading, 0.0, 100.0, "% vol");
    require_measured_temperature(temperature_c);
    require_instrument(instrument);
    const double density = density_from_reading(reading, temperature_c, instrument);
    const double p = r22::mass_fraction_from_density(density, r22::DensityAt(temperature_c),
                                                     "reading");
    return r22::pct_vol_from_mass_fraction(p, r22::density_at_20c());
}

double reading_from_strength(double strength, double temperature_c,
                             const Alcoholometer& instrument) {
    require_measured_temperature(temperature_c);
    require_instrument(instrument);
    const double density =
        density_from_strength(strength, temperature_c) * glass_factor(temperature_c, instrument);
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double water = formula(0.0);
        const double ethanol = formula(1.0);
        // A ten-billionth of the scale is rounding, not off the scale.
        constexpr double rounding_kg_m3 = 1e-9;
        if (density > water + rounding_kg_m3 || density < ethanol - rounding_kg_m3)
            refuse(RefusalKind::impossible, "strength", number_text(strength),
                   "spirit of " + number_text(strength) + " % vol at " +
                       number_text(temperature_c) + " °C reads " +
                       (density < ethanol ? "above 100" : "below 0") +
                       " on the scale; allowed: what an instrument of 0 to 100 % vol can show");
        const double p = r22::mass_fraction_from_density(density, formula, "strength");
        return r22::pct_vol_from_mass_fraction(p, formula);
    });
}

double us_proof_from_reading(double reading, double temperature_f) {
    require_range("reading", reading, 0.0, 200.0, "proof");
    if (temperature_f == 0.0)
        refuse_range("temperatureF", temperature_f, -4.0, 104.0, "°F", empty_cell_hint);
    require_range("temperatureF", temperature_f, -4.0, 104.0, "°F");
    constexpr double sixty_f_c = (60.0 - 32.0) / 1.8;
    const Alcoholometer instrument{sixty_f_c, hydrometer_glass_per_c};
    // -4 and 104 degF are -20 and 40 degC but for rounding.
    const double t =
        std::fmin(std::fmax((temperature_f - 32.0) / 1.8, r22::lowest_temperature_c),
                  r22::highest_temperature_c);
    const double density = density_from_reading(reading / 2.0, t, instrument);
    const double p = r22::mass_fraction_from_density(density, r22::DensityAt(t), "reading");
    return 2.0 * r22::pct_vol_from_mass_fraction(p, r22::DensityAt(sixty_f_c));
}

double reading_uncertainty(double reading, double temperature_c, double reading_tolerance,
                           double temperature_tolerance_c, const Alcoholometer& instrument) {
    require_range("readingTolerance", reading_tolerance, 0.0, 10.0, "% vol");
    require_range("temperatureTolerance", temperature_tolerance_c, 0.0, 10.0, "°C");
    const double strength = strength_from_reading(reading, temperature_c, instrument);

    // The model rho(s, t) = rho(q, ref) / (1 + g (t - ref)) + e, differentiated at the solution:
    // ds/dq, ds/dt and ds/de from the partial derivatives of both sides.
    const double p = mass_fraction_from_strength(strength);
    const r22::DensityAt formula(temperature_c);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const auto [rho_20c, slope_20c] = at_20c.with_slope(p);
    const double pct_per_p = 100.0 * (rho_20c + p * slope_20c) / at_20c(1.0);
    const double rho_per_pct = formula.with_slope(p).slope / pct_per_p;
    const double factor = glass_factor(temperature_c, instrument);

    // d rho(p, t) / dt of the liquid, one-sided at the ends of the formula's range.
    constexpr double step_c = 1e-3;
    const double below = std::fmax(temperature_c - step_c, r22::lowest_temperature_c);
    const double above = std::fmin(temperature_c + step_c, r22::highest_temperature_c);
    const double rho_per_c =
        (r22::density_kg_m3(p, above) - r22::density_kg_m3(p, below)) / (above - below);

    const double per_reading = scale_slope(reading, instrument) / factor / rho_per_pct;
    const double per_c =
        (-instrument.glass_per_c * formula(p) / factor - rho_per_c) / rho_per_pct;
    const double per_kg_m3 = 1.0 / rho_per_pct;

    const double u_reading = per_reading * reading_tolerance / std::sqrt(3.0);
    const double u_temperature = per_c * temperature_tolerance_c / std::sqrt(3.0);
    const double u_formula = per_kg_m3 * r22::density_uncertainty_kg_m3 / 2.0;
    constexpr double coverage = 2.0;
    return coverage * std::hypot(u_reading, u_temperature, u_formula);
}

double strength_of_sweetened(double reading, double temperature_c, double sugar_g_per_l,
                             const Alcoholometer& instrument) {
    require_range("reading", reading, 0.0, 100.0, "% vol");
    require_measured_temperature(temperature_c);
    require_range("temperature", temperature_c, 0.0, r22::highest_temperature_c, "°C",
                  "The density of sugar in water is known from 0 °C upwards");
    require_instrument(instrument);
    require_range("sugar", sugar_g_per_l, 0.0, 20.0, "g/L",
                  sugar_g_per_l > 20.0
                      ? "With more sugar than that the sample has to be distilled first"
                      : "");
    const double shown = density_from_reading(reading, temperature_c, instrument);
    const double spirit = shown - sucrose_density_increment(sugar_g_per_l, temperature_c);
    const double p =
        r22::mass_fraction_from_density(spirit, r22::DensityAt(temperature_c), "reading");
    return r22::pct_vol_from_mass_fraction(p, r22::density_at_20c());
}

} // namespace jarbook
