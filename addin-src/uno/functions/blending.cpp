#include "uno/functions/spirit.hpp"

#include "core/blending/blending.hpp"
#include "core/blending/liqueur.hpp"
#include "core/mixture/r22.hpp"
#include "core/plan/plan.hpp"
#include "uno/functions/guard.hpp"

namespace jarbook::addin {

double Spirit::waterToAdd(double volume, double strength, double target, const Any& temperature) {
    return number("WATERTOADD", [&] {
        return water_to_add(volume, strength, target,
                            number_or(temperature, "temperature", r22::reference_temperature_c));
    });
}

double Spirit::spiritToAdd(double volume, double strength, double target, double addedStrength,
                           const Any& temperature) {
    return number("SPIRITTOADD", [&] {
        return spirit_to_add(volume, strength, target, addedStrength,
                             number_or(temperature, "temperature", r22::reference_temperature_c));
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
    return number("CONTRACTION",
                  [&] { return jarbook::contraction(lots_argument(volumes, strengths, Any())); });
}

Any Spirit::blendPair(double strengthA, double strengthB, double target, double finalVolume) {
    return any_result("BLENDPAIR", [&] {
        const auto [a, b] = blend_pair(strengthA, strengthB, target, finalVolume);
        return column_result({a, b});
    });
}

Any Spirit::blendPlan(const Any& volumes, const Any& strengths, double finalVolume, double target,
                      const Any& preference, const Any& wholeJars) {
    return any_result("BLENDPLAN", [&] {
        const Column list = column(volumes, "volumes");
        const auto preferences = optional_column(preference, "preference");
        const bool whole = flag_or(wholeJars, "wholeJars", false);
        const auto jars = plan_jars_from(list, column(strengths, "strengths"),
                                         preferences ? &*preferences : nullptr);
        const BlendWish wish{finalVolume, target};
        const BlendPlan plan = whole         ? plan_whole_jars(jars, wish)
                               : preferences ? plan_divided(jars, wish)
                                             : plan_same_share(jars, wish);
        // One figure a row of the lists, 0 where the row is blank; then the water.
        std::vector<double> rows(list.cells.size(), 0.0);
        for (std::size_t i = 0; i < jars.size(); ++i)
            rows[jars[i].jar.row] = plan.volumes[i];
        rows.push_back(plan.water);
        return column_result(rows);
    });
}

Any Spirit::liqueur(double finalVolume, double strength, double sugar, double spiritStrength) {
    return any_result("LIQUEUR", [&] {
        const LiqueurRecipe recipe = jarbook::liqueur(finalVolume, strength, sugar, spiritStrength);
        return column_result({recipe.spirit, recipe.sugar, recipe.water});
    });
}

} // namespace jarbook::addin
