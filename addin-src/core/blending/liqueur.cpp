#include "core/blending/liqueur.hpp"

#include "core/base/refusal.hpp"
#include "core/blending/blending.hpp"
#include "core/gauging/weighing.hpp"
#include "texts/liqueur.hpp"
#include "texts/unit.hpp"

#include <cmath>

namespace jarbook {

LiqueurRecipe liqueur(double final_volume, double strength, double sugar_g_per_l,
                      double spirit_strength) {
    require_amount("finalVolume", final_volume);
    require_wished_strength("strength", strength);
    require_range("sugar", sugar_g_per_l, 0.0, highest_sugar_g_per_l, texts::unit::g_per_l);
    require_wished_strength("spiritStrength", spirit_strength);
    require_positive("spiritStrength", spirit_strength,
                     texts::unit::pct_vol); // 0 is an empty cell, or no spirit
    const double sugar_kg_per_l = sugar_g_per_l / 1000.0;
    // What is not sugar: its share of the product's volume, and its own strength.
    const double share = 1.0 - sugar_l_per_kg * sugar_kg_per_l;
    const double strongest = spirit_strength * share;
    constexpr double rounding = 1e-12;
    if (strength > strongest * (1.0 + rounding))
        refuse(RefusalKind::impossible, "strength", number_text_apart(strength, strongest),
               texts::liqueur::too_strong{.strength = number_text_apart(strength, strongest),
                                          .spirit = number_text(spirit_strength),
                                          .sugar = number_text(sugar_g_per_l),
                                          .strongest = number_text(strongest)}
                   .text());
    const double volume = final_volume * share;
    const double sugar = final_volume * sugar_kg_per_l;
    if (strength == 0.0)
        return {0.0, sugar, mass_from_volume(volume, 0.0)};
    const double unsweetened = std::fmin(strength / share, spirit_strength);
    const double spirit = spirit_needed(volume, spirit_strength, unsweetened);
    const double water = water_to_add(spirit, spirit_strength, unsweetened);
    return {mass_from_volume(spirit, spirit_strength), sugar, mass_from_volume(water, 0.0)};
}

} // namespace jarbook
