// The account of pure alcohol with its uncertainty: how far a sum over many readings may be off.
//
// Each entry is an amount, a reading and a temperature; its pure alcohol is
//   measured by volume   V c s / 100,  c = rho(s, t) / rho(s, 20)   (the volume at 20 degC)
//   weighed              m s / (100 b(s)),  b = kg in air per L at 20 degC
// with the true strength s of the reading. First order, GUM (JCGM 100:2008) 5.1.2 and 5.2.2: what
// an instrument itself is off by is the same in all its readings, so its effects on the sum add up
// with their signs; the scatter of the single readings is independent and adds in squares.
#pragma once

#include "core/base/lists.hpp"
#include "core/gauging/alcoholometer.hpp"

#include <vector>

namespace jarbook {

struct BalanceEntry {
    double amount;           // L or mL as measured at the temperature; weighed: kg or g in air
    double reading;          // on the alcoholometer's scale
    double temperature_c;    // at which it was read and its volume measured
    double amount_tolerance; // half-width, in the unit of the amount
};

// Half-widths of rectangular distributions, 0 or more.
struct BalanceTolerances {
    double reading = 0.0;       // of the alcoholometer itself, % vol, at most 10
    double temperature_c = 0.0; // of the thermometer itself, at most 10
    // Of a single reading, on top of that: how finely it is read, how well the liquid was mixed.
    double amount_scatter = 0.0;
    double reading_scatter = 0.0;       // at most 10 % vol
    double temperature_scatter_c = 0.0; // at most 10
};

// Contributions to the sum's uncertainty, expanded (k = 2), in the unit of the pure alcohol. Those
// of an instrument are signed: what the sum gains if the instrument shows that much too much.
struct AlcoholBudget {
    double alcohol = 0.0;       // pure alcohol at 20 degC, L or mL (of kg or g)
    double measure = 0.0;       // the measuring vessel or scale itself
    double alcoholometer = 0.0; // the alcoholometer itself
    double thermometer = 0.0;   // the thermometer itself
    double formula = 0.0;       // R 22, U(rho) = 0.05 kg/m3 taken: the liquid as much denser
    double scatter = 0.0;       // of the single readings, 0 or more

    // Expanded uncertainty (k = 2) of the sum, 0 or more.
    double expanded() const;
};

// Entries of lists that belong together; rows blank in all are left out. One temperature, and one
// amount tolerance, serve all rows.
std::vector<BalanceEntry> balance_entries_from(const Column& amounts, const Column& readings,
                                               const Column& temperatures,
                                               const Column& amount_tolerances);

// The budget of all of it, measured with one set of instruments. Readings 0...100, temperatures
// -20...40 degC but not exactly 0 (an empty cell), amounts 0 or more.
AlcoholBudget alcohol_budget(const std::vector<BalanceEntry>& entries,
                             const BalanceTolerances& tolerances, bool weighed,
                             const Alcoholometer& instrument = {});

} // namespace jarbook
