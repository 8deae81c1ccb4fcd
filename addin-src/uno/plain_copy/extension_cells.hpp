// The cells of a document whose formulas need the extension.
#pragma once

#include "uno/document/progress.hpp"
#include "uno/formula/formula.hpp"

namespace jarbook::menu {

struct ExtensionCells {
    std::vector<Place> single; // plain formulas
    std::vector<Area> arrays;  // whole array formulas
};

ExtensionCells extension_cells(const FormulaReader& reader, Progress& progress);

} // namespace jarbook::menu
