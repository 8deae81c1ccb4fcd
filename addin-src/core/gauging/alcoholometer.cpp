#include "core/gauging/alcoholometer.hpp"

#include "core/base/refusal.hpp"
#include "core/gauging/uncertainty.hpp"
#include "core/mixture/freezing.hpp"
#include "core/mixture/pct_vol_slope.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/sucrose.hpp"
#include "core/mixture/temperature.hpp"
#include "texts/alcoholometer.hpp"
#include "texts/number.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <cmath>
#include <string>
#include <utility>

namespace jarbook {

namespace {

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
double density_from_reading(double reading, double temperature_c, const Alcoholometer& instrument) {
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double p = r22::mass_fraction_from_pct_vol(reading, formula);
        return formula(p) / glass_factor(temperature_c, instrument);
    });
}

std::string degrees(double temperature, std::string_view unit) {
    return texts::number::with_unit{.number = number_text(temperature), .unit = std::string(unit)}
        .text();
}

// Refuses a reading that no liquid mixture can show at that temperature, with those that one can.
// Per cent by volume of the scale times `per_pct` is what the person reads. `density` is what the
// reading came to, `sugar` what was taken off it, kg/m3.
[[noreturn]] void refuse_reading(double reading, double temperature_c, double density,
                                 const Alcoholometer& instrument, std::string temperature,
                                 std::string_view unit, double per_pct, double sugar = 0.0) {
    const r22::DensityAt liquid(temperature_c);
    const r22::DensityAt scale(instrument.reference_c);
    const double watery = lowest_liquid_mass_fraction(temperature_c);
    const auto shown = [&](double p) {
        const double on_scale = (liquid(p) + sugar) * glass_factor(temperature_c, instrument);
        if (on_scale >= scale(0.0))
            return 0.0;
        if (on_scale <= scale.ethanol())
            return 100.0 * per_pct;
        return per_pct * r22::pct_vol_from_mass_fraction(
                             r22::mass_fraction_from_density(on_scale, scale, "reading"), scale);
    };
    const double lowest = shown(watery);
    const double highest = shown(1.0);
    const bool heavy = density > liquid(watery);
    const std::string shown_text = number_text_apart(reading, heavy ? lowest : highest);
    const auto with_unit = [&](std::string number) {
        return texts::number::with_unit{.number = std::move(number), .unit = std::string(unit)}
            .text();
    };
    if (sugar > 0.0)
        temperature = texts::alcoholometer::sweetened_at{.temperature = temperature}.text();
    const auto sentence = [&]<class Text>(Text) {
        return Text{.reading = with_unit(shown_text),
                    .conditions = temperature,
                    .lowest = number_text(lowest),
                    .highest = with_unit(number_text(highest))}
            .text();
    };
    refuse(RefusalKind::impossible, "reading", shown_text,
           !heavy         ? sentence(texts::alcoholometer::too_light{})
           : watery > 0.0 ? sentence(texts::alcoholometer::frozen{})
                          : sentence(texts::alcoholometer::too_heavy{}));
}

// Mass fraction of the spirit that shows a reading: the inverse of R 22 at the density found, with
// a refusal that speaks of the reading.
double mass_fraction_shown(double density, const r22::DensityAt& formula, double reading,
                           const Alcoholometer& instrument, double sugar = 0.0) {
    try {
        return r22::mass_fraction_from_density(density, formula, "reading");
    } catch (const Refusal& refusal) {
        if (refusal.kind() != RefusalKind::impossible)
            throw;
    }
    const double t = formula.temperature_c();
    refuse_reading(reading, t, density, instrument, degrees(t, texts::unit::celsius),
                   texts::unit::pct_vol, 1.0, sugar);
}

// d rho(q, ref) / dq, kg/m3 per % vol of the instrument's scale.
double scale_slope(double reading, const Alcoholometer& instrument) {
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double p = r22::mass_fraction_from_pct_vol(reading, formula);
        const auto at = formula.with_slope(p);
        return at.slope / r22::pct_vol_slope(p, at, formula);
    });
}

} // namespace

void require_instrument(const Alcoholometer& instrument) {
    require_range("reference", instrument.reference_c, 10.0, 30.0, texts::unit::celsius);
    require_range("glass", instrument.glass_per_c, 5e-6, 100e-6, texts::unit::per_c);
}

double strength_from_reading(double reading, double temperature_c,
                             const Alcoholometer& instrument) {
    require_range("reading", reading, 0.0, 100.0, texts::unit::pct_vol);
    require_measured_temperature("temperature", temperature_c);
    require_instrument(instrument);
    const double density = density_from_reading(reading, temperature_c, instrument);
    const double p =
        mass_fraction_shown(density, r22::DensityAt(temperature_c), reading, instrument);
    return r22::pct_vol_from_mass_fraction(p, r22::density_at_20c());
}

