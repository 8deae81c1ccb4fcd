// The findings as a list, from which one gets to the cells.
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

namespace jarbook::menu {

// The dialog stays open while the person works on in the document. A new one takes the place of
// the one before.
void show_findings(const Situation& situation, const Outcome& outcome);

} // namespace jarbook::menu
