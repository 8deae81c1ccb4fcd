#include "core/base/lists.hpp"

#include "core/base/refusal.hpp"

#include <cmath>

namespace jarbook {

std::string row_text(const Column& column, std::size_t row) {
    return "row " + std::to_string(row + 1) + " of " + column.name;
}

std::string place_of(const Column& column, std::size_t row) {
    return column.cells.size() == 1 ? column.name : row_text(column, row);
}

void refuse_no_number(const Column& column, std::size_t row) {
    const Cell& cell = column.cells[row];
    if (is_blank(cell))
        refuse(RefusalKind::not_a_number, column.name, "blank",
               row_text(column, row) + " is blank; a number belongs there");
    const auto& text = std::get<std::string>(cell);
    refuse(RefusalKind::not_a_number, column.name, text,
           row_text(column, row) + " is the text \"" + text + "\"; a number belongs there");
}

double number_in_range(const Column& column, std::size_t row, double lowest, double highest,
                       std::string_view unit, std::string_view hint) {
    const double value = number_in(column, row);
    // Written so that NaN fails; the text is made only when needed.
    if (!(value >= lowest && value <= highest) || std::isinf(value))
        refuse_range(column.name, value, lowest, highest, unit, hint, place_of(column, row));
    return value;
}

double amount_in(const Column& column, std::size_t row) {
    const double value = number_in(column, row);
    if (!is_amount(value))
        refuse_amount(column.name, value, place_of(column, row));
    return value;
}

const std::string& text_in(const Column& column, std::size_t row) {
    const Cell& cell = column.cells[row];
    if (const auto* text = std::get_if<std::string>(&cell); text && !text->empty())
        return *text;
    const auto* number = std::get_if<double>(&cell);
    const std::string shown = number ? number_text(*number) : "blank";
    refuse(RefusalKind::not_a_number, column.name, shown,
           row_text(column, row) + " is " + shown + "; a word belongs there");
}

std::vector<std::size_t> rows_in_common(const std::vector<const Column*>& columns) {
    const Column& first = *columns.front();
    for (const Column* column : columns) {
        if (column->cells.size() == first.cells.size())
            continue;
        refuse(RefusalKind::not_a_number, column->name, std::to_string(column->cells.size()),
               first.name + " has " + std::to_string(first.cells.size()) + " rows and " +
                   column->name + " has " + std::to_string(column->cells.size()) +
                   "; lists that belong together are of equal length");
    }
    std::vector<std::size_t> rows;
    rows.reserve(first.cells.size());
    for (std::size_t row = 0; row < first.cells.size(); ++row) {
        const Column* blank = nullptr;
        const Column* filled = nullptr;
        for (const Column* column : columns)
            (is_blank(column->cells[row]) ? blank : filled) = column;
        if (blank && filled)
            refuse(RefusalKind::not_a_number, blank->name, "blank",
                   row_text(*blank, row) + " is blank, but " + filled->name +
                       " has an entry in that row; fill it in, or clear the whole row");
        if (!blank)
            rows.push_back(row);
    }
    return rows;
}

} // namespace jarbook
