// Readings made to balance: published examples through the general solver, a second way to its
// statistics, and what it cannot solve.
#include "core/record/balances.hpp"

#include "support/published.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace jarbook;

// Balances that are straight lines: slope times values.
Balances lines(std::vector<std::vector<double>> slope) {
    return [slope](const std::vector<double>& x) {
        Linearised here{{}, slope};
        for (const auto& row : slope) {
            double sum = 0.0;
            for (std::size_t i = 0; i < x.size(); ++i)
                sum += row[i] * x[i];
            here.off.push_back(sum);
        }
        return here;
    };
}

// VDI 2048 Part 1:2000, Annex A: a steam cycle. FDKeI, FDKeII, SpI, SpII, V, HK, A7, A6, A5, HDNK.
const std::vector<std::vector<double>> steam_cycle = {
    {1, 1, -1, -1, 0.4, 0, 0, 0, 0, 0},
    {0, 0, 1, 1, -1.0, -1, -1, -1, -1, 0},
    {0, 0, 0, 0, 0, 0, 1, 1, 1, -1},
};

class SteamCycle {
public:
    SteamCycle() : table_("reconciliation_examples.csv", 18) {
        for (std::size_t row = 0; row < 10; ++row) {
            readings_.values.push_back(table_.number(row, "measured"));
            width_.push_back(table_.number(row, "uncertainty_given"));
        }
    }

    // The two flows of feed water, wider.
    void widen() { width_[0] = width_[1] = table_.number(10, "uncertainty_given"); }

    Reconciled solved() {
        const double correlation[] = {0.2, 0.2, 0.4, 0.4};
        readings_.own.clear();
        for (std::size_t i = 0; i < 10; ++i) {
            const double r = i < 4 ? correlation[i] : 0.0;
            readings_.own.push_back(std::sqrt(1.0 - r) * width_[i] / per_sd);
        }
        readings_.shared.assign(2, std::vector<double>(10, 0.0));
        for (std::size_t i = 0; i < 4; ++i)
            readings_.shared[i / 2][i] = std::sqrt(correlation[i]) * width_[i] / per_sd;
        return reconcile(readings_, lines(steam_cycle));
    }

    // Values, their widths after it, and v / sqrt(S_v), as printed. One transcription has 0.39951
    // for the correlation of 0.4, which moves the last printed digit: a unit of it is let pass.
    void expect_as_printed(const Reconciled& found, std::size_t from, std::size_t to) const {
        const std::map<std::string, std::size_t> place = {
            {"FDKeI", 0}, {"FDKeII", 1}, {"SpI", 2}, {"SpII", 3}, {"V", 4},
            {"HK", 5},    {"A7", 6},     {"A6", 7},  {"A5", 8},   {"HDNK", 9}};
        for (std::size_t row = from; row < to; ++row) {
            const std::size_t i = place.at(table_.text(row, "variable"));
            SCOPED_TRACE(table_.where(row, ""));
            const auto near = [&](double value, const char* column) {
                EXPECT_NEAR(value, table_.number(row, column), 2.0 * table_.half_digit(row, column))
                    << column;
            };
            near(found.values[i], "corrected");
            near(per_sd * found.uncertainty[i], "uncertainty_after");
            const double v = found.values[i] - readings_.values[i];
            near(std::fabs(v) / found.adjustment_uncertainty[i], "normalised_residual");
        }
    }

private:
    static constexpr double per_sd = 1.96;
    published::Table table_;
    Readings readings_;
    std::vector<double> width_;
};

TEST(Balances, RejectTheSteamCycleOfVdi2048) {
    SteamCycle cycle;
    const Reconciled found = cycle.solved();
    ASSERT_EQ(found.ended, Ended::found);
    EXPECT_EQ(found.degrees, 3u);
    EXPECT_NEAR(found.chi_squared, 20.310, 0.001);
    EXPECT_GT(found.chi_squared, 7.81473); // chi-squared, 3, 95 %
    cycle.expect_as_printed(found, 0, 10);
}

TEST(Balances, AcceptItWithTheWiderWidthsOfVdi2048) {
    SteamCycle cycle;
    cycle.widen();
    const Reconciled found = cycle.solved();
    ASSERT_EQ(found.ended, Ended::found);
    EXPECT_NEAR(found.chi_squared, 2.5370, 0.0002);
    cycle.expect_as_printed(found, 10, 15);
}

TEST(Balances, ShareTheImbalanceOfEqualReadingsInEqualParts) {
    // Rao and Narasimhan, 1 = 2 + 3.
    const published::Table table("reconciliation_examples.csv", 18);
    EXPECT_EQ(table.text(15, "measured"), "9.22; 4.83; 3.22");
    EXPECT_EQ(table.text(15, "corrected"), "8.83; 5.22; 3.61");
    const Reconciled found =
        reconcile({{9.22, 4.83, 3.22}, {1.0, 1.0, 1.0}, {}}, lines({{1, -1, -1}}));
    ASSERT_EQ(found.ended, Ended::found);
    EXPECT_NEAR(found.values[0], 8.83, 1e-12);
    EXPECT_NEAR(found.values[1], 5.22, 1e-12);
    EXPECT_NEAR(found.values[2], 3.61, 1e-12);
    EXPECT_NEAR(found.chi_squared, 1.17 * 1.17 / 3.0, 1e-12);
    // One balance sees three readings alike: which is wrong cannot be told.
    for (const double w : found.deletion_residual)
        EXPECT_NEAR(std::fabs(w), 1.17 / std::sqrt(3.0), 1e-12);
}

