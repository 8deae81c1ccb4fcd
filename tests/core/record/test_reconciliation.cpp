// A run's readings made to balance: against an independent solver, at ties, ends and bad starts.
#include "core/record/reconciliation.hpp"

#include "core/base/refusal.hpp"
#include "core/blending/blending.hpp"
#include "core/mixture/strength.hpp"
#include "record/invented_runs.hpp"
#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <sstream>
#include <vector>

namespace {

using namespace jarbook;

std::vector<double> numbers(const std::string& text) {
    std::istringstream in(text);
    std::vector<double> result;
    for (double number = 0.0; in >> number;)
        result.push_back(number);
    return result;
}

RunReadings run_of(const std::vector<double>& x, std::vector<double> volume_pct = {1.0, 1.0, 2.0}) {
    RunReadings run;
    for (std::size_t i = 0; i < x.size() / 2; ++i)
        run.lots.push_back({i == 0 ? Direction::in : Direction::out, x[2 * i], x[2 * i + 1],
                            volume_pct[i], 0.5, i});
    return run;
}

// What goes in less what comes out, over what goes in: alcohol, and mass by the formula once more.
std::pair<double, double> unbalanced(const RunReadings& run, const std::vector<double>& x) {
    double alcohol = 0.0, mass = 0.0, all_alcohol = 0.0, all_mass = 0.0;
    for (std::size_t i = 0; i < run.lots.size(); ++i) {
        const double volume = x[2 * i];
        const double strength = x[2 * i + 1];
        const double sign = run.lots[i].direction == Direction::in ? 1.0 : -1.0;
        const double m = volume * density_from_strength(strength, 20.0);
        alcohol += sign * volume * strength;
        mass += sign * m;
        all_alcohol += volume * strength;
        all_mass += m;
    }
    return {alcohol / all_alcohol, mass / all_mass};
}

TEST(Reconciliation, OfTheWorkedRunsIsAsComputedElsewhere) {
    const published::Table table("reconciliation_examples.csv", 18);
    const RunReadings fits = run_of(numbers(table.text(16, "measured")));
    const RunReconciled found = reconciled_run(fits);
    const auto values = numbers(table.text(16, "corrected"));
    const auto after = numbers(table.text(16, "uncertainty_after"));
    ASSERT_EQ(values.size(), 6u);
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_NEAR(found.all.values[i], values[i], 0.00005);
        EXPECT_NEAR(found.all.uncertainty[i], after[i], 0.00005);
        EXPECT_LT(std::fabs(found.all.deletion_residual[i]), 0.05);
    }
    EXPECT_NEAR(found.all.chi_squared, 0.003, 0.0005);

    std::vector<double> short_residue = numbers(table.text(16, "measured"));
    short_residue[4] = 6.1;
    const RunReconciled rejected = reconciled_run(run_of(short_residue));
    const auto corrected = numbers(table.text(17, "corrected"));
    const auto residuals = numbers(table.text(17, "normalised_residual"));
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_NEAR(rejected.all.values[i], corrected[i], 0.00005);
        EXPECT_NEAR(rejected.all.deletion_residual[i], residuals[i], 0.005);
    }
    EXPECT_NEAR(rejected.all.chi_squared, 20.08, 0.005);
}

