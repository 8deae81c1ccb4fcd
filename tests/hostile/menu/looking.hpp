// What can be seen of a document before and after a command.
#pragma once

#include <string>

#include "office.hpp"

namespace jarbook::hostile {

// Formulas, names, undo steps, whether it counts as changed: what a command that only looks, or
// refuses, must leave alone. The first rows and sheets stand for all.
std::string content(office::Office& office, office::Document& document);

// Run sheets of a run log, and the runs that its register has a row for.
struct Runs {
    int sheets = 0;
    int registered = 0;
};
Runs runs_of(office::Office& office, office::Document& document);

// "C48": the volume of the first jar, by the name of the row above it; about there where names are
// gone.
std::string first_jar(const office::Sheet& sheet);

// Where the one begins to differ from the other.
std::string difference(const std::string& before, const std::string& after);

} // namespace jarbook::hostile