// Any covariance, as the columns of its root: a negative correlation, too.
Readings four_readings() {
    return {{10.0, 4.2, 3.1, 2.2},
            {0.05, 0.04, 0.03, 0.02},
            {{0.1, 0.05, 0.0, -0.04}, {0.0, 0.03, -0.06, 0.0}}};
}

TEST(Balances, DeletionResidualIsTheRootOfTheFallOfChiSquared) {
    // Straight lines: leaving a reading out gives the fall itself. With correlated readings v /
    // sqrt(S_v) does not.
    const Readings readings = four_readings();
    const Balances balances = lines({{1, -1, -1, -1}, {1, -2.5, 0.5, -0.8}});
    const Reconciled found = reconcile(readings, balances);
    ASSERT_EQ(found.ended, Ended::found);
    double greatest_difference = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        const Reconciled without = reconcile(readings, balances, {i});
        ASSERT_EQ(without.ended, Ended::found);
        EXPECT_EQ(without.degrees, 1u);
        const double w = found.deletion_residual[i];
        EXPECT_NEAR(w * w, found.chi_squared - without.chi_squared, 1e-9);
        const double given = without.values[i] - readings.values[i];
        EXPECT_EQ(w > 0.0, given > 0.0);
        const double plain =
            (found.values[i] - readings.values[i]) / found.adjustment_uncertainty[i];
        greatest_difference = std::fmax(greatest_difference, std::fabs(plain - w));
    }
    EXPECT_GT(greatest_difference, 0.1);
}

TEST(Balances, DeletionResidualOfIndependentReadingsIsTheNormalisedAdjustment) {
    Readings readings = four_readings();
    readings.shared.clear();
    const Balances balances = lines({{1, -1, -1, -1}, {1, -2.5, 0.5, -0.8}});
    const Reconciled found = reconcile(readings, balances);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(found.deletion_residual[i],
                    (found.values[i] - readings.values[i]) / found.adjustment_uncertainty[i], 1e-9);
        // Reading and what the others give for it are independent: their squares add.
        const Reconciled without = reconcile(readings, balances, {i});
        EXPECT_NEAR(found.difference_uncertainty[i],
                    std::hypot(readings.own[i], without.uncertainty[i]), 1e-9);
        EXPECT_NEAR(without.values[i] - readings.values[i],
                    found.deletion_residual[i] * found.difference_uncertainty[i], 1e-9);
    }
}

TEST(Balances, AReadingThatNoBalanceLooksAtStays) {
    const Reconciled found = reconcile({{5.0, 4.0, 7.0}, {1.0, 1.0, 0.5}, {}}, lines({{1, -1, 0}}));
    EXPECT_EQ(found.values[2], 7.0);
    EXPECT_EQ(found.deletion_residual[2], 0.0);
    EXPECT_TRUE(std::isinf(found.difference_uncertainty[2]));
    EXPECT_EQ(found.uncertainty[2], 0.5);
}

TEST(Balances, FollowCurves) {
    // The point of a circle of radius 5 nearest to (6, 8) in equal units: (3, 4).
    const Balances circle = [](const std::vector<double>& x) {
        return Linearised{{(x[0] * x[0] + x[1] * x[1]) / 25.0 - 1.0},
                          {{2.0 * x[0] / 25.0, 2.0 * x[1] / 25.0}}};
    };
    const Reconciled found = reconcile({{6.0, 8.0}, {1.0, 1.0}, {}}, circle);
    ASSERT_EQ(found.ended, Ended::found);
    EXPECT_NEAR(found.values[0], 3.0, 1e-9);
    EXPECT_NEAR(found.values[1], 4.0, 1e-9);
    EXPECT_NEAR(found.chi_squared, 25.0, 1e-9);
}

TEST(Balances, SayWhenTheyDependOnEachOtherOrHaveNoAnswer) {
    const Readings readings{{5.0, 4.0}, {1.0, 1.0}, {}};
    EXPECT_EQ(reconcile(readings, lines({{1, -1}, {2, -2}})).ended, Ended::singular);
    // Neither reading is left to go by.
    EXPECT_EQ(reconcile(readings, lines({{1, -1}}), {0, 1}).ended, Ended::singular);
    const Balances never = [](const std::vector<double>& x) {
        return Linearised{{x[0] * x[0] + 1.0}, {{2.0 * x[0], 0.0}}};
    };
    const Reconciled found = reconcile(readings, never);
    EXPECT_NE(found.ended, Ended::found);
    EXPECT_LE(found.steps, 51);
}

} // namespace
