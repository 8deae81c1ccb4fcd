// The workbooks under test: cells by the names that each sheet gives them.
#pragma once

#include "office.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace jarbook::e2e {

// Opened from a copy: an office locks the file that it opens, and tests run side by side.
office::Document open_blank_run_log();
office::Document open_worked_example();

// The names local to a sheet and the address of each, "K27" or "R5:T15".
std::map<std::string, std::string> local_names(const office::Sheet& sheet);

// One sheet of a workbook with its named cells.
class NamedSheet {
public:
    NamedSheet(const office::Document& document, const std::string& name);
    const office::Sheet& sheet() const { return sheet_; }
    // Throws on a name that the sheet does not have.
    office::Cell operator[](const std::string& name) const;
    std::string address(const std::string& name) const;
    // Row of a named cell as a person counts, and the text of the cell "column, row".
    int row(const std::string& name) const;
    office::Cell at(const std::string& column, int row) const;
    // A cell of a named column, such as jar_reading, counted from 0 downwards.
    office::Cell in_column(const std::string& name, std::size_t i) const;

private:
    office::Sheet sheet_;
    std::map<std::string, std::string> names_;
};

// The formulas of a range, row by row; constants as they are.
office::Rows<std::string> formulas(const office::Range& range);
// The same of values, numbers and texts only: a blank is an empty text, an error a NaN.
office::Rows<std::variant<double, std::string>> contents(const office::Range& range);
// Where a range shows errors: "'Run 1'.S34:S36", or nothing.
std::string errors(const office::Range& range);

} // namespace jarbook::e2e
