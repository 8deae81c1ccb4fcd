// A test that runs for every function of the catalogue.
#pragma once

#include "catalogue.hpp"
#include "support/call.hpp"
#include "support/support.hpp"

namespace jarbook::e2e {

class FunctionTest : public CalcTest,
                     public testing::WithParamInterface<const catalogue::Function*> {
protected:
    const catalogue::Function& function() const { return *GetParam(); }
    // Writes the example's cells into the sheet.
    void enter_cells(const catalogue::Example& example);
    // Enters the function's working example and returns its call, ready to be varied.
    Call start_from_example();
    // The list arguments that a call gives as columns, by position.
    std::vector<std::size_t> list_positions(const Call& call) const;
    // Whether ranges are answered row by row, each with its own error: test_columns.cpp.
    bool answers_row_by_row() const;
    bool is_list(std::size_t position) const;
};

// GoogleTest's name of a test: the method's name.
std::string function_test_name(const testing::TestParamInfo<const catalogue::Function*>& info);

#define JARBOOK_FOR_FUNCTIONS(suite, functions)                                                    \
    INSTANTIATE_TEST_SUITE_P(Catalogue, suite, testing::ValuesIn(functions), function_test_name)

} // namespace jarbook::e2e
