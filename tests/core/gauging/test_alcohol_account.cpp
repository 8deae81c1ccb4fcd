// The account of pure alcohol with its uncertainty: by finite differences, by simulation, and the
// rules of the GUM for what is common to all readings and what is not.
#include "core/gauging/alcohol_account.hpp"
#include "core/gauging/weighing.hpp"

#include "core/gauging/lots.hpp"
#include "core/mixture/r22.hpp"
#include "mixture/plain_r22.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <gtest/gtest.h>
#include <random>

using namespace jarbook;

namespace {

// Pure alcohol of one entry, written plainly: what balance.hpp says.
double plain_alcohol(double amount, double reading, double t, double denser, bool weighed) {
    const double rho = plain_r22::density(plain_r22::mass_fraction(reading, 20.0), 20.0) /
                           (1.0 + 25e-6 * (t - 20.0)) +
                       denser;
    const double p = plain_r22::bisect(
        [&](double fraction) { return plain_r22::density(fraction, t) - rho; }, 0.0, 1.0);
    const double rho_20c = plain_r22::density(p, 20.0);
    const double volume = weighed ? amount * 1000.0 * (1.0 - 1.2 / 8000.0) / (rho_20c - 1.2)
                                  : amount * plain_r22::density(p, t) / rho_20c;
    return volume * plain_r22::pct_vol(p, 20.0) / 100.0;
}

// Half-width to expanded uncertainty: rectangular (GUM 4.3.7), k = 2.
const double expanded = 2.0 / std::sqrt(3.0);

std::vector<BalanceEntry> some_jars() {
    return {{500, 78, 22, 5}, {500, 74, 23, 5}, {400, 70, 24, 4}, {480, 41, 17, 5}};
}

} // namespace

TEST(Balance, AgreesWithFiniteDifferences) {
    const BalanceTolerances tolerances{0.3, 0.5, 2.0, 0.2, 0.1};
    for (const bool weighed : {false, true}) {
        AlcoholBudget wanted;
        double squares = 0.0;
        for (const BalanceEntry& e : some_jars()) {
            const double step = 1e-3;
            const auto slope = [&](double amount, double reading, double t, double denser) {
                return (plain_alcohol(e.amount + amount, e.reading + reading, e.temperature_c + t,
                                      denser, weighed) -
                        plain_alcohol(e.amount - amount, e.reading - reading, e.temperature_c - t,
                                      -denser, weighed)) /
                       (2.0 * step);
            };
            const double per_amount = slope(step, 0, 0, 0);
            const double per_reading = slope(0, step, 0, 0);
            const double per_c = slope(0, 0, step, 0);
            wanted.alcohol += plain_alcohol(e.amount, e.reading, e.temperature_c, 0.0, weighed);
            wanted.measure += per_amount * e.amount_tolerance * expanded;
            wanted.alcoholometer += per_reading * 0.3 * expanded;
            wanted.thermometer += per_c * 0.5 * expanded;
            wanted.formula += slope(0, 0, 0, step) * 0.05;
            squares += std::pow(per_amount * 2.0 * expanded, 2) +
                       std::pow(per_reading * 0.2 * expanded, 2) +
                       std::pow(per_c * 0.1 * expanded, 2);
        }
        wanted.scatter = std::sqrt(squares);
        const AlcoholBudget budget = alcohol_budget(some_jars(), tolerances, weighed);
        // Central differences of step 1e-3 are good to about 1e-6 of the slopes.
        EXPECT_NEAR(budget.alcohol, wanted.alcohol, 1e-9 * wanted.alcohol);
        EXPECT_NEAR(budget.measure, wanted.measure, 1e-5 * wanted.measure);
        EXPECT_NEAR(budget.alcoholometer, wanted.alcoholometer, 1e-5 * wanted.alcoholometer);
        EXPECT_NEAR(budget.thermometer, wanted.thermometer, -1e-5 * wanted.thermometer);
        EXPECT_NEAR(budget.formula, wanted.formula, -1e-5 * wanted.formula);
        EXPECT_NEAR(budget.scatter, wanted.scatter, 1e-5 * wanted.scatter);
        EXPECT_LT(budget.thermometer, 0.0); // warmer than thought: weaker than thought
        EXPECT_LT(budget.formula, 0.0);     // denser: weaker
    }
}

