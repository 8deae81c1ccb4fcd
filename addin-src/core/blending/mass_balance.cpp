#include "core/blending/mass_balance.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/r22.hpp"
#include "texts/balance.hpp"
#include "texts/unit.hpp"

#include <cmath>

namespace jarbook {

Masses masses_of(const std::vector<Lot>& lots) {
    Masses sum;
    for (const Lot& lot : lots) {
        sum.total += lot_mass(lot);
        sum.alcohol += lot_alcohol_mass(lot);
    }
    return sum;
}

Lot lot_of(const Masses& masses) {
    const r22::DensityAt& formula = r22::density_at_20c();
    // Rounding of the sums may pass pure ethanol by a few 1e-16.
    const double p = std::fmin(masses.alcohol / masses.total, 1.0);
    return {1000.0 * masses.total / formula(p), r22::pct_vol_from_mass_fraction(p, formula)};
}

namespace {
void require_charge(const Lot& charge) {
    require_positive("chargeVolume", charge.volume, "");
    require_wished_strength("chargeStrength", charge.strength);
    require_positive("chargeStrength", charge.strength, texts::unit::pct_vol);
}
} // namespace

double recovery(const Lot& charge, const std::vector<Lot>& collected) {
    require_charge(charge);
    return pure_alcohol(collected) / lot_pure_alcohol(charge);
}

double residue_strength(const Lot& charge, const std::vector<Lot>& collected) {
    require_charge(charge);
    const Masses out = masses_of(collected);
    const double total = lot_mass(charge) - out.total;
    const double alcohol = lot_alcohol_mass(charge) - out.alcohol;
    // Taking everything out to the last drop leaves rounding, not liquid.
    const double rounding = 1e-12 * lot_mass(charge);
    if (alcohol < -rounding)
        refuse(RefusalKind::impossible, "volumes", number_text(pure_alcohol(collected)),
               texts::balance::more_alcohol{.collected = number_text(pure_alcohol(collected)),
                                            .charged = number_text(lot_pure_alcohol(charge))}
                   .text());
    if (total <= rounding)
        refuse(RefusalKind::impossible, "volumes", "", texts::balance::nothing_left);
    if (alcohol > total)
        refuse(RefusalKind::impossible, "volumes", "", texts::balance::more_water);
    return lot_of({total, std::fmax(alcohol, 0.0)}).strength;
}

} // namespace jarbook
