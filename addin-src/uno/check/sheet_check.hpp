// Everything on a sheet that is refused, and what is allowed but odd.
#pragma once

#include "uno/check/argument_checks.hpp"
#include "uno/explain/explainer.hpp"

namespace jarbook::menu {

// Errors first, by the cells where they began (which may be on another sheet); then what is odd,
// by cell. Reads the document and leaves it alone.
Findings check_sheet(const Context& context, const Document& document, sal_Int32 sheet);

} // namespace jarbook::menu
