#include "spirit.hpp"

#include "blending.hpp"
#include "guard.hpp"
#include "volume.hpp"

namespace jarbook::addin {

double Spirit::volume(double volume, double strength, double fromTemperature,
                      double toTemperature) {
    return number("VOLUME",
                  [&] { return volume_at(volume, strength, fromTemperature, toTemperature); });
}

double Spirit::mass(double volume, double strength, const Any& temperature) {
    return number("MASS", [&] {
        return mass_from_volume(volume, strength, number_or(temperature, "temperature", 20.0));
    });
}

double Spirit::volumeFromMass(double mass, double strength, const Any& temperature) {
    return number("VOLUMEFROMMASS", [&] {
        return volume_from_mass(mass, strength, number_or(temperature, "temperature", 20.0));
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

} // namespace jarbook::addin
