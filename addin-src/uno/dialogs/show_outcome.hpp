// Shows what a command came to: nothing, a short message, a longer text, or a list of findings.
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

namespace jarbook::menu {

void show(const Situation& situation, const Outcome& outcome);

// A question that can be answered with OK or Cancel.
bool confirmed(const Situation& situation, const std::string& title, const std::string& question);

} // namespace jarbook::menu
