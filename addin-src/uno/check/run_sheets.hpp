// What is the matter with a run sheet, or with the register of the runs, apart from its figures.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/explain/finding.hpp"

namespace jarbook::menu {

// On a run sheet: boxes that a paste has harmed, lost names, a missing row in the register. On the
// register: rows of sheets that are gone, run sheets without a row. Nothing on other sheets. Reads
// the document and leaves it alone.
Findings check_run_sheet(const Context& context, const Document& document, sal_Int32 sheet);

} // namespace jarbook::menu
