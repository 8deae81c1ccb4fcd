// One half of the jars in the search for whole jars: its subsets, listed in order of alcohol.
#pragma once

#include "core/plan/search.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace jarbook::plan {

// Refuses (no_convergence) what passes the bound on work.
[[noreturn]] void refuse_work(std::size_t open);

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

class Half {
public:
    explicit Half(std::span<const Item> half)
        : items(half), room(half, [](const Item& item) { return item.room; }),
          cost(half, [](const Item& item) { return item.cost; }) {}

    // The subsets that can be part of a choice within the limits, given the greatest room that the
    // other half can add, in rising order of alcohol, then falling order of set. Of several alike
    // only the first in order is kept, and of a long list what `thinning` leaves.
    void list(const Limits& limits, Count room_of_others, const Thinning& thinning);

    std::span<const Item> items;
    Sums room;
    Sums cost;
    std::vector<Subset> subsets;

private:
    void thin(const Thinning& thinning);
    void sample(Count step);
    void cover(const Thinning& thinning);
};

} // namespace jarbook::plan
