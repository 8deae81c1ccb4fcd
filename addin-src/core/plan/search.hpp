// The search for whole jars: every choice of items within a gap of a bound, met in the middle.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace jarbook::plan {

using Count = std::int64_t;

// A jar, in whole numbers. Sums of all that are listed fit.
struct Item {
    Count alcohol = 0;
    Count room = 0; // by how much it is stronger than the target; below 0 for a weaker one
    Count cost = 0; // 0 or more
    // By how much the lower bound of a choice grows where this item is not as in the bound.
    Count deviation = 0;
    bool in_bound = false;
    std::size_t part = 0;
};

// What a choice has to keep to.
struct Window {
    Count low; // sum of alcohol
    Count high;
    Count room; // least sum of room
};

struct Choice {
    Count cost = 0;
    Count alcohol = 0;
    std::vector<std::size_t> parts; // the chosen, in order
};

// What is done to a list of choices that grows longer than `above`.
struct Thinning {
    enum How {
        none,
        // Of each step of alcohol a few: many choices are found, none is missed with proof.
        sample,
        // What another one covers with up to a step more alcohol, no less room and at most a step
        // dearer is left out. At each of up to 64 items: so far off is what is found.
        cover,
    };
    How how = none;
    std::size_t above = std::size_t{1} << 18;
    Count alcohol_step = 1;
    Count cost_step = 0;
};

enum class First { cost, alcohol };

// Among the choices in the window whose deviations sum to at most `gap` and whose cost is at most
// `most_cost`: the cheapest, then the one of least alcohol (or the other way round), then the one
// that takes the first item on which two such choices differ. None if there is none.
//
// Refuses (no_convergence) when the bound on work is reached: more than 64 items with a deviation
// within the gap, more than 2^20 choices listed for one half of them, or 400 million steps.
std::optional<Choice> search(const std::vector<Item>& items, const Window& window, Count gap,
                             Count most_cost, const Thinning& thinning = {},
                             First first = First::cost);

// The greatest sum of alcohol below the window of a choice that keeps its room; 0 is the choice of
// nothing. Refuses likewise.
Count most_below(const std::vector<Item>& items, const Window& window);

} // namespace jarbook::plan
