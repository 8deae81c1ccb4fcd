#include "uno/functions/spirit.hpp"

#include "core/still/cooling_water.hpp"
#include "core/still/equilibrium.hpp"
#include "core/still/forecast.hpp"
#include "core/still/running_time.hpp"
#include "core/still/stages.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

using com::sun::star::uno::Sequence;

namespace {

double pressure_argument(const Any& pressure) {
    return number_or(pressure, "pressure", standard_pressure_hpa);
}

Still still_argument(const Any& stages, const Any& pressure) {
    return {number_or(stages, "stages", lowest_stages), pressure_argument(pressure)};
}

} // namespace

double Spirit::boilingPoint(double strength, const Any& pressure) {
    return number("BOILINGPOINT",
                  [&] { return boiling_point_c(strength, pressure_argument(pressure)); });
}

double Spirit::vapourStrength(double strength, const Any& pressure) {
    return number("VAPOURSTRENGTH",
                  [&] { return vapour_strength(strength, pressure_argument(pressure)); });
}

double Spirit::boilerStrength(double boilingPoint, const Any& pressure) {
    return number("BOILERSTRENGTH",
                  [&] { return boiler_strength(boilingPoint, pressure_argument(pressure)); });
}

double Spirit::dewStrength(double vapourTemperature, const Any& pressure) {
    return number("DEWSTRENGTH",
                  [&] { return dew_strength(vapourTemperature, pressure_argument(pressure)); });
}

double Spirit::forecastStrength(double chargeVolume, double chargeStrength, double collected,
                                const Any& stages, const Any& pressure) {
    return number("FORECASTSTRENGTH", [&] {
        return forecast_strength({chargeVolume, chargeStrength}, collected,
                                 still_argument(stages, pressure));
    });
}

double Spirit::forecastVolume(double chargeVolume, double chargeStrength, double strength,
                              const Any& stages, const Any& pressure) {
    return number("FORECASTVOLUME", [&] {
        return forecast_volume({chargeVolume, chargeStrength}, strength,
                               still_argument(stages, pressure));
    });
}

double Spirit::forecastAlcohol(double chargeVolume, double chargeStrength, double fromStrength,
                               double toStrength, const Any& stages, const Any& pressure) {
    return number("FORECASTALCOHOL", [&] {
        return forecast_alcohol({chargeVolume, chargeStrength}, fromStrength, toStrength,
                                still_argument(stages, pressure));
    });
}

Any Spirit::forecastTable(double chargeVolume, double chargeStrength, double stop, double rows,
                          const Any& stages, const Any& pressure) {
    return any_result("FORECASTTABLE", [&] {
        const auto table = forecast_table({chargeVolume, chargeStrength}, stop, rows,
                                          still_argument(stages, pressure));
        Sequence<Sequence<Any>> cells(static_cast<sal_Int32>(table.size()));
        Sequence<Any>* row = cells.getArray();
        for (const ForecastRow& at : table) {
            const Any figures[] = {Any(at.collected),       Any(at.strength),
                                   Any(at.mean_strength),   Any(at.alcohol),
                                   Any(at.boiler_strength), Any(at.boiler_temperature_c)};
            *row++ = Sequence<Any>(figures, 6);
        }
        return Any(cells);
    });
}

double Spirit::stages(double chargeVolume, double chargeStrength, const Any& volumes,
                      const Any& strengths, const Any& pressure) {
    return number("STAGES", [&] {
        return fitted_stages({chargeVolume, chargeStrength},
                             lots_argument(volumes, strengths, Any()), pressure_argument(pressure));
    });
}

double Spirit::runTime(double chargeVolume, double chargeStrength, double stop, double watts,
                       const Any& stages, const Any& reflux, const Any& pressure) {
    return number("RUNTIME", [&] {
        return run_hours({chargeVolume, chargeStrength}, stop, watts,
                         still_argument(stages, pressure), number_or(reflux, "reflux", 0.0));
    });
}

double Spirit::heatUpTime(double volume, double strength, double fromTemperature, double watts,
                          const Any& metalMass, const Any& metal) {
    return number("HEATUPTIME", [&] {
        return heatup_hours(volume, strength, fromTemperature, watts,
                            metal_named(word_or(metal, "metal", usual_metal),
                                        number_or(metalMass, "metalMass", 0.0)));
    });
}

double Spirit::coolingWater(double chargeVolume, double chargeStrength, double stop, double rise,
                            const Any& distillateTemperature, const Any& stages, const Any& reflux,
                            const Any& pressure) {
    return number("COOLINGWATER", [&] {
        return cooling_water({chargeVolume, chargeStrength}, stop, rise,
                             number_or(distillateTemperature, "distillateTemperature", 20.0),
                             still_argument(stages, pressure), number_or(reflux, "reflux", 0.0));
    });
}

} // namespace jarbook::addin
