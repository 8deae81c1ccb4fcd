// How strength by volume moves with the mass fraction.
#pragma once

#include "core/mixture/r22.hpp"

namespace jarbook::r22 {

// d(% vol) / dp of a mixture of mass fraction p, mixture and ethanol both at the formula's
// temperature: q = 100 p rho(p) / rho(1), differentiated. `at` is the formula's value and slope
// there.
inline double pct_vol_slope(double p, const DensityAt::ValueAndSlope& at,
                            const DensityAt& formula) {
    return 100.0 * (at.density_kg_m3 + p * at.slope) / formula.ethanol();
}

} // namespace jarbook::r22
