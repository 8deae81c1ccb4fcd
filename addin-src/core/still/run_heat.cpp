#include "core/still/run_heat.hpp"

#include "core/base/integral.hpp"
#include "core/still/enthalpy.hpp"
#include "texts/run_heat.hpp"

namespace jarbook {

namespace {

// Integral of rate x f(moment) over the run.
template <class F>
double along_run(const PotRun& run, PotRun::Progress end, F f) {
    if (end <= 0.0)
        return 0.0;
    const auto rate = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run.at(progress);
        return now.rate_mol * f(now);
    };
    return integral(rate, 0.0, end, texts::run_heat::not_summed);
}

double vapour_at_dew_point(const Equilibrium& equilibrium, double y) {
    return vapour_enthalpy(y, equilibrium.over(equilibrium.liquid_fraction(y)).temperature_k);
}

double liquid_at_bubble_point(const Equilibrium& equilibrium, double y) {
    return liquid_enthalpy(y, equilibrium.over(y).temperature_k);
}

} // namespace

double heat_raised(const PotRun& run, PotRun::Progress end, double reflux) {
    const Equilibrium& equilibrium = run.equilibrium();
    return along_run(run, end, [&](const PotRun::Moment& now) {
        const double y = now.distillate_fraction;
        const double vapour = vapour_at_dew_point(equilibrium, y);
        return reflux > 0.0 ? vapour + reflux * (vapour - liquid_at_bubble_point(equilibrium, y))
                            : vapour;
    });
}

double boiler_gain(const PotRun& run, PotRun::Progress end) {
    const auto in_boiler = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run.at(progress);
        return now.left_mol * liquid_at_bubble_point(run.equilibrium(), now.boiler_fraction);
    };
    return in_boiler(end) - in_boiler(0.0);
}

double heat_condensed(const PotRun& run, PotRun::Progress end, double reflux,
                      double distillate_temperature_k) {
    const Equilibrium& equilibrium = run.equilibrium();
    return along_run(run, end, [&](const PotRun::Moment& now) {
        const double y = now.distillate_fraction;
        const double vapour = vapour_at_dew_point(equilibrium, y);
        const double cooled = vapour - liquid_enthalpy(y, distillate_temperature_k);
        return reflux > 0.0 ? cooled + reflux * (vapour - liquid_at_bubble_point(equilibrium, y))
                            : cooled;
    });
}

} // namespace jarbook
