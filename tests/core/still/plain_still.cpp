#include "still/plain_still.hpp"

#include "support/published.hpp"

#include <boost/math/tools/roots.hpp>
#include <boost/numeric/odeint.hpp>
#include <cstdint>
#include <stdexcept>
#include <string>

namespace plain_still {

Constants::Constants() {
    const published::Table pressures("vapour_pressure_dippr.csv", 2);
    for (std::size_t row = 0; row < 2; ++row)
        for (int k = 1; k <= 5; ++k)
            vapour_pressure[pressures.text(row, "substance") == "water"][k] =
                pressures.number(row, "C" + std::to_string(k));
    const published::Table models("vle_model_parameters.csv", 29);
    for (std::size_t row = 0; row < models.rows(); ++row)
        if (models.text(row, "set") == "van Laar 1.6798/0.9227")
            (models.text(row, "parameter") == "A12" ? a12 : a21) = models.number(row, "value");
    if (a12 == 0.0 || a21 == 0.0)
        throw std::runtime_error("no van Laar constants");
}

// In long steps until f is below 0, then by bracketing the last step's length.
void Run::until(const std::function<double()>& f) {
    for (;;) {
        const double x = x_;
        const double boiled = boiled_;
        const double before = f();
        constexpr double step = 0.05;
        go(step);
        const double after = f();
        if (after > 0.0)
            continue;
        const auto after_step = [&](double length) {
            x_ = x;
            boiled_ = boiled;
            go(length);
            return f();
        };
        std::uintmax_t iterations = 100;
        const auto ends = boost::math::tools::toms748_solve(
            after_step, 0.0, step, before, after, boost::math::tools::eps_tolerance<double>(45),
            iterations);
        after_step(ends.second);
        return;
    }
}

void Run::until_strength(double wanted) {
    until([&] { return running() - wanted; });
}

void Run::until_collected(double wanted) {
    until([&] { return wanted - collected(); });
}

// d ln x / d ln n = (y - x) / x, along which x cannot pass 0; n falls. Dormand-Prince with
// error control.
void Run::go(double fall) {
    if (fall <= 0.0)
        return;
    namespace ode = boost::numeric::odeint;
    const auto slope = [this](const double& log_x, double& d, double) {
        // A step that is tried too long, and taken back for its error, may land anywhere.
        const double x = std::exp(std::fmin(std::fmax(log_x, -600.0), 0.0));
        d = 1.0 - distillate(x, stages_, pressure_pa_) / x;
    };
    double log_x = std::log(x_);
    ode::integrate_adaptive(ode::make_controlled(1e-12, 1e-12, ode::runge_kutta_dopri5<double>()),
                            slope, log_x, 0.0, fall, fall);
    x_ = std::exp(log_x);
    boiled_ += fall;
}

} // namespace plain_still
