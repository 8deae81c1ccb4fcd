#include "pot_run.hpp"

#include "r22.hpp"
#include "refusal.hpp"
#include "scales.hpp"
#include "strength.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <tuple>

namespace jarbook {

namespace {

// Newton doubles the right digits with each step: a last step of 2^-27 leaves rounding only.
constexpr int newton_bits = 28;
constexpr std::uintmax_t newton_limit = 100;

// Distillate below this mole fraction of the azeotrope's follows the law of infinite dilution.
constexpr double diluted = 1e-10;

template <class F>
double bracketed_newton(F f, double guess, double low, double high) {
    std::uintmax_t iterations = newton_limit;
    const double root = boost::math::tools::newton_raphson_iterate(
        f, std::clamp(guess, low, high), low, high, newton_bits, iterations);
    if (iterations >= newton_limit)
        refuse(RefusalKind::no_convergence, "", "", "the run's curve was not solved");
    return root;
}

// Value and slope of a polynomial.
template <std::size_t N>
std::pair<double, double> value_and_slope(const std::array<double, N>& c, double t) {
    double value = c[N - 1];
    double slope = 0.0;
    for (std::size_t k = N - 1; k-- > 0;) {
        slope = slope * t + value;
        value = value * t + c[k];
    }
    return {value, slope};
}
template <std::size_t N>
double value_of(const std::array<double, N>& c, double t) {
    double value = c[N - 1];
    for (std::size_t k = N - 1; k-- > 0;)
        value = value * t + c[k];
    return value;
}

// The polynomial through the values at the nodes of the Gauss-Legendre rule of N points: the rule
// itself gives the coefficients of its Legendre series, c_k = (2k+1)/2 sum_i w_i P_k(t_i) f(t_i).
// The polynomial's integral over the whole panel is the rule's.
template <unsigned N>
class GaussPolynomial {
    using Rule = boost::math::quadrature::gauss<double, N>;

public:
    static const GaussPolynomial& get() {
        static const GaussPolynomial only;
        return only;
    }
    const std::array<double, N>& nodes() const { return nodes_; }

    std::array<double, N> through(const std::array<double, N>& values) const {
        std::array<double, N> c{};
        for (std::size_t i = 0; i < N; ++i)
            for (std::size_t k = 0; k < N; ++k)
                c[k] += matrix_[i][k] * values[i];
        return c;
    }

private:
    GaussPolynomial() {
        static_assert(N % 2 == 0);
        std::array<double, N> weights;
        for (std::size_t i = 0; i < N / 2; ++i) {
            nodes_[N / 2 - 1 - i] = -Rule::abscissa()[i];
            nodes_[N / 2 + i] = Rule::abscissa()[i];
            weights[N / 2 - 1 - i] = weights[N / 2 + i] = Rule::weights()[i];
        }
        // P_k in powers of t, by (k+1) P_{k+1} = (2k+1) t P_k - k P_{k-1}.
        std::array<std::array<double, N>, N> legendre{};
        legendre[0][0] = 1.0;
        legendre[1][1] = 1.0;
        for (std::size_t k = 1; k + 1 < N; ++k)
            for (std::size_t j = 0; j < N; ++j)
                legendre[k + 1][j] = ((2.0 * k + 1.0) * (j > 0 ? legendre[k][j - 1] : 0.0) -
                                      k * legendre[k - 1][j]) /
                                     (k + 1.0);
        for (std::size_t i = 0; i < N; ++i)
            for (std::size_t k = 0; k < N; ++k) {
                const double factor = (k + 0.5) * weights[i] * value_of(legendre[k], nodes_[i]);
                for (std::size_t j = 0; j < N; ++j)
                    matrix_[i][j] += factor * legendre[k][j];
            }
    }

