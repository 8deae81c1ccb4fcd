// Taking a run out of a run log: its sheet, and its row in the register.
#pragma once

#include "uno/document/hidden_document.hpp"

#include <optional>
#include <string>

namespace jarbook::menu {

// What would be removed.
struct RunToRemove {
    std::optional<sal_Int32> sheet; // nothing: only the row of a sheet that is gone
    std::string name;               // of the sheet
    std::optional<sal_Int32> row;   // in the register
    std::string register_name;      // of its sheet; empty if there is none
    std::size_t users = 0;          // cells of other sheets, not of the register, that refer to it
    std::optional<Place> first_user;
};

// What is meant where the cursor stands: the run of that sheet, or, on the register, the row of a
// run that is gone. Throws Obstacle where it is neither, and where it must not be removed: the last
// run, a protected structure, a shared document.
RunToRemove run_to_remove(const Context& context, const Document& document, const Place& cursor);

// Removes it. A sheet is removed for good (Undo would not bring back what others refer to), so the
// document's undo steps are dropped; a row alone is one step of Undo.
void remove_run(const Document& document, const RunToRemove& run);

} // namespace jarbook::menu
