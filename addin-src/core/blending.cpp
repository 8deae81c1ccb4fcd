#include "blending.hpp"

#include "r22.hpp"
#include "refusal.hpp"
#include "strength.hpp"

#include <cmath>

namespace jarbook {

namespace {

struct Masses {
    double total = 0.0;
    double alcohol = 0.0;
};

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

// kg per L at 20 degC
double density_of(double strength) { return lot_mass({1.0, strength}); }

std::string pct(double strength) { return number_text(strength) + " % vol"; }

} // namespace

Lot blend(const std::vector<Lot>& lots) {
    const Masses masses = masses_of(lots);
    if (!(masses.total > 0.0))
        refuse(RefusalKind::nothing_there, "volumes", "",
               "there is nothing to blend: every volume is 0 or blank");
    return lot_of(masses);
}

double blend_volume(const std::vector<Lot>& lots) {
    const Masses masses = masses_of(lots);
    return masses.total > 0.0 ? lot_of(masses).volume : 0.0;
}

double contraction(const std::vector<Lot>& lots) {
    double sum = 0.0;
    for (const Lot& lot : lots)
        sum += lot.volume;
    return sum - blend_volume(lots);
}

double water_to_add(double volume, double strength, double target, double temperature_c) {
    require_strength("strength", strength);
    require_wished_strength("target", target);
    if (target > strength)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is " + pct(target) + ", above the spirit's " + pct(strength) +
                   "; water only brings strength down. Allowed: 1 to " + number_text(strength) +
                   " % vol");
    if (target == 0.0)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is 0 % vol; no amount of water brings spirit down to that. Is the cell "
               "empty?");
    return spirit_to_add(volume, strength, target, 0.0, temperature_c);
}

double spirit_to_add(double volume, double strength, double target, double added_strength,
                     double temperature_c) {
    require_amount("volume", volume);
    require_strength("strength", strength);
    require_wished_strength("target", target);
    require_strength("addedStrength", added_strength);
    const double spirit_20c = volume_at_20c(volume, strength, temperature_c, "temperature");
    if (target == strength)
        return 0.0;
    const double low = std::fmin(strength, added_strength);
    const double high = std::fmax(strength, added_strength);
    if (target < low || target > high)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is " + pct(target) + "; mixing " + pct(strength) + " with " +
                   pct(added_strength) + " gives " + number_text(low) + " to " + pct(high) +
                   " only");
    if (target == added_strength)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is " + pct(target) + ", that of the spirit to add; no amount of it brings " +
                   pct(strength) + " all the way there");
    // Alcohol: V s + X a = (m V + M X) / m_t * t with m the kg/L of each at 20 degC; solved for X.
    const double per_kg = target / density_of(target);
    const double added_20c = spirit_20c * (strength - per_kg * density_of(strength)) /
                             (per_kg * density_of(added_strength) - added_strength);
    if (temperature_c == 20.0)
        return added_20c;
    return volume_at(added_20c, added_strength, 20.0, temperature_c);
}

double spirit_needed(double final_volume, double strength, double target) {
    require_amount("finalVolume", final_volume);
    require_strength("strength", strength);
    require_wished_strength("target", target);
    if (strength == 0.0)
        refuse(RefusalKind::out_of_range, "strength", number_text(strength),
               "strength is 0 % vol; that is water. Is the cell empty?");
    if (target > strength)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is " + pct(target) + ", above the spirit's " + pct(strength) +
                   "; water only brings strength down");
    return final_volume * target / strength;
}

std::pair<double, double> blend_pair(double strength_a, double strength_b, double target,
                                     double final_volume) {
    require_strength("strengthA", strength_a);
    require_strength("strengthB", strength_b);
    require_wished_strength("target", target);
    require_amount("finalVolume", final_volume);
    const double low = std::fmin(strength_a, strength_b);
    const double high = std::fmax(strength_a, strength_b);
    if (target < low || target > high)
        refuse(RefusalKind::impossible, "target", number_text(target),
               "target is " + pct(target) + "; mixing " + pct(strength_a) + " with " +
                   pct(strength_b) + " gives " + number_text(low) + " to " + pct(high) + " only");
    if (strength_a == strength_b)
        return {final_volume, 0.0}; // the same spirit twice: all of it from A
    // Two balances, mass and alcohol, for two unknown volumes; by Cramer's rule.
    const double mass = final_volume * density_of(target);
    const double alcohol = final_volume * target;
    const double ma = density_of(strength_a);
    const double mb = density_of(strength_b);
    const double determinant = ma * strength_b - mb * strength_a;
    return {(mass * strength_b - mb * alcohol) / determinant,
            (ma * alcohol - mass * strength_a) / determinant};
}

namespace {
void require_charge(const Lot& charge) {
    require_positive("chargeVolume", charge.volume, "");
    require_wished_strength("chargeStrength", charge.strength);
    require_positive("chargeStrength", charge.strength, "% vol");
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
               "the lots hold " + number_text(pure_alcohol(collected)) +
                   " of pure alcohol and the charge only " +
                   number_text(lot_pure_alcohol(charge)) +
                   " (same unit of volume); a reading, a volume or the charge is wrong");
    if (total <= rounding)
        refuse(RefusalKind::impossible, "volumes", "",
               "the lots weigh as much as the charge or more: nothing is left in the boiler");
    if (alcohol > total)
        refuse(RefusalKind::impossible, "volumes", "",
               "more water was taken out than was charged: what is left would be stronger than "
               "ethanol; a reading, a volume or the charge is wrong");
    return lot_of({total, std::fmax(alcohol, 0.0)}).strength;
}

} // namespace jarbook
