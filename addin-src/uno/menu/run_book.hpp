// The Run book of a run log: its register of the runs, one row each.
#pragma once

#include "place.hpp"

#include <optional>
#include <string>

namespace jarbook::menu {

struct RunBook {
    sal_Int32 sheet = 0;
    Area rows;             // the register, its closing line the last row
    sal_Int32 end_row = 0; // the closing line, above which runs are entered
};

// The area of a name that belongs to the sheet alone.
std::optional<Area> named_area(const Document& document, sal_Int32 sheet, const char* name);

// The sheet whose names "register" and "register_end" say where the register is.
std::optional<RunBook> run_book_of(const Document& document);

// Enters a row for a run sheet, with the formulas that the pristine Run book has for its own run
// sheet, and the look of its row.
void enter_in_run_book(const Document& document, sal_Int32 run_sheet, const Document& pristine,
                       const RunBook& pristine_book, sal_Int32 pristine_run_sheet);

} // namespace jarbook::menu
