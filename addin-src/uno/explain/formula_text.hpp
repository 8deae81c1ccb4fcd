// A part of a formula as people type it.
#pragma once

#include <string>

namespace jarbook::menu {

// Takes away what nobody typed: the formula's own sheet before a reference, and `$`, both as far as
// they stand outside of texts and of names in quotation marks. `own_sheet` is the sheet's name.
std::string as_typed(const std::string& printed, const std::string& own_sheet);

} // namespace jarbook::menu
