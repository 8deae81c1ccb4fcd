// What a blend plan is made of: jars with a preference, what is wanted, what to take.
#pragma once

#include "core/gauging/lots.hpp"

#include <vector>

namespace jarbook {

struct PlanJar {
    Lot jar;
    double preference; // 0: not to be used
};

struct BlendWish {
    double final_volume; // above 0, in the jars' unit
    double target;       // 1...100 % vol
};

struct BlendPlan {
    std::vector<double> volumes; // to take of each jar, in the order of the jars
    double water = 0.0;
};

} // namespace jarbook
