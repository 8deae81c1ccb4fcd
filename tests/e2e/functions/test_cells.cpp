// What can stand in a cell that an argument refers to: nothing, text, an error, more cells than
// one, lists that do not fit.
#include "support/function_test.hpp"

namespace jarbook::e2e {
namespace {

constexpr int not_a_number = 519;
constexpr int division_by_zero = 532;

class Cells : public FunctionTest {
protected:
    bool is_number_argument(std::size_t i) const {
        return function().arguments[i].kind == catalogue::Kind::number;
    }
};

TEST_P(Cells, AnEmptyCellIsTheSameAsZeroForANumber) {
    const Call call = start_from_example();
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        if (!is_number_argument(i))
            continue;
        SCOPED_TRACE(std::string(function().arguments[i].name));
        cell("Y1").set_number(0);
        EXPECT_TRUE(is_same(evaluate(call.with(i, "Y2").formula()),
                            evaluate(call.with(i, "Y1").formula())));
    }
}

TEST_P(Cells, AnOptionalArgumentLeftOutIsTheSameAsNotGiven) {
    const Call call = start_from_example();
    const Outcome plain = evaluate(call.formula());
    ASSERT_EQ(plain.error(), 0) << plain;
    for (std::size_t i = call.arguments.size(); i < function().arguments.size(); ++i) {
        SCOPED_TRACE(std::string(function().arguments[i].name));
        ASSERT_TRUE(function().arguments[i].optional);
        EXPECT_TRUE(is_same(evaluate(call.with(i, "").formula()), plain));
    }
}

TEST_P(Cells, ARequiredListLeftOutIsRefused) {
    const Call call = start_from_example();
    for (std::size_t i = 0; i < call.arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        if (!is_list(i) || argument.optional)
            continue;
        SCOPED_TRACE(std::string(argument.name));
        const Outcome outcome = evaluate(call.with(i, "").formula());
        EXPECT_TRUE(is_error(outcome, not_a_number));
        EXPECT_NE(outcome.reason_about(std::string(argument.name)), nullptr) << outcome;
    }
}

TEST_P(Cells, TextInThePlaceOfANumberIsRefused) {
    const Call call = start_from_example();
    cell("Y1").set_text("hearts");
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        if (!is_number_argument(i))
            continue;
        const auto& argument = function().arguments[i];
        SCOPED_TRACE(std::string(argument.name));
        const Outcome outcome = evaluate(call.with(i, "Y1").formula());
        EXPECT_TRUE(is_error(outcome, not_a_number));
        // Text for a required number is refused by the office without a call.
        if (argument.optional) {
            EXPECT_NE(outcome.reason_about(std::string(argument.name)), nullptr) << outcome;
        }
    }
}

TEST_P(Cells, TextInAListIsRefusedAndItsRowNamed) {
    if (answers_row_by_row())
        return;
    const Call call = start_from_example();
    const Outcome plain = evaluate(call.formula());
    for (const std::size_t i : list_positions(call)) {
        const auto& argument = function().arguments[i];
        SCOPED_TRACE(std::string(argument.name));
        const auto list = ColumnReference::parse(call.arguments[i]);
        const std::string last = std::string(1, list.column) + std::to_string(list.rows);
        const office::Value before = cell(last).value();
        cell(last).set_text("half a jar");
        const Outcome outcome = evaluate(call.formula());
        EXPECT_TRUE(is_error(outcome, not_a_number));
        const Reason* reason = outcome.reason_about(std::string(argument.name));
        ASSERT_NE(reason, nullptr) << outcome;
        EXPECT_NE(reason->sentence.find("row " + std::to_string(list.rows)), std::string::npos)
            << reason->sentence;
        if (const double* number = std::get_if<double>(&before))
            cell(last).set_number(*number);
        else
            cell(last).set_text(std::get<std::string>(before));
        EXPECT_TRUE(is_same(evaluate(call.formula()), plain));
    }
}

TEST_P(Cells, AnErrorInAnArgumentIsNeverANumber) {
    const Call call = start_from_example();
    cell("Y1").set_formula("=1/0");
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        SCOPED_TRACE(std::string(function().arguments[i].name));
        EXPECT_TRUE(is_error(evaluate(call.with(i, "Y1").formula()), division_by_zero));
    }
}

TEST_P(Cells, AnErrorWithinAListIsNeverANumber) {
    const Call call = start_from_example();
    for (const std::size_t i : list_positions(call)) {
        sheet().clear();
        start_from_example();
        const auto list = ColumnReference::parse(call.arguments[i]);
        cell(std::string(1, list.column) + "1").set_formula("=1/0");
        EXPECT_NE(evaluate(call.formula()).error(), 0) << function().arguments[i].name;
    }
}

