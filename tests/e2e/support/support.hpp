// What the tests through a real Calc share: one office for the program, a sheet to work on, and a
// formula's outcome together with the reasons that the add-in captured.
#pragma once

#include <gtest/gtest.h>
#include <iosfwd>
#include <optional>
#include <org/jarbook/Reason.hpp>
#include <string>
#include <vector>

#include "office.hpp"

namespace jarbook::e2e {

struct Reason {
    std::string function;
    std::string argument;
    std::string value;
    std::string sentence;
    int code = 0;
};

struct Outcome {
    office::Value value;
    std::vector<Reason> reasons; // captured while it was computed

    // 0 where there is no error.
    int error() const;
    // Whether a reason names the argument.
    const Reason* reason_about(const std::string& argument) const;
};
std::ostream& operator<<(std::ostream& out, const Outcome& outcome);

// The locale of this run: en-US, or what the variable JARBOOK_TEST_LOCALE says.
std::string test_locale();
bool comma_decimal();

// The program's office, with the extension installed; started by the first test that asks. A test
// program links main.cpp, which ends it.
office::Office& shared_office();
void end_shared_office();

// A test with an empty sheet, in a document that the program's tests share.
class CalcTest : public testing::Test {
protected:
    void SetUp() override;

    office::Sheet& sheet();
    office::Cell cell(const std::string& address) { return sheet().cell(address); }
    // Enters the formula in a cell and computes it.
    Outcome evaluate(const std::string& formula, const std::string& address = "Z1");
    // The same as an array formula over rows x columns from Z1.
    office::Rows<office::Value> evaluate_array(const std::string& formula, int rows,
                                               int columns = 1);
};

// The reasons captured so far, and forgetting them.
std::vector<Reason> captured_reasons();
void forget_reasons();

testing::AssertionResult is_number(const Outcome& outcome, double expected, double tolerance);
testing::AssertionResult is_error(const Outcome& outcome, int code);
// The same number to the last bit, text or error.
testing::AssertionResult is_same(const Outcome& outcome, const Outcome& other);

} // namespace jarbook::e2e
