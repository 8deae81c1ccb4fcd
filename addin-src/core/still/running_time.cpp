#include "core/still/running_time.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/composition.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/temperature.hpp"
#include "core/still/enthalpy.hpp"
#include "core/still/pot_run.hpp"
#include "core/still/run_cache.hpp"
#include "texts.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <string>

namespace jarbook {

namespace {

constexpr double seconds_per_hour = 3600.0;

void require_watts(double watts) {
    require_positive("watts", watts, texts::unit::watts);
}

// kJ and hours: J over W is seconds.
double hours(double joules, double watts) {
    return joules / watts / seconds_per_hour;
}

} // namespace

double heatup_hours(double volume_l, double strength, double from_temperature_c, double watts) {
    require_positive("volume", volume_l, texts::unit::litres);
    require_wished_strength("strength", strength);
    require_watts(watts);
    // The formula for water's heat capacity begins at its triple point.
    require_range("fromTemperature", from_temperature_c, 0.01, 100.0, texts::unit::celsius,
                  from_temperature_c == 0.0 ? texts::running_time::is_it_empty : "");
    const double x = mole_fraction_from_strength(strength);
    const double boil_k = Equilibrium(standard_pressure_hpa).over(x).temperature_k;
    if (from_temperature_c + zero_celsius_k > boil_k)
        refuse(RefusalKind::impossible, "fromTemperature", number_text(from_temperature_c),
               texts::running_time::boils_already{.from = number_text(from_temperature_c),
                                                  .strength = pct_vol_text(strength),
                                                  .boiling = number_text(boil_k - zero_celsius_k)}
                   .text());
    const double grams_per_mol = x * ethanol_g_per_mol + (1.0 - x) * water_g_per_mol;
    const double mol =
        volume_l * r22::density_at_20c()(mass_fraction_from_strength(strength)) / grams_per_mol;
    return hours(mol * (liquid_enthalpy(x, boil_k) -
                        liquid_enthalpy(x, from_temperature_c + zero_celsius_k)),
                 watts);
}

double run_hours(const Charge& charge_l, double stop, double watts, const Still& still,
                 double reflux) {
    require_positive("chargeVolume", charge_l.volume, texts::unit::litres);
    const auto run = RunMemory::get().run(charge_l.strength, still.stages, still.pressure_hpa);
    require_watts(watts);
    require_range("reflux", reflux, 0.0, 100.0, texts::unit::reflux);
    const PotRun::Progress end = when_shown(*run, "stop", stop);

    const Equilibrium& equilibrium = run->equilibrium();
    // What the vapour that runs off carries away, and what its share that returns takes to be
    // raised again; per unit of progress.
    const auto raised = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run->at(progress);
        const double y = now.distillate_fraction;
        const double dew_k = equilibrium.over(equilibrium.liquid_fraction(y)).temperature_k;
        const double vapour = vapour_enthalpy(y, dew_k);
        double heat = vapour;
        if (reflux > 0.0)
            heat += reflux * (vapour - liquid_enthalpy(y, equilibrium.over(y).temperature_k));
        return now.rate_mol * heat;
    };
    const auto in_boiler = [&](PotRun::Progress progress) {
        const PotRun::Moment now = run->at(progress);
        const double x = now.boiler_fraction;
        return now.left_mol * liquid_enthalpy(x, equilibrium.over(x).temperature_k);
    };
    double heat = in_boiler(end) - in_boiler(0.0);
    if (end > 0.0) {
        double error = 0.0;
        const double raising = boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
            raised, 0.0, end, 10, 1e-9, &error);
        // The rule stops at its tolerance or at its depth: only the error that it estimates tells
        // which.
        if (!(error <= 1e-8 * std::fabs(raising)))
            refuse(RefusalKind::no_convergence, "", "", texts::running_time::not_summed);
        heat += raising;
    }
    return hours(charge_l.volume * heat, watts);
}

} // namespace jarbook
