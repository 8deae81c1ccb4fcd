// Lists of cells, as a sheet hands them over, and the rows that belong together in them.
//
// A list is one row or one column of cells. In lists that belong together a row that is blank in
// all of them is skipped; a row blank in one only, or holding text where a number belongs, is
// refused with its number, counted from 1 at the list's first cell, blanks included.
#pragma once

#include "core/base/refusal.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace jarbook {

// Blank (empty, or empty text), a number, or text.
using Cell = std::variant<std::monostate, double, std::string>;

inline bool is_blank(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell))
        return text->empty();
    return std::holds_alternative<std::monostate>(cell);
}

struct Column {
    std::string name; // the argument's name in the contract
    std::vector<Cell> cells;
};

// The number in a row (counted from 0). Refuses text and blanks by name and row.
[[noreturn]] void refuse_no_number(const Column& column, std::size_t row);
inline double number_in(const Column& column, std::size_t row) {
    if (const auto* number = std::get_if<double>(&column.cells[row]))
        return *number;
    refuse_no_number(column, row);
}

// The number in a row, in lowest...highest (HUGE_VAL: no end; infinity itself never), or an amount
// (refusal.hpp), refused by argument and row.
double number_in_range(const Column& column, std::size_t row, double lowest, double highest,
                       std::string_view unit, std::string_view hint = "");
double amount_in(const Column& column, std::size_t row);

// The text in a row, refused likewise.
const std::string& text_in(const Column& column, std::size_t row);

// A row of a list (from 0), for refusals.
inline ArgumentPlace row_of(const Column& column, std::size_t row) {
    return {column.name, row};
}
// The same, but of a list of one cell the name alone.
inline ArgumentPlace place_of(const Column& column, std::size_t row) {
    return column.cells.size() == 1 ? ArgumentPlace(column.name) : row_of(column, row);
}
// Refuses a row that is blank in `blank` and filled in the other list.
[[noreturn]] void refuse_incomplete(const Column& blank, std::string_view filled, std::size_t row);

// Indices of the rows in which nothing is blank. Refuses lists of unequal length and rows that are
// blank in some only.
std::vector<std::size_t> rows_in_common(const std::vector<const Column*>& columns);

} // namespace jarbook
