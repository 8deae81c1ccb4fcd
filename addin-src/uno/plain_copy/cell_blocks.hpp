// Values of many cells, read and written in few calls.
#pragma once

#include "uno/document/cell_value.hpp"
#include "uno/plain_copy/extension_cells.hpp"

#include <vector>

namespace jarbook::menu {

// Cells below each other.
struct ValueRun {
    Place first;
    std::vector<Value> values;
};

// What the cells of the document show now.
std::vector<ValueRun> values_of(const Document& document, const ExtensionCells& cells,
                                Progress& progress);

// Writes the values in the place of formulas; array formulas must have been taken away.
void write_run(const Document& document, const ValueRun& run, Errors errors, Progress& progress);

} // namespace jarbook::menu
