// References in the text of a formula, as the API gives it: found, moved, told apart.
#pragma once

#include "uno/document/cell_address.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jarbook::menu {

// One corner: $'Run 1'.$B3.
struct CellReference {
    std::size_t begin = 0; // of the whole, its sheet included
    std::size_t cell = 0;  // of "$B3"
    std::size_t end = 0;
    std::optional<std::string> sheet; // unquoted; of the first corner of a range only
    bool column_fixed = false;
    bool row_fixed = false;
    sal_Int32 column = 0;
    sal_Int32 row = 0;
};

// From left to right; what stands in quoted texts is none, nor are names of functions.
std::vector<CellReference> cell_references(std::string_view formula);

// The same formula with other rows behind fixed and free references.
std::string with_rows(const std::string& formula,
                      const std::function<sal_Int32(sal_Int32)>& row_of);

// The formula with free references written as steps from that cell, so that two formulas are equal
// if one is a copy of the other to another cell.
std::string seen_from(const std::string& formula, const Place& cell);

// "$'Run 1'." as formulas of other sheets begin a reference to it.
std::string sheet_prefix(const std::string& sheet);

} // namespace jarbook::menu