// tests/oracle/plain_record.py solves for all values and multipliers at once, with slopes by
// differences; 1e-6 is what those leave, and the rounding of the table.
TEST(Reconciliation, AgreesWithAnIndependentSolver) {
    const published::Table table("reconciliation_expected.csv", 57);
    std::size_t from = 0;
    while (from < table.rows()) {
        RunReadings run;
        std::size_t to = from;
        for (; to < table.rows() && table.text(to, "case") == table.text(from, "case"); ++to)
            run.lots.push_back(
                {table.text(to, "direction") == "in" ? Direction::in : Direction::out,
                 table.number(to, "volume"), table.number(to, "strength"),
                 table.number(to, "volume_tolerance"), table.number(to, "strength_tolerance"),
                 to - from});
        run.common_strength_tolerance = table.number(from, "common_tolerance");
        SCOPED_TRACE("case " + table.text(from, "case"));

        const auto lots = reconciled_lots(run);
        const Verdict verdict = judged(run);
        ASSERT_EQ(lots.size(), to - from);
        for (std::size_t row = from; row < to; ++row) {
            const ReconciledLot& lot = lots[row - from];
            EXPECT_NEAR(lot.volume, table.number(row, "reconciled_volume"), 1e-6);
            // The table's runs have strengths that no bound holds.
            EXPECT_FALSE(lot.strength_held);
            EXPECT_NEAR(lot.strength, table.number(row, "reconciled_strength"), 1e-6);
            EXPECT_NEAR(lot.volume_residual, table.number(row, "volume_residual"), 1e-5);
            EXPECT_NEAR(lot.strength_residual, table.number(row, "strength_residual"), 1e-5);
        }
        EXPECT_NEAR(verdict.chi_squared, table.number(from, "chi_squared"),
                    1e-6 * std::fmax(1.0, verdict.chi_squared));
        EXPECT_EQ(verdict.suspects.size(), table.number(from, "candidates"));
        if (verdict.suspects.size() == 1) {
            EXPECT_EQ(verdict.suspects[0].lot + 1, table.number(from, "row"));
            EXPECT_EQ(verdict.suspects[0].is_strength ? 2 : 1, table.number(from, "which"));
        }
        from = to;
    }
}

RC_GTEST_PROP(Reconciliation, BalancesWhatItIsGiven, ()) {
    std::mt19937_64 random(*rc::gen::arbitrary<std::uint64_t>());
    const invented::Kind kind{*rc::gen::element<std::size_t>(1, 3, 12, 30), *within(8.0, 50.0),
                              *within(0.1, 3.0), *within(0.1, 2.0),
                              *rc::gen::element(0.0, 0.3, 2.0)};
    const RunReadings run =
        invented::as_read(invented::true_run(kind, random), invented::Noise::normal, random);
    const RunReconciled found = reconciled_run(run);
    RC_ASSERT(found.all.ended == Ended::found);
    RC_ASSERT(found.all.chi_squared >= 0.0);
    const auto [alcohol, mass] = unbalanced(run, found.all.values);
    RC_ASSERT(std::fabs(alcohol) < 1e-10);
    RC_ASSERT(std::fabs(mass) < 1e-10);
}

TEST(Reconciliation, LeavesWhatBalancesAlone) {
    std::mt19937_64 random(3);
    const RunReadings run = invented::true_run({12, 20.0}, random);
    const auto lots = reconciled_lots(run);
    for (std::size_t i = 0; i < lots.size(); ++i) {
        EXPECT_NEAR(lots[i].volume, run.lots[i].volume, 1e-9);
        EXPECT_NEAR(lots[i].strength, run.lots[i].strength, 1e-9);
        EXPECT_NEAR(lots[i].volume_residual, 0.0, 1e-6);
    }
}

TEST(Reconciliation, WorksInMillilitresAlike) {
    std::mt19937_64 random(4);
    const RunReadings litres =
        invented::as_read(invented::true_run({8, 20.0}, random), invented::Noise::normal, random);
    RunReadings millilitres = litres;
    for (LotReading& lot : millilitres.lots)
        lot.volume *= 1000.0;
    const auto a = reconciled_lots(litres);
    const auto b = reconciled_lots(millilitres);
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_NEAR(b[i].volume, 1000.0 * a[i].volume, 1e-8 * b[i].volume);
        EXPECT_NEAR(b[i].strength, a[i].strength, 1e-8);
        EXPECT_NEAR(b[i].volume_residual, a[i].volume_residual, 1e-7);
        EXPECT_NEAR(b[i].strength_residual, a[i].strength_residual, 1e-7);
    }
}

