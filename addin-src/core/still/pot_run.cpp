#include "core/still/pot_run.hpp"

#include "core/base/refusal.hpp"
#include "core/base/roots.hpp"
#include "core/mixture/composition.hpp"
#include "core/mixture/r22.hpp"
#include "core/mixture/strength.hpp"
#include "core/mixture/temperature.hpp"
#include "texts/pot_run.hpp"
#include "texts/refusal.hpp"
#include "texts/unit.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <tuple>

namespace jarbook {

namespace {

// A root at a stretch's very end is not to lie at the bracket's: there Newton would bisect.
constexpr double margin = 0.01;

double strength_of_fraction(double fraction) {
    return r22::pct_vol_from_mass_fraction(mass_fraction_from_mole_fraction(fraction),
                                           r22::density_at_20c());
}

double strength_of(double ethanol_mol, double water_mol) {
    const double ethanol = ethanol_mol * ethanol_g_per_mol;
    return r22::pct_vol_from_mass_fraction(ethanol / (ethanol + water_mol * water_g_per_mol),
                                           r22::density_at_20c());
}

// Mole fraction of a charge, with everything that a run takes checked.
double checked_charge_fraction(double charge_strength, double stages, double pressure_hpa) {
    require_wished_strength("chargeStrength", charge_strength);
    require_range("chargeStrength", charge_strength, lowest_charge_strength,
                  highest_charge_strength, texts::unit::pct_vol,
                  charge_strength == 0.0 ? texts::refusal::is_it_empty
                                         : texts::pot_run::too_strong);
    require_range("stages", stages, lowest_stages, highest_stages, "",
                  stages == 0.0 ? texts::refusal::is_it_empty : "");
    require_pressure(pressure_hpa);
    return mole_fraction_from_strength(charge_strength);
}

double mol_per_l(double fraction) {
    return r22::density_at_20c()(mass_fraction_from_mole_fraction(fraction)) /
           (fraction * ethanol_g_per_mol + (1.0 - fraction) * water_g_per_mol);
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
    : charge_strength_(charge_strength), equilibrium_(pressure_hpa),
      charge_fraction_(checked_charge_fraction(charge_strength, stages, pressure_hpa)),
      azeotrope_(equilibrium_.azeotrope_fraction()),
      charge_odds_((azeotrope_ - charge_fraction_) / charge_fraction_),
      charge_mol_(mol_per_l(charge_fraction_)), curve_(curve(stages)),
      first_strength_(strength_of_fraction(
          jarbook::distillate_fraction(equilibrium_, charge_fraction_, stages))) {
    for (std::size_t i = 0; i <= curve_.panels(); ++i) {
        const Progress joint = i > 0 ? curve_.end_of_panel(i - 1) : 0.0;
        const auto [volume, slope] = volume_and_slope(local(joint), Amounts{});
        joints_.push_back({volume, 1.0 / slope});
    }
}

RayleighCurve PotRun::curve(double stages) const {
    const auto lift = [&](double v) {
        const double odds = std::exp(-v);
        const double x = azeotrope_ / (1.0 + odds);
        const double y = jarbook::distillate_fraction(equilibrium_, x, stages);
        // ln(y / (a - y)) - ln(x / (a - x)), with a - x = odds x.
        return std::log(odds * y / (azeotrope_ - y));
    };
    return {lift, -std::log(charge_odds_)};
}

PotRun::Local PotRun::local(Progress progress) const {
    const auto [lift, boiled] = curve_.at(progress);
    Local here;
    here.falling = std::exp(-progress);
    here.fallen = -std::expm1(-progress);
    const double odds = charge_odds_ / here.falling;
    const double lowering = std::exp(-lift);
    here.x = azeotrope_ / (1.0 + odds);
    here.y = azeotrope_ / (1.0 + odds * lowering);
    here.left = std::exp(-boiled);
    here.gone = -std::expm1(-boiled);
    // RayleighCurve::rate, with the exponentials that are there already.
    here.rate =
        (here.falling + charge_odds_ * lowering) / (here.falling + charge_odds_) / (1.0 - lowering);
    return here;
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
    // Newton doubles the right digits with each step: a last step of 2^-23 leaves some 1e-14.
    return newton_root(
        [&](Progress progress) {
            const auto [filled, slope] = volume_and_slope(local(progress), before);
            return std::make_tuple(filled - volume, slope);
        },
        std::clamp(guess, low, high), low, high, 24, texts::pot_run::not_solved);
}

PotRun::Moment PotRun::at(Progress progress) const {
    const Local here = local(progress);
    const Amounts out = amounts(here);
    const double left = charge_mol_ * here.left;
    return {here.x, here.y, left, out.ethanol_mol, out.water_mol, left * here.rate};
}

double PotRun::strength(Progress progress) const {
    return progress > 0.0 ? strength_of_fraction(local(progress).y) : first_strength_;
}

double PotRun::mean_strength(Progress progress) const {
    const Amounts out = amounts(local(progress));
    return progress > 0.0 ? strength_of(out.ethanol_mol, out.water_mol) : first_strength_;
}

double PotRun::boiler_strength(Progress progress) const {
    return progress > 0.0 ? strength_of_fraction(local(progress).x) : charge_strength_;
}

double PotRun::boiler_temperature_c(Progress progress) const {
    return equilibrium_.over(local(progress).x).temperature_k - zero_celsius_k;
}

double PotRun::collected(Progress progress) const {
    return volume_and_slope(local(progress), Amounts{}).first;
}

double PotRun::left(Progress progress) const {
    const Local here = local(progress);
    return charge_mol_ * here.left / mol_per_l(here.x);
}

double PotRun::alcohol(Progress progress) const {
    return amounts(local(progress)).ethanol_mol * ethanol_g_per_mol /
           r22::density_at_20c().ethanol();
}

PotRun::Progress PotRun::when_collected(double volume) const {
    if (volume <= 0.0)
        return 0.0;
    const auto joint =
        std::lower_bound(joints_.begin() + 1, joints_.end(), volume,
                         [](const Joint& one, double wanted) { return one.collected < wanted; });
    if (joint == joints_.end()) {
        // What is left is all but water, whose volume falls with its amount.
        const Progress start = curve_.end_of_panel(curve_.panels() - 1);
        const double boiled = std::log((1.0 - joints_.back().collected) / (1.0 - volume));
        // exp(-60) of the charge left is far below the last bit of the volume.
        return solve_volume(volume, Amounts{}, start - margin, start + 60.0 / curve_.tail_rate(),
                            start + boiled / curve_.tail_rate());
    }
    const auto i = static_cast<std::size_t>(joint - joints_.begin()) - 1; // the panel
    const Progress low = i > 0 ? curve_.end_of_panel(i - 1) : 0.0;
    const Progress high = curve_.end_of_panel(i);
    // The guess is cubic, by values and slopes at both ends: two Newton steps are left.
    const Joint& before = *(joint - 1);
    const double step = joint->collected - before.collected;
    const double x = (volume - before.collected) / step;
    const double a = before.progress_per_volume * step;
    const double b = joint->progress_per_volume * step;
    const double d = high - low;
    const double guess = low + x * (a + x * (3.0 * d - 2.0 * a - b + x * (a + b - 2.0 * d)));
    return solve_volume(volume, Amounts{}, i > 0 ? low - margin : 0.0, high + margin, guess);
}

PotRun::Progress PotRun::when_running(double fraction) const {
    return curve_.when_logit(std::log(fraction / (azeotrope_ - fraction)));
}

PotRun::Progress PotRun::when_jar_filled(Progress from, double volume) const {
    const Local here = local(from);
    // All that is left in the boiler, as it is.
    const double most = charge_mol_ * here.left / mol_per_l(here.x);
    if (!(volume < most))
        refuse(RefusalKind::impossible, "volumes", number_text(volume),
               texts::pot_run::nothing_left);
    const Amounts before = amounts(here);
    // Put together, the jar and what ran before it come to less than their sum where blending
    // contracts, and to a little more where both are weak: the end is sought from the sum on.
    constexpr double nearly_all = 1.0 - 1e-9;
    const Progress late = when_collected(std::fmin(collected(from) + volume, nearly_all));
    Progress high = late + margin;
    for (double step = margin; volume_and_slope(local(high), before).first < volume; step *= 2.0)
        high += step;
    return solve_volume(volume, before, from, high, late);
}

double PotRun::strength_between(Progress from, Progress to) const {
    const Amounts before = amounts(local(from));
    const Amounts after = amounts(local(to));
    const double ethanol = after.ethanol_mol - before.ethanol_mol;
    const double water = after.water_mol - before.water_mol;
    // Of next to nothing the difference is rounding; its strength is that of its middle.
    constexpr double next_to_nothing = 1e-8;
    if (ethanol + water < next_to_nothing * charge_mol_)
        return strength(0.5 * (from + to));
    return strength_of(ethanol, water);
}

} // namespace jarbook
