// Everything on a sheet that is refused, and what is allowed but odd.
#pragma once

#include "explainer.hpp"
#include "odd_arguments.hpp"

namespace jarbook::menu {

// Errors first, by the cells where they began (which may be on another sheet); then what is odd,
// by cell. Works on a copy of the document.
Findings check_sheet(const Document& copy, const OpCodes& codes, sal_Int32 sheet);

} // namespace jarbook::menu