// A charge of 28 to 29 % vol, whose density falls with strength as steeply as that of 10 % vol,
// made of a jar of 80 and a residue of 10.
RunReadings run_of_equal_slopes() {
    const auto slope = [](double q) {
        return density_from_strength(q + 1e-3, 20.0) - density_from_strength(q - 1e-3, 20.0);
    };
    double low = 25.0;
    double high = 35.0;
    EXPECT_GT(slope(low), slope(10.0));
    EXPECT_LT(slope(high), slope(10.0));
    while (high - low > 1e-9)
        (slope(0.5 * (low + high)) > slope(10.0) ? low : high) = 0.5 * (low + high);
    EXPECT_GT(low, 28.0);
    EXPECT_LT(low, 29.0);
    const Lot residue{7.0, 10.0};
    const Lot jar{spirit_to_add(residue.volume, residue.strength, low, 80.0), 80.0};
    const Lot charge = blend({residue, jar});
    EXPECT_NEAR(charge.strength, low, 1e-9);
    return run_of({charge.volume, charge.strength, jar.volume, jar.strength, 7.0, 10.0});
}

TEST(Reconciliation, HasExactTiesWhereReadingsMoveTheBalancesAlike) {
    // Strengths at which density has one slope: what the others say of them is as good, for each
    // litre. 1e-5: the slopes are differences.
    const RunReadings run = run_of_equal_slopes();
    const Reconciled at = reconciled_run(run).all;
    EXPECT_NEAR(at.chi_squared, 0.0, 1e-12);
    EXPECT_NEAR(at.difference_uncertainty[1] * run.lots[0].volume,
                at.difference_uncertainty[5] * run.lots[2].volume, 1e-5);
    EXPECT_GT(std::fabs(at.difference_uncertainty[3] * run.lots[1].volume -
                        at.difference_uncertainty[5] * run.lots[2].volume),
              1e-3);
    // Either way a wrong one is not told from the other.
    for (const std::size_t wrong : {0u, 2u}) {
        RunReadings read = run;
        read.lots[wrong].strength += 3.0;
        const Verdict verdict = judged(read);
        EXPECT_FALSE(verdict.fits);
        bool charge = false;
        bool residue = false;
        for (const Suspect& suspect : verdict.suspects) {
            charge = charge || (suspect.is_strength && suspect.lot == 0);
            residue = residue || (suspect.is_strength && suspect.lot == 2);
        }
        EXPECT_TRUE(charge && residue) << wrong;
    }

    // Volumes of lots of one strength.
    RunReadings jars = run_of({10.0, 30.0, 1.9, 68.0, 1.7, 68.0, 6.5, 8.5}, {1.0, 1.0, 1.0, 2.0});
    jars.lots[1].volume = 2.3;
    const Verdict verdict = judged(jars);
    EXPECT_FALSE(verdict.fits);
    ASSERT_GE(verdict.suspects.size(), 2u);
    std::vector<double> falls;
    for (const Suspect& suspect : verdict.suspects)
        if (!suspect.is_strength && (suspect.lot == 1 || suspect.lot == 2))
            falls.push_back(suspect.fall);
    ASSERT_EQ(falls.size(), 2u);
    // What parts them is only that the other one's strength moves a little.
    EXPECT_NEAR(falls[0], falls[1], 0.02 * falls[0]);
}

TEST(Reconciliation, HoldsAStrengthAtZero) {
    // Much alcohol collected, and the residue read as water: it would have to hold less than none.
    RunReadings run = run_of({10.0, 30.0, 3.75, 81.0, 6.55, 0.1}, {0.3, 0.3, 2.0});
    run.lots[0].strength_tolerance = run.lots[1].strength_tolerance = 0.1;
    const RunReconciled found = reconciled_run(run);
    ASSERT_EQ(found.all.ended, Ended::found);
    ASSERT_EQ(found.held.size(), 1u);
    EXPECT_EQ(found.held[0].at, 5u);
    EXPECT_EQ(found.all.values[5], 0.0);
    const auto [alcohol, mass] = unbalanced(run, found.all.values);
    EXPECT_LT(std::fabs(alcohol), 1e-10);
    EXPECT_LT(std::fabs(mass), 1e-10);
    EXPECT_EQ(found.all.degrees, 2u);
    EXPECT_TRUE(reconciled_lots(run)[2].strength_held);
    // Nothing that keeps to 0 or above is nearer.
    for (const double strength : {0.01, 0.05, 0.1, 0.2}) {
        RunReadings pinned = run;
        pinned.lots[2].strength = strength;
        pinned.lots[2].strength_tolerance = 0.001;
        const RunReconciled other = reconciled_run(pinned);
        const double sd = 0.5 / std::sqrt(3.0);
        const double moved = (other.all.values[5] - 0.1) / sd;
        EXPECT_GT(other.all.chi_squared + moved * moved, found.all.chi_squared) << strength;
    }
}