double reading_from_strength(double strength, double temperature_c,
                             const Alcoholometer& instrument) {
    require_measured_temperature("temperature", temperature_c);
    require_instrument(instrument);
    const double density =
        density_from_strength(strength, temperature_c) * glass_factor(temperature_c, instrument);
    return at_reference(instrument, [&](const r22::DensityAt& formula) {
        const double water = formula(0.0);
        const double ethanol = formula.ethanol();
        // A ten-billionth of the scale is rounding, not off the scale.
        constexpr double rounding_kg_m3 = 1e-9;
        if (density > water + rounding_kg_m3 || density < ethanol - rounding_kg_m3) {
            const bool light = density < ethanol;
            const double limit =
                strength_from_reading(light ? 100.0 : 0.0, temperature_c, instrument);
            const std::string text = number_text_apart(strength, limit);
            const auto sentence = [&]<class Text>(Text) {
                const std::string_view unit = texts::unit::pct_vol;
                return Text{.strength = texts::number::with_unit{text, std::string(unit)}.text(),
                            .temperature = number_text(temperature_c),
                            .limit = pct_vol_text(limit)}
                    .text();
            };
            refuse(RefusalKind::impossible, "strength", text,
                   light ? sentence(texts::alcoholometer::above_scale{})
                         : sentence(texts::alcoholometer::below_scale{}));
        }
        const double p = r22::mass_fraction_from_density(density, formula, "strength");
        return r22::pct_vol_from_mass_fraction(p, formula);
    });
}

double us_proof_from_reading(double reading, double temperature_f) {
    require_range("reading", reading, 0.0, 200.0, texts::unit::proof);
    if (temperature_f == 0.0)
        refuse_range("temperatureF", temperature_f, -4.0, 104.0, texts::unit::fahrenheit,
                     texts::refusal::is_it_empty_or_zero);
    require_range("temperatureF", temperature_f, -4.0, 104.0, texts::unit::fahrenheit);
    const Alcoholometer instrument{sixty_f_c, hydrometer_glass_per_c};
    // -4 and 104 degF are -20 and 40 degC but for rounding.
    const double t =
        std::fmin(std::fmax(celsius_from_fahrenheit(temperature_f), r22::lowest_temperature_c),
                  r22::highest_temperature_c);
    const double density = density_from_reading(reading / 2.0, t, instrument);
    double p = 0.0;
    try {
        p = r22::mass_fraction_from_density(density, r22::DensityAt(t), "reading");
    } catch (const Refusal& refusal) {
        if (refusal.kind() != RefusalKind::impossible)
            throw;
        refuse_reading(reading, t, density, instrument,
                       degrees(temperature_f, texts::unit::fahrenheit), texts::unit::proof, 2.0);
    }
    return 2.0 * r22::pct_vol_from_mass_fraction(p, r22::DensityAt(sixty_f_c));
}

ReadingSensitivity reading_sensitivity(double reading, double temperature_c,
                                       const Alcoholometer& instrument) {
    const double strength = strength_from_reading(reading, temperature_c, instrument);
    const double p = mass_fraction_from_strength(strength);
    const r22::DensityAt formula(temperature_c);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const double pct_per_p = r22::pct_vol_slope(p, at_20c.with_slope(p), at_20c);
    const double rho_per_pct = formula.with_slope(p).slope / pct_per_p;
    const double factor = glass_factor(temperature_c, instrument);
    const double rho_per_c = r22::density_slope_per_c(p, temperature_c);
    return {strength, scale_slope(reading, instrument) / factor / rho_per_pct,
            (-instrument.glass_per_c * formula(p) / factor - rho_per_c) / rho_per_pct,
            1.0 / rho_per_pct};
}

double reading_uncertainty(double reading, double temperature_c, double reading_tolerance,
                           double temperature_tolerance_c, const Alcoholometer& instrument) {
    require_range("readingTolerance", reading_tolerance, 0.0, 10.0, texts::unit::pct_vol);
    require_range("temperatureTolerance", temperature_tolerance_c, 0.0, 10.0, texts::unit::celsius);
    const ReadingSensitivity at = reading_sensitivity(reading, temperature_c, instrument);
    return std::hypot(at.per_reading * expanded_of_half_width(reading_tolerance),
                      at.per_c * expanded_of_half_width(temperature_tolerance_c),
                      at.per_kg_m3 * r22::density_uncertainty_kg_m3);
}

double strength_of_sweetened(double reading, double temperature_c, double sugar_g_per_l,
                             const Alcoholometer& instrument) {
    require_range("reading", reading, 0.0, 100.0, texts::unit::pct_vol);
    require_measured_temperature("temperature", temperature_c);
    require_range("temperature", temperature_c, 0.0, r22::highest_temperature_c,
                  texts::unit::celsius, texts::alcoholometer::sugar_needs_warmth);
    require_instrument(instrument);
    require_range("sugar", sugar_g_per_l, 0.0, 20.0, texts::unit::g_per_l,
                  sugar_g_per_l > 20.0 ? texts::alcoholometer::too_much_sugar : "");
    const double shown = density_from_reading(reading, temperature_c, instrument);
    const r22::DensityAt formula(temperature_c);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    // The litre of the product is one at 20 degC; at t it holds as much more or less as the spirit
    // has shrunk or grown. The correction is a few thousandths per pass, so this ends at once.
    double p = 0.0;
    double sugar_at_t = sugar_g_per_l;
    for (int pass = 0; pass < 6; ++pass) {
        const double added = sucrose_density_increment(sugar_at_t, temperature_c);
        p = mass_fraction_shown(shown - added, formula, reading, instrument, added);
        sugar_at_t = sugar_g_per_l * formula(p) / at_20c(p);
    }
    return r22::pct_vol_from_mass_fraction(p, r22::density_at_20c());
}

} // namespace jarbook
