// A call of a cell function, taken apart.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "catalogue.hpp"

namespace jarbook::e2e {

struct Call {
    std::string name;
    std::vector<std::string> arguments;

    // Takes SPIRIT.STRENGTH(50;10) apart: separators count outside of brackets and quotes only.
    static Call parse(std::string_view text);
    // "=SPIRIT.STRENGTH(50;10)"
    std::string formula() const;
    // The same call with one argument exchanged; arguments before it that were not given are left
    // empty, which is as good as left out.
    Call with(std::size_t index, const std::string& argument) const;
};

// A reference to cells of one column from row 1: "A1:A3" or "A1".
struct ColumnReference {
    char column = 'A';
    int rows = 1;

    static bool is_one(std::string_view argument);
    static ColumnReference parse(std::string_view argument);
    std::string text() const;
};

// An example of the function that gives a result, and takes lists from the cells of a column.
const catalogue::Example& working_example(const catalogue::Function& function);

// For tests that run over functions.
std::vector<const catalogue::Function*> all_functions();
std::vector<const catalogue::Function*> functions_with_arguments();

} // namespace jarbook::e2e
