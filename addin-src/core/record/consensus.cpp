#include "core/record/consensus.hpp"

#include "core/base/refusal.hpp"
#include "texts/consensus.hpp"
#include "texts/refusal.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <string>

namespace jarbook {

namespace {

// Mean, and squares about it, with so much variance between the values.
struct Weighted {
    double mean;
    double weights;
    double squares;
};

Weighted weighted(const std::vector<UncertainValue>& values, double between) {
    double sum = 0.0;
    double weights = 0.0;
    for (const UncertainValue& one : values) {
        const double weight = 1.0 / (one.uncertainty * one.uncertainty + between);
        weights += weight;
        sum += weight * one.value;
    }
    Weighted result{sum / weights, weights, 0.0};
    for (const UncertainValue& one : values) {
        const double off = one.value - result.mean;
        result.squares += off * off / (one.uncertainty * one.uncertainty + between);
    }
    return result;
}

double between_of(const std::vector<UncertainValue>& values) {
    const double wanted = static_cast<double>(values.size() - 1);
    const auto excess = [&](double between) { return weighted(values, between).squares - wanted; };
    if (excess(0.0) <= 0.0)
        return 0.0;
    // The squares fall with the variance between, and at the plain variance of the values, which
    // leaves their own uncertainties out, they are too few.
    double mean = 0.0;
    for (const UncertainValue& one : values)
        mean += one.value / static_cast<double>(values.size());
    double high = 0.0;
    for (const UncertainValue& one : values)
        high += (one.value - mean) * (one.value - mean) / wanted;
    high *= 1.0 + 1e-9; // but for rounding
    std::uintmax_t iterations = 200;
    const auto [low, top] = boost::math::tools::toms748_solve(
        excess, 0.0, high, boost::math::tools::eps_tolerance<double>(48), iterations);
    if (iterations >= 200)
        refuse(RefusalKind::no_convergence, "values", "", texts::consensus::no_end);
    return 0.5 * (low + top);
}

} // namespace

std::vector<UncertainValue> uncertain_values_from(const Column& values,
                                                  const Column& uncertainties) {
    const bool one = uncertainties.cells.size() == 1;
    std::vector<const Column*> together{&values};
    if (!one)
        together.push_back(&uncertainties);
    const auto uncertainty = [&](std::size_t row) {
        const std::size_t at = one ? 0 : row;
        const double value = number_in(uncertainties, at);
        if (value == 0.0 || !(value >= smallest_uncertainty && value <= greatest_value))
            refuse_range(place_of(uncertainties, at), value, smallest_uncertainty, greatest_value,
                         "", value == 0.0 ? texts::refusal::is_it_empty : "");
        return value;
    };
    if (one)
        uncertainty(0);
    std::vector<UncertainValue> result;
    for (const std::size_t row : rows_in_common(together))
        result.push_back(
            {number_in_range(values, row, -greatest_value, greatest_value, ""), uncertainty(row)});
    return result;
}

Consensus consensus(const std::vector<UncertainValue>& values) {
    if (values.size() < fewest_values)
        refuse(RefusalKind::impossible, "values", std::to_string(values.size()),
               texts::consensus::too_few{.count = std::to_string(values.size())}.text());
    const double between = between_of(values);
    const Weighted at = weighted(values, between);
    return {at.mean, 1.0 / std::sqrt(at.weights), std::sqrt(between),
            std::sqrt(between + 1.0 / at.weights)};
}

} // namespace jarbook
