// Lots of liquid: jars, cans, a charge; what they hold, and how they are read from lists.
//
// Volumes are at 20 degC unless a temperature says otherwise. Homogeneous: millilitres in,
// millilitres out.
#pragma once

#include "core/base/lists.hpp"

#include <vector>

namespace jarbook {

// A lot of liquid: a jar, a can, a charge.
struct Lot {
    double volume;       // at 20 degC, in the caller's unit
    double strength;     // % vol at 20 degC
    std::size_t row = 0; // where it stands in the lists it came from, from 0
};

// Mass in vacuo per unit of volume at 20 degC, and the ethanol in it (kg for volumes in L). Mass is
// what is conserved and adds up; both in vacuo, so that no air enters the balances.
double lot_mass(const Lot& lot);
double lot_alcohol_mass(const Lot& lot);
// Pure alcohol at 20 degC, in the lot's own unit of volume.
inline double lot_pure_alcohol(const Lot& lot) {
    return lot.volume * lot.strength / 100.0;
}

// The lots of lists that belong together; blank rows are left out. Temperatures, if any, are those
// at which the volumes were measured (one value, or a list of equal length; -20...40 degC, 0 is
// refused as an empty cell) and move volumes only.
std::vector<Lot> lots_from(const Column& volumes, const Column& strengths,
                           const Column* volume_temperatures = nullptr);

// Volume at 20 degC of a lot measured at a temperature given as an optional volume temperature: 0
// is refused as an empty cell. `place` is where the temperature stands.
double volume_at_20c(double volume, double strength, double temperature_c,
                     const ArgumentPlace& place);

double pure_alcohol(const std::vector<Lot>& lots);

} // namespace jarbook
