// A range of a sheet as a table of plain text.
#pragma once

#include <string>

#include "document.hpp"

namespace jarbook::office {

// One line a row, columns aligned: numbers to the right, the rest to the left. Rows and columns
// without any content are left out. A text of several lines fills several lines.
std::string text_table(const Rows<Value>& values, const Rows<std::string>& texts);
// The same of a range as it stands, with its number formats.
std::string text_table(const Range& range);

} // namespace jarbook::office
