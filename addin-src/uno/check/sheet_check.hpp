// Everything on a sheet that is refused, and what is allowed but odd.
#pragma once

#include "uno/document/hidden_document.hpp"
#include "uno/document/progress.hpp"
#include "uno/explain/finding.hpp"

namespace jarbook::menu {

// Errors first, by the cells where they began (which may be on another sheet), each with the cells
// that show it only because they use that one; then what is odd, by cell. Each cell in error stands
// in the list once. Reads the document and leaves it alone; the work grows with the cells.
Findings check_sheet(const Context& context, const Document& document, sal_Int32 sheet,
                     Progress& progress);

} // namespace jarbook::menu
