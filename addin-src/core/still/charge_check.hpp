// What speaks against a charge.
#pragma once

#include <optional>
#include <string>

namespace jarbook {

inline constexpr double loosest_limit_pct_vol = 40.0;

// Cautions about a charge, one per line, empty when these figures give none. Volume and boiler
// volume in the same unit at 20 degC, strength in % vol at 20 degC. All limits are common practice,
// no source: a strength above `limit` + 0.05 (rounding); `limit` may tighten 40 % vol, never loosen
// it (above it: refused). More than three quarters of the boiler: it may foam and boil over. Less
// than a quarter: a heater inside may run dry. With `stop_strength`, the strength running at which
// the run is ended (1 % vol up to the first strength), the level is judged there, too, as a plain
// pot at 1013.25 hPa leaves it at 20 degC. A still of more stages takes less to reach a stop of 20
// % vol or lower (from charges of 5 % vol and more, to 1 % of the charge), so that the true level
// is hardly lower. More than the boiler holds is a caution like the others, not a refusal, which
// would hide them.
std::string charge_cautions(double volume, double strength, double boiler_volume,
                            double limit = loosest_limit_pct_vol,
                            std::optional<double> stop_strength = {});

} // namespace jarbook
