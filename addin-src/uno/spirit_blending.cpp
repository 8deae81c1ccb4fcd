#include "spirit.hpp"

#include "blending.hpp"
#include "guard.hpp"

namespace jarbook::addin {

double Spirit::waterToAdd(double volume, double strength, double target, const Any& temperature) {
    return number("WATERTOADD", [&] {
        return water_to_add(volume, strength, target,
                            number_or(temperature, "temperature", 20.0));
    });
}

double Spirit::spiritToAdd(double volume, double strength, double target, double addedStrength,
                           const Any& temperature) {
    return number("SPIRITTOADD", [&] {
        return spirit_to_add(volume, strength, target, addedStrength,
                             number_or(temperature, "temperature", 20.0));
    });
}

double Spirit::spiritNeeded(double finalVolume, double strength, double target) {
    return number("SPIRITNEEDED", [&] { return spirit_needed(finalVolume, strength, target); });
}

double Spirit::blendStrength(const Any& volumes, const Any& strengths,
                             const Any& volumeTemperatures) {
    return number("BLENDSTRENGTH", [&] {
        return blend(lots_argument(volumes, strengths, volumeTemperatures)).strength;
    });
}

double Spirit::blendVolume(const Any& volumes, const Any& strengths,
                           const Any& volumeTemperatures) {
    return number("BLENDVOLUME", [&] {
        return blend_volume(lots_argument(volumes, strengths, volumeTemperatures));
    });
}

double Spirit::contraction(const Any& volumes, const Any& strengths) {
    return number("CONTRACTION", [&] {
        return jarbook::contraction(lots_argument(volumes, strengths, Any()));
    });
}

Any Spirit::blendPair(double strengthA, double strengthB, double target, double finalVolume) {
    return any_result("BLENDPAIR", [&] {
        const auto [a, b] = blend_pair(strengthA, strengthB, target, finalVolume);
        return column_result({a, b});
    });
}

} // namespace jarbook::addin
