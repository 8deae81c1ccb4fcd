#include "core/still/cooling_water.hpp"

#include "core/base/refusal.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/temperature.hpp"
#include "core/still/run_cache.hpp"
#include "core/still/run_heat.hpp"
#include "core/still/running_time.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

namespace jarbook {

double cooling_water(const Charge& charge_l, double stop, double rise_k,
                     double distillate_temperature_c, const Still& still, double reflux) {
    require_positive("chargeVolume", charge_l.volume, texts::unit::litres);
    const auto run = RunMemory::get().run(charge_l.strength, still.stages, still.pressure_hpa);
    require_range("rise", rise_k, 1.0, 80.0, texts::unit::kelvin,
                  rise_k == 0.0 ? texts::refusal::is_it_empty : "");
    require_range("distillateTemperature", distillate_temperature_c, coldest_distillate_c,
                  warmest_distillate_c, texts::unit::celsius,
                  distillate_temperature_c == 0.0 ? texts::refusal::is_it_empty : "");
    require_reflux(reflux);
    const PotRun::Progress end = when_shown(*run, "stop", stop);
    const double joules =
        charge_l.volume *
        heat_condensed(*run, end, reflux, distillate_temperature_c + zero_celsius_k);
    const double kg = joules / (1000.0 * cooling_water_capacity * rise_k);
    return 1000.0 * kg / r22::density_at_20c()(0.0);
}

} // namespace jarbook
