#include "support/function_test.hpp"

namespace jarbook::e2e {

void FunctionTest::enter_cells(const catalogue::Example& example) {
    for (const auto& [column, values] : example.cells)
        for (std::size_t row = 0; row < values.size(); ++row) {
            office::Cell target = cell(std::string(column) + std::to_string(row + 1));
            if (const double* number = std::get_if<double>(&values[row]))
                target.set_number(*number);
            else if (const auto text = std::get<std::string_view>(values[row]); !text.empty())
                target.set_text(std::string(text));
        }
}

Call FunctionTest::start_from_example() {
    const catalogue::Example& example = working_example(function());
    enter_cells(example);
    return Call::parse(example.call);
}

bool FunctionTest::is_list(std::size_t position) const {
    const auto kind = function().arguments[position].kind;
    return kind == catalogue::Kind::list || kind == catalogue::Kind::rows ||
           kind == catalogue::Kind::words;
}

bool FunctionTest::answers_row_by_row() const {
    for (const auto& argument : function().arguments)
        if (argument.kind == catalogue::Kind::rows)
            return true;
    return false;
}

std::vector<std::size_t> FunctionTest::list_positions(const Call& call) const {
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < call.arguments.size(); ++i)
        if (is_list(i) && ColumnReference::is_one(call.arguments[i]))
            result.push_back(i);
    return result;
}

std::string function_test_name(const testing::TestParamInfo<const catalogue::Function*>& info) {
    return std::string(info.param->method);
}

} // namespace jarbook::e2e
