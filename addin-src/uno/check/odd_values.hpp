// When a value that is allowed looks odd.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace jarbook::menu {

// A strength written as 0.40 where 40 % vol is meant.
inline bool is_fraction(double strength) {
    return strength > 0.0 && strength < 1.0;
}

// The median of values, if there are enough of them for one to be far from the others.
std::optional<double> middle_of_many(std::vector<double> values);

// For people: two decimals are more than any of the instruments has.
std::string figure_text(double value);

} // namespace jarbook::menu
