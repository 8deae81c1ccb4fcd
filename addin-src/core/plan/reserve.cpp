#include "core/plan/reserve.hpp"

#include <algorithm>
#include <numeric>

namespace jarbook::plan {

namespace {
constexpr double rounding = 1e-14; // of sums of order 1
}

Reserve::Reserve(const std::vector<Part>& parts, const std::vector<std::size_t>& of, Bound bound)
    : side_(bound == Bound::below ? 1.0 : -1.0), leaf_of_(of.size()) {
    std::vector<std::size_t> order(of.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return side_ * parts[of[a]].mass_per_alcohol() < side_ * parts[of[b]].mass_per_alcohol();
    });
    while (leaves_ < of.size())
        leaves_ *= 2;
    sums_.resize(2 * leaves_);
    for (std::size_t leaf = 0; leaf < order.size(); ++leaf) {
        leaf_of_[order[leaf]] = leaf;
        const Part& part = parts[of[order[leaf]]];
        sums_[leaves_ + leaf] = {part.alcohol, part.mass};
    }
    for (std::size_t node = leaves_; node-- > 1;)
        sums_[node] = {sums_[2 * node].alcohol + sums_[2 * node + 1].alcohol,
                       sums_[2 * node].mass + sums_[2 * node + 1].mass};
}

void Reserve::take_out(std::size_t position) {
    std::size_t node = leaves_ + leaf_of_[position];
    sums_[node] = {};
    // Added up anew rather than subtracted: nothing is left of what is gone.
    for (node /= 2; node > 0; node /= 2)
        sums_[node] = {sums_[2 * node].alcohol + sums_[2 * node + 1].alcohol,
                       sums_[2 * node].mass + sums_[2 * node + 1].mass};
}

// The walk along the bound from its beginning. With the walked taken whole and the part making up
// the rest of the alcohol, `excess` is what the mass is beyond what is allowed; it falls along the
// walk as far as the part's own place.
struct Reserve::Crossing {
    double side;
    double slope; // mass per alcohol of the part
    Rest rest;
    Sum walked;

    double excess(const Sum& sum) const {
        return side * (sum.mass - rest.mass - slope * (sum.alcohol - rest.alcohol));
    }
};

// Walks the leaves of a node that lie before `end` while the excess stays above 0; whether it ends
// within, with the leaf on which it does walked in part.
bool Reserve::cross(Crossing& crossing, std::size_t node, std::size_t from, std::size_t size,
                    std::size_t end) const {
    if (from >= end)
        return false;
    const Sum& sum = sums_[node];
    const Sum after{crossing.walked.alcohol + sum.alcohol, crossing.walked.mass + sum.mass};
    if (from + size <= end && crossing.excess(after) > rounding) {
        crossing.walked = after;
        return false;
    }
    if (size > 1)
        return cross(crossing, 2 * node, from, size / 2, end) ||
               cross(crossing, 2 * node + 1, from + size / 2, size / 2, end);
    const double before = crossing.excess(crossing.walked) - rounding;
    const double fall = before - (crossing.excess(after) - rounding);
    const double share = fall > 0.0 ? std::clamp(before / fall, 0.0, 1.0) : 1.0;
    crossing.walked.alcohol += share * sum.alcohol;
    crossing.walked.mass += share * sum.mass;
    return true;
}

double Reserve::greatest_share(std::size_t position, const Part& part, const Rest& rest) const {
    if (part.alcohol == 0.0) { // water: whatever mass the set leaves over at its least
        Crossing all{side_, 0.0, rest, {}};
        double alcohol = rest.alcohol;
        for (std::size_t node = 1; node < leaves_;) {
            const Sum& left = sums_[2 * node];
            // What rounding leaves to be had is not to be sought in jars of water.
            const bool passes = alcohol > left.alcohol && sums_[2 * node + 1].alcohol > 0.0;
            if (passes) {
                alcohol -= left.alcohol;
                all.walked.mass += left.mass;
            }
            node = 2 * node + (passes ? 1 : 0);
            if (node >= leaves_ && sums_[node].alcohol > 0.0)
                all.walked.mass += sums_[node].mass * std::min(alcohol / sums_[node].alcohol, 1.0);
        }
        return (rest.mass - all.walked.mass) / part.mass;
    }
    Crossing crossing{side_, part.mass_per_alcohol(), rest, {}};
    // Where nothing of the set is needed the part may go as far as there is alcohol.
    if (crossing.excess(crossing.walked) > rounding)
        cross(crossing, 1, 0, leaves_, leaf_of_[position]);
    return (rest.alcohol - crossing.walked.alcohol) / part.alcohol;
}

} // namespace jarbook::plan
