#include "core/still/forecast.hpp"

#include "core/base/refusal.hpp"
#include "core/still/run_cache.hpp"
#include "texts/forecast.hpp"
#include "texts/refusal.hpp"

#include <cmath>
#include <memory>
#include <string>

namespace jarbook {

namespace {

// A first strength that comes from another cell may miss this one by rounding.
constexpr double rounding_pct = 1e-6;

std::shared_ptr<const PotRun> run_of(const Charge& charge, const Still& still) {
    require_positive("chargeVolume", charge.volume, "");
    return RunMemory::get().run(charge.strength, still.stages, still.pressure_hpa);
}

// A strength that a run is to fall to: 1...100 % vol.
void require_reached_strength(const char* argument, double strength) {
    require_wished_strength(argument, strength);
    if (strength == 0.0)
        refuse(RefusalKind::out_of_range, argument, "0",
               texts::forecast::zero{.argument = argument}.text());
}

// When the distillate has fallen to a strength, which the run is known to show.
PotRun::Progress when_strength(const PotRun& run, double strength) {
    return strength >= run.first_strength()
               ? 0.0
               : run.when_running(mole_fraction_from_strength(strength));
}

} // namespace

PotRun::Progress when_shown(const PotRun& run, const char* argument, double strength) {
    require_reached_strength(argument, strength);
    if (strength > run.first_strength() + rounding_pct)
        refuse(RefusalKind::impossible, argument, number_text(strength),
               texts::forecast::above_first{.argument = argument,
                                            .strength = pct_vol_text(strength),
                                            .first = pct_vol_text(run.first_strength())}
                   .text());
    return when_strength(run, strength);
}

double forecast_strength(const Charge& charge, double collected, const Still& still) {
    const auto run = run_of(charge, still);
    require_amount("collected", collected);
    if (collected >= charge.volume)
        refuse(RefusalKind::impossible, "collected", number_text(collected),
               texts::forecast::all_of_it{.collected = number_text(collected),
                                          .charge = number_text(charge.volume)}
                   .text());
    return run->strength(run->when_collected(collected / charge.volume));
}

double forecast_volume(const Charge& charge, double strength, const Still& still) {
    const auto run = run_of(charge, still);
    return charge.volume * run->collected(when_shown(*run, "strength", strength));
}

double forecast_alcohol(const Charge& charge, double from_strength, double to_strength,
                        const Still& still) {
    const auto run = run_of(charge, still);
    require_reached_strength("fromStrength", from_strength);
    require_reached_strength("toStrength", to_strength);
    if (from_strength < to_strength)
        refuse(RefusalKind::impossible, "fromStrength", number_text(from_strength),
               texts::forecast::order{.from = pct_vol_text(from_strength),
                                      .to = pct_vol_text(to_strength)}
                   .text());
    return charge.volume * (run->alcohol(when_strength(*run, to_strength)) -
                            run->alcohol(when_strength(*run, from_strength)));
}

double left_in_boiler(const Charge& charge, double strength, const char* argument,
                      const Still& still) {
    const auto run = run_of(charge, still);
    return charge.volume * run->left(when_shown(*run, argument, strength));
}

std::vector<ForecastRow> forecast_table(const Charge& charge, double stop, double rows,
                                        const Still& still) {
    const auto run = run_of(charge, still);
    require_range("rows", rows, 2.0, 10000.0, "", rows == 0.0 ? texts::refusal::is_it_empty : "");
    if (rows != std::floor(rows))
        refuse(RefusalKind::out_of_range, "rows", number_text(rows),
               texts::forecast::whole_rows{.rows = number_text(rows)}.text());
    const PotRun::Progress end = when_shown(*run, "stop", stop);
    const double last_volume = run->collected(end);

    const auto count = static_cast<std::size_t>(rows);
    std::vector<ForecastRow> table;
    table.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double volume = last_volume * static_cast<double>(i) / static_cast<double>(count - 1);
        // The last row is the stop itself, not its volume solved for it again.
        const PotRun::Progress now = i + 1 < count ? run->when_collected(volume) : end;
        table.push_back({charge.volume * volume, run->strength(now), run->mean_strength(now),
                         charge.volume * run->alcohol(now), run->boiler_strength(now),
                         run->boiler_temperature_c(now)});
    }
    return table;
}

} // namespace jarbook
