// What the parts that are still to come can make up: how far one part may go before they cannot.
//
// The alcohol and mass that a set of parts can give, each in part, fill a convex polygon, bounded
// below by taking the strongest first and above by taking the weakest first. A tree over the parts
// in order of strength holds the sums along one bound, so that a part can be taken out of the set,
// and the bound be crossed, in as many steps as the tree is deep.
#pragma once

#include "core/plan/parts.hpp"

#include <cstddef>
#include <vector>

namespace jarbook::plan {

// What is still to be taken, / wish.
struct Rest {
    double alcohol;
    double mass;
};

enum class Bound {
    below, // no more than the mass given
    above, // no less
};

class Reserve {
public:
    // Parts of a list, by index.
    Reserve(const std::vector<Part>& parts, const std::vector<std::size_t>& of, Bound bound);

    // Takes the part at a position of `of` out of the set.
    void take_out(std::size_t position);

    // The greatest share of a part at a position, not in the set any more, that leaves a rest which
    // the set keeps to on its bound; not limited to 0...1. The rest is known to be possible with
    // the part in the set.
    double greatest_share(std::size_t position, const Part& part, const Rest& rest) const;

private:
    struct Sum {
        double alcohol = 0.0;
        double mass = 0.0;
    };
    struct Crossing;
    bool cross(Crossing& crossing, std::size_t node, std::size_t from, std::size_t size,
               std::size_t end) const;

    double side_; // 1: below, -1: above
    std::size_t leaves_ = 1;
    std::vector<std::size_t> leaf_of_; // by position
    std::vector<Sum> sums_;            // a heap: node n has 2n and 2n + 1 below it
};

} // namespace jarbook::plan
