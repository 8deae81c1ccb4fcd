// Sentences about errors that are Calc's own.
#pragma once

#include "uno/document/cell_value.hpp"

namespace jarbook::menu {

// What an error of Calc means in general; ends with a full stop.
std::string meaning_of(sal_Int32 code);

// About a name that the office does not know; tells the nearest of our functions if it is near.
std::string unknown_name(const std::string& name, bool called);

// A hint for text in the place of a number: a decimal comma, a unit beside the number. May be
// empty.
std::string text_hint(const std::string& text);

} // namespace jarbook::menu
