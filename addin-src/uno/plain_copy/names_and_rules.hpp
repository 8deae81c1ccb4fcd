// What is no cell but needs the extension: names, conditional formats, validity rules.
#pragma once

#include "uno/formula/formula.hpp"

namespace jarbook::menu {

// Removes named expressions that need the extension; gives their names.
std::vector<std::string> remove_names(const FormulaReader& reader);

// Sheets whose conditional formats or validity rules use our functions or such names, in a
// sentence; empty if there are none. They cannot hold a value; a copy keeps them as they are.
std::string remarks_on_rules(const FormulaReader& reader);

} // namespace jarbook::menu
