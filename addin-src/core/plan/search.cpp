#include "core/plan/search.hpp"

#include "core/base/refusal.hpp"
#include "texts.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <span>
#include <string>

namespace jarbook::plan {

namespace {

constexpr std::size_t most_open = 64;
constexpr std::size_t most_subsets = std::size_t{1} << 20;
constexpr std::size_t most_steps = 400'000'000;

[[noreturn]] void refuse_work(std::size_t open) {
    refuse(RefusalKind::no_convergence, "wholeJars", "TRUE",
           texts::plan::too_many{.jars = std::to_string(open)}.text());
}

// Sums over the items of a half for a set of them, by a table for each byte of the set.
class Sums {
public:
    Sums(std::span<const Item> items, Count (*of)(const Item&)) {
        for (std::size_t i = 0; i < items.size(); ++i) {
            const std::size_t bit = items.size() - 1 - i;
            auto& table = tables_[bit / 8];
            const std::size_t step = std::size_t{1} << (bit % 8);
            const Count value = of(items[i]);
            for (std::size_t set = 0; set < 256; ++set)
                if (set & step)
                    table[set] += value;
            any_ = any_ || value != 0;
        }
    }
    Count operator()(std::uint32_t set) const {
        return tables_[0][set & 255] + tables_[1][set >> 8 & 255] + tables_[2][set >> 16 & 255] +
               tables_[3][set >> 24];
    }
    bool any() const { return any_; }

private:
    std::array<std::array<Count, 256>, 4> tables_{};
    bool any_ = false;
};

// What the rest of the items contributes, and what is allowed in all.
struct Limits {
    Window window;
    Count gap;
    Count most_cost;
};

struct Subset {
    Count alcohol;
    std::uint32_t set; // the earlier the item, the higher its bit
};

// One half of the open items, and its subsets in rising order of alcohol, then falling order of
// set.
struct Half {
    explicit Half(std::span<const Item> half)
        : items(half), room(half, [](const Item& item) { return item.room; }),
          cost(half, [](const Item& item) { return item.cost; }) {}

    // The subsets that can be part of a choice within the limits, given the greatest room that the
    // other half can add. Of several alike only the first in order is kept.
    void list(const Limits& limits, Count room_of_others) {
        const Sums change(items, [](const Item& item) {
            return item.in_bound ? -item.deviation : item.deviation;
        });
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
        }
    }

    std::span<const Item> items;
    Sums room;
    Sums cost;
    std::vector<Subset> subsets;
};

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

    bool better_than(const Pair& other) const {
        if (cost != other.cost)
            return cost < other.cost;
        return alcohol != other.alcohol ? alcohol < other.alcohol : set > other.set;
    }
};

// The best pair of subsets, one of each half.
std::optional<Pair> best_pair(const Half& left, const Half& right, const Limits& limits,
                              std::size_t open) {
    const Blocks blocks(right);
    const bool costly = left.cost.any() || right.cost.any();
    std::optional<Pair> best;
    Count most_cost = limits.most_cost;
    std::size_t steps = 0;
    std::size_t from = right.subsets.size();
    for (const Subset& one : left.subsets) {
        while (from > 0 && one.alcohol + right.subsets[from - 1].alcohol >= limits.window.low)
            --from;
        const Count cost = left.cost(one.set);
        const Count room = limits.window.room - left.room(one.set);
        // Without costs nothing beyond the best alcohol so far is of use.
        const Count high = (!costly && best ? best->alcohol : limits.window.high) - one.alcohol;
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
            if (pair.cost <= most_cost && (!best || pair.better_than(*best))) {
                best = pair;
                most_cost = pair.cost;
            }
            if (!costly)
                break; // the rest of this row has more alcohol, or a later set
        }
    }
    return best;
}

} // namespace

std::optional<Choice> search(const std::vector<Item>& items, const Window& window, Count gap,
                             Count most_cost) {
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
    left.list(limits, positive_room(right.items));
    right.list(limits, positive_room(left.items));
    const auto pair = best_pair(left, right, limits, open.size());
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
    left.list(limits, positive_room(right.items));
    right.list(limits, positive_room(left.items));
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
