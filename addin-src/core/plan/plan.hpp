// The blend plan: how much of each jar, and how much water, gives a volume at a strength.
//
// Volume does not add up, but mass and the mass of alcohol do; so a plan is a linear programme in
// masses. A jar of v litres at s % vol holds the mass v rho(s) and the alcohol v s; a plan takes
// the part x of it, 0...1. For a volume V at target t the alcohol taken is V t exactly and the mass
// taken at most V rho(t): water makes up the rest. Densities by OIML R 22 at 20 degC. All volumes
// at 20 degC, in L or mL alike.
//
// Exactness: volume and strength of every plan agree with what was asked (whole jars: with the
// final volume of the plan) to 1e-9 relative. What misses by less than that counts as possible.
#pragma once

#include "core/base/lists.hpp"
#include "core/plan/types.hpp"

#include <optional>
#include <vector>

namespace jarbook {

// The jars of lists that belong together; rows blank in all are left out. A blank preference is 0;
// a negative one is refused, and so is a preference above 0 beside a blank row. Without a list of
// preferences every jar has 1.
std::vector<PlanJar> plan_jars_from(const Column& volumes, const Column& strengths,
                                    const Column* preference);

// The same share of every jar.
BlendPlan plan_same_share(const std::vector<PlanJar>& jars, const BlendWish& wish);

// Parts of jars: exactly the volume and strength asked, and the greatest sum of
// preference * pure alcohol, to 1e-9 of what the greatest preference alone would give. Among such
// plans the one that takes the most of the first jar, among these the most of the second, and so
// on.
//
// Proven by its two prices (duality, prices.hpp) before it is returned.
BlendPlan plan_divided(const std::vector<PlanJar>& jars, const BlendWish& wish);

// Each jar in whole or not at all; the volume asked up to 5 % more, at target. First the least sum
// of (greatest preference - preference) * pure alcohol; then the least volume; then the plan that
// takes the first jar on which two such plans differ. Compared in whole numbers of a decimal unit
// of 1e-15 to 1e-14 of the alcohol asked, so that jars with decimal figures tie exactly.
//
// Where that cannot be proven within a fixed number of steps (from some 40 jars of like preference
// on; where preferences tell jars apart, of many more), it is the best to what no cylinder shows:
// the sum to 1e-5 of the greatest preference times the alcohol asked, then the volume to 1e-5 of
// the volume asked. Which of the plans that are equal to that is fixed, the same on every machine,
// but does not follow the order of the jars.
//
// Refuses (no_convergence) where even that cannot be proven: more than 64 jars of like preference,
// or jars whose sums are contrived to come near each other, and never nearer than 1e-5 to the wish.
BlendPlan plan_whole_jars(const std::vector<PlanJar>& jars, const BlendWish& wish);

} // namespace jarbook
