// A further run sheet in a run log.
#pragma once

#include "uno/document/hidden_document.hpp"

#include <optional>
#include <string>

namespace jarbook::menu {

// What adding a run means where the cursor stands.
struct RunToAdd {
    std::string register_name; // of the sheet that holds the register
    // A run sheet that has no row in the register (duplicated or brought in by hand): only its row
    // is added. Its index and name.
    std::optional<sal_Int32> sheet;
    std::string name;
};

// Throws Obstacle where no run can be added: no register, a shared document, a protected structure.
RunToAdd run_to_add(const Document& document, sal_Int32 cursor_sheet);

struct AddedRun {
    std::string name;         // of the sheet
    Place title;              // the run's title on it
    sal_Int32 rows_in_view;   // that stay in view, as on the other run sheets
    std::string carried_from; // the sheet whose still and instruments it has; empty if none
    bool earlier_log = false; // begun with Jarbook 0.1.0
};

// Adds the pristine run sheet of the packed template behind the last run sheet, names it, carries
// over what belongs to the still rather than to the run, and adds its row to the register.
// LibreOffice keeps no undo step for a sheet that comes from another document; steps from before
// would meet other sheets than they were recorded on, so the document's undo steps are dropped.
// What fails on the way leaves no sheet behind. Throws Obstacle.
AddedRun add_run_sheet(const Context& context, const Document& document);

// Adds the missing row of a run sheet, as one step of Undo. Throws Obstacle.
void add_register_row(const Context& context, const Document& document, sal_Int32 sheet);

} // namespace jarbook::menu
