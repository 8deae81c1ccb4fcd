// For every argument with a range: just outside is refused with the documented code and a reason
// that names function, argument and value; the limit itself gives no error, or exactly the one that
// limit_errors.hpp has for it.
#include <algorithm>
#include <cmath>
#include <string>

#include "functions/limit_errors.hpp"
#include "support/function_test.hpp"

namespace jarbook::e2e {
namespace {

constexpr int out_of_range = 502;

class Limits : public FunctionTest {
protected:
    // Enters the working example with one argument (of a list: its first row) set to a value.
    Outcome with_value(std::size_t position, double value) {
        sheet().clear();
        Call call = start_from_example();
        if (is_list(position)) {
            if (position >= call.arguments.size() || call.arguments[position].empty())
                call = call.with(position, column_of_temperatures(call));
            const auto column = ColumnReference::parse(call.arguments[position]).column;
            cell(std::string(1, column) + "1").set_number(value);
            return evaluate(call.formula());
        }
        cell("Y1").set_number(value);
        return evaluate(call.with(position, "Y1").formula());
    }

    // An optional list that the example leaves out (temperatures of volumes): as long as the
    // others, at the reference temperature.
    std::string column_of_temperatures(const Call& call) {
        ColumnReference column{
            'X', ColumnReference::parse(call.arguments.at(list_positions(call).front())).rows};
        for (int row = 1; row <= column.rows; ++row)
            cell("X" + std::to_string(row)).set_number(20);
        return column.text();
    }

    void expect_refused(std::size_t position, double value) {
        const auto& argument = function().arguments[position];
        SCOPED_TRACE(std::string(argument.name) + " = " + office::describe(value));
        const Outcome outcome = with_value(position, value);
        EXPECT_TRUE(is_error(outcome, out_of_range));
        const Reason* reason = outcome.reason_about(std::string(argument.name));
        ASSERT_NE(reason, nullptr) << "no reason names the argument: " << outcome;
        EXPECT_EQ(reason->function, function().name);
        EXPECT_EQ(reason->code, out_of_range);
        EXPECT_FALSE(reason->value.empty());
        EXPECT_NE(reason->sentence.find(argument.name), std::string::npos) << reason->sentence;
        EXPECT_NE(reason->sentence.find(reason->value), std::string::npos) << reason->sentence;
    }

    // 0 but where the end is impossible together with the example's other arguments.
    int wanted_at(std::string_view argument, double value) const {
        const std::string_view name = std::string_view(function().name).substr(7); // "SPIRIT."
        for (const LimitError& known : limit_errors)
            if (known.function == name && known.argument == argument && known.value == value)
                return known.code;
        return 0;
    }

    void expect_in_range(std::size_t position, double value) {
        const auto& argument = function().arguments[position];
        SCOPED_TRACE(std::string(argument.name) + " = " + office::describe(value));
        const Outcome outcome = with_value(position, value);
        EXPECT_EQ(outcome.error(), wanted_at(argument.name, value)) << outcome;
    }
};

// Six digits are shown in a reason, so that a millionth can still be told apart from the limit.
double step(double limit) {
    return std::max(std::fabs(limit), 1e-3) * 1e-5;
}

TEST_P(Limits, AreKeptOnBothSides) {
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        if (!std::isnan(argument.lowest)) {
            expect_refused(i, argument.lowest - step(argument.lowest));
            if (argument.above || (argument.lowest == 0 && argument.refuses_zero))
                expect_refused(i, argument.lowest);
            else
                expect_in_range(i, argument.lowest);
        }
        if (!std::isnan(argument.highest)) {
            expect_refused(i, argument.highest + step(argument.highest));
            expect_in_range(i, argument.highest);
        }
    }
}

TEST_P(Limits, NothingIsNegativeThatHasNoRangeOfItsOwn) {
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        const bool is_number = argument.kind == catalogue::Kind::number ||
                               argument.kind == catalogue::Kind::list ||
                               argument.kind == catalogue::Kind::rows;
        if (is_number && std::isnan(argument.lowest))
            expect_refused(i, -0.001);
    }
}

TEST_P(Limits, AZeroThatMayBeAnEmptyCellIsRefusedAsOne) {
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        if (!function().arguments[i].refuses_zero)
            continue;
        expect_refused(i, 0.0);
        const Outcome outcome = with_value(i, 0.0);
        ASSERT_FALSE(outcome.reasons.empty());
        EXPECT_NE(outcome.reasons.back().sentence.find("empty"), std::string::npos)
            << outcome.reasons.back().sentence;
    }
}

TEST_P(Limits, AShareInThePlaceOfAWishedStrengthIsRefused) {
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        if (!function().arguments[i].wish)
            continue;
        for (const double share : {0.00001, 0.4, 0.99999})
            expect_refused(i, share);
        const Outcome outcome = with_value(i, 0.4);
        ASSERT_FALSE(outcome.reasons.empty());
        EXPECT_NE(outcome.reasons.back().sentence.find("40, not 0.40"), std::string::npos)
            << outcome.reasons.back().sentence;
        expect_in_range(i, 1.0);
    }
}
TEST(LimitErrors, StandAtTheEndsOfRanges) {
    for (const LimitError& known : limit_errors) {
        SCOPED_TRACE(std::string(known.function) + " " + std::string(known.argument));
        bool found = false;
        for (const auto& function : catalogue::functions())
            for (const auto& argument : function.arguments)
                if (function.name == "SPIRIT." + std::string(known.function) &&
                    argument.name == known.argument)
                    found = known.value == argument.lowest || known.value == argument.highest ||
                            (argument.wish && known.value == 1.0);
        EXPECT_TRUE(found);
    }
}
JARBOOK_FOR_FUNCTIONS(Limits, functions_with_arguments());

} // namespace
} // namespace jarbook::e2e
