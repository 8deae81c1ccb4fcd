#include "core/gauging/distilled_sample.hpp"

#include "core/base/refusal.hpp"
#include "core/gauging/lots.hpp"
#include "core/mixture/strength.hpp"
#include "texts/distilled_sample.hpp"

#include <cmath>

namespace jarbook {

double sample_strength(double sample_volume, double made_up_volume, double reading,
                       double temperature_c, double sample_temperature_c,
                       const Alcoholometer& instrument) {
    require_positive("sampleVolume", sample_volume, "");
    require_positive("madeUpVolume", made_up_volume, "");
    const double distillate = strength_from_reading(reading, temperature_c, instrument);
    require_measured_temperature("sampleTemperature", sample_temperature_c);
    // Strength if the sample had been measured at 20 degC; the sample's own expansion depends on
    // it, so weakly that each step comes some 30 times nearer.
    const double at_once = distillate * made_up_volume / sample_volume;
    const auto refuse_much = [&](double strength) {
        refuse(RefusalKind::impossible, "madeUpVolume", number_text(made_up_volume),
               texts::distilled_sample::too_much{.strength = number_text(strength)}.text());
    };
    if (!(at_once <= 110.0)) // no expansion between -20 and 40 degC brings it back
        refuse_much(at_once);
    double strength = std::fmin(at_once, 100.0);
    for (int step = 0; step < 50; ++step) {
        const double next =
            at_once * sample_volume /
            volume_at_20c(sample_volume, strength, sample_temperature_c, "sampleTemperature");
        if (!(next <= 100.0))
            refuse_much(next);
        const bool settled = std::fabs(next - strength) <= 1e-12 * std::fmax(next, 1.0);
        strength = next;
        if (settled)
            return strength;
    }
    refuse(RefusalKind::no_convergence, "", "", texts::distilled_sample::not_settled);
}

} // namespace jarbook
