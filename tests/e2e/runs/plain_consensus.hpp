// The consensus of runs and the rule for an unlike one once more: plain bisection, Boost's Student.
#pragma once

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <vector>

namespace jarbook::e2e {

struct Stated {
    double value;
    double uncertainty; // standard
};

struct PlainConsensus {
    double mean;
    double mean_uncertainty;
    double spread;
    double next() const { return std::hypot(mean_uncertainty, spread); }
};

inline PlainConsensus weighted(const std::vector<Stated>& runs, double spread) {
    double weights = 0, sum = 0;
    for (const Stated& run : runs) {
        const double weight = 1 / (run.uncertainty * run.uncertainty + spread * spread);
        weights += weight;
        sum += weight * run.value;
    }
    return {sum / weights, 1 / std::sqrt(weights), spread};
}

// Paule and Mandel: the spread for which the weighted squares add up to one less than the runs.
inline PlainConsensus plain_consensus(const std::vector<Stated>& runs) {
    const auto excess = [&](double spread) {
        const double mean = weighted(runs, spread).mean;
        double squares = 0;
        for (const Stated& run : runs)
            squares += std::pow(run.value - mean, 2) /
                       (run.uncertainty * run.uncertainty + spread * spread);
        return squares - double(runs.size() - 1);
    };
    if (excess(0) <= 0)
        return weighted(runs, 0);
    double low = 0, high = 10;
    for (int i = 0; i < 200; ++i) {
        const double middle = (low + high) / 2;
        (excess(middle) > 0 ? low : high) = middle;
    }
    return weighted(runs, low);
}

// Whether run i is called unlike the others: see the note below the stills in Runs.
inline bool plain_unlike(const std::vector<Stated>& runs, std::size_t i) {
    std::vector<Stated> others = runs;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    if (others.size() < 3)
        return false;
    const PlainConsensus said = plain_consensus(others);
    const double u = runs[i].uncertainty;
    const double square = said.next() * said.next() + u * u;
    const double seen = std::max(said.spread, u);
    // Calc's TINV takes whole degrees of freedom.
    const double degrees =
        std::floor(double(others.size() - 1) * std::pow(square / (seen * seen), 2));
    const double k =
        boost::math::quantile(boost::math::students_t_distribution<double>(degrees), 1 - 0.01 / 2);
    return std::fabs(runs[i].value - said.mean) > k * std::sqrt(square);
}

} // namespace jarbook::e2e
