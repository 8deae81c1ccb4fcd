#include "faults.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <gtest/gtest.h>

namespace jarbook::faults {

using namespace office;
namespace fs = std::filesystem;

namespace {

Rows<std::string> calls(int rows) {
    Rows<std::string> formulas;
    for (int row = 1; row <= rows; ++row) {
        const std::string number = std::to_string(row);
        formulas.push_back({"=SPIRIT.STRENGTH(" + std::to_string(10 + row % 80) + ";" +
                                std::to_string(12 + row % 20) + ")",
                            "=SPIRIT.PUREALCOHOL({1;2;3};{40;50;60})+" + number});
    }
    return formulas;
}

// Column B is plain to check: 2/5 + 1 + 9/5 L, and the row; column A must lie beside its reading.
bool is_result(int row, int column, const Value& value) {
    const auto* number = std::get_if<double>(&value);
    if (!number)
        return false;
    if (column == 1)
        return std::fabs(*number - (3.2 + row)) < 1e-9;
    return std::fabs(*number - (10 + row % 80)) < 8.0 && *number != 0.0;
}

enum class Expected { result, error, either };

void expect(Document& document, int rows, Expected expected) {
    const Range range = document.sheet().range("A1:B" + std::to_string(rows));
    const Rows<Value> values = range.values();
    int wrong = 0;
    for (int row = 1; row <= rows; ++row)
        for (int column = 0; column < 2; ++column) {
            const Value& value = values[row - 1][column];
            const bool error = std::holds_alternative<CellError>(value);
            const bool fits = (expected != Expected::result && error) ||
                              (expected != Expected::error && is_result(row, column, value));
            if (!fits && ++wrong <= 3)
                ADD_FAILURE() << "row " << row << ", column " << column << " shows "
                              << describe(value);
        }
    EXPECT_EQ(wrong, 0);
    // The text of a formula survives whatever happens; without the extension in its stored
    // form, and in small letters.
    for (const int row : {1, rows}) {
        std::string formula = range.cell(0, row - 1).formula();
        std::transform(formula.begin(), formula.end(), formula.begin(), ::toupper);
        EXPECT_NE(formula.find("SPIRIT.STRENGTH("), std::string::npos) << formula;
        EXPECT_NE(formula.find(";" + std::to_string(12 + row % 20) + ")"), std::string::npos)
            << formula;
    }
}

} // namespace

Folder::Folder() {
    std::string name = (fs::temp_directory_path() / "jarbook-faults-XXXXXX").string();
    if (!mkdtemp(name.data()))
        throw std::runtime_error("no folder can be made: " + name);
    path_ = name;
}

Folder::~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
}

void expect_works(Document& document) {
    Cell cell = document.sheet().cell("Z1");
    cell.set_formula("=SPIRIT.STRENGTH(50;10)");
    const Value value = cell.value();
    ASSERT_TRUE(std::holds_alternative<double>(value)) << describe(value);
    EXPECT_NEAR(std::get<double>(value), 53.67, 0.005);
}

void fill_with_calls(Document& document, int rows) {
    document.sheet().range("A1:B" + std::to_string(rows)).set_formulas(calls(rows));
}

void expect_results(Document& document, int rows) {
    expect(document, rows, Expected::result);
}

void expect_results_or_errors(Document& document, int rows) {
    expect(document, rows, Expected::either);
}

void expect_errors(Document& document, int rows) {
    expect(document, rows, Expected::error);
}

} // namespace jarbook::faults
