// The formulas whose cost is measured: ours, and what a person would enter otherwise.
#pragma once

#include <string>
#include <vector>

namespace jarbook::benchmark {

// Column A holds readings of 5 to 95, column B temperatures of 5 to 35, which also serve as
// volumes; twenty rows more than formulas. The formula stands for row 1 and is filled downwards.
struct Formula {
    std::string name;
    std::string text; // {n} is the last row
    // The one whose cost this one is held against, or none.
    std::string call_of;
    enum class Entered { filled_down, array, one_cell } entered = Entered::filled_down;
};

std::vector<Formula> formulas();

// R 22's sum with its 54 coefficients as a formula: kg/m³ of mass fraction A1/100 at B1 °C.
std::string native_r22();

// INDEX and MATCH, twice linear between the entries of the sheet Table.
std::string native_lookup();

} // namespace jarbook::benchmark
