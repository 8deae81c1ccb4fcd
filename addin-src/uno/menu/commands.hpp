// What the entries of the menu do, one function each.
#pragma once

#include "uno/dialogs/outcome.hpp"
#include "uno/dialogs/situation.hpp"

namespace jarbook::menu {

// open_commands.cpp
Outcome new_run_log(const Situation& situation, const Request& request);
Outcome worked_example(const Situation& situation, const Request& request);
Outcome function_reference(const Situation& situation, const Request& request);
Outcome printed_tables(const Situation& situation, const Request& request);

// run_command.cpp
Outcome add_run(const Situation& situation, const Request& request);
Outcome insert_jar(const Situation& situation, const Request& request);
Outcome mend_boxes(const Situation& situation, const Request& request);
Outcome remove_run(const Situation& situation, const Request& request);

// shelf_commands.cpp
Outcome take_from_shelf(const Situation& situation, const Request& request);
Outcome add_to_shelf(const Situation& situation, const Request& request);

// error_commands.cpp
Outcome why_error(const Situation& situation, const Request& request);
Outcome check_this_sheet(const Situation& situation, const Request& request);
Outcome recalculate(const Situation& situation, const Request& request);

// copy_command.cpp
Outcome plain_copy(const Situation& situation, const Request& request);

// about_command.cpp
Outcome about(const Situation& situation, const Request& request);

} // namespace jarbook::menu
