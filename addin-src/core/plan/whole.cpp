// Whole jars: a mixed-integer programme, exact in whole numbers.
//
// The prices of the plan in parts (prices.hpp) bound from below what any choice of jars
// costs: bound + the sum of the deviations of the jars that are not as in the relaxed optimum. So a
// search through every choice whose deviations stay within a gap proves its best to be the best of
// all as soon as that costs no more than bound + gap. Such choices are listed for the two halves of
// the jars and met in the middle (Horowitz & Sahni, Journal of the ACM 21 (1974) 277): where all
// preferences are equal nothing bounds, and that method alone makes 40 jars possible. A bound from
// inexact prices is a bound all the same, so the optimum does not rest on floating point.
#include "core/plan/plan.hpp"

#include "core/base/refusal.hpp"
#include "core/plan/half.hpp"
#include "core/plan/parts.hpp"
#include "core/plan/prices.hpp"
#include "core/plan/search.hpp"
#include "texts/plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace jarbook {

using plan::Choice;
using plan::Count;
using plan::Item;
using plan::Part;
using plan::Window;

namespace {

constexpr double most_excess = 0.05; // of the volume asked
// What is decided where the last digit cannot be: of the volume asked, and of its alcohol at the
// greatest preference.
constexpr double excess_tolerance = 1e-5;

// The power of ten that turns an amount into a whole number of 14 or 15 digits: sums of decimal
// figures are then exact.
double decimal_unit(double amount) {
    double unit = 1.0; // stays exact from 1e-22 to 1e22
    while (amount * unit < 1e14)
        unit *= 10.0;
    while (amount * unit >= 1e15)
        unit /= 10.0;
    return unit;
}

// A whole number not above an amount. What is far beyond any choice's cost stays just that: 64 of
// these still have a sum.
Count counted_to(double amount) {
    return static_cast<Count>(std::fmin(amount, 0x1p56));
}

struct Programme {
    std::vector<Item> items;
    Window window;
    Count bound = 0; // no choice costs less
    double unit;     // counts per volume times % vol
    double wish;     // counts of alcohol asked for
    double dearest;  // counts of cost of that alcohol at the greatest difference of preferences
};

// Lower bound and deviations from the relaxation, all in terms of the wish and of the greatest
// preference. A bound from inexact prices is a bound all the same, but for the rounding of its own
// sums, which steep prices (jars of nearly one strength) make large: that is taken off.
void bound_by_relaxation(Programme& programme, const std::vector<Part>& parts) {
    std::vector<plan::Offer> offers;
    for (const Item& item : programme.items) {
        const Part& part = parts[item.part];
        offers.push_back(
            {part.alcohol, part.alcohol - part.mass, (part.preference - 1.0) * part.alcohol});
    }
    // Wider than the search's own limits, so that the bound holds for them.
    const plan::Demand demand{1.0 - 2.0 * plan::tolerance,
                              1.0 + most_excess + 2.0 * plan::tolerance, -2.0 * plan::tolerance};
    const plan::Prices prices = plan::best_prices(offers, demand);
    const double steepness = std::fabs(prices.alcohol) + prices.room;
    double worth = prices.alcohol * (prices.alcohol > 0.0 ? demand.high : demand.low) -
                   prices.room * demand.room; // at most, of any choice
    double rounding = 1e-11 + 1e-15 * steepness;
    for (std::size_t i = 0; i < programme.items.size(); ++i) {
        const plan::Offer& offer = offers[i];
        const double gain = offer.worth - prices.alcohol * offer.alcohol + prices.room * offer.room;
        const double own =
            1e-15 * (steepness + 1.0) * (offer.alcohol + std::fabs(offer.room) + 1.0);
        Item& item = programme.items[i];
        item.in_bound = gain > 0.0;
        item.deviation = counted_to(std::fmax(std::fabs(gain) - own, 0.0) * programme.dearest);
        worth += std::fmax(gain, 0.0);
        rounding += own;
    }
    programme.bound = counted_to(std::fmax((-worth - rounding) * programme.dearest, 0.0));
}

Programme programme_of(const std::vector<PlanJar>& jars, const BlendWish& wish,
                       const std::vector<Part>& parts, double most_wishes) {
    Programme programme;
    const double wished = wish.final_volume * wish.target;
    programme.unit = decimal_unit(wished);
    programme.wish = wished * programme.unit;
    const auto counted = [](double amount) { return static_cast<Count>(std::llround(amount)); };
    constexpr double rooms = 0x1p40;
    programme.window = {counted(wished * programme.unit * (1.0 - plan::tolerance)),
                        counted(wished * programme.unit * (1.0 + most_excess + plan::tolerance)),
                        counted(-rooms * plan::tolerance)};

    double greatest = 0.0;
    for (const PlanJar& jar : jars)
        greatest = std::fmax(greatest, jar.preference);
    const double cost_unit = decimal_unit(wished * greatest);
    programme.dearest = cost_unit * wished * greatest;
    bool weak = false;
    bool costly = false;
    for (std::size_t k = 0; k < parts.size(); ++k) {
        const Part& part = parts[k];
        if (part.alcohol > most_wishes || part.mass > most_wishes)
            continue; // more than the whole blend in one jar
        const PlanJar& jar = jars[part.jar];
        const double amount = jar.jar.volume * jar.jar.strength;
        Item item;
        item.alcohol = counted(amount * programme.unit);
        item.cost = counted((greatest - jar.preference) * amount * cost_unit);
        item.room = counted((part.alcohol - part.mass) * rooms);
        item.part = k;
        weak = weak || item.room < 0;
        costly = costly || item.cost > 0;
        programme.items.push_back(item);
    }
    if (!weak) // every choice is strong enough, whatever the jars' strengths
        for (Item& item : programme.items)
            item.room = 0;
    if (costly)
        bound_by_relaxation(programme, parts);
    return programme;
}

constexpr Count unlimited = std::numeric_limits<Count>::max();

// The cheapest choice, proven to the last digit; none if there is none.
std::optional<Choice> exact_choice(const Programme& programme) {
    std::vector<Count> deviations{0};
    for (const Item& item : programme.items)
        deviations.push_back(item.deviation);
    std::sort(deviations.begin(), deviations.end());
    // A gap that leaves so many more jars open than the last one does.
    const auto widened = [&](Count gap, std::ptrdiff_t more) {
        const auto closed = std::upper_bound(deviations.begin(), deviations.end(), gap);
        return deviations.end() - closed <= more ? unlimited : closed[more];
    };
    std::optional<Choice> best;
    for (Count gap = widened(-1, 20);;) {
        const bool all = gap >= deviations.back();
        best = plan::search(programme.items, programme.window, all ? unlimited : gap,
                            best ? best->cost : unlimited);
        const Count needed = best ? best->cost - programme.bound : unlimited;
        if (all || needed <= gap)
            return best;
        gap = std::min(needed, widened(gap, best ? 4 : 8));
    }
}

// A choice that is within what no cylinder measures of the bounds, if one is found among samples:
// where choices are many one is, and the bounds prove it.
std::optional<Choice> sampled_choice(const Programme& programme) {
    const Count excess = counted_to(programme.wish * excess_tolerance);
    const Count cost = counted_to(programme.dearest * excess_tolerance);
    const Window window{programme.window.low, programme.window.low + excess, programme.window.room};
    for (const double steps : {0x1p10, 0x1p13, 0x1p16})
        if (auto choice = plan::search(programme.items, window, cost, programme.bound + cost,
                                       {plan::Thinning::sample, static_cast<std::size_t>(steps),
                                        counted_to(programme.wish / steps), 0},
                                       plan::First::alcohol))
            return choice;
    return std::nullopt;
}

// The best choice to that tolerance, by leaving out what others cover; none if there is none.
std::optional<Choice> covered_choice(const Programme& programme) {
    const Count excess = counted_to(programme.wish * excess_tolerance);
    const Count cost = counted_to(programme.dearest * excess_tolerance / 2.0);
    constexpr Count steps = 64;
    const plan::Thinning thinning{plan::Thinning::cover, std::size_t{1} << 16, excess / steps,
                                  cost / steps};
    Window window = programme.window;
    window.high += excess;
    auto choice = plan::search(programme.items, window, unlimited, unlimited, thinning);
    if (choice && choice->cost > 0)
        choice = plan::search(programme.items, window, unlimited, choice->cost + cost, thinning,
                              plan::First::alcohol);
    // What covers a choice within the window may lie beyond its end.
    if (choice && choice->alcohol > programme.window.high)
        plan::refuse_work(programme.items.size());
    return choice;
}

std::optional<Choice> best_choice(const Programme& programme) {
    try {
        return exact_choice(programme);
    } catch (const Refusal&) {
        // Too many choices are alike for their last digit to be proven.
    }
    if (auto choice = sampled_choice(programme))
        return choice;
    return covered_choice(programme);
}

// Refuses the wish that no choice gives, with the nearest volumes that whole jars do give.
[[noreturn]] void refuse_no_choice(const std::vector<PlanJar>& jars, const BlendWish& wish,
                                   const std::vector<Part>& parts) {
    // Jars of many times the wish are no neighbours of it.
    Programme programme = programme_of(jars, wish, parts, 64.0);
    for (Item& item : programme.items)
        item.cost = item.deviation = 0;
    const Window window = programme.window;
    const auto volume = [&](Count alcohol) {
        return number_text(static_cast<double>(alcohol) / programme.unit / wish.target);
    };
    std::string below;
    std::string above;
    try {
        if (const Count nearest = plan::most_below(programme.items, window); nearest > 0)
            below = volume(nearest);
        const Window beyond{window.high + 1, std::numeric_limits<Count>::max() / 2, window.room};
        if (const auto choice = plan::search(programme.items, beyond, 0, 0))
            above = volume(choice->alcohol);
    } catch (const Refusal&) {
        // Too many to say; that there is none in the window is proven.
    }
    const std::string least = number_text(wish.final_volume);
    const std::string most = number_text(wish.final_volume * (1.0 + most_excess));
    const std::string target = pct_vol_text(wish.target);
    refuse(RefusalKind::impossible, "finalVolume", least,
           below.empty() && above.empty() ? texts::plan::no_choice{least, most, target}.text()
           : above.empty() ? texts::plan::no_choice_below{least, most, target, below}.text()
           : below.empty()
               ? texts::plan::no_choice_above{least, most, target, above}.text()
               : texts::plan::no_choice_between{least, most, target, below, above}.text());
}

} // namespace

BlendPlan plan_whole_jars(const std::vector<PlanJar>& jars, const BlendWish& wish) {
    const std::vector<Part> parts = plan::usable_parts(jars, wish);
    const double most_wishes = 1.0 + most_excess + plan::tolerance;
    const auto choice = best_choice(programme_of(jars, wish, parts, most_wishes));
    if (!choice)
        refuse_no_choice(jars, wish, parts);
    std::vector<double> shares(parts.size(), 0.0);
    double wishes = 0.0;
    for (const std::size_t part : choice->parts) {
        shares[part] = 1.0;
        wishes += parts[part].alcohol;
    }
    return plan::plan_of(jars, wish, parts, shares, wishes);
}

} // namespace jarbook
