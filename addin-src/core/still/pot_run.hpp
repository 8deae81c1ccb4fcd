// A pot-still run: differential distillation of ethanol-water at constant pressure, per unit of
// charge.
//
// `stages` equilibrium stages, 1...10: y = V(V(...V(x))), V the equilibrium's vapour
// (equilibrium.hpp); between whole numbers linear in y. The run is Rayleigh's equation along boiler
// composition (rayleigh.hpp). What the distillate holds is what has left the boiler, so that mass
// and alcohol balance by construction. Volumes at 20 degC by R 22, all of the distillate put
// together. Amounts and compositions are exact to 1e-8 relative (tests/core/test_forecast.cpp).
#pragma once

#include "core/still/equilibrium.hpp"
#include "core/still/rayleigh.hpp"

#include <utility>
#include <vector>

namespace jarbook {

inline constexpr double lowest_stages = 1.0;
inline constexpr double highest_stages = 10.0;
inline constexpr double lowest_charge_strength = 1.0;
// Just below the azeotrope, measured (97.2 % vol) and the model's (97.6...98.3 from 1100 to 600
// hPa).
inline constexpr double highest_charge_strength = 97.0;

// Mole fraction that a still of so many stages delivers over a boiler of mole fraction x.
double distillate_fraction(const Equilibrium& equilibrium, double x, double stages);

class PotRun {
public:
    // A charge of 1 unit of volume at 20 degC: 1...97 % vol, stages 1...10, pressure 600...1100
    // hPa. Stronger charges are refused: at the azeotrope the vapour is no stronger than the
    // boiler, above it weaker, and such a run does not fall.
    PotRun(double charge_strength, double stages, double pressure_hpa);

    // How far the run is: 0 at the first drop, without end. See rayleigh.hpp.
    using Progress = RayleighCurve::Progress;

    // Everything at one moment of the run. Amounts in mol per L of charge (kmol per m3).
    struct Moment {
        double boiler_fraction;     // mole fraction of ethanol in the boiler
        double distillate_fraction; // mole fraction of ethanol running
        double left_mol;            // in the boiler
        double ethanol_mol;         // collected
        double water_mol;           // collected
        double rate_mol;            // distilled per unit of progress
    };
    Moment at(Progress progress) const;

    // Strength running, of all collected, and in the boiler: % vol at 20 degC.
    double strength(Progress progress) const;
    double first_strength() const { return first_strength_; }
    double mean_strength(Progress progress) const;
    double boiler_strength(Progress progress) const;
    double boiler_temperature_c(Progress progress) const;
    // Collected, per unit of charge volume, all together at 20 degC; 0 to 1.
    double collected(Progress progress) const;
    // Left in the boiler, per unit of charge volume, at 20 degC.
    double left(Progress progress) const;
    // Pure alcohol collected, per unit of charge volume.
    double alcohol(Progress progress) const;

    // When that much has been collected; 0 <= volume < 1, not checked.
    Progress when_collected(double volume) const;
    // When the distillate has fallen to that mole fraction; above 0, at most the first, not
    // checked.
    Progress when_running(double distillate_fraction) const;
    // When, from a moment on, that much has run into an empty jar. Refuses (impossible) as much as
    // is left in the boiler by then, or more.
    Progress when_jar_filled(Progress from, double volume) const;
    // Strength of what runs between two moments.
    double strength_between(Progress from, Progress to) const;

    const Equilibrium& equilibrium() const { return equilibrium_; }

private:
    // The run's two functions and what follows from them by exponentials, at one moment.
    struct Local {
        double falling; // exp(-progress)
        double fallen;  // 1 - exp(-progress)
        double x;
        double y;
        double left; // n/n0
        double gone; // 1 - n/n0
        double rate; // g
    };
    struct Amounts {
        double ethanol_mol = 0.0;
        double water_mol = 0.0;
    };

    RayleighCurve curve(double stages) const;
    Local local(Progress progress) const;
    Amounts amounts(const Local& here) const;
    // Volume of what was collected beyond `before`, and its slope by progress.
    std::pair<double, double> volume_and_slope(const Local& here, const Amounts& before) const;
    Progress solve_volume(double volume, const Amounts& before, Progress low, Progress high,
                          Progress guess) const;

    double charge_strength_;
    Equilibrium equilibrium_;
    double charge_fraction_;
    double azeotrope_;
    double charge_odds_; // exp(-v) of the charge
    double charge_mol_;  // per unit of charge volume
    RayleighCurve curve_;
    double first_strength_;
    // Where the curve's panels meet, from its start: what has been collected there, and the
    // progress for each volume more.
    struct Joint {
        double collected;
        double progress_per_volume;
    };
    std::vector<Joint> joints_;
};

} // namespace jarbook
