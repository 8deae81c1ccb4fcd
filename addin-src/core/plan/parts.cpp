#include "core/plan/parts.hpp"

#include "core/base/refusal.hpp"
#include "core/blending/blending.hpp"
#include "texts/plan.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

namespace jarbook::plan {

namespace {

void require_wish(const BlendWish& wish) {
    require_positive("finalVolume", wish.final_volume, "");
    require_wished_strength("target", wish.target);
    if (wish.target == 0.0)
        refuse_range("target", wish.target, 1.0, 100.0, texts::unit::pct_vol,
                     texts::refusal::is_it_empty);
}

Lot wished_lot(const BlendWish& wish) {
    return {wish.final_volume, wish.target};
}

// The strength of the strongest blend of that volume; the lots hold at least as much.
double strongest_blend(std::vector<Lot> lots, double volume) {
    std::stable_sort(lots.begin(), lots.end(),
                     [](const Lot& a, const Lot& b) { return a.strength > b.strength; });
    std::vector<Lot> taken;
    for (const Lot& lot : lots) {
        taken.push_back(lot);
        if (blend_volume(taken) < volume)
            continue;
        const auto excess = [&](double part) {
            taken.back().volume = lot.volume * part;
            return blend_volume(taken) - volume;
        };
        const auto [low, high] = boost::math::tools::bisect(
            excess, 0.0, 1.0, boost::math::tools::eps_tolerance<double>(40));
        taken.back().volume = lot.volume * (low + high) / 2.0;
        break;
    }
    return blend(taken).strength;
}

} // namespace

std::string wish_text(const BlendWish& wish) {
    return texts::plan::wish{.volume = number_text(wish.final_volume),
                             .target = pct_vol_text(wish.target)}
        .text();
}

double least_mass(std::vector<Part> parts) {
    std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) {
        return a.mass_per_alcohol() < b.mass_per_alcohol();
    });
    double alcohol = 1.0;
    double mass = 0.0;
    for (const Part& part : parts) {
        if (alcohol <= tolerance) // a rounding is not to be made up by a jar of water
            break;
        const double share = std::fmin(alcohol / part.alcohol, 1.0);
        alcohol -= share * part.alcohol;
        mass += share * part.mass;
    }
    return mass;
}

std::vector<Part> usable_parts(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    require_wish(wish);
    const Lot wished = wished_lot(wish);
    double greatest = 0.0;
    for (const PlanJar& jar : jars)
        greatest = std::fmax(greatest, jar.preference);

    std::vector<Part> parts;
    std::vector<Lot> lots;
    double alcohol = 0.0;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        const Lot& lot = jars[i].jar;
        if (jars[i].preference == 0.0 || lot.volume == 0.0)
            continue;
        parts.push_back({lot_pure_alcohol(lot) / lot_pure_alcohol(wished),
                         lot_mass(lot) / lot_mass(wished), jars[i].preference / greatest, i});
        lots.push_back(lot);
        alcohol += parts.back().alcohol;
    }
    if (parts.empty())
        refuse(RefusalKind::impossible, jars.empty() ? "volumes" : "preference", "",
               jars.empty() ? texts::plan::no_jar : texts::plan::none_usable);
    if (alcohol < 1.0 - tolerance) {
        const double there = pure_alcohol(lots);
        const double needed = lot_pure_alcohol(wished);
        refuse(RefusalKind::impossible, "finalVolume", number_text(wish.final_volume),
               texts::plan::alcohol_missing{.wish = wish_text(wish),
                                            .needed = number_text(needed),
                                            .there = number_text(there),
                                            .missing = number_text(needed - there)}
                   .text());
    }
    if (least_mass(parts) > 1.0 + tolerance)
        refuse(RefusalKind::impossible, "target", number_text(wish.target),
               texts::plan::too_weak{.target = pct_vol_text(wish.target),
                                     .volume = number_text(wish.final_volume),
                                     .strongest =
                                         pct_vol_text(strongest_blend(lots, wish.final_volume))}
                   .text());
    return parts;
}

BlendPlan plan_of(const std::vector<PlanJar>& jars, const BlendWish& wish,
                  const std::vector<Part>& parts, const std::vector<double>& shares,
                  double wishes) {
    BlendPlan plan{std::vector<double>(jars.size(), 0.0), 0.0};
    double mass = 0.0;
    for (std::size_t k = 0; k < parts.size(); ++k) {
        plan.volumes[parts[k].jar] = jars[parts[k].jar].jar.volume * shares[k];
        mass += parts[k].mass * shares[k];
    }
    // Within the tolerance there may be a trace too much of everything: that is no water.
    const double water = (wishes - mass) * lot_mass(wished_lot(wish)) / lot_mass({1.0, 0.0});
    plan.water = wishes - mass > 1e-12 ? water : 0.0;
    return plan;
}

} // namespace jarbook::plan
