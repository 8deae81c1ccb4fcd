// Sentences about errors that are Calc's own.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace jarbook::menu {

// What an error of Calc means in general; ends with a full stop.
std::string meaning_of(std::int32_t code);

// About a name that the office does not know; tells the nearest of our functions if it is near.
std::string unknown_name(const std::string& name, bool called);

// A hint for text in the place of a number: a decimal comma, a unit beside the number. May be
// empty.
std::string text_hint(const std::string& text);

// "A1 uses A2 uses A1", shortened where it is long.
std::string circle_text(const std::vector<std::string>& cells);

// A sentence with its full stop, and nothing behind it.
std::string finished(std::string sentence);

} // namespace jarbook::menu
