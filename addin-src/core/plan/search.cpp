#include "core/plan/search.hpp"

#include "core/plan/half.hpp"

#include <algorithm>
#include <limits>
#include <span>

namespace jarbook::plan {

namespace {

constexpr std::size_t most_open = 64;
constexpr std::size_t most_steps = 400'000'000;

Count positive_room(std::span<const Item> items) {
    Count sum = 0;
    for (const Item& item : items)
        sum += std::max<Count>(item.room, 0);
    return sum;
}

// Blocks of a list, to pass over what cannot serve.
struct Blocks {
    static constexpr std::size_t size = 64;
    explicit Blocks(const Half& half) {
        for (std::size_t i = 0; i < half.subsets.size(); ++i) {
            if (i % size == 0) {
                most_room.push_back(std::numeric_limits<Count>::min());
                least_cost.push_back(std::numeric_limits<Count>::max());
            }
            most_room.back() = std::max(most_room.back(), half.room(half.subsets[i].set));
            least_cost.back() = std::min(least_cost.back(), half.cost(half.subsets[i].set));
        }
    }
    std::vector<Count> most_room;
    std::vector<Count> least_cost;
};

struct Pair {
    Count cost;
    Count alcohol;
    std::uint64_t set; // the earlier the item, the higher its bit

    bool better_than(const Pair& other, bool by_cost) const {
        if (by_cost && cost != other.cost)
            return cost < other.cost;
        return alcohol != other.alcohol ? alcohol < other.alcohol : set > other.set;
    }
};

// The best pair of subsets, one of each half.
std::optional<Pair> best_pair(const Half& left, const Half& right, const Limits& limits,
                              std::size_t open, First first) {
    const Blocks blocks(right);
    const bool by_cost = first == First::cost && (left.cost.any() || right.cost.any());
    std::optional<Pair> best;
    Count most_cost = limits.most_cost;
    std::size_t steps = 0;
    std::size_t from = right.subsets.size();
    for (const Subset& one : left.subsets) {
        while (from > 0 && one.alcohol + right.subsets[from - 1].alcohol >= limits.window.low)
            --from;
        const Count cost = left.cost(one.set);
        const Count room = limits.window.room - left.room(one.set);
        // Where costs do not count first nothing beyond the best alcohol so far is of use.
        const Count high = (!by_cost && best ? best->alcohol : limits.window.high) - one.alcohol;
        for (std::size_t i = from; i < right.subsets.size();) {
            if (++steps > most_steps)
                refuse_work(open);
            const Subset& other = right.subsets[i];
            if (other.alcohol > high)
                break;
            const std::size_t block = i / Blocks::size;
            if (blocks.most_room[block] < room || cost + blocks.least_cost[block] > most_cost) {
                i = (block + 1) * Blocks::size;
                continue;
            }
            ++i;
            if (right.room(other.set) < room)
                continue;
            const Pair pair{cost + right.cost(other.set), one.alcohol + other.alcohol,
                            std::uint64_t{one.set} << right.items.size() | other.set};
            if (pair.cost > most_cost)
                continue;
            if (!best || pair.better_than(*best, by_cost)) {
                best = pair;
                if (by_cost)
                    most_cost = pair.cost;
            }
            if (!by_cost)
                break; // the rest of this row has more alcohol, or a later set
        }
    }
    return best;
}

} // namespace

std::optional<Choice> search(const std::vector<Item>& items, const Window& window, Count gap,
                             Count most_cost, const Thinning& thinning, First first) {
    std::vector<Item> open;
    Choice fixed;
    Limits limits{window, gap, most_cost};
    for (const Item& item : items) {
        if (item.deviation <= gap) {
            open.push_back(item);
        } else if (item.in_bound) {
            fixed.cost += item.cost;
            fixed.alcohol += item.alcohol;
            fixed.parts.push_back(item.part);
            limits.window.room -= item.room;
        }
    }
    if (open.size() > most_open)
        refuse_work(open.size());
    limits.window.low -= fixed.alcohol;
    limits.window.high -= fixed.alcohol;
    limits.most_cost -= fixed.cost;
    if (limits.window.high < 0 || limits.most_cost < 0)
        return std::nullopt;

    const std::span<const Item> all(open);
    Half left(all.first(open.size() / 2));
    Half right(all.subspan(open.size() / 2));
    left.list(limits, positive_room(right.items), thinning);
    right.list(limits, positive_room(left.items), thinning);
    const auto pair = best_pair(left, right, limits, open.size(), first);
    if (!pair)
        return std::nullopt;
    Choice choice = fixed;
    choice.cost += pair->cost;
    choice.alcohol += pair->alcohol;
    for (std::size_t i = 0; i < open.size(); ++i)
        if (pair->set >> (open.size() - 1 - i) & 1)
            choice.parts.push_back(open[i].part);
    std::sort(choice.parts.begin(), choice.parts.end());
    return choice;
}

Count most_below(const std::vector<Item>& items, const Window& window) {
    if (items.size() > most_open)
        refuse_work(items.size());
    const Limits limits{{0, window.low - 1, window.room},
                        std::numeric_limits<Count>::max(),
                        std::numeric_limits<Count>::max()};
    const std::span<const Item> all(items);
    Half left(all.first(items.size() / 2));
    Half right(all.subspan(items.size() / 2));
    left.list(limits, positive_room(right.items), {});
    right.list(limits, positive_room(left.items), {});
    Count most = 0;
    std::size_t steps = 0;
    std::size_t end = right.subsets.size();
    for (const Subset& one : left.subsets) {
        while (end > 0 && one.alcohol + right.subsets[end - 1].alcohol > limits.window.high)
            --end;
        for (std::size_t i = end; i > 0; --i) {
            const Subset& other = right.subsets[i - 1];
            if (++steps > most_steps)
                refuse_work(items.size());
            if (one.alcohol + other.alcohol <= most)
                break;
            if (left.room(one.set) + right.room(other.set) < window.room)
                continue;
            most = one.alcohol + other.alcohol;
            break;
        }
    }
    return most;
}

} // namespace jarbook::plan