TEST_P(Cells, ARowThatIsBlankInAllListsIsSkipped) {
    const Call call = start_from_example();
    const auto lists = list_positions(call);
    if (lists.empty())
        return;
    const Outcome plain = evaluate(call.formula());
    ASSERT_EQ(plain.error(), 0) << plain;
    Call longer = call;
    for (const std::size_t i : lists) {
        auto list = ColumnReference::parse(call.arguments[i]);
        list.rows += 2;
        longer.arguments[i] = list.text();
        // Empty text, as a formula =IF(...;"") leaves it, is as blank as an empty cell.
        cell(std::string(1, list.column) + std::to_string(list.rows)).set_formula("=\"\"");
    }
    const Outcome outcome = evaluate(longer.formula());
    EXPECT_TRUE(is_same(outcome, plain));
    EXPECT_TRUE(outcome.reasons.empty()) << outcome;
}

TEST_P(Cells, ARowThatIsBlankInOneListIsRefusedAndNamed) {
    if (answers_row_by_row())
        return;
    const Call call = start_from_example();
    const auto lists = list_positions(call);
    if (lists.size() < 2)
        return;
    for (const std::size_t blank : lists) {
        sheet().clear();
        start_from_example();
        const auto list = ColumnReference::parse(call.arguments[blank]);
        if (list.rows < 2)
            continue; // a single cell is no list with a blank in it
        if (function().arguments[blank].blanks)
            continue; // there a blank has a meaning
        cell(std::string(1, list.column) + "2").clear();
        const Outcome outcome = evaluate(call.formula());
        SCOPED_TRACE(std::string(function().arguments[blank].name));
        EXPECT_TRUE(is_error(outcome, not_a_number));
        ASSERT_FALSE(outcome.reasons.empty()) << "no reason was captured";
        EXPECT_NE(outcome.reasons.back().sentence.find("row 2"), std::string::npos)
            << outcome.reasons.back().sentence;
    }
}

TEST_P(Cells, ListsOfUnequalLengthAreRefused) {
    const Call call = start_from_example();
    const auto lists = list_positions(call);
    if (lists.size() < 2)
        return;
    for (const std::size_t i : lists) {
        auto list = ColumnReference::parse(call.arguments[i]);
        // One value of an optional list serves all rows.
        if (list.rows < 2 || (list.rows == 2 && function().arguments[i].optional))
            continue;
        list.rows -= 1;
        SCOPED_TRACE(std::string(function().arguments[i].name));
        const Outcome outcome = evaluate(call.with(i, list.text()).formula());
        EXPECT_TRUE(is_error(outcome, not_a_number));
        EXPECT_FALSE(outcome.reasons.empty()) << "no reason was captured";
    }
}

TEST_P(Cells, ARowOfCellsIsAsGoodAsAColumn) {
    const Call call = start_from_example();
    const auto lists = list_positions(call);
    if (lists.empty())
        return;
    const Outcome plain = evaluate(call.formula());
    Call across = call;
    int line = 31;
    for (const std::size_t i : lists) {
        const auto list = ColumnReference::parse(call.arguments[i]);
        const std::string row = std::to_string(line++);
        for (int r = 1; r <= list.rows; ++r) {
            const std::string from = std::string(1, list.column) + std::to_string(r);
            cell(std::string(1, static_cast<char>('A' + r - 1)) + row).set_formula("=" + from);
        }
        across.arguments[i] = "A" + row + ":" + static_cast<char>('A' + list.rows - 1) + row;
    }
    const Outcome outcome = evaluate(across.formula());
    EXPECT_TRUE(is_same(outcome, plain));
}

TEST_P(Cells, ARangeInThePlaceOfAnOptionalNumberIsRefused) {
    const Call call = start_from_example();
    sheet().range("X1:X2").set_values({{15.0}, {20.0}});
    for (std::size_t i = 0; i < function().arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        if (!argument.optional || !is_number_argument(i))
            continue;
        SCOPED_TRACE(std::string(argument.name));
        const Outcome outcome = evaluate(call.with(i, "X1:X2").formula());
        EXPECT_TRUE(is_error(outcome, not_a_number));
        EXPECT_NE(outcome.reason_about(std::string(argument.name)), nullptr) << outcome;
    }
}

TEST_P(Cells, RequiredNumbersMapOverRowsInAnArrayFormula) {
    const Call call = start_from_example();
    for (std::size_t i = 0; i < call.arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        if (argument.optional || !is_number_argument(i))
            continue;
        bool with_lists = !list_positions(call).empty();
        if (with_lists || working_example(function()).result.size() > 1)
            continue; // lists and columns of results have their own shape
        SCOPED_TRACE(std::string(argument.name));
        cell("X1").set_formula("=" + call.arguments[i]);
        cell("X2").set_formula("=X1*1.0001");
        const Outcome first = evaluate(call.with(i, "X1").formula());
        const Outcome second = evaluate(call.with(i, "X2").formula());
        cell("Z1").clear();
        const auto both = evaluate_array(call.with(i, "X1:X2").formula(), 2);
        EXPECT_EQ(both[0][0], first.value);
        EXPECT_EQ(both[1][0], second.value);
    }
}
JARBOOK_FOR_FUNCTIONS(Cells, functions_with_arguments());

} // namespace
} // namespace jarbook::e2e
