#include "core/base/keywords.hpp"

#include <cctype>

namespace jarbook {

std::string folded(std::string_view word) {
    std::string result;
    for (const unsigned char c : word)
        if (!std::isspace(c))
            result.push_back(static_cast<char>(std::tolower(c)));
    return result;
}

} // namespace jarbook