// Several lots near water, read so that some would hold less than no alcohol: those that stay held
// at the end pull outwards, or letting them go would fit better (Karush, Kuhn and Tucker).
TEST(Reconciliation, WhatIsHeldPullsOutwards) {
    std::mt19937_64 random(20261128);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    int several = 0;
    for (int i = 0; i < 1000; ++i) {
        RunReadings run;
        run.common_strength_tolerance = between(0.0, 2.0);
        const auto add = [&](Direction direction, double volume, double strength) {
            run.lots.push_back({direction, volume, strength, between(0.3, 8.0), between(0.1, 6.0),
                                run.lots.size()});
        };
        add(Direction::in, 10.0, between(20.0, 40.0));
        add(Direction::out, between(2.5, 5.5), between(70.0, 96.0));
        for (int lot = 0; lot < 5; ++lot)
            add(i % 2 == 0 || between(0.0, 1.0) < 0.6 ? Direction::out : Direction::in,
                between(0.2, 3.0),
                between(0.0, 1.0) < 0.7 ? between(0.0, 1.5) : between(98.0, 100.0));
        const RunReconciled found = reconciled_run(run);
        if (found.all.ended != Ended::found)
            continue;
        several += found.held.size() > 1;
        for (std::size_t k = 0; k < found.held.size(); ++k)
            EXPECT_LE(found.held[k].value == 0.0 ? found.all.held_pull[k] : -found.all.held_pull[k],
                      0.0)
                << "run " << i << ", value " << found.held[k].at;
    }
    EXPECT_GT(several, 50);
}

TEST(Reconciliation, ComesToRestFromBadStarts) {
    // One reading 50 and 300 of its standard uncertainties off, up and down.
    for (const double size : {50.0, 300.0})
        for (const double sign : {1.0, -1.0})
            for (std::size_t bad = 0; bad < 6; ++bad) {
                std::vector<double> x{10.0, 30.0, 3.6, 68.0, 6.5, 8.5};
                const double unit =
                    bad % 2 == 1 ? 0.5 / std::sqrt(3.0) : 0.01 * x[bad] / std::sqrt(3.0);
                x[bad] += sign * size * unit;
                if (x[bad] < 0.0 || (bad % 2 == 1 && x[bad] > 100.0))
                    continue;
                const RunReadings run = run_of(x, {1.0, 1.0, 1.0});
                const RunReconciled found = reconciled_run(run);
                ASSERT_EQ(found.all.ended, Ended::found) << size << " " << sign << " " << bad;
                EXPECT_LE(found.all.steps, 30);
                const auto [alcohol, mass] = unbalanced(run, found.all.values);
                EXPECT_LT(std::fabs(alcohol), 1e-10);
                EXPECT_LT(std::fabs(mass), 1e-10);
                // Left out, the others give it back.
                const RunReconciled without = reconciled_run(run, bad);
                ASSERT_EQ(without.all.ended, Ended::found);
                EXPECT_LT(without.all.chi_squared, 0.1);
            }
}

Column column(const std::string& name, std::vector<Cell> cells) {
    return {name, std::move(cells)};
}

