// What several runs say of one thing.
#include "core/record/consensus.hpp"

#include "support/published.hpp"
#include "support/ranges.hpp"
#include "support/refusals.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace jarbook;

// The numbers after a word of a text: "x 61.00 61.40 ...; u^2 0.2025 ...".
std::vector<double> after(const std::string& text, const std::string& word) {
    std::istringstream in(text.substr(text.find(word) + word.size()));
    std::vector<double> result;
    for (double number = 0.0; in >> number;)
        result.push_back(number);
    return result;
}

TEST(ConsensusOfRuns, IsThatOfNineLaboratories) {
    const published::Table table("between_run_statistics.csv", 3);
    const std::string& input = table.text(0, "input");
    const std::vector<double> x = after(input, "x ");
    const std::vector<double> squares = after(input, "u^2 ");
    ASSERT_EQ(x.size(), 9u);
    ASSERT_EQ(squares.size(), 9u);
    std::vector<UncertainValue> values;
    for (std::size_t i = 0; i < 9; ++i)
        values.push_back({x[i], std::sqrt(squares[i])});
    const Consensus found = consensus(values);
    EXPECT_NEAR(found.spread, table.number(0, "value"), table.half_digit(0, "value"));
    const std::string mean = table.text(1, "value"); // "62.4076; 0.3380"
    EXPECT_NEAR(found.mean, std::stod(mean), 0.00005);
    EXPECT_NEAR(found.mean_uncertainty, std::stod(mean.substr(mean.find(';') + 1)), 0.00005);
    EXPECT_NEAR(found.next_uncertainty, std::hypot(found.spread, found.mean_uncertainty), 1e-12);
}

TEST(ConsensusOfRuns, HasNoSpreadWhereUncertaintiesExplainIt) {
    // Squares: 2 (0.1 / 0.2)^2 = 0.5, less than 2. By hand: plain mean, 0.2 / sqrt(3).
    const Consensus found = consensus({{1.1, 0.2}, {1.2, 0.2}, {1.3, 0.2}});
    EXPECT_EQ(found.spread, 0.0);
    EXPECT_NEAR(found.mean, 1.2, 1e-15);
    EXPECT_NEAR(found.mean_uncertainty, 0.2 / std::sqrt(3.0), 1e-15);
    EXPECT_EQ(found.next_uncertainty, found.mean_uncertainty);
    EXPECT_EQ(consensus({{1.2, 0.1}, {1.2, 0.3}, {1.2, 0.2}}).spread, 0.0);
}

TEST(ConsensusOfRuns, OfEqualUncertaintiesIsThePlainStandardDeviationLessThem) {
    // sum (x - mean)^2 / (s^2 + u^2) = n - 1: s^2 is the variance less u^2.
    const Consensus found = consensus({{1.0, 0.1}, {2.0, 0.1}, {3.0, 0.1}, {6.0, 0.1}});
    EXPECT_NEAR(found.mean, 3.0, 1e-12);
    EXPECT_NEAR(found.spread, std::sqrt(14.0 / 3.0 - 0.01), 1e-9);
}

RC_GTEST_PROP(ConsensusOfRuns, MovesWithTheValues, ()) {
    const auto count = *rc::gen::inRange<std::size_t>(3, 20);
    std::vector<UncertainValue> values;
    std::vector<UncertainValue> moved;
    for (std::size_t i = 0; i < count; ++i) {
        const UncertainValue one{*within(0.0, 10.0), *within(0.001, 2.0)};
        values.push_back(one);
        moved.push_back({100.0 + 3.0 * one.value, 3.0 * one.uncertainty});
    }
    const Consensus a = consensus(values);
    const Consensus b = consensus(moved);
    RC_ASSERT(std::fabs(b.mean - 100.0 - 3.0 * a.mean) < 1e-6);
    RC_ASSERT(std::fabs(b.spread - 3.0 * a.spread) < 1e-6 * (1.0 + b.spread));
    RC_ASSERT(std::fabs(b.mean_uncertainty - 3.0 * a.mean_uncertainty) < 1e-6);
    double squares = 0.0;
    for (const UncertainValue& one : values)
        squares += std::pow(one.value - a.mean, 2) /
                   (std::pow(one.uncertainty, 2) + std::pow(a.spread, 2));
    const double wanted = static_cast<double>(count - 1);
    const bool solved =
        a.spread > 0.0 ? std::fabs(squares - wanted) < 1e-6 * wanted : squares <= wanted;
    RC_ASSERT(solved);
}

TEST(ConsensusOfRuns, ReadsLists) {
    const auto values =
        uncertain_values_from({"values", {1.1, Cell{}, 1.2}}, {"uncertainties", {0.1}});
    ASSERT_EQ(values.size(), 3u - 1u);
    EXPECT_EQ(values[1].value, 1.2);
    EXPECT_EQ(values[1].uncertainty, 0.1);
}

TEST(ConsensusOfRuns, RefusesTooFewAndWhatIsKnownExactly) {
    using K = RefusalKind;
    expect_refusal(
        [] {
            consensus({{1.1, 0.1}, {1.2, 0.1}});
        },
        K::impossible, "values", {"2 values", "three"});
    const auto read = [](double value, double uncertainty) {
        uncertain_values_from({"values", {1.1, value}}, {"uncertainties", {0.1, uncertainty}});
    };
    expect_refusal([&] { read(1.2, 0.0); }, K::out_of_range, "uncertainties", {"row 2", "empty"});
    expect_refusal([&] { read(1.2, -0.1); }, K::out_of_range, "uncertainties", {"row 2", "-0.1"});
    expect_refusal([&] { read(2e6, 0.1); }, K::out_of_range, "values", {"row 2", "2000000"});
}

} // namespace
