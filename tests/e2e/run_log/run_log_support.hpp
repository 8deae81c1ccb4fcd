// What the tests of the run log's commands share: calling them where a person would, and looking at
// what a sheet is made of.
#pragma once

#include "menu/menu_dispatch.hpp"
#include "menu/menu_support.hpp"
#include "workbooks/workbook.hpp"

#include <string>
#include <vector>

namespace jarbook::e2e {

// Selects cells of a sheet in the document's view: "C40:C42".
void select(const office::Document& document, const std::string& sheet, const std::string& cells);

// What a command of the menu came to, and what it says.
struct Said {
    bool done = false;
    std::string text;
};
Said call_command(const office::Document& document, const std::string& entry);
// The same with cells of a sheet selected.
Said call_at(const office::Document& document, const std::string& sheet, const std::string& cells,
             const std::string& entry);

testing::AssertionResult refused(const Said& said, const std::string& because);

std::vector<std::string> undo_titles(const office::Document& document);
void undo(const office::Document& document);
void redo(const office::Document& document);

bool is_protected(const office::Sheet& sheet);
// With a password; an empty one protects as the workbooks do.
void protect(const office::Sheet& sheet, const std::string& password);
void unprotect(const office::Sheet& sheet, const std::string& password);

// Page style, print areas, repeated rows, in one line.
std::string page_of(const office::Sheet& sheet);
// Rows and columns that are hidden: "8-12 20-21 P Q".
std::string hidden_of(const office::Sheet& sheet);

// Each chart of a sheet, from 0 on, as it is drawn: the bytes of a PNG.
std::vector<std::string> pictures_of_charts(const office::Document& document, int index);

void remove_sheet(const office::Document& document, const std::string& name);
// As a person duplicates a sheet.
void duplicate_sheet(const office::Document& document, const std::string& name,
                     const std::string& copy);
void remove_local_names(const office::Sheet& sheet);
// Names of a sheet whose cells are gone.
void point_nowhere(const office::Sheet& sheet, const std::vector<std::string>& names);

// The sheet on which the runs are registered.
std::string register_sheet(const office::Document& document);

// Row and column letters of a named block: {first row, last row}, counted as a person does.
std::pair<int, int> rows_of(const NamedSheet& sheet, const std::string& name);
std::string column_of(const NamedSheet& sheet, const std::string& name);

// These amounts, mL, one jar a row from the first on, 0 for a blank row; readings and temperatures
// follow from the amount, so that a jar is the same jar wherever it is typed.
void type_jars(const office::Document& document, const std::string& sheet,
               const std::vector<double>& amounts);
// What a run needs before its jars.
void fill_charge(const office::Document& document, const std::string& sheet);

// Where two tables of contents differ, the first few; empty if they do not.
std::string describe_differences(const office::Rows<std::variant<double, std::string>>& one,
                                 const office::Rows<std::variant<double, std::string>>& other);

} // namespace jarbook::e2e
