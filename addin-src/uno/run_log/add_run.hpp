// A further run sheet in a run log.
#pragma once

#include "uno/document/hidden_document.hpp"

#include <optional>
#include <string>

namespace jarbook::menu {

// Why no run can be added to the document; empty if one can.
std::string obstacle_to_run(const Document& document);

struct AddedRun {
    std::string name; // of the sheet
    Place title;      // the run's title on it
    std::string register_sheet;
};

// Adds the pristine run sheet of the packed template behind the last run sheet, names it, and adds
// its row to the Run book. The office keeps no undo step for a sheet that comes from another
// document; steps from before would meet other sheets than they were recorded on, so the document's
// undo steps are dropped.
AddedRun add_run_sheet(const Context& context, const Document& document);

} // namespace jarbook::menu
