// What the plans share: the jars as parts of the wish, and the reasons for what cannot be done.
#pragma once

#include "core/plan/types.hpp"

#include <string>

namespace jarbook::plan {

// What misses a limit by no more than this part of the wish counts as meeting it: far above the
// rounding of sums, far below what any vessel shows.
inline constexpr double tolerance = 1e-9;

// A jar that may be used, measured by what was asked for.
struct Part {
    double alcohol;    // alcohol of the whole jar / alcohol of the wish
    double mass;       // mass of the whole jar / mass of the wish
    double preference; // preference / greatest preference: above 0, at most 1
    std::size_t jar;   // index in the list of jars

    // Order of strength, strongest least; infinite for water.
    double mass_per_alcohol() const { return mass / alcohol; }
};

// The jars that hold something and have a preference, checked to be able to give the wish in parts:
// refuses (impossible) with the pure alcohol that is missing, or the strongest blend that there is.
// Also refuses a wish out of range.
std::vector<Part> usable_parts(const std::vector<PlanJar>& jars, const BlendWish& wish);

// The least mass that holds a wish's alcohol, / mass of the wish: strongest jars first.
double least_mass(std::vector<Part> parts);

// The plan that takes a share, 0...1, of each part; water makes up a multiple of the wish.
BlendPlan plan_of(const std::vector<PlanJar>& jars, const BlendWish& wish,
                  const std::vector<Part>& parts, const std::vector<double>& shares,
                  double wishes = 1.0);

// "10 at 43 % vol"
std::string wish_text(const BlendWish& wish);

} // namespace jarbook::plan
