// Names that belong to one sheet alone: where a run sheet and the register keep what.
#pragma once

#include "uno/document/cell_address.hpp"

#include <optional>
#include <string>
#include <vector>

namespace jarbook::menu {

struct SheetName {
    std::string name;
    Area area;
};

// The area of a name of that sheet; nothing if there is none or its cells are gone.
std::optional<Area> named_area(const Document& document, sal_Int32 sheet, const char* name);

// All of them that name an area.
std::vector<SheetName> sheet_names(const Document& document, sal_Int32 sheet);

// Adds them; one that is there, but names other cells or none, is moved.
void set_sheet_names(const Document& document, sal_Int32 sheet,
                     const std::vector<SheetName>& wanted);

sal_Int32 sheet_count(const Document& document);

} // namespace jarbook::menu