    std::array<double, N> nodes_;
    std::array<std::array<double, N>, N> matrix_{};
};

double strength_of_fraction(double fraction) {
    return r22::pct_vol_from_mass_fraction(mass_fraction_from_mole_fraction(fraction),
                                           r22::density_at_20c());
}

double strength_of(double ethanol_mol, double water_mol) {
    const double ethanol = ethanol_mol * ethanol_g_per_mol;
    return r22::pct_vol_from_mass_fraction(ethanol / (ethanol + water_mol * water_g_per_mol),
                                           r22::density_at_20c());
}

} // namespace

double distillate_fraction(const Equilibrium& equilibrium, double x, double stages) {
    const double whole = std::floor(stages);
    double y = x;
    for (int i = 0; i < static_cast<int>(whole); ++i)
        y = equilibrium.vapour_fraction(y);
    const double part = stages - whole;
    if (part > 0.0)
        y += part * (equilibrium.vapour_fraction(y) - y);
    return y;
}

PotRun::PotRun(double charge_strength, double stages, double pressure_hpa)
    : charge_strength_(charge_strength), stages_(stages), pressure_hpa_(pressure_hpa),
      equilibrium_(pressure_hpa) {
    require_wished_strength("chargeStrength", charge_strength);
    require_range("chargeStrength", charge_strength, lowest_charge_strength,
                  highest_charge_strength, "% vol",
                  charge_strength == 0.0 ? "Is the cell empty?"
                                         : "Next to the azeotrope (97.2 % vol) the vapour is "
                                           "hardly stronger than the boiler, and above it weaker");
    require_range("stages", stages, lowest_stages, highest_stages, "",
                  stages == 0.0 ? "Is the cell empty?" : "");
    require_pressure(pressure_hpa);
    azeotrope_ = equilibrium_.azeotrope_fraction();
    charge_fraction_ = mole_fraction_from_strength(charge_strength);
    charge_odds_ = (azeotrope_ - charge_fraction_) / charge_fraction_;
    charge_v_ = -std::log(charge_odds_);
    const double p = mass_fraction_from_mole_fraction(charge_fraction_);
    charge_mol_ = r22::density_at_20c()(p) / (charge_fraction_ * ethanol_g_per_mol +
                                              (1.0 - charge_fraction_) * water_g_per_mol);
    build_panels();
    first_strength_ = strength_of_fraction(local(0.0).y);
}

void PotRun::build_panels() {
    const auto& rule = GaussPolynomial<nodes>::get();
    const double end = std::log(diluted);
    std::array<double, nodes> lifts;
    std::array<double, nodes> rates;
    double boiled = 0.0;
    for (;;) {
        const double start = panel_start(panels_.size());
        for (std::size_t i = 0; i < nodes; ++i) {
            const Progress progress = start + 0.5 * panel_width * (1.0 + rule.nodes()[i]);
            const double odds = charge_odds_ * std::exp(progress);
            const double x = azeotrope_ / (1.0 + odds);
            const double y = jarbook::distillate_fraction(equilibrium_, x, stages_);
            lifts[i] = std::log(y / x * (azeotrope_ * odds / (1.0 + odds)) / (azeotrope_ - y));
            rates[i] = local_from(lifts[i], 0.0, progress).rate;
        }
        Panel& panel = panels_.emplace_back();
        panel.lift = rule.through(lifts);
        const std::array<double, nodes> rate = rule.through(rates);
        panel.boiled[0] = 0.0;
        for (std::size_t k = 0; k < nodes; ++k)
            panel.boiled[k + 1] = 0.5 * panel_width * rate[k] / static_cast<double>(k + 1);
        panel.boiled[0] = boiled - value_of(panel.boiled, -1.0);
        boiled = value_of(panel.boiled, 1.0);
        const double at_end = start + panel_width;
        const double lift = value_of(panel.lift, 1.0);
        panel.logit_at_end = charge_v_ - at_end + lift;
        panel.collected_at_end =
            volume_and_slope(local_from(lift, boiled, at_end), Amounts{}).first;
        if (panel.logit_at_end < end) {
            tail_start_ = at_end;
            tail_lift_ = lift;
            tail_boiled_ = boiled;
            tail_rate_ = 1.0 / std::expm1(lift);
            return;
        }
    }
}

PotRun::Local PotRun::local_from(double lift, double boiled, Progress progress) const {
    Local here;
    here.falling = std::exp(-progress);
    here.fallen = -std::expm1(-progress);
    const double odds = charge_odds_ / here.falling;
    const double lowering = std::exp(-lift);
    here.x = azeotrope_ / (1.0 + odds);
    here.y = azeotrope_ / (1.0 + odds * lowering);
    here.left = std::exp(-boiled);
    here.gone = -std::expm1(-boiled);
    // (1 + odds lowering) / (1 + odds), without overflow at the end of a run.
    here.rate =
        (here.falling + charge_odds_ * lowering) / (here.falling + charge_odds_) / (1.0 - lowering);
    return here;
}

PotRun::Local PotRun::local_in(const Panel& panel, double t, Progress progress) const {
    return local_from(value_of(panel.lift, t), value_of(panel.boiled, t), progress);
}

PotRun::Local PotRun::local(Progress progress) const {
    if (progress >= tail_start_)
        return local_from(tail_lift_, tail_boiled_ + (progress - tail_start_) * tail_rate_,
                          progress);
    const auto i = std::min(static_cast<std::size_t>(progress / panel_width), panels_.size() - 1);
    return local_in(panels_[i], 2.0 * (progress - panel_start(i)) / panel_width - 1.0, progress);
}

PotRun::Amounts PotRun::amounts(const Local& here) const {
    // What has left the boiler. x0 - x without cancellation: a (1 - x/a) (x0/a) (1 -
    // exp(-progress)).
    const double fall =
        charge_odds_ / (here.falling + charge_odds_) * charge_fraction_ * here.fallen;
    const double weaker = charge_mol_ * here.left * fall;
    return {charge_mol_ * here.gone * charge_fraction_ + weaker,
            charge_mol_ * here.gone * (1.0 - charge_fraction_) - weaker};
}

std::pair<double, double> PotRun::volume_and_slope(const Local& here, const Amounts& before) const {
    const Amounts all = amounts(here);
    const double ethanol = (all.ethanol_mol - before.ethanol_mol) * ethanol_g_per_mol;
    const double mass = ethanol + (all.water_mol - before.water_mol) * water_g_per_mol;
    const double running = mass_fraction_from_mole_fraction(here.y);
    const double p = mass > 0.0 ? std::clamp(ethanol / mass, 0.0, 1.0) : running;
    const auto [density, density_slope] = r22::density_at_20c().with_slope(p);
    const double mass_rate = charge_mol_ * here.left * here.rate *
                             (here.y * ethanol_g_per_mol + (1.0 - here.y) * water_g_per_mol);
    return {mass / density, mass_rate / density * (1.0 - density_slope / density * (running - p))};
}

PotRun::Progress PotRun::solve_volume(double volume, const Amounts& before, Progress low,
                                      Progress high, Progress guess) const {
    return bracketed_newton(
        [&](Progress progress) {
            const auto [filled, slope] = volume_and_slope(local(progress), before);
            return std::make_tuple(filled - volume, slope);
        },
        guess, low, high);
}

PotRun::Moment PotRun::at(Progress progress) const {
    const Local here = local(progress);
    const Amounts out = amounts(here);
    const double left = charge_mol_ * here.left;
    return {here.x, here.y, left, out.ethanol_mol, out.water_mol, left * here.rate};
}

double PotRun::strength(Progress progress) const {
    return strength_of_fraction(local(progress).y);
}

double PotRun::mean_strength(Progress progress) const {
    const Amounts out = amounts(local(progress));
    return progress > 0.0 ? strength_of(out.ethanol_mol, out.water_mol) : first_strength_;
}

double PotRun::boiler_strength(Progress progress) const {
    return progress > 0.0 ? strength_of_fraction(local(progress).x) : charge_strength_;
}

double PotRun::boiler_temperature_c(Progress progress) const {
    return equilibrium_.over(local(progress).x).temperature_k - 273.15;
}

double PotRun::collected(Progress progress) const {
    return volume_and_slope(local(progress), Amounts{}).first;
}

double PotRun::alcohol(Progress progress) const {
    return amounts(local(progress)).ethanol_mol * ethanol_g_per_mol / r22::density_at_20c()(1.0);
}

PotRun::Progress PotRun::when_collected(double volume) const {
    if (volume <= 0.0)
        return 0.0;
    const auto panel = std::lower_bound(
        panels_.begin(), panels_.end(), volume,
        [](const Panel& one, double wanted) { return one.collected_at_end < wanted; });
    if (panel == panels_.end()) {
        // What is left is all but water, whose volume falls with its amount.
        const double at_start = panels_.back().collected_at_end;
        const double guess = tail_start_ + std::log((1.0 - at_start) / (1.0 - volume)) / tail_rate_;
        // exp(-60) of the charge left is far below the last bit of the volume.
        return solve_volume(volume, Amounts{}, tail_start_, tail_start_ + 60.0 / tail_rate_, guess);
    }
    const auto i = static_cast<std::size_t>(panel - panels_.begin());
    const double low = i > 0 ? panels_[i - 1].collected_at_end : 0.0;
    const double share = (volume - low) / (panel->collected_at_end - low);
    return solve_volume(volume, Amounts{}, panel_start(i), panel_start(i + 1),
                        panel_start(i) + share * panel_width);
}

PotRun::Progress PotRun::when_running(double fraction) const {
    const double logit = std::log(fraction / (azeotrope_ - fraction));
    const auto panel =
        std::lower_bound(panels_.begin(), panels_.end(), logit,
                         [](const Panel& one, double wanted) { return one.logit_at_end > wanted; });
    if (panel == panels_.end())
        return charge_v_ + tail_lift_ - logit;
    const auto i = static_cast<std::size_t>(panel - panels_.begin());
    const double v_at_start = charge_v_ - panel_start(i);
    const double t = bracketed_newton(
        [&](double u) {
            const auto [lift, slope] = value_and_slope(panel->lift, u);
            return std::make_tuple(v_at_start - 0.5 * panel_width * (1.0 + u) + lift - logit,
                                   slope - 0.5 * panel_width);
        },
        0.0, -1.0, 1.0);
    return panel_start(i) + 0.5 * panel_width * (1.0 + t);
}

PotRun::Progress PotRun::when_jar_filled(Progress from, double volume) const {
    const Amounts before = amounts(local(from));
    // Blending contracts: the jar and what ran before it, put together, are less than their sum.
    const Progress late = when_collected(collected(from) + volume);
    return solve_volume(volume, before, from, late, late);
}

double PotRun::strength_between(Progress from, Progress to) const {
    const Amounts before = amounts(local(from));
    const Amounts after = amounts(local(to));
    return strength_of(after.ethanol_mol - before.ethanol_mol, after.water_mol - before.water_mol);
}

} // namespace jarbook
