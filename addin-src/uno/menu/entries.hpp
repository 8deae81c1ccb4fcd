// The entries of the menu: when each applies, and how it is called.
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

#include <string_view>
#include <vector>

namespace jarbook::menu {

struct Command {
    const char* name;       // after "org.jarbook.menu:"
    std::string_view title; // of its messages
    enum class Needs { nothing, sheet, changeable_sheet } needs;
    Outcome (*run)(const Situation& situation, const Request& request);
};

const std::vector<Command>& commands();
const Command* command(const rtl::OUString& name);

// Whether the command can be called here; greyed out otherwise.
bool applies(const Command& command, const Situation& situation);

// Calls it. Where it does not apply, where another is still at work, and where something goes
// wrong, the outcome says so; nothing is ever thrown.
Outcome run(const Command& command, const Situation& situation, const Request& request);

} // namespace jarbook::menu
