// Calc's error codes as cells show them.
#pragma once

#include <cstdint>
#include <string>

namespace jarbook::menu {

// "#VALUE!", "Err:502", as cells show it in English.
std::string error_text(std::int32_t code);

} // namespace jarbook::menu
