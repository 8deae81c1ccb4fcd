// The workbooks under test: cells by the names that each sheet gives them.
#pragma once

#include "office.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace jarbook::e2e {

std::filesystem::path blank_run_log();
std::filesystem::path worked_example();

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

private:
    office::Sheet sheet_;
    std::map<std::string, std::string> names_;
};

// The formulas of a sheet's used area, row by row; constants as they are.
office::Rows<std::string> formulas(const office::Range& range);

} // namespace jarbook::e2e
