#include "core/record/stages_uncertainty.hpp"

#include "core/base/refusal.hpp"
#include "core/still/pot_run.hpp"
#include "texts/refusal.hpp"
#include "texts/stages_uncertainty.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace jarbook {

namespace {

// Slopes of the jars' strengths by something, from one step below to one above, within its range.
template <class F>
std::vector<double> slopes(F strengths, double at, double step, double lowest, double highest) {
    const double below = std::fmax(at - step, lowest);
    const double above = std::fmin(at + step, highest);
    const std::vector<double> low = strengths(below);
    std::vector<double> result = strengths(above);
    for (std::size_t i = 0; i < result.size(); ++i)
        result[i] = (result[i] - low[i]) / (above - below);
    return result;
}

void require_half_width(const char* argument, double value) {
    require_range(argument, value, least_half_width_pct, greatest_half_width_pct,
                  texts::unit::pct_vol, value == 0.0 ? texts::refusal::is_it_empty : "");
}

// Of the stages, by the jars' scatter alone: that of an M-estimate, psi(r) = r (1 - u^2)^2 and its
// slope (1 - u^2) (1 - 5 u^2), u the deviation over the biweight's reach (Street, Carroll and
// Ruppert, Am. Stat. 42 (1988) 152). Plain squares with the weights taken for fixed would come out
// a tenth too small, for the weights clip ordinary scatter, too.
double scatter_uncertainty(const Charge& charge, const StagesFit& fit,
                           const std::vector<double>& by_stages, double pressure_hpa) {
    const auto fitted = jar_strengths(charge, fit.jars, fit.stages, pressure_hpa);
    double volume = 0.0;
    double squares = 0.0; // sum V psi^2
    double slope = 0.0;   // sum V psi'
    double normal = 0.0;  // sum V f'^2
    double own = 0.0;     // sum (V f')^2
    for (std::size_t i = 0; i < fit.jars.size(); ++i) {
        const double v = fit.jars[i].volume;
        const double share = fit.weights[i] / v; // (1 - u^2)^2
        const double psi = share * (fit.jars[i].strength - fitted[i]);
        volume += v;
        squares += v * psi * psi;
        slope += v * std::sqrt(share) * (5.0 * std::sqrt(share) - 4.0);
        normal += v * by_stages[i] * by_stages[i];
        own += v * v * by_stages[i] * by_stages[i];
    }
    // E(sum V r^2) = variance of a jar's reading times (sum V - own / normal).
    const double variance = squares / (volume - own / normal);
    return std::sqrt(variance * own) / normal * volume / slope;
}

} // namespace

double stages_uncertainty(const Charge& charge, const std::vector<Lot>& all_jars,
                          double strength_tolerance, double charge_tolerance, double pressure_hpa) {
    require_half_width("strengthTolerance", strength_tolerance);
    require_half_width("chargeTolerance", charge_tolerance);
    const StagesFit fit = fit_stages(charge, all_jars, pressure_hpa);
    const std::size_t count = fit.jars.size();

    const auto by_stages =
        slopes([&](double stages) { return jar_strengths(charge, fit.jars, stages, pressure_hpa); },
               fit.stages, 0.01, lowest_stages, highest_stages);
    const auto by_charge = slopes(
        [&](double strength) {
            return jar_strengths({charge.volume, strength}, fit.jars, fit.stages, pressure_hpa);
        },
        charge.strength, 0.01, lowest_charge_strength, highest_charge_strength);

    // The fit solves sum w f' (q - f) = 0: d stages = sum w f' dq / sum w f'^2 for what moves the
    // jars together.
    double normal = 0.0;  // sum w f'^2
    double all = 0.0;     // d stages / d (all strengths alike), times normal
    double charged = 0.0; // d stages / d charge strength, times normal
    double weights = 0.0;
    double weights_squared = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double pull = fit.weights[i] * by_stages[i];
        normal += pull * by_stages[i];
        all += pull;
        charged -= pull * by_charge[i];
        weights += fit.weights[i];
        weights_squared += fit.weights[i] * fit.weights[i];
    }
    // Less than this many stages for a % vol of all jars alike, and it is rounding.
    if (!(normal > 1e-12 * weights))
        refuse(RefusalKind::impossible, "strengths", "", texts::stages_uncertainty::nothing_told);
    const double degrees = weights * weights / weights_squared - 1.0;
    const double t = quantile(boost::math::students_t(std::fmax(degrees, 1.0)), 0.975);
    const double scatter = 0.5 * t * scatter_uncertainty(charge, fit, by_stages, pressure_hpa);
    const double per_half_width = 1.0 / std::sqrt(3.0);
    return std::hypot(scatter, std::hypot(all * strength_tolerance, charged * charge_tolerance) *
                                   per_half_width / normal);
}

} // namespace jarbook
