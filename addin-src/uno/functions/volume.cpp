#include "uno/functions/spirit.hpp"

#include "core/blending/blending.hpp"
#include "core/gauging/alcohol_account.hpp"
#include "core/gauging/lots.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/r22.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

double Spirit::volume(double volume, double strength, double fromTemperature,
                      double toTemperature) {
    return number("VOLUME",
                  [&] { return volume_at(volume, strength, fromTemperature, toTemperature); });
}

double Spirit::mass(double volume, double strength, const Any& temperature) {
    return number("MASS", [&] {
        return mass_from_volume(
            volume, strength, number_or(temperature, "temperature", r22::reference_temperature_c));
    });
}

double Spirit::volumeFromMass(double mass, double strength, const Any& temperature) {
    return number("VOLUMEFROMMASS", [&] {
        return volume_from_mass(
            mass, strength, number_or(temperature, "temperature", r22::reference_temperature_c));
    });
}

double Spirit::pureAlcohol(const Any& volumes, const Any& strengths,
                           const Any& volumeTemperatures) {
    return number("PUREALCOHOL", [&] {
        return pure_alcohol(lots_argument(volumes, strengths, volumeTemperatures));
    });
}

double Spirit::recovery(double chargeVolume, double chargeStrength, const Any& volumes,
                        const Any& strengths, const Any& volumeTemperatures) {
    return number("RECOVERY", [&] {
        return jarbook::recovery({chargeVolume, chargeStrength},
                                 lots_argument(volumes, strengths, volumeTemperatures));
    });
}

double Spirit::residueStrength(double chargeVolume, double chargeStrength, const Any& volumes,
                               const Any& strengths, const Any& volumeTemperatures) {
    return number("RESIDUESTRENGTH", [&] {
        return residue_strength({chargeVolume, chargeStrength},
                                lots_argument(volumes, strengths, volumeTemperatures));
    });
}

namespace {
// The budget of lists and tolerances as the two functions take them.
AlcoholBudget budget_argument(const Any& amounts, const Any& readings, const Any& temperatures,
                              const Any& amountTolerance, double readingTolerance,
                              double temperatureTolerance, const Any& amountScatter,
                              const Any& readingScatter, const Any& temperatureScatter,
                              const Any& weighed, const Any& reference) {
    const BalanceTolerances tolerances{readingTolerance, temperatureTolerance,
                                       number_or(amountScatter, "amountScatter", 0.0),
                                       number_or(readingScatter, "readingScatter", 0.0),
                                       number_or(temperatureScatter, "temperatureScatter", 0.0)};
    const Alcoholometer instrument{number_or(reference, "reference", alcoholometer_reference_c),
                                   hydrometer_glass_per_c};
    return alcohol_budget(balance_entries_from(column(amounts, "amounts"),
                                               column(readings, "readings"),
                                               column(temperatures, "temperatures"),
                                               column(amountTolerance, "amountTolerance")),
                          tolerances, flag_or(weighed, "weighed", false), instrument);
}
} // namespace

double Spirit::pureAlcoholUncertainty(const Any& amounts, const Any& readings,
                                      const Any& temperatures, const Any& amountTolerance,
                                      double readingTolerance, double temperatureTolerance,
                                      const Any& amountScatter, const Any& readingScatter,
                                      const Any& temperatureScatter, const Any& weighed,
                                      const Any& reference) {
    return number("PUREALCOHOLUNCERTAINTY", [&] {
        return budget_argument(amounts, readings, temperatures, amountTolerance, readingTolerance,
                               temperatureTolerance, amountScatter, readingScatter,
                               temperatureScatter, weighed, reference)
            .expanded();
    });
}

Any Spirit::pureAlcoholBudget(const Any& amounts, const Any& readings, const Any& temperatures,
                              const Any& amountTolerance, double readingTolerance,
                              double temperatureTolerance, const Any& amountScatter,
                              const Any& readingScatter, const Any& temperatureScatter,
                              const Any& weighed, const Any& reference) {
    return any_result("PUREALCOHOLBUDGET", [&] {
        const AlcoholBudget budget =
            budget_argument(amounts, readings, temperatures, amountTolerance, readingTolerance,
                            temperatureTolerance, amountScatter, readingScatter, temperatureScatter,
                            weighed, reference);
        return column_result({budget.measure, budget.alcoholometer, budget.thermometer,
                              budget.formula, budget.scatter});
    });
}

} // namespace jarbook::addin