TEST(Balance, AgreesWithSimulation) {
    // 20,000 runs with drawn errors: instruments once a run, scatter at every reading. The standard
    // deviation of such a sample is good to 1 / sqrt(2 * 20,000) = 0.5 %; three of those, and half
    // a per cent for what first order leaves out.
    const BalanceTolerances tolerances{0.5, 1.0, 5.0, 0.5, 0.5};
    std::vector<BalanceEntry> jars;
    for (int i = 0; i < 20; ++i)
        jars.push_back({500.0, 80.0 - 1.7 * i, 18.0 + 0.4 * i, 5.0});
    const AlcoholBudget budget = alcohol_budget(jars, tolerances, false);
    std::mt19937_64 random(7);
    const auto draw = [&](double half_width) {
        return half_width * (2.0 * static_cast<double>(random() >> 11) * 0x1p-53 - 1.0);
    };
    constexpr int runs = 20000;
    double sum = 0.0;
    double squares = 0.0;
    for (int run = 0; run < runs; ++run) {
        const double reading = draw(tolerances.reading);
        const double temperature = draw(tolerances.temperature_c);
        const double amount = draw(1.0);
        double off = 0.0;
        for (const BalanceEntry& jar : jars) {
            const double t =
                jar.temperature_c + temperature + draw(tolerances.temperature_scatter_c);
            const double strength =
                strength_from_reading(jar.reading + reading + draw(tolerances.reading_scatter), t);
            const double volume = volume_at_20c(jar.amount + amount * jar.amount_tolerance +
                                                    draw(tolerances.amount_scatter),
                                                strength, t, "");
            off += volume * strength / 100.0;
        }
        off -= budget.alcohol;
        sum += off;
        squares += off * off;
    }
    const double deviation = std::sqrt(squares / runs - std::pow(sum / runs, 2));
    AlcoholBudget drawn = budget;
    drawn.formula = 0.0; // not drawn: it has no half-width
    EXPECT_NEAR(2.0 * deviation, drawn.expanded(), 0.02 * drawn.expanded());
    EXPECT_LT(std::fabs(sum / runs), 0.05 * drawn.expanded());
}

TEST(Balance, CommonErrorsAddUpLinearlyScatterInSquares) {
    // As in GUM 5.2.2, example: ten resistors calibrated with the same standard have ten times the
    // uncertainty of one in series, not its square root of ten.
    const std::vector<BalanceEntry> one{{10, 40, 20, 0.1}};
    const std::vector<BalanceEntry> ten(10, one.front());
    const BalanceTolerances tolerances{0.1, 0.5, 0.05, 0.1, 0.2};
    const AlcoholBudget single = alcohol_budget(one, tolerances, false);
    const AlcoholBudget all = alcohol_budget(ten, tolerances, false);
    EXPECT_NEAR(all.measure, 10.0 * single.measure, 1e-12);
    EXPECT_NEAR(all.alcoholometer, 10.0 * single.alcoholometer, 1e-12);
    EXPECT_NEAR(all.thermometer, 10.0 * single.thermometer, 1e-12);
    EXPECT_NEAR(all.formula, 10.0 * single.formula, 1e-12);
    EXPECT_NEAR(all.scatter, std::sqrt(10.0) * single.scatter, 1e-12);
    EXPECT_NEAR(all.expanded(),
                std::sqrt(std::pow(all.measure, 2) + std::pow(all.alcoholometer, 2) +
                          std::pow(all.thermometer, 2) + std::pow(all.formula, 2) +
                          std::pow(all.scatter, 2)),
                1e-12);
    // At 20 degC a reading is the strength: 0.1 % vol of 100 L, rectangular, k = 2.
    EXPECT_NEAR(all.alcoholometer, 100.0 * 0.001 * expanded, 1e-12);
}

TEST(Balance, OneWeighedJarIsTheUncertaintyOfItsStrength) {
    // Weighed at 20 degC: U(pure alcohol) and U(strength) differ by what strength does to volume.
    const BalanceTolerances tolerances{0.1, 0.5};
    const AlcoholBudget jar = alcohol_budget({{1000, 60, 25, 0}}, tolerances, true);
    const double strength = strength_from_reading(60, 25);
    const double volume = volume_from_mass(1000, strength);
    const double per_pct = (1000 / mass_from_volume(1, strength + 0.5) * (strength + 0.5) -
                            1000 / mass_from_volume(1, strength - 0.5) * (strength - 0.5)) /
                           100.0;
    EXPECT_NEAR(jar.alcohol, volume * strength / 100.0, 1e-9);
    EXPECT_NEAR(jar.expanded(), per_pct * reading_uncertainty(60, 25, 0.1, 0.5),
                1e-4 * jar.expanded());
}

TEST(Balance, NothingIsCertain) {
    const AlcoholBudget nothing = alcohol_budget({}, {0.3, 0.5}, false);
    EXPECT_EQ(nothing.alcohol, 0.0);
    EXPECT_EQ(nothing.expanded(), 0.0);
    // Perfect instruments leave the formula's own part.
    const AlcoholBudget perfect = alcohol_budget({{10, 40, 20, 0}}, {}, false);
    EXPECT_EQ(perfect.expanded(), std::fabs(perfect.formula));
    EXPECT_GT(perfect.expanded(), 0.0);
}

