// Parts of jars: the prices, the proof by them, and ties by the order of the jars.
#include "core/plan/plan.hpp"

#include "core/base/refusal.hpp"
#include "core/plan/parts.hpp"
#include "core/plan/prices.hpp"
#include "core/plan/reserve.hpp"
#include "texts/plan.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace jarbook {

using plan::Part;
using plan::Rest;

namespace {

// Fills the tied parts in the order of the jars, each as far as the others can still make up the
// rest; of its mass all, or at most that.
void fill_in_order(const std::vector<Part>& parts, const std::vector<std::size_t>& tied, Rest rest,
                   bool all_the_mass, std::vector<double>& shares) {
    plan::Reserve below(parts, tied, plan::Bound::below);
    std::optional<plan::Reserve> above;
    if (all_the_mass)
        above.emplace(parts, tied, plan::Bound::above);
    for (std::size_t i = 0; i < tied.size(); ++i) {
        const Part& part = parts[tied[i]];
        double share = 1.0;
        if (part.alcohol > 0.0)
            share = std::fmin(share, rest.alcohol / part.alcohol);
        if (part.mass > 0.0)
            share = std::fmin(share, rest.mass / part.mass);
        below.take_out(i);
        share = std::fmin(share, below.greatest_share(i, part, rest));
        if (above) {
            above->take_out(i);
            share = std::fmin(share, above->greatest_share(i, part, rest));
        }
        const double size = std::fmax(part.alcohol, part.mass);
        if (share * size < 1e-12)
            share = 0.0;
        else if ((1.0 - share) * size < 1e-12)
            share = 1.0;
        shares[tied[i]] = share;
        rest.alcohol -= share * part.alcohol;
        rest.mass -= share * part.mass;
    }
}

struct Wanted {
    double alcohol; // / alcohol of the wish: 1, or what there is where that is short by a rounding
    double mass;    // at most this / mass of the wish: 1, or the least that there is, likewise
};

// The prices of alcohol and of mass at the optimum, in terms of the greatest preference.
struct MassPrices {
    double alcohol;
    double mass; // 0 or more
};

MassPrices best_mass_prices(const std::vector<Part>& parts, const Wanted& wanted) {
    // The alcohol taken is given, so that mass that may still be taken is room.
    const double mass_per_alcohol = wanted.mass / wanted.alcohol;
    std::vector<plan::Offer> offers;
    for (const Part& part : parts)
        offers.push_back({part.alcohol, part.alcohol * mass_per_alcohol - part.mass,
                          part.preference * part.alcohol});
    // At the edge a trace of room keeps prices finite; they stay valid.
    const bool edge = plan::least_mass(parts) > wanted.mass - plan::tolerance;
    const plan::Prices prices =
        plan::best_prices(offers, {wanted.alcohol, wanted.alcohol, edge ? -plan::tolerance : 0.0});
    return {prices.alcohol - prices.room * mass_per_alcohol, prices.room};
}

// The shares that these prices prove to be best, if they do: a part worth more than its alcohol and
// mass at those prices belongs whole into every best plan, one worth less not at all; where the two
// are equal, to `rounding`, the best plans differ and the order of the jars decides.
std::optional<std::vector<double>> proven_shares(const std::vector<Part>& parts,
                                                 const Wanted& wanted, const MassPrices& prices,
                                                 double rounding) {
    std::vector<double> shares(parts.size(), 0.0);
    std::vector<std::size_t> tied;
    Rest rest{wanted.alcohol, wanted.mass};
    // Weak duality: no plan is worth more than this.
    double most = prices.alcohol * wanted.alcohol + prices.mass * wanted.mass;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Part& part = parts[i];
        const double gain =
            (part.preference - prices.alcohol) * part.alcohol - prices.mass * part.mass;
        const double size =
            (part.preference + std::fabs(prices.alcohol)) * part.alcohol + prices.mass * part.mass;
        most += std::fmax(gain, 0.0);
        if (std::fabs(gain) <= rounding * size) {
            tied.push_back(i);
        } else if (gain > 0.0) {
            shares[i] = 1.0;
            rest.alcohol -= part.alcohol;
            rest.mass -= part.mass;
        }
    }
    fill_in_order(parts, tied, rest, prices.mass > 0.0, shares);

    double worth = 0.0;
    double alcohol = 0.0;
    double mass = 0.0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        worth += parts[i].preference * parts[i].alcohol * shares[i];
        alcohol += parts[i].alcohol * shares[i];
        mass += parts[i].mass * shares[i];
    }
    // Where prices are steep (jars of nearly one strength), what rounding moves in alcohol or mass
    // moves the worth by much more.
    constexpr double moved = 1e-12;
    const double provable = plan::tolerance + moved * (std::fabs(prices.alcohol) + prices.mass);
    if (most - worth > provable || std::fabs(alcohol - wanted.alcohol) > plan::tolerance ||
        mass > wanted.mass + plan::tolerance)
        return std::nullopt;
    return shares;
}

} // namespace

BlendPlan plan_divided(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const std::vector<Part> parts = plan::usable_parts(jars, wish);
    // Of a jar that holds far more than is wished only a part can ever go in. That part is the
    // variable, so that no coefficient is above 1: the tolerances here are absolute.
    std::vector<Part> portions = parts;
    std::vector<double> portion_of_part;
    double alcohol = 0.0;
    for (Part& portion : portions) {
        const double share = 1.0 / std::fmax(std::fmax(portion.alcohol, portion.mass), 1.0);
        portion.alcohol *= share;
        portion.mass *= share;
        portion_of_part.push_back(share);
        alcohol += portion.alcohol;
    }
    const Wanted wanted{std::fmin(1.0, alcohol), std::fmax(1.0, plan::least_mass(portions))};
    const MassPrices prices = best_mass_prices(portions, wanted);
    // Steep prices (jars of nearly one strength) want a narrow notion of a tie.
    for (const double rounding : {1e-9, 1e-11, 1e-13})
        if (auto shares = proven_shares(portions, wanted, prices, rounding)) {
            for (std::size_t i = 0; i < shares->size(); ++i)
                (*shares)[i] *= portion_of_part[i];
            return plan::plan_of(jars, wish, parts, *shares);
        }
    refuse(RefusalKind::no_convergence, "", "",
           texts::plan::not_proven{.tolerance = number_text(plan::tolerance)}.text());
}

} // namespace jarbook
