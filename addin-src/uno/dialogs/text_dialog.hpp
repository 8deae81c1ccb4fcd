// A longer text to read.
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

namespace jarbook::menu {

void show_text(const Situation& situation, const Outcome& outcome);

} // namespace jarbook::menu
