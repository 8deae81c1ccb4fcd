// A longer text to read.
#pragma once

#include "command.hpp"

namespace jarbook::menu {

void show_text(const Situation& situation, const Outcome& outcome);

} // namespace jarbook::menu
