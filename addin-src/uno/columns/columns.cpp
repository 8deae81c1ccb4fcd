#include "uno/functions/spirit.hpp"

#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/strength.hpp"
#include "core/still/forecast.hpp"
#include "uno/columns/row_by_row.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

namespace {

constexpr double usual_temperature_c = 20.0;

// Checked here, too: it is wrong also where no row needs it.
Alcoholometer instrument(const Any& reference, const Any& glass) {
    const Alcoholometer given{number_or(reference, "reference", alcoholometer_reference_c),
                              number_or(glass, "glass", hydrometer_glass_per_c)};
    require_instrument(given);
    return given;
}

} // namespace

Any Spirit::strengthColumn(const Any& readings, const Any& temperatures, const Any& reference,
                           const Any& glass) {
    return any_result("STRENGTHCOLUMN", [&] {
        const Alcoholometer floats = instrument(reference, glass);
        return row_by_row(
            "STRENGTHCOLUMN",
            {{readings, "readings", "reading"}, {temperatures, "temperatures", "temperature"}},
            [&](const double* row) { return strength_from_reading(row[0], row[1], floats); });
    });
}

Any Spirit::readingColumn(const Any& strengths, const Any& temperatures, const Any& reference,
                          const Any& glass) {
    return any_result("READINGCOLUMN", [&] {
        const Alcoholometer floats = instrument(reference, glass);
        return row_by_row(
            "READINGCOLUMN",
            {{strengths, "strengths", "strength"}, {temperatures, "temperatures", "temperature"}},
            [&](const double* row) { return reading_from_strength(row[0], row[1], floats); });
    });
}

Any Spirit::densityColumn(const Any& strengths, const Any& temperatures) {
    return any_result("DENSITYCOLUMN", [&] {
        return row_by_row("DENSITYCOLUMN",
                          {{strengths, "strengths", "strength"},
                           {temperatures, "temperatures", "temperature", usual_temperature_c}},
                          [](const double* row) { return density_from_strength(row[0], row[1]); });
    });
}

Any Spirit::volumeColumn(const Any& volumes, const Any& strengths, const Any& fromTemperatures,
                         const Any& toTemperatures) {
    return any_result("VOLUMECOLUMN", [&] {
        return row_by_row(
            "VOLUMECOLUMN",
            {{volumes, "volumes", "volume"},
             {strengths, "strengths", "strength"},
             {fromTemperatures, "fromTemperatures", "fromTemperature"},
             {toTemperatures, "toTemperatures", "toTemperature"}},
            [](const double* row) { return volume_at(row[0], row[1], row[2], row[3]); });
    });
}

Any Spirit::massColumn(const Any& volumes, const Any& strengths, const Any& temperatures) {
    return any_result("MASSCOLUMN", [&] {
        return row_by_row(
            "MASSCOLUMN",
            {{volumes, "volumes", "volume"},
             {strengths, "strengths", "strength"},
             {temperatures, "temperatures", "temperature", usual_temperature_c}},
            [](const double* row) { return mass_from_volume(row[0], row[1], row[2]); });
    });
}

Any Spirit::forecastStrengthColumn(double chargeVolume, double chargeStrength, const Any& collected,
                                   const Any& stages, const Any& pressure) {
    return any_result("FORECASTSTRENGTHCOLUMN", [&] {
        const Charge charge{chargeVolume, chargeStrength};
        const Still still{number_or(stages, "stages", lowest_stages),
                          number_or(pressure, "pressure", standard_pressure_hpa)};
        (void)forecast_strength(charge, 0.0, still); // refused also where no row needs it
        return row_by_row(
            "FORECASTSTRENGTHCOLUMN", {{collected, "collected", "collected"}},
            [&](const double* row) { return forecast_strength(charge, row[0], still); });
    });
}

} // namespace jarbook::addin
