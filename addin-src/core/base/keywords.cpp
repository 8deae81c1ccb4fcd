#include "core/base/keywords.hpp"

namespace jarbook {

std::string folded(std::string_view word) {
    constexpr std::string_view spaces = " \t\n\v\f\r";
    std::string result;
    for (const char c : word) {
        // Not tolower and isspace: those go by the locale of the process.
        if (c >= 'A' && c <= 'Z')
            result.push_back(static_cast<char>(c - 'A' + 'a'));
        else if (spaces.find(c) == std::string_view::npos)
            result.push_back(c);
    }
    return result;
}

} // namespace jarbook
