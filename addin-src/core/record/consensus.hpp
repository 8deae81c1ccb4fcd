// What several runs say of one thing: their mean, how much they differ beyond their uncertainties,
// and what a next one is to be expected to be.
#pragma once

#include "core/base/lists.hpp"

#include <cstddef>
#include <vector>

namespace jarbook {

struct Consensus {
    double mean;
    double mean_uncertainty; // standard
    double spread;           // standard deviation between runs, beyond their own uncertainties
    double next_uncertainty; // standard, of a next run's true value: sqrt(spread^2 + mean's^2)
};

struct UncertainValue {
    double value;
    double uncertainty; // standard (k = 1), above 0
};

inline constexpr std::size_t fewest_values = 3;
inline constexpr double greatest_value = 1e6;        // either way
inline constexpr double smallest_uncertainty = 1e-6; // of a value; below it digits are lost

// Values -1e6...1e6 and standard uncertainties 1e-6...1e6; one uncertainty serves all
// rows; rows blank in all are left out.
std::vector<UncertainValue> uncertain_values_from(const Column& values,
                                                  const Column& uncertainties);

// Weighted by 1 / (u^2 + spread^2), the spread such that the weighted squares about the mean add up
// to one less than there are values (0 where they already are less): Paule and Mandel, J. Res.
// Natl. Bur. Stand. 87 (1982) 377. Uncertainty of the mean 1 / sqrt(sum of weights). Refuses
// (impossible) fewer than three.
Consensus consensus(const std::vector<UncertainValue>& values);

} // namespace jarbook
