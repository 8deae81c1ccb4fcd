// The catalogue against the office: what the function wizard shows, and the example calls entered
// as formulas.
#include <set>

#include "support/function_test.hpp"

namespace jarbook::e2e {
namespace {

const std::vector<office::FunctionDescription>& described_functions() {
    static const auto all = shared_office().function_descriptions();
    return all;
}

const office::FunctionDescription* description_of(std::string_view name) {
    for (const auto& function : described_functions())
        if (function.name == name)
            return &function;
    return nullptr;
}

class Wizard : public FunctionTest {};

TEST_P(Wizard, ShowsWhatTheCatalogueSays) {
    const auto* shown = description_of(function().name);
    ASSERT_NE(shown, nullptr) << "the wizard does not know " << function().name;
    EXPECT_NE(shown->description.find(function().summary), std::string::npos) << shown->description;
    EXPECT_EQ(shown->description.find("###"), std::string::npos) << shown->description;
    ASSERT_EQ(shown->arguments.size(), function().arguments.size());
    for (std::size_t i = 0; i < shown->arguments.size(); ++i) {
        const auto& argument = function().arguments[i];
        EXPECT_EQ(shown->arguments[i].name, argument.name);
        EXPECT_EQ(shown->arguments[i].description, argument.help);
        // Calc takes whatever is `any` in the IDL for optional, lists too.
        EXPECT_EQ(shown->arguments[i].optional, argument.optional || is_list(i)) << argument.name;
        EXPECT_EQ(shown->arguments[i].description.find("###"), std::string::npos);
        EXPECT_FALSE(shown->arguments[i].description.empty()) << argument.name;
    }
}
JARBOOK_FOR_FUNCTIONS(Wizard, all_functions());

TEST(WizardAsAWhole, HasNoFunctionOfOursThatTheCatalogueDoesNotDescribe) {
    std::set<std::string> known;
    for (const auto& function : catalogue::functions())
        known.emplace(function.name);
    std::size_t ours = 0;
    for (const auto& shown : described_functions())
        if (shown.name.rfind("SPIRIT.", 0) == 0) {
            ++ours;
            EXPECT_TRUE(known.count(shown.name)) << shown.name;
        }
    EXPECT_EQ(ours, known.size());
}

class Examples : public FunctionTest {
protected:
    void check_error(const catalogue::Example& example) {
        const Outcome outcome = evaluate("=" + std::string(example.call));
        EXPECT_TRUE(is_error(outcome, example.error));
        // One error among the cells of an array result has no reason of its own: it says that there
        // is nothing to show (#N/A).
        if (example.call.rfind(function().name, 0) != 0)
            return;
        // Text in a number's place is refused by the office before the function is called.
        const Call call = Call::parse(example.call);
        bool text_in_number = false;
        for (std::size_t i = 0; i < call.arguments.size(); ++i)
            text_in_number =
                text_in_number || (function().arguments[i].kind == catalogue::Kind::number &&
                                   !function().arguments[i].optional &&
                                   call.arguments[i].find('"') != std::string::npos);
        if (text_in_number)
            return;
        ASSERT_FALSE(outcome.reasons.empty()) << "no reason was captured";
        EXPECT_EQ(outcome.reasons.back().function, function().name);
        EXPECT_EQ(outcome.reasons.back().code, example.error);
    }

    void check_value(const office::Value& got, const catalogue::Value& expected, double tolerance) {
        const Outcome outcome{got, {}};
        if (const double* number = std::get_if<double>(&expected)) {
            EXPECT_TRUE(is_number(outcome, *number, tolerance));
        } else {
            EXPECT_EQ(office::describe(got),
                      office::describe(std::string(std::get<std::string_view>(expected))));
        }
    }
};

TEST_P(Examples, GiveInACellWhatTheCatalogueSays) {
    for (const auto& example : function().examples) {
        SCOPED_TRACE(std::string(example.call) + ", from: " + std::string(example.source));
        sheet().clear();
        enter_cells(example);
        if (example.error != 0) {
            check_error(example);
            continue;
        }
        ASSERT_FALSE(example.result.empty());
        const std::size_t columns = example.result.front().size();
        const Outcome first = evaluate("=" + std::string(example.call));
        check_value(first.value, example.result[0][0], example.tolerance);
        EXPECT_TRUE(first.reasons.empty()) << first;
        if (example.result.size() == 1 && columns == 1)
            continue;
        cell("Z1").clear();
        // One cell more each way: the result must end where the catalogue says.
        const auto all = evaluate_array("=" + std::string(example.call),
                                        static_cast<int>(example.result.size()) + 1,
                                        static_cast<int>(columns) + 1);
        for (std::size_t row = 0; row < example.result.size(); ++row)
            for (std::size_t column = 0; column < columns; ++column) {
                SCOPED_TRACE("row " + std::to_string(row + 1) + ", column " +
                             std::to_string(column + 1));
                check_value(all[row][column], example.result[row][column], example.tolerance);
            }
        const office::Value beyond = office::CellError{32767};
        EXPECT_EQ(all.back()[0], beyond) << "the result has more rows";
        // A single column is repeated over the columns of an array formula.
        if (columns > 1) {
            EXPECT_EQ(all[0].back(), beyond) << "the result has more columns";
        }
    }
}
JARBOOK_FOR_FUNCTIONS(Examples, all_functions());

} // namespace
} // namespace jarbook::e2e
