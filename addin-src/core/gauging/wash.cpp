#include "core/gauging/wash.hpp"

#include "core/base/refusal.hpp"
#include "core/gauging/alcoholometer.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/sucrose.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"
#include "texts/wash.hpp"

#include <string>

namespace jarbook {

namespace {

// What somebody may have meant who leaves out the point, or the 1 before it.
std::string meant(double typed) {
    if (typed >= 900.0 && typed <= 1200.0)
        return fixed_text(typed / 1000.0, 3);
    if (typed >= 2.0 && typed <= 150.0)
        return fixed_text(1.0 + typed / 1000.0, 3);
    return {};
}

void require_gravity(const char* argument, double gravity, double lowest) {
    if (gravity >= lowest && gravity <= highest_gravity)
        return;
    const std::string wanted = meant(gravity);
    const std::string hint = gravity == 0.0   ? std::string(texts::refusal::is_it_empty)
                             : wanted.empty() ? std::string()
                                              : texts::wash::type_gravity{.gravity = wanted}.text();
    refuse_range(argument, gravity, lowest, highest_gravity, "", hint);
}

void require_wash_temperature(const char* argument, double temperature_c) {
    if (temperature_c == 0.0)
        refuse_range(argument, temperature_c, 0.0, r22::highest_temperature_c, texts::unit::celsius,
                     texts::refusal::is_it_empty_or_zero);
    require_range(argument, temperature_c, 0.0, r22::highest_temperature_c, texts::unit::celsius);
}

// Mass fraction of sugar in the solution in which the hydrometer shows that.
double extract(double gravity, double temperature_c) {
    const double density =
        gravity * r22::density_at_20c()(0.0) /
        (1.0 + hydrometer_glass_per_c * (temperature_c - r22::reference_temperature_c));
    return sucrose_mass_fraction(density, temperature_c);
}

} // namespace

double wash_strength(double original_gravity, double final_gravity, double original_temperature_c,
                     double final_temperature_c) {
    require_gravity("originalGravity", original_gravity, 1.0);
    require_gravity("finalGravity", final_gravity, lowest_final_gravity);
    require_wash_temperature("originalTemperature", original_temperature_c);
    require_wash_temperature("finalTemperature", final_temperature_c);
    const double original = 100.0 * extract(original_gravity, original_temperature_c);
    const double apparent = extract(final_gravity, final_temperature_c);
    if (100.0 * apparent > original)
        refuse(RefusalKind::impossible, "finalGravity", number_text(final_gravity),
               texts::wash::gravity_rose{.after = fixed_text(final_gravity, 3),
                                         .before = fixed_text(original_gravity, 3)}
                   .text());
    const double real = 0.1808 * original + 0.8192 * 100.0 * apparent;
    const double alcohol_pct_mass = (original - real) / (2.0665 - 0.010665 * original);
    const r22::DensityAt& at_20c = r22::density_at_20c();
    const double wash =
        at_20c(0.0) + sucrose_density_excess(apparent, r22::reference_temperature_c);
    return alcohol_pct_mass * wash / at_20c.ethanol();
}

} // namespace jarbook
