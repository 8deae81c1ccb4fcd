#include "uno/document/error_text.hpp"

namespace jarbook::menu {

std::string error_text(std::int32_t code) {
    switch (code) {
    case 503:
        return "#NUM!";
    case 519:
        return "#VALUE!";
    case 521:
        return "#NULL!";
    case 524:
        return "#REF!";
    case 525:
        return "#NAME?";
    case 532:
        return "#DIV/0!";
    case 32767:
        return "#N/A";
    }
    return "Err:" + std::to_string(code);
}

} // namespace jarbook::menu
