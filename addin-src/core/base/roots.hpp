// Roots inside a bracket, found by Boost; what is not found within the bound on work is refused.
#pragma once

#include "core/base/refusal.hpp"

#include <boost/math/tools/roots.hpp>
#include <cstdint>
#include <string_view>

namespace jarbook {

// Root of f, which gives value and slope, in [low, high], from a guess inside: Newton's iteration,
// replaced by bisection wherever a step would leave the bracket. The digits double with each step,
// so that a last step of 2^-bits of the value leaves about 2^-2bits. Next to an end of the bracket
// the bisection is mistaken for convergence: bracket a little more than the root can need.
template <class F>
double newton_root(F f, double guess, double low, double high, int bits, std::string_view not_found,
                   const ArgumentPlace& place = "") {
    constexpr std::uintmax_t most = 100;
    std::uintmax_t iterations = most;
    const double root =
        boost::math::tools::newton_raphson_iterate(f, guess, low, high, bits, iterations);
    if (iterations >= most)
        refuse(RefusalKind::no_convergence, place, "", not_found);
    return root;
}

// Root of f in [low, high], where its signs differ, by TOMS 748, to the last few bits.
template <class F>
double bracketed_root(F f, double low, double high, std::string_view not_found) {
    constexpr std::uintmax_t most = 100;
    std::uintmax_t iterations = most;
    const auto [below, above] = boost::math::tools::toms748_solve(
        f, low, high, boost::math::tools::eps_tolerance<double>(50), iterations);
    if (iterations >= most)
        refuse(RefusalKind::no_convergence, "", "", not_found);
    return 0.5 * (below + above);
}

} // namespace jarbook
