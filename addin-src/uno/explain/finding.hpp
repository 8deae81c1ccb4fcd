// What Why this error? and Check this sheet find: a cell, and what is wrong there.
#pragma once

#include "uno/document/cell_address.hpp"

#include <optional>
#include <string>
#include <vector>

namespace jarbook::menu {

struct Finding {
    enum class Kind {
        passed_on, // the error came from another cell, which follows
        error,     // the error began here
        odd,       // allowed, but look
        empty,     // an argument refers to an empty cell
        stale,     // shows an error that computing it again does not give
    };
    Place place;
    Kind kind = Kind::error;
    std::string function; // SPIRIT.STRENGTH; empty where it is none of ours
    std::string argument;
    std::string value;
    std::string sentence;
    sal_Int32 code = 0; // error code of the cell
    // The cell to correct, where that is another one: the box from which the value comes.
    std::optional<Place> input = {};
};
using Findings = std::vector<Finding>;

// "error", "odd", …: as the service org.jarbook.Inspector calls them.
const char* kind_name(Finding::Kind kind);

} // namespace jarbook::menu
