// What the lots of a run say together: their readings made to balance in pure alcohol and in mass.
//
// What went in (the charge) and what came out (jars, residue, a loss that is known of) hold the
// same alcohol and weigh the same; volumes do not add up and are not balanced. Volumes at 20 degC
// in any one unit, strengths % vol at 20 degC, densities by OIML R 22.
#pragma once

#include "core/base/lists.hpp"
#include "core/record/balances.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace jarbook {

enum class Direction { in, out };

struct LotReading {
    Direction direction;
    double volume;
    double strength;
    double volume_tolerance_pct; // half-width of a rectangular distribution, % of the volume
    double strength_tolerance;   // the same, % vol
    std::size_t row;             // where it stands in the lists it came from, from 0
};

struct RunReadings {
    std::vector<LotReading> lots;
    // What one instrument does to every strength alike: half-width, % vol.
    double common_strength_tolerance = 0.0;
};

inline constexpr double least_tolerance = 0.001; // % and % vol
inline constexpr double greatest_tolerance = 50.0;
inline constexpr std::size_t most_lots =
    200; // the work of leaving each out grows with their square

// The readings of lists that belong together; rows blank in all are left out. Directions "in" or
// "out"; one tolerance serves all rows. Volumes above 0, strengths 0...100 % vol, tolerances
// 0.001...50, the common one 0...50; at most 200 lots, of which at least one goes in and one out.
RunReadings run_readings_from(const Column& directions, const Column& volumes,
                              const Column& strengths, const Column& volume_tolerances,
                              const Column& strength_tolerances, double common_strength_tolerance);

// Each lot has two readings, in this order: 2 lot is its volume, 2 lot + 1 its strength.
inline std::size_t volume_of(std::size_t lot) {
    return 2 * lot;
}
inline std::size_t strength_of_lot(std::size_t lot) {
    return 2 * lot + 1;
}

// The readings made to balance (balances.hpp). Density goes on in a straight line outside 0...100 %
// vol while it is sought; a strength that ends outside is held at the bound (`held`), which makes
// chi-squared so much larger. `disbelieved`: a reading that is not used, see volume_of; it may end
// anywhere. Not refused here: whoever uses it looks at `ended`, and at volumes of 0 or less.
struct RunReconciled {
    Reconciled all;
    std::vector<Held> held;

    bool is_held(std::size_t at) const;
};
RunReconciled reconciled_run(const RunReadings& run,
                             std::optional<std::size_t> disbelieved = std::nullopt);

// One row of the answer.
struct ReconciledLot {
    std::size_t row;
    double volume;
    double strength;
    double volume_residual; // deletion residuals (balances.hpp)
    double strength_residual;
    bool strength_held; // at 0 or at 100 % vol
};

// The lots, reconciled. Refuses (impossible) readings so far apart that a volume would have to be 0
// or less, and balances that do not tell the readings apart; (no_convergence) a search without end.
std::vector<ReconciledLot> reconciled_lots(const RunReadings& run);

// Refuses what reconciled_lots refuses; the first of them all but the volumes of 0 or less.
void require_solved(const RunReconciled& reconciled);
void require_reconciled(const RunReadings& run, const RunReconciled& reconciled);

} // namespace jarbook
