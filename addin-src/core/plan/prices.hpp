// The two prices of a blend plan: what alcohol and strength are worth in the best plan in parts.
//
//   greatest sum of worth_i x_i   where   low <= sum alcohol_i x_i <= high,
//                                         sum room_i x_i >= least room,   0 <= x_i <= 1
//
// By linear programming's duality no plan is worth more than what its limits come to at any two
// prices, plus what each part is worth beyond its own alcohol and room. At the prices found here
// that bound is reached. Whoever calls proves with them, so that nothing rests on their digits.
#pragma once

#include <vector>

namespace jarbook::plan {

struct Offer {
    double alcohol; // 0 or more, of order 1
    double room;    // by how much it is stronger than the target; below 0 for a weaker one
    double worth;
};

struct Demand {
    double low; // alcohol
    double high;
    double room; // at least
};

struct Prices {
    double alcohol =
        0.0;           // above 0 where the upper limit holds the worth down, below where the lower
    double room = 0.0; // 0 or more
};

// The prices at the optimum. Where nothing meets the demand, or only prices above 1e10 would tell,
// both are 0: a bound, too.
Prices best_prices(const std::vector<Offer>& offers, const Demand& demand);

} // namespace jarbook::plan
