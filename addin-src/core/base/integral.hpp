// Integrals, summed by Boost; what is not summed to the accuracy asked is refused.
#pragma once

#include "core/base/refusal.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <string_view>

namespace jarbook {

// Integral of f from one place to another, by Gauss-Kronrod with halved intervals, to 1e-8 of it.
// The rule stops at its tolerance or at its depth: only the error that it estimates tells which, so
// that is read, and what it leaves open is refused (no_convergence). An integral that is 0 because
// its parts cancel is refused, too.
template <class F>
double integral(F f, double from, double to, std::string_view not_summed) {
    constexpr unsigned deepest = 10;
    constexpr double tolerance = 1e-9;
    double error = 0.0;
    const double sum = boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
        f, from, to, deepest, tolerance, &error);
    if (!(error <= 10.0 * tolerance * std::fabs(sum)))
        refuse(RefusalKind::no_convergence, "", "", not_summed);
    return sum;
}

} // namespace jarbook
