#include "core/plan/half.hpp"

#include "core/base/refusal.hpp"
#include "texts/plan.hpp"

#include <algorithm>
#include <limits>
#include <string>

namespace jarbook::plan {

namespace {
constexpr std::size_t most_subsets = std::size_t{1} << 20;
// What a thinned list may cost: comparisons with the subsets kept already.
constexpr std::size_t most_comparisons = 100'000'000;
} // namespace

void refuse_work(std::size_t open) {
    refuse(RefusalKind::no_convergence, "wholeJars", "TRUE",
           texts::plan::too_many{.jars = std::to_string(open)}.text());
}

void Half::list(const Limits& limits, Count room_of_others, const Thinning& thinning) {
    const Sums change(
        items, [](const Item& item) { return item.in_bound ? -item.deviation : item.deviation; });
    Count not_taken = 0; // deviation of the items decided so far if none of them were taken
    Count room_ahead = room_of_others;
    for (const Item& item : items)
        room_ahead += std::max<Count>(item.room, 0);
    subsets = {{0, 0}};
    std::vector<Subset> merged;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const Item& item = items[i];
        room_ahead -= std::max<Count>(item.room, 0);
        if (item.in_bound)
            not_taken += item.deviation;
        const std::uint32_t bit = std::uint32_t{1} << (items.size() - 1 - i);
        const auto keep = [&](Count alcohol, std::uint32_t set) {
            if (alcohol > limits.window.high ||
                (change.any() && not_taken + change(set) > limits.gap) ||
                (room.any() && room(set) + room_ahead < limits.window.room) ||
                (cost.any() && cost(set) > limits.most_cost))
                return;
            if (!merged.empty() && merged.back().alcohol == alcohol &&
                (!room.any() || room(merged.back().set) == room(set)) &&
                (!cost.any() || cost(merged.back().set) == cost(set)))
                return;
            if (merged.size() == most_subsets)
                refuse_work(items.size() * 2);
            merged.push_back({alcohol, set});
        };
        merged.clear();
        merged.reserve(std::min(2 * subsets.size(), most_subsets));
        auto with = subsets.begin();
        for (const Subset& without : subsets) {
            for (; with != subsets.end(); ++with) {
                const Count alcohol = with->alcohol + item.alcohol;
                if (alcohol > without.alcohol ||
                    (alcohol == without.alcohol && (with->set | bit) < without.set))
                    break;
                keep(alcohol, with->set | bit);
            }
            keep(without.alcohol, without.set);
        }
        for (; with != subsets.end(); ++with)
            keep(with->alcohol + item.alcohol, with->set | bit);
        std::swap(subsets, merged);
        thin(thinning);
    }
}

void Half::thin(const Thinning& thinning) {
    if (subsets.size() <= thinning.above)
        return;
    if (thinning.how == Thinning::sample)
        sample(thinning.alcohol_step);
    else if (thinning.how == Thinning::cover)
        cover(thinning);
}

// Of each step of alcohol the first subset, the one with the most room and the cheapest.
void Half::sample(Count step) {
    std::vector<Subset> kept;
    for (std::size_t from = 0; from < subsets.size();) {
        const Count cell = subsets[from].alcohol / step;
        std::size_t roomiest = from;
        std::size_t cheapest = from;
        std::size_t at = from;
        for (; at < subsets.size() && subsets[at].alcohol / step == cell; ++at) {
            if (room(subsets[at].set) > room(subsets[roomiest].set))
                roomiest = at;
            if (cost(subsets[at].set) < cost(subsets[cheapest].set))
                cheapest = at;
        }
        kept.push_back(subsets[from]);
        for (const std::size_t other : {std::min(roomiest, cheapest), std::max(roomiest, cheapest)})
            if (kept.back().set != subsets[other].set)
                kept.push_back(subsets[other]);
        from = at;
    }
    subsets = std::move(kept);
}

// Leaves out what a kept subset covers: one with up to a step more alcohol, no less room, and at
// most a step dearer.
void Half::cover(const Thinning& thinning) {
    struct Kept {
        Subset subset;
        Count room;
        Count cost;
    };
    std::vector<Kept> kept;
    std::size_t comparisons = 0;
    for (auto subset = subsets.rbegin(); subset != subsets.rend(); ++subset) {
        const Count here_room = room(subset->set);
        const Count here_cost = cost(subset->set);
        bool covered = false;
        for (auto one = kept.rbegin(); !covered && one != kept.rend(); ++one) {
            if (one->subset.alcohol - subset->alcohol > thinning.alcohol_step)
                break;
            if (++comparisons > most_comparisons)
                refuse_work(2 * items.size());
            covered = one->room >= here_room && one->cost <= here_cost + thinning.cost_step;
        }
        if (!covered)
            kept.push_back({*subset, here_room, here_cost});
    }
    subsets.clear();
    for (auto one = kept.rbegin(); one != kept.rend(); ++one)
        subsets.push_back(one->subset);
}

} // namespace jarbook::plan
