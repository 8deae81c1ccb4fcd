#include "core/gauging/weighed_density.hpp"

#include "core/base/refusal.hpp"
#include "core/gauging/weighing.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"
#include "texts/weighed_density.hpp"

namespace jarbook {

namespace {

// The spirit's density from the share that it weighs of the same volume of water.
double density_from_share(double share, const Weighing& weighing) {
    if (weighing.water_temperature_c == 0.0)
        refuse_range("waterTemperature", 0.0, 0.0, r22::highest_temperature_c, texts::unit::celsius,
                     texts::refusal::is_it_empty_or_zero);
    require_range("waterTemperature", weighing.water_temperature_c, 0.0, r22::highest_temperature_c,
                  texts::unit::celsius);
    require_measured_temperature("spiritTemperature", weighing.spirit_temperature_c);
    require_range("glass", weighing.glass_per_c, 5e-6, 100e-6, texts::unit::per_c);
    const double water = r22::density_kg_m3(0.0, weighing.water_temperature_c);
    const double growth =
        1.0 + weighing.glass_per_c * (weighing.spirit_temperature_c - weighing.water_temperature_c);
    return share * (water - air_density_kg_m3) / growth + air_density_kg_m3;
}

void require_heavier(const char* argument, double full, double empty) {
    if (full > empty)
        return;
    refuse(RefusalKind::impossible, argument, number_text(full),
           texts::weighed_density::no_heavier{.mass = argument,
                                              .full = number_text_apart(full, empty),
                                              .empty = number_text(empty)}
               .text());
}

} // namespace

double pycnometer_density(double empty_mass, double water_mass, double spirit_mass,
                          const Weighing& weighing) {
    // A balance tared with the flask shows 0, and so does an empty cell.
    require_positive("emptyMass", empty_mass, "");
    require_positive("waterMass", water_mass, "");
    require_positive("spiritMass", spirit_mass, "");
    require_heavier("waterMass", water_mass, empty_mass);
    require_heavier("spiritMass", spirit_mass, empty_mass);
    return density_from_share((spirit_mass - empty_mass) / (water_mass - empty_mass), weighing);
}

double plummet_density(double water_load, double spirit_load, const Weighing& weighing) {
    require_positive("waterLoad", water_load, "");
    require_positive("spiritLoad", spirit_load, "");
    return density_from_share(spirit_load / water_load, weighing);
}

} // namespace jarbook
