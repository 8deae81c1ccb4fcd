#include "core/gauging/lots.hpp"

#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "texts/unit.hpp"

#include <cmath>

namespace jarbook {

double lot_mass(const Lot& lot) {
    const r22::DensityAt& formula = r22::density_at_20c();
    const double p = r22::mass_fraction_from_pct_vol(lot.strength, formula);
    // The fraction was sought so that p rho(p) is the ethanol in it; where p has its full digits,
    // that gives the density without summing the formula once more.
    constexpr double full_digits = 1e-6;
    const double density =
        p > full_digits ? 0.01 * lot.strength * formula.ethanol() / p : formula(p);
    return lot.volume * density / 1000.0;
}

double lot_alcohol_mass(const Lot& lot) {
    return lot_pure_alcohol(lot) * r22::density_at_20c().ethanol() / 1000.0;
}

double volume_at_20c(double volume, double strength, double temperature_c,
                     const ArgumentPlace& place) {
    require_measured_temperature(place, temperature_c);
    if (temperature_c == 20.0)
        return volume;
    const double p = mass_fraction_from_strength(strength);
    require_liquid(p, strength, temperature_c, place);
    return volume * r22::density_kg_m3(p, temperature_c) / r22::density_at_20c()(p);
}

std::vector<Lot> lots_from(const Column& volumes, const Column& strengths,
                           const Column* volume_temperatures) {
    const bool one_temperature = volume_temperatures && volume_temperatures->cells.size() == 1;
    std::vector<const Column*> together{&volumes, &strengths};
    if (volume_temperatures && !one_temperature)
        together.push_back(volume_temperatures);
    // It is wrong also where no row needs it.
    if (one_temperature && !is_blank(volume_temperatures->cells[0]))
        require_measured_temperature(place_of(*volume_temperatures, 0),
                                     number_in(*volume_temperatures, 0));

    std::vector<Lot> lots;
    lots.reserve(volumes.cells.size());
    for (const std::size_t row : rows_in_common(together)) {
        const double volume = amount_in(volumes, row);
        const double strength = number_in_range(strengths, row, 0.0, 100.0, texts::unit::pct_vol);
        if (!volume_temperatures) {
            lots.push_back({volume, strength, row});
            continue;
        }
        const std::size_t at = one_temperature ? 0 : row;
        const double t = number_in(*volume_temperatures, at);
        lots.push_back({volume_at_20c(volume, strength, t, place_of(*volume_temperatures, at)),
                        strength, row});
    }
    return lots;
}

double pure_alcohol(const std::vector<Lot>& lots) {
    double sum = 0.0;
    for (const Lot& lot : lots)
        sum += lot_pure_alcohol(lot);
    return sum;
}

} // namespace jarbook
