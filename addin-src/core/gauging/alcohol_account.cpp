#include "core/gauging/alcohol_account.hpp"

#include "core/base/refusal.hpp"
#include "core/gauging/lots.hpp"
#include "core/gauging/uncertainty.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/pct_vol_slope.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "texts/unit.hpp"

#include <cmath>

namespace jarbook {

namespace {

// Pure alcohol of one entry, and how far it moves with what it rests on.
struct Effects {
    double alcohol;
    double per_amount;
    double per_reading;
    double per_c;
    double per_kg_m3;
};

Effects effects_by_volume(double amount, double temperature_c, const ReadingSensitivity& at) {
    const double p = mass_fraction_from_strength(at.strength);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const auto here = at_20c.with_slope(p);
    const auto [rho_20c, slope_20c] = here;
    const auto [rho, slope] = r22::DensityAt(temperature_c).with_slope(p);
    const double pct_per_p = r22::pct_vol_slope(p, here, at_20c);
    const double c = rho / rho_20c;
    const double c_per_pct = (slope - c * slope_20c) / rho_20c / pct_per_p;
    const double c_per_c = r22::density_slope_per_c(p, temperature_c) / rho_20c;
    const double per_pct = amount * (c + at.strength * c_per_pct) / 100.0;
    return {amount * c * at.strength / 100.0, c * at.strength / 100.0, per_pct * at.per_reading,
            per_pct * at.per_c + amount * at.strength * c_per_c / 100.0, per_pct * at.per_kg_m3};
}

Effects effects_by_mass(double amount, const ReadingSensitivity& at) {
    const double p = mass_fraction_from_strength(at.strength);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const auto here = at_20c.with_slope(p);
    const auto [rho_20c, slope_20c] = here;
    const double pct_per_p = r22::pct_vol_slope(p, here, at_20c);
    const double b = balance_kg_per_l(rho_20c);
    // balance_kg_per_l is linear in the density.
    const double b_per_pct = (balance_kg_per_l(rho_20c + slope_20c) - b) / pct_per_p;
    const double per_pct = amount * (1.0 - at.strength * b_per_pct / b) / (100.0 * b);
    return {amount * at.strength / (100.0 * b), at.strength / (100.0 * b), per_pct * at.per_reading,
            per_pct * at.per_c, per_pct * at.per_kg_m3};
}

} // namespace

double AlcoholBudget::expanded() const {
    return std::sqrt(measure * measure + alcoholometer * alcoholometer + thermometer * thermometer +
                     formula * formula + scatter * scatter);
}

std::vector<BalanceEntry> balance_entries_from(const Column& amounts, const Column& readings,
                                               const Column& temperatures,
                                               const Column& amount_tolerances) {
    const bool one_temperature = temperatures.cells.size() == 1;
    const bool one_tolerance = amount_tolerances.cells.size() == 1;
    std::vector<const Column*> together{&amounts, &readings};
    if (!one_temperature)
        together.push_back(&temperatures);
    if (!one_tolerance)
        together.push_back(&amount_tolerances);
    std::vector<BalanceEntry> entries;
    for (const std::size_t row : rows_in_common(together)) {
        const std::size_t at = one_temperature ? 0 : row;
        const std::size_t tolerance_at = one_tolerance ? 0 : row;
        BalanceEntry entry{};
        entry.amount = amount_in(amounts, row);
        entry.reading = number_in_range(readings, row, 0.0, 100.0, texts::unit::pct_vol);
        entry.temperature_c = number_in(temperatures, at);
        require_measured_temperature(place_of(temperatures, at), entry.temperature_c);
        entry.amount_tolerance = amount_in(amount_tolerances, tolerance_at);
        entries.push_back(entry);
    }
    return entries;
}

AlcoholBudget alcohol_budget(const std::vector<BalanceEntry>& entries,
                             const BalanceTolerances& tolerances, bool weighed,
                             const Alcoholometer& instrument) {
    require_range("readingTolerance", tolerances.reading, 0.0, 10.0, texts::unit::pct_vol);
    require_range("temperatureTolerance", tolerances.temperature_c, 0.0, 10.0,
                  texts::unit::celsius);
    require_amount("amountScatter", tolerances.amount_scatter);
    require_range("readingScatter", tolerances.reading_scatter, 0.0, 10.0, texts::unit::pct_vol);
    require_range("temperatureScatter", tolerances.temperature_scatter_c, 0.0, 10.0,
                  texts::unit::celsius);

    AlcoholBudget budget;
    double scatter_squared = 0.0;
    for (const BalanceEntry& entry : entries) {
        const ReadingSensitivity at =
            reading_sensitivity(entry.reading, entry.temperature_c, instrument);
        const Effects effects = weighed ? effects_by_mass(entry.amount, at)
                                        : effects_by_volume(entry.amount, entry.temperature_c, at);
        budget.alcohol += effects.alcohol;
        budget.measure += effects.per_amount * expanded_of_half_width(entry.amount_tolerance);
        budget.alcoholometer += effects.per_reading * expanded_of_half_width(tolerances.reading);
        budget.thermometer += effects.per_c * expanded_of_half_width(tolerances.temperature_c);
        budget.formula += effects.per_kg_m3 * r22::density_uncertainty_kg_m3;
        for (const double part : {effects.per_amount * tolerances.amount_scatter,
                                  effects.per_reading * tolerances.reading_scatter,
                                  effects.per_c * tolerances.temperature_scatter_c})
            scatter_squared += std::pow(expanded_of_half_width(part), 2.0);
    }
    budget.scatter = std::sqrt(scatter_squared);
    return budget;
}

} // namespace jarbook
