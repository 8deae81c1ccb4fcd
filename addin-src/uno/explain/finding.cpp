#include "uno/explain/finding.hpp"

namespace jarbook::menu {

const char* kind_name(Finding::Kind kind) {
    switch (kind) {
    case Finding::Kind::passed_on:
        return "passed on";
    case Finding::Kind::error:
        return "error";
    case Finding::Kind::odd:
        return "odd";
    case Finding::Kind::empty:
        return "empty";
    case Finding::Kind::stale:
        return "stale";
    }
    return "";
}

} // namespace jarbook::menu
