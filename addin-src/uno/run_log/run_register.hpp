// The register of a run log (the sheet Runs): one row for each run.
#pragma once

#include "uno/run_log/pristine_sheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace jarbook::menu {

struct Register {
    sal_Int32 sheet = 0;
    Area rows;             // its closing line the last row
    sal_Int32 end_row = 0; // the closing line, above which runs are entered
};

// The sheet whose names "register" and "register_end" say where the register is.
std::optional<Register> register_of(const Document& document);
// The same; throws Obstacle if there is none.
Register require_register(const Document& document);

// One run's row.
struct RegisterRow {
    sal_Int32 row = 0;
    std::optional<sal_Int32> run; // its sheet; nothing if that is gone
};
// Rows that hold formulas about a sheet, or did; others are a person's own.
std::vector<RegisterRow> register_rows(const Document& document, const Register& book);

// Enters a row for a run sheet. It says of it what the row of the run before says of that, cell by
// cell by the names of the run sheets, so that a person's own columns and the registers of earlier
// versions go on; the first row takes after the pristine register. The register's sheet must be
// unprotected. Throws Obstacle if the rows cannot be read.
void enter_in_register(const Document& document, sal_Int32 run_sheet,
                       const PristineSheet& pristine);

// Takes a row out. The register's sheet must be unprotected.
void remove_from_register(const Document& document, const Register& book, sal_Int32 row);

} // namespace jarbook::menu
