// Words that a person types into a cell.
#pragma once

#include <string>
#include <string_view>

namespace jarbook {

// A word as it is compared: without spaces, in lower case, in every locale alike. Letters and
// spaces outside ASCII stay as they are.
std::string folded(std::string_view word);

} // namespace jarbook
