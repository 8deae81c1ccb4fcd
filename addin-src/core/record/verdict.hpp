// Whether a run's readings fit together, and which single reading could be why they do not.
#pragma once

#include "core/record/reconciliation.hpp"

#include <cstddef>
#include <vector>

namespace jarbook {

// Judged by chi-squared at 5 %, of all readings together. (A limit for each reading would have to
// be so wide, for thirty jars, that fitting runs were rejected 0.3 % of the time instead of 5: the
// residuals live in two dimensions, those of the two balances.)
inline constexpr double significance = 0.05;
// Its limit for one degree of freedom. Readings that lower chi-squared by no less than the best one
// less this explain it as well as that one does; and what is left without the best one has to be
// below it, too, or no single reading explains it.
inline constexpr double limit_of_one_degree = 3.841458820694124;
// No still passes it: the azeotrope at 1013 hPa (tests/data/azeotrope_ethanol_water.csv).
inline constexpr double strongest_true_pct = 97.2;

// A reading that alone could be wrong.
struct Suspect {
    std::size_t lot; // in RunReadings::lots
    bool is_strength;
    double reading;
    double implied;     // what the others give for it
    double uncertainty; // of that, standard
    double fall;        // of chi-squared, if the reading is left out
};

struct Verdict {
    double chi_squared;
    std::size_t degrees;
    double probability; // that so much arises by chance
    bool fits;
    // Where it does not fit: readings that explain it equally well, by the above, and whose implied
    // value is possible (volume above 0, strength 0...97.2 % vol), in the order of the lots.
    std::vector<Suspect> suspects;
    RunReconciled reconciled;
};

// Each reading in turn is left out and all is reconciled anew, so that this holds for great errors,
// too, at which the deletion residual (which takes the balances for straight lines) is off.
// Refuses (impossible, no_convergence) what cannot be reconciled (reconciliation.hpp), but for
// volumes of 0 or less: that no true volumes fit is what it is to judge.
Verdict judged(const RunReadings& run);

// The error of a reading that the test finds four times in five: its square, in standard
// uncertainties of what the others give for it, is the non-centrality at which chi-squared of two
// degrees of freedom exceeds its 5 % limit with that probability.
inline constexpr double noticed_four_times_in_five = 3.1040; // square root of 9.6347

} // namespace jarbook
