#include "core/mixture/sucrose.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/r22.hpp"
#include "texts/sucrose.hpp"

#include <boost/math/tools/roots.hpp>
#include <cstdint>

namespace jarbook {

namespace {

// c_ik, k = 1...; row i. ICUMSA SPS-4; of two public transcriptions one gives c_04 as -3.9646
// (effect below 2e-4 kg/m3).
constexpr double coefficient[5][6] = {
    {385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289},
    {-46.272, -7.172, 1.1597, 5.1126, 17.5254, 0.0},
    {59.7712, 7.2491, 12.363, -35.4791, 0.0, 0.0},
    {-47.2207, -21.6977, 27.6301, 0.0, 0.0, 0.0},
    {18.3184, 12.3081, 0.0, 0.0, 0.0, 0.0},
};

} // namespace

double sucrose_density_excess(double mass_fraction, double temperature_c) {
    const double tau = (temperature_c - 20.0) / 100.0;
    double sum = 0.0;
    for (int i = 4; i >= 0; --i) {
        double row = 0.0;
        for (int k = 5; k >= 0; --k)
            row = (row + coefficient[i][k]) * mass_fraction;
        sum = sum * tau + row;
    }
    return sum;
}

double sucrose_density_increment(double sugar_g_per_l, double temperature_c) {
    const double water = r22::density_kg_m3(0.0, temperature_c);
    // w = c / rho(w): a contraction by a factor of about 0.4 c / rho, under 0.01 here.
    double excess = 0.0;
    for (int step = 0; step < 8; ++step)
        excess = sucrose_density_excess(sugar_g_per_l / (water + excess), temperature_c);
    return excess;
}

double sucrose_mass_fraction(double density_kg_m3, double temperature_c,
                             std::string_view argument) {
    const double wanted = density_kg_m3 - r22::density_kg_m3(0.0, temperature_c);
    const auto over = [&](double w) { return sucrose_density_excess(w, temperature_c) - wanted; };
    constexpr double lowest = -0.1;
    constexpr double highest = 0.84;
    const double at_lowest = over(lowest);
    const double at_highest = over(highest);
    if (!(at_lowest <= 0.0 && at_highest >= 0.0)) // so that NaN fails
        refuse(RefusalKind::impossible, argument, number_text(density_kg_m3),
               texts::sucrose::no_such_density{.density = number_text(density_kg_m3)}.text());
    std::uint64_t iterations = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        over, lowest, highest, at_lowest, at_highest, boost::math::tools::eps_tolerance<double>(50),
        iterations);
    if (iterations >= 100)
        refuse(RefusalKind::no_convergence, argument, "", texts::sucrose::not_settled);
    return 0.5 * (low + high);
}

} // namespace jarbook
