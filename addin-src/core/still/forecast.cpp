#include "core/still/forecast.hpp"

#include "core/base/refusal.hpp"
#include "core/still/run_cache.hpp"

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
               std::string(argument) +
                   " is 0 % vol; allowed: 1 to 100 % vol. A run nears 0 and never falls to it. Is "
                   "the cell empty?");
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
               std::string(argument) + " is " + number_text(strength) +
                   " % vol; the run begins at " + number_text(run.first_strength()) +
                   " % vol and falls from there");
    return when_strength(run, strength);
}

double forecast_strength(const Charge& charge, double collected, const Still& still) {
    const auto run = run_of(charge, still);
    require_amount("collected", collected);
    if (collected >= charge.volume)
        refuse(RefusalKind::impossible, "collected", number_text(collected),
               "collected is " + number_text(collected) + ", the charge " +
                   number_text(charge.volume) +
                   " (same unit); all of a charge cannot be distilled, nor more");
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
               "fromStrength is " + number_text(from_strength) + " and toStrength " +
                   number_text(to_strength) +
                   " % vol; a run falls, so that fromStrength is the higher of the two");
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
    require_range("rows", rows, 2.0, 10000.0, "", rows == 0.0 ? "Is the cell empty?" : "");
    if (rows != std::floor(rows))
        refuse(RefusalKind::out_of_range, "rows", number_text(rows),
               "rows is " + number_text(rows) + "; allowed: whole numbers from 2 to 10000");
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
