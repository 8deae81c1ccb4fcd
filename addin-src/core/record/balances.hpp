// Readings that have to balance: weighted least squares under constraints, whatever the balances
// are.
//
// The true values x of readings y obey balances f(x) = 0, linear or not. Found are the values that
// obey them and lie nearest to the readings, (x - y)' S^-1 (x - y) = min, S the covariance of the
// readings; from it the adjustments, their statistics, and how well it all fits.
// Sources: VDI 2048 Part 1:2000 (control of measurements by balances, Gauss's method); Rao and
// Narasimhan, Data Reconciliation and Gross Error Detection (2000), chapters 3, 5 and 7.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace jarbook {

// Readings, each uncertain by itself, and by what several share: an instrument that reads all of
// them alike. Standard uncertainties. S = diag(own^2) + sum over shared effects e e', which is any
// covariance that there is (the e are then the columns of its root).
struct Readings {
    std::vector<double> values;
    std::vector<double> own; // above 0
    // Each effect: by how much every reading is moved, with its sign, by one standard uncertainty.
    std::vector<std::vector<double>> shared;

    // Of one reading, everything together.
    double variance(std::size_t at) const;
};

// The balances at some values: by how much each is off, and its slopes by each value. Scaled, so
// that the terms of a balance are together about 1: rounding is judged by that.
struct Linearised {
    std::vector<double> off;                // one a balance
    std::vector<std::vector<double>> slope; // slope[balance][value]
};
using Balances = std::function<Linearised(const std::vector<double>&)>;

// A value that is kept where it cannot go beyond: a strength at 0.
struct Held {
    std::size_t at;
    double value;
};

enum class Ended {
    found,
    singular, // the balances do not tell the values apart: they depend on each other
    no_end,   // not come to rest within the bound on steps
};

struct Reconciled {
    Ended ended = Ended::no_end;
    int steps = 0;
    std::vector<double> values;
    // (x - y)' S^-1 (x - y), to be held against chi-square of so many degrees of freedom: balances
    // less values not measured.
    double chi_squared = 0.0;
    std::size_t degrees = 0;
    // w* = (J'l)_a / sqrt((J' M^-1 J)_aa), M = J S J': its square is by how much chi-squared falls
    // if that reading is left out; above 0 where the reading is too low. Equal to v / sqrt(S_v)
    // where readings are independent. 0 where no balance looks at it.
    std::vector<double> deletion_residual;
    // Standard uncertainty of the difference between a reading and what the others, by the
    // balances, give for it: 1 / sqrt((J' M^-1 J)_aa). An error in it shows as so many of these.
    // Infinite where the others give nothing.
    std::vector<double> difference_uncertainty;
    // Of each value that is held: above 0 if it would go up were it let go, below 0 if down.
    std::vector<double> held_pull;
    // Standard uncertainty of the adjustments, and of the values after it.
    std::vector<double> adjustment_uncertainty;
    std::vector<double> uncertainty;
};

// Gauss-Newton from the readings: balances made linear, multipliers from M (Cholesky), until no
// value moves by more than 1e-10 of its standard uncertainty, or by more than rounding does where
// that is coarser; at most 50 steps.
// `unmeasured`: values of which the reading is not believed; it is only where the search starts.
Reconciled reconcile(const Readings& readings, const Balances& balances,
                     const std::vector<std::size_t>& unmeasured = {},
                     const std::vector<Held>& held = {});

} // namespace jarbook
