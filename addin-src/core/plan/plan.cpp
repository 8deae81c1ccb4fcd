#include "core/plan/plan.hpp"

#include "core/base/refusal.hpp"
#include "core/blending/blending.hpp"
#include "core/plan/parts.hpp"
#include "texts/plan.hpp"

#include <cmath>

namespace jarbook {

using plan::Part;

std::vector<PlanJar> plan_jars_from(const Column& volumes, const Column& strengths,
                                    const Column* preference) {
    std::vector<double> preferences(volumes.cells.size(), 1.0);
    if (preference) {
        if (preference->cells.size() != volumes.cells.size())
            rows_in_common({&volumes, preference}); // refuses, with both lengths
        for (std::size_t row = 0; row < preferences.size(); ++row) {
            if (is_blank(preference->cells[row])) {
                preferences[row] = 0.0;
                continue;
            }
            preferences[row] = amount_in(*preference, row); // it is reckoned with as one
        }
    }
    std::vector<PlanJar> jars;
    for (const Lot& lot : lots_from(volumes, strengths)) {
        jars.push_back({lot, preferences[lot.row]});
        preferences[lot.row] = 0.0;
    }
    if (preference)
        for (std::size_t row = 0; row < preferences.size(); ++row)
            if (preferences[row] > 0.0)
                refuse_incomplete(volumes, preference->name, row);
    return jars;
}

BlendPlan plan_same_share(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const std::vector<Part> parts = plan::usable_parts(jars, wish);
    double alcohol = 0.0;
    double mass = 0.0;
    for (const Part& part : parts) {
        alcohol += part.alcohol;
        mass += part.mass;
    }
    if (mass > alcohol * (1.0 + plan::tolerance)) {
        std::vector<Lot> lots;
        for (const PlanJar& jar : jars)
            lots.push_back(jar.jar);
        refuse(RefusalKind::impossible, "target", number_text(wish.target),
               texts::plan::same_share_too_weak{.target = pct_vol_text(wish.target),
                                                .strongest = pct_vol_text(blend(lots).strength)}
                   .text());
    }
    const double share = std::fmin(1.0 / alcohol, 1.0);
    return plan::plan_of(jars, wish, parts, std::vector<double>(parts.size(), share));
}

} // namespace jarbook
