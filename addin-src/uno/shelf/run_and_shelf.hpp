// From a run sheet to the shelf: what the run made becomes lots, what its charge used is taken from
// them.
#pragma once

#include "uno/document/cell_address.hpp"

#include <string>

namespace jarbook::menu {

struct Shelved {
    Place first;      // of the new rows
    std::string text; // what was entered, what was there already, what there is to look at
};

// Enters product, spare hearts and feints of the run as lots. What the shelf has of it already is
// not entered again. One step of Undo. Throws Obstacle where nothing is to be entered, and why.
Shelved add_to_shelf(const Document& document, sal_Int32 run_sheet);

// Enters, for each lot of the run's charge that is called as a lot of the shelf, what of it was
// charged. What is in the book already is not entered again. Undo and Obstacle likewise.
Shelved take_from_shelf(const Document& document, sal_Int32 run_sheet);

} // namespace jarbook::menu
