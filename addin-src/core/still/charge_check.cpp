#include "core/still/charge_check.hpp"

#include "core/base/refusal.hpp"

#include <cstdio>

namespace jarbook {

namespace {
std::string one_decimal(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", value);
    return text;
}
} // namespace

std::string charge_cautions(double volume, double strength, double boiler_volume, double limit) {
    require_positive("volume", volume, "");
    require_wished_strength("strength", strength);
    // An empty cell would pass as water, and the caution would be missed.
    require_positive("strength", strength, "% vol");
    require_positive("boilerVolume", boiler_volume, "");
    require_wished_strength("limit", limit);
    require_positive("limit", limit, "% vol");

    std::string cautions;
    const auto add = [&](const std::string& caution) {
        if (!cautions.empty())
            cautions.push_back('\n');
        cautions += caution;
    };
    constexpr double rounding = 0.05;
    if (strength > limit + rounding)
        add("Charge is " + one_decimal(strength) + " % vol, above " + one_decimal(limit) +
            " % vol: its vapour lights easily. Dilute it with water before heating.");
    const double fill = volume / boiler_volume;
    if (fill > 1.0)
        add("Charge is " + one_decimal(100.0 * fill) +
            " % of what the boiler holds: it does not fit. Fill at most three quarters.");
    else if (fill > 0.75)
        add("Boiler is " + one_decimal(100.0 * fill) +
            " % full, more than three quarters: it may foam or boil over.");
    if (fill < 0.25)
        add("Boiler is " + one_decimal(100.0 * fill) +
            " % full, less than a quarter: a heater inside may run dry. Look before heating.");
    return cautions;
}

} // namespace jarbook
