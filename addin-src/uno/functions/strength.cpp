#include "uno/functions/spirit.hpp"
#include "uno/text/utf8.hpp"

#include "core/gauging/alcoholometer.hpp"
#include "core/gauging/distilled_sample.hpp"
#include "core/gauging/scales.hpp"
#include "core/gauging/wash.hpp"
#include "core/gauging/weighed_density.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

namespace {
Alcoholometer instrument(const Any& reference, const Any& glass) {
    return {number_or(reference, "reference", alcoholometer_reference_c),
            number_or(glass, "glass", hydrometer_glass_per_c)};
}

Weighing weighing(const Any& waterTemperature, const Any& spiritTemperature, const Any& glass) {
    return {number_or(waterTemperature, "waterTemperature", 20.0),
            number_or(spiritTemperature, "spiritTemperature", 20.0),
            number_or(glass, "glass", flask_glass_per_c)};
}
} // namespace

double Spirit::strength(double reading, double temperature, const Any& reference,
                        const Any& glass) {
    return number("STRENGTH", [&] {
        return strength_from_reading(reading, temperature, instrument(reference, glass));
    });
}

double Spirit::reading(double strength, double temperature, const Any& reference,
                       const Any& glass) {
    return number("READING", [&] {
        return reading_from_strength(strength, temperature, instrument(reference, glass));
    });
}

double Spirit::density(double strength, const Any& temperature) {
    return number("DENSITY", [&] {
        return density_from_strength(
            strength, number_or(temperature, "temperature", r22::reference_temperature_c));
    });
}

double Spirit::strengthFromDensity(double density, const Any& temperature) {
    return number("STRENGTHFROMDENSITY", [&] {
        return strength_from_density(
            density, number_or(temperature, "temperature", r22::reference_temperature_c));
    });
}

double Spirit::proof(double reading, double temperatureF) {
    return number("PROOF", [&] { return us_proof_from_reading(reading, temperatureF); });
}

double Spirit::convert(double value, const OUString& from, const OUString& to) {
    return number("CONVERT", [&] { return convert_strength(value, utf8(from), utf8(to)); });
}

double Spirit::sweetened(double reading, double temperature, double sugar) {
    return number("SWEETENED", [&] { return strength_of_sweetened(reading, temperature, sugar); });
}

double Spirit::uncertainty(double reading, double temperature, double readingTolerance,
                           double temperatureTolerance, const Any& reference) {
    return number("UNCERTAINTY", [&] {
        return reading_uncertainty(reading, temperature, readingTolerance, temperatureTolerance,
                                   instrument(reference, Any()));
    });
}

double Spirit::pycnometerDensity(double emptyMass, double waterMass, double spiritMass,
                                 const Any& waterTemperature, const Any& spiritTemperature,
                                 const Any& glass) {
    return number("PYCNOMETERDENSITY", [&] {
        return pycnometer_density(emptyMass, waterMass, spiritMass,
                                  weighing(waterTemperature, spiritTemperature, glass));
    });
}

double Spirit::plummetDensity(double waterLoad, double spiritLoad, const Any& waterTemperature,
                              const Any& spiritTemperature, const Any& glass) {
    return number("PLUMMETDENSITY", [&] {
        return plummet_density(waterLoad, spiritLoad,
                               weighing(waterTemperature, spiritTemperature, glass));
    });
}

double Spirit::washStrength(double originalGravity, double finalGravity,
                            const Any& originalTemperature, const Any& finalTemperature) {
    return number("WASHSTRENGTH", [&] {
        return wash_strength(originalGravity, finalGravity,
                             number_or(originalTemperature, "originalTemperature", 20.0),
                             number_or(finalTemperature, "finalTemperature", 20.0));
    });
}

double Spirit::sampleStrength(double sampleVolume, double madeUpVolume, double reading,
                              double temperature, const Any& sampleTemperature,
                              const Any& reference) {
    return number("SAMPLESTRENGTH", [&] {
        return sample_strength(sampleVolume, madeUpVolume, reading, temperature,
                               number_or(sampleTemperature, "sampleTemperature", 20.0),
                               instrument(reference, Any()));
    });
}

} // namespace jarbook::addin
