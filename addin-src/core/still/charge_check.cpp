#include "core/still/charge_check.hpp"

#include "core/base/refusal.hpp"
#include "core/still/forecast.hpp"
#include "texts/charge_check.hpp"
#include "texts/unit.hpp"

namespace jarbook {

namespace {

constexpr double rounding_pct_vol = 0.05;
constexpr double fullest = 0.75;
constexpr double emptiest = 0.25;

} // namespace

std::string charge_cautions(double volume, double strength, double boiler_volume, double limit,
                            std::optional<double> stop_strength) {
    require_positive("volume", volume, "");
    require_wished_strength("strength", strength);
    // An empty cell would pass as water, and the caution would be missed.
    require_positive("strength", strength, texts::unit::pct_vol);
    require_positive("boilerVolume", boiler_volume, "");
    require_wished_strength("limit", limit);
    require_positive("limit", limit, texts::unit::pct_vol);
    require_range("limit", limit, 0.0, loosest_limit_pct_vol, texts::unit::pct_vol,
                  texts::charge_check::limit_hint);

    std::string cautions;
    const auto add = [&](const std::string& caution) {
        if (!cautions.empty())
            cautions.push_back('\n');
        cautions += caution;
    };
    if (strength > limit + rounding_pct_vol)
        add(texts::charge_check::too_strong{.strength = fixed_text(strength, 1),
                                            .limit = fixed_text(limit, 1)}
                .text());
    const double fill = volume / boiler_volume;
    const std::string full = fixed_text(100.0 * fill, 1);
    if (fill > 1.0)
        add(texts::charge_check::does_not_fit{.fill = full}.text());
    else if (fill > fullest)
        add(texts::charge_check::too_full{.fill = full}.text());
    if (fill < emptiest)
        add(texts::charge_check::too_empty{.fill = full}.text());
    if (stop_strength) {
        require_range("strength", strength, lowest_charge_strength, highest_charge_strength,
                      texts::unit::pct_vol, texts::charge_check::no_run_hint);
        const double left =
            left_in_boiler({volume, strength}, *stop_strength, "stopStrength") / boiler_volume;
        if (left < emptiest && fill >= emptiest)
            add(texts::charge_check::runs_low{.fill = fixed_text(100.0 * left, 1),
                                              .stop = number_text(*stop_strength)}
                    .text());
    }
    return cautions;
}

} // namespace jarbook
