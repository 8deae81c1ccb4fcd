// Whether readings fit, and which is named: on invented runs, as often as it is said to be.
#include "core/record/verdict.hpp"

#include "record/invented_runs.hpp"
#include "support/refusals.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/non_central_chi_squared.hpp>
#include <cmath>
#include <gtest/gtest.h>

namespace {

using namespace invented;

TEST(Verdict, LimitsAreThoseOfChiSquared) {
    EXPECT_NEAR(quantile(boost::math::chi_squared(1.0), 0.95), limit_of_one_degree, 1e-12);
    const double limit = quantile(boost::math::chi_squared(2.0), 0.95);
    const boost::math::non_central_chi_squared wrong(2.0, noticed_four_times_in_five *
                                                              noticed_four_times_in_five);
    EXPECT_NEAR(cdf(complement(wrong, limit)), 0.8, 1e-5);
}

TEST(Verdict, RejectsOneFittingRunInTwenty) {
    // 10,000 runs: 5 % has a standard deviation of 0.22. Noise as chi-squared has it; rectangular
    // noise of the same size has shorter tails and is rejected less often.
    for (const Kind& kind : {Kind{1, 30.0}, Kind{12, 30.0}, Kind{12, 30.0, 1.0, 0.2, 0.5}}) {
        const Tally normal = tally(kind, 0.0, Scale::own, 10000, 20261101, Noise::normal);
        EXPECT_NEAR(normal.pct(normal.fits), 95.0, 1.0) << kind.jars;
        const Tally rectangular = tally(kind, 0.0, Scale::own, 2000, 20261101);
        EXPECT_GT(rectangular.pct(rectangular.fits), 95.0) << kind.jars;
    }
}

TEST(Verdict, NamesAWrongReadingSeldomAndAnotherHardlyEver) {
    // The table with 10,000 runs a line: tests/benchmarks/README.md.
    int named = 0;
    int shown = 0;
    for (const Kind& kind : {Kind{1, 30.0}, Kind{12, 30.0}})
        for (const double size : {3.0, 5.0, 8.0}) {
            const Tally found = tally(kind, size, Scale::own, 1000, 20261102);
            EXPECT_LT(found.pct(found.wrong), 2.0) << kind.jars << " jars, " << size;
            named += found.right;
            shown += found.runs - found.fits;
        }
    EXPECT_GT(named, shown / 10);
}

RunReadings three_lots(double charge, double residue_volume, double residue_strength) {
    RunReadings run;
    run.lots = {{Direction::in, charge, 30.0, 1.0, 0.5, 0},
                {Direction::out, 3.6, 68.0, 1.0, 0.5, 1},
                {Direction::out, residue_volume, residue_strength, 2.0, 0.5, 2}};
    return run;
}

TEST(Verdict, NamesTheOneReadingThatExplainsIt) {
    // 6.50 L of residue read as 6.1, as 0.65 and as 65.
    for (const double read : {6.1, 0.65, 65.0}) {
        const Verdict verdict = judged(three_lots(10.0, read, 8.5));
        EXPECT_FALSE(verdict.fits);
        ASSERT_EQ(verdict.suspects.size(), 1u) << read;
        EXPECT_EQ(verdict.suspects[0].lot, 2u);
        EXPECT_FALSE(verdict.suspects[0].is_strength);
        EXPECT_NEAR(verdict.suspects[0].implied, 6.5043, 0.0001);
        EXPECT_EQ(verdict.suspects[0].reading, read);
    }
}

TEST(Verdict, TellsThatAStrengthIsWrongButNotWhich) {
    const Verdict verdict = judged(three_lots(10.0, 6.5, 5.5));
    EXPECT_FALSE(verdict.fits);
    ASSERT_EQ(verdict.suspects.size(), 3u);
    for (const Suspect& suspect : verdict.suspects)
        EXPECT_TRUE(suspect.is_strength);
}

TEST(Verdict, TellsWhereNoSingleReadingExplainsIt) {
    // The charge 8 % too large and the residue's strength 4 % vol too high.
    const Verdict verdict = judged(three_lots(10.8, 6.5, 12.5));
    EXPECT_FALSE(verdict.fits);
    EXPECT_TRUE(verdict.suspects.empty());
}

TEST(Verdict, DoesNotNameAValueThatCannotBe) {
    // Each suspect's value is one that a volume or a strength can have, whatever was read.
    std::mt19937_64 random(11);
    int seen = 0;
    for (int i = 0; i < 300; ++i) {
        RunReadings run = as_read(true_run({3, 20.0}, random), Noise::normal, random);
        run.lots[random() % run.lots.size()].strength *=
            std::uniform_real_distribution<double>(0.0, 1.1)(random);
        for (LotReading& lot : run.lots)
            lot.strength = std::fmin(lot.strength, 100.0);
        for (const Suspect& suspect : judged(run).suspects) {
            ++seen;
            EXPECT_GT(suspect.implied, 0.0 - (suspect.is_strength ? 1e-300 : 0.0));
            if (suspect.is_strength) {
                EXPECT_LE(suspect.implied, 97.2);
            }
        }
    }
    EXPECT_GT(seen, 300);
}

TEST(Verdict, OfAStrayVolumeDoesNotNeedTheRunToBeReconciled) {
    // A jar typed in millilitres among litres.
    RunReadings run = three_lots(10.0, 6.5, 8.5);
    run.lots[1].volume = 3600.0;
    const Verdict verdict = judged(run);
    ASSERT_EQ(verdict.suspects.size(), 1u);
    EXPECT_EQ(verdict.suspects[0].lot, 1u);
    EXPECT_FALSE(verdict.suspects[0].is_strength);
    EXPECT_NEAR(verdict.suspects[0].implied, 3.6, 0.1);
}

} // namespace
