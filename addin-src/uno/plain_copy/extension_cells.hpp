// The cells of a document whose formulas need the extension.
#pragma once

#include "uno/formula/formula.hpp"

namespace jarbook::menu {

struct ExtensionCells {
    std::vector<Place> single; // plain formulas
    std::vector<Area> arrays;  // whole array formulas
};

ExtensionCells extension_cells(const FormulaReader& reader);

} // namespace jarbook::menu