RC_GTEST_PROP(Balance, MillilitresOrLitres, ()) {
    const BalanceEntry ml{*within(0.0, 1000.0), *within(5.0, 90.0), *within(1.0, 35.0),
                          *within(0.0, 10.0)};
    const BalanceEntry l{ml.amount / 1000.0, ml.reading, ml.temperature_c,
                         ml.amount_tolerance / 1000.0};
    const bool weighed = *rc::gen::arbitrary<bool>();
    const double in_ml = alcohol_budget({ml}, {0.3, 0.5, 2.0, 0.1, 0.1}, weighed).expanded();
    const double in_l = alcohol_budget({l}, {0.3, 0.5, 0.002, 0.1, 0.1}, weighed).expanded();
    RC_ASSERT(std::fabs(in_ml - 1000.0 * in_l) <= 1e-12 * in_ml);
}

TEST(Balance, Lists) {
    const Cell blank{};
    const Column amounts{"amounts", {500.0, blank, 400.0}};
    const Column readings{"readings", {78.0, std::string(), 70.0}};
    const Column temperatures{"temperatures", {22.0, blank, 24.0}};
    const Column one{"amountTolerance", {5.0}};
    const auto entries = balance_entries_from(amounts, readings, temperatures, one);
    ASSERT_EQ(entries.size(), 2u);
    EXPECT_EQ(entries[1].amount, 400.0);
    EXPECT_EQ(entries[1].temperature_c, 24.0);
    EXPECT_EQ(entries[1].amount_tolerance, 5.0);
    const Column each{"amountTolerance", {5.0, blank, 4.0}};
    EXPECT_EQ(
        balance_entries_from(amounts, readings, {"temperatures", {21.0}}, each)[1].amount_tolerance,
        4.0);
}

TEST(Balance, Refusals) {
    const Cell blank{};
    const auto read = [](std::vector<Cell> amounts, std::vector<Cell> readings,
                         std::vector<Cell> temperatures, std::vector<Cell> tolerances) {
        balance_entries_from({"amounts", std::move(amounts)}, {"readings", std::move(readings)},
                             {"temperatures", std::move(temperatures)},
                             {"amountTolerance", std::move(tolerances)});
    };
    expect_refusal(
        [&] {
            read({500.0, 400.0}, {78.0, 70.0}, {22.0, 0.0}, {5.0});
        },
        RefusalKind::out_of_range, "temperatures", {"empty", "0.001"});
    expect_refusal(
        [&] {
            read({500.0, 400.0}, {78.0, 70.0}, {0.0}, {5.0});
        },
        RefusalKind::out_of_range, "temperatures", {"empty"});
    expect_refusal(
        [&] {
            read({500.0, -1.0}, {78.0, 70.0}, {22.0, 23.0}, {5.0});
        },
        RefusalKind::out_of_range, "amounts", {"-1"});
    expect_refusal([&] { read({500.0}, {178.0}, {22.0}, {5.0}); }, RefusalKind::out_of_range,
                   "readings", {"178", "100"});
    expect_refusal([&] { read({500.0}, {78.0}, {22.0}, {-5.0}); }, RefusalKind::out_of_range,
                   "amountTolerance", {"-5"});
    expect_refusal(
        [&] {
            read({500.0, blank}, {78.0, 70.0}, {22.0}, {5.0});
        },
        RefusalKind::not_a_number, "amounts", {"row 2"});
    const std::vector<BalanceEntry> jar{{500, 78, 22, 5}};
    expect_refusal(
        [&] {
            alcohol_budget(jar, {-0.1, 0.5}, false);
        },
        RefusalKind::out_of_range, "readingTolerance", {"-0.1"});
    expect_refusal(
        [&] {
            alcohol_budget(jar, {0.1, 11}, false);
        },
        RefusalKind::out_of_range, "temperatureTolerance", {"11", "10"});
    expect_refusal(
        [&] {
            alcohol_budget(jar, {0.1, 0.5, -1.0}, false);
        },
        RefusalKind::out_of_range, "amountScatter", {"-1"});
    expect_refusal(
        [&] {
            alcohol_budget(jar, {0.1, 0.5, 1.0, 11.0}, false);
        },
        RefusalKind::out_of_range, "readingScatter", {"11"});
    expect_refusal(
        [&] {
            alcohol_budget(jar, {0.1, 0.5, 1.0, 1.0, -1.0}, false);
        },
        RefusalKind::out_of_range, "temperatureScatter", {"-1"});
}
