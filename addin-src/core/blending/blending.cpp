#include "core/blending/blending.hpp"

#include "core/base/refusal.hpp"
#include "core/blending/mass_balance.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "texts/blending.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <cmath>

namespace jarbook {

namespace {

// Strengths nearer to each other than this are the same: what the inverse of R 22 resolves.
constexpr double resolution_pct_vol = 1e-9;

// A target outside what two strengths can make; the digits tell them apart.
[[noreturn]] void refuse_target(double target, double one, double other) {
    const double low = std::fmin(one, other);
    const double high = std::fmax(one, other);
    const std::string text = number_text_apart(target, target < low ? low : high);
    refuse(RefusalKind::impossible, "target", text,
           texts::blending::target_outside{.target = text,
                                           .one = pct_vol_text(one),
                                           .other = pct_vol_text(other),
                                           .lowest = number_text(low),
                                           .highest = pct_vol_text(high)}
               .text());
}

// A target above the spirit that water is to bring down.
[[noreturn]] void refuse_above(double target, double strength) {
    const std::string text = number_text_apart(target, strength);
    const std::string limit = pct_vol_text(strength);
    refuse(RefusalKind::impossible, "target", text,
           strength < 1.0
               ? texts::blending::target_above_share{.target = text, .strength = limit}.text()
               : texts::blending::target_above{.target = text, .strength = limit}.text());
}

// Spirit that water is to bring down to target.
void require_brought_down(double strength, double target) {
    require_strength("strength", strength);
    require_wished_strength("target", target);
    require_positive("strength", strength,
                     texts::unit::pct_vol); // 0 is an empty cell, or no spirit
    if (target > strength)
        refuse_above(target, strength);
}

} // namespace

Lot blend(const std::vector<Lot>& lots) {
    const Masses masses = masses_of(lots);
    if (!(masses.total > 0.0))
        refuse(RefusalKind::nothing_there, "volumes", "", texts::blending::nothing_to_blend);
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
    require_brought_down(strength, target);
    if (target == 0.0)
        refuse(RefusalKind::impossible, "target", number_text(target),
               texts::blending::target_zero);
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
    if (target < std::fmin(strength, added_strength) ||
        target > std::fmax(strength, added_strength))
        refuse_target(target, strength, added_strength);
    // Nearer than the formula's inverse resolves is as good as equal.
    if (std::fabs(target - added_strength) < resolution_pct_vol)
        refuse(RefusalKind::impossible, "target", number_text(target),
               texts::blending::target_of_added{.target = pct_vol_text(target),
                                                .strength = pct_vol_text(strength)}
                   .text());
    // Alcohol: m p + x a = (m + x) t in masses and mass fractions, solved for x.
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const double have = mass_fraction_from_strength(strength);
    const double added = mass_fraction_from_strength(added_strength);
    const double wanted = mass_fraction_from_strength(target);
    const double mass = spirit_20c * at_20c(have);
    // Rounding may go below 0 where the target is all but the strength.
    const double added_mass = std::fmax(mass * (have - wanted) / (wanted - added), 0.0);
    if (temperature_c == 20.0)
        return added_mass / at_20c(added);
    return added_mass / density_from_strength(added_strength, temperature_c);
}

double spirit_needed(double final_volume, double strength, double target) {
    require_amount("finalVolume", final_volume);
    require_brought_down(strength, target);
    return final_volume * target / strength;
}

std::pair<double, double> blend_pair(double strength_a, double strength_b, double target,
                                     double final_volume) {
    require_strength("strengthA", strength_a);
    require_strength("strengthB", strength_b);
    require_wished_strength("target", target);
    require_amount("finalVolume", final_volume);
    if (target < std::fmin(strength_a, strength_b) || target > std::fmax(strength_a, strength_b))
        refuse_target(target, strength_a, strength_b);
    if (std::fabs(strength_a - strength_b) < resolution_pct_vol)
        return {final_volume, 0.0}; // the same spirit twice: all of it from A
    // By mass A has the share w of the lot, w a + (1 - w) b = t in mass fractions. What rounding
    // does to w where a and b are nearly equal moves the shares, never the lot's mass.
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const double a = mass_fraction_from_strength(strength_a);
    const double b = mass_fraction_from_strength(strength_b);
    const double t = mass_fraction_from_strength(target);
    const double share_a = std::clamp((t - b) / (a - b), 0.0, 1.0);
    const double mass = final_volume * at_20c(t);
    return {mass * share_a / at_20c(a), mass * (1.0 - share_a) / at_20c(b)};
}

} // namespace jarbook