RunReadings from_cells(std::vector<Cell> directions, std::vector<Cell> volumes,
                       std::vector<Cell> strengths, std::vector<Cell> volume_tolerances = {1.0},
                       std::vector<Cell> strength_tolerances = {0.5}, double common = 0.0) {
    return run_readings_from(column("directions", std::move(directions)),
                             column("volumes", std::move(volumes)),
                             column("strengths", std::move(strengths)),
                             column("volumeTolerances", std::move(volume_tolerances)),
                             column("strengthTolerances", std::move(strength_tolerances)), common);
}

TEST(Reconciliation, ReadsListsWithBlankRows) {
    const Cell blank;
    const RunReadings run =
        from_cells({std::string("IN "), blank, std::string("out")}, {10.0, blank, 3.6},
                   {30.0, std::string(), 68.0}, {1.0}, {0.5, blank, 0.3}, 0.2);
    ASSERT_EQ(run.lots.size(), 2u);
    EXPECT_EQ(run.lots[1].row, 2u);
    EXPECT_EQ(run.lots[1].strength_tolerance, 0.3);
    EXPECT_EQ(run.lots[1].volume_tolerance_pct, 1.0);
    EXPECT_EQ(run.common_strength_tolerance, 0.2);
}

TEST(Reconciliation, RefusesWhatIsNoRun) {
    using K = RefusalKind;
    const Cell in = std::string("in");
    const Cell out = std::string("out");
    expect_refusal(
        [&] {
            from_cells({in, std::string("jar")}, {10.0, 3.6}, {30.0, 68.0});
        },
        K::not_a_number, "directions", {"row 2", "jar", "in", "out"});
    expect_refusal(
        [&] {
            from_cells({in, 1.0}, {10.0, 3.6}, {30.0, 68.0});
        },
        K::not_a_number, "directions", {"row 2", "1"});
    expect_refusal(
        [&] {
            from_cells({in, out}, {10.0, 0.0}, {30.0, 68.0});
        },
        K::out_of_range, "volumes", {"row 2", "0", "above 0"});
    expect_refusal(
        [&] {
            from_cells({in, out}, {10.0, 3.6}, {30.0, 101.0});
        },
        K::out_of_range, "strengths", {"row 2", "101", "0 to 100"});
    expect_refusal(
        [&] {
            from_cells({in, out}, {10.0, 3.6}, {30.0, 68.0}, {0.0});
        },
        K::out_of_range, "volumeTolerances", {"0.001 to 50", "empty"});
    expect_refusal(
        [&] {
            from_cells({in, out}, {10.0, 3.6}, {30.0, 68.0}, {1.0}, {0.5, 60.0});
        },
        K::out_of_range, "strengthTolerances", {"row 2", "60", "0.001 to 50"});
    expect_refusal(
        [&] {
            from_cells({in, out}, {10.0, 3.6}, {30.0, 68.0}, {1.0}, {0.5}, -1.0);
        },
        K::out_of_range, "commonStrengthTolerance", {"-1", "0 to 50"});
    expect_refusal(
        [&] {
            from_cells({in, in}, {10.0, 3.6}, {30.0, 68.0});
        },
        K::impossible, "directions", {"comes out"});
    expect_refusal(
        [&] {
            from_cells({out, out}, {10.0, 3.6}, {30.0, 68.0});
        },
        K::impossible, "directions", {"goes in"});
    expect_refusal([&] { from_cells({Cell{}}, {Cell{}}, {Cell{}}); }, K::impossible, "directions",
                   {"no lots"});
    expect_refusal(
        [&] {
            from_cells(std::vector<Cell>(201, in), std::vector<Cell>(201, 1.0),
                       std::vector<Cell>(201, 1.0));
        },
        K::impossible, "volumes", {"201 lots", "2 to 200"});
    // As much came out as went in, and a lot more, of which the tolerance is wide: it would have to
    // be less than nothing.
    expect_refusal(
        [&] {
            reconciled_lots(from_cells({in, out, out}, {10.0, 10.5, 1.0}, {30.0, 30.0, 30.0},
                                       {1.0, 1.0, 50.0}));
        },
        K::impossible, "volumes", {"row 3", "instead of 1", "slip"});
}

} // namespace
