#include "core/still/stages.hpp"

#include "core/base/refusal.hpp"
#include "core/still/pot_run.hpp"
#include "texts/stages.hpp"

#include <algorithm>
#include <boost/math/statistics/univariate_statistics.hpp>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

namespace jarbook {

namespace {

// What a good alcoholometer and thermometer leave open in a jar, % vol; no spread is taken smaller.
constexpr double least_spread_pct = 0.2;
// How far the jars may lie below one stage on average and still be called a plain pot.
constexpr double readings_explain_pct = 0.5;
// A rise along the jars beyond this is no noise.
constexpr double rise_pct = 1.0;
// Half of the jars farther than this from every still: not a run.
constexpr double far_off_pct = 5.0;
constexpr std::size_t fewest_jars = 3;
// A bound on work, which grows with the square of the jars.
constexpr std::size_t most_jars = 1000;
constexpr double biweight = 4.685;
constexpr double spread_per_median = 1.4826; // standard deviation of a normal one over its median

double median(std::vector<double> values) {
    return boost::math::statistics::median(values); // which reorders them
}

// Rise of the strengths from the first jar's middle to the last's, by the median of all pairs'
// slopes (Theil and Sen), which one bad reading does not turn.
double rise_along(const std::vector<Lot>& jars) {
    std::vector<double> middles;
    double before = 0.0;
    for (const Lot& jar : jars) {
        middles.push_back(before + 0.5 * jar.volume);
        before += jar.volume;
    }
    // A jar next to nothing beside the others has no place of its own.
    std::vector<double> slopes;
    for (std::size_t i = 0; i < jars.size(); ++i)
        for (std::size_t j = i + 1; j < jars.size(); ++j)
            if (middles[j] > middles[i])
                slopes.push_back((jars[j].strength - jars[i].strength) / (middles[j] - middles[i]));
    if (slopes.empty())
        return 0.0;
    return median(slopes) * (middles.back() - middles.front());
}

// Strengths of the jars less those that a still of so many stages gives.
std::vector<double> deviations(const Charge& charge, const std::vector<Lot>& jars, double stages,
                               double pressure_hpa) {
    std::vector<double> off = jar_strengths(charge, jars, stages, pressure_hpa);
    for (std::size_t i = 0; i < jars.size(); ++i)
        off[i] = jars[i].strength - off[i];
    return off;
}

// Minimum of f over the stages: the best of a few places, from below until it has got worse twice
// running, then Brent's method between its neighbours.
template <class F>
double bracketed_minimum(F f) {
    static constexpr double places[] = {1.0, 1.15, 1.4, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0};
    constexpr std::size_t last = std::size(places) - 1;
    std::size_t best = 0;
    double least = HUGE_VAL;
    for (std::size_t i = 0; i <= last && i < best + 3; ++i)
        if (const double value = f(places[i]); value < least) {
            least = value;
            best = i;
        }
    const double low = places[best > 0 ? best - 1 : 0];
    const double high = places[std::min(best + 1, last)];
    std::uintmax_t iterations = 60;
    // 20 bits: about 1e-6 of the stages; a minimum is flat, and more bits only measure rounding.
    const auto [stages, value] =
        boost::math::tools::brent_find_minima(f, low, high, 20, iterations);
    if (iterations >= 60)
        refuse(RefusalKind::no_convergence, "strengths", "", texts::stages::not_found);
    return value < least ? stages : places[best];
}

void require_a_run(const Charge& charge, const std::vector<Lot>& jars, double pressure_hpa) {
    if (jars.size() < fewest_jars)
        refuse(RefusalKind::impossible, "volumes", std::to_string(jars.size()),
               jars.size() == 1
                   ? std::string(texts::stages::one_jar)
                   : texts::stages::few_jars{.jars = std::to_string(jars.size())}.text());
    if (jars.size() > most_jars)
        refuse(RefusalKind::impossible, "volumes", std::to_string(jars.size()),
               texts::stages::many_jars{.jars = std::to_string(jars.size()),
                                        .most = std::to_string(most_jars)}
                   .text());
    const double azeotrope = azeotrope_strength(pressure_hpa);
    for (const Lot& jar : jars)
        if (jar.strength > azeotrope) {
            const ArgumentPlace place("strengths", jar.row);
            refuse(RefusalKind::impossible, place, number_text(jar.strength),
                   texts::stages::above_azeotrope{.place = place.text(),
                                                  .strength = pct_vol_text(jar.strength),
                                                  .azeotrope = pct_vol_text(azeotrope)}
                       .text());
        }
    double volume = 0.0;
    for (const Lot& jar : jars)
        volume += jar.volume;
    const double alcohol = pure_alcohol(jars);
    const double charged = lot_pure_alcohol({charge.volume, charge.strength});
    if (alcohol > charged)
        refuse(RefusalKind::impossible, "strengths", number_text(alcohol),
               texts::stages::more_alcohol{.jars = number_text(alcohol),
                                           .charge = number_text(charged)}
                   .text());
    if (volume >= charge.volume)
        refuse(RefusalKind::impossible, "volumes", number_text(volume),
               texts::stages::more_volume{.jars = number_text(volume),
                                          .charge = number_text(charge.volume)}
                   .text());
    if (const double rise = rise_along(jars); rise > rise_pct)
        refuse(RefusalKind::impossible, "strengths", number_text(rise),
               texts::stages::rising{.rise = pct_vol_text(rise)}.text());
}

// Refuses jars whose best fit lies at an end of the range while most of them lie beyond it.
void refuse_beyond(double stages, const std::vector<double>& off) {
    const double middle = median(off);
    if (stages == lowest_stages && middle < -readings_explain_pct)
        refuse(RefusalKind::impossible, "strengths", number_text(middle),
               texts::stages::below_one{.off = pct_vol_text(-middle)}.text());
    if (stages == highest_stages && middle > readings_explain_pct)
        refuse(RefusalKind::impossible, "strengths", number_text(middle),
               texts::stages::above_ten{.off = pct_vol_text(middle)}.text());
}

} // namespace

std::vector<double> jar_strengths(const Charge& charge, const std::vector<Lot>& jars, double stages,
                                  double pressure_hpa) {
    const PotRun run(charge.strength, stages, pressure_hpa);
    std::vector<double> strengths;
    strengths.reserve(jars.size());
    PotRun::Progress from = 0.0;
    for (const Lot& jar : jars) {
        const PotRun::Progress to = run.when_jar_filled(from, jar.volume / charge.volume);
        strengths.push_back(run.strength_between(from, to));
        from = to;
    }
    return strengths;
}

double fitted_stages(const Charge& charge, const std::vector<Lot>& jars, double pressure_hpa) {
    return fit_stages(charge, jars, pressure_hpa).stages;
}

StagesFit fit_stages(const Charge& charge, const std::vector<Lot>& all_jars, double pressure_hpa) {
    require_positive("chargeVolume", charge.volume, "");
    // Also checks strength and pressure.
    const PotRun plain(charge.strength, lowest_stages, pressure_hpa);
    std::vector<Lot> jars;
    for (const Lot& jar : all_jars)
        if (jar.volume > 0.0)
            jars.push_back(jar);
    require_a_run(charge, jars, pressure_hpa);

    // Absolute deviations first: their best fit goes through the bulk of the jars.
    const auto absolute = [&](double stages) {
        const auto off = deviations(charge, jars, stages, pressure_hpa);
        double sum = 0.0;
        for (std::size_t i = 0; i < jars.size(); ++i)
            sum += jars[i].volume * std::fabs(off[i]);
        return sum;
    };
    const double through_bulk = bracketed_minimum(absolute);
    std::vector<double> sizes = deviations(charge, jars, through_bulk, pressure_hpa);
    refuse_beyond(through_bulk, sizes);
    for (double& off : sizes)
        off = std::fabs(off);
    const double typical = median(sizes);
    if (typical > far_off_pct)
        refuse(RefusalKind::impossible, "strengths", number_text(typical),
               texts::stages::no_still{.off = pct_vol_text(typical)}.text());

    // Then least squares, each jar with its volume and with what its place in that spread leaves
    // it.
    const double reach = biweight * std::fmax(spread_per_median * typical, least_spread_pct);
    std::vector<double> weights;
    for (std::size_t i = 0; i < jars.size(); ++i) {
        const double inside = 1.0 - std::fmin(sizes[i] * sizes[i] / (reach * reach), 1.0);
        weights.push_back(jars[i].volume * inside * inside);
    }
    const double stages = bracketed_minimum([&](double trial) {
        const auto off = deviations(charge, jars, trial, pressure_hpa);
        double sum = 0.0;
        for (std::size_t i = 0; i < jars.size(); ++i)
            sum += weights[i] * off[i] * off[i];
        return sum;
    });
    refuse_beyond(stages, deviations(charge, jars, stages, pressure_hpa));
    return {stages, std::move(jars), std::move(weights)};
}

} // namespace jarbook
