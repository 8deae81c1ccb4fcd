#include "core/still/running_time.hpp"

#include "core/base/keywords.hpp"
#include "core/base/refusal.hpp"
#include "core/mixture/composition.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/temperature.hpp"
#include "core/still/enthalpy.hpp"
#include "core/still/pot_run.hpp"
#include "core/still/run_cache.hpp"
#include "core/still/run_heat.hpp"
#include "texts/running_time.hpp"
#include "texts/unit.hpp"

#include <string>

namespace jarbook {

namespace {

constexpr double seconds_per_hour = 3600.0;

struct KnownMetal {
    std::string_view word; // folded
    double capacity_kj_per_kg_k;
};
constexpr KnownMetal known_metals[] = {
    {"copper", 0.384}, {"stainlesssteel", 0.50}, {"brass", 0.377}, {"aluminium", 0.897}};

void require_watts(double watts) {
    require_positive("watts", watts, texts::unit::watts);
}

// J over W is seconds.
double hours(double joules, double watts) {
    return joules / watts / seconds_per_hour;
}

} // namespace

Metal metal_named(std::string_view word, double mass_kg) {
    const std::string wanted = folded(word);
    for (const KnownMetal& known : known_metals)
        if (known.word == wanted)
            return {mass_kg, known.capacity_kj_per_kg_k};
    refuse(RefusalKind::not_a_number, "metal", word,
           texts::running_time::unknown_metal{.metal = std::string(word)}.text());
}

void require_reflux(double reflux) {
    require_range("reflux", reflux, 0.0, 100.0, texts::unit::reflux);
}

double heatup_hours(double volume_l, double strength, double from_temperature_c, double watts,
                    const Metal& metal) {
    require_positive("volume", volume_l, texts::unit::litres);
    require_wished_strength("strength", strength);
    require_watts(watts);
    require_amount("metalMass", metal.mass_kg);
    // The formula for water's heat capacity begins at its triple point.
    require_range("fromTemperature", from_temperature_c, 0.01, 100.0, texts::unit::celsius,
                  from_temperature_c == 0.0 ? texts::running_time::is_it_empty : "");
    const double x = mole_fraction_from_strength(strength);
    const double boil_k = Equilibrium(standard_pressure_hpa).over(x).temperature_k;
    const double from_k = from_temperature_c + zero_celsius_k;
    if (from_k > boil_k)
        refuse(RefusalKind::impossible, "fromTemperature", number_text(from_temperature_c),
               texts::running_time::boils_already{.from = number_text(from_temperature_c),
                                                  .strength = pct_vol_text(strength),
                                                  .boiling = number_text(boil_k - zero_celsius_k)}
                   .text());
    const double grams_per_mol = x * ethanol_g_per_mol + (1.0 - x) * water_g_per_mol;
    const double mol =
        volume_l * r22::density_at_20c()(mass_fraction_from_strength(strength)) / grams_per_mol;
    const double liquid = mol * (liquid_enthalpy(x, boil_k) - liquid_enthalpy(x, from_k));
    const double still = 1000.0 * metal.mass_kg * metal.capacity_kj_per_kg_k * (boil_k - from_k);
    return hours(liquid + still, watts);
}

double run_hours(const Charge& charge_l, double stop, double watts, const Still& still,
                 double reflux) {
    require_positive("chargeVolume", charge_l.volume, texts::unit::litres);
    const auto run = RunMemory::get().run(charge_l.strength, still.stages, still.pressure_hpa);
    require_watts(watts);
    require_reflux(reflux);
    const PotRun::Progress end = when_shown(*run, "stop", stop);
    return hours(charge_l.volume * (heat_raised(*run, end, reflux) + boiler_gain(*run, end)),
                 watts);
}

} // namespace jarbook
