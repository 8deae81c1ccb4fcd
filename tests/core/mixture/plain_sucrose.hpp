// The ICUMSA SPS-4 polynomial summed plainly over the published coefficients: a second opinion.
#pragma once

#include "support/published.hpp"

#include <cmath>

namespace plain_sucrose {

// What a mass fraction w of sucrose adds to the density of water at t degC, kg/m3.
inline double excess(double w, double t) {
    static const published::Table table("sucrose_icumsa_density_polynomial.csv", 20);
    const double tau = (t - 20.0) / 100.0;
    double sum = 0.0;
    for (std::size_t row = 0; row < table.rows(); ++row)
        sum += table.number(row, "coefficient_kg_m3") *
               std::pow(tau, table.number(row, "t_power_i")) *
               std::pow(w, table.number(row, "w_power_k"));
    return sum;
}

} // namespace plain_sucrose
